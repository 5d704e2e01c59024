"""Spectrum of a held force: how its power is shared between slow and quick wavering.

The bands 0 to 4, 4 to 8 and 8 to 12 Hz are those of work on the steadiness of held
forces (used, for instance, in PMC2842579). They say where the fluctuation lies and are
no diagnosis of tremor.

The force is calibrated, zeroed and not filtered; its mean and its least-squares line
are taken out, no window is laid over it, and the power of the one-sided periodogram is
added up, so that the total is the variance of what is left (Parseval). A band takes in
its lower edge and not its upper one.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.steadiness import line_of

if TYPE_CHECKING:
    import numpy.typing as npt

RATE_LEAST_HZ = 50.0
"""Twice the highest edge, and what an anti-alias filter of a converter leaves."""
LENGTH_LEAST_S = 5.0
"""Twenty periods of 4 Hz; shorter, the bands run into one another."""
UNEVEN_MOST = 0.5
"""Of a sample period; a gap is never bridged."""
ROUNDING_HZ = 1e-6
EDGES_HZ = (0.0, 4.0, 8.0, 12.0)


@dataclass(frozen=True, slots=True)
class Spectrum:
    """Power of the fluctuation of a held force.

    Attributes:
        power_n2: variance of the force without its line, N².
        share_0_4_pct, share_4_8_pct, share_8_12_pct: of that, in each band.
    """

    power_n2: float
    share_0_4_pct: float
    share_4_8_pct: float
    share_8_12_pct: float


def spectrum(
    time_s: npt.NDArray[np.float64], force_n: npt.NDArray[np.float64]
) -> Spectrum | None:
    """Shares of power of `force_n`.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,), without NaN.

    Returns:
        None where the rate is under 50 Hz, the force was held for less than 5 s, a
        sample is missing, or nothing wavers.
    """
    if len(force_n) < 3:
        return None
    steps_s = np.diff(time_s)
    step_s = float(time_s[-1] - time_s[0]) / (len(time_s) - 1)
    length_s = len(force_n) * step_s
    if 1 / step_s < RATE_LEAST_HZ * (1 - 1e-6) or length_s < LENGTH_LEAST_S - step_s:
        return None
    if np.max(np.abs(steps_s - step_s)) > UNEVEN_MOST * step_s:
        return None
    left_n = line_of(time_s, force_n).taken_out(time_s, force_n)
    power_n2 = np.abs(np.fft.rfft(left_n)) ** 2 / len(left_n) ** 2
    # Each line but 0 and Nyquist stands for its twin of negative frequency too.
    last = -1 if len(left_n) % 2 == 0 else None
    power_n2[1:last] *= 2
    total_n2 = float(power_n2.sum())
    if total_n2 <= 1e-18 * (1 + float(np.mean(force_n)) ** 2):
        return None
    # A line on an edge is in the band above, whatever the rounding of the times.
    at_hz = np.fft.rfftfreq(len(left_n), step_s) + ROUNDING_HZ
    shares = [
        float(100 * power_n2[(at_hz >= low) & (at_hz < high)].sum() / total_n2)
        for low, high in pairwise(EDGES_HZ)
    ]
    return Spectrum(total_n2, *shares)
