"""No page brings a window of its own while it is built, not even for a moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.demo_window import opened_demo
from gui.test_spanish import Stage
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QWidget

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

pytestmark = [pytest.mark.slow, pytest.mark.timeout(240)]


class Watch(QObject):
    """Remembers whatever is shown as a window."""

    def __init__(self) -> None:
        super().__init__()
        self.shown: list[str] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Looks on, and lets everything pass."""
        if (
            event.type() == QEvent.Type.Show
            and isinstance(watched, QWidget)
            and watched.isWindow()
        ):
            self.shown.append(f"{type(watched).__name__}: {watched.property('text')}")
        return False


def test_a_page_is_built_inside_the_window(
    qapp: QApplication, qtbot: QtBot, tmp_path: Path
) -> None:
    watch = Watch()
    with opened_demo(tmp_path, step_us=50_000) as (session, window):
        qtbot.addWidget(window)
        window.show()
        qapp.installEventFilter(watch)
        pages = [name for name, _ in Stage(session, window).pages()]
        qapp.removeEventFilter(watch)

    assert len(pages) > 10
    assert watch.shown == [], "in front of the athlete's screen"
