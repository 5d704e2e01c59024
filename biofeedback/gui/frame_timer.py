"""The frame timer: a tick at each instant of a fixed grid.

A timer with an interval starts to count when its slot returns, so the work of
each frame makes the next one late. Here each tick aims at the next instant of
the grid; instants that were missed are left out, never made up for.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer

if TYPE_CHECKING:
    from collections.abc import Callable

FRAME_NS = round(1e9 / 60)
REST_FRAMES = 6
"""Ten ticks a second while there is nothing to draw: a board that is plugged in is
seen as soon as anybody could tell."""


class FrameTimer(QObject):
    """Calls `frame` at 60 Hz while it runs.

    Attributes:
        missed: instants of the grid that passed without a frame.
        resting: whether a few ticks a second are enough, as without a rig.
    """

    def __init__(
        self, frame: Callable[[], None], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._frame = frame
        self._target_ns = 0
        self.missed = 0
        self.resting = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._tick)

    def start(self) -> None:
        """Starts the grid now."""
        self._target_ns = time.monotonic_ns()
        self._aim()

    def stop(self) -> None:
        """No tick comes after this."""
        self._timer.stop()

    def _aim(self) -> None:
        now_ns = time.monotonic_ns()
        last_ns = self._target_ns + (REST_FRAMES - 1) * FRAME_NS * self.resting
        self._target_ns, missed = next_instant(last_ns, now_ns=now_ns)
        self.missed += missed
        # Whole milliseconds; the rest does not add up, since the grid is fixed.
        self._timer.start(max(0, round((self._target_ns - now_ns) / 1e6)))

    def _tick(self) -> None:
        self._frame()
        self._aim()


def next_instant(last_ns: int, *, now_ns: int) -> tuple[int, int]:
    """The instant of the grid to aim at after `last_ns`, and how many are missed."""
    periods = max(1, -(-(now_ns - last_ns) // FRAME_NS))
    return last_ns + periods * FRAME_NS, periods - 1
