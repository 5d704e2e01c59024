"""Shares: their noise against drawn tests, and against the rule for small errors."""

from __future__ import annotations

import math

import numpy as np
import pytest

from biofeedback.measures.share import (
    share_alone_limits_pct,
    share_change_limits_pct,
    share_of_pct,
    share_sd,
)


def test_a_share_by_hand() -> None:
    assert share_of_pct(360.0, 400.0) == pytest.approx(90.0)
    assert share_of_pct(360.0, 0.0) is None


def test_small_errors_add_up_as_squares() -> None:
    """Of 5 % each: 7.07 % of the ratio, 13.9 % of one visit, 19.6 % of a change."""
    sd = math.hypot(0.05, 0.05)
    assert 100 * share_sd(0.05, 0.05) == pytest.approx(0.0707, rel=1e-3)
    assert 1.96 * sd == pytest.approx(0.139, abs=5e-4)
    lower, upper = share_change_limits_pct(90.0, sd)
    assert math.log(upper / 90.0) == pytest.approx(0.196, abs=5e-4)
    assert math.log(90.0 / lower) == pytest.approx(0.196, abs=5e-4)


def test_drawn_visits_lie_within_the_limits_as_often_as_they_say() -> None:
    """40,000 pairs of visits of an unchanged athlete, 6 and 4 % of error."""
    chance = np.random.default_rng(11)
    errors = (0.06, 0.04)
    left, right = (
        300 * np.exp(chance.normal(0, math.log1p(error), (2, 40_000)))
        for error in errors
    )
    share = 100 * left / right
    sd = share_sd(6.0, 4.0)
    lower, upper = np.array(share_change_limits_pct(1.0, sd))
    change = share[1] / share[0]
    assert np.mean((change > lower) & (change < upper)) == pytest.approx(
        0.95, abs=0.005
    )
    low, high = share_alone_limits_pct(sd)
    assert np.mean((share[0] > low) & (share[0] < high)) == pytest.approx(
        0.95, abs=0.005
    )
