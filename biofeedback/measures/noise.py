"""Noise of a force at rest: how big it is, what it hides, mains hum and drift.

All of it is worked out from a stretch of evenly spaced, good samples while nothing
pulls. A straight line is taken away first, so that slow drift is not called noise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

PEAK_TO_PEAK = 6.6
"""Of Gaussian noise 99.9 % lies within ±3.3 σ: the usual rule that turns rms into
peak to peak in data sheets of bridge converters."""
MAINS_SWING_HZ = 0.5
"""Mains stays within 0.2 Hz of its nominal value, and a board's ceramic clock is
off by up to 0.5 %, which at 50 Hz is 0.25 Hz more. Common practice, no source."""
SLOW_HZ = 2 * MAINS_SWING_HZ
"""An alias below it cannot be told from a slow change."""
BY_CHANCE = 1e-3


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line through a force at rest.

    Attributes:
        slope_per_s: its slope.
        slope_sd: standard deviation of the slope, as white noise would leave it.
        residual: what is left, shape (n,).
    """

    slope_per_s: float
    slope_sd: float
    residual: Floats

    @property
    def rms(self) -> float:
        """Standard deviation of what is left, two degrees of freedom taken."""
        return math.sqrt(
            float(self.residual @ self.residual) / (self.residual.size - 2)
        )

    @property
    def lag_one(self) -> float:
        """Correlation of neighbours: 1 − Σ(difference²) / 2Σ(residual²).

        The ratio of the mean square successive difference to the variance (von
        Neumann, Ann. Math. Statist. 12 (1941) 367-395), turned around.
        """
        power = float(self.residual @ self.residual)
        if power == 0:
            return 0.0
        steps = np.diff(self.residual)
        count = self.residual.size
        ratio = float(steps @ steps) / (count - 1) / (power / count)
        return min(1.0, max(-1.0, 1 - ratio / 2))


def line(time_s: Floats, force_n: Floats) -> Line:
    """Least squares through at least three samples, of shape (n,)."""
    away_s = time_s - time_s.mean()
    spread = float(away_s @ away_s)
    slope = float(away_s @ force_n) / spread
    residual = force_n - force_n.mean() - slope * away_s
    sd = math.sqrt(float(residual @ residual) / (residual.size - 2) / spread)
    return Line(slope, sd, residual)


def peak_to_peak_n(rms_n: float) -> float:
    """The width within which 99.9 % of the noise lies."""
    return PEAK_TO_PEAK * rms_n


def noise_free_bits(rms_n: float, *, span_n: float) -> float:
    """How many steps of noise-free resolution a span has, as a power of two."""
    return math.log2(span_n / peak_to_peak_n(rms_n))


def alias_hz(mains_hz: float, rate_hz: float) -> float:
    """Where a sampled signal shows a frequency.

    At its distance from the nearest multiple of the sample rate.
    """
    return abs(mains_hz - round(mains_hz / rate_hz) * rate_hz)


@dataclass(frozen=True, slots=True)
class Hum:
    """How much there is at the mains' frequency.

    Attributes:
        seen_hz: where it stands in the samples; the mains' own frequency, or its
            alias where the rate is too low.
        amplitude_n: from the middle to the top of the swing.
        chance_n: as much comes by chance once in 1000 runs of white noise.
    """

    mains_hz: float
    seen_hz: float
    amplitude_n: float
    chance_n: float

    @property
    def there(self) -> bool:
        """Whether it is more than chance."""
        return self.amplitude_n > self.chance_n

    @property
    def aliased(self) -> bool:
        """Whether it is seen elsewhere, where it cannot be told from other things."""
        return abs(self.seen_hz - self.mains_hz) > 2 * MAINS_SWING_HZ


def hum(residual_n: Floats, *, rate_hz: float, mains_hz: float) -> Hum | None:
    """The strongest swing within half a hertz of where the mains is to be seen.

    The amplitude is that of the periodogram; of white noise, its square is
    exponential with a mean of 4σ²/n at each of its frequencies (Fisher, Proc. R.
    Soc. A 125 (1929) 54-59), and that gives `chance_n`.

    Args:
        residual_n: shape (n,), a line taken away.

    Returns:
        None where it cannot be told: its alias is too near 0 Hz or to half the
        sample rate, or the run too short.
    """
    seen_hz = alias_hz(mains_hz, rate_hz)
    count = residual_n.size
    length_s = count / rate_hz
    lowest_hz = max(SLOW_HZ, 3 / length_s)
    if length_s < 2 or seen_hz < lowest_hz or seen_hz > rate_hz / 2 - lowest_hz / 2:
        return None
    # Four points for each frequency of the periodogram: none falls between them.
    points = max(8, math.ceil(8 * MAINS_SWING_HZ * length_s))
    tried_hz = np.linspace(seen_hz - MAINS_SWING_HZ, seen_hz + MAINS_SWING_HZ, points)
    turns = np.exp(-2j * np.pi * np.outer(tried_hz, np.arange(count) / rate_hz))
    amplitudes = 2 / count * np.abs(turns @ residual_n)
    best = int(np.argmax(amplitudes))
    amplitude_n = float(amplitudes[best])
    rest = float(residual_n @ residual_n) / count - amplitude_n**2 / 2
    sigma_n = math.sqrt(max(rest, 0.0))
    chance_n = 2 * sigma_n * math.sqrt(math.log(points / BY_CHANCE) / count)
    return Hum(mains_hz, float(tried_hz[best]), amplitude_n, chance_n)
