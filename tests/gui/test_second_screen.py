"""The athlete's screen on another monitor. Two monitors are had in a program of its
own, since Qt lays out its monitors once at the start."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel, QWidget

from biofeedback.gui.second_screen import MIRROR_EVERY_FRAMES, SecondScreen

if TYPE_CHECKING:
    from collections.abc import Iterator

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


UNPLUGGED = Path(__file__).with_name("unplugged.py")
SCREEN = "3200x1080x24"


def two_monitors(tmp_path: Path) -> str:
    """The platform without a display, with two monitors."""
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
    return f"offscreen:configfile={monitors}"


def test_out_unplugged_and_back(tmp_path: Path) -> None:
    done = subprocess.run(  # noqa: S603  our own words, no one else's
        [sys.executable, "-c", PROGRAM],
        env={**os.environ, "QT_QPA_PLATFORM": two_monitors(tmp_path)},
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    assert "is on wall" in done.stdout
    assert "The second monitor is gone" in done.stdout


# A set in the real window, with its second monitor unplugged in the middle of a rep.


def unplugged(how: str, folder: Path, **environment: str) -> dict[str, Any]:
    """What `unplugged.py` tells."""
    folder.mkdir()
    done = subprocess.run(  # noqa: S603  our own program
        [sys.executable, str(UNPLUGGED), how, str(folder)],
        env={**os.environ, **environment},
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    told: dict[str, Any] = json.loads(done.stdout)
    return told


@pytest.fixture(scope="module")
def never(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    """The reps of the same set with one monitor."""
    folder = tmp_path_factory.mktemp("never") / "set"
    told = unplugged("never", folder, QT_QPA_PLATFORM="offscreen")
    assert len(told["reps"]) == 2
    reps: list[dict[str, Any]] = told["reps"]
    return reps


def test_unplugging_in_a_rep_loses_nothing(
    tmp_path: Path, never: list[dict[str, Any]]
) -> None:
    platform = two_monitors(tmp_path)
    told = unplugged("signal", tmp_path / "set", QT_QPA_PLATFORM=platform)
    assert told["seen"] == ["out", "home", "out again"]
    assert told["dropped"] == 0
    assert told["reps"] == never


@pytest.fixture
def display() -> Iterator[str]:
    """A display server of our own, whose monitors can be taken away."""
    server = shutil.which("Xvfb")
    if server is None or shutil.which("xrandr") is None:
        pytest.skip("needs Xvfb and xrandr (Debian: xvfb, x11-xserver-utils)")
    reads, writes = os.pipe()
    process = subprocess.Popen(  # noqa: S603  our own words
        [server, "-displayfd", str(writes), "-screen", "0", SCREEN, "-nolisten", "tcp"],
        pass_fds=(writes,),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    os.close(writes)
    try:
        with os.fdopen(reads) as told:
            number = told.readline().strip()
        assert number, "the display server did not start"
        yield f":{number}"
    finally:
        process.terminate()
        process.wait(timeout=10)


@pytest.mark.skipif(sys.platform != "linux", reason="of the X window system")
def test_a_monitor_that_the_display_server_takes_away_loses_nothing(
    tmp_path: Path, never: list[dict[str, Any]], display: str
) -> None:
    told = unplugged("xrandr", tmp_path / "set", QT_QPA_PLATFORM="xcb", DISPLAY=display)
    assert told["seen"] == ["a second monitor", "out", "home", "out again"]
    assert told["dropped"] == 0
    assert told["reps"] == never


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
