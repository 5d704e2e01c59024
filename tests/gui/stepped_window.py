"""The window on a staged session: its frames are stepped, its keys are pressed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gui.hands import bring_up
from gui.staged_session import ASKED, FRAME_S, StagedSession, steady_pull
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest

from biofeedback.gui.window import Window
from biofeedback.session.second_start import SEEN_S

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from biofeedback.training.feedback import Cue


class Stepped:
    """Steps the frames of a window by hand, and presses its keys."""

    session: StagedSession
    window: Window

    def run(self, seconds: float = 0.2) -> None:
        for _ in range(max(1, round(seconds / FRAME_S))):
            self.session.advance(FRAME_S)
            self.window.frame()

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))

    def press_again(self, key: str = "F5") -> None:
        """Once more, when what was said has been seen for a while."""
        self.run(SEEN_S)
        self.press(key)

    @property
    def told(self) -> str:
        return self.window.desk.messages.message.text()


class Stage(Stepped):
    """A window without a logbook."""

    def __init__(self, qtbot: QtBot) -> None:
        self.session = StagedSession(steady_pull)
        self.window = Window(
            self.session,
            prescription=ASKED,
            clock=lambda: self.session.now_ns,
        )
        bring_up(qtbot, self.window)

    def cue(self) -> Cue:
        return self.window.screen_part.shown_cue

    def live(self) -> bool:
        return self.window.pages.live_shown

    def in_set(self) -> bool:
        return self.window.desk.in_set
