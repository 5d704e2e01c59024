"""The newest samples of the drawn force, bounded; a gap is kept as a gap.

One NaN sample stands for each gap, so that no line is ever drawn across it. The
arrays are twice as long as what is kept: when they are full, the newest half
moves to the front. A view of what is kept is therefore always contiguous, and
adding costs the same however long the session lasts.
"""

from __future__ import annotations

import bisect
import math
import operator
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy.typing as npt

    Floats: TypeAlias = npt.NDArray[np.float64]
    Series: TypeAlias = Floats | list[float]

FEW = 512
"""So many samples are gone through without arrays: after a sleep, when the caches are
cold, each call of numpy costs as much as a hundred of them."""
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
        self._newest_s: float | None = None

    def __len__(self) -> int:
        return min(self._count, self._capacity)

    @property
    def lines(self) -> int:
        """How many forces are drawn."""
        return self._force_n.shape[1]

    @property
    def newest_s(self) -> float | None:
        """Time of the newest sample, or None before the first."""
        return self._newest_s

    def clear(self) -> None:
        """Forgets everything."""
        self._count = 0
        self._newest_s = None

    def push(self, time_s: Floats, force_n: Floats, *, after_gap: bool) -> None:
        """Adds consecutive samples.

        Args:
            time_s: shape (n,), after all times so far.
            force_n: shape (n, lines).
            after_gap: whether they do not follow the ones before directly.
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
        self._newest_s = float(self._time_s[self._count - 1])

    def since(self, time_s: float, *, before: int = 3) -> tuple[Floats, Floats]:
        """Samples from `time_s` on, and `before` more, so that lines reach in.

        Returns:
            Times of shape (n,) and forces of shape (n, lines); views, valid until
            the next `push`.
        """
        oldest = max(0, self._count - self._capacity)
        times = self._time_s[oldest : self._count]
        start = max(0, int(times.searchsorted(time_s)) - before)
        return times[start:], self._force_n[oldest + start : self._count]


def line_points(
    time_s: Floats, force_n: Floats, *, columns_per_s: float, dense: bool
) -> tuple[Floats, Floats]:
    """The points of one drawn line, in columns and newtons; see `point_lists`."""
    x, points_n = point_lists(
        time_s, force_n, columns_per_s=columns_per_s, dense=dense, flat_n=0.0
    )
    return np.array(x), np.array(points_n)


def point_lists(
    time_s: Series,
    force_n: Series,
    *,
    columns_per_s: float,
    dense: bool,
    flat_n: float,
) -> tuple[list[float], list[float]]:
    """The points of one drawn line, in columns and newtons.

    Where several samples share a pixel column, its lowest and highest are kept,
    in the order in which the force went through them; where these two cannot be told
    apart, the middle of both. NaN breaks the line.

    Args:
        time_s: shape (n,).
        force_n: shape (n,).
        dense: whether there are several samples a column. Told from the sample
            rate and not from these samples, so that a part of the picture is
            always drawn like the whole.
        flat_n: forces that are less apart than this cannot be told apart.
    """
    if not len(time_s):
        return [], []
    if not dense:
        times_s, forces_n = as_list(time_s), as_list(force_n)
        return [at_s * columns_per_s for at_s in times_s], forces_n
    points_x: list[float] = []
    points_n: list[float] = []
    for left, low_n, high_n, falling, broken in _columns(
        time_s, force_n, columns_per_s
    ):
        if high_n - low_n < flat_n:
            points_x.append(left + 0.5)
            points_n.append((low_n + high_n) / 2)
        else:
            points_x += (left + 0.25, left + 0.75)
            points_n += (high_n, low_n) if falling else (low_n, high_n)
        if broken:
            points_x.append(left + 1.0)
            points_n.append(math.nan)
    return points_x, points_n


def as_list(values: Series) -> list[float]:
    """The same as a list."""
    return values if isinstance(values, list) else values.tolist()


def values_at(at_s: list[float], time_s: Series, force_n: Series) -> list[float]:
    """The force at some times, between samples on a straight line, as `np.interp`."""
    if not isinstance(time_s, list) or not isinstance(force_n, list):
        found: list[float] = np.interp(at_s, time_s, force_n).tolist()
        return found
    values, last = [], len(time_s) - 1
    for wanted_s in at_s:
        right = bisect.bisect_right(time_s, wanted_s)
        if right == 0 or right > last:
            values.append(force_n[0 if right == 0 else last])
            continue
        left = right - 1
        here_s, here_n, there_n = time_s[left], force_n[left], force_n[right]
        if wanted_s == here_s:  # whatever comes next
            values.append(here_n)
            continue
        slope = (there_n - here_n) / (time_s[right] - here_s)
        values.append(slope * (wanted_s - here_s) + here_n)
    return values


def _columns(
    time_s: Series, force_n: Series, columns_per_s: float
) -> Iterable[tuple[float, float, float, bool, bool]]:
    """Of each column: place, lowest, highest, whether it falls, and is broken."""
    few = isinstance(time_s, list) and isinstance(force_n, list)
    if few and not math.isnan(sum(force_n)):
        return _columns_of_few(as_list(time_s), as_list(force_n), columns_per_s)
    return _columns_of_many(np.asarray(time_s), np.asarray(force_n), columns_per_s)


def _columns_of_few(
    time_s: list[float], force_n: list[float], columns_per_s: float
) -> list[tuple[float, float, float, bool, bool]]:
    """Without breaks; what `_columns_of_many` gives, to the last bit."""
    columns = []
    left = float(math.floor(time_s[0] * columns_per_s))
    right = left + 1.0
    begin_n = end_n = low_n = high_n = force_n[0]
    for at_s, now_n in zip(time_s, force_n, strict=True):
        x = at_s * columns_per_s
        if x >= right:
            columns.append((left, low_n, high_n, end_n < begin_n, False))
            left = float(math.floor(x))
            right = left + 1.0
            begin_n = low_n = high_n = now_n
        elif now_n < low_n:
            low_n = now_n
        elif now_n > high_n:
            high_n = now_n
        end_n = now_n
    columns.append((left, low_n, high_n, end_n < begin_n, False))
    return columns


def _columns_of_many(
    time_s: Floats, force_n: Floats, columns_per_s: float
) -> Iterable[tuple[float, float, float, bool, bool]]:
    column = np.floor(time_s * columns_per_s)
    new = np.empty(len(column), dtype=bool)
    new[0] = True
    np.not_equal(column[1:], column[:-1], out=new[1:])
    starts = new.nonzero()[0]
    end_n: list[float] = force_n[starts - 1].tolist()  # of the column before
    end_n.append(end_n.pop(0))  # and before the first stands the last of all
    begin_n = force_n[starts].tolist()
    broken = [False] * len(begin_n)
    if math.isnan(np.add.reduce(force_n)):
        broken = np.logical_or.reduceat(np.isnan(force_n), starts).tolist()
    return zip(
        column[starts].tolist(),
        np.fmin.reduceat(force_n, starts).tolist(),
        np.fmax.reduceat(force_n, starts).tolist(),
        map(operator.lt, end_n, begin_n),
        broken,
        strict=True,
    )
