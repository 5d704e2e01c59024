"""Isometric against eccentric force in a group: does the difference go with the level?

* One athlete, one pair: several results of one athlete are averaged before anything
  else. Repeated rows are not more people.
* The difference is eccentric less isometric. Its line on the level is worked out
  twice, on the isometric force and on the mean of both. On one of the two methods
  alone, that method's own error tilts the line: who tested high by chance seems to
  lose, which is regression to the mean (Bland and Altman, Lancet 346 (1995) 1085,
  from memory). The mean of both is free of that where both have equal noise.
* Where the line crosses zero is a ratio. Its interval is Fieller's, which has no
  finite ends where the slope is not sure to differ from zero; then none is given.
* Chance is the caller's: the bootstrap draws from the generator that it is handed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.measures.correlation import pearson, student_p, varies
from biofeedback.measures.uncertainty import coverage_factor
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

LEAST_PEOPLE = 3
"""A line through two points has nothing left over to judge it by."""
DRAWN_AT_ONCE = 500_000
"""Numbers in one array of the bootstrap: some megabytes."""


class Level(Enum):
    """What the difference is held against."""

    ISOMETRIC = phrase("isometric force")
    MEAN = phrase("mean of both")


@dataclass(frozen=True, slots=True)
class LevelLine:
    """difference = intercept_n + slope · level, by ordinary least squares.

    Attributes:
        people: n; the line has n − 2 degrees of freedom.
        slope_interval: 95 %, by Student's t.
        slope_p: of no slope.
        crossing_n: the level at which the line is zero; None without a slope.
        crossing_interval_n: 95 %, Fieller's; None where it has no finite ends.
        levels_n: lowest and highest level seen; beyond, the line is a guess.
    """

    level: Level
    people: int
    intercept_n: float
    slope: float
    slope_interval: tuple[float, float]
    slope_p: float
    crossing_n: float | None
    crossing_interval_n: tuple[float, float] | None
    levels_n: tuple[float, float]

    @property
    def crosses_within(self) -> bool:
        """Whether the crossing lies among the levels that were seen."""
        lowest_n, highest_n = self.levels_n
        return self.crossing_n is not None and lowest_n <= self.crossing_n <= highest_n


def level_line(
    level_n: npt.ArrayLike,
    difference_n: npt.ArrayLike,
    *,
    level: Level = Level.ISOMETRIC,
) -> LevelLine | None:
    """The line, and where it crosses zero.

    The ends of Fieller's interval (J R Stat Soc B 16 (1954) 175-185) are the levels at
    which the confidence band of the line touches zero. They are finite only where the
    slope differs from zero at the same confidence.

    Args:
        level_n: shape (n,).
        difference_n: shape (n,).
        level: which level it is, to be kept with the line.

    Returns:
        None for fewer than three people, or where the level does not vary.
    """
    x = np.asarray(level_n, dtype=np.float64)
    d = np.asarray(difference_n, dtype=np.float64)
    if len(x) < LEAST_PEOPLE or not varies(x):
        return None
    n, middle_n, mean_n, slope = (
        len(x),
        float(x.mean()),
        float(d.mean()),
        float(_slopes(x, d)),
    )
    spread = float(np.sum((x - middle_n) ** 2))
    left = d - mean_n - slope * (x - middle_n)
    variance = float(left @ left) / (n - 2)
    se = math.sqrt(variance / spread)
    t = coverage_factor(n - 2, level=0.95)
    return LevelLine(
        level=level,
        people=n,
        intercept_n=mean_n - slope * middle_n,
        slope=slope,
        slope_interval=(slope - t * se, slope + t * se),
        slope_p=_slope_p(slope, se, n - 2),
        crossing_n=middle_n - mean_n / slope if slope else None,
        crossing_interval_n=_fieller(
            middle_n, mean_n, slope, t * t * variance / n, t * t * se * se
        ),
        levels_n=(float(x.min()), float(x.max())),
    )


def _slopes(level_n: Floats, difference_n: Floats) -> Floats:
    """Slope of the line, along the last axis; 0 where one of the two does not vary."""
    x = level_n - level_n.mean(axis=-1, keepdims=True)
    d = difference_n - difference_n.mean(axis=-1, keepdims=True)
    # Differences that are equal still have the rounding of the forces.
    varied = varies(level_n) & varies(difference_n, size=np.abs(level_n).max(axis=-1))
    spread = np.where(varied, np.sum(x * x, axis=-1), 1.0)
    return np.where(varied, np.sum(x * d, axis=-1) / spread, 0.0)


def _slope_p(slope: float, se: float, df: int) -> float:
    if se == 0:
        return 0.0 if slope else 1.0
    return student_p(slope / se, df)


def _fieller(
    middle_n: float, mean_n: float, slope: float, of_mean: float, of_slope: float
) -> tuple[float, float] | None:
    """Where (mean + slope · u)² = of_mean + of_slope · u², u from the middle.

    About the middle of the levels, mean and slope are not correlated. With
    g = of_slope/slope² ≥ 1 the interval is no interval.
    """
    leading = slope * slope - of_slope
    if leading <= 0:
        return None
    inner = of_mean * leading + of_slope * mean_n * mean_n
    root = math.sqrt(inner)
    return (
        middle_n + (-slope * mean_n - root) / leading,
        middle_n + (-slope * mean_n + root) / leading,
    )


@dataclass(frozen=True, slots=True)
class Bootstrap:
    """Intervals from drawing athletes again, with all that is theirs.

    Attributes:
        resamples: drawn.
        crossing_interval_n: the middle 95 % of the crossings; None where more than
            2.5 % of the lines slope the other way, or not at all, so that crossings
            run off both ways and their percentiles mean nothing.
        other_slopes: share of those lines, 0 to 1.
        r_interval: of the correlation of isometric and eccentric force.
    """

    resamples: int
    crossing_interval_n: tuple[float, float] | None
    other_slopes: float
    r_interval: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class Forces:
    """One isometric and one eccentric force for each athlete.

    Attributes:
        isometric_n: shape (n,); of the bootstrap (resamples, n).
        eccentric_n: likewise.
        averaged: athletes with more than one result of a kind.
        left_out: athletes without one of the kinds.
        codes: of the athletes; empty for a bootstrap.
        repeated: for each, whether its pair is an average; likewise.
    """

    isometric_n: Floats
    eccentric_n: Floats
    averaged: int
    left_out: int
    codes: tuple[str, ...] = ()
    repeated: tuple[bool, ...] = ()

    @property
    def difference_n(self) -> Floats:
        """Eccentric less isometric."""
        return self.eccentric_n - self.isometric_n

    def level_n(self, level: Level) -> Floats:
        """What the difference is held against."""
        if level is Level.ISOMETRIC:
            return self.isometric_n
        return (self.isometric_n + self.eccentric_n) / 2


def by_athlete(
    results_n: Mapping[str, tuple[Sequence[float], Sequence[float]]],
) -> Forces:
    """Averages the results of each athlete, so that each counts once.

    Args:
        results_n: by athlete, isometric and eccentric results; either may be empty.

    Raises:
        FieldError: a result that is not a force above 0 N.
    """
    pairs: list[tuple[float, float]] = []
    codes: list[str] = []
    repeated: list[bool] = []
    for code, kinds in results_n.items():
        for results in kinds:
            if not all(0 < result < math.inf for result in results):
                raise FieldError("results_n", phrase("must be forces above 0 N."))
        if all(kinds):
            isometric, eccentric = (math.fsum(each) / len(each) for each in kinds)
            pairs.append((isometric, eccentric))
            codes.append(code)
            repeated.append(any(len(each) > 1 for each in kinds))
    table = np.array(pairs, dtype=np.float64).reshape(-1, 2)
    return Forces(
        table[:, 0],
        table[:, 1],
        sum(repeated),
        len(results_n) - len(pairs),
        tuple(codes),
        tuple(repeated),
    )


def bootstrap(
    forces: Forces,
    generator: np.random.Generator,
    *,
    level: Level = Level.ISOMETRIC,
    resamples: int = 10_000,
) -> Bootstrap | None:
    """Draws as many athletes as there are, with replacement, again and again.

    The case bootstrap with percentiles (Efron and Tibshirani, *An Introduction to the
    Bootstrap*, 1993, from memory); it needs no normal distribution, and many athletes.

    Returns:
        None where there is no line to begin with.
    """
    whole = level_line(forces.level_n(level), forces.difference_n)
    if whole is None:
        return None
    crossings, correlations = [], []
    count = len(forces.isometric_n)
    at_once = max(1, DRAWN_AT_ONCE // count)
    for begin in range(0, resamples, at_once):
        rows = min(at_once, resamples - begin)
        drawn = generator.integers(0, count, (rows, count))
        isometric_n, eccentric_n = forces.isometric_n[drawn], forces.eccentric_n[drawn]
        again = Forces(isometric_n, eccentric_n, 0, 0)
        level_n, difference_n = again.level_n(level), again.difference_n
        slope = _slopes(level_n, difference_n)
        same = slope * whole.slope > 0
        middle_n, mean_n = level_n.mean(axis=-1), difference_n.mean(axis=-1)
        crossings.append(middle_n[same] - mean_n[same] / slope[same])
        r = pearson(isometric_n, eccentric_n)
        correlations.append(r[np.isfinite(r)])
    found_n = np.concatenate(crossings)
    share = 1 - len(found_n) / resamples
    return Bootstrap(
        resamples=resamples,
        crossing_interval_n=_middle(found_n) if share <= 0.025 else None,
        other_slopes=share,
        r_interval=_middle(np.concatenate(correlations)),
    )


def _middle(values: Floats) -> tuple[float, float] | None:
    if not len(values):
        return None
    lower, upper = np.percentile(values, [2.5, 97.5])
    return float(lower), float(upper)
