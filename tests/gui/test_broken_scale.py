"""Scales of 125 % and the like: each pixel of the screen is painted.

The scale is that of a process, so this file is run once more for each of them.
"""

from __future__ import annotations

import os
import subprocess
import sys

import numpy as np
import pytest
from gui.staged_session import ASKED, BOTH
from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QWidget

from biofeedback.gui.balance_bar import BalanceBar
from biofeedback.gui.breathing_line import BreathingLine
from biofeedback.gui.cue import CueLine
from biofeedback.gui.hold_timer import HoldTimer
from biofeedback.gui.path import Path
from biofeedback.gui.rep_row import RepRow

BEFORE = QColor(255, 0, 255)
"""What stood on the screen; no part has such a colour."""
PLACES = ((13, 17, 71), (14, 18, 73), (11, 15, 70))
DEADLINE_S = 60


class Ground(QWidget):
    """Of one colour, as the screen between its parts is."""

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor("white"))
        painter.end()


def left_over(ground: QWidget) -> int:
    """How many pixels still show what stood there before."""
    ground.show()
    QApplication.processEvents()
    ratio = ground.devicePixelRatio()
    image = QImage(ground.size() * ratio, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    image.fill(BEFORE)
    ground.render(image, QPoint(0, 0))
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(-1, 4).astype(int)
    ground.close()
    blue, green, red, _ = pixels.T
    return int(((red > green + 60) & (blue > green + 60)).sum())


def planned_path(ground: QWidget) -> Path:
    path = Path(ASKED, ground)
    path.set_up(BOTH, ASKED)
    return path


def check() -> None:
    """Raises where a part leaves a pixel as it was."""
    app = QApplication([])
    for width in range(737, 745, 2):
        for x, y, height in PLACES:
            for made in (
                CueLine,
                BreathingLine,
                HoldTimer,
                BalanceBar,
                RepRow,
                planned_path,
            ):
                ground = Ground()
                ground.resize(900, 200)
                made(ground).setGeometry(x, y, width, height)
                left = left_over(ground)
                assert left == 0, (made.__name__, x, y, width, height, left)
    del app


@pytest.mark.parametrize("scale", ["1.25", "1.5", "1.75"])
def test_no_pixel_at_the_edge_of_a_part_is_left_as_it_was(scale: str) -> None:
    env = {**os.environ, "QT_SCALE_FACTOR": scale, "QT_QPA_PLATFORM": "offscreen"}
    env["PYTHONPATH"] = os.pathsep.join(filter(None, sys.path))
    done = subprocess.run(  # noqa: S603  this file itself
        [sys.executable, __file__],
        env=env,
        timeout=DEADLINE_S,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr


if __name__ == "__main__":
    check()
