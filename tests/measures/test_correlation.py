"""Pearson's r and its interval, against a table and scipy."""

from __future__ import annotations

import numpy as np
import pytest
from measures.published import table
from scipy import stats

from biofeedback.measures.correlation import correlation, fisher_interval, varies


@pytest.mark.parametrize("row", table("fisher_z.csv").tolist())
def test_the_table_of_fishers_z(row: list[float]) -> None:
    r, people, _, _, lower, upper, p = row
    assert fisher_interval(r, int(people)) == pytest.approx((lower, upper), abs=6e-5)
    # Two numbers with just this r: a line and what is at right angles to it.
    x = np.linspace(-1, 1, int(people))
    aside = x**2 - np.mean(x**2)
    y = r * x / np.linalg.norm(x) + np.sqrt(1 - r**2) * aside / np.linalg.norm(aside)
    found = correlation(x, y)
    assert found is not None
    assert found.r == pytest.approx(r)
    assert found.p_value == pytest.approx(p, abs=6e-7)


def test_z_and_t_may_disagree_by_a_hair() -> None:
    """r = 0.63 of ten: Fisher's interval leaves out 0, Student's p is 0.0509."""
    interval = fisher_interval(0.63, 10)
    assert interval is not None
    assert interval[0] > 0


@pytest.mark.parametrize("people", [4, 7, 30])
def test_against_scipy(people: int) -> None:
    rng = np.random.default_rng(people)
    x = rng.normal(size=people)
    y = x + rng.normal(size=people)
    found = correlation(x, y)
    independent = stats.pearsonr(x, y)
    limits = independent.confidence_interval(0.95)
    assert found is not None
    assert found.r == pytest.approx(independent.statistic)
    assert found.p_value == pytest.approx(independent.pvalue)
    assert found.interval == pytest.approx((limits.low, limits.high))


def test_where_there_is_no_correlation_or_no_interval() -> None:
    x = np.array([1.0, 2.0, 4.0, 3.0])
    assert correlation(x, np.full(4, 0.1)) is None
    assert correlation(np.full(4, 300.0), x) is None
    assert correlation(x[:2], x[:2]) is None
    three = correlation(x[:3], np.array([1.0, 3.0, 2.0]))
    assert three is not None
    assert three.interval is None
    same = correlation(x, 2 * x + 1)
    assert same is not None
    assert same.r == 1
    assert same.interval is None
    assert same.p_value == 0


def test_rounding_is_no_variation() -> None:
    assert not varies(np.array([0.1 + 0.2, 0.3]))
    assert varies(np.array([0.3, 0.3000001]))
    assert not varies(np.array([5.0, 5.0 + 1e-13]), size=300.0)
    rows = np.array([[1.0, 2.0], [3.0, 3.0]])
    assert varies(rows).tolist() == [True, False]
    assert varies(rows, size=1e17).tolist() == [False, False]
