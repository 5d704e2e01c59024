"""Despike: a causal median of three.

A single wrong reading, such as a bit lost between ADC and board, never gets
through. A true change gets through whole, one sample late. It works on counts,
before calibration, where the median is exact.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

DELAY_SAMPLES = 1
Number = TypeVar("Number", np.int32, np.float64)


class Despike:
    """Median of the newest three samples of each channel, state carried.

    The first sample after `reset` primes it, as if it had stood for ever; so a
    spike that happens to be that very sample is not recognised.
    """

    def __init__(self) -> None:
        self._last_two: npt.NDArray[np.generic] | None = None

    def reset(self) -> None:
        """Forgets the last samples; the next one primes."""
        self._last_two = None

    def push(self, values: npt.NDArray[Number]) -> npt.NDArray[Number]:
        """Takes the next samples, shape (n, channels), and returns as many."""
        if not len(values):
            return values
        before = values[[0, 0]] if self._last_two is None else self._last_two
        joined = np.concatenate((before, values))
        self._last_two = joined[-2:].copy()
        first, second, third = joined[:-2], joined[1:-1], joined[2:]
        lower = np.minimum(first, second)
        upper = np.maximum(first, second)
        return np.maximum(lower, np.minimum(upper, third))
