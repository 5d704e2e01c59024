"""The page of today on a real logbook: questions, cards, keys, and what is kept."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING, Any

import pytest
from gui.hands import bring_up
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton
from session.test_today import PLACE, PLANNED, TASK, Clinic

from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.gui.today import TodayPage
from biofeedback.logbook.database import Logbook
from biofeedback.session.day_facts import Background
from biofeedback.training.band import Band
from biofeedback.training.day import DayReport, PainRule
from biofeedback.training.intensity_words import number
from biofeedback.training.planned import SideOrder
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Joint, Setup, Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.set_card import SetCard


class Bench:
    """A page that can be used, and what it sent to the desk."""

    def __init__(self, qtbot: QtBot, clinic: Clinic) -> None:
        self.clinic = clinic
        self.sent: list[tuple[Any, ...]] = []
        self.page = TodayPage(clinic.today)
        self.page.setStyleSheet(style_sheet(DAY))
        self.page.prescribed.connect(lambda *what: self.sent.append(what))
        self.page.resize(1280, 720)
        bring_up(qtbot, self.page)
        self.page.enter("A-1")
        QCoreApplication.processEvents()  # keys reach a window a moment later

    @property
    def left(self) -> SetCard:
        return self.page.cards[0]

    @property
    def right(self) -> SetCard:
        return self.page.cards[1]

    def answer(
        self, now: int, night: int | None = None, morning: int | None = None
    ) -> None:
        for row, level in (
            (self.page.now, now),
            (self.page.night, night),
            (self.page.morning, morning),
        ):
            if level is not None and row.value != level:
                row.buttons[level].click()

    def key(self, key: Qt.Key, *more: Qt.KeyboardModifier) -> None:
        modifiers = Qt.KeyboardModifier.NoModifier
        for modifier in more:
            modifiers |= modifier
        QTest.keyClick(self.page.focusWidget(), key, modifiers)

    def kept(self) -> list[Any]:
        return list(self.clinic.book.days.choices(self.clinic.athlete_id))


@pytest.fixture
def clinic(tmp_path: Path) -> Iterator[Clinic]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        clinic = Clinic(book)
        clinic.test(241.7, Sides.LEFT)
        clinic.test(198.3, Sides.RIGHT, ago=timedelta(days=20), pain=4)
        yield clinic


@pytest.fixture
def bench(qtbot: QtBot, clinic: Clinic) -> Bench:
    return Bench(qtbot, clinic)


CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


# ------------------------------------------------------------------- questions


def test_before_pain_is_answered_nothing_is_proposed(bench: Bench) -> None:
    assert "2026-03-30: A-1, Tendon plan, stage 2" in bench.page.heading.text()
    assert bench.page.now.words.text() == "not asked"
    assert bench.left.why.text() == "Answer “pain now” for a proposal."
    assert not bench.left.use.isEnabled()
    assert bench.left.force.text() == "145 to 160.3 N"  # newtons are known all the same
    bench.key(Qt.Key.Key_Return, CTRL)
    assert bench.sent == []


def test_a_row_is_answered_by_keys(bench: Bench) -> None:
    row = bench.page.now
    assert row.hasFocus()
    for key, value in (
        (Qt.Key.Key_3, 3),
        (Qt.Key.Key_Right, 4),
        (Qt.Key.Key_Left, 3),
        (Qt.Key.Key_Plus, 10),
        (Qt.Key.Key_Right, 10),
        (Qt.Key.Key_0, 0),
        (Qt.Key.Key_Left, 0),
        (Qt.Key.Key_Delete, None),
        (Qt.Key.Key_Right, 0),
    ):
        bench.key(key)
        assert row.value == value
    assert row.accessibleDescription() == "0 of 10"
    assert row.buttons[0].isChecked()
    assert not row.buttons[3].isChecked()
    bench.key(Qt.Key.Key_Tab)
    assert bench.page.night.hasFocus()
    bench.key(Qt.Key.Key_5, CTRL)  # a key of the window is no answer
    assert bench.page.night.value is None


def test_a_second_press_takes_the_answer_back(bench: Bench) -> None:
    bench.answer(2)
    assert bench.left.use.isEnabled()
    bench.page.now.buttons[2].click()
    assert bench.page.now.value is None
    assert not bench.left.use.isEnabled()


def test_an_answer_taken_back_is_no_answer_even_after_one_was_kept(
    bench: Bench,
) -> None:
    bench.answer(1, 1, 1)
    bench.left.use.click()
    bench.page.now.buttons[1].click()
    assert not bench.left.use.isEnabled()


def test_sleep_and_soreness_are_kept_with_the_report(bench: Bench) -> None:
    bench.answer(1, 0, 2)
    bench.page.soreness.buttons[6].click()
    bench.page.sleep.line.setText("7,5")
    bench.page.sleep.line.editingFinished.emit()
    bench.left.use.click()
    (kept,) = bench.clinic.book.days.reports(bench.clinic.athlete_id)
    assert kept.report == DayReport(1, 0, 2, 7.5, 6)


def test_hours_that_no_night_has_are_complained_of(bench: Bench) -> None:
    bench.answer(1)
    bench.page.sleep.line.setText("75")
    bench.page.sleep.line.editingFinished.emit()
    assert "24" in bench.page.sleep.error.text()
    assert not bench.left.use.isEnabled()


def test_the_last_session_has_its_date(bench: Bench) -> None:
    assert "(" not in bench.page.morning.question.text()
    bench.clinic.train(bench.left.shown)
    bench.clinic.now += timedelta(days=2)
    bench.page.enter("A-1")
    assert "(2026-03-30)" in bench.page.morning.question.text()


# ----------------------------------------------------------------------- cards


def test_each_card_shows_its_reference_with_what_speaks_against_it(
    bench: Bench,
) -> None:
    assert bench.left.reference.text() == (
        "241.7 N, own side's best, best 1 s mean, 2026-03-27, 3 days old"
    )
    assert not bench.left.cautions.isVisible()
    assert bench.right.reference.text().endswith("2026-03-10, 20 days old")
    assert bench.right.cautions.text() == (
        "▲ The reference is 20 days old; after 14 days a new test is better.\n"
        "▲ The reference was measured with pain 4 of 10: it may be too low."
    )
    listed = [bench.right.choice.itemText(i) for i in range(bench.right.choice.count())]
    assert listed[0].endswith("▲")
    assert any("other side's best" in text for text in listed)


def test_the_place_is_changed_and_newtons_and_note_follow(bench: Bench) -> None:
    bench.answer(1, 1, 1)
    assert bench.left.why.text().startswith("Proposed. Low end: the first time")
    assert "is hard" in bench.left.endurance.text()
    bench.left.place.setFocus()
    bench.key(Qt.Key.Key_End)
    assert bench.left.force.text() == "174.9 to 193.4 N"
    assert bench.left.why.text().startswith("Changed; proposed is 63.2 %.")
    assert "expect the force to fall" in bench.left.endurance.text()
    bench.key(Qt.Key.Key_Left)
    assert bench.left.shown.place == pytest.approx(0.95)
    assert bench.right.shown.place == 0  # the other side has its own
    bench.key(Qt.Key.Key_Return, CTRL)  # the card where the focus is
    (asked, context, chosen) = bench.sent[0]
    assert chosen.asked() == asked
    assert asked == bench.left.shown.asked()
    assert context == {"plan": {"id": PLACE.id, "stage": 1, "key": "k-1"}}
    assert bench.left.told.text() == "✓ at the desk"
    assert "at the desk" in bench.page.message.text()
    (kept,) = bench.kept()
    assert (kept.proposed["place"], kept.accepted["place"]) == (0.0, 0.95)


def test_another_reference_is_chosen_and_stays_when_pain_changes(bench: Bench) -> None:
    bench.answer(1)
    places = [
        place
        for place in range(bench.left.choice.count())
        if "other side's" in bench.left.choice.itemText(place)
    ]
    bench.left.choice.setCurrentIndex(places[0])
    assert bench.left.reference.text().startswith("198.3 N, other side's best")
    assert bench.left.force.text() == "119 to 131.5 N"
    bench.answer(3)
    assert bench.left.reference.text().startswith("198.3 N, other side's best")
    bench.left.use.click()
    assert bench.sent[0][0].reference.origin is Origin.OTHER_SIDE
    assert bench.kept()[0].proposed["reference"]["origin"] == Origin.OWN_SIDE.value


def test_a_value_from_before_the_injury_is_typed_in(bench: Bench) -> None:
    bench.answer(1)
    form = bench.left.stated
    assert not form.isVisible()
    bench.left.type_one.click()
    assert form.isVisible()
    assert form.force.line.hasFocus()
    form.force.line.setText("310")
    form.date.line.setText("last May")
    form.keep.click()
    assert "no date" in form.date.error.text()
    form.date.line.setText("2027-01-01")
    form.keep.click()
    assert "still to come" in form.date.error.text()
    form.date.set_text("2025-05-01")
    form.force.line.setText("0")
    form.keep.click()
    assert "0.1 N" in form.force.error.text()
    form.force.line.setText("310")
    form.definition.setCurrentIndex(form.definition.findData(Definition.PEAK))
    form.keep.click()
    assert not form.isVisible()
    assert bench.left.reference.text() == (
        "310 N, before the injury, peak, 2025-05-01, 333 days old"
    )
    assert not bench.left.cautions.isVisible()  # it is meant to be old
    assert bench.right.reference.text().startswith("198.3 N")
    bench.left.use.click()
    assert bench.sent[0][0].reference.force_n == 310


def test_a_side_without_a_reference_says_what_is_missing(
    qtbot: QtBot, tmp_path: Path
) -> None:
    with Logbook.open(tmp_path / "other.db") as book:
        clinic = Clinic(book)
        clinic.test(198.3, Sides.RIGHT)
        bench = Bench(qtbot, clinic)
        bench.answer(1)
        assert bench.left.reference.text() == (
            "No test of the left side is known. Choose another, or type one."
        )
        assert bench.left.force.text() == "no newtons yet"
        assert not bench.left.use.isEnabled()
        assert bench.left.choice.currentText() == "please choose"
        bench.left.choice.setCurrentIndex(1)
        assert bench.left.force.text() == "119 to 131.5 N"
        assert bench.left.use.isEnabled()


# ------------------------------------------------------------------ stop advice


def test_above_the_cut_it_advises_and_a_second_button_is_wanted(bench: Bench) -> None:
    bench.answer(2, 7)
    assert bench.page.advice.isVisible()
    assert "treating clinician" in bench.page.advice.text()
    assert "7 of 10 (last night)" in bench.page.advice.text()
    assert bench.left.why.text() == "Nothing is proposed: stopping is advised."
    assert not bench.left.go_on.isVisible()
    QTest.mouseDClick(bench.left.use, Qt.MouseButton.LeftButton)
    bench.left.use.click()
    bench.key(Qt.Key.Key_Return, CTRL)
    assert bench.sent == []  # pressing the same thing again decides nothing
    assert bench.kept() == []
    assert bench.left.go_on.isVisible()
    assert not bench.right.go_on.isVisible()
    bench.left.go_on.click()
    assert len(bench.sent) == 1
    assert not bench.left.go_on.isVisible()
    (kept,) = bench.kept()
    assert kept.accepted["against_advice"] is True
    assert kept.proposed["why"] == "pain above the high cut"


def test_going_on_against_advice_has_a_key_of_its_own(bench: Bench) -> None:
    bench.answer(7)
    bench.key(Qt.Key.Key_Return, CTRL, SHIFT)
    assert bench.sent == []  # not before the advice was seen
    bench.key(Qt.Key.Key_Return, CTRL)
    bench.key(Qt.Key.Key_Return, CTRL, SHIFT)
    assert len(bench.sent) == 1


def test_less_pain_takes_the_advice_away(bench: Bench) -> None:
    bench.answer(7)
    bench.left.use.click()
    bench.answer(4)
    assert not bench.page.advice.isVisible()
    assert not bench.left.go_on.isVisible()
    assert bench.left.why.text().startswith("Proposed. Low end: pain 4 of 10 (now)")


# -------------------------------------------------------------------- the rule


def commit(field: Any, text: str) -> None:
    field.line.setText(text)
    field.line.editingFinished.emit()


def test_the_cuts_are_changed_with_their_sources_in_sight(bench: Bench) -> None:
    bench.answer(4)
    form = bench.page.rule
    assert "Silbernagel" in form.sources.text()
    assert (form.low.text, form.high.text, form.step.text) == ("2", "5", "25")
    commit(form.high, "3")
    assert bench.page.advice.isVisible()
    assert bench.clinic.today.pain_rule() == PainRule(2, 3)
    commit(form.high, "1")
    assert "above the low cut" in form.high.error.text()
    commit(form.high, "3.5")
    assert "whole number" in form.high.error.text()
    commit(form.high, "3")
    commit(form.step, "10")
    assert bench.clinic.today.pain_rule() == PainRule(2, 3, 0.1)


def test_the_age_of_a_reference_is_changed(bench: Bench) -> None:
    commit(bench.page.rule.days, "30")
    assert "20 days old;" not in bench.right.cautions.text()
    commit(bench.page.rule.days, "0")
    assert "1 to" in bench.page.rule.days.error.text()
    assert bench.clinic.today.stale_after_days() == 30


# ----------------------------------------------------- other people, other days


def test_answers_of_yesterday_are_not_of_today(bench: Bench) -> None:
    bench.answer(1, 1, 1)
    bench.page.enter("A-1")  # back on the same day: what was typed stands
    assert bench.page.answers() == DayReport(1, 1, 1)
    bench.clinic.now += timedelta(days=1)
    bench.page.enter("A-1")
    assert [row.value for row in bench.page.rows] == [None] * 4
    assert not bench.left.use.isEnabled()


def test_nothing_of_one_athlete_stands_there_for_another(bench: Bench) -> None:
    bench.answer(7)
    bench.page.enter("nobody")
    assert bench.page.cards == ()
    assert not bench.page.advice.isVisible()
    assert bench.page.now.value is None
    assert "no athlete nobody" in bench.page.message.text()
    bench.page.enter("A-1")
    assert len(bench.page.cards) == 2


def test_a_report_that_was_kept_stands_again(qtbot: QtBot, bench: Bench) -> None:
    bench.answer(2, 1, 0)
    bench.left.use.click()
    again = Bench(qtbot, bench.clinic)
    assert (again.page.now.value, again.page.night.value) == (2, 1)
    assert again.left.use.isEnabled()


# -------------------------------------------------------------- without a plan


def test_without_a_plan_the_set_of_the_desk_is_the_set_of_today(bench: Bench) -> None:
    bench.clinic.background = Background()
    asked = Prescription(
        TASK.on_side(Sides.LEFT),
        Band.from_percent(60, 80, reference_n=240),
        45.0,
        band_on=BandOn.LEFT,
        reference=Reference(
            240, Origin.OWN_SIDE, Definition.BEST_1_S_MEAN, "2026-03-01"
        ),
    )
    bench.page.enter("A-1", asked=asked)
    (card,) = bench.page.cards
    assert bench.page.free.isVisible()
    assert card.force.text() == "145 to 193.4 N"  # of the best of today
    assert not card.place.isVisibleTo(card)
    bench.answer(1)
    assert card.why.text() == "The band is fixed: nothing is left to the day."
    commit(bench.page.free.tolerance, "5")
    (card,) = bench.page.cards
    assert card.place.isVisibleTo(card)
    assert card.force.text() == "145 to 160.3 N"
    assert card.why.text().startswith("Proposed. Low end")
    commit(bench.page.free.high_end, "50")
    assert "below the lower" in bench.page.free.high_end.error.text()
    card.use.click()
    assert bench.sent[0][1] == {}


def test_without_a_plan_the_order_of_sides_is_chosen_here(bench: Bench) -> None:
    bench.clinic.background = Background()
    asked = Prescription(
        TASK.on_side(Sides.LEFT), Band(100, 150), 20.0, band_on=BandOn.LEFT
    )
    bench.page.enter("A-1", asked=asked)
    assert [card.title.text() for card in bench.page.cards] == ["Knee extension, left"]
    order = bench.page.free.order
    order.setCurrentIndex(order.findText("right, then left"))
    order.activated.emit(order.currentIndex())
    assert [card.title.text() for card in bench.page.cards] == [
        "Knee extension, right",
        "Knee extension, left",
    ]
    assert bench.page.cards[0].force.text() == "100 to 150 N"
    assert not bench.page.cards[0].choice.isVisibleTo(bench.page.cards[0])


def test_with_a_lever_arm_the_band_is_told_as_a_torque_too(bench: Bench) -> None:
    bench.clinic.background = Background()
    task = replace(TASK, setup=Setup(Joint.KNEE, lever_arm_m=0.3))
    asked = Prescription(
        task.on_side(Sides.LEFT), Band(100, 150), 20.0, band_on=BandOn.LEFT
    )
    bench.page.enter("A-1", asked=asked)
    told = bench.page.cards[0].band.text().splitlines()[-1]
    assert told == "30 to 45 N·m at a lever arm of 0.3 m"


def test_the_ceiling_stands_on_the_card(bench: Bench) -> None:
    assert "Ceiling" not in bench.left.band.text()
    planned = replace(bench.clinic.background.planned[0], ceiling_pct=95)
    bench.clinic.plan(planned)
    bench.page.enter("A-1")
    bench.answer(2)
    reference = bench.left.shown.reference
    assert reference is not None
    ceiling_n = 0.95 * reference.reference.force_n
    assert f"Ceiling {number(ceiling_n)} N: not to be passed" in bench.left.band.text()


def test_with_a_plan_the_range_is_that_of_the_plan(bench: Bench) -> None:
    assert not bench.page.free.isVisible()


def test_what_cannot_be_made_a_set_is_told(bench: Bench) -> None:
    bench.clinic.plan(
        replace(PLANNED, side_order=SideOrder.INJURED_FIRST), injured=None
    )
    bench.page.enter("A-1")
    assert bench.page.cards == ()
    assert "no one injured side" in bench.page.message.text()
    bench.clinic.background = Background()
    bench.page.enter("A-1")
    assert bench.page.cards == ()
    assert bench.page.message.text() == "Nothing is planned for today."


def test_without_a_logbook_nothing_is_known(qtbot: QtBot) -> None:
    page = TodayPage(None)
    qtbot.addWidget(page)
    page.enter("A-1")
    page.now.buttons[2].click()
    assert "no logbook" in page.message.text()


# ------------------------------------------------------------------- the looks


def test_nothing_is_cut_off_with_long_words(bench: Bench) -> None:
    """At the smallest window: each text has the room that it asks for."""
    long = replace(TASK, name="Isometric knee extension, seated, belt, left rig " * 3)
    bench.clinic.plan(replace(PLANNED, task=long), PLANNED)
    bench.page.enter("A-1")
    for theme in (DAY, NIGHT):
        bench.page.setStyleSheet(style_sheet(theme))
        bench.answer(2, 8)
        bench.left.use.click()
        QCoreApplication.processEvents()
        assert bench.page.width() == 1280
        for label in bench.page.findChildren(QLabel):
            if label.isVisible() and label.text():
                least = label.heightForWidth(label.width())
                assert label.height() >= least, label.text()
        for button in bench.page.findChildren(QPushButton):
            if button.isVisible():
                words = button.fontMetrics().horizontalAdvance(button.text())
                assert button.width() >= words, button.text()


def test_larger_type_keeps_its_room(bench: Bench) -> None:
    bench.page.setStyleSheet(style_sheet(DAY, size=1.5))
    bench.page.set_size(1.5)
    bench.page.resize(1920, 1080)
    QCoreApplication.processEvents()
    assert bench.page.width() == 1920


def test_back_to_live(qtbot: QtBot, bench: Bench) -> None:
    with qtbot.waitSignal(bench.page.live_wanted):
        bench.page.live.click()
