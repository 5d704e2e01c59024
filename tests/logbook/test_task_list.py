"""The task list on a real SQLite file."""

from __future__ import annotations

import threading
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

CALF = Task(
    "Standing calf",
    TaskKind.HOLD,
    Sides.BOTH,
    Setup(Joint.ANKLE, "plantar flexion", 10.0, "shoulder pads", 0.18, "standing"),
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def names(book: Logbook, words: str = "", *, archived: bool = False) -> list[str]:
    found = book.tasks.search(words, archived=archived)
    return [stored.task.name for stored in found]


def test_what_is_entered_comes_back_with_its_key(book: Logbook) -> None:
    task = book.tasks.add(CALF)
    assert replace(task, key="") == CALF
    assert book.tasks.get(task.key) == task
    assert book.tasks.by_name(" standing CALF ") == task
    assert book.tasks.get("none") is None


def test_the_starter_list_is_given_once(book: Logbook) -> None:
    book.tasks.start()
    book.tasks.start()
    assert len(names(book)) == len(STARTER_TASKS) == 5
    for stored in book.tasks.search():
        book.tasks.archive(stored.task.key)
    book.tasks.start()
    assert names(book) == []


def test_the_list_is_shown_while_another_program_writes(book: Logbook) -> None:
    book.tasks.start()
    with Logbook.open(book.place) as other, other._write():
        hurried = book.hurried(0.01)
        hurried.tasks.start()
        assert len(names(hurried)) == len(STARTER_TASKS)


def test_two_programs_that_begin_at_once_give_one_starter_list(book: Logbook) -> None:
    places = [Logbook.open(book.place) for _ in range(4)]
    threads = [threading.Thread(target=place.tasks.start) for place in places]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for place in places:
        place.close()
    assert len(names(book)) == len(STARTER_TASKS)


def test_a_task_that_is_gone_is_neither_archived_nor_put_back(book: Logbook) -> None:
    for act in (book.tasks.archive, book.tasks.restore):
        with pytest.raises(FieldError, match="not in the logbook any more"):
            act("none")


def test_all_that_is_wrong_is_found_at_once_and_nothing_is_kept(book: Logbook) -> None:
    task = book.tasks.add(CALF)
    setup = Setup(movement="x" * 201, site="x" * 201, posture="x" * 201)
    wrong = Task("standing CALF", setup=setup, pair="x" * 201)
    fields = [error.field for error in book.tasks.wrong_with(wrong)]
    assert fields == [
        "task.name",
        "setup.movement",
        "setup.site",
        "setup.posture",
        "task.pair",
    ]
    assert book.tasks.wrong_with(task) == ()
    assert names(book) == ["Standing calf"]


def test_the_starter_lowering_is_held_against_a_task_of_the_list() -> None:
    (lowering,) = [t for t in STARTER_TASKS if t.kind is TaskKind.LOWERING]
    assert lowering.pair
    assert any(lowering.pair in {task.key, task.name} for task in STARTER_TASKS)


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("KNEE", ["Prone knee flexion", "Slow kneeling lowering for the hamstrings"]),
        ("lowering", ["Slow kneeling lowering for the hamstrings"]),
        ("crook lying", ["Hip adduction in crook lying"]),
        ("ankle", ["Seated calf"]),
        ("rotation elbow", ["Shoulder external rotation at the side"]),
        ("nothing of the kind", []),
    ],
)
def test_search_by_name_joint_movement_and_posture(
    book: Logbook, words: str, found: list[str]
) -> None:
    book.tasks.start()
    assert [name for name in names(book, words) if name in found] == found
    assert bool(names(book, words)) == bool(found)


def test_an_edited_task_keeps_its_key(book: Logbook) -> None:
    task = book.tasks.add(CALF)
    changed = replace(task, name="Calf, standing", setup=None)
    book.tasks.change(changed)
    assert book.tasks.get(task.key) == changed


@pytest.mark.parametrize(
    ("name", "words"),
    [("", "must not be empty"), (" ", "must not be empty"), ("x" * 201, "longer"),
     ("SEATED calf", "is in the list already")],
)  # fmt: skip
def test_a_name_that_does_not_fit_is_refused_and_nothing_is_kept(
    book: Logbook, name: str, words: str
) -> None:
    book.tasks.start()
    before = book.tasks.search()
    with pytest.raises(FieldError, match=rf"^task\.name.*{words}"):
        book.tasks.add(replace(CALF, name=name))
    with pytest.raises(FieldError, match=rf"^task\.name.*{words}"):
        book.tasks.change(replace(before[0].task, name=name))
    assert book.tasks.search() == before


def test_a_task_can_be_saved_under_the_name_it_has(book: Logbook) -> None:
    task = book.tasks.add(CALF)
    book.tasks.change(replace(task, sides=Sides.LEFT))


def test_archived_and_back_unless_its_name_is_taken(book: Logbook) -> None:
    task = book.tasks.add(CALF)
    book.tasks.archive(task.key)
    assert (names(book), names(book, archived=True)) == ([], ["Standing calf"])
    again = book.tasks.add(CALF)
    with pytest.raises(FieldError, match="is in the list already"):
        book.tasks.restore(task.key)
    book.tasks.archive(again.key)
    book.tasks.restore(task.key)
    assert book.tasks.by_name("standing calf") == task


def test_a_task_that_is_not_there_cannot_be_changed(book: Logbook) -> None:
    with pytest.raises(FieldError, match="there is no task"):
        book.tasks.change(replace(CALF, key="none"))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"lever_arm_m": 35.0}, r"is 35 m; .* Type metres: 0\.35 for 35 cm"),
        ({"lever_arm_m": 0.0}, "lever_arm_m"),
        ({"angle_deg": 400.0}, "angle_deg"),
    ],
)
def test_a_position_that_no_joint_has(change: dict[str, float], words: str) -> None:
    with pytest.raises(FieldError, match=words):
        Setup(**change)  # type: ignore[arg-type]  # by name


def test_torque_needs_a_lever_arm() -> None:
    assert CALF.setup is not None
    assert CALF.setup.torque_nm(400.0) == pytest.approx(72.0)
    assert Setup().torque_nm(400.0) is None


def test_a_task_of_an_older_recording_has_no_position() -> None:
    old = {"name": "Seated calf push", "kind": "hold", "sides": "both"}
    assert Task.from_json(Fields(old)) == Task("Seated calf push")
    assert Task.from_json(Fields(CALF.to_json())) == CALF
