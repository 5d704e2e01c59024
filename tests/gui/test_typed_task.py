"""Another task is typed at the desk: which task the set is entered under."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.hands import bring_up, turn
from gui.staged_session import ASKED, REFERENCE, StagedSession, steady_pull
from gui.stepped_window import Stepped
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from biofeedback.gui.task_titles import task_title
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session.office import Office
from biofeedback.session.roster import Roster
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.plan import Plan, Stage
from biofeedback.training.planned import PlannedPrescription
from biofeedback.training.prescription import Prescription
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

FIRST = Task(
    "Invented hip hold", sides=Sides.BOTH, setup=Setup(Joint.HIP, angle_deg=45.0)
)
CALF = STARTER_TASKS[-1]
LOWERING = next(one for one in STARTER_TASKS if one.kind is TaskKind.LOWERING)
PLANNED = Task("Invented heel press", sides=Sides.BOTH, setup=Setup(Joint.ANKLE))


class Typist(Stepped):
    """A window whose desk starts with a task that the logbook knows."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        self.logbook = Logbook.open(folder / "logbook.db")
        athlete = self.logbook.add_athlete("A7", "Invented A7")
        self.logbook.tasks.start()
        self.first = self.logbook.tasks.add(FIRST)
        # It is off the list by now, and the plan still asks for it.
        self.planned = self.logbook.tasks.add(PLANNED)
        self.logbook.tasks.archive(self.planned.key)
        later = PlannedPrescription(
            self.planned,
            Intensity.around(50, 5, ToleranceOf.CENTRE),
            hold_s=5.0,
            key="k",
        )
        stages = (Stage("Now"), Stage("Later", prescriptions=(later,)))
        self.logbook.plans.add(athlete, Plan("Invented plan", stages))
        self.session = StagedSession(steady_pull)
        self.window = Window(
            self.session,
            Office(logbook=self.logbook, roster=Roster(self.logbook)),
            prescription=replace(ASKED, task=self.first, reference=REFERENCE),
            clock=lambda: self.session.now_ns,
        )
        bring_up(qtbot, self.window)
        self.run()

    def type_task(self, name: str) -> None:
        line = self.window.desk.form.task.line
        line.setFocus()
        line.selectAll()
        line.insert(name)  # as it is pasted: QTest has no keys for accents
        self.press("Return")

    def begun(self) -> Prescription:
        """What the set asks for that the start key begins."""
        self.press("F5")
        asked = self.session.done[-1][1]
        assert isinstance(asked, Prescription)
        return asked

    def stored(self, task: Task) -> Task:
        found = self.logbook.tasks.by_name(task.name)
        assert found is not None
        return found


@pytest.fixture
def typist(qtbot: QtBot, tmp_path: Path) -> Iterator[Typist]:
    made = Typist(qtbot, tmp_path)
    yield made
    made.logbook.close()


def test_a_task_of_the_list_is_taken_whole(typist: Typist) -> None:
    typist.type_task("seated CALF")
    assert typist.begun().task == typist.stored(CALF)
    assert typist.stored(CALF).key != typist.first.key


def test_a_task_of_the_plan_is_taken_though_it_is_off_the_list(typist: Typist) -> None:
    typist.type_task(PLANNED.name)
    assert typist.begun().task == typist.planned


def test_a_task_that_nobody_knows_is_none_that_the_logbook_knows(
    typist: Typist,
) -> None:
    typist.type_task("Hip hold of today")
    assert typist.begun().task == Task("Hip hold of today", sides=Sides.BOTH)


def test_the_task_before_typed_again_is_that_task(typist: Typist) -> None:
    typist.type_task("Another")
    typist.type_task(FIRST.name)
    assert typist.begun().task == typist.first


@pytest.mark.parametrize("name", [" Invented press", "Invented  press\n", "Hold"])
def test_a_task_whose_name_is_left_alone_is_the_one_that_was_put_there(
    typist: Typist, name: str
) -> None:
    put = Task(name, key="of another list", sides=Sides.BOTH)
    typist.logbook.tasks.add(Task(name))
    typist.window.desk.form.fill(replace(ASKED, task=put))
    assert typist.begun().task == put


def test_a_name_of_the_list_is_completed_as_it_is_typed(typist: Typist) -> None:
    line = typist.window.desk.form.task.line
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(typist.window.focusWidget(), CALF.name[:8].upper())
    typist.press("Return")
    assert line.text() == CALF.name
    assert typist.window.visit.asked.task == typist.stored(CALF)


def test_a_name_that_is_typed_on_stays_what_was_typed(typist: Typist) -> None:
    line = typist.window.desk.form.task.line
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(typist.window.focusWidget(), f"{CALF.name[:8]} of today")
    typist.press("Return")
    assert line.text() == f"{CALF.name[:8]} of today"
    assert typist.window.visit.asked.task == Task(line.text(), sides=Sides.BOTH)


@pytest.mark.qt_log_ignore("grabbing the keyboard", extend=True)
def test_a_task_is_chosen_from_the_list(typist: Typist) -> None:
    box = typist.window.desk.form.task.box
    before = typist.window.visit.asked.task
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)  # opens it, and changes nothing
    popup = box.view()
    assert popup.isVisible()
    assert typist.window.visit.asked.task == before
    names = [box.itemText(row) for row in range(box.count())]
    listed = typist.logbook.tasks.search("")
    assert names == [task_title(one.task.name) for one in listed]
    assert CALF.name in names
    assert PLANNED.name not in names, "it is off the list"
    widest_px = max(map(box.view().fontMetrics().horizontalAdvance, names))
    assert box.view().viewport().width() > widest_px
    popup.setCurrentIndex(box.model().index(names.index(CALF.name), 0))
    QTest.keyClick(popup, Qt.Key.Key_Return)
    assert not popup.isVisible()
    assert box.currentText() == CALF.name
    assert typist.window.visit.asked.task == typist.stored(CALF)


@pytest.mark.qt_log_ignore("grabbing the keyboard", extend=True)
def test_a_task_that_was_added_since_is_in_the_list(typist: Typist) -> None:
    box = typist.window.desk.form.task.box
    box.setFocus()
    assert box.findText("Invented new press") < 0
    typist.logbook.tasks.add(Task("Invented new press"))
    box.showPopup()
    assert box.findText("Invented new press") >= 0
    assert box.currentText() == FIRST.name
    box.hidePopup()


def test_in_a_set_no_list_opens(typist: Typist) -> None:
    typist.press("F5")
    typist.run(1.0)
    assert typist.window.desk.in_set
    assert not typist.window.desk.form.task.box.isEnabled()


def test_the_wheel_chooses_no_task(typist: Typist) -> None:
    box = typist.window.desk.form.task.box
    box.setFocus()
    turn(box)
    assert box.currentText() == FIRST.name
    assert typist.window.visit.asked.task == typist.first


def test_a_lowering_of_the_list_offers_the_floor_of_its_pair(typist: Typist) -> None:
    floor = typist.window.desk.form.floor
    assert not floor.isVisible()
    typist.type_task(LOWERING.name)
    assert floor.isVisible()
    assert typist.window.visit.asked.task == typist.stored(LOWERING)
    typist.type_task(CALF.name)
    assert not floor.isVisible()


def test_without_a_name_it_is_a_hold(typist: Typist) -> None:
    typist.type_task("")
    assert typist.begun().task == Task("Hold", sides=Sides.BOTH)


def test_a_hold_whose_name_is_deleted_is_that_hold(typist: Typist) -> None:
    put = replace(FIRST, name="Hold", key="of another list")
    typist.window.desk.form.fill(replace(ASKED, task=put))
    typist.type_task("")
    assert typist.begun().task == put


def test_the_starter_list_is_known_before_any_page_has_shown_it(
    qtbot: QtBot, tmp_path: Path
) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        window = Window(
            StagedSession(steady_pull), Office(logbook=logbook), prescription=ASKED
        )
        bring_up(qtbot, window)
        window.desk.form.task.set_text(CALF.name)
        asked = window.desk.prescription()
        assert asked is not None
        assert asked.task == logbook.tasks.by_name(CALF.name)


@pytest.mark.usefixtures("spanish")
def test_in_spanish_the_same_is_entered(qtbot: QtBot, tmp_path: Path) -> None:
    typist = Typist(qtbot, tmp_path)
    typist.type_task("")
    assert typist.window.visit.asked.task == Task("Hold", sides=Sides.BOTH)
    assert task_title(CALF.name) != CALF.name
    typist.type_task(task_title(CALF.name))
    assert typist.begun().task == typist.stored(CALF)
    typist.logbook.close()
