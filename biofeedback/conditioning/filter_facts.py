"""What a live filter costs and buys, at the actual sample rate.

Everything is worked out from the coefficients that run, not from the analogue
filter they were made after: at 80 samples a second the two differ visibly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning import despike
from biofeedback.conditioning.filters import SectionFilter, linear_sections
from biofeedback.conditioning.one_euro import check_one_euro, one_euro_alpha
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.conditioning.sections import SAMPLES_MAX, check_whole, smoothing

if TYPE_CHECKING:
    import numpy.typing as npt

MEDIAN_COVARIANCE = (0.4486711, 0.2480425, 0.1177097)
"""Covariance of the running median of three of white Gaussian noise of variance 1,
at lags of 0, 1 and 2 samples. The first is 1 − √3/π; the others come from
numerical integration, which a test repeats."""


HALVINGS = 50
"""Of an interval of 0.7 % of a frequency: down to the last digit of a float."""


@dataclass(frozen=True, slots=True)
class FilterFacts:
    """Delay, −3 dB point, noise and overshoot of a filter at one sample rate.

    Attributes:
        delay_s: group delay at DC, which is the lag behind a steady ramp; with the
            sample that despiking costs, and the notch. One-euro's holds at rest:
            when force changes quickly it is shorter.
        cutoff_3db_hz: lowest frequency at which half the power is left, notch
            included; None where there is no low pass or it never gets so low.
            Despiking is not linear and has none.
        noise_gain: variance that is left of white Gaussian noise of variance 1.
        overshoot_pct: by how much a step is overshot, in % of the step.
    """

    delay_s: float
    cutoff_3db_hz: float | None
    noise_gain: float
    overshoot_pct: float


def facts(choice: FilterChoice, rate_hz: float) -> FilterFacts:
    """The facts of a choice at a sample rate.

    Raises:
        FieldError: names the setting that the sample rate does not allow.
    """
    sections = linear_sections(choice, rate_hz=rate_hz)
    length = 1
    if choice.kind is FilterKind.ONE_EURO:
        check_one_euro(choice, rate_hz=rate_hz)
        at_rest = smoothing(one_euro_alpha(choice.cutoff_min_hz, rate_hz=rate_hz))
        sections = np.concatenate((sections, at_rest))
    if choice.kind is FilterKind.MOVING_AVERAGE:
        check_whole(choice.samples, most=SAMPLES_MAX, name="samples")
        length = choice.samples
    delay_samples = _delay_samples(sections) + (length - 1) / 2
    if choice.despike:
        delay_samples += despike.DELAY_SAMPLES
    impulse = _impulse(sections, length)
    overshoot_pct = 100.0 * (float(np.max(np.cumsum(impulse))) - 1.0)
    cutoff_3db_hz = None
    if choice.kind is not FilterKind.NONE:
        cutoff_3db_hz = _cutoff_3db_hz(sections, length, rate_hz)
    return FilterFacts(
        delay_s=delay_samples / rate_hz,
        cutoff_3db_hz=cutoff_3db_hz,
        noise_gain=_noise_gain(impulse, despiked=choice.despike),
        # What rounding leaves of a step that is never overshot is not a fact.
        overshoot_pct=overshoot_pct if overshoot_pct > 1e-6 else 0.0,
    )


def _delay_samples(sections: npt.NDArray[np.float64]) -> float:
    """Group delay at DC: Σ k·b_k / Σ b_k − Σ k·a_k / Σ a_k over all sections."""
    k = np.arange(3)
    b, a = sections[:, :3], sections[:, 3:]
    return float(np.sum(b @ k / b.sum(axis=1) - a @ k / a.sum(axis=1)))


def _impulse(sections: npt.NDArray[np.float64], length: int) -> npt.NDArray[np.float64]:
    """Impulse response, as far as it reaches above rounding."""
    poles = np.concatenate([np.roots(row[3:]) for row in sections] or [np.zeros(1)])
    radius = float(np.max(np.abs(poles)))
    # Poles that coincide die away more slowly than one alone: 60 for 37 = −ln ε.
    tail = math.ceil(-60.0 / math.log(radius)) if radius > 0.0 else 0
    impulse = np.zeros(length + tail + 2 * len(sections) + 1)
    impulse[:length] = 1.0 / length
    if not len(sections):
        return impulse
    # The first sample would prime it: one before gives it a state of rest.
    running = SectionFilter(sections)
    running.push(np.zeros((1, 1)))
    return running.push(impulse[:, np.newaxis])[:, 0]


def _noise_gain(impulse: npt.NDArray[np.float64], *, despiked: bool) -> float:
    """Variance of the filtered noise, white or as the median of three leaves it."""
    if not despiked:
        return float(impulse @ impulse)
    at_0, at_1, at_2 = MEDIAN_COVARIANCE
    return float(
        at_0 * (impulse @ impulse)
        + 2 * at_1 * (impulse[1:] @ impulse[:-1])
        + 2 * at_2 * (impulse[2:] @ impulse[:-2])
    )


def _cutoff_3db_hz(
    sections: npt.NDArray[np.float64], length: int, rate_hz: float
) -> float | None:
    """Lowest frequency at which the power is one half, or None."""
    # Fine enough to meet the first lobe of any filter on offer.
    cycles = np.geomspace(1e-6, 0.5, 2000)
    below = np.flatnonzero(_power(sections, length, cycles) < 0.5)
    if not len(below):
        return None
    low, high = float(cycles[below[0] - 1]), float(cycles[below[0]])
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        power = float(_power(sections, length, np.array([middle]))[0])
        low, high = (low, middle) if power < 0.5 else (middle, high)
    return (low + high) / 2 * rate_hz


def _power(
    sections: npt.NDArray[np.float64],
    length: int,
    cycles_per_sample: npt.NDArray[np.float64],
) -> npt.NDArray[np.float64]:
    """Squared magnitude of the response at frequencies above 0."""
    half_turn = math.pi * cycles_per_sample
    delay = np.exp(-2j * np.outer(np.arange(3), half_turn))
    ratio = (sections[:, :3] @ delay) / (sections[:, 3:] @ delay)
    mean = np.sin(half_turn * length) / (length * np.sin(half_turn))
    power: npt.NDArray[np.float64] = np.prod(np.abs(ratio) ** 2, axis=0) * mean**2
    return power
