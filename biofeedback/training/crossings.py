"""Crossings: from samples of force to moments at which something changes.

Between samples force is a straight line, so each crossing of a level has a time
of its own, and times do not depend on where the samples fall. What happens on a
line depends on its two ends alone: the answer is bit for bit the same however
the stream is cut.

* Band edges are inclusive: a force that lies on an edge is inside.
* Touching a level in a single point is not crossing it.
* A new band takes effect at the next sample; the line that leads to that sample
  is still judged by the old band.
* Where samples are missing or not good there is no line, only a pause.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.training.events import Position
from biofeedback.training.prescription import BandOn

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription

    Floats: TypeAlias = npt.NDArray[np.float64]

ONSET_LEAST_N = 5.0
ONSET_SHARE = 0.1
"""A rep starts above max(5 N, 10 % of the band's lower edge)."""

_STARTED, _FALLEN, _BELOW, _ABOVE, _OVER, _UNBALANCED = 1, 2, 4, 8, 16, 32


@dataclass(frozen=True, slots=True)
class Levels:
    """How the force stands against every level between two crossings.

    Attributes:
        started: above the onset level.
        fallen: under half the onset level.
        over_ceiling: above the ceiling.
        balanced: the sides differ by no more than the tolerance.
    """

    started: bool
    fallen: bool
    position: Position
    over_ceiling: bool
    balanced: bool


@dataclass(frozen=True, slots=True)
class Change:
    """From `time_s` on, `levels` hold."""

    time_s: float
    levels: Levels


@dataclass(frozen=True, slots=True)
class Pause:
    """Nothing usable was heard from `from_s` to `to_s`."""

    from_s: float
    to_s: float


@dataclass(frozen=True, slots=True)
class NewBand:
    """From `time_s` on, `band` is in force."""

    time_s: float
    band: Band


Moment: TypeAlias = Change | Pause | NewBand


def _levels(code: int) -> Levels:
    if code & _BELOW:
        position = Position.BELOW
    elif code & _ABOVE:
        position = Position.ABOVE
    else:
        position = Position.INSIDE
    return Levels(
        started=bool(code & _STARTED),
        fallen=bool(code & _FALLEN),
        position=position,
        over_ceiling=bool(code & _OVER),
        balanced=not code & _UNBALANCED,
    )


_LEVELS = tuple(_levels(code) for code in range(64))


class Judged:
    """Which channels make up the force that is judged, and the effort behind it.

    Args:
        left: index of the left channel, or None.
        right: index of the right channel, or None.
        channels: how many the rig has.

    Attributes:
        sides: indices of the left and the right channel, or None where the rig
            does not have both.

    Raises:
        FieldError: the rig has no channel for what the band applies to.
    """

    def __init__(
        self, band_on: BandOn, *, left: int | None, right: int | None, channels: int
    ) -> None:
        self.sides = None if left is None or right is None else (left, right)
        working = {BandOn.LEFT: left, BandOn.RIGHT: right}.get(band_on)
        self._effort: tuple[int, ...] = tuple(range(channels))
        self._forces: tuple[tuple[int, ...], ...] = (self._effort,)
        if band_on is BandOn.EACH_SIDE and self.sides is not None:
            self._forces = ((self.sides[0],), (self.sides[1],))
        elif working is not None:
            self._effort = (working,)
            self._forces = (self._effort,)
        elif band_on is not BandOn.TOTAL:
            raise FieldError(
                "band_on",
                f"is “{band_on.value}”, but the rig has no such channel.",
                "Choose “total”, or connect the other cell.",
            )

    def effort(self, force_n: Floats) -> Floats:
        """The force that starts and ends a rep: the total, or the working side.

        Args:
            force_n: shape (n, channels).
        """
        return _sum(force_n, self._effort)

    def forces(self, force_n: Floats) -> list[Floats]:
        """Each force that the band applies to."""
        return [_sum(force_n, columns) for columns in self._forces]


def _sum(force_n: Floats, columns: tuple[int, ...]) -> Floats:
    total: Floats = force_n[:, columns[0]]
    for column in columns[1:]:
        total = total + force_n[:, column]
    return total


class Crossings:
    """Samples in, moments out, in order of time.

    Args:
        prescription: gives band, ceiling and balance.
        judged: which forces the band applies to.
    """

    def __init__(self, prescription: Prescription, judged: Judged) -> None:
        self._judged = judged
        self._band = prescription.band
        self._next_band: Band | None = None
        self._ceiling_n = prescription.ceiling_n
        self._balance: float | None = None
        if prescription.balance_tolerance_points is not None:
            # |left − right| ≤ 2·points/100 · (left + right)
            self._balance = prescription.balance_tolerance_points / 50.0
        self._last_time_s: Floats = np.empty(0)
        self._last_force_n: Floats = np.empty((0, 0))
        self._paused = False
        self._code = -1

    @property
    def band(self) -> Band:
        """The band in force at the newest sample."""
        return self._band

    @property
    def heard_until_s(self) -> float:
        """Time of the newest good sample; 0 before the first."""
        return float(self._last_time_s[0]) if len(self._last_time_s) else 0.0

    def change_band(self, band: Band) -> None:
        """Takes effect at the next good sample."""
        self._next_band = band

    def push(
        self,
        time_s: Floats,
        force_n: Floats,
        good: npt.NDArray[np.bool_],
        *,
        after_gap: bool,
    ) -> list[Moment]:
        """Consecutive samples in, moments out.

        Args:
            time_s: shape (n,), increasing.
            force_n: shape (n, channels).
            good: shape (n,).
            after_gap: whether samples were lost just before these.
        """
        if after_gap:
            self._paused = True
        if good.all():
            return self._stretch(time_s, force_n)
        moments: list[Moment] = []
        edges = np.flatnonzero(np.diff(good)) + 1
        starts = [0, *edges.tolist()]
        ends = [*edges.tolist(), len(good)]
        for start, end in zip(starts, ends, strict=True):
            if good[start]:
                moments += self._stretch(time_s[start:end], force_n[start:end])
            else:
                self._paused = True
        return moments

    def _stretch(self, time_s: Floats, force_n: Floats) -> list[Moment]:
        """Good samples without a break between them."""
        moments: list[Moment] = []
        joined = len(self._last_time_s) > 0 and not self._paused
        if self._paused and len(self._last_time_s):
            moments.append(Pause(self.heard_until_s, float(time_s[0])))
            self._code = -1
        self._paused = False
        tail_s, tail_n = self._last_time_s, self._last_force_n
        self._last_time_s, self._last_force_n = time_s[-1:], force_n[-1:]
        if self._next_band is not None:
            if joined:
                lead_s = np.concatenate((tail_s, time_s[:1]))
                moments += self._lines(lead_s, np.vstack((tail_n, force_n[:1])))
                joined = False
            self._band, self._next_band = self._next_band, None
            moments.append(NewBand(float(time_s[0]), self._band))
        if joined:
            time_s = np.concatenate((tail_s, time_s))
            force_n = np.vstack((tail_n, force_n))
        return moments + self._lines(time_s, force_n)

    def _lines(self, time_s: Floats, force_n: Floats) -> list[Moment]:
        """The straight lines between samples, each judged by itself."""
        if len(time_s) < 2:
            return []
        heights, flags = self._heights(force_n)
        head, tail = heights[:, :-1], heights[:, 1:]
        codes = self._codes(head + tail, flags)
        crossed = ((head < 0) & (tail > 0)) | ((head > 0) & (tail < 0))
        broken: npt.NDArray[np.bool_] = np.logical_or.reduce(crossed, axis=0)
        before = np.concatenate(([self._code], codes[:-1]))
        moments: list[Moment] = []
        for i in np.flatnonzero(broken | (codes != before)).tolist():
            if broken[i]:
                self._broken_line(
                    moments, time_s[i : i + 2], head[:, i], tail[:, i], flags
                )
            else:
                self._tell(moments, float(time_s[i]), int(codes[i]))
        return moments

    def _broken_line(
        self,
        moments: list[Moment],
        ends_s: Floats,
        head: Floats,
        tail: Floats,
        flags: npt.NDArray[np.int64],
    ) -> None:
        """One line with crossings on it: each piece is judged at its middle."""
        crossing = ((head < 0) & (tail > 0)) | ((head > 0) & (tail < 0))
        share = np.unique(head[crossing] / (head[crossing] - tail[crossing]))
        start_s, length_s = float(ends_s[0]), float(ends_s[1] - ends_s[0])
        borders = [0.0, *share.tolist(), 1.0]
        for low, high in itertools.pairwise(borders):
            middle = (low + high) / 2
            height = head + (tail - head) * middle
            code = int(self._codes(height[:, None], flags)[0])
            self._tell(moments, start_s + low * length_s, code)

    def _tell(self, moments: list[Moment], time_s: float, code: int) -> None:
        if code != self._code:
            self._code = code
            moments.append(Change(time_s, _LEVELS[code]))

    def _heights(
        self, force_n: Floats
    ) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.int64]]:
        """Signed distance from each level, and the flag each one raises.

        Returns:
            Heights of shape (levels, n), where more than 0 raises the flag, and
            the flags of shape (levels,).
        """
        effort = self._judged.effort(force_n)
        onset_n = max(ONSET_LEAST_N, ONSET_SHARE * self._band.lower_n)
        heights = [effort - onset_n, onset_n / 2 - effort]
        flags = [_STARTED, _FALLEN]
        for judged in self._judged.forces(force_n):
            heights.append(self._band.lower_n - judged)
            flags.append(_BELOW)
            if not self._band.open_above:
                heights.append(judged - self._band.upper_n)
                flags.append(_ABOVE)
            if self._ceiling_n is not None:
                heights.append(judged - self._ceiling_n)
                flags.append(_OVER)
        if self._balance is not None and self._judged.sides is not None:
            left, right = (force_n[:, side] for side in self._judged.sides)
            allowed = self._balance * (left + right)
            heights += [left - right - allowed, right - left - allowed]
            flags += [_UNBALANCED, _UNBALANCED]
        return np.array(heights), np.array(flags)

    @staticmethod
    def _codes(heights: Floats, flags: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
        """Flags raised in each column."""
        raised = np.where(heights > 0, flags[:, None], 0)
        codes: npt.NDArray[np.int64] = np.bitwise_or.reduce(raised, axis=0)
        return codes
