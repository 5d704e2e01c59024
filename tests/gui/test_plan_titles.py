"""Names that the program brings along, in the language of the window."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.demo_window import opened_demo
from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QFontMetrics

from biofeedback.gui.plan_titles import plan_name, plan_title
from biofeedback.training.example_plans import EXAMPLE_PLANS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication
    from pytestqt.qtbot import QtBot

    from biofeedback.gui.window import Window

CALF = "Pantorrilla en posición sentada"
PLAN = "Ejemplo inventado: mantenimientos cortos de pantorrilla, ambos lados"
STAGE = "Comenzar: 25–40 % durante 10 s"

pytestmark = pytest.mark.usefixtures("spanish")


@pytest.fixture
def window(qapp: QApplication, qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """On the logbook of the demo, with a running order at the desk."""
    del qapp
    with opened_demo(tmp_path, step_us=50_000) as (session, made):
        qtbot.addWidget(made)
        made.resize(1280, 720)
        made.show()
        for _ in range(10):
            session.step()
            made.frame()
        yield made


def test_the_task_of_the_next_set_stands_there_whole(window: Window) -> None:
    window.desk.pages.today.click()
    window.mounted.today.whole.click()
    window.frame()
    QCoreApplication.processEvents()
    rows = window.order.box.list
    assert rows.isVisible()
    items = [rows.item(at) for at in range(rows.count())]
    (text,) = (item.text() for item in items if item.font().bold())
    assert CALF in text
    assert "…" not in text
    letters = QFontMetrics(rows.item(0).font())
    room_px = rows.viewport().width() - 2 * rows.iconSize().width()
    assert all(letters.horizontalAdvance(line) <= room_px for line in text.split("\n"))
    last = rows.visualItemRect(rows.item(rows.count() - 1))
    assert last.bottom() <= rows.viewport().height()


def test_plan_and_stage_of_today_are_in_the_language_of_the_window(
    window: Window,
) -> None:
    window.desk.pages.today.click()
    assert f"{PLAN}: {STAGE}" in window.mounted.today.heading.text()
    assert "Example" not in window.mounted.today.heading.text()


def test_the_page_of_plans_shows_them_and_keeps_the_english(window: Window) -> None:
    window.desk.pages.plan.click()
    page = window.mounted.plan
    assert page is not None
    listed = page.lists.plans.item(0).text()
    assert PLAN in listed
    assert STAGE in listed
    assert page.stage_form.name.text == PLAN
    assert page.stage_form.stage_name.text == STAGE


def test_each_name_comes_back_as_it_was() -> None:
    names = [
        name
        for plan in EXAMPLE_PLANS
        for name in (plan.name, *(stage.name for stage in plan.stages))
    ]
    assert [plan_name(plan_title(name)) for name in names] == names
    assert not {plan_title(name) for name in names} & set(names)
    assert plan_title("Typed by hand") == plan_name("Typed by hand") == "Typed by hand"
