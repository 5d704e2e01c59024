"""Excursions: how often noise alone takes a force out of a band.

A force held perfectly still still leaves the band now and then, for the noise of
the rig. How often a Gaussian process crosses a level upwards was given by Rice
("Mathematical analysis of random noise", Bell Syst. Tech. J. 24 (1945) 46-156,
section 3.3): ν₀·exp(−u²/2), u being the level in standard deviations and ν₀ the
rate at level 0.

The rules see samples, with straight lines between them, so the rate is that of
two neighbours on either side of the level: with the correlation ρ of neighbours

    P(x₀ < u ≤ x₁) = 2·T(u, √((1 − ρ)/(1 + ρ))),

T being Owen's function (Owen, Ann. Math. Statist. 27 (1956) 1075-1090). At level
0 it is arccos(ρ)/2π, and for ρ near 1 it becomes Rice's formula.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.phrase import Phrase, marked, phrase

if TYPE_CHECKING:
    from biofeedback.training.band import Band

OPEN_PCT = 5.0
"""For a minimum to beat, held this much above it: half a band of ±5 %."""


def crossings_per_s(level: float, *, lag_one: float, rate_hz: float) -> float:
    """How often Gaussian noise crosses a level upwards.

    Args:
        level: in standard deviations above the mean.
        lag_one: correlation of neighbouring samples.
        rate_hz: sample rate.
    """
    if lag_one >= 1:
        return 0.0
    if lag_one <= -1:
        return rate_hz / 2 * math.exp(-(level**2) / 2)
    slope = math.sqrt((1 - lag_one) / (1 + lag_one))
    from scipy import special  # noqa: PLC0415  no live set asks, and each start would pay

    return rate_hz * 2 * float(special.owens_t(level, slope))


@dataclass(frozen=True, slots=True)
class Excursions:
    """What noise alone does to a force that is held still.

    Attributes:
        held_n: where it is held.
        per_min: how often it leaves the band in a minute.
        outside_pct: share of time outside, %.
    """

    held_n: float
    per_min: float
    outside_pct: float


def excursions(
    band: Band, *, held_n: float, rms_n: float, lag_one: float, rate_hz: float
) -> Excursions:
    """How often a force held at `held_n` leaves the band by noise alone.

    Args:
        rms_n: standard deviation of the shown force, after the live filter.
        lag_one: correlation of its neighbouring samples.
    """
    if rms_n == 0:
        return Excursions(held_n, 0.0, 0.0)
    margins = [(held_n - band.lower_n) / rms_n, (band.upper_n - held_n) / rms_n]
    finite = [margin for margin in margins if not math.isinf(margin)]
    per_s = sum(
        crossings_per_s(margin, lag_one=lag_one, rate_hz=rate_hz) for margin in finite
    )
    outside = sum(math.erfc(margin / math.sqrt(2)) / 2 for margin in finite)
    return Excursions(held_n, 60 * per_s, 100 * outside)


def places_n(band: Band) -> tuple[float, float]:
    """The centre, and half of the way from there to the lower edge.

    An open band has no centre: 5 % above its edge stands for it.
    """
    centre_n = band.centre_n
    if band.open_above:
        centre_n = band.lower_n * (1 + OPEN_PCT / 100)
    return centre_n, (centre_n + band.lower_n) / 2


_SELDOM = (
    (marked("about {number:.0f} times an hour"), 60),
    (marked("about {number:.0f} times a day"), 1440),
    (marked("about {number:.0f} times a month"), 43_200),
)


def often(per_min: float) -> str:
    """A rate in words."""
    if per_min >= 1:
        return phrase("about {per_min:.0f} times a minute", per_min=per_min)
    for template, minutes in _SELDOM:
        if per_min * minutes >= 1:
            return Phrase(template, {"number": per_min * minutes})
    return phrase("practically never")
