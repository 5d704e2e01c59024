"""The window on a real (virtual) display: opened, looked at, and closed by Ctrl-C."""

from __future__ import annotations

import os
import select
import shutil
import signal
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from PySide6.QtGui import QImage

from biofeedback.gui.theme import DAY
from biofeedback.session.replay import replay

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

pytestmark = [
    pytest.mark.slow,
    pytest.mark.timeout(90),
    pytest.mark.skipif(
        shutil.which("Xvfb") is None, reason="Xvfb, a virtual display, is not installed"
    ),
]

LOOK = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtGui import QGuiApplication
app = QGuiApplication([])
def look():
    picture = app.primaryScreen().grabWindow(0).toImage()
    # The demo's band is on the screen once its wash is: many pixels of one colour.
    wash = sum(
        picture.pixelColor(x, y).name() == sys.argv[2]
        for x in range(100, 800, 10) for y in range(200, 320, 10)
    )
    if wash > 100:
        picture.save(sys.argv[1])
        app.quit()
timer = QTimer()
timer.timeout.connect(look)
timer.start(200)
QTimer.singleShot(40_000, lambda: app.exit(1))
sys.exit(app.exec())
"""


@pytest.fixture
def display() -> Iterator[dict[str, str]]:
    """The environment of a fresh virtual display."""
    read, write = os.pipe()
    command = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x720x24"]
    with subprocess.Popen(  # noqa: S603  our own command
        [*command, "-nolisten", "tcp"], pass_fds=[write], stderr=subprocess.DEVNULL
    ) as server:
        os.close(write)
        ready, _, _ = select.select([read], [], [], 20)
        assert ready, "Xvfb did not start"
        with os.fdopen(read) as told:  # to the line's end: it writes in two pieces
            number = told.readline().strip()
        others = {
            name: value
            for name, value in os.environ.items()
            if name not in {"QT_QPA_PLATFORM", "WAYLAND_DISPLAY"}
        }
        yield {**others, "DISPLAY": f":{number}", "QT_QPA_PLATFORM": "xcb"}
        server.terminate()


def test_the_demo_runs_on_a_display_and_ends_by_ctrl_c(
    tmp_path: Path, display: dict[str, str]
) -> None:
    folder, picture = tmp_path / "recordings", tmp_path / "screen.png"
    places = ["--logbook", str(tmp_path / "l.db"), "--recordings", str(folder)]
    with subprocess.Popen(  # noqa: S603  our own command
        [sys.executable, "-m", "biofeedback", "demo", *places], env=display
    ) as program:
        try:
            wash = DAY.dense.lower()
            subprocess.run(  # noqa: S603  our own command
                [sys.executable, "-c", LOOK, str(picture), wash],
                env=display,
                check=True,
                timeout=60,
            )
        finally:
            program.send_signal(signal.SIGINT)
        try:
            assert program.wait(20) == 0
        finally:
            program.kill()  # else it would be waited for without an end
    seen = QImage(str(picture))
    assert (seen.width(), seen.height()) == (1280, 720)
    assert seen.pixelColor(5, 5).name() == DAY.paper.lower()
    (path,) = (one for one in folder.iterdir() if "-v1.0" not in one.name)
    replayed = replay(path)
    assert not replayed.recovered  # closed properly
    assert replayed.agrees is True
