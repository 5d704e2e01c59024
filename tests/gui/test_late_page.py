"""A page that is built when it is first wanted says so before it is there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.late_page import LatePage

if TYPE_CHECKING:
    from PySide6.QtGui import QImage
    from pytestqt.qtbot import QtBot


class _Page(QWidget):
    live_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.live = QPushButton()


def _on_screen(window: QWidget) -> QImage:
    """What has been put on the screen, and not what would be painted now."""
    return window.screen().grabWindow(window.winId()).toImage()


def test_what_takes_long_is_said_on_the_screen_before_it_is_done(qtbot: QtBot) -> None:
    on_screen: list[QImage] = []

    def make() -> _Page:
        on_screen.append(_on_screen(window))
        return _Page()

    window = QWidget()
    qtbot.addWidget(window)
    shell = LatePage(make)
    QVBoxLayout(window).addWidget(shell)
    window.resize(300, 200)
    with qtbot.waitExposed(window):
        window.show()
    window.repaint()
    before = _on_screen(window)
    page = shell.page
    assert len(on_screen) == 1
    assert on_screen[0] != before, "nothing new was on the screen while it was built"
    qtbot.waitUntil(lambda: not shell.findChildren(QLabel))
    assert page.size() == shell.size()
