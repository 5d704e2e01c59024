"""The athlete's screen on another monitor. Two monitors are had in a program of its
own, since Qt lays out its monitors once at the start."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel, QWidget

from biofeedback.gui.second_screen import MIRROR_EVERY_FRAMES, SecondScreen

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

PROGRAM = """
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from biofeedback.gui.second_screen import MIRROR_EVERY_FRAMES, SecondScreen

app = QApplication([])
window = QWidget()
part, home = QLabel("force"), QWidget(window)
told = []
second = SecondScreen(part, home)
second.moved.connect(lambda out, words: told.append((out, words)))
window.setGeometry(0, 0, 800, 600)
window.show()
app.processEvents()
second.switch()
app.processEvents()
away = part.window()
assert away is not window
first, other = QGuiApplication.screens()
assert away.screen() is other, away.screen().name()
assert away.geometry() == other.geometry()
assert part.isVisible()
# The platform without a display gives the keyboard to whatever is shown last.
assert away.windowFlags() & Qt.WindowType.WindowDoesNotAcceptFocus
assert second.mirror.isVisible()
for _ in range(MIRROR_EVERY_FRAMES):
    second.frame()
assert not second.mirror.pixmap().isNull()
app.screenRemoved.emit(other)
assert part.window() is window
assert part.isVisible()
assert not second.mirror.isVisible()
app.screenAdded.emit(other)  # plugged in again: it is still wanted there
assert part.window() is not window
part.window().close()  # by hand: not wanted any more
assert part.window() is window
app.screenAdded.emit(other)
assert part.window() is window
print([words for _, words in told])
"""


def test_out_unplugged_and_back(tmp_path: Path) -> None:
    monitors = tmp_path / "monitors.json"
    screen = {"y": 0, "logicalDpi": 96, "logicalBaseDpi": 96, "dpr": 1}
    monitors.write_text(
        json.dumps(
            {
                "screens": [
                    {"name": "desk", "x": 0, "width": 1280, "height": 720, **screen},
                    {
                        "name": "wall",
                        "x": 1280,
                        "width": 1920,
                        "height": 1080,
                        **screen,
                    },
                ]
            }
        )
    )
    done = subprocess.run(  # noqa: S603  our own words, no one else's
        [sys.executable, "-c", PROGRAM],
        env={**os.environ, "QT_QPA_PLATFORM": f"offscreen:configfile={monitors}"},
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    assert "is on wall" in done.stdout
    assert "The second monitor is gone" in done.stdout


@pytest.fixture
def at_home(qtbot: QtBot) -> tuple[SecondScreen, QLabel, QWidget]:
    home, part = QWidget(), QLabel("force")
    qtbot.addWidget(home)
    return SecondScreen(part, home), part, home


def test_with_one_monitor_it_stays_and_says_so(
    at_home: tuple[SecondScreen, QLabel, QWidget], qtbot: QtBot
) -> None:
    second, part, home = at_home
    assert len(QGuiApplication.screens()) == 1
    with qtbot.waitSignal(second.moved) as told:
        second.switch()
    assert told.args == [False, "There is no second monitor."]
    assert not second.out
    assert part.window() is home
    for _ in range(2 * MIRROR_EVERY_FRAMES):
        second.frame()  # nothing to mirror
    assert second.mirror.pixmap().isNull()
