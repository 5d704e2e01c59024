"""Stillness: a converter that gives one and the same number for too long.

A bridge ADC of 24 bits is never still: its noise is many counts wide, so each
count comes again only by chance. A channel is *stuck* when its counts stay
identical for longer than chance allows for the noise it had before.

With Gaussian noise of σ counts no code comes up more often than
p = erf(1 / (2√2·σ)), so a run of n equal samples has a chance of at most
p^(n − 1) to begin at a given sample. What is less likely than `CHANCE` is told:
at σ = 40 counts (an HX711 at 80 SPS) 7 samples, at 1 count 30, and in any case
no less than half a second.

* σ is the smallest that any full window has shown, so a force that moves does
  not pass for noise. A channel without any of its own is given the others'.
* Below one count of noise nothing is said: a board that rounds is still by itself.
* The answer does not depend on how the stream is cut. A gap begins a new run.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

WINDOW = 32
"""Samples for one look at the noise: it is known to about 15 % after it."""
LEAST_S = 0.5
"""A board that sends each conversion a few times over is not stuck."""
TOGETHER_S = 0.8 * LEAST_S
"""So long a stretch is looked at as one; the run before it has room to be added."""
CHANCE = 1e-12
"""By chance once in 400 years of 80 samples a second."""
NOISE_LEAST = 1.0


@dataclass(frozen=True, slots=True)
class Stuck:
    """A channel gave one number from `since_s` to `until_s`; told at `time_s`.

    Attributes:
        until_s: when another number came; infinite while none has.
    """

    channel: int
    since_s: float
    time_s: float
    until_s: float = math.inf


class Stillness:
    """Looks for stuck channels in one stream.

    Args:
        channels: how many there are.

    Attributes:
        noise: smallest standard deviation seen, in counts; infinite before the
            first full window.
        found: every time that a channel was stuck, in order.
    """

    def __init__(self, channels: int) -> None:
        self.noise = np.full(channels, math.inf)
        self._window = np.zeros((WINDOW, channels))
        self._filled = 0
        self._last: npt.NDArray[np.int32] | None = None
        self._since_s = np.zeros(channels)
        self._equal = np.zeros(channels, dtype=np.int64)  # samples of the run
        self._told = np.zeros(channels, dtype=np.bool_)
        self.found: list[Stuck] = []

    def push(
        self,
        time_s: npt.NDArray[np.float64],
        counts: npt.NDArray[np.int32],
        *,
        after_gap: bool,
    ) -> list[Stuck]:
        """Consecutive samples in; what has become stuck meanwhile."""
        if after_gap:
            self._last = None
            self._filled = 0
        known = len(self.found)
        start = learned = 0
        while start < len(counts):
            end = self._together(time_s, start)
            if not end or not self._passes(time_s[start:end], counts[start:end]):
                # Nothing was judged meanwhile, so all of it is learned at once.
                self._learn_windows(counts[learned:start])
                learned = end = min(len(counts), start + WINDOW - self._filled)
                self._run(time_s[start:end], counts[start:end])
            start = end
        self._learn_windows(counts[learned:])
        return self.found[known:]

    def _together(self, time_s: npt.NDArray[np.float64], start: int) -> int:
        """The end of whole windows in which no run can be long enough; 0 for none."""
        if self._filled or len(time_s) - start < 2 * WINDOW:
            return 0
        before = int(np.searchsorted(time_s, time_s[start] + TOGETHER_S))
        return start + (before - start) // WINDOW * WINDOW if before > start else 0

    def _run(
        self, time_s: npt.NDArray[np.float64], counts: npt.NDArray[np.int32]
    ) -> None:
        """Samples that end within the window."""
        self._window[self._filled : self._filled + len(counts)] = counts
        self._filled += len(counts)
        if not self._passes(time_s, counts):
            self._follow(time_s, counts)
        if self._filled == WINDOW:
            self._filled = 0
            self._learn(self._window[np.newaxis])

    def _passes(
        self, time_s: npt.NDArray[np.float64], counts: npt.NDArray[np.int32]
    ) -> bool:
        """Takes samples among which there is nothing to judge, as nearly always.

        Two or three equal ones come by chance; a run that lasts must be looked at
        sample by sample, and so must the end of one that was told.
        """
        if self._last is None or not len(counts):
            return False
        # A run that was told is longer, so that its end is looked at too.
        if time_s[-1] - self._since_s.min() >= LEAST_S:
            return False
        before = np.concatenate((self._last[np.newaxis], counts[:-1]))
        moved = counts != before
        if moved[-1].all():
            self._since_s.fill(time_s[-1])
            self._equal.fill(1)
        else:
            for channel, column in enumerate(moved.T):
                places = np.flatnonzero(column)
                if len(places):
                    self._since_s[channel] = time_s[places[-1]]
                    self._equal[channel] = 0
                self._equal[channel] += len(column) - (places[-1] if len(places) else 0)
        self._last = counts[-1]
        return True

    def _follow(
        self, time_s: npt.NDArray[np.float64], counts: npt.NDArray[np.int32]
    ) -> None:
        """Keeps account of the runs of equal samples, one by one."""
        for at_s, row in zip(time_s.tolist(), counts, strict=True):
            moved = np.ones(len(row), np.bool_)
            if self._last is not None:
                moved = row != self._last
            self._move_on(moved, at_s)
            self._since_s[moved] = at_s
            self._equal = np.where(moved, 1, self._equal + 1)
            self._last = row
            if self._equal.max() > 1:
                self._judge(at_s)

    def _move_on(self, moved: npt.NDArray[np.bool_], at_s: float) -> None:
        """These channels have given another number."""
        if not self._told.any():
            return
        for channel in np.flatnonzero(self._told & moved).tolist():
            index = max(i for i, s in enumerate(self.found) if s.channel == channel)
            self.found[index] = replace(self.found[index], until_s=at_s)
        self._told &= ~moved

    def _judge(self, at_s: float) -> None:
        long = (at_s - self._since_s >= LEAST_S) & ~self._told
        if not long.any():
            return
        others = float(self.noise.min())
        for channel in np.flatnonzero(long).tolist():
            own = float(self.noise[channel])
            noise = others if math.isinf(own) else own
            if self._equal[channel] >= run_allowed(noise):
                self._told[channel] = True
                self.found.append(Stuck(channel, float(self._since_s[channel]), at_s))

    def _learn_windows(self, counts: npt.NDArray[np.int32]) -> None:
        """Whole windows, one after the other; none is fine."""
        if len(counts):
            self._learn(counts.reshape(-1, WINDOW, counts.shape[1]))

    def _learn(self, windows: npt.NDArray[np.number]) -> None:
        """Noise from differences, which a slow force leaves alone.

        Args:
            windows: full ones, shape (windows, samples, channels).
        """
        whole = windows.astype(np.float64, copy=False)
        steps = whole[:, 1:] - whole[:, :-1]
        noise = np.sqrt(np.add.reduce(steps * steps, axis=1) / (2 * steps.shape[1]))
        noise[noise == 0] = math.inf
        np.minimum(self.noise, noise.min(axis=0), out=self.noise)


def run_allowed(noise: float) -> float:
    """How many equal samples are too many; infinite where nothing may be said.

    Args:
        noise: standard deviation in counts.
    """
    if not NOISE_LEAST <= noise < math.inf:
        return math.inf
    often = math.erf(1 / (2 * math.sqrt(2) * noise))
    return 1 + math.ceil(math.log(CHANCE) / math.log(often))
