"""A run at rest: some seconds of samples with nothing pulling, and what they say.

Pure bookkeeping over blocks, for the health check. A block is a frame, so the
time between blocks is the time between frames. Samples that are not good are
counted and not measured; what the noise is measured from is the longest stretch
without a break.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.noise import Hum, Line, hum, line
from biofeedback.measures.stillness import Stillness

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile

    Floats = npt.NDArray[np.float64]

MAINS_HZ = (50.0, 60.0)
SAMPLES_MIN = 20
"""With fewer nothing is said of noise."""


@dataclass(frozen=True, slots=True)
class Timing:
    """How regular the samples are, by the board's own clock.

    Attributes:
        rate_hz: slope of number against time, over the longest stretch.
        jitter_s, jitter_most_s: how far samples stand from an even spacing, rms
            and at most.
    """

    rate_hz: float
    jitter_s: float
    jitter_most_s: float


class RestRun:
    """Collects a run at rest.

    Args:
        profile: of the rig; each block must have its channels.
    """

    def __init__(self, profile: RigProfile) -> None:
        self.profile = profile
        self.lost = 0
        self.breaks = 0
        self.samples = 0
        self.not_good = 0
        self.worst_frame_s = 0.0
        self.saturated = np.zeros(len(profile.channels), dtype=np.int64)
        self.counts_most = np.zeros(len(profile.channels), dtype=np.int64)
        self._stillness = Stillness(len(profile.channels))
        self._stretches: list[list[Block]] = []
        self._next_index = -1

    @property
    def seconds(self) -> float:
        """Device time that the run covers, gaps included."""
        if not self._stretches:
            return 0.0
        first, last = self._stretches[0][0], self._stretches[-1][-1]
        return float(last.time_s[-1] - first.time_s[0])

    def push(self, block: Block) -> None:
        """The next samples."""
        followed = block.first_index == self._next_index
        self._next_index = block.first_index + len(block)
        if self._stretches and block.gap:
            self.lost += block.lost
            self.breaks += 1
        if followed and not block.gap:
            last = self._stretches[-1][-1]
            frame_s = float(block.time_s[-1] - last.time_s[-1])
            self.worst_frame_s = max(self.worst_frame_s, frame_s)
            self._stretches[-1].append(block)
        else:
            # Blocks that the screen's side had no time for are no loss of the rig.
            self._stretches.append([block])
        self.samples += len(block)
        self.not_good += int(np.sum(~block.good))
        self.saturated += block.saturated.sum(axis=0)
        most = np.abs(block.counts.astype(np.int64)).max(axis=0)
        self.counts_most = np.maximum(self.counts_most, most)
        self._stillness.push(
            block.time_s, block.counts, after_gap=block.gap or not followed
        )

    # What may be asked once the run is over; worked out once.

    @cached_property
    def _longest(self) -> list[Block]:
        return max(self._stretches, key=lambda s: s[-1].time_s[-1] - s[0].time_s[0])

    @cached_property
    def time_s(self) -> Floats:
        """Times of the good samples of the longest stretch, shape (n,)."""
        time_s = np.concatenate([block.time_s for block in self._longest])
        picked: Floats = time_s[self._good]
        return picked

    @cached_property
    def _good(self) -> npt.NDArray[np.bool_]:
        return np.concatenate([block.good for block in self._longest])

    def _forces(self, of: Callable[[Block], Floats]) -> Floats:
        forces: Floats = np.concatenate([of(block) for block in self._longest])
        return forces[self._good]

    @cached_property
    def force_n(self) -> Floats:
        """Not filtered, shape (n, channels)."""
        return self._forces(lambda block: block.force_n)

    @cached_property
    def shown_n(self) -> Floats:
        """After the live filter, shape (n, channels)."""
        return self._forces(lambda block: block.shown_n)

    @property
    def enough(self) -> bool:
        """Whether there are samples to say something of noise from."""
        return bool(self._stretches) and len(self.time_s) >= SAMPLES_MIN

    @cached_property
    def timing(self) -> Timing | None:
        """Rate and jitter; None with too few samples."""
        if not self._stretches:
            return None
        time_s = np.concatenate([block.time_s for block in self._longest])
        if len(time_s) < 3:
            return None
        index = np.arange(len(time_s), dtype=np.float64)
        fit = line(index, time_s)
        away_s = fit.residual
        return Timing(
            rate_hz=1 / fit.slope_per_s,
            jitter_s=math.sqrt(float(away_s @ away_s) / away_s.size),
            jitter_most_s=float(np.abs(away_s).max()),
        )

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """Noise and drift of the unfiltered force of each channel."""
        return tuple(line(self.time_s, column) for column in self.force_n.T)

    def shown_line(self, shown_n: Floats) -> Line:
        """Noise of a shown force, for example of the total; shape (n,)."""
        return line(self.time_s, shown_n)

    def hums(self, channel: int) -> tuple[Hum | None, ...]:
        """What there is at each mains frequency, in the order of `MAINS_HZ`."""
        timing = self.timing
        if timing is None or len(self.time_s) < len(self._good):
            return (None,) * len(MAINS_HZ)  # not evenly spaced
        residual_n = self.lines[channel].residual
        return tuple(
            hum(residual_n, rate_hz=timing.rate_hz, mains_hz=mains_hz)
            for mains_hz in MAINS_HZ
        )

    @cached_property
    def still(self) -> tuple[bool, ...]:
        """Which channels gave one number all the time, or were found stuck."""
        stuck = {one.channel for one in self._stillness.found}
        counts = np.concatenate([block.counts for block in self._longest])
        flat = np.ptp(counts, axis=0) == 0
        return tuple(bool(flat[i]) or i in stuck for i in range(len(flat)))
