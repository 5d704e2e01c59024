"""The offer of another folder, at the desk of a real session whose disk fails."""

from __future__ import annotations

import time
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo
from biofeedback.session.office import Office

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

pytestmark = pytest.mark.usefixtures("qapp")


@dataclass(frozen=True, slots=True)
class Folders:
    """One that fails, and another one."""

    home: Path
    second: Path


@pytest.fixture
def folders(tmp_path: Path) -> Folders:
    made = Folders(tmp_path / "recordings", tmp_path / "second")
    made.home.write_text("in the way")
    made.second.mkdir()
    return made


@contextmanager
def opened(folders: Folders) -> Iterator[tuple[Session, Window]]:
    """A session and its window; nothing is drawn but when it is asked for."""
    with Logbook.open(folders.home.with_name("logbook.db")) as logbook:
        session = Session(
            demo.source(step_us=16_000),
            logbook=logbook,
            recordings=folders.home,
            athlete_code="INV-1",
        )
        office = Office.of(logbook, folders.home, session)
        window = Window(session, office, prescription=demo.PRESCRIPTION)
        window.show()
        window.frames.stop()
        yield session, window


def until(session: Session, window: Window, done: Callable[[], bool]) -> None:
    """Steps the session and draws, until it is so."""
    until_s = time.monotonic() + 10.0
    while not done():
        assert time.monotonic() < until_s
        session.step()
        window.frame()
        QApplication.processEvents()


def test_a_folder_is_offered_while_the_disk_fails_and_the_recording_goes_there(
    folders: Folders,
) -> None:
    home, second = folders.home, folders.second
    with opened(folders) as (session, window):
        button = window.desk.foot.elsewhere
        window.frame()
        assert button.isHidden()
        session.begin_set(demo.PRESCRIPTION)
        until(session, window, button.isVisible)

        keys = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
        QTest.keyClick(window, Qt.Key.Key_F, keys)
        dialog = window.other_folder.dialog
        assert dialog is not None
        assert not dialog.isModal()  # the set can be stopped behind it
        dialog.fileSelected.emit(str(second))
        dialog.reject()
        assert window.other_folder.dialog is None
        until(session, window, lambda: not button.isVisible())
        assert len(list(second.glob("*.force"))) == 1
        assert str(second) in window.desk.messages.message.toolTip()

        home.unlink()
        window.close()
        assert len(list(home.glob("*.force"))) == 1
        assert list(second.iterdir()) == []


def test_the_stop_key_stops_the_set_also_where_the_dialog_has_the_focus(
    folders: Folders,
) -> None:
    home, second = folders.home, folders.second
    with opened(folders) as (session, window):
        session.begin_set(demo.PRESCRIPTION)
        until(session, window, window.desk.foot.elsewhere.isVisible)
        window.desk.foot.elsewhere.click()
        dialog = window.other_folder.dialog
        assert dialog is not None
        assert window.desk.in_set
        dialog.activateWindow()
        QTest.keyClick(dialog, Qt.Key.Key_Escape)
        until(session, window, lambda: not window.desk.in_set)
        assert window.other_folder.dialog is dialog  # what was recorded needs a place
        dialog.fileSelected.emit(str(second))
        until(session, window, lambda: len(list(second.glob("*.force"))) == 1)
        QTest.keyClick(dialog, Qt.Key.Key_Escape)
        assert not dialog.isVisible()
        home.unlink()
        window.close()


def test_in_a_set_that_is_on_disk_nothing_is_laid_over_the_picture(
    tmp_path: Path,
) -> None:
    with opened(Folders(tmp_path / "recordings", tmp_path)) as (session, window):
        session.begin_set(demo.PRESCRIPTION)
        until(session, window, lambda: bool(list(tmp_path.rglob("*.force"))))
        until(session, window, lambda: not session.needs_folder)
        keys = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
        QTest.keyClick(window, Qt.Key.Key_F, keys)
        assert window.other_folder.dialog is None
        assert "is on disk" in window.desk.messages.message.toolTip()
        window.close()
