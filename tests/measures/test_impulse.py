"""Impulse against scipy, closed forms and sums by hand."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from biofeedback.measures.impulse import impulse_ns


@given(
    steps=st.lists(st.floats(0.001, 0.5), min_size=1, max_size=40),
    data=st.data(),
)
def test_the_trapezoids_of_scipy_with_the_ends_put_in_between(
    steps: list[float], data: st.DataObject
) -> None:
    time_s = np.concatenate(([0.0], np.cumsum(steps)))
    force_n = np.array(
        data.draw(
            st.lists(st.floats(-50, 500), min_size=len(time_s), max_size=len(time_s))
        )
    )
    within = st.floats(0.0, float(time_s[-1]))
    start_s, end_s = sorted((data.draw(within), data.draw(within)))
    own = (time_s > start_s) & (time_s < end_s)
    all_s = np.concatenate(([start_s], time_s[own], [end_s]))
    wanted = integrate.trapezoid(np.interp(all_s, time_s, force_n), all_s)
    joined = np.ones(len(steps), dtype=bool)
    found = impulse_ns(time_s, force_n, joined, start_s=start_s, end_s=end_s)
    assert found == pytest.approx(float(wanted), rel=1e-9, abs=1e-6)


@given(data=st.data())
def test_nothing_is_added_across_a_gap(data: st.DataObject) -> None:
    count = data.draw(st.integers(2, 30))
    time_s = np.arange(0.0, count) / 10
    force_n = np.array(
        data.draw(st.lists(st.floats(0, 500), min_size=count, max_size=count))
    )
    joined = np.array(
        data.draw(st.lists(st.booleans(), min_size=count - 1, max_size=count - 1))
    )
    wanted = sum(
        0.1 * (low + high) / 2
        for (low, high), whole in zip(pairwise(force_n), joined, strict=True)
        if whole
    )
    found = impulse_ns(time_s, force_n, joined, start_s=0.0, end_s=99.0)
    assert found == pytest.approx(wanted, rel=1e-9, abs=1e-9)


def test_ends_between_samples() -> None:
    """F = 100 t: ∫ from 0.25 to 1.75 s is 50 (1.75² − 0.25²) = 150 N·s."""
    time_s = np.array([0.0, 1.0, 2.0])
    joined = np.array([True, True])
    found = impulse_ns(time_s, 100 * time_s, joined, start_s=0.25, end_s=1.75)
    assert found == pytest.approx(150.0)


def test_unusable_samples_do_not_spoil_the_sum() -> None:
    """100 N for 4 s; the sample at 2 s is unusable, so 2 s are missing."""
    time_s = np.arange(5.0)
    force_n = np.array([100.0, 100, np.nan, 100, 100])
    joined = np.array([True, False, False, True])
    found = impulse_ns(time_s, force_n, joined, start_s=0.0, end_s=4.0)
    assert found == 200.0


def test_a_signal_with_a_known_impulse() -> None:
    """204 + 0.2 (t − 14.995) + 3 sin 2π2t + sin 2π10t, 100 Hz, 3000 samples."""
    t = np.arange(3000) / 100
    force_n = (
        204
        + 0.2 * (t - 14.995)
        + 3 * np.sin(2 * np.pi * 2 * t)
        + np.sin(2 * np.pi * 10 * t)
    )
    found = impulse_ns(t, force_n, np.ones(2999, bool), start_s=0.0, end_s=99.0)
    assert found == pytest.approx(6117.964819, abs=5e-7)


@pytest.mark.parametrize(("start_s", "end_s"), [(5.0, 6.0), (1.0, 1.0), (2.0, 1.0)])
def test_no_time_no_impulse(start_s: float, end_s: float) -> None:
    time_s = np.array([0.0, 1.0, 2.0])
    joined = np.array([True, True])
    found = impulse_ns(time_s, np.ones(3), joined, start_s=start_s, end_s=end_s)
    assert found == 0.0
