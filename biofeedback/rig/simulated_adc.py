"""The simulated cells and their ADC: newtons in, 24-bit counts out.

The calibration is fixed and known, so that what the program shows can be checked
against what was pulled.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import Calibration
from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.rig.force_input import ForceInput

RATED_N = 1000.0
SENSITIVITY_MV_PER_V = 2.0
GAINS = (128, 64)
ZERO_COUNTS = (12_000, -9_000)
"""What the empty cells give at the first gain."""


def calibration(channel: int, *, gain: int) -> Calibration:
    """The line that turns a simulated cell's counts into newtons."""
    return Calibration.from_rating(
        rated_n=RATED_N,
        sensitivity_mv_per_v=SENSITIVITY_MV_PER_V,
        gain=gain,
        zero_counts=ZERO_COUNTS[channel] * gain / GAINS[0],
    )


class SimulatedAdc:
    """Converts what pulls on the cells.

    Args:
        force: what pulls.
        channels: 1 (both sides on one cell) or 2 (left, right).
        noise_n: standard deviation of the ADC's noise.
        seed: of that noise.
    """

    def __init__(
        self, force: ForceInput, *, channels: int, noise_n: float, seed: int
    ) -> None:
        self._force = force
        self._channels = channels
        self._noise_n = noise_n
        self._random = np.random.default_rng([seed, 0])
        self._lines = {gain: _lines(channels, gain=gain) for gain in GAINS}

    def counts(
        self, times_us: npt.NDArray[np.int64], *, gain: int
    ) -> npt.NDArray[np.int64]:
        """Counts at these times, shape (n, channels), within the ADC's stops."""
        forces_n = self._force.forces_n(times_us)
        if self._channels == 1:
            forces_n = forces_n.sum(axis=1, keepdims=True)
        noise_n = self._noise_n * self._random.standard_normal(forces_n.shape)
        offsets_n, slopes = self._lines[gain]
        wished = np.rint((forces_n + noise_n - offsets_n) / slopes)
        counts: npt.NDArray[np.int64] = wished.astype(np.int64)
        return counts.clip(COUNTS_MIN, COUNTS_MAX)

    def numbers(self, sequences: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
        """The samples' own numbers instead of a force, shape (n, channels)."""
        up = sequences % (COUNTS_MAX + 1)
        counts: npt.NDArray[np.int64] = np.column_stack((up, -up - 1))
        return counts[:, : self._channels]


def _lines(channels: int, *, gain: int) -> npt.NDArray[np.float64]:
    """Offsets and slopes of all channels, shape (2, channels)."""
    lines = [
        calibration(channel, gain=gain).coefficients for channel in range(channels)
    ]
    return np.asarray(lines).T
