"""The desk: what is typed, what it comes to, and what is wrong beside it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.staged_session import ASKED, REFERENCE
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QStyle, QStyleOptionComboBox

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.gui.band_form import BandForm, Tolerance, band_in_words
from biofeedback.gui.desk import Desk
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY
from biofeedback.training.band import Band
from biofeedback.training.prescription import (
    BandOn,
    ClockRule,
    FeedbackMode,
    StartBy,
)
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Joint, Setup, Sides

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from biofeedback.gui.field import Field
    from biofeedback.training.prescription import Prescription


@pytest.fixture
def desk(qtbot: QtBot) -> Desk:
    made = Desk(ASKED, athlete="A7")
    qtbot.addWidget(made)
    made.show()
    return made


def retype(field: Field, text: str) -> None:
    field.line.selectAll()
    QTest.keyClick(field.line, Qt.Key.Key_Delete)
    QTest.keyClicks(field.line, text)
    QTest.keyClick(field.line, Qt.Key.Key_Return)


# The prescription.


def test_what_goes_in_comes_out(desk: Desk) -> None:
    assert desk.prescription() == ASKED


@pytest.mark.parametrize(
    "asked",
    [
        replace(ASKED, reference=None),
        replace(ASKED, band=Band.at_least(192.0), ceiling_n=None),
        replace(ASKED, band=Band(100 / 3, 200 / 3)),  # not written exactly
        replace(ASKED, clock=ClockRule.BANKED, band_on=BandOn.EACH_SIDE),
        replace(ASKED, feedback=FeedbackMode.UNSEEN, balance_tolerance_points=None),
    ],
)
def test_every_prescription_survives_the_form(
    qtbot: QtBot, asked: Prescription
) -> None:
    desk = Desk(asked, athlete="A7")
    qtbot.addWidget(desk)
    assert desk.prescription() == asked


def test_a_band_without_an_upper_edge_has_no_centre(desk: Desk) -> None:
    band = desk.form.band
    desk.form.fill(replace(ASKED, band=Band.at_least(192.0), ceiling_n=None))
    for told in (band.centre.label.text(), band.centre.line.accessibleName()):
        assert told == "At least"
    assert "Lower edge" in band.centre.line.toolTip()
    assert "centre" not in band.in_percent.accessibleName()
    desk.form.fill(ASKED)
    assert band.centre.label.text() == band.centre.line.accessibleName() == "Centre"


def test_typed_values_are_read(desk: Desk) -> None:
    retype(desk.form.hold, "12,5")  # a comma is a point
    retype(desk.form.reps, "4")
    retype(desk.form.ceiling, "")
    desk.form.shown.setCurrentIndex(desk.form.shown.findData(FeedbackMode.UNSEEN))
    asked = desk.prescription()
    assert asked is not None
    assert (asked.hold_s, asked.reps, asked.ceiling_n) == (12.5, 4, None)
    assert asked.feedback is FeedbackMode.UNSEEN


def test_a_working_side_is_a_side_of_the_task(desk: Desk) -> None:
    desk.form.band_on.setCurrentIndex(desk.form.band_on.findData(BandOn.LEFT))
    asked = desk.prescription()
    assert asked is not None
    assert asked.task.sides is Sides.LEFT


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("hold", "abc"),
        ("hold", "0"),
        ("hold", "nan"),
        ("hold", ""),
        ("reps", "2.5"),
        ("reps", "0"),
        ("rest", "-1"),
        ("ceiling", "50"),  # below the band
        ("balance", "60"),
        ("reference", "x"),
        ("reference", "0"),
    ],
)
def test_wrong_input_is_kept_and_said_beside_the_field(
    desk: Desk, name: str, text: str
) -> None:
    field: Field = getattr(desk.form, name)
    started: list[object] = []
    desk.start_wanted.connect(started.append)
    retype(field, text)
    desk.start.click()
    assert started == []
    assert field.text == text
    assert field.error.text() in desk.form.problems.text()
    assert field.error.text() == field.line.toolTip()
    assert field.error.text()[0].isupper()
    assert field.error.text().endswith(".")
    assert desk.form.problems.isVisible()
    assert "needs another value" in desk.messages.message.text()
    # And put right:
    retype(field, {"reference": "240", "ceiling": "190"}.get(name, "5"))
    desk.start.click()
    assert not desk.form.problems.isVisible()
    assert field.error.text() not in field.line.toolTip() or not field.error.text()
    assert len(started) == 1


def test_each_field_says_its_own_error_at_the_same_time(desk: Desk) -> None:
    form = desk.form
    wrong = {
        form.hold: "0",
        form.rest: "x",
        form.reps: "2.5",
        form.ceiling: "50",
        form.balance: "60",
        form.reference: "y",
        form.band.centre: "z",
    }
    for field, text in wrong.items():
        field.line.setText(text)
    desk.start.click()
    assert all(field.error.text() for field in wrong)
    assert form.problems.toolTip().count("\n") == len(wrong) - 1


def test_clearing_a_field_clears_its_error(desk: Desk) -> None:
    retype(desk.form.ceiling, "x")
    assert desk.form.ceiling.error.text()
    desk.form.ceiling.line.selectAll()
    QTest.keyClick(desk.form.ceiling.line, Qt.Key.Key_Delete)
    assert not desk.form.ceiling.error.text()
    assert "Empty for none" in desk.form.ceiling.line.toolTip()


def test_another_prescription_fills_the_form_and_is_told_once(desk: Desk) -> None:
    told: list[Prescription] = []
    desk.planned.connect(told.append)
    setup = Setup(Joint.KNEE, angle_deg=60.0, lever_arm_m=0.35)
    others = [
        replace(ASKED, reference=None, balance_tolerance_points=None),
        replace(
            ASKED,
            task=replace(ASKED.task, setup=setup, key="k-1", sides=Sides.LEFT),
            band_on=BandOn.LEFT,
            sets=3,
            start=StartBy.KEY,
            feedback=FeedbackMode.FADING,
            faded_sessions=4,
            grace_s=0.5,
            hold_s=7.25,
        ),
        replace(ASKED, band=Band.at_least(192.0), ceiling_n=None),
        replace(ASKED, feedback=FeedbackMode.UNSEEN, clock=ClockRule.BANKED),
        ASKED,
    ]
    for asked in others:
        desk.form.fill(asked)
        assert desk.prescription() == asked
    assert told == others


@pytest.mark.parametrize("mode", FeedbackMode)
def test_each_way_of_showing_the_force_can_be_chosen(
    desk: Desk, mode: FeedbackMode
) -> None:
    desk.form.shown.setCurrentIndex(desk.form.shown.findData(mode))
    asked = desk.prescription()
    assert asked is not None
    assert asked.feedback is mode


def test_a_new_reference_moves_the_band_with_it(desk: Desk) -> None:
    new = replace(REFERENCE, force_n=300.0, date="2026-11-25", source="t-1")
    desk.form.take_reference(new)
    asked = desk.prescription()
    assert asked is not None
    assert asked.reference == new
    assert asked.band == Band(135.0, 165.0)


def test_a_start_takes_what_stands_there_without_enter(desk: Desk) -> None:
    desk.form.band.centre.line.selectAll()
    QTest.keyClicks(desk.form.band.centre.line, "60")
    asked = desk.prescription()
    assert asked is not None
    assert asked.band == Band.from_points_of_reference(60, 5, reference_n=240)


def test_a_typed_reference_is_dated_and_says_where_it_is_from(desk: Desk) -> None:
    assert "other side's best" in desk.form.origin.text()
    assert REFERENCE.date in desk.form.origin.text()
    retype(desk.form.reference, "300")
    asked = desk.prescription()
    assert asked is not None
    assert asked.reference is not None
    assert asked.reference.origin is Origin.TYPED
    assert asked.reference.definition is Definition.PEAK
    assert len(asked.reference.date) == 10
    # The band is a share of the reference and moves with it: 45 to 55 %.
    assert asked.band == Band(135.0, 165.0)
    assert "typed number" in desk.form.origin.text()


# The band.


@pytest.fixture
def form(qtbot: QtBot) -> BandForm:
    made = BandForm()
    qtbot.addWidget(made)
    made.set_band(Band(151.2, 184.8), reference_n=240.0)
    made.choose(in_percent=True)
    return made


def test_the_two_tolerances_are_spelt_out(form: BandForm) -> None:
    """70 % of 240 N: ± 10 % of the centre is not ± 10 points of the reference."""
    form.choose(tolerance=Tolerance.OF_CENTRE)
    assert (form.centre.text, form.tolerance.text) == ("70", "10")
    assert form.band == Band(151.2, 184.8), "another spelling is the same band"
    form.choose(tolerance=Tolerance.OF_REFERENCE)
    assert form.tolerance.text == "7"
    retype(form.tolerance, "10")
    assert form.band == Band(144.0, 192.0)
    form.choose(tolerance=Tolerance.OF_CENTRE)
    retype(form.tolerance, "10")
    assert form.band.lower_n == pytest.approx(0.9 * 168, rel=1e-3)
    assert "% of the centre" in form.spelling.currentText()


@pytest.mark.parametrize(
    ("low_pct", "high_pct", "words"),
    [
        # Common practice, no source: with a reference of 240 N.
        (25, 40, "60–96 N  =  25–40 % of 240 N"),
        (10, 20, "24–48 N  =  10–20 % of 240 N"),
        (15, 20, "36–48 N  =  15–20 % of 240 N"),
    ],
)
def test_a_band_in_words(low_pct: float, high_pct: float, words: str) -> None:
    band = Band.from_percent(low_pct, high_pct, reference_n=240.0)
    assert band_in_words(band, reference_n=240.0) == words


def test_an_open_band_in_words() -> None:
    words = band_in_words(Band.at_least(192.0), reference_n=240.0)
    assert words == "192 N or more  =  80 % of 240 N or more"
    assert band_in_words(Band(10, 20), reference_n=None) == "10–20 N"


def test_nudges_move_by_the_step_that_is_shown(form: BandForm) -> None:
    assert form.step_n == 6.0  # 3 % of 168 N, rounded up
    assert "6 N" in form.up.text()
    changed: list[Band] = []
    form.changed.connect(lambda: changed.append(form.band))
    form.up.click()
    assert form.band == Band(157.2, 190.8)
    form.down.click()
    form.wider.click()
    assert form.band.width_n == pytest.approx(33.6 + 6)
    form.narrower.click()
    assert form.band.centre_n == pytest.approx(168.0)
    assert len(changed) == 4


def test_a_band_never_closes_and_never_goes_under_zero(form: BandForm) -> None:
    for _ in range(50):
        form.narrower.click()
    assert form.band.width_n > 0
    for _ in range(200):
        form.down.click()
    assert form.band.lower_n == 0


def test_no_upper_edge_and_back(form: BandForm) -> None:
    form.choose(tolerance=Tolerance.AT_LEAST)
    assert form.band == Band.at_least(151.2)
    assert not form.tolerance.isEnabled()
    form.choose(tolerance=Tolerance.NEWTONS)
    assert not form.band.open_above
    assert form.tolerance.isEnabled()


def test_percent_without_a_reference_is_refused(form: BandForm) -> None:
    form.set_reference(None)
    assert form.band == Band(151.2, 184.8)
    assert form.centre.text == "168"
    form.choose(in_percent=True)
    retype(form.centre, "50")
    assert form.centre.error.text()
    assert form.band == Band(151.2, 184.8)


def test_the_field_that_needs_the_reference_is_the_one_that_is_named(
    form: BandForm,
) -> None:
    form.set_reference(None)
    form.choose(in_percent=False, tolerance=Tolerance.OF_REFERENCE)
    retype(form.tolerance, "5")
    assert "reference" in form.tolerance.error.text()
    assert form.centre.error.text() == ""


@pytest.mark.parametrize(
    ("centre", "tolerance"), [("70", "0"), ("70", "-3"), ("5", "200")]
)
def test_an_impossible_band_is_said_beside_it(
    form: BandForm, centre: str, tolerance: str
) -> None:
    form.choose(tolerance=Tolerance.OF_CENTRE)
    retype(form.tolerance, tolerance)
    retype(form.centre, centre)
    assert form.checked() is None
    assert form.tolerance.error.text() or form.centre.error.text()
    assert form.tolerance.text == tolerance


# In a set.


def test_in_a_set_only_the_band_may_change(desk: Desk) -> None:
    wanted: list[Band] = []
    planned: list[object] = []
    desk.band_wanted.connect(wanted.append)
    desk.planned.connect(planned.append)
    desk.show_set(under_way=True)
    form = desk.form
    locked = (form.hold, form.reps, form.rest, form.ceiling, form.reference, form.task)
    assert not any(field.line.isEnabled() for field in locked)
    assert not form.clock.isEnabled()
    assert not form.band_on.isEnabled()
    assert not desk.start.isEnabled()
    assert desk.stop.isEnabled()
    form.band.up.click()
    retype(form.band.centre, "60")
    assert [band.centre_n for band in wanted] == [
        pytest.approx(124.0),
        pytest.approx(144.0),
    ]
    assert planned == []
    desk.show_set(under_way=False)
    assert all(field.line.isEnabled() for field in locked)


def test_a_plan_is_told_as_it_changes(desk: Desk) -> None:
    planned: list[Prescription] = []
    desk.planned.connect(planned.append)
    retype(desk.form.hold, "20")
    desk.form.band.up.click()
    assert [plan.hold_s for plan in planned] == [20.0, 20.0]
    assert planned[-1].band.centre_n == pytest.approx(124.0)


# Zero, pain, note, messages.


def test_zero_has_two_kinds(desk: Desk) -> None:
    kinds: list[ZeroKind] = []
    desk.zero_wanted.connect(kinds.append)
    desk.health.zero_empty.click()
    desk.health.zero_limb.click()
    assert kinds == [ZeroKind.EMPTY_RIG, ZeroKind.LIMB_RESTING]


def test_pain_effort_and_notes_are_told_and_a_note_stays_until_it_is_kept(
    desk: Desk,
) -> None:
    told: list[tuple[str, object]] = []
    desk.pain_marked.connect(lambda level: told.append(("pain", level)))
    desk.effort_marked.connect(lambda level: told.append(("effort", level)))
    desk.note_written.connect(lambda text: told.append(("note", text)))
    for row in (desk.pain, desk.effort):
        for button in row.buttons:
            button.click()
    levels = list(range(11))
    assert [level for what, level in told if what == "pain"] == levels
    assert [level for what, level in told if what == "effort"] == levels
    retype(desk.note, "strap moved")
    assert told[-1] == ("note", "strap moved")
    assert desk.note.text == "strap moved"
    desk.note_kept()
    assert desk.note.text == ""
    assert "strap moved" in desk.messages.message.text()


def test_of_a_long_name_the_beginning_is_seen(desk: Desk) -> None:
    desk.form.task.set_text("Knee extension at 60 degrees, pad above the ankle, seated")
    assert desk.form.task.line.cursorPosition() == 0


def test_where_the_desk_must_scroll_nothing_is_cut_at_its_side(qtbot: QtBot) -> None:
    desk = Desk(ASKED, athlete="A-CODE-OF-THIRTY-TWO-LETTERS-017")
    desk.show_athlete(desk.who.text(), "Invented athlete with a very long name " * 2)
    qtbot.addWidget(desk)
    desk.setStyleSheet(style_sheet(DAY, size=1.0))
    desk.form.align()
    desk.effort.show()
    desk.resize(desk.width(), 500)
    desk.show()
    scroll = desk.above.area
    qtbot.waitUntil(lambda: scroll.verticalScrollBar().isVisible())
    inner = scroll.widget()
    assert inner is not None
    qtbot.waitUntil(lambda: inner.width() <= scroll.viewport().width())


def test_earlier_messages_stay_in_the_tip(desk: Desk) -> None:
    desk.say("first")
    desk.say("second")
    assert desk.messages.earlier.text() == "first"
    assert desk.messages.message.text() == "second"
    assert desk.messages.message.toolTip() == "second\nfirst"


def test_every_action_has_a_key_of_its_own(desk: Desk) -> None:
    keys = [key for _, key, _ in desk.actions_and_keys()]
    assert len(keys) == len(set(keys))


@pytest.mark.qt_log_ignore("grabbing the keyboard", extend=True)
@pytest.mark.parametrize("name", ["band_on", "clock", "shown"])
def test_no_entry_of_a_choice_is_cut(qtbot: QtBot, name: str) -> None:
    """Lists that scroll by an arrow hide half an entry behind it."""
    desk = Desk(ASKED)
    qtbot.addWidget(desk)
    desk.setStyleSheet(style_sheet(DAY, size=1.0))
    desk.show()
    box: QComboBox = getattr(desk.form, name)
    hint = QStyle.StyleHint.SH_ComboBox_Popup
    option = QStyleOptionComboBox()
    box.initStyleOption(option)
    assert box.style().styleHint(hint, option, box) == 0
    box.showPopup()
    view = box.view()
    last = view.visualRect(box.model().index(box.count() - 1, 0))
    assert last.height() > 0
    assert view.viewport().rect().contains(last)
    box.hidePopup()


def test_a_share_that_was_typed_before_its_reference_is_meant_of_it(
    qtbot: QtBot,
) -> None:
    form = BandForm()
    qtbot.addWidget(form)
    form.set_band(Band(45.0, 55.0), reference_n=None)
    form.choose(in_percent=True, tolerance=Tolerance.OF_CENTRE)
    form.centre.set_text("30")
    form.centre.committed.emit()
    assert form.centre.error.text() or form.centre.line.toolTip()
    form.set_reference(200.0)
    assert form.centre.text == "30"
    assert form.read() is not None
    assert form.band.centre_n == pytest.approx(60.0)
