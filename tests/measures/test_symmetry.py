"""Shares and the index of two sides at once."""

from __future__ import annotations

import pytest

from biofeedback.measures.symmetry import (
    SIMULTANEOUS_FORMULA,
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
