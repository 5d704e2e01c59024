"""The one-euro filter: smooth at rest, quick when force changes quickly.

Casiez, Roussel & Vogel, CHI 2012, doi 10.1145/2207676.2208639. The cut-off grows
with the smoothed speed. The speed is taken against the previous *filtered* value,
as in the authors' reference implementation; taken against the previous raw value
their published check table is missed by far.

Its settings belong to newtons: β has the unit 1/N.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.sections import check_cutoff
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.profile import FilterChoice


def one_euro_alpha(cutoff_hz: float, *, rate_hz: float) -> float:
    """The authors' smoothing factor 1/(1 + τ/T) with τ = 1/(2π cut-off)."""
    return 1.0 / (1.0 + rate_hz / (2.0 * math.pi * cutoff_hz))


def check_one_euro(choice: FilterChoice, *, rate_hz: float) -> None:
    """Sees that the settings can work at this sample rate.

    Raises:
        FieldError: names the setting.
    """
    check_cutoff(choice.cutoff_min_hz, rate_hz=rate_hz, name="cutoff_min_hz")
    check_cutoff(
        choice.cutoff_derivative_hz, rate_hz=rate_hz, name="cutoff_derivative_hz"
    )
    if not 0.0 <= choice.beta_per_n < math.inf:
        raise FieldError(
            "filter.beta_per_n",
            phrase(
                "is {beta_per_n:g}; it must be 0 or more.", beta_per_n=choice.beta_per_n
            ),
        )


class OneEuro:
    """One-euro filter over channels; each channel has a speed of its own.

    The only filter that steps through its samples in Python, because its
    coefficients change with each of them.
    """

    def __init__(self, choice: FilterChoice, *, rate_hz: float, channels: int) -> None:
        check_one_euro(choice, rate_hz=rate_hz)
        self._rate_hz = rate_hz
        self._cutoff_min_hz = choice.cutoff_min_hz
        self._beta_per_n = choice.beta_per_n
        self._alpha_speed = one_euro_alpha(choice.cutoff_derivative_hz, rate_hz=rate_hz)
        self._channels = channels
        self._smooth_n: list[float] = []
        self._speed_n_per_s: list[float] = []

    def reset(self) -> None:
        """Forgets everything; the next sample primes."""
        self._smooth_n = []

    def push(self, force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Filters the next samples, shape (n, channels)."""
        out = np.empty_like(force_n)
        if not len(force_n):
            return out
        if not self._smooth_n:
            self._smooth_n = force_n[0].tolist()
            self._speed_n_per_s = [0.0] * self._channels
        for channel in range(self._channels):
            out[:, channel] = self._run(channel, force_n[:, channel].tolist())
        return out

    def _run(self, channel: int, force_n: list[float]) -> list[float]:
        rate_hz, alpha_speed = self._rate_hz, self._alpha_speed
        smooth_n = self._smooth_n[channel]
        speed = self._speed_n_per_s[channel]
        out = []
        for value_n in force_n:
            raw_speed = (value_n - smooth_n) * rate_hz
            speed = alpha_speed * raw_speed + (1.0 - alpha_speed) * speed
            cutoff_hz = self._cutoff_min_hz + self._beta_per_n * abs(speed)
            alpha = one_euro_alpha(cutoff_hz, rate_hz=rate_hz)
            smooth_n = alpha * value_n + (1.0 - alpha) * smooth_n
            out.append(smooth_n)
        self._smooth_n[channel] = smooth_n
        self._speed_n_per_s[channel] = speed
        return out
