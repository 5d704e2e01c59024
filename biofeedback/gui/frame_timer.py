"""The frame timer: a tick at each instant of a fixed grid.

A timer with an interval starts to count when its slot returns, so the work of
each frame makes the next one late. Here each tick aims at the next instant of
the grid; instants that were missed are left out, never made up for.

A frame shows what is newest when it is drawn. Where new samples are about to come, it
waits for them, a few milliseconds at most: else a board of 80 Hz would be shown up to
12 ms late for nothing. Where samples are brought for each frame it is they that set it
off. The grid stays where it is.
"""

from __future__ import annotations

import contextlib
import time
from functools import partial
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject, Qt, QTimer, Signal

if TYPE_CHECKING:
    from collections.abc import Callable

FRAME_NS = round(1e9 / 60)
REST_FRAMES = 6
"""Ten ticks a second while there is nothing to draw: a board that is plugged in is
seen as soon as anybody could tell."""
WAIT_NS = 4_000_000
"""A frame waits for samples that are due within this time: a quarter of a period."""
GIVE_UP_MS = 6
"""Samples that are late by more are not waited for."""
ASKED_MAX = 1 << 30
"""A signal carries 32 bits: the count begins anew after months."""


class Pieces(Protocol):
    """What knows when new samples come."""

    def look_at(self, look_ns: int, told: Callable[[], None] | None = None) -> bool:
        """The next frame is due at this monotonic time.

        Returns:
            Whether `told` is called once, by the blocks that come for it.
        """

    def await_blocks(self, told: Callable[[], None], *, within_ns: int) -> bool:
        """Whether new blocks are due within this time; then `told` is called once."""


class FrameTimer(QObject):
    """Calls `frame` at 60 Hz while it runs.

    Args:
        pieces: where the samples come from that a frame may wait for; None for none.

    Attributes:
        missed: instants of the grid that passed without a frame.
        resting: whether a few ticks a second are enough, as without a rig.
    """

    _came = Signal(int)

    def __init__(
        self,
        frame: Callable[[], None],
        parent: QObject | None = None,
        *,
        pieces: Pieces | None = None,
    ) -> None:
        super().__init__(parent)
        self._frame = frame
        self._pieces = pieces
        self._stopped = self._waiting = self._expecting = False
        self._asked = 0  # how often; what comes for an earlier time is too late
        # By the acquisition thread, once for each frame that waits: nothing queues up.
        self._came.connect(self._go_on, Qt.ConnectionType.QueuedConnection)
        self._target_ns = 0
        self.missed = 0
        self.resting = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._tick)

    def start(self) -> None:
        """Starts the grid now, with a frame: what is seen first is live already."""
        self._stopped = False
        self._target_ns = time.monotonic_ns()
        self._frame()
        self._aim()

    def stop(self) -> None:
        """No tick comes after this, nor after a frame that asks for it."""
        self._timer.stop()
        self._stopped, self._waiting, self._expecting = True, False, False

    def _aim(self) -> None:
        if self._stopped:
            return
        now_ns = time.monotonic_ns()
        last_ns = self._target_ns + (REST_FRAMES - 1) * FRAME_NS * self.resting
        self._target_ns, missed = next_instant(last_ns, now_ns=now_ns)
        self.missed += missed
        pieces, target_ns = self._pieces, self._target_ns
        # At rest a frame goes by the grid alone: it would run away from it.
        told = None if self.resting else self._ask()
        self._expecting = pieces is not None and pieces.look_at(target_ns, told)
        # Whole milliseconds; the rest does not add up, since the grid is fixed.
        wait_ms = max(0, round((target_ns - now_ns) / 1e6))
        self._timer.start(wait_ms + GIVE_UP_MS * self._expecting)

    def _tick(self) -> None:
        """An instant of the grid, or the end of a wait in which nothing came."""
        pieces, waited = self._pieces, self._waiting or self._expecting
        self._expecting = False
        self._waiting = (
            not waited
            and pieces is not None
            and pieces.await_blocks(self._ask(), within_ns=WAIT_NS)
        )
        if pieces is not None:  # else they would come while this frame is drawn
            pieces.look_at(self._target_ns + FRAME_NS)
        if self._waiting:
            self._timer.start(GIVE_UP_MS)
            return
        self._frame()
        self._aim()

    def _ask(self) -> Callable[[], None]:
        """What tells that what is waited for from now on has come."""
        self._asked = (self._asked + 1) % ASKED_MAX
        return partial(self._tell, self._asked)

    def _tell(self, asked: int) -> None:
        """By the acquisition thread, which goes on where no window is left."""
        with contextlib.suppress(RuntimeError):  # Qt has deleted this
            self._came.emit(asked)

    def _go_on(self, asked: int) -> None:
        """What was waited for has come."""
        if asked == self._asked and (self._waiting or self._expecting):
            self._timer.stop()
            self._tick()


def next_instant(last_ns: int, *, now_ns: int) -> tuple[int, int]:
    """The instant of the grid to aim at after `last_ns`, and how many are missed."""
    periods = max(1, -(-(now_ns - last_ns) // FRAME_NS))
    return last_ns + periods * FRAME_NS, periods - 1
