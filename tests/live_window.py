"""A set held in the real window, from a port to the logbook."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.rig.serial_source import SerialSource
from biofeedback.session import Session
from biofeedback.session.office import Office
from biofeedback.session.review import Library
from biofeedback.session.second_start import SEEN_S

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.training.prescription import Prescription


@contextlib.contextmanager
def set_held(
    qtbot: QtBot,
    port: Path,
    folder: Path,
    asked: Prescription,
    *,
    athlete_code: str,
    within_s: int,
) -> Iterator[Library]:
    """Opens the window on `port`, starts the set and waits until it is over.

    The set ends by itself with its last rep. The window has been closed by then,
    and the logbook is open for as long as the block runs.

    Args:
        folder: of the recordings; the logbook is made beside it.
        within_s: from the start to the last rep in the logbook.
    """
    with Logbook.open(folder.parent / "logbook.db") as logbook:
        session = Session(
            SerialSource(str(port)),
            logbook=logbook,
            recordings=folder,
            athlete_code=athlete_code,
        )
        library = Library(logbook, folder)
        office = Office.of(logbook, folder, session)
        window = Window(session, office, prescription=asked)
        qtbot.addWidget(window)
        window.show()
        session.start()
        window.frames.start()
        qtbot.waitUntil(lambda: window.drawn_age_s is not None, timeout=10_000)
        window.desk.start.click()
        if window.visit.asks_again:  # its reference may be old by now
            qtbot.wait(round(1000 * SEEN_S))
            window.desk.start.click()
        qtbot.waitUntil(
            lambda: len(library.reps()) == asked.reps, timeout=1000 * within_s
        )
        qtbot.waitUntil(lambda: not logbook.sets_not_closed(), timeout=5_000)
        window.close()
        yield library
