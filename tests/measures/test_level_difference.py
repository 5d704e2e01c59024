"""Isometric against eccentric: the line, its crossing and its intervals."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest
from measures.published import table
from scipy import optimize, stats

from biofeedback.errors import FieldError
from biofeedback.measures.level_difference import (
    Forces,
    Level,
    LevelLine,
    bootstrap,
    by_athlete,
    level_line,
)

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]


def example() -> tuple[Floats, Floats]:
    level_n, difference_n = table("fieller_zero_crossing.csv").T
    return level_n, difference_n


def line_of(level_n: npt.ArrayLike, difference_n: npt.ArrayLike) -> LevelLine:
    found = level_line(level_n, difference_n)
    assert found is not None
    return found


# ------------------------------------------------------------------ the line


def test_the_line_of_the_example() -> None:
    """Found with R."""
    found = line_of(*example())
    assert found.slope == pytest.approx(0.329394, abs=6e-7)
    assert found.intercept_n == pytest.approx(-115.237423, abs=6e-7)
    assert found.crossing_n == pytest.approx(349.847007, abs=6e-7)
    assert found.slope_p == pytest.approx(8.94e-6, rel=1e-3)
    assert found.levels_n == (210.0, 520.0)
    assert found.crosses_within
    half = 2.100922 * 0.053882
    assert found.slope_interval == pytest.approx(
        (found.slope - half, found.slope + half), abs=2e-6
    )


def test_the_line_agrees_with_scipy() -> None:
    rng = np.random.default_rng(6)
    x = rng.uniform(200, 500, 12)
    d = 0.05 * x + rng.normal(0, 30, 12)
    found, independent = line_of(x, d), stats.linregress(x, d)
    assert found.slope == pytest.approx(independent.slope)
    assert found.intercept_n == pytest.approx(independent.intercept)
    assert found.slope_p == pytest.approx(independent.pvalue)


# ----------------------------------------------------------------- the crossing


def test_fiellers_interval_of_the_example() -> None:
    """Found with R, and by turning the confidence band round."""
    found = line_of(*example())
    assert found.crossing_interval_n == pytest.approx(
        (317.282355, 380.870747), abs=1e-6
    )


def band_distance(x: Floats, d: Floats, at: float) -> float:
    """How far zero lies outside the confidence band of the line at a level.

    The band by the textbook's formula, with scipy's line.
    """
    fit = stats.linregress(x, d)
    n = len(x)
    left = d - fit.intercept - fit.slope * x
    s = math.sqrt(float(left @ left) / (n - 2))
    spread = float(np.sum((x - x.mean()) ** 2))
    half = float(stats.t.ppf(0.975, n - 2)) * s
    half *= math.sqrt(1 / n + (at - x.mean()) ** 2 / spread)
    return abs(float(fit.intercept + fit.slope * at)) - half


@pytest.mark.parametrize("seed", range(8))
def test_the_ends_are_where_the_band_of_the_line_touches_zero(seed: int) -> None:
    rng = np.random.default_rng(seed)
    x = rng.uniform(200, 500, 15)
    d = rng.choice([-1, 1]) * 0.4 * (x - 350) + rng.normal(0, 25, 15)
    found = line_of(x, d)
    assert found.crossing_n is not None
    assert found.crossing_interval_n is not None
    for end, far in zip(found.crossing_interval_n, (-5000, 5000), strict=True):
        root = optimize.brentq(
            lambda at: band_distance(x, d, at), found.crossing_n, far
        )
        assert end == pytest.approx(root, abs=1e-6)


def test_no_finite_interval_where_the_slope_is_not_sure() -> None:
    x = np.array([200.0, 250, 300, 350, 400, 450])
    d = np.array([-10.0, 25, -30, 20, -15, 12])
    found = line_of(x, d)
    assert found.slope_p > 0.05
    assert found.crossing_n is not None
    assert found.crossing_interval_n is None
    # The band of the line never leaves zero on one side or the other.
    assert min(band_distance(x, d, far) for far in (-1e7, 1e7)) < 0


@pytest.mark.parametrize("seed", range(40))
def test_finite_just_where_the_slope_differs_from_zero(seed: int) -> None:
    rng = np.random.default_rng(seed)
    x = rng.uniform(200, 500, 8)
    found = line_of(x, 0.2 * (x - 350) + rng.normal(0, 25, 8))
    assert (found.crossing_interval_n is not None) == (found.slope_p < 0.05)
    lower, upper = found.slope_interval
    assert (found.crossing_interval_n is not None) == (lower > 0 or upper < 0)


def test_fiellers_interval_holds_the_true_crossing_as_often_as_it_says() -> None:
    rng = np.random.default_rng(7)
    x = np.linspace(200, 500, 9)
    held = 0
    for _ in range(2000):
        found = line_of(x, 0.4 * (x - 320) + rng.normal(0, 15, 9))
        assert found.crossing_interval_n is not None
        lower, upper = found.crossing_interval_n
        held += lower <= 320 <= upper
    # 2000 draws with a chance of 0.95 each: 1862 to 1936 in all but 1 of 5000.
    assert 1862 <= held <= 1936


def test_a_perfect_line_and_one_without_a_slope() -> None:
    x = np.array([200.0, 300.0, 400.0])
    perfect = line_of(x, 0.5 * x - 125)
    assert perfect.crossing_n == pytest.approx(250)
    assert perfect.crossing_interval_n == pytest.approx((250, 250))
    # Differences that are equal but for the rounding of the forces.
    isometric = np.array([301.1, 352.3, 407.7, 288.9])
    flat = line_of(isometric, (isometric + 5.1) - isometric)
    assert flat.slope == 0
    assert flat.crossing_n is None
    assert flat.crossing_interval_n is None
    assert not flat.crosses_within


def test_a_crossing_beyond_the_levels_is_told() -> None:
    x = np.array([200.0, 250, 300, 350])
    assert not line_of(x, 0.1 * x + np.array([5.0, 5.1, 4.9, 5.0])).crosses_within


def test_where_there_is_no_line() -> None:
    assert level_line([1.0, 2.0], [1.0, 2.0]) is None
    assert level_line([300.0] * 4, [1.0, 2.0, 3.0, 4.0]) is None


def test_noise_alone_tilts_the_line_on_one_method_and_not_on_the_mean() -> None:
    """Regression to the mean: equal true forces, both measured with noise."""
    rng = np.random.default_rng(8)
    true = rng.normal(350, 20, 4000)
    forces = Forces(
        true + rng.normal(0, 20, 4000), true + rng.normal(0, 20, 4000), 0, 0
    )
    one = line_of(forces.level_n(Level.ISOMETRIC), forces.difference_n)
    mean = line_of(forces.level_n(Level.MEAN), forces.difference_n)
    # By −σ²/(σ² + τ²), the share of noise in the spread: a half.
    assert one.slope == pytest.approx(-0.5, abs=0.05)
    assert mean.slope_p > 0.01
    assert mean.slope == pytest.approx(0, abs=0.05)


# ---------------------------------------------------------------------- people


def test_rows_of_one_athlete_are_averaged() -> None:
    forces = by_athlete(
        {
            "A1": ([300.0, 310.0, 320.0], [280.0]),
            "A2": ([400.0], [410.0, 420.0]),
            "A3": ([500.0], [505.0]),
            "A4": ([500.0], []),
        }
    )
    assert forces.isometric_n.tolist() == [310.0, 400.0, 500.0]
    assert forces.eccentric_n.tolist() == [280.0, 415.0, 505.0]
    assert forces.difference_n.tolist() == [-30.0, 15.0, 5.0]
    assert (forces.averaged, forces.left_out) == (2, 1)


def test_repeated_rows_do_not_make_it_surer() -> None:
    rng = np.random.default_rng(9)
    isometric = rng.uniform(200, 500, 9)
    eccentric = isometric + 0.2 * (isometric - 350) + rng.normal(0, 30, 9)
    pairs = list(zip(isometric.tolist(), eccentric.tolist(), strict=True))
    once = by_athlete({str(n): ([i], [e]) for n, (i, e) in enumerate(pairs)})
    often = by_athlete({str(n): ([i] * 20, [e] * 20) for n, (i, e) in enumerate(pairs)})
    one = line_of(once.isometric_n, once.difference_n)
    other = line_of(often.isometric_n, often.difference_n)
    assert other.people == 9
    assert other.slope_p == pytest.approx(one.slope_p)
    # Rows that counted as people would have made it sure.
    rows = line_of(np.repeat(isometric, 20), np.repeat(eccentric - isometric, 20))
    assert rows.slope_p < 1e-4 < one.slope_p


@pytest.mark.parametrize("bad", [0.0, -3.0, math.nan, math.inf])
def test_a_result_that_is_no_force_is_refused(bad: float) -> None:
    with pytest.raises(FieldError, match="above 0 N"):
        by_athlete({"A1": ([300.0, bad], [280.0])})


def test_nobody_is_no_line() -> None:
    forces = by_athlete({})
    assert len(forces.isometric_n) == 0
    assert bootstrap(forces, np.random.default_rng(1)) is None


# -------------------------------------------------------------------- bootstrap


def test_the_bootstrap_of_the_example() -> None:
    """10 000 draws with seed 2024, worked out with other code: 319.63 to 376.62."""
    level_n, difference_n = example()
    forces = Forces(level_n, level_n + difference_n, 0, 0)
    found = bootstrap(forces, np.random.default_rng(2024))
    assert found is not None
    assert found.crossing_interval_n == pytest.approx((319.63, 376.62), abs=0.006)
    assert found.other_slopes == 0
    fieller = line_of(level_n, difference_n).crossing_interval_n
    assert found.crossing_interval_n == pytest.approx(fieller, abs=6)


def test_chance_is_the_callers() -> None:
    level_n, difference_n = example()
    forces = Forces(level_n, level_n + difference_n, 0, 0)
    draws = [
        bootstrap(forces, np.random.default_rng(seed), resamples=200)
        for seed in (1, 1, 2)
    ]
    assert draws[0] == draws[1] != draws[2]


def test_the_interval_of_r_is_near_fishers() -> None:
    rng = np.random.default_rng(10)
    x = rng.normal(350, 50, 80)
    forces = Forces(x, 175 + 0.5 * x + rng.normal(0, 25, 80), 0, 0)
    found = bootstrap(forces, np.random.default_rng(1), resamples=2000)
    assert found is not None
    assert found.r_interval is not None
    independent = stats.pearsonr(forces.isometric_n, forces.eccentric_n)
    limits = independent.confidence_interval(0.95)
    assert found.r_interval == pytest.approx((limits.low, limits.high), abs=0.07)


def test_no_percentiles_where_lines_slope_both_ways() -> None:
    x = np.array([200.0, 250, 300, 350, 400, 450])
    forces = Forces(x, x + np.array([-10.0, 25, -30, 20, -15, 12]), 0, 0)
    found = bootstrap(forces, np.random.default_rng(1), resamples=500)
    assert found is not None
    assert found.other_slopes > 0.1
    assert found.crossing_interval_n is None
