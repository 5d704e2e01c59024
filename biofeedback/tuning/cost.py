"""What a candidate costs the live run: time for a sample, by the live code itself."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.despike import Despike
from biofeedback.conditioning.filters import design

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import FilterChoice

BLOCK = 8
BLOCKS = 100
TIMES = 3


def cost_us(choice: FilterChoice, *, rate_hz: float, channels: int = 2) -> float:
    """Microseconds a sample of all channels, in blocks of eight: the best of three.

    Raises:
        FieldError: the sample rate does not allow a setting.
    """
    running = design(choice, rate_hz=rate_hz, channels=channels)
    despike = Despike()
    counts = np.arange(BLOCK * channels, dtype=np.int32).reshape(BLOCK, channels)
    force_n = counts / 7.0
    taken_ns = []
    for _ in range(TIMES):
        begun_ns = time.perf_counter_ns()
        for _ in range(BLOCKS):
            if choice.despike:
                despike.push(counts)
            running.push(force_n)
        taken_ns.append(time.perf_counter_ns() - begun_ns)
    return min(taken_ns) / 1000.0 / (BLOCK * BLOCKS)
