"""What an invented athlete's force is made of: noise of two kinds, and moves.

All in steps of `STEP_US`. The chance comes in from outside as white noise of
unit variance, so these know no random state.
"""

from __future__ import annotations

import math

STEP_US = 5_000
"""A tremor of 12 Hz has 16 steps a period."""
STEP_S = STEP_US / 1e6


def steps_of(duration_s: float) -> int:
    """The nearest whole number of steps, at least one."""
    return max(1, round(duration_s / STEP_S))


class Resonance:
    """Noise around one frequency with unit variance: an AR(2) process.

    Variance after Box and Jenkins, Time Series Analysis, section 3.2.4.
    """

    def __init__(self, *, centre_hz: float, bandwidth_hz: float) -> None:
        radius = math.exp(-math.pi * bandwidth_hz * STEP_S)
        self._a1 = 2 * radius * math.cos(2 * math.pi * centre_hz * STEP_S)
        self._a2 = -(radius**2)
        variance = (1 - self._a2) / (
            (1 + self._a2) * ((1 - self._a2) ** 2 - self._a1**2)
        )
        self._gain = 1 / math.sqrt(variance)
        self._last = self._before = 0.0

    def push(self, white: float) -> float:
        """The next value."""
        value = self._a1 * self._last + self._a2 * self._before + self._gain * white
        self._before, self._last = self._last, value
        return value


class Wander:
    """Slow noise with unit variance: an AR(1) process."""

    def __init__(self, *, time_constant_s: float) -> None:
        self._keep = math.exp(-STEP_S / time_constant_s)
        self._gain = math.sqrt(1 - self._keep**2)
        self._last = 0.0

    def push(self, white: float) -> float:
        """The next value."""
        self._last = self._keep * self._last + self._gain * white
        return self._last


class Move:
    """What the muscles are told: smooth moves from one level to the next.

    A move is half a cosine, at rest at both ends. One may begin before the last
    is over; it starts from where the level is then.

    Attributes:
        level_n: where the force is meant to be now.
    """

    def __init__(self) -> None:
        self.level_n = 0.0
        self._from_n = self._to_n = 0.0
        self._steps = self._done = 0

    @property
    def steps_left(self) -> int:
        """Steps until the move is over; 0 where there is none."""
        return self._steps - self._done

    @property
    def goal_n(self) -> float:
        """Where the move under way will end, or the level."""
        return self._to_n if self.steps_left else self.level_n

    def start(self, to_n: float, *, steps: int) -> None:
        """Begins a move to `to_n`, not below zero, over so many steps."""
        self._from_n, self._to_n = self.level_n, max(0.0, to_n)
        self._steps, self._done = steps, 0

    def sink(self, part: float) -> None:
        """Loses this part of the level where nothing moves it."""
        if not self.steps_left:
            self.level_n -= part * self.level_n

    def step(self) -> None:
        """Goes one step further."""
        if self.steps_left:
            self._done += 1
            part = (1 - math.cos(math.pi * self._done / self._steps)) / 2
            self.level_n = self._from_n + part * (self._to_n - self._from_n)
