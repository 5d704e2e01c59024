"""Steadiness and errors against published decompositions and closed forms."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as st_numpy

from biofeedback.measures.steadiness import steadiness, target_error

FORCES = st_numpy.arrays(
    np.float64, st.integers(1, 60), elements=st.floats(0, 2000, width=32)
)


def test_a_signal_with_known_drift_waves_and_bias() -> None:
    """204 + 0.2 (t − 14.995) + 3 sin 2π2t + sin 2π10t, 100 Hz, 3000 samples.

    Values worked out from the formula with another program, six digits.
    """
    t = np.arange(3000) / 100
    force_n = (
        204
        + 0.2 * (t - 14.995)
        + 3 * np.sin(2 * np.pi * 2 * t)
        + np.sin(2 * np.pi * 10 * t)
    )
    found = steadiness(t, force_n)
    assert found is not None
    assert found.mean_n == pytest.approx(204.0, abs=5e-7)
    assert found.cv_pct == pytest.approx(1.377888, abs=5e-7)
    assert found.cv_detrended_pct == pytest.approx(1.0962, abs=5e-7)
    assert found.slope_n_per_s == pytest.approx(0.196616, abs=5e-7)
    assert found.median_n == np.median(force_n)
    error = target_error(force_n, 200.0)
    assert error is not None
    assert error.ce_n == pytest.approx(4.0, abs=5e-7)
    assert error.ve_n == pytest.approx(2.810423, abs=5e-7)
    assert error.rmse_n == pytest.approx(4.888607, abs=5e-7)
    assert error.ae_n == pytest.approx(4.153593, abs=5e-7)


def test_ten_errors_worked_out_by_hand() -> None:
    """E² = CE² + VE² with the denominator n: Henry, J Mot Behav 6 (1974) 149."""
    error_n = np.array([3.0, -1, 4, 0, -2, 5, 1, -3, 2, 6])
    found = target_error(100 + error_n, 100.0)
    assert found is not None
    assert found.ce_n == pytest.approx(1.5)
    assert found.ae_n == pytest.approx(2.7)
    assert found.ve_n == pytest.approx(2.872281, abs=5e-7)
    assert found.rmse_n == pytest.approx(3.24037, abs=5e-7)
    assert found.rmse_n**2 == pytest.approx(10.5)


@given(FORCES, st.floats(0, 2000))
def test_total_error_is_constant_and_variable_error(
    force_n: np.ndarray, target_n: float
) -> None:
    found = target_error(force_n, target_n)
    assert found is not None
    parts = found.ce_n**2 + found.ve_n**2
    assert found.rmse_n**2 == pytest.approx(parts, rel=1e-9, abs=1e-9)
    assert abs(found.ce_n) <= found.ae_n + 1e-9 <= found.rmse_n + 2e-9


def test_the_target_may_change_under_way() -> None:
    target_n = np.array([100.0, 100, 120, 120])
    found = target_error(target_n + 3, target_n)
    assert found is not None
    assert (found.ce_n, found.ve_n) == (3.0, 0.0)


def test_a_straight_line_has_no_detrended_spread() -> None:
    t = np.arange(50) / 10
    found = steadiness(t, 100 + 3 * t)
    assert found is not None
    assert found.slope_n_per_s == pytest.approx(3.0)
    assert found.cv_detrended_pct == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("offset_n", [-5.0, 0.0])
def test_without_a_positive_mean_there_is_no_cv(offset_n: float) -> None:
    found = steadiness(np.arange(3.0), np.array([-1.0, 0, 1]) + offset_n)
    assert found is not None
    assert found.cv_pct is None
    assert found.cv_detrended_pct is None


def test_too_few_samples_give_nothing() -> None:
    assert steadiness(np.arange(2.0), np.ones(2)) is None
    assert target_error(np.empty(0), 100.0) is None
