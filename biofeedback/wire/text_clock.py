"""When the lines of a plain board were measured: by its stamps, or by arrival.

Both clocks give whole microseconds that grow from each sample to the next, and
the number of lines that must have gone missing before a sample.
"""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING

from biofeedback.wire.frames import SEQUENCE_MODULUS
from biofeedback.wire.text_layout import PERIOD_MOST_S

if TYPE_CHECKING:
    from biofeedback.wire.text_layout import Layout

UNIT_US = {"s": 1_000_000, "ms": 1_000, "µs": 1}
RESTART_US = 1_000_000
"""Stands for the unknown length of a restart of the board."""
WRAP_US = 10_000_000
"""A stamp that wraps at 2**32 comes back this close behind the turn, or is none."""
GAP_PERIODS = 2.5
"""A step from here on has lines missing in it; below it may be the board's jitter."""
LOST_MAX = 1_000_000
"""Most lines that one gap is counted as: over four minutes at the fastest rate."""
STALL_US = 250_000
"""Lines this late are taken to have been measured late, not only sent late."""
NOMINAL_US = 12_500
"""Period where nothing tells it: 80 Hz, the usual rate of bridge ADCs."""
PERIOD_LEAST_US = 250.0
"""Shortest period believed: a stamp that stands still is no fast board."""
_FOLLOW = 0.05  # share of a new step in the period: settles within about 20 lines
_PULL = 0.1  # share of the lateness that is corrected at once


class StampClock:
    """Time from the board's own column.

    * The same stamp again (several lines within one millisecond) goes on by the
      period, but not beyond the next stamp there could be.
    * A stamp that goes back where a 32-bit counter wraps goes on.
    * Any other step back is a restart: `RESTART_US` later, one sample missing.
    * A step of `GAP_PERIODS` or more has as many lines missing as fit into it.
    """

    def __init__(self, layout: Layout) -> None:
        self._unit_us = UNIT_US[layout.unit]
        self._whole = layout.whole_stamps
        self._resolution_us = max(1, round(layout.resolution * self._unit_us))
        self.period_us = layout.period_s * 1e6
        self._stamp_us: int | None = None
        self._base_us = 0  # of the last stamp, unwrapped, from the first one
        self._time_us = 0

    def next(self, stamp: str) -> tuple[int, int]:
        """Lines missing before this one, and its time in microseconds."""
        stamp_us = (
            int(stamp) * self._unit_us
            if stamp.lstrip("+-").isdigit()
            else round(float(stamp) * self._unit_us)
        )
        if self._stamp_us is None:
            self._stamp_us = stamp_us
            return 0, 0
        step_us = stamp_us - self._stamp_us
        self._stamp_us = stamp_us
        if step_us < 0:
            turned_us = step_us + SEQUENCE_MODULUS * self._unit_us
            if not (self._whole and 0 <= turned_us < WRAP_US):
                self._base_us = self._time_us = self._time_us + RESTART_US
                return 1, self._time_us
            step_us = turned_us
        return self._missing(step_us), self._move(step_us)

    def _missing(self, step_us: int) -> int:
        gap_us = GAP_PERIODS * self.period_us
        lost = round(step_us / self.period_us) - 1 if step_us >= gap_us else 0
        if step_us or self.period_us <= self._resolution_us:
            # A stamp that stands still tells of the rate only where it must.
            self.period_us += _FOLLOW * (min(step_us, gap_us) - self.period_us)
            self.period_us = max(self.period_us, PERIOD_LEAST_US)
        return min(lost, LOST_MAX)

    def _move(self, step_us: int) -> int:
        self._base_us += step_us
        if step_us:
            self._time_us = max(self._base_us, self._time_us + 1)
        else:
            within_us = self._base_us + self._resolution_us - 1
            wanted_us = min(self._time_us + round(self.period_us), within_us)
            self._time_us = max(wanted_us, self._time_us + 1)
        return self._time_us


class ArrivalClock:
    """Time from the moments at which bytes arrived, smoothed.

    Lines arrive in bursts and late, never early. So lines of one burst are
    spread evenly, the clock runs on by the measured period, and is drawn
    slowly towards the arrivals; after a stall it starts again from them.
    """

    def __init__(self, period_s: float) -> None:
        self.period_us = period_s * 1e6 or float(NOMINAL_US)
        self._first_s: float | None = None
        self._arrived_us = 0
        self._time_us = 0.0
        self._given_us = 0  # the last time that was given
        self._count = 0
        self._recent: deque[tuple[int, int]] = deque(maxlen=256)  # arrival, lines

    def burst(self, lines: int, arrived_s: float) -> list[int]:
        """Times in microseconds of `lines` lines that arrived together."""
        if self._first_s is None:
            self._first_s = arrived_s
            self._time_us = -self.period_us * lines
            self._given_us = round(self._time_us)
        arrived_us = round((arrived_s - self._first_s) * 1e6)
        ahead_us = self._time_us + lines * self.period_us
        if arrived_us > self._arrived_us:
            late_us = arrived_us - ahead_us
            if late_us > max(STALL_US, 8 * self.period_us):
                self._recent.clear()
                self._time_us += late_us
                ahead_us += late_us
            else:
                ahead_us += _PULL * late_us
        self._learn(lines, arrived_us)
        start_us = self._time_us
        step_us = max(1.0, (ahead_us - start_us) / lines)
        self._time_us = start_us + lines * step_us
        # One whole step for all, so that they fit into few frames.
        whole_us = max(1, int(step_us))
        last_us = max(round(self._time_us), self._given_us + lines * whole_us)
        self._given_us = last_us
        return [last_us - whole_us * i for i in reversed(range(lines))]

    def _learn(self, lines: int, arrived_us: int) -> None:
        """Measures the period over the last bursts, once they span long enough."""
        self._arrived_us = max(self._arrived_us, arrived_us)
        self._count += lines
        self._recent.append((arrived_us, self._count))
        first_us, first_count = self._recent[0]
        if arrived_us - first_us >= 2 * STALL_US:
            measured_us = (arrived_us - first_us) / (self._count - first_count)
            self.period_us = min(measured_us, PERIOD_MOST_S * 1e6)
