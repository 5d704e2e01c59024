"""A 100 % that stands at the desk while the task there is another one.

It stays, and that it is of another task is said beside it and before the start, with
the way to another. Athletes, tasks and forces are invented.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from gui.hands import bring_up
from gui.staged_session import ASKED, StagedSession, steady_pull
from gui.stepped_window import Stepped

from biofeedback.gui.task_titles import task_title
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima_rows import NewMaximalTest
from biofeedback.session.maximal_tests import MaximalTests
from biofeedback.session.office import Office
from biofeedback.session.pain_told import WENT_ON
from biofeedback.session.roster import Roster
from biofeedback.session.today import Today
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.reference import Definition, Origin, Reference, is_for
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Sides, Task, TaskKind
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.whose_row import WhoseRow

FIRST = Task("Invented hip hold", sides=Sides.BOTH)
CALF = STARTER_TASKS[-1]
LOWERING = next(one for one in STARTER_TASKS if one.kind is TaskKind.LOWERING)
DOUBT = "This 100 % is that of “Invented hip hold”, both sides."
NOW = datetime.now(tz=UTC)
TODAY = NOW.astimezone().date().isoformat()
MEAN = Definition.BEST_1_S_MEAN


class Desk(Stepped):
    """A window that starts with a task of the list and the 100 % tested for it."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        self.logbook = Logbook.open(folder / "logbook.db")
        self.athlete = self.logbook.add_athlete("A7", "Invented A7")
        self.logbook.tasks.start()
        self.first = self.logbook.tasks.add(FIRST)
        self.session = StagedSession(steady_pull)
        self.office = Office(
            logbook=self.logbook,
            roster=Roster(self.logbook),
            today=Today(self.logbook),
            tests=MaximalTests(self.session, self.logbook, folder),
        )
        own = Reference(240.0, Origin.OWN_SIDE, MEAN, TODAY, task=self.first)
        self.window = Window(
            self.session,
            self.office,
            prescription=replace(
                ASKED, task=self.first, reference=own, ceiling_n=400.0
            ),
            clock=lambda: self.session.now_ns,
        )
        bring_up(qtbot, self.window)
        self.run()

    @property
    def row(self) -> WhoseRow:
        return self.window.desk.form.whose

    @property
    def asked(self) -> Prescription:
        return self.window.visit.asked

    def type_into(self, field: str, text: str) -> None:
        line = getattr(self.window.desk.form, field).line
        line.setFocus()
        line.selectAll()
        line.insert(text)
        self.press("Return")
        self.run()

    def add_test(self, task: Task, force_n: float, *, days_ago: int = 0) -> None:
        self.logbook.maxima.add(
            NewMaximalTest(
                self.athlete,
                task,
                NOW - timedelta(days=days_ago),
                MEAN,
                force_n,
                trials=3,
                one_s_n=force_n,
            )
        )

    def stored(self, task: Task) -> Task:
        found = self.logbook.tasks.by_name(task.name)
        assert found is not None
        return found

    def begun(self) -> list[Prescription]:
        return [one[1] for one in self.session.done if one[0] == "begin_set"]  # type: ignore[misc]


@pytest.fixture
def desk(qtbot: QtBot, tmp_path: Path) -> Iterator[Desk]:
    made = Desk(qtbot, tmp_path)
    yield made
    made.logbook.close()


def test_it_is_said_beside_it_and_the_number_stays(desk: Desk) -> None:
    assert not desk.row.isVisible()
    desk.type_into("task", "Invented heel press")
    assert desk.row.isVisible()
    assert desk.row.told.text() == f"▲ {DOUBT}"
    assert desk.asked.reference is not None
    assert desk.asked.reference.force_n == 240.0
    desk.type_into("task", FIRST.name)
    assert not desk.row.isVisible()


def test_it_is_said_before_a_start_and_kept_with_what_was_passed_over(
    desk: Desk,
) -> None:
    desk.type_into("task", "Invented heel press")
    desk.press("F5")
    assert desk.begun() == []
    assert desk.told == f"{DOUBT} F5 again starts."
    desk.press_again()
    (asked,) = desk.begun()
    assert desk.session.context[WENT_ON] == [DOUBT]
    # As the recording and the logbook have it, so that the next visit says it too.
    kept = Prescription.from_json(Fields(asked.to_json()))
    assert kept.reference is not None
    assert kept.reference.task == replace(desk.first, kind=TaskKind.HOLD)
    assert not is_for(kept.reference, kept.task)
    desk.window.desk.form.fill(kept)
    assert desk.row.told.text() == f"▲ {DOUBT}"


def test_the_newest_of_the_task_itself_can_be_taken(desk: Desk) -> None:
    calf = desk.stored(CALF)
    desk.add_test(calf, 500.0, days_ago=9)
    desk.add_test(calf, 412.3)
    desk.type_into("task", CALF.name)
    assert desk.row.button.text() == "Take 412.3 N"
    low = desk.asked.band.lower_n
    desk.row.button.click()
    reference = desk.asked.reference
    assert reference is not None
    assert (reference.force_n, reference.origin) == (412.3, Origin.OWN_SIDE)
    assert is_for(reference, calf)
    assert desk.asked.band.lower_n == pytest.approx(low * 412.3 / 240, abs=0.01)
    assert not desk.row.isVisible()
    desk.press("F5")
    assert desk.begun(), "nothing speaks against it"


def test_it_is_taken_as_well_where_another_field_is_wrong_by_it(desk: Desk) -> None:
    """By the larger 100 % the band passes the ceiling, which is told there."""
    calf = desk.stored(CALF)
    desk.add_test(calf, 2000.0)
    desk.type_into("task", CALF.name)
    desk.row.button.click()
    assert desk.window.desk.form.ceiling.error.text()
    assert not desk.row.isVisible()


def test_where_the_task_was_not_tested_the_way_leads_to_its_test(desk: Desk) -> None:
    desk.type_into("task", CALF.name)
    assert desk.row.button.text() == "Test it"
    desk.row.button.click()
    desk.run()
    mounted = desk.window.mounted
    assert desk.window.pages.shown is mounted.test
    assert mounted.test.setup.chosen_task() == desk.stored(CALF)


def test_a_lowering_has_its_own_way(desk: Desk) -> None:
    desk.type_into("task", LOWERING.name)
    assert desk.row.isVisible()
    assert not desk.row.button.isVisible()
    assert desk.window.desk.form.floor.button.isVisible()


def test_in_a_set_nothing_can_be_taken(desk: Desk) -> None:
    desk.type_into("task", "Invented heel press")
    desk.press("F5")
    desk.press_again()
    desk.run(1.0)
    assert desk.window.desk.in_set
    assert desk.row.isVisible()
    assert not desk.row.button.isEnabled()


def test_another_spelling_or_a_new_name_is_no_other_task(desk: Desk) -> None:
    desk.type_into("task", "  invented HIP hold")
    assert not desk.row.isVisible()
    desk.logbook.tasks.change(replace(desk.first, name="Invented hip press"))
    desk.type_into("task", "Invented hip press")
    assert desk.asked.task.name == "Invented hip press"
    assert not desk.row.isVisible()
    # The name that it had is free, and another task has it now.
    desk.logbook.tasks.add(FIRST)
    desk.window.desk.form.fill(
        replace(desk.asked, task=replace(desk.first, name="Invented hip press"))
    )
    desk.type_into("task", FIRST.name)
    assert desk.row.isVisible()


@pytest.mark.usefixtures("spanish")
def test_a_translated_name_is_no_other_task(qtbot: QtBot, tmp_path: Path) -> None:
    desk = Desk(qtbot, tmp_path)
    calf = desk.stored(CALF)
    own = Reference(300.0, Origin.OWN_SIDE, MEAN, TODAY, task=calf)
    desk.window.desk.form.fill(replace(ASKED, task=calf, reference=own))
    desk.type_into("task", "Otra")
    assert desk.row.told.text() == (
        f"▲ Este 100 % es el de «{task_title(CALF.name)}», ambos lados."
    )
    desk.type_into("task", task_title(CALF.name))
    assert not desk.row.isVisible()
    desk.logbook.close()


def test_a_typed_number_is_of_the_task_that_it_was_typed_for(desk: Desk) -> None:
    desk.type_into("reference", "300")
    assert not desk.row.isVisible()
    desk.type_into("task", "Invented heel press")
    assert desk.row.told.text() == f"▲ {DOUBT}"
    desk.type_into("reference", "310")
    assert not desk.row.isVisible()
    reference = desk.asked.reference
    assert reference is not None
    assert reference.task == Task("Invented heel press")
    # Typed and not yet entered when the set is started.
    desk.type_into("task", "Another press")
    assert desk.row.isVisible()
    desk.window.desk.form.reference.line.setText("320")
    asked = desk.window.desk.prescription()
    assert asked is not None
    assert asked.reference is not None
    assert asked.reference.task == Task("Another press")


def test_what_was_tested_of_both_sides_is_not_that_of_one(desk: Desk) -> None:
    box = desk.window.desk.form.band_on
    box.setCurrentIndex(box.findData(BandOn.LEFT))
    desk.run()
    assert desk.row.told.text() == f"▲ {DOUBT}"
    desk.type_into("reference", "120")
    assert not desk.row.isVisible(), "a typed number is of the side that is chosen"


def test_an_older_prescription_is_taken_as_of_its_own_task(desk: Desk) -> None:
    """One that was kept before it was written down whose 100 % it is."""
    old = Reference(240.0, Origin.OWN_SIDE, MEAN, TODAY)
    put = replace(ASKED, task=desk.first, reference=old)
    desk.window.desk.form.fill(put)
    assert not desk.row.isVisible()
    assert desk.asked == put
    desk.type_into("task", "Invented heel press")
    assert desk.row.told.text() == f"▲ {DOUBT}"


def test_a_new_100_percent_is_taken_by_the_key_of_its_task(desk: Desk) -> None:
    """Tested under the name that the task has now, or under one not kept by key."""
    taker = desk.window.visit.reference
    renamed = replace(desk.first, name="Invented hip press")
    new = Reference(260.0, Origin.OWN_SIDE, MEAN, TODAY, task=renamed)
    taker.take(new, renamed)
    assert desk.asked.reference == new
    taker.give_back(renamed)
    assert desk.asked.reference is not None
    assert desk.asked.reference.force_n == 240.0
    same_name = replace(desk.first, key="another")
    taker.take(replace(new, force_n=500.0, task=same_name), same_name)
    assert desk.asked.reference.force_n == 240.0
