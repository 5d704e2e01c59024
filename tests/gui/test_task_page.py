"""The page of the tasks on a real logbook."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.hands import FIRST, Entries, cut_off, nameless
from PySide6.QtCore import QCoreApplication

from biofeedback.gui.style import style_sheet
from biofeedback.gui.task_page import TaskPage
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.logbook.database import Logbook
from biofeedback.session.roster import Roster
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QComboBox
    from pytestqt.qtbot import QtBot


CALF = "Seated calf"
KNEE = "Prone knee flexion"
LOWERING = "Slow kneeling lowering for the hamstrings"


class Bench(Entries):
    """The page on a logbook with the starter list."""

    def __init__(self, qtbot: QtBot, book: Logbook, place: Path) -> None:
        self.book = book
        self.roster = Roster(book)
        self.tasks = TaskPage(self.roster)
        super().__init__(qtbot, self.tasks, place)

    def show(self, name: str) -> Task:
        task = self.stored(name)
        self.page.reload(choose=task.key)
        return task

    def stored(self, name: str) -> Task:
        task = self.book.tasks.by_name(name)
        assert task is not None
        return task

    def pick(self, box: QComboBox, choice: object) -> None:
        """Chooses with the arrow keys."""
        box.setFocus()
        self.press("Home")
        for _ in range(box.count()):
            if box.currentData() is choice:
                return
            self.press("Down")
        message = f"{choice} is not to be chosen"
        raise AssertionError(message)


@pytest.fixture
def bench(qtbot: QtBot, tmp_path: Path) -> Iterator[Bench]:
    place = tmp_path / "logbook.db"
    with Logbook.open(place) as book:
        yield Bench(qtbot, book, place)


# ---------------------------------------------------------------- add and edit


def test_the_starter_list_is_there_with_joint_and_kind(bench: Bench) -> None:
    assert bench.entries() == [
        "Hip adduction in crook lying · hip",
        "Prone knee flexion · knee",
        "Seated calf · ankle",
        "Shoulder external rotation at the side · shoulder",
        "Slow kneeling lowering for the hamstrings · lowering · knee",
    ]


@pytest.mark.parametrize("task", STARTER_TASKS, ids=lambda task: task.name)
def test_saving_what_is_shown_changes_nothing(bench: Bench, task: Task) -> None:
    before = bench.show(task.name)
    assert not bench.page.dirty
    bench.press("Ctrl+S")
    assert bench.told == "Saved."
    assert bench.stored(task.name) == before
    assert replace(before, key="") == task


def test_a_task_is_entered_by_keys_alone(bench: Bench) -> None:
    page = bench.tasks
    bench.press("Ctrl+N")
    assert page.name.line.hasFocus()
    bench.write("Elbow flexion, standing")
    bench.tab_to(page.sides)
    bench.press("Down")
    bench.tab_to(page.joint)
    bench.press("Home", "Down")
    for widget, text in (
        (page.movement.line, "flexion"),
        (page.angle.line, "-7,25"),
        (page.arm.line, "0,3524"),
        (page.site.line, "strap above the wrist"),
        (page.posture.line, "standing, back to the wall"),
    ):
        bench.tab_to(widget)
        bench.write(text)
    assert page.torque.text() == "100 N at right angles are 35.2 N·m"
    bench.press("Ctrl+S")
    assert bench.told == "Saved."
    task = bench.stored("Elbow flexion, standing")
    assert replace(task, key="") == Task(
        "Elbow flexion, standing",
        TaskKind.HOLD,
        Sides.LEFT,
        Setup(
            Joint.ELBOW,
            "flexion",
            -7.25,
            "strap above the wrist",
            0.3524,
            "standing, back to the wall",
        ),
    )
    assert page.list.currentRow() == 0
    assert (page.angle.text, page.arm.text) == ("-7.25", "0.3524")
    assert not page.dirty


def test_a_saved_set_keeps_the_position_it_was_done_in(bench: Bench) -> None:
    """The task is changed under its key; only the row of the task is another."""
    before = bench.show(CALF)
    bench.fill(angle="15")
    bench.press("Ctrl+S")
    assert before.setup is not None
    after = replace(before, setup=replace(before.setup, angle_deg=15.0))
    assert bench.stored(CALF) == after
    assert len(bench.entries()) == len(STARTER_TASKS)


def test_a_task_without_a_position_has_none(bench: Bench) -> None:
    bench.press("Ctrl+N")
    bench.fill(name="Anything")
    bench.press("Ctrl+S")
    assert replace(bench.stored("Anything"), key="") == Task("Anything")


def test_one_side_at_a_time_keeps_the_side_that_it_stands_for(bench: Bench) -> None:
    task = bench.book.tasks.add(Task("Right only", sides=Sides.RIGHT))
    bench.show("Right only")
    bench.fill(site="pad")
    bench.press("Ctrl+S")
    assert bench.stored("Right only").sides is task.sides
    bench.pick(bench.tasks.sides, Sides.BOTH)
    bench.press("Ctrl+S")
    assert bench.stored("Right only").sides is Sides.BOTH


# ------------------------------------------------------------------- the pair


def test_only_a_lowering_is_held_against_another_task(bench: Bench) -> None:
    page = bench.tasks
    bench.show(CALF)
    assert not page.pair.isVisible()
    bench.pick(page.kind, TaskKind.LOWERING)
    assert page.pair.isVisible()
    offered = [page.pair.itemText(row) for row in range(page.pair.count())]
    assert offered == ["", "Hip adduction in crook lying", KNEE, STARTER_TASKS[0].name]
    page.pair.setFocus()
    bench.write(KNEE)
    bench.press("Ctrl+S")
    assert bench.stored(CALF).pair == KNEE
    bench.pick(page.kind, TaskKind.HOLD)
    bench.press("Ctrl+S")
    assert bench.stored(CALF).pair == ""


def test_a_lowering_finds_its_pair_under_a_new_name(bench: Bench) -> None:
    knee = bench.show(KNEE)
    bench.fill(name="Lying curl")
    bench.press("Ctrl+S")
    lowering = bench.stored(LOWERING)
    assert lowering.pair in {knee.key, "Lying curl"}
    bench.show(LOWERING)
    assert bench.tasks.pair.currentText() == "Lying curl"  # people read names
    bench.fill(site="another strap")
    bench.press("Ctrl+S")
    assert bench.stored(LOWERING).pair == lowering.pair
    bench.tasks.pair.setFocus()
    bench.write(CALF)
    bench.press("Ctrl+S")
    assert bench.stored(LOWERING).pair == CALF


def test_an_archived_pair_is_named_and_kept(bench: Bench) -> None:
    bench.show(KNEE)
    bench.press("Ctrl+D")
    bench.show(LOWERING)
    assert bench.tasks.pair.currentText() == KNEE
    bench.fill(site="another strap")
    bench.press("Ctrl+S")
    assert bench.stored(LOWERING).pair == KNEE


# --------------------------------------------------------- what does not fit


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("name", "", "Must not be empty."),
        ("name", "x" * 201, "longer than 200"),
        ("name", "hip ADDUCTION in crook lying", "is in the list already. Choose"),
        ("angle", "right", "Please type a number, for example 12.5."),
        ("angle", "361", "−360 to 360 degrees"),
        ("arm", "35", "it must be 0.02 to 1.5 m. Type metres: 0.35 for 35 cm."),
        ("arm", "0", "Type metres"),
        ("arm", "35 cm", "Please type a number"),
        ("movement", "x" * 201, "longer than 200"),
        ("site", "x" * 201, "longer than 200"),
        ("posture", "x" * 201, "longer than 200"),
    ],
)
@pytest.mark.parametrize("new", [True, False])
def test_what_does_not_fit_is_said_beside_its_field_and_nothing_is_saved(
    bench: Bench, name: str, text: str, words: str, *, new: bool
) -> None:
    if new:
        bench.press("Ctrl+N")
        bench.fill(name="A new one")
    else:
        bench.show(CALF)
        bench.fill(movement="pushing")
    field = getattr(bench.tasks, name)
    if len(text) > 200:
        field.line.setText(text)
    else:
        bench.fill(**{name: text})
    bench.refused(field, words)
    assert len(bench.roster.tasks()) == len(STARTER_TASKS)  # all can still be read


def test_all_that_is_wrong_is_said_at_once(bench: Bench) -> None:
    page = bench.tasks
    bench.press("Ctrl+N")
    bench.fill(angle="400", arm="35")
    bench.press("Ctrl+S")
    for field in (page.name, page.angle, page.arm):
        assert field.error.isVisible()
    assert page.name.line.hasFocus()
    assert not page.torque.isVisible()
    bench.fill(name="Anything", angle="40", arm="0,35")
    bench.press("Ctrl+S")
    assert bench.told == "Saved."
    assert bench.stored("Anything").setup == Setup(angle_deg=40.0, lever_arm_m=0.35)


def test_a_logbook_that_is_busy_loses_nothing_that_was_typed(
    qtbot: QtBot, tmp_path: Path
) -> None:
    place = tmp_path / "logbook.db"
    with Logbook.open(place) as book, Logbook.open(place) as other:
        book.tasks.start()
        bench = Bench(qtbot, book.hurried(0.01), place)
        bench.show(CALF)
        bench.fill(name="Another")
        typed = bench.page.typed()
        with other._write():
            bench.press("Ctrl+S")
            assert "busy" in bench.told
            bench.page.enter()
            assert len(bench.entries()) == len(STARTER_TASKS)
            assert bench.page.typed() == typed
        bench.press("Ctrl+S")
        assert bench.told == "Saved."


# ------------------------------------------------- typed things are not lost


def test_what_is_typed_stays_until_it_is_saved_or_taken_back(bench: Bench) -> None:
    page = bench.tasks
    task = bench.show(CALF)
    bench.fill(site="half typ")
    typed = page.typed()
    bench.lead_nowhere(
        lambda: page.list.setCurrentRow(0),
        lambda: bench.press("Ctrl+N"),
        lambda: bench.press("Ctrl+D"),
        page.archived.click,
    )
    assert page.key == task.key
    assert page.list.currentRow() == 2
    page.enter()
    assert page.typed() == typed
    bench.press("Ctrl+R")
    assert not page.dirty
    page.list.setCurrentRow(0)
    assert page.name.text == "Hip adduction in crook lying"


@pytest.mark.parametrize(
    "change", ["name", "movement", "angle", "arm", "site", "posture", "kind", "pair"]
)
def test_each_field_counts_as_typed(bench: Bench, change: str) -> None:
    page = bench.tasks
    task = bench.show(LOWERING)
    if change == "kind":
        bench.pick(page.kind, TaskKind.HOLD)
    elif change == "pair":
        page.pair.setFocus()
        bench.write(CALF)
    else:
        bench.fill(**{change: "1"})
    page.list.setCurrentRow(0)
    assert bench.told == FIRST
    assert page.key == task.key


# ------------------------------------------------- search, archive and back


@pytest.mark.parametrize(
    ("words", "count"),
    [("ROTATION elbow", 1), ("crook lying", 1), ("lowering knee", 1), ("zzz", 0)],
)
def test_search_by_name_joint_movement_and_posture(
    bench: Bench, words: str, count: int
) -> None:
    bench.add(words)
    assert len(bench.entries()) == count


def test_a_task_is_found_by_keys_alone(bench: Bench) -> None:
    bench.add("calf")
    bench.press("Return")
    assert bench.tasks.name.text == CALF
    assert bench.tasks.list.hasFocus()
    bench.press("Return")  # nothing is chosen here, and nothing breaks
    assert bench.told == ""


def test_archive_and_undo_and_put_back(bench: Bench) -> None:
    page = bench.tasks
    bench.show(CALF)
    before = bench.stored(CALF)
    bench.press("Ctrl+D")
    assert bench.told == "Archived; nothing is lost. Undo puts it back."
    assert len(bench.entries()) == 4
    assert "Put Seated calf back" in page.undo.toolTip()
    bench.press("Ctrl+Shift+D")
    assert bench.told == "Seated calf is on the list again."
    assert bench.stored(CALF) == before
    bench.show(CALF)
    bench.press("Ctrl+D")
    page.archived.click()
    assert bench.entries() == ["Seated calf · ankle"]
    page.list.setCurrentRow(0)
    bench.press("Ctrl+D")
    assert bench.told == "It is on the list again."
    assert bench.entries() == []
    assert bench.stored(CALF) == before


def test_a_name_that_was_taken_meanwhile_is_said_when_putting_back(
    bench: Bench,
) -> None:
    page = bench.tasks
    bench.show(CALF)
    bench.press("Ctrl+D", "Ctrl+N")
    bench.fill(name=CALF)
    bench.press("Ctrl+S", "Ctrl+Shift+D")
    assert bench.told == "“Seated calf” is in the list already. Choose another name."
    assert not page.undo.isEnabled()
    page.archived.click()
    page.list.setCurrentRow(0)
    bench.press("Ctrl+D")
    assert "is in the list already" in bench.told
    assert bench.entries() == ["Seated calf · ankle"]


def test_an_archived_task_is_renamed_and_put_back(bench: Bench) -> None:
    page = bench.tasks
    bench.show(CALF)
    bench.press("Ctrl+D", "Ctrl+N")
    bench.fill(name=CALF)
    bench.press("Ctrl+S")
    page.archived.click()
    page.list.setCurrentRow(0)
    bench.fill(name="Seated calf, old bench")
    bench.press("Ctrl+S")
    assert bench.entries() == ["Seated calf, old bench · ankle"]
    bench.press("Ctrl+D")
    assert bench.told == "It is on the list again."


def test_an_athlete_is_not_put_back_from_here(bench: Bench) -> None:
    person = bench.roster.save_athlete("", AthleteDetails("INV-1"), None)
    bench.roster.archive_athlete(person)
    bench.page.enter()
    assert not bench.tasks.undo.isEnabled()
    bench.press("Ctrl+Shift+D")
    assert bench.roster.athletes() == ()


def test_a_task_that_is_gone_is_said_and_the_form_stays(bench: Bench) -> None:
    page = bench.tasks
    task = bench.show(CALF)
    with bench.book._write() as connection:
        connection.exec_driver_sql("DELETE FROM tasks WHERE name LIKE 'Hip%'")
    page.list.setCurrentRow(0)
    assert bench.told == "This task is not in the logbook any more."
    assert (page.key, page.name.text) == (task.key, CALF)


# ------------------------------------------------------------ looks and words


def test_each_control_has_a_name_and_tab_comes_to_all(bench: Bench) -> None:
    page = bench.tasks
    assert nameless(page) == []
    bench.show(LOWERING)
    page.words.line.setFocus()
    assert bench.ring() == [
        page.words.line,
        page.archived,
        page.list,
        page.new,
        page.archive,
        page.name.line,
        page.kind,
        page.sides,
        page.joint,
        page.movement.line,
        page.angle.line,
        page.arm.line,
        page.site.line,
        page.posture.line,
        page.pair,
        page.save,
        page.revert,
        page.live,
    ]


@pytest.mark.parametrize(("width", "size"), [(1280, 1.0), (1920, 1.5)])
@pytest.mark.parametrize("night", [False, True])
def test_nothing_is_cut_off_with_long_names_and_errors(
    bench: Bench, width: int, size: float, *, night: bool
) -> None:
    page = bench.tasks
    name = "Isometric knee extension, seated, with the long belt " * 3
    bench.book.tasks.add(Task(name, setup=Setup(Joint.KNEE, site="strap " * 30)))
    theme = NIGHT if night else DAY
    page.setStyleSheet(style_sheet(theme, size=size))
    page.set_size(size)
    page.set_theme(theme)
    page.resize(width, round(720 * size))
    bench.show(LOWERING)
    page.pair.setFocus()
    bench.write(name.strip())
    bench.fill(angle="x", arm="35", name="")
    bench.press("Ctrl+S")
    QCoreApplication.processEvents()
    assert cut_off(page) == []
    assert page.width() == width
    for labels in page.columns:
        assert len({label.width() for label in labels}) == 1


def test_back_to_live(qtbot: QtBot, bench: Bench) -> None:
    with qtbot.waitSignal(bench.tasks.live_wanted):
        bench.tasks.live.click()
