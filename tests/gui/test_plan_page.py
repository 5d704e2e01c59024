"""The page of the plan on a real logbook, as a practitioner uses it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
)

from biofeedback.gui import plan_print
from biofeedback.gui.intensity_form import IntensityForm, Shape
from biofeedback.gui.plan_page import PlanPage
from biofeedback.logbook.database import Logbook
from biofeedback.session.planning import Planning
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.criteria import Word
from biofeedback.training.example_plans import SHOULDER, TENDON
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.training.reference import Origin
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


def test_the_paper_says_all_that_is_asked(qapp: object, tmp_path: Path) -> None:
    assert qapp  # letters need it
    words = plan_print.html(SHOULDER, who="INV-1")
    for part in (
        "INV-1",
        "An invented example.",
        "within 25 to 40 %",
        "70 % ± 5 % of the centre",
        "never above 50 %",
        "Pain at most 2 of 10",
        "weeks 4 to 6",
        "limits and local rules come first",
    ):
        assert part in words
    path = tmp_path / "plan.pdf"
    plan_print.write_pdf(SHOULDER, path, who="INV-1")
    assert path.read_bytes().startswith(b"%PDF")


def test_names_are_escaped_on_paper() -> None:
    plan = replace(SHOULDER, name="<b>Bold & brave")
    assert "&lt;b&gt;Bold &amp; brave" in plan_print.html(plan, who="INV-1")


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
