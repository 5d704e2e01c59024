"""Crossings: from samples of force to moments at which something changes.

Between samples force is a straight line, so each crossing of a level has a time
of its own, and times do not depend on where the samples fall. What happens on a
line depends on its two ends alone: the answer is bit for bit the same however
the stream is cut.

* Band edges are inclusive: a force that lies on an edge is inside.
* Touching a level in a single point is not crossing it.
* What is changed from outside takes effect at the next sample; the line that leads
  to that sample is still judged by the old band.
* Where samples are missing or not good there is no line, only a pause.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.conditioning.block import all_set
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.levels import Levels, LevelTable
from biofeedback.training.prescription import BandOn

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription

    Floats: TypeAlias = npt.NDArray[np.float64]

FEW = 32
"""So many samples are looked at one by one: arrays would take longer."""


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
class NewTerms:
    """From `time_s` on, `asked` is in force: another band, hold or number of reps."""

    time_s: float
    asked: Prescription


@dataclass(frozen=True, slots=True)
class Gate:
    """From `time_s` on, a rep may start, or none may."""

    time_s: float
    open: bool


Moment: TypeAlias = Change | Pause | NewTerms | Gate


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
                phrase(
                    "is “{band_on_value}”, but the rig has no such channel.",
                    band_on_value=band_on.value,
                ),
                phrase("Choose “total”, or connect the other cell."),
            )

    @property
    def force_count(self) -> int:
        """How many forces the band applies to: the effort, or one a side."""
        return len(self._forces)

    @property
    def effort_columns(self) -> tuple[int, ...]:
        """The channels that make up the effort."""
        return self._effort

    @property
    def columns(self) -> tuple[tuple[int, ...], ...]:
        """The channels that make up each force that the band applies to."""
        return self._forces

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
        self._asked = prescription  # in force at the newest sample
        self._judged = judged
        self._table = LevelTable(prescription, judged)
        self._next: list[NewTerms | Gate] = []  # their times are not known yet
        self._last_time_s: Floats = np.empty(0)
        self._last_force_n: Floats = np.empty((0, 0))
        self._paused = False
        self._code = -1
        # Flags at the newest sample, shape (levels, 1), where they make `_code`.
        self._raised: npt.NDArray[np.bool_] | None = None

    @property
    def band(self) -> Band:
        """The band in force at the newest sample."""
        return self._asked.band

    @property
    def heard_until_s(self) -> float:
        """Time of the newest good sample; 0 before the first."""
        return float(self._last_time_s[0]) if len(self._last_time_s) else 0.0

    def change(self, asked: Prescription) -> None:
        """Takes effect at the next good sample."""
        self._next.append(NewTerms(math.nan, asked))

    def move_gate(self, *, opened: bool) -> None:
        """Takes effect at the next good sample."""
        self._next.append(Gate(math.nan, opened))

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
        if all_set(good):
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
        tail_s, tail_n = self._last_time_s, self._last_force_n
        self._last_time_s, self._last_force_n = time_s[-1:], force_n[-1:]
        joined = len(tail_s) > 0 and not self._paused
        if joined and not self._next and self._unchanged(force_n):
            return moments
        if self._paused and len(tail_s):
            moments.append(Pause(float(tail_s[0]), float(time_s[0])))
            self._code = -1
        self._paused = False
        if self._next:
            if joined:
                lead_s = np.concatenate((tail_s, time_s[:1]))
                lead_n = np.concatenate((tail_n, force_n[:1]))
                moments += self._lines(lead_s, lead_n)
                joined = False
            moments += self._take_effect(float(time_s[0]))
        if joined:
            time_s = np.concatenate((tail_s, time_s))
            force_n = np.concatenate((tail_n, force_n))
        return moments + self._lines(time_s, force_n)

    def _take_effect(self, at_s: float) -> list[Moment]:
        """What was changed from outside since the newest sample, in its order."""
        told: list[Moment] = [replace(moment, time_s=at_s) for moment in self._next]
        self._next = []
        for moment in told:
            if isinstance(moment, NewTerms):
                self._asked = moment.asked
        self._table = LevelTable(self._asked, self._judged)
        return told

    def _unchanged(self, force_n: Floats) -> bool:
        """Whether all samples lie where the newest one did: then nothing happens."""
        if self._raised is None:
            return False
        if len(force_n) <= FEW:
            return self._table.stays(force_n, self._raised[:, 0].tolist())
        raised = self._table.heights(force_n) > 0
        return bool((raised == self._raised).all())

    def _lines(self, time_s: Floats, force_n: Floats) -> list[Moment]:
        """The straight lines between samples, each judged by itself."""
        self._raised = None
        if len(time_s) < 2:
            return []
        heights = self._table.heights(force_n)
        head, tail = heights[:, :-1], heights[:, 1:]
        over, under = heights > 0, heights < 0
        crossed = (under[:, :-1] & over[:, 1:]) | (over[:, :-1] & under[:, 1:])
        broken: npt.NDArray[np.bool_] = np.logical_or.reduce(crossed, axis=0)
        # A line that crosses no level is over one if one of its ends is.
        codes = self._table.codes(over[:, :-1] | over[:, 1:])
        changed = broken.copy()
        changed[0] |= int(codes[0]) != self._code
        # The flags at the end of a broken line are not those of its code.
        changed[1:] |= (codes[1:] != codes[:-1]) | broken[:-1]
        moments: list[Moment] = []
        picked = np.flatnonzero(changed)
        heads, tails = head[:, picked].T.tolist(), tail[:, picked].T.tolist()
        for i, starts, ends in zip(picked.tolist(), heads, tails, strict=True):
            if broken[i]:
                ends_s = (float(time_s[i]), float(time_s[i + 1]))
                self._broken_line(moments, ends_s, starts, ends)
            else:
                self._tell(moments, float(time_s[i]), int(codes[i]))
        last = heights[:, -1]
        if self._table.code_at(last.tolist()) == self._code:
            self._raised = last[:, None] > 0
        return moments

    def _broken_line(
        self,
        moments: list[Moment],
        ends_s: tuple[float, float],
        starts: list[float],
        ends: list[float],
    ) -> None:
        """One line with crossings on it: each piece is judged at its middle."""
        lasting = 0
        crossed: list[tuple[float, bool, int]] = []
        for head, tail, flag in zip(starts, ends, self._table.flag_list, strict=True):
            if head < 0 < tail or tail < 0 < head:
                crossed.append((head / (head - tail), head > 0, flag))
            elif head + tail > 0:
                lasting |= flag
        start_s, length_s = ends_s[0], ends_s[1] - ends_s[0]
        shares = sorted({share for share, _, _ in crossed})
        for low, high in itertools.pairwise([0.0, *shares, 1.0]):
            middle = (low + high) / 2
            code = lasting
            for share, falls, flag in crossed:
                if (middle < share) is falls:
                    code |= flag
            self._tell(moments, start_s + low * length_s, code)

    def _tell(self, moments: list[Moment], time_s: float, code: int) -> None:
        if code != self._code:
            self._code = code
            moments.append(Change(time_s, Levels.of(code)))
