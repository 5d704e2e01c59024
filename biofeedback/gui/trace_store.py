"""The newest samples of the drawn force, bounded; a gap is kept as a gap.

One NaN sample stands for each gap, so that no line is ever drawn across it. The
arrays are twice as long as what is kept: when they are full, the newest half
moves to the front. A view of what is kept is therefore always contiguous, and
adding costs the same however long the session lasts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

CAPACITY_MAX = 1 << 20
"""20 s of the fastest stream that is read; 24 MiB with two lines."""


class TraceStore:
    """Times and forces of one or two drawn lines.

    Args:
        lines: how many forces are drawn.
        capacity: how many samples are kept.
    """

    def __init__(self, *, lines: int, capacity: int) -> None:
        self._capacity = min(max(capacity, 16), CAPACITY_MAX)
        self._time_s = np.empty(2 * self._capacity)
        self._force_n = np.empty((2 * self._capacity, lines))
        self._count = 0

    def __len__(self) -> int:
        return min(self._count, self._capacity)

    @property
    def lines(self) -> int:
        """How many forces are drawn."""
        return self._force_n.shape[1]

    @property
    def newest_s(self) -> float | None:
        """Time of the newest sample, or None before the first."""
        return float(self._time_s[self._count - 1]) if self._count else None

    def clear(self) -> None:
        """Forgets everything."""
        self._count = 0

    def push(self, time_s: Floats, force_n: Floats, *, after_gap: bool) -> None:
        """Adds consecutive samples.

        Args:
            time_s: shape (n,), after all times so far.
            force_n: shape (n, lines).
            after_gap: whether samples were lost just before these.
        """
        if after_gap and self._count:
            middle_s = (self._time_s[self._count - 1] + time_s[0]) / 2
            self._append(np.array([middle_s]), np.full((1, self.lines), np.nan))
        for start in range(0, len(time_s), self._capacity):
            part = slice(start, start + self._capacity)
            self._append(time_s[part], force_n[part])

    def _append(self, time_s: Floats, force_n: Floats) -> None:
        if self._count + len(time_s) > 2 * self._capacity:
            kept = slice(self._count - self._capacity, self._count)
            self._time_s[: self._capacity] = self._time_s[kept]
            self._force_n[: self._capacity] = self._force_n[kept]
            self._count = self._capacity
        new = slice(self._count, self._count + len(time_s))
        self._time_s[new] = time_s
        self._force_n[new] = force_n
        self._count = new.stop

    def since(self, time_s: float, *, before: int = 3) -> tuple[Floats, Floats]:
        """Samples from `time_s` on, and `before` more, so that lines reach in.

        Returns:
            Times of shape (n,) and forces of shape (n, lines); views, valid until
            the next `push`.
        """
        oldest = max(0, self._count - self._capacity)
        times = self._time_s[oldest : self._count]
        start = max(0, int(np.searchsorted(times, time_s)) - before)
        return times[start:], self._force_n[oldest + start : self._count]


def line_points(
    time_s: Floats, force_n: Floats, *, columns_per_s: float, dense: bool
) -> tuple[Floats, Floats]:
    """The points of one drawn line, in columns and newtons.

    Where several samples share a pixel column, its lowest and highest are kept,
    in the order in which the force went through them. NaN breaks the line.

    Args:
        time_s: shape (n,).
        force_n: shape (n,).
        dense: whether there are several samples a column. Told from the sample
            rate and not from these samples, so that a part of the picture is
            always drawn like the whole.
    """
    x = time_s * columns_per_s
    if not dense or len(x) == 0:
        return x, force_n
    column = np.floor(x)
    starts = np.concatenate(([0], np.flatnonzero(np.diff(column)) + 1))
    ends = np.concatenate((starts[1:], [len(x)]))
    low = np.fmin.reduceat(force_n, starts)
    high = np.fmax.reduceat(force_n, starts)
    rising = ~(force_n[ends - 1] < force_n[starts])
    broken = np.bitwise_or.reduceat(np.isnan(force_n), starts)
    points_x = column[starts][:, None] + np.array([0.25, 0.75, 1.0])
    points_n = np.stack(
        (
            np.where(rising, low, high),
            np.where(rising, high, low),
            np.full(len(starts), np.nan),
        ),
        axis=1,
    )
    kept = np.ones(points_n.shape, dtype=bool)
    kept[:, 2] = broken
    return points_x[kept], points_n[kept]
