"""Closing the real window over text that is not saved, on a real logbook."""

from __future__ import annotations

import os
import signal
from typing import TYPE_CHECKING

import pytest
from gui.staged_session import ASKED, FRAME_S, StagedSession, steady_pull
from PySide6.QtCore import QCoreApplication

from biofeedback.gui import interrupt
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session.office import Office
from biofeedback.session.planning import Planning
from biofeedback.session.roster import Roster
from biofeedback.session.visit_summary import VisitSummaries

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

NOT_SAVED = "Not saved yet: {}. Save it first, or close again without it."


class House:
    """A window stepped by hand; the logbook has one invented athlete."""

    def __init__(self, qtbot: QtBot, logbook: Logbook) -> None:
        logbook.add_athlete("A7", "Invented A7")
        self.session = StagedSession(steady_pull)
        office = Office(
            logbook=logbook,
            roster=Roster(logbook),
            planning=lambda: Planning(logbook),
            visits=lambda: VisitSummaries(logbook),
        )
        self.window = Window(
            self.session,
            office,
            prescription=ASKED,
            clock=lambda: self.session.now_ns,
        )
        qtbot.addWidget(self.window)
        self.window.show()
        self.run()

    def run(self) -> None:
        for _ in range(12):
            self.session.advance(FRAME_S)
            self.window.frame()

    def type_on(self, place: str) -> None:
        """Types something that is to be saved."""
        mounted, desk = self.window.mounted, self.window.desk
        roster, tasks, plan = mounted.roster, mounted.tasks, mounted.plan
        assert roster is not None
        assert tasks is not None
        assert plan is not None
        match place:
            case "Athletes":
                desk.pages.athletes.click()
                roster.name.line.insert("Arvid")
            case "Tasks":
                desk.pages.tasks.click()
                tasks.posture.line.insert("seated")
            case "Plan":
                desk.pages.plan.click()
                plan.lists.begin.click()
            case "Visit":
                desk.pages.visit.click()
                mounted.end.note.set_text("Slower next time.")
            case _:
                desk.note.line.insert("Chalk.")

    @property
    def told(self) -> str:
        return self.window.desk.messages.message.text()

    @property
    def open(self) -> bool:
        return self.window.isVisible() and not self.session.closed


@pytest.fixture
def house(qtbot: QtBot, tmp_path: Path) -> Iterator[House]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        yield House(qtbot, logbook)


@pytest.mark.parametrize("place", ["Athletes", "Tasks", "Plan", "Visit", "Note"])
def test_what_is_not_saved_is_named_once(house: House, place: str) -> None:
    house.type_on(place)
    house.window.close()
    assert house.open
    assert house.told == NOT_SAVED.format(place)
    assert house.window.pages.live_shown, "the message is in sight"
    house.run()
    house.window.close()
    assert not house.open


def test_all_that_is_not_saved_is_named_at_once(house: House) -> None:
    house.type_on("Athletes")
    house.type_on("Note")
    house.window.close()
    assert house.told == NOT_SAVED.format("Athletes, Note")


def test_what_is_typed_since_is_named_again(house: House) -> None:
    house.type_on("Athletes")
    house.window.close()
    house.type_on("Athletes")
    house.window.close()
    assert house.open
    house.type_on("Note")
    house.window.close()
    assert house.open
    house.window.close()
    assert not house.open


def test_typed_text_stays_where_it_is_and_can_be_saved(house: House) -> None:
    house.type_on("Athletes")
    page = house.window.mounted.roster
    assert page is not None
    page.code.set_text("B2")
    house.window.close()
    house.window.desk.pages.athletes.click()
    assert (page.code.text, page.name.text) == ("B2", "Arvid")
    page.save.click()
    house.window.close()
    assert not house.open, "all is saved"


def test_nothing_typed_closes_at_once(house: House) -> None:
    for page in ("athletes", "tasks", "plan", "visit"):
        getattr(house.window.desk.pages, page).click()
        house.window.pages.show_live()
    house.window.close()
    assert not house.open


def test_the_window_closes_in_a_set_whatever_is_typed(house: House) -> None:
    house.type_on("Athletes")
    house.window.pages.show_live()
    house.window.desk.start.click()
    house.run()
    assert house.window.desk.in_set
    house.window.close()
    assert not house.open
    assert ("end_set", "window closed") in house.session.done


def test_a_polite_kill_closes_at_once(house: House) -> None:
    house.type_on("Note")
    with interrupt.closes() as closing:
        closing.of(house.window)
        os.kill(os.getpid(), signal.SIGTERM)
        # Not within the step of the program that it met, which may hold a lock.
        assert house.open
        QCoreApplication.processEvents()
    assert not house.open


def test_ctrl_c_while_the_window_is_made_closes_it_once_it_is_there(
    house: House,
) -> None:
    with interrupt.closes() as closing:
        os.kill(os.getpid(), signal.SIGINT)
        closing.of(house.window)
        assert house.open
        QCoreApplication.processEvents()
    assert not house.open


def test_where_ctrl_c_is_not_heeded_it_closes_no_window(house: House) -> None:
    """As in the background of a script, whose terminal sends it to all."""
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        with interrupt.closes() as closing:
            closing.of(house.window)
            os.kill(os.getpid(), signal.SIGINT)
            QCoreApplication.processEvents()
            assert house.open
    finally:
        signal.signal(signal.SIGINT, before)
