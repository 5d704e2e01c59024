"""What the rules and measures must say of a force that is known: a second computation.

Written from the words of the rules and not from the program: force goes in small steps
of time, everything is summed up, and the live filter is SciPy's. It knows just enough
for the visit that it is used for: one hold after the other, with the grace time.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from scipy.signal import butter, lfilter, lfilter_zi

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy.typing as npt

    Numbers = npt.NDArray[np.float64]

RATE_HZ, CUTOFF_HZ, ORDER = 80.0, 10.0, 2
GRACE_S, END_AFTER_S, ONSET_LEAST_N = 0.3, 0.25, 5.0
FINE_S = 0.000_5


@dataclass(slots=True)
class Expected:
    """One rep; times in seconds of the set."""

    start_s: float
    outcome: str = "stopped"
    hold_end_s: float = math.nan
    end_s: float = math.nan
    seconds: dict[str, float] = field(
        default_factory=lambda: {"below": 0.0, "inside": 0.0, "above": 0.0}
    )
    lapses: int = 0
    gaps: int = 0
    impulse_ns: float = 0.0
    peak_n: float = 0.0


def stretches(time_s: Numbers) -> list[slice]:
    """The samples between gaps."""
    cuts = np.flatnonzero(np.diff(time_s) > 1.5 / RATE_HZ) + 1
    edges = [0, *cuts.tolist(), len(time_s)]
    return [slice(a, b) for a, b in pairwise(edges)]


def shown(force_n: Numbers, parts: list[slice]) -> Numbers:
    """The live force: a Butterworth low pass, begun anew after each gap."""
    b, a = butter(ORDER, CUTOFF_HZ, fs=RATE_HZ)
    found = np.empty_like(force_n)
    for part in parts:
        piece = force_n[part]
        found[part] = lfilter(b, a, piece, zi=lfilter_zi(b, a) * piece[0])[0]
    return found


def reps_of(
    time_s: Numbers,
    force_n: Numbers,
    band_at: Callable[[float], tuple[float, float]],
    *,
    hold_s: float,
    running: bool,
) -> list[Expected]:
    """The reps of a set.

    Args:
        time_s: of the samples that came, from the first one of the set.
        force_n: what pulled then, as one number.
        band_at: lower and upper edge at a time.
        running: whether the clock runs on from the first entry.
    """
    judge = _Judge(band_at, hold_s, running=running)
    parts = stretches(time_s)
    live_n = shown(force_n, parts)
    for number, part in enumerate(parts):
        if number:
            judge.miss()
        at_s = np.arange(time_s[part][0], time_s[part][-1], FINE_S)
        for moment, live, raw in zip(
            at_s.tolist(),
            np.interp(at_s, time_s[part], live_n[part]).tolist(),
            np.interp(at_s, time_s[part], force_n[part]).tolist(),
            strict=True,
        ):
            judge.step(moment, live, raw)
    if judge.rep is not None and not judge.held:
        judge.rep.hold_end_s = judge.rep.end_s = float(time_s[-1])
    return judge.reps


class _Judge:
    """Goes through a set in small steps."""

    def __init__(
        self,
        band_at: Callable[[float], tuple[float, float]],
        hold_s: float,
        *,
        running: bool,
    ) -> None:
        self.reps: list[Expected] = []
        self.rep: Expected | None = None
        self.held = False
        self._band_at, self._hold_s, self._running = band_at, hold_s, running
        self._clock_s = self._outside_s = 0.0
        self._entered = False
        self._low_since: float | None = None
        self._low_s = 0.0  # seen
        self._low_gaps = 0

    def miss(self) -> None:
        """Nothing is seen for a while: of a rep, unless the force had been let go."""
        if self.rep is None or self.held:
            return
        if self._low_since is None:
            self.rep.gaps += 1
        else:
            self._low_gaps += 1

    def step(self, at_s: float, live_n: float, raw_n: float) -> None:
        lower_n, upper_n = self._band_at(at_s)
        onset_n = max(ONSET_LEAST_N, lower_n / 10)
        if self.rep is None:
            if live_n >= onset_n:
                self.rep = Expected(at_s)
                self.reps.append(self.rep)
                self.held = self._entered = False
                self._clock_s = self._outside_s = 0.0
            else:
                return
        if not self.held:
            self._hold(self.rep, at_s, live_n, raw_n, lower_n, upper_n)
        self._end(self.rep, at_s, live_n, onset_n)

    def _hold(
        self,
        rep: Expected,
        at_s: float,
        live_n: float,
        raw_n: float,
        lower_n: float,
        upper_n: float,
    ) -> None:
        where = (
            "below" if live_n < lower_n else "above" if live_n > upper_n else "inside"
        )
        rep.seconds[where] += FINE_S
        rep.impulse_ns += raw_n * FINE_S
        rep.peak_n = max(rep.peak_n, raw_n)
        if where == "inside":
            self._entered, self._outside_s = True, 0.0
        elif self._entered:
            before, self._outside_s = self._outside_s, self._outside_s + FINE_S
            if before < GRACE_S <= self._outside_s:
                rep.lapses += 1
                self._clock_s = self._clock_s if self._running else 0.0
        if where == "inside" or (self._running and self._entered):
            self._clock_s += FINE_S
        if self._clock_s >= self._hold_s:
            self.held, rep.outcome, rep.hold_end_s = True, "complete", at_s

    def _end(self, rep: Expected, at_s: float, live_n: float, onset_n: float) -> None:
        if live_n >= onset_n / 2:
            rep.gaps += self._low_gaps
            self._low_since, self._low_s, self._low_gaps = None, 0.0, 0
            return
        if self._low_since is None:
            self._low_since = at_s
        self._low_s += FINE_S
        if self._low_s >= END_AFTER_S:
            rep.end_s = self._low_since
            self.rep = self._low_since = None
            self._low_s, self._low_gaps = 0.0, 0
