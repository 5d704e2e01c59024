"""The window on the logbook of the demo, which has something on every page."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, QLocale

from biofeedback.gui import language
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo, demo_content
from biofeedback.session.office import Office

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication

    from biofeedback.session.preferences import Language

SPAIN = QLocale(QLocale.Language.Spanish, QLocale.Country.Spain)


@contextmanager
def opened_demo(
    folder: Path, *, step_us: int, **asked: Any
) -> Iterator[tuple[Session, Window]]:
    """The session, which is stepped, and its window, which is still to be shown.

    Args:
        folder: holds the logbook.
        step_us: of device time, in each step.
        asked: what is changed of the prescription at the desk.
    """
    with Logbook.open(folder / "logbook.db") as logbook:
        recordings = folder / "recordings"
        demo_content.fill(logbook, recordings, now=datetime.now(tz=UTC))
        session = Session(
            demo.source(seed=11, channels=2, step_us=step_us),
            logbook=logbook,
            recordings=recordings,
            athlete_code=demo.ATHLETE_CODE,
            athlete_name=demo.ATHLETE_NAME,
        )
        window = Window(
            session,
            Office.of(logbook, recordings, session),
            prescription=replace(demo_content.prescription(logbook), **asked),
        )
        yield session, window
        window.close()


@contextmanager
def speaking(app: QApplication, tongue: Language) -> Iterator[None]:
    """The program speaks it, on a machine in Spain."""
    before = QLocale()
    installed = language.speak(app, tongue, system=SPAIN)
    yield
    for one in installed:
        QCoreApplication.removeTranslator(one)
    QLocale.setDefault(before)
