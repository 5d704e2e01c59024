"""Tasks that the program brings along, in Spanish where they are shown and typed."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from gui.test_task_page import CALF, Bench

from biofeedback.gui.maximal_setup import MaximalSetup
from biofeedback.gui.prescription_form import PrescriptionForm
from biofeedback.gui.review_filters import ReviewFilters
from biofeedback.gui.task_titles import task_name, task_title
from biofeedback.logbook.database import Logbook
from biofeedback.phrase import Phrase
from biofeedback.session import demo
from biofeedback.training.example_plans import EXAMPLE_PLANS
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

PANTORRILLA = "Pantorrilla en posición sentada"

pytestmark = pytest.mark.usefixtures("spanish")


@pytest.fixture
def bench(qtbot: QtBot, tmp_path: Path) -> Iterator[Bench]:
    place = tmp_path / "logbook.db"
    with Logbook.open(place) as book:
        yield Bench(qtbot, book, place)


def test_all_that_is_brought_along_can_be_translated() -> None:
    tasks = [*STARTER_TASKS, demo.PRESCRIPTION.task]
    tasks += [
        one.task
        for plan in EXAMPLE_PLANS
        for stage in plan.stages
        for one in stage.prescriptions
    ]
    for task in tasks:
        setup = task.setup
        more = (setup.movement, setup.site, setup.posture) if setup else ()
        for text in filter(None, (task.name, *more)):
            assert isinstance(text, Phrase), text
            assert task_title(text) != text
            assert task_name(task_title(text)) == text


def test_the_list_the_form_and_a_search_speak_spanish(bench: Bench) -> None:
    assert f"{PANTORRILLA} · tobillo" in bench.entries()
    task = bench.show(CALF)
    assert bench.tasks.name.text == PANTORRILLA
    assert bench.tasks.movement.text == "flexión plantar"
    bench.press("Ctrl+S")
    assert bench.stored(CALF) == task
    bench.page.words.line.setFocus()
    bench.write("pantorrilla posicion")
    assert bench.entries() == [f"{PANTORRILLA} · tobillo"]
    bench.write("calf")
    assert bench.entries() == [f"{PANTORRILLA} · tobillo"]


def test_what_is_kept_stays_english_and_what_is_typed_as_it_was_typed(
    bench: Bench,
) -> None:
    bench.show(CALF)
    bench.fill(posture="de pie")
    bench.press("Ctrl+S")
    with closing(sqlite3.connect(bench.place)) as file:
        names = [name for (name,) in file.execute("SELECT name FROM tasks")]
    assert CALF in names
    assert bench.stored(CALF).setup.posture == "de pie"  # type: ignore[union-attr]
    bench.show(CALF)
    bench.fill(name="Seated calf, mine")
    bench.press("Ctrl+S")
    assert "Seated calf, mine · tobillo" in bench.entries()


def test_desk_test_and_review_give_back_the_name_that_is_kept(qtbot: QtBot) -> None:
    desk = PrescriptionForm(demo.PRESCRIPTION)
    setup, filters = MaximalSetup(), ReviewFilters()
    for widget in (desk, setup, filters):
        qtbot.addWidget(widget)
    assert desk.task.text == task_title(demo.PRESCRIPTION.task.name)
    asked = desk.read()
    assert asked is not None
    assert asked.task == demo.PRESCRIPTION.task
    calf = STARTER_TASKS[-1]
    setup.offer((calf, Task("Calf raise")))
    setup.choose(calf)
    assert setup.task.currentText() == PANTORRILLA
    assert setup.chosen_task() == calf
    setup.task.setCurrentText("Calf raise")
    assert setup.chosen_task() == Task("Calf raise").on_side(setup.sides.currentData())
    filters.offer((CALF, "Calf raise"))
    filters.task.setCurrentIndex(1)
    assert filters.task.currentText() == PANTORRILLA
    assert filters.wanted.task == CALF
    filters.offer(("Another", CALF))
    assert filters.wanted.task == CALF
