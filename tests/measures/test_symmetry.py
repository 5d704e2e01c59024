"""Shares and the index of two sides at once."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.measures.symmetry import (
    SIMULTANEOUS_FORMULA,
    index_noise_pct,
    one_side_difference_pct,
    one_side_noise_pct,
    share_pct,
    simultaneous_index_pct,
)


# Worked out from the formula; "bilateral asymmetry index 1" in Parkinson et al.,
# J Sports Sci Med 20 (2021) 594, is the same quotient with the sides named.
@pytest.mark.parametrize(
    ("right", "left", "index_pct", "right_share_pct"),
    [
        (400, 400, 0.0, 50.0),
        (400, 360, 5.263158, 52.631579),
        (360, 400, -5.263158, 47.368421),
        (400, 320, 11.111111, 55.555556),
        (320, 400, -11.111111, 44.444444),
        (400, 300, 14.285714, 57.142857),
        (500, 250, 33.333333, 66.666667),
        (400, 20, 90.47619, 95.238095),
        (20, 400, -90.47619, 4.761905),
    ],
)
def test_index_and_share(
    right: float, left: float, index_pct: float, right_share_pct: float
) -> None:
    assert simultaneous_index_pct(left, right) == pytest.approx(index_pct, abs=5e-7)
    assert share_pct(right, left) == pytest.approx(right_share_pct, abs=5e-7)
    assert share_pct(left, right) == pytest.approx(100 - right_share_pct, abs=1e-6)


@pytest.mark.parametrize(("left", "right"), [(0.0, 0.0), (-3.0, 1.0)])
def test_a_total_that_is_not_positive_has_no_share(left: float, right: float) -> None:
    assert share_pct(left, right) is None
    assert simultaneous_index_pct(left, right) is None


def test_the_formula_has_a_name() -> None:
    assert SIMULTANEOUS_FORMULA == "100 (R − L)/(R + L)"


@pytest.mark.parametrize(
    ("left", "right", "expected"),
    [(400, 360, 10.0), (360, 400, 10.0), (400, 320, 20.0), (400, 200, 50.0)],
)
def test_difference_of_one_side_at_a_time(
    left: float, right: float, expected: float
) -> None:
    """The standard percentage difference: the same whichever side comes first."""
    assert one_side_difference_pct(left, right) == pytest.approx(expected)
    assert one_side_difference_pct(0.0, 0.0) is None


def test_noise_of_a_difference_is_that_of_drawn_pairs() -> None:
    """Two sides of the same force with 5 % each: 13.9 %, and 95 of 100 lie within."""
    noise_pct = one_side_noise_pct(5.0, 5.0)
    assert noise_pct == pytest.approx(13.859, abs=1e-3)
    chance = np.random.default_rng(3)
    left, right = 400 * np.exp(chance.normal(0, 0.05, (2, 200_000)))
    within = np.abs(100 * np.log(left / right)) <= noise_pct
    assert within.mean() == pytest.approx(0.95, abs=0.002)


def test_noise_of_an_index_is_that_of_its_visits() -> None:
    indices = [1.5, -0.5, 2.0, 4.0]
    assert index_noise_pct(indices) == pytest.approx(1.96 * np.std(indices, ddof=1))
    assert index_noise_pct(indices[:2]) is None
    # A steady change of ten visits is none.
    assert index_noise_pct([10.0 - visit for visit in range(10)]) == pytest.approx(
        1.96 * np.sqrt(1 / 2)
    )
    assert index_noise_pct([3.0, 3.0, 3.0]) is None
