"""A page that is built when it is first wanted says so before it is there."""

from __future__ import annotations

import sys
import threading
import types
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QCoreApplication, QTimer, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.late_page import LatePage

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

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
    window.show()
    QCoreApplication.processEvents()
    window.repaint()
    before = _on_screen(window)
    page = shell.page
    assert len(on_screen) == 1
    assert on_screen[0] != before, "nothing new was on the screen while it was built"
    qtbot.waitUntil(lambda: not shell.findChildren(QLabel))
    assert page.size() == shell.size()


@pytest.fixture
def gate(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[threading.Event]:
    """Until it is set, the module `slow_page` is being loaded."""
    holds = types.ModuleType("late_gate")
    holds.opened = threading.Event()  # type: ignore[attr-defined]  # made here
    monkeypatch.setitem(sys.modules, "late_gate", holds)
    words = "import late_gate\nlate_gate.opened.wait(20)\n"
    (tmp_path / "slow_page.py").write_text(words)
    monkeypatch.syspath_prepend(str(tmp_path))
    yield holds.opened
    sys.modules.pop("slow_page", None)


@pytest.fixture
def shell(qtbot: QtBot) -> LatePage[_Page]:
    """Stands in the place of a page whose module loads slowly; it is shown."""
    made = LatePage(_Page, "slow_page")
    qtbot.addWidget(made)
    made.show()
    return made


def test_the_window_draws_on_while_a_page_is_loaded(
    qtbot: QtBot, shell: LatePage[_Page], gate: threading.Event
) -> None:
    entered: list[QWidget] = []
    shell.open(lambda: entered.append(shell.page))
    frames: list[int] = []
    timer = QTimer(shell)
    timer.timeout.connect(lambda: frames.append(1))
    timer.start(0)
    qtbot.waitUntil(lambda: len(frames) > 100)
    assert not entered
    (words,) = shell.findChildren(QLabel)
    assert words.isVisible()
    shell.open(lambda: entered.append(shell.page))  # once is enough
    gate.set()
    qtbot.waitUntil(lambda: bool(entered))
    assert entered == [shell.there]
    qtbot.waitUntil(lambda: not shell.findChildren(QLabel))
    shell.open(lambda: entered.append(shell.page))
    assert len(entered) == 2  # it is there now: at once


def test_a_page_that_was_left_while_it_was_loaded_is_not_entered(
    qtbot: QtBot, shell: LatePage[_Page], gate: threading.Event
) -> None:
    entered: list[QWidget] = []
    shell.open(lambda: entered.append(shell.page))
    shell.hide()
    gate.set()
    qtbot.waitUntil(lambda: not shell._loading.busy)
    assert not entered
    assert shell.there is None
    shell.show()
    shell.open(lambda: entered.append(shell.page))
    assert entered == [shell.there]
    qtbot.waitUntil(lambda: not shell.findChildren(QLabel))


def test_a_window_that_closes_waits_for_what_is_loaded(
    shell: LatePage[_Page], gate: threading.Event
) -> None:
    before = threading.active_count()
    shell.open(lambda: None)
    assert threading.active_count() == before + 1
    gate.set()
    shell.close_down()
    assert threading.active_count() == before
