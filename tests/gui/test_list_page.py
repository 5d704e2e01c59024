"""What the pages of athletes and tasks have in common. All people are invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.hands import Hands, kept
from PySide6.QtGui import QTextDocument

from biofeedback.gui.roster import RosterPage
from biofeedback.gui.task_page import TaskPage
from biofeedback.logbook.database import Logbook
from biofeedback.session.roster import Roster
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

LONG = AthleteDetails(
    "INV-1", "Hedda Invented-Wintergreen of the Long Name", injured=Sides.LEFT
)
MARKED = "Knee <b>slow</b> & <i>low</i>"


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "logbook.db"


@pytest.fixture
def book(place: Path) -> Iterator[Logbook]:
    with Logbook.open(place) as opened:
        yield opened


def fill(hands: Hands, **texts: str) -> None:
    for name, text in texts.items():
        getattr(hands.page, name).line.setFocus()
        hands.write(text)


def complaints(hands: Hands) -> set[str]:
    """Names of the fields beside which something is said."""
    return {
        name
        for name, field in hands.page.fields.items()
        if field.error.isVisible() and field.error.text()
    }


def test_all_that_is_wrong_with_an_athlete_is_said_in_one_go(
    qtbot: QtBot, book: Logbook, place: Path
) -> None:
    page = RosterPage(Roster(book))
    hands = Hands(qtbot, page)
    hands.press("Ctrl+N")
    fill(hands, code="a b", birth_year="98", mass="7o", mass_date="1.2.26")
    fill(hands, name="x" * 201)
    page.notes.box.setPlainText("x" * 2001)
    page.consent.box.setPlainText("x" * 2001)
    typed, file = page.typed(), kept(place)
    hands.press("Ctrl+S")
    assert complaints(hands) == set(page.fields)
    assert page.code.line.hasFocus()
    assert (page.typed(), kept(place)) == (typed, file)
    assert hands.told == "Not saved: a field needs another value."


def test_no_date_is_asked_for_where_no_mass_is_typed(
    qtbot: QtBot, book: Logbook
) -> None:
    page = RosterPage(Roster(book))
    hands = Hands(qtbot, page)
    hands.press("Ctrl+N")
    fill(hands, code="INV-1", mass_date="")
    hands.press("Ctrl+S")
    assert hands.told == "Saved."


def test_all_that_is_wrong_with_a_task_is_said_in_one_go(
    qtbot: QtBot, book: Logbook, place: Path
) -> None:
    page = TaskPage(Roster(book))
    hands = Hands(qtbot, page)
    hands.press("Ctrl+N")
    fill(hands, name="seated CALF", angle="9o", arm="35")
    fill(hands, movement="x" * 201, site="x" * 201, posture="x" * 201)
    typed, file = page.typed(), kept(place)
    hands.press("Ctrl+S")
    assert complaints(hands) == set(page.fields)
    assert "metres" in page.arm.error.text()
    assert page.name.line.hasFocus()
    assert (page.typed(), kept(place)) == (typed, file)


def test_who_is_gone_is_not_said_to_be_archived(qtbot: QtBot, book: Logbook) -> None:
    key = book.people.add(LONG)
    page = RosterPage(Roster(book))
    hands = Hands(qtbot, page)
    page.reload(choose=key)
    with book._write() as connection:
        connection.exec_driver_sql("DELETE FROM athletes")
    hands.press("Ctrl+D")
    assert hands.told == "This athlete is not in the logbook any more."
    assert not page.undo.isEnabled()


def test_who_is_gone_is_not_said_to_be_put_back(qtbot: QtBot, book: Logbook) -> None:
    key = book.people.add(LONG)
    page = RosterPage(Roster(book))
    hands = Hands(qtbot, page)
    page.reload(choose=key)
    hands.press("Ctrl+D")
    with book._write() as connection:
        connection.exec_driver_sql("DELETE FROM athletes")
    hands.press("Ctrl+Shift+D")
    assert hands.told == "This athlete is not in the logbook any more."
    assert not page.undo.isEnabled()


def test_a_task_that_is_gone_is_not_said_to_be_archived(
    qtbot: QtBot, book: Logbook
) -> None:
    page = TaskPage(Roster(book))
    hands = Hands(qtbot, page)
    page.list.setCurrentRow(0)
    with book._write() as connection:
        connection.exec_driver_sql("DELETE FROM tasks")
    hands.press("Ctrl+D")
    assert hands.told == "This task is not in the logbook any more."
    assert not page.undo.isEnabled()


def test_tasks_are_listed_and_searched_while_another_program_writes(
    qtbot: QtBot, book: Logbook, place: Path
) -> None:
    book.tasks.start()
    with Logbook.open(place) as other, other._write():
        page = TaskPage(Roster(book.hurried(0.01)))
        hands = Hands(qtbot, page)
        assert len(hands.entries()) == len(STARTER_TASKS)
        page.words.line.setFocus()
        hands.add("calf")
        assert hands.entries() == ["Seated calf · ankle"]
        page.list.setCurrentRow(0)
        assert page.name.text == "Seated calf"
        assert hands.told == ""


def test_of_a_long_name_the_list_still_shows_side_and_visit(
    qtbot: QtBot, book: Logbook
) -> None:
    book.begin_session(book.people.add(LONG))
    page = RosterPage(Roster(book))
    hands = Hands(qtbot, page)
    (line,) = hands.entries()
    shown = page.list.fontMetrics().elidedText(
        line, page.list.textElideMode(), page.list.viewport().width() - 20
    )
    assert shown != line  # it is too long
    assert shown.startswith("INV-1 · Hedda Invented")
    assert shown.endswith(line[-len("left · last here 2026-01-31") :])
    assert page.list.item(0).toolTip() == line


def test_what_was_typed_is_shown_as_it_was_typed(qtbot: QtBot, book: Logbook) -> None:
    page = TaskPage(Roster(book))
    hands = Hands(qtbot, page)
    book.tasks.add(Task(MARKED))
    hands.press("Ctrl+N")
    fill(hands, name=MARKED)
    hands.press("Ctrl+S")
    assert page.name.error.text().startswith(f"“{MARKED}” is in the list")
    error = page.name.error
    error.setWordWrap(False)
    # Drawn with all its marks, and not as a document without them.
    words = error.fontMetrics().horizontalAdvance(error.text())
    assert error.sizeHint().width() >= words
    hands.press("Ctrl+R")
    page.reload()
    tip = page.list.item(hands.entries().index(MARKED)).toolTip()
    document = QTextDocument()
    document.setHtml(tip)
    assert document.toPlainText() == MARKED
    page.list.setCurrentRow(hands.entries().index(MARKED))
    hands.press("Ctrl+D")
    assert "&lt;b&gt;slow" in page.undo.toolTip()
    hands.press("Ctrl+Shift+D")
    assert hands.told == f"{MARKED} is on the list again."
