"""Steps on the plan page in which nothing may be lost or taken along by mistake."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.gui.plan_page import PlanPage
from biofeedback.logbook.database import Logbook
from biofeedback.session.planning import Planning
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.example_plans import DAILY, SHOULDER
from biofeedback.training.planned import ReferenceRule
from biofeedback.training.reference import Origin
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QLineEdit
    from pytestqt.qtbot import QtBot

    from biofeedback.training.plan import Plan

RULE = ReferenceRule(Origin.TYPED, typed_n=200.0, typed_on="2026-01-12")


class Desk:
    def __init__(self, book: Logbook, qtbot: QtBot) -> None:
        self.planning = Planning(book)
        one = book.people.add(AthleteDetails("INV-1", injured=Sides.LEFT))
        self.other = book.people.add(AthleteDetails("INV-2"))
        stage = SHOULDER.stages[0]
        (asked,) = stage.prescriptions
        changed = replace(stage, prescriptions=(replace(asked, reference=RULE),))
        plan = SHOULDER.with_stage(0, changed)
        self.key = self.planning.save("", one, plan)
        self.page = PlanPage(self.planning)
        qtbot.addWidget(self.page)
        self.page.show()
        self.page.enter("INV-1")

    @property
    def kept(self) -> Plan:
        found = self.planning.plan(self.key)
        assert found is not None
        return found.plan


@pytest.fixture
def desk(tmp_path: Path, qtbot: QtBot) -> Iterator[Desk]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        yield Desk(book, qtbot)


def type_into(line: QLineEdit, text: str) -> None:
    line.setText(text)
    line.textEdited.emit(text)


def test_what_a_copy_leaves_out_is_said(desk: Desk) -> None:
    page = desk.page
    page.lists.copy.click()
    words = page.message.text()
    task = SHOULDER.stages[0].prescriptions[0].task.name
    assert "The typed 100 % is left out" in words
    assert f"{SHOULDER.stages[0].name}, {task}" in words
    (copy,) = desk.planning.plans(desk.other)
    assert copy.plan.typed_references == ()
    assert desk.kept.typed_references != ()


def test_a_typed_number_keeps_its_date_until_it_is_another(desk: Desk) -> None:
    page = desk.page
    type_into(page.form.fields["reps"].line, "6")
    page.save.click()
    assert desk.kept.stages[0].prescriptions[0].reference == RULE
    type_into(page.form.rule.typed.line, "201")
    page.save.click()
    changed = desk.kept.stages[0].prescriptions[0].reference
    assert changed.typed_n == 201.0
    assert changed.typed_on > RULE.typed_on


@pytest.mark.parametrize("typed", ["2,5", "2.5"])
def test_half_weeks_are_refused_in_words(desk: Desk, typed: str) -> None:
    rule = desk.page.form.rule
    rule.origin.setCurrentIndex(rule.origin.findData(Origin.OTHER_SIDE))
    type_into(rule.weeks.line, typed)
    desk.page.save.click()
    assert rule.weeks.error.text() == "Must be a whole number."
    assert desk.kept.stages[0].prescriptions[0].reference == RULE


def test_weeks_are_asked_for_a_best_of_another_task(desk: Desk) -> None:
    rule = desk.page.form.rule
    rule.origin.setCurrentIndex(rule.origin.findData(Origin.OTHER_TASK))
    assert rule.weeks.isVisible()


def test_a_wrong_number_that_is_not_seen_does_not_keep_from_saving(desk: Desk) -> None:
    rule = desk.page.form.rule
    rule.origin.setCurrentIndex(rule.origin.findData(Origin.OTHER_SIDE))
    type_into(rule.weeks.line, "x")
    rule.origin.setCurrentIndex(rule.origin.findData(Origin.BEFORE_INJURY))
    assert not rule.weeks.isVisible()
    desk.page.save.click()
    assert not desk.page.dirty


def test_what_was_not_typed_is_saved_as_it_was(desk: Desk) -> None:
    found = desk.planning.plan(desk.key)
    assert found is not None
    stage = found.plan.stages[0]
    odd = replace(stage.prescriptions[0], hold_s=10.25, rest_s=30.125, grace_s=0.35)
    plan = found.plan.with_stage(0, replace(stage, prescriptions=(odd,)))
    desk.planning.save(desk.key, found.athlete_id, plan)
    desk.page.enter("INV-1")
    type_into(desk.page.form.fields["reps"].line, "6")
    desk.page.save.click()
    assert desk.kept.stages[0].prescriptions[0] == replace(odd, reps=6)


def test_a_plan_that_cannot_be_read_is_named_and_the_others_open(
    desk: Desk, tmp_path: Path
) -> None:
    found = desk.planning.plan(desk.key)
    assert found is not None
    newer = desk.planning.save("", found.athlete_id, DAILY)
    with closing(sqlite3.connect(tmp_path / "logbook.db")) as file, file:
        file.execute("UPDATE plans SET content='{}' WHERE id=?", (newer,))
    desk.page.enter("INV-1")
    assert desk.page.message.text().startswith(f"The plan “{DAILY.name}” cannot be")
    (line,) = (
        desk.page.lists.plans.item(row).text()
        for row in range(desk.page.lists.plans.count())
    )
    assert SHOULDER.name in line
    assert "not followed" in line  # the newest is, and nobody can read it


def test_a_prescription_with_a_wrong_field_can_be_taken_out(desk: Desk) -> None:
    page = desk.page
    type_into(page.form.fields["hold_s"].line, "x")
    page.remove_prescription.click()
    assert page.prescriptions.count() == 0
    page.undo.click()
    assert page.form.fields["hold_s"].text == "10"
    page.save.click()
    assert len(desk.kept.stages[0].prescriptions) == 1


def test_a_typed_field_that_fits_is_kept_where_another_part_goes(desk: Desk) -> None:
    page = desk.page
    type_into(page.form.fields["hold_s"].line, "12.5")
    page.remove_prescription.click()
    page.undo.click()
    assert page.form.fields["hold_s"].text == "12.5"
