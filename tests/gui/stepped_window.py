"""The window on a staged session: its frames are stepped, its keys are pressed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gui.staged_session import ASKED, FRAME_S, StagedSession, steady_pull
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest

from biofeedback.gui.window import Window

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from biofeedback.training.feedback import Cue


class Stage:
    """A window whose frames are stepped by hand."""

    def __init__(self, qtbot: QtBot) -> None:
        self.session = StagedSession(steady_pull)
        self.window = Window(
            self.session,
            prescription=ASKED,
            clock=lambda: self.session.now_ns,
        )
        qtbot.addWidget(self.window)
        self.window.show()
        self.window.activateWindow()
        qtbot.waitActive(self.window)

    def run(self, seconds: float) -> None:
        for _ in range(max(1, round(seconds / FRAME_S))):
            self.session.advance(FRAME_S)
            self.window.frame()

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))

    def cue(self) -> Cue:
        return self.window.screen_part.shown_cue

    def live(self) -> bool:
        return self.window.pages.live_shown

    def in_set(self) -> bool:
        return self.window.desk.in_set

    @property
    def told(self) -> str:
        return self.window.desk.messages.message.text()
