"""The page of the plan on a real logbook, as a practitioner uses it."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QFileDialog,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QWidget,
)

from biofeedback.gui.intensity_form import IntensityForm, Shape
from biofeedback.gui.plan_page import PlanPage
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.session.planning import Planning
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.criteria import Word
from biofeedback.training.example_plans import SHOULDER, TENDON
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.training.plan import CRITERIA_MAX
from biofeedback.training.planned import ReferenceRule
from biofeedback.training.prescription import ClockRule
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.session.planning import StoredPlan
    from biofeedback.training.plan import Plan


class Desk:
    """A page open for an invented athlete with one plan."""

    def __init__(self, book: Logbook, qtbot: QtBot) -> None:
        self.book = book
        self.planning = Planning(book)
        self.athlete_id = book.people.add(
            AthleteDetails("INV-1", "Invented One", injured=Sides.LEFT)
        )
        book.people.add_mass(self.athlete_id, BodyMass(70.0, "2026-01-12"))
        book.people.add(AthleteDetails("INV-2"))
        self.key = self.planning.save("", self.athlete_id, SHOULDER)
        self.page = PlanPage(self.planning)
        qtbot.addWidget(self.page)
        self.page.resize(1280, 720)
        self.page.show()
        self.page.enter("INV-1")

    def stored(self) -> StoredPlan:
        found = self.planning.plan(self.key)
        assert found is not None
        return found

    @property
    def kept(self) -> Plan:
        """The plan as the logbook has it."""
        return self.stored().plan

    def type_into(self, line: QLineEdit, text: str) -> None:
        line.setText(text)
        line.textEdited.emit(text)


@pytest.fixture
def desk(tmp_path: Path, qtbot: QtBot) -> Iterator[Desk]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        yield Desk(book, qtbot)


def lines(shown: QListWidget) -> list[str]:
    return [shown.item(row).text() for row in range(shown.count())]


def test_the_stage_under_way_is_told_by_mark_and_word(desk: Desk) -> None:
    first, second = lines(desk.page.lists.stages)
    assert first.startswith("▶ 1. Early")
    assert "(now)" in first
    assert not second.startswith("▶")
    assert "within 25 to 40 %" in lines(desk.page.prescriptions)[0]


def test_what_is_typed_is_saved_as_a_whole(desk: Desk) -> None:
    page = desk.page
    assert not page.save.isEnabled()
    desk.type_into(page.form.fields["hold_s"].line, "12,5")
    desk.type_into(page.stage_form.stage_name.line, "Early")
    page.save.click()
    stage = desk.kept.stages[0]
    assert (stage.name, stage.prescriptions[0].hold_s) == ("Early", 12.5)
    assert not page.dirty


@pytest.mark.parametrize(
    ("field", "text", "words"),
    [
        ("hold_s", "0", "Must be 0.001 s"),
        ("hold_s", "long", "type a number"),
        ("reps", "2.5", "whole number"),
        ("reps", "0", "Must be 1 to 1000"),
        ("ceiling", "30", "must lie above the band, which reaches to 40 %"),
        ("balance_tolerance_points", "70", "0 to 50 points"),
    ],
)
def test_what_does_not_fit_is_said_beside_its_field_and_stays(
    desk: Desk, field: str, text: str, words: str
) -> None:
    before = desk.kept
    page = desk.page
    line = page.form.fields[field].line
    desk.type_into(line, text)
    page.save.click()
    assert words in page.form.fields[field].error.text()
    assert line.text() == text
    assert desk.kept == before
    page.lists.stages.setCurrentRow(1)  # nor is it lost by looking at another stage
    assert line.text() == text
    assert page.dirty


def test_no_rest_is_taken_at_the_second_save(desk: Desk) -> None:
    page, before = desk.page, desk.kept
    desk.type_into(page.form.fields["rest_s"].line, "0")
    page.save.click()
    assert "No rest between the reps?" in page.form.fields["rest_s"].error.text()
    assert desk.kept == before
    page.save.click()
    assert desk.kept.stages[0].prescriptions[0].rest_s == 0


@pytest.mark.parametrize(
    ("lower", "upper", "words"),
    [("0.7", "40", "Type 70 for 70 %"), ("50", "40", "must not be below"),
     ("x", "40", "type a number")],
)  # fmt: skip
def test_intensities_that_do_not_fit(
    desk: Desk, lower: str, upper: str, words: str
) -> None:
    form = desk.page.form.intensity
    desk.type_into(form.low_end.line, lower)
    desk.type_into(form.high_end.line, upper)
    desk.page.save.click()
    told = form.low_end.error.text() + form.high_end.error.text()
    assert words in told
    assert form.low_end.text == lower


def test_an_empty_name_is_refused(desk: Desk) -> None:
    desk.type_into(desk.page.stage_form.name.line, " ")
    desk.page.save.click()
    assert "characters" in desk.page.stage_form.name.error.text()


def test_a_prescription_a_stage_and_a_criterion_come_back_by_undo(desk: Desk) -> None:
    page = desk.page
    page.remove_prescription.click()
    assert lines(page.prescriptions) == []
    page.lists.stages.setCurrentRow(1)
    page.lists.remove_stage.click()
    assert len(lines(page.lists.stages)) == 1
    desk.type_into(page.stage_form.stage_name.line, "Typed since")
    page.undo.click()
    page.undo.click()
    assert len(lines(page.lists.stages)) == 2
    assert len(lines(page.prescriptions)) == 1
    assert page.stage_form.stage_name.text == "Typed since"
    page.criteria.removed.emit("early-pain")
    page.undo.click()
    page.save.click()
    assert [stage.name for stage in desk.kept.stages] == [
        "Typed since", SHOULDER.stages[1].name,
    ]  # fmt: skip
    assert desk.kept.stages[0].prescriptions == tuple(
        replace(one, task=desk.kept.stages[0].prescriptions[0].task)
        for one in SHOULDER.stages[0].prescriptions
    )
    assert len(desk.kept.stages[0].criteria) == 3


def test_a_draft_stays_when_another_plan_is_wanted(desk: Desk) -> None:
    desk.planning.save("", desk.athlete_id, TENDON)
    page = desk.page
    page.enter("INV-1")
    desk.type_into(page.stage_form.name.line, "Mine")
    other = 1 - page.lists.plans.currentRow()
    page.lists.plans.setCurrentRow(other)
    assert page.lists.plans.currentRow() == 1 - other
    assert "first" in page.message.text()
    assert page.stage_form.name.text == "Mine"
    page.enter("INV-1")  # the page was left and opened again
    assert page.stage_form.name.text == "Mine"
    page.revert.click()
    assert page.stage_form.name.text == SHOULDER.name


def test_the_practitioner_moves_the_stage_with_a_reason(desk: Desk) -> None:
    page = desk.page
    page.lists.reason.line.setText("the surgeon agrees")
    page.lists.onward.click()
    assert desk.stored().stage == 1
    assert desk.planning.moves(desk.key)[-1].reason == "the surgeon agrees"
    assert not page.lists.onward.isEnabled()
    page.lists.back.click()
    assert page.lists.back.isEnabled() is False


def test_a_word_is_said_and_shown(desk: Desk) -> None:
    said = [
        button
        for button in desk.page.criteria.findChildren(QPushButton)
        if button.accessibleName().startswith("It is so")
    ]
    (button,) = said
    button.click()
    stored = desk.stored()
    assert desk.book.plans.facts(stored, 0).said == (("early-surgeon", True),)
    told = [label.text() for label in desk.page.criteria.findChildren(QLabel)]
    assert any(one.startswith("● met: The surgeon") for one in told)
    assert "1 met" in desk.page.lists.standing.text()


def test_a_criterion_is_added_or_its_field_complains(desk: Desk) -> None:
    box = desk.page.criteria
    box.kind.setCurrentIndex(box.kind.findText("pain at most"))
    box.first.line.setText("11")
    box.second.line.setText("3")
    box.add.click()
    assert "0 to 10" in box.first.error.text()
    box.kind.setCurrentIndex(box.kind.findText(Word.kind))
    box.text.line.setText("Hops without fear.")
    box.add.click()
    desk.page.save.click()
    assert desk.kept.stages[0].criteria[-1].words == "Hops without fear."


def test_copied_archived_and_put_back(desk: Desk) -> None:
    page = desk.page
    page.lists.copy.click()
    other = desk.book.people.by_code("INV-2")
    assert other is not None
    assert len(desk.planning.plans(other.id)) == 1
    page.lists.archive.click()
    assert lines(page.lists.plans) == []
    assert page.put_back.isVisible()
    page.put_back.click()
    assert len(lines(page.lists.plans)) == 1


def test_a_new_plan_from_an_example_is_kept_when_it_is_saved(desk: Desk) -> None:
    page = desk.page
    page.lists.beginning.setCurrentText(TENDON.name)
    page.lists.begin.click()
    assert len(desk.planning.plans(desk.athlete_id)) == 1
    page.save.click()
    assert len(desk.planning.plans(desk.athlete_id)) == 2
    assert lines(page.lists.plans)[0].startswith(f"▶ {TENDON.name}")
    assert "followed, now: Calm it" in lines(page.lists.plans)[0]
    assert "not followed" in lines(page.lists.plans)[1]


def test_a_file_that_is_no_plan_is_told_and_nothing_is_lost(
    desk: Desk, tmp_path: Path
) -> None:
    bad = tmp_path / "bad.json"
    bad.write_text("{}")
    desk.page.open_file(bad)
    assert "bad.json" in desk.page.message.text()
    assert desk.page.stage_form.name.text == SHOULDER.name
    good = tmp_path / "good.json"
    desk.planning.save_file(TENDON, good)
    desk.page.open_file(good)
    assert desk.page.stage_form.name.text == TENDON.name
    assert desk.page.save.isEnabled()


def test_a_file_gets_its_ending_from_the_dialog(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that the dialog asks before it writes over what is there."""
    page, asked = desk.page, list[str]()

    def chosen(dialog: QFileDialog) -> int:
        asked.append(dialog.defaultSuffix())
        dialog.setDirectory(str(tmp_path))
        dialog.selectFile(str(tmp_path / "plan v1.2"))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", chosen)
    page.lists.to_file.click()
    assert str(tmp_path / "plan v1.2") in page.message.text()
    page.lists.print.click()
    assert asked == ["json", "pdf"]
    monkeypatch.setattr(QFileDialog, "exec", lambda _: 0)
    before = sorted(tmp_path.iterdir())
    page.lists.to_file.click()
    page.lists.print.click()
    assert sorted(tmp_path.iterdir()) == before


def test_a_name_is_said_once_before_the_plan_goes_elsewhere(desk: Desk) -> None:
    page = desk.page
    page.stage_form.note.box.setPlainText("As agreed with INV-1.")
    page.save.click()
    page.lists.copy.click()
    assert "names the athlete: “As agreed with INV-1.”" in page.message.text()
    other = desk.book.people.by_code("INV-2")
    assert other is not None
    assert desk.planning.plans(other.id) == ()
    page.lists.copy.click()
    assert len(desk.planning.plans(other.id)) == 1


def test_all_that_does_not_fit_is_said_at_once(desk: Desk) -> None:
    page = desk.page
    form, stage = page.form, page.stage_form
    for line in (form.fields["hold_s"].line, form.fields["reps"].line, stage.name.line,
                 form.intensity.low_end.line, stage.to_week.line):  # fmt: skip
        desk.type_into(line, "x" if line is not stage.name.line else "")
    form.task.setEditText("")
    page.save.click()
    assert "Please type a number" in form.fields["hold_s"].error.text()
    assert "Please type a number" in form.fields["reps"].error.text()
    assert "Please type a number" in form.intensity.low_end.error.text()
    assert "Please type a number" in stage.to_week.error.text()
    assert "characters" in stage.name.error.text()
    assert form.task_error.text() == "Must not be empty."
    assert stage.to_week.text == "x"


def test_the_stage_under_way_is_not_taken_out(desk: Desk) -> None:
    desk.page.lists.remove_stage.click()
    assert "stage under way" in desk.page.message.text()
    assert len(lines(desk.page.lists.stages)) == 2
    assert not desk.page.dirty


def test_a_stage_put_in_before_moves_nobody(desk: Desk) -> None:
    page = desk.page
    page.lists.onward.click()
    page.lists.stages.setCurrentRow(0)
    page.lists.add_stage.click()
    assert lines(page.lists.stages)[2].startswith("▶ 3. Later")
    page.save.click()
    stored = desk.stored()
    assert stored.plan.stages[stored.stage].name == SHOULDER.stages[1].name
    assert [move.to_stage for move in desk.planning.moves(desk.key)] == [0, 1]


def test_where_one_is_in_the_plan_is_told_with_the_reason(desk: Desk) -> None:
    page = desk.page
    assert page.lists.since.text().startswith("0 weeks into the plan; in this stage")
    page.lists.reason.line.setText("no pain for a week")
    page.lists.onward.click()
    assert page.lists.since.text().endswith("No pain for a week.")
    told = page.lists.since.toolTip().splitlines()
    assert len(told) == 2
    assert told[1].endswith("Later: 70 % for 10 s. No pain for a week.")


def test_what_was_archived_is_found_again(desk: Desk) -> None:
    page = desk.page
    page.lists.archive.click()
    assert lines(page.lists.plans) == []
    assert page.nothing.isVisible()
    page.enter("INV-1")  # the message with its key is gone
    assert not page.put_back.isVisible()
    page.lists.archived.click()
    (line,) = lines(page.lists.plans)
    assert "archived" in line
    page.lists.plans.setCurrentRow(0)
    assert not page.lists.onward.isEnabled()
    page.lists.archive.click()
    assert desk.stored().archived_utc is None
    assert page.lists.archive.text() == "Archive"


def test_a_plan_changed_elsewhere_is_not_written_over(desk: Desk) -> None:
    page = desk.page
    desk.type_into(page.stage_form.name.line, "Mine")
    theirs = replace(desk.kept, name="Theirs")
    desk.planning.save(desk.key, desk.athlete_id, theirs)
    page.save.click()
    assert "changed elsewhere" in page.message.text()
    assert desk.kept.name == "Theirs"
    assert page.stage_form.name.text == "Mine"
    assert page.dirty


def test_a_lowering_is_asked_for_by_floor_and_tempo(desk: Desk) -> None:
    form = desk.page.form
    form.task.setEditText("Slow kneeling lowering for the hamstrings")
    assert form.intensity.low_end.label.text() == "Floor"
    assert form.intensity.shape.isHidden()
    assert form.fields["hold_s"].label.text() == "Tempo"
    assert not form.clock.isEnabled()
    desk.page.save.click()
    planned = desk.kept.stages[0].prescriptions[0]
    assert planned.intensity == Intensity.at_least(25)
    assert planned.clock is ClockRule.RUNNING
    assert lines(desk.page.prescriptions)[0].startswith("Slow kneeling")
    assert "floor 25 %" in lines(desk.page.prescriptions)[0]


def test_a_lowering_that_is_passed_over_leaves_nothing_behind(desk: Desk) -> None:
    page, form = desk.page, desk.page.form
    page.add_prescription.click()
    names = [form.task.itemText(at) for at in range(form.task.count())]
    at = names.index("Slow kneeling lowering for the hamstrings")
    hold = "Seated calf push"
    form.task.setCurrentText(hold)
    chosen = form.read()
    assert chosen is not None
    assert chosen.reference == ReferenceRule()
    for _ in range(2):
        form.task.setCurrentIndex(at)
        lowering = form.read()
        assert lowering is not None
        assert lowering.reference.origin is Origin.OTHER_TASK, "the floor was taken"
        assert lowering.clock is ClockRule.RUNNING
        form.task.setCurrentText(hold)
        assert form.read() == chosen
    # What is typed while it is a lowering stays, and nothing else of it.
    form.task.setCurrentIndex(at)
    desk.type_into(form.intensity.low_end.line, "42")
    form.task.setCurrentText(hold)
    typed = form.read()
    assert typed is not None
    assert typed.intensity == Intensity.around(42, 5, ToleranceOf.CENTRE)
    assert (typed.clock, typed.reference) == (chosen.clock, chosen.reference)


def test_a_new_criterion_stays_typed_while_another_field_is_wrong(desk: Desk) -> None:
    page, box = desk.page, desk.page.criteria
    desk.type_into(page.form.fields["reps"].line, "0")
    box.kind.setCurrentIndex(box.kind.findText("pain at most"))
    box.first.line.setText("2.5")
    box.second.line.setText("3")
    box.add.click()
    assert box.first.error.text() == "Must be a whole number."
    box.first.line.setText("2")
    box.add.click()
    assert (box.first.text, box.second.text) == ("2", "3")
    desk.type_into(page.form.fields["reps"].line, "5")
    box.add.click()
    assert (box.first.text, box.second.text) == ("", "")
    page.save.click()
    assert desk.kept.stages[0].criteria[-1].words.startswith("Pain at most 2")


def test_more_criteria_than_a_stage_may_have_are_refused(desk: Desk) -> None:
    stage = desk.kept.stages[0]
    many = tuple(Word("x", f"w{number}") for number in range(CRITERIA_MAX))
    full = desk.kept.with_stage(0, replace(stage, criteria=many))
    desk.planning.save(desk.key, desk.athlete_id, full)
    page = desk.page
    page.enter("INV-1")
    page.criteria.added.emit(Word("one more"))
    assert page.message.text() == "Must not be more than 20."


def test_newtons_beside_what_one_types_are_those_of_today(desk: Desk) -> None:
    page = desk.page
    assert page.form.intensity.newtons.text() == (
        "left: needs a reference. No test of the other side (right) is known."
    )
    for side, force_n in ((Sides.LEFT, 180.0), (Sides.RIGHT, 240.0)):
        desk.book.maxima.add(
            NewMaximalTest(
                athlete_id=desk.athlete_id,
                task=desk.kept.stages[0].prescriptions[0].task.on_side(side),
                tested_utc=datetime.now(tz=UTC),
                definition=Definition.BEST_1_S_MEAN,
                force_n=force_n,
                one_s_n=force_n,
                trials=3,
            )
        )
    page.enter("INV-1")
    told = page.form.intensity.newtons
    assert told.text() == (
        "left: 60 to 73.3 N at the low end, 78.5 to 96 N at the high end; "
        "100 % is 240 N"
    )
    assert page.form.ceiling_newtons.text() == "Ceiling: left 120 N"
    page.form.order.setCurrentIndex(page.form.order.findText("left, then right"))
    own = page.form.rule.origin.findText("own side's best")
    page.form.rule.origin.setCurrentIndex(own)
    assert [line.split(":")[0] for line in told.text().splitlines()] == [
        "left",
        "right",
    ]
    assert told.text().endswith("78.5 to 96 N at the high end; 100 % is 240 N")
    assert page.form.ceiling_newtons.text() == "Ceiling: left 90 N, right 120 N"
    desk.type_into(page.form.fields["ceiling"].line, "60")
    assert page.form.ceiling_newtons.text() == "Ceiling: left 108 N, right 144 N"


def test_tab_goes_in_the_order_one_reads(desk: Desk) -> None:
    page = desk.page
    wanted = [one for one in page.in_order if one.isVisible() and one.isEnabled()]
    wanted[0].setFocus()
    found: list[QWidget] = []
    while (now := page.focusWidget()) not in found:
        found.append(now)
        QTest.keyClick(now, Qt.Key.Key_Tab)
    assert [one for one in found if one in wanted] == wanted


def test_every_control_can_be_named_and_reached(desk: Desk) -> None:
    for kind in (QLineEdit, QComboBox, QListWidget):
        for control in desk.page.findChildren(kind):
            inner = isinstance(control.parent(), QComboBox)
            assert inner or control.accessibleName(), control
            assert inner or control.focusPolicy() & Qt.FocusPolicy.TabFocus
    for button in desk.page.findChildren(QAbstractButton):
        parts = isinstance(button.parent(), QComboBox | QLineEdit)
        assert parts or button.text() or button.accessibleName()


# The intensity alone.


def test_newtons_follow_while_one_types(qtbot: QtBot) -> None:
    form = IntensityForm()
    qtbot.addWidget(form)
    form.show_intensity(Intensity.around(70, 5, ToleranceOf.CENTRE))
    form.show_references([("left", 180.0, ""), ("right", None, "No test.")])
    assert form.newtons.text() == (
        "left: 119.7 to 132.3 N; 100 % is 180 N\nright: needs a reference. No test."
    )
    form.low_end.line.setText("80")
    form.low_end.line.textEdited.emit("80")
    assert "136.8 to 151.2 N" in form.newtons.text()
    form.low_end.line.setText("8x")
    form.low_end.line.textEdited.emit("8x")
    assert form.newtons.text() == ""
    assert form.low_end.error.text() == ""  # not while one types


@pytest.mark.parametrize(
    "intensity",
    [
        Intensity.around(70, 5, ToleranceOf.CENTRE),
        Intensity.around(70, 5, ToleranceOf.REFERENCE),
        Intensity.in_range(25, 40),
        Intensity.in_range(25, 40, tolerance=10),
        Intensity.at_least(80),
        Intensity.in_range(60, 96, unit=Unit.NEWTONS),
        Intensity.around(80, 4, ToleranceOf.NEWTONS, unit=Unit.NEWTONS),
    ],
)
def test_what_is_shown_is_read(intensity: Intensity, qtbot: QtBot) -> None:
    form = IntensityForm()
    qtbot.addWidget(form)
    form.show_intensity(intensity)
    assert form.read() == intensity


def test_a_tolerance_is_never_offered_without_what_it_is_of(qtbot: QtBot) -> None:
    form = IntensityForm()
    qtbot.addWidget(form)
    form.show_intensity(Intensity.around(70, 5, ToleranceOf.CENTRE))
    offered = [form.of.itemText(at) for at in range(form.of.count())]
    assert offered == ["% of the centre", "points of the reference"]
    form.unit.setCurrentIndex(form.unit.findData(Unit.NEWTONS))
    offered = [form.of.itemText(at) for at in range(form.of.count())]
    assert offered == ["% of the centre", "N either way"]
    form.shape.setCurrentIndex(form.shape.findData(Shape.AT_LEAST))
    assert form.tolerance.isHidden()


@pytest.mark.parametrize(
    ("origin", "typed", "words"),
    [
        (Origin.BODY_MASS, "0", "Must be 0.05 to 10."),
        (Origin.BODY_MASS, "70", "Is 70 times the weight of the body. Type 0.7 for "
         "70 % of it."),
        (Origin.BODY_MASS, "", "Is missing. Type 1 for the whole weight."),
        (Origin.TYPED, "0", "Is 0 N; it must be 0.1 N to 50000 N."),
        (Origin.OTHER_TASK, "", "Is missing. Name the task."),
    ],
)  # fmt: skip
def test_a_reference_that_lacks_its_number_is_said(
    desk: Desk, origin: Origin, typed: str, words: str
) -> None:
    form = desk.page.form.rule
    form.origin.setCurrentIndex(form.origin.findData(origin))
    form.factor.line.setText(typed)
    form.typed.line.setText(typed)
    assert desk.page.form.read() is None
    told = (form.factor.error.text(), form.typed.error.text(), form.other_error.text())
    assert [one for one in told if one] == [words]
    assert form.factor.text == typed
