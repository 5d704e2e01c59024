"""The application: opens the window, or paints it off screen into a picture."""

from __future__ import annotations

import os
import sys
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QEventLoop,
    QMessageLogContext,
    QSize,
    QTimer,
    QtMsgType,
    qInstallMessageHandler,
)
from PySide6.QtWidgets import QApplication

from biofeedback.errors import FileError
from biofeedback.gui import interrupt
from biofeedback.gui.language import speak
from biofeedback.gui.theme import DAY, Theme, font
from biofeedback.gui.window import Window
from biofeedback.phrase import phrase
from biofeedback.session.preferences import Preferences
from biofeedback.session.second_start import SEEN_S

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.gui.live_session import LiveSession
    from biofeedback.session.office import Office
    from biofeedback.session.unlocking import Unlocking
    from biofeedback.training.prescription import Prescription

SIGNAL_WITHIN_S = 5.0
"""A snapshot waits this long for the first sample."""
LOOK_MS = 50
STARTS_MOST = 4
"""The first start may be spoken against, and a busy machine shows that late."""
ON_SCREEN_WITHIN_S = 0.25
FRAME_PX = 48
"""More than the title bars of the usual desktops are tall. From memory, no source."""


def application(*, off_screen: bool = False) -> QApplication:
    """The one QApplication, made where there is none yet."""
    running = QApplication.instance()
    if isinstance(running, QApplication):
        return running
    if off_screen:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
        qInstallMessageHandler(_without_plugin_note)
    app = QApplication([sys.argv[0]])
    app.setApplicationName("biofeedback")
    app.setStyle("Fusion")  # the same on each system, so that it can be checked
    app.setFont(font(13))
    return app


def _without_plugin_note(
    _kind: QtMsgType, _context: QMessageLogContext, message: str
) -> None:
    """Qt's messages, but for one that the off-screen plugin always gives."""
    if not message.startswith("This plugin does not support"):
        sys.stderr.write(f"{message}\n")


@dataclass(frozen=True, slots=True)
class Opening:
    """How the window opens.

    Attributes:
        prescription: what the desk's fields start with.
        notice: said at the desk at the start, such as what was recovered.
        preferences: of this computer; None for those the program ships.
        keep: puts changed preferences away.
        begins: whether Start is pressed once force comes, as for the demo; what speaks
            against a set is said, and then it waits, as always.
    """

    prescription: Prescription
    notice: str = ""
    theme: Theme = DAY
    preferences: Preferences | None = None
    keep: Callable[[Preferences], None] | None = None
    begins: bool = False
    full_screen: bool = False
    size: tuple[int, int] = (1280, 720)


def _window(session: LiveSession, office: Office | None, opening: Opening) -> Window:
    preferences = opening.preferences or Preferences()
    speak(application(), preferences.language)
    window = Window(
        session,
        office,
        prescription=opening.prescription,
        notice=opening.notice,
        theme=opening.theme,
        preferences=opening.preferences,
        keep=opening.keep,
    )
    window.resize(*opening.size)
    return window


def unlock(unlocking: Unlocking, preferences: Preferences, theme: Theme) -> bool:
    """Asks for the passphrase of a sealed logbook, before there is a session.

    Returns:
        Whether it can be opened now.
    """
    from biofeedback.gui.unlock_page import UnlockPage  # noqa: PLC0415  few need it

    app = application()
    spoken = speak(app, preferences.language)
    page = UnlockPage(unlocking, theme, size=preferences.text_pct / 100)
    page.show()
    loop = QEventLoop()
    page.ended.connect(loop.quit)
    with interrupt.closes() as closing:
        closing.of(page)
        loop.exec()
    page.deleteLater()
    app.processEvents()
    for translator in spoken:  # the window says for itself in which language
        app.removeTranslator(translator)
    return page.opened


def has_room(size: QSize, screen: QSize) -> bool:
    """Whether a window and its frame can be seen whole.

    Stop stands at the very bottom of the desk, and a window that is too tall has it
    below the edge of the screen. How tall a frame is, is known only once it is there.

    Args:
        size: of the window inside its frame, in px.
        screen: what task bars and docks leave free, in px.
    """
    return (
        size.width() <= screen.width() and size.height() + FRAME_PX <= screen.height()
    )


def run(session: LiveSession, office: Office | None, opening: Opening) -> int:
    """Opens the window and returns when it has been closed.

    The session must have been started; the window closes it.

    Returns:
        The exit code of the event loop.
    """
    with interrupt.closes() as closing:
        app = application()
        window = _window(session, office, opening)
        if opening.full_screen:
            window.showFullScreen()
        elif has_room(window.size(), window.screen().availableSize()):
            window.show()
        else:
            window.showMaximized()
        window.frames.start()
        if opening.begins:
            _begin_with_force(window)
        closing.of(window)
        return app.exec()


def _begin_with_force(window: Window) -> None:
    timer = QTimer(window)

    def look() -> None:
        if window.drawn_age_s is not None:
            timer.stop()
            window.desk.start.click()

    timer.timeout.connect(look)
    timer.start(LOOK_MS)


def snapshot(
    session: LiveSession,
    office: Office | None,
    opening: Opening,
    *,
    path: Path,
    seconds: float,
) -> bool:
    """Runs the same window off screen for some seconds and saves a picture.

    A set is begun as soon as a sample has come, as the start key does it.

    Args:
        seconds: from the start of the set to the picture.

    Returns:
        Whether fresh samples were drawn; without a rig there is a picture all the same.

    Raises:
        FileError: the picture cannot be written.
        KeyboardInterrupt: somebody closed it before that.
    """
    application(off_screen=True)
    with interrupt.closes() as closing:
        window = _window(session, office, opening)
        window.show()
        window.frames.start()
        closing.of(window)
        drawn = _until(lambda: window.drawn_age_s is not None, closing, SIGNAL_WITHIN_S)
        for _ in range(STARTS_MOST):
            if closing.came:
                break
            window.desk.start.click()
            if not window.visit.asks_again:
                break
            # What speaks against it counts from when it came to the screen.
            _until(lambda: False, closing, SEEN_S + ON_SCREEN_WITHIN_S)
        _until(lambda: False, closing, seconds)
        drawn = drawn and window.drawn_age_s is not None
        picture = window.grab()
        window.close_at_once()
    if closing.came:
        raise KeyboardInterrupt
    if not picture.save(str(path), "PNG"):
        raise FileError(path, phrase("the picture cannot be written."))
    return drawn


def _until(
    reached: Callable[[], bool], closing: interrupt.Closing, within_s: float
) -> bool:
    """The window goes on; returns whether it was reached before the time was over."""
    loop = QEventLoop()
    until_s = time.monotonic() + within_s
    while not reached() and not closing.came and time.monotonic() < until_s:
        QTimer.singleShot(LOOK_MS, loop.quit)
        loop.exec()
    return reached()
