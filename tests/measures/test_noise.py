"""Noise at rest: against data-sheet figures, closed forms and simulated hum."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from biofeedback.measures.noise import (
    alias_hz,
    hum,
    line,
    noise_free_bits,
    peak_to_peak_n,
)


@pytest.mark.parametrize(
    ("rms_counts", "rms_n", "width_n", "bits"),
    [(21.475, 0.0050, 0.033, 14.89), (38.655, 0.0090, 0.0594, 14.04)],
)
def test_noise_of_an_hx711_on_a_cell_of_1_kn(
    rms_counts: float, rms_n: float, width_n: float, bits: float
) -> None:
    """50 and 90 nV rms at gain 128, 2 mV/V: 4294.967296 counts a newton."""
    found_n = rms_counts / 4294.967296
    assert found_n == pytest.approx(rms_n, rel=1e-3)
    assert peak_to_peak_n(found_n) == pytest.approx(width_n, rel=1e-3)
    assert noise_free_bits(found_n, span_n=1000.0) == pytest.approx(bits, abs=0.005)


def test_six_point_six_sigma_hold_999_of_1000() -> None:
    assert 2 * stats.norm.cdf(3.3) - 1 == pytest.approx(0.999, abs=1e-4)


@given(
    slope=st.floats(-5, 5),
    level=st.floats(-100, 100),
    seed=st.integers(0, 1000),
)
def test_line_is_the_least_squares_line_of_scipy(
    slope: float, level: float, seed: int
) -> None:
    time_s = np.arange(200) / 80 + 3600
    noise_n = np.random.default_rng(seed).normal(0, 0.1, 200)
    force_n = level + slope * time_s + noise_n
    found, known = line(time_s, force_n), stats.linregress(time_s, force_n)
    assert found.slope_per_s == pytest.approx(known.slope, rel=1e-6, abs=1e-9)
    assert found.slope_sd == pytest.approx(known.stderr, rel=1e-4)
    assert found.rms == pytest.approx(0.1, rel=0.3)


def test_lag_one_of_a_known_process() -> None:
    """x(k) = 0.8 x(k−1) + noise has a correlation of 0.8."""
    random = np.random.default_rng(5)
    values = np.zeros(50_000)
    for k in range(1, values.size):
        values[k] = 0.8 * values[k - 1] + random.normal()
    assert line(np.arange(values.size) / 80, values).lag_one == pytest.approx(
        0.8, abs=0.01
    )
    flat = line(np.arange(10) / 80, np.zeros(10))
    assert (flat.rms, flat.lag_one) == (0, 0)


@pytest.mark.parametrize(
    ("mains_hz", "rate_hz", "seen_hz"),
    [
        (50, 80, 30),
        (60, 80, 20),
        (50, 10, 0),
        (50, 1000, 50),
        (60, 320, 60),
        (50, 92, 42),
    ],
)
def test_alias(mains_hz: float, rate_hz: float, seen_hz: float) -> None:
    assert alias_hz(mains_hz, rate_hz) == pytest.approx(seen_hz)


@pytest.mark.parametrize("rate_hz", [80.0, 320.0, 1000.0])
@pytest.mark.parametrize("mains_hz", [49.9, 50.13])
def test_hum_is_found_at_its_size(rate_hz: float, mains_hz: float) -> None:
    """0.05 N of hum under 0.03 N rms of noise, over 10 s."""
    time_s = np.arange(round(10 * rate_hz)) / rate_hz
    noise_n = np.random.default_rng(1).normal(0, 0.03, time_s.size)
    force_n = noise_n + 0.05 * np.sin(2 * math.pi * mains_hz * time_s + 1)
    found = hum(line(time_s, force_n).residual, rate_hz=rate_hz, mains_hz=50.0)
    assert found is not None
    assert found.amplitude_n == pytest.approx(0.05, abs=0.008)
    assert found.seen_hz == pytest.approx(alias_hz(mains_hz, rate_hz), abs=0.03)
    assert found.there
    assert found.aliased is (rate_hz == 80)
    other = hum(line(time_s, force_n).residual, rate_hz=rate_hz, mains_hz=60.0)
    assert other is not None
    assert not other.there


def test_noise_is_taken_for_hum_once_in_a_thousand() -> None:
    random = np.random.default_rng(2)
    found = [
        hum(random.normal(0, 0.03, 800), rate_hz=80.0, mains_hz=50.0)
        for _ in range(400)
    ]
    assert sum(one is not None and one.there for one in found) <= 3


@pytest.mark.parametrize(
    ("rate_hz", "mains_hz", "seconds"),
    [(10, 50, 30), (100, 50, 30), (50, 50, 30), (80, 50, 1)],
)
def test_hum_that_cannot_be_told(
    rate_hz: float, mains_hz: float, seconds: float
) -> None:
    noise_n = np.random.default_rng(3).normal(0, 1, round(rate_hz * seconds))
    assert hum(noise_n, rate_hz=rate_hz, mains_hz=mains_hz) is None
