"""Rice's rate of level crossings, against simulated noise and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from biofeedback.conditioning.filters import design
from biofeedback.conditioning.profile import FilterChoice
from biofeedback.measures.excursions import (
    crossings_per_s,
    excursions,
    often,
    places_n,
)
from biofeedback.measures.noise import line
from biofeedback.training.band import Band

RATE_HZ = 80.0
BAND = Band(38.0, 42.0)


def shown_noise(
    seed: int, *, seconds: float, rms_n: float
) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """White noise of the converter after the live filter of the program."""
    white = np.random.default_rng(seed).normal(0, rms_n, round(seconds * RATE_HZ))
    live = design(FilterChoice(), rate_hz=RATE_HZ, channels=1)
    return live.push(white[:, np.newaxis])[100:, 0]


@pytest.mark.parametrize("level", [0.0, 1.0, 2.0, 3.0])
def test_rate_is_what_is_counted_in_filtered_noise(level: float) -> None:
    """An hour of noise through the live filter, its crossings counted one by one."""
    shown = shown_noise(1, seconds=3600, rms_n=1.0)
    at = level * shown.std()
    counted = int(np.sum((shown[:-1] < at) & (shown[1:] >= at)))
    lag_one = line(np.arange(shown.size) / RATE_HZ, shown).lag_one
    expected = crossings_per_s(level, lag_one=lag_one, rate_hz=RATE_HZ)
    expected *= shown.size / RATE_HZ
    assert counted > 100
    # Upcrossings of a rare level come nearly by themselves, as Poisson counts do.
    assert counted == pytest.approx(expected, abs=4 * math.sqrt(expected))


def test_excursions_of_a_held_force_are_what_is_counted() -> None:
    """Held half way to the edge with 0.4 N of shown noise: 1 N down, 3 N up."""
    shown = shown_noise(2, seconds=3600, rms_n=0.75)
    held_n = 39.0
    inside = (shown + held_n >= BAND.lower_n) & (shown + held_n <= BAND.upper_n)
    counted = int(np.sum(inside[:-1] & ~inside[1:])) / 60
    fit = line(np.arange(shown.size) / RATE_HZ, shown)
    found = excursions(
        BAND, held_n=held_n, rms_n=fit.rms, lag_one=fit.lag_one, rate_hz=RATE_HZ
    )
    assert counted > 3
    assert found.per_min == pytest.approx(counted, rel=0.1)
    assert found.outside_pct == pytest.approx(100 * np.mean(~inside), rel=0.15)


@given(lag_one=st.floats(-0.999, 0.999))
def test_at_the_mean_it_is_the_cosine_formula(lag_one: float) -> None:
    """arccos(ρ)/2π upcrossings a sample, known for Gaussian series."""
    assert crossings_per_s(0.0, lag_one=lag_one, rate_hz=1.0) == pytest.approx(
        math.acos(lag_one) / (2 * math.pi), rel=1e-9
    )


@given(level=st.floats(0, 6), lag_one=st.floats(-0.99, 0.99))
def test_it_is_the_probability_of_two_neighbours(level: float, lag_one: float) -> None:
    """Against scipy's integral of the bivariate normal density."""
    both = stats.multivariate_normal(cov=[[1, lag_one], [lag_one, 1]])
    below = stats.norm.cdf(level) - float(both.cdf([level, level]))
    assert crossings_per_s(level, lag_one=lag_one, rate_hz=1.0) == pytest.approx(
        below, abs=1e-7
    )


@pytest.mark.parametrize("level", [0.0, 1.0, 3.0, 5.0])
def test_for_a_fast_sampler_it_is_the_formula_of_rice(level: float) -> None:
    """ρ = cos(2π f/fs) for noise that crosses its mean upwards f times a second."""
    rate_hz, zero_hz = 1e5, 6.0
    lag_one = math.cos(2 * math.pi * zero_hz / rate_hz)
    assert crossings_per_s(level, lag_one=lag_one, rate_hz=rate_hz) == pytest.approx(
        zero_hz * math.exp(-(level**2) / 2), rel=1e-4
    )


def test_ends_of_the_scale() -> None:
    assert crossings_per_s(1.0, lag_one=1.0, rate_hz=80) == 0
    assert crossings_per_s(0.0, lag_one=-1.0, rate_hz=80) == 40
    still = excursions(BAND, held_n=40, rms_n=0.0, lag_one=0.0, rate_hz=80)
    assert (still.per_min, still.outside_pct) == (0, 0)


def test_held_at_the_centre_both_edges_count_alike() -> None:
    one = crossings_per_s(2.0, lag_one=0.9, rate_hz=80)
    both = excursions(BAND, held_n=40, rms_n=1.0, lag_one=0.9, rate_hz=80)
    assert both.per_min == pytest.approx(2 * 60 * one)
    assert both.outside_pct == pytest.approx(100 * 2 * 0.022750131948)  # 1 − Φ(2)


def test_an_open_band_is_left_downwards_only() -> None:
    band = Band.at_least(40)
    assert places_n(band) == pytest.approx((42.0, 41.0))
    found = excursions(band, held_n=42, rms_n=1.0, lag_one=0.9, rate_hz=80)
    assert found.per_min == pytest.approx(
        60 * crossings_per_s(2, lag_one=0.9, rate_hz=80)
    )


def test_places_and_words() -> None:
    assert places_n(BAND) == (40.0, 39.0)
    assert often(12.4) == "about 12 times a minute"
    assert often(0.5) == "about 30 times an hour"
    assert often(1 / 500) == "about 3 times a day"
    assert often(1e-4) == "about 4 times a month"
    assert often(1e-9) == often(0.0) == "practically never"
