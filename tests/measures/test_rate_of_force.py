"""Rate of force development on a rise whose every value is a closed form."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.measures.rate_of_force import (
    ONSET_BY_HAND,
    baseline_problem,
    onset,
    rate_allows,
    rate_of_force,
)


def rise(rate_hz: float = 1000.0, *, rest_n: float = 0.0) -> tuple[np.ndarray, ...]:
    """1000 (1 − exp(−t/0.1)) N from t = 0 on, after two seconds of rest."""
    time_s = np.arange(-2 * rate_hz, 2 * rate_hz) / rate_hz
    return time_s, rest_n + 1000 * (1 - np.exp(-np.maximum(time_s, 0) / 0.1))


def test_the_windows_of_an_exponential_rise() -> None:
    """(F(t) − F(0))/t and the integrals, worked out from the formula."""
    time_s, force_n = rise()
    found = rate_of_force(time_s, force_n, onset_s=0.0, end_s=2.0)
    assert found is not None
    assert found.rfd_0_50_n_per_s == pytest.approx(7869.387, abs=5e-4)
    assert found.rfd_0_100_n_per_s == pytest.approx(6321.206, abs=5e-4)
    assert found.rfd_0_200_n_per_s == pytest.approx(4323.324, abs=5e-4)
    assert found.rfd_steepest_n_per_s == pytest.approx(9063.462, abs=5e-4)
    # Lines between samples cut the bend: (1 ms)² · 1000 N/0.1 s/12 at most.
    assert found.impulse_0_100_ns == pytest.approx(36.787944, abs=1e-3)
    assert found.impulse_0_200_ns == pytest.approx(113.533528, abs=1e-3)


def test_a_force_at_rest_is_taken_off() -> None:
    time_s, force_n = rise(rest_n=60.0)
    found = rate_of_force(time_s, force_n, onset_s=0.0, end_s=2.0)
    assert found is not None
    assert found.rfd_0_50_n_per_s == pytest.approx(7869.387, abs=5e-4)
    assert found.impulse_0_100_ns == pytest.approx(36.787944, abs=1e-3)


@pytest.mark.parametrize("late_n", [5.0, 20.0])
@pytest.mark.parametrize("rest_n", [0.0, -8.0])
def test_the_onset_is_traced_back_from_a_late_level(
    late_n: float, rest_n: float
) -> None:
    time_s, force_n = rise(rest_n=rest_n)
    late_s = -0.1 * np.log(1 - late_n / 1000)
    assert late_s == pytest.approx({5.0: 0.00050125, 20.0: 0.0020203}[late_n], abs=5e-8)
    found_s = onset(time_s, force_n, near_s=late_s)
    assert found_s == pytest.approx(0.0, abs=1e-9)
    by_level = rate_of_force(time_s, force_n, onset_s=late_s, end_s=2.0)
    assert by_level is not None
    if late_n == 20.0:
        assert by_level.rfd_0_50_n_per_s == pytest.approx(7712, rel=1e-3)


def test_noise_moves_the_onset_by_milliseconds_only() -> None:
    time_s, force_n = rise()
    noise_n = np.random.default_rng(1).normal(scale=0.5, size=len(force_n))
    found_s = onset(time_s, force_n + noise_n, near_s=0.005)
    assert found_s == pytest.approx(0.0, abs=0.002)


def test_without_rest_before_it_there_is_no_onset() -> None:
    time_s, force_n = rise()
    pulled_n = force_n + 30 * np.sin(2 * np.pi * 2 * time_s) * (time_s < 0)
    assert onset(time_s, pulled_n, near_s=0.002) is None
    assert onset(time_s[1900:], force_n[1900:], near_s=0.002) is None
    broken_n = force_n.copy()
    broken_n[1700] = np.nan
    assert onset(time_s, broken_n, near_s=0.002) is None
    assert onset(time_s, np.zeros_like(force_n), near_s=0.002) is None


def test_below_500_hz_nothing_is_told() -> None:
    for rate_hz, told in ((80.0, False), (320.0, False), (500.0, True), (2000.0, True)):
        time_s, force_n = rise(rate_hz)
        assert rate_allows(time_s) is told
        found = rate_of_force(time_s, force_n, onset_s=0.0, end_s=2.0)
        assert (found is not None) is told


def test_no_window_reaches_over_the_end_or_a_gap() -> None:
    time_s, force_n = rise()
    short = rate_of_force(
        time_s, force_n, onset_s=0.0, end_s=0.12, method=ONSET_BY_HAND
    )
    assert short is not None
    assert short.rfd_0_100_n_per_s is not None
    assert (short.rfd_0_200_n_per_s, short.rfd_steepest_n_per_s) == (None, None)
    assert short.onset_method == "set by hand"
    kept = (time_s < 0.06) | (time_s > 0.08)
    broken = rate_of_force(time_s[kept], force_n[kept], onset_s=0.0, end_s=2.0)
    assert broken is not None
    assert broken.rfd_0_50_n_per_s == pytest.approx(7869.387, abs=5e-4)
    assert broken.rfd_0_100_n_per_s is None


def test_who_already_pulls_has_no_onset() -> None:
    """A steady 30 N, and a slow pull of 20 N/s that stays near zero, are no rest."""
    time_s, force_n = rise()
    early = time_s < 0
    noise_n = np.random.default_rng(2).normal(scale=0.3, size=len(force_n))
    for before_n in (30.0, 20.0 * (time_s + 0.35), -25.0):
        pulled_n = force_n + noise_n + np.where(early, before_n, 0.0)
        assert onset(time_s, pulled_n, near_s=0.002) is None
        told = baseline_problem(time_s, pulled_n, near_s=0.002)
        assert told is not None
        assert "already pulling" in told
    assert baseline_problem(time_s, force_n + noise_n, near_s=0.002) is None


def test_a_noisy_but_flat_baseline_is_not_called_a_pull() -> None:
    """Of 200 runs of white noise of 1.5 N hardly one looks like a drift."""
    time_s, force_n = rise(500.0)
    chance = np.random.default_rng(3)
    refused = [
        baseline_problem(
            time_s, force_n + chance.normal(scale=1.5, size=len(force_n)), near_s=0.002
        )
        for _ in range(200)
    ]
    assert sum(one is not None for one in refused) <= 2
