"""Change: is a new result more than the noise of the test?

* Noise is the *typical error*: how far one person's results scatter from visit to
  visit while the person has not changed. It is the within-person SD, pooled over
  people with their degrees of freedom (Hopkins, Sports Med 30 (2000) 1-15).
* The results are one for each visit, the best or the mean of that visit. Trials of
  one visit lie closer together and would make the noise too small. A change that is
  common to all (learning, training) is not taken out here: it makes the noise larger,
  never smaller. `trial_error.typical_error_of_trials` takes it out.
* Forces go in as newtons; all is worked out twice, in newtons and, by logarithms, as
  a percentage of each person's own level.
* A typical error is an estimate. With few degrees of freedom its interval is wide,
  and the interval is to be shown with it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import FORCE_MAX_N

if TYPE_CHECKING:
    from collections.abc import Sequence

Z95 = 1.96
"""As printed wherever a minimal detectable change is; not 1.95996."""
LEAST_DF = 2
"""Degrees of freedom: from one alone the typical error is known to a factor of 70."""
LEAST_N = 0.001
"""Far below the noise of any cell: no result, and its logarithm would rule all."""


class Whose(Enum):
    """Whose repeated tests a noise was worked out from."""

    OWN = phrase("athlete's own")
    CLUB = phrase("the club's")


class Change(Enum):
    """What may be said of a new result."""

    MORE = phrase("more than the noise")
    LESS = phrase("a fall of more than the noise")
    WITHIN = phrase("within the noise")
    UNKNOWN = phrase("cannot tell yet")


@dataclass(frozen=True, slots=True)
class Noise:
    """How much a test's results vary without a change in the person.

    Attributes:
        typical_error_n: pooled within-person SD.
        typical_error_pct: 100 (exp(s) − 1), s the same SD of the logarithms.
        mdc95_n: 1.96 √2 · typical error: between two single tests.
        mdc95_pct: the same multiple of `typical_error_pct`.
        people: with at least two results; others say nothing of noise.
        tests: results of these people.
        degrees_of_freedom: `tests` − `people`; fewer, and no whole number, where
            neighbouring visits were compared (`visit_noise.successive_df`).
        typical_error_interval_n: 95 % interval, by chi-square.
    """

    whose: Whose
    typical_error_n: float
    typical_error_pct: float
    mdc95_n: float
    mdc95_pct: float
    people: int
    tests: int
    degrees_of_freedom: float
    typical_error_interval_n: tuple[float, float]


def typical_error(scores_n: Sequence[Sequence[float]], *, whose: Whose) -> Noise | None:
    """The noise of a test, from results that were repeated.

    Args:
        scores_n: for each person the results of that person, one a visit, in any
            order. People with fewer than two are passed over.

    Returns:
        None where the noise cannot be told: fewer than `LEAST_DF` degrees of freedom
        (three results of one person, or two each of two), or all repeats equal, which
        says that figures were rounded and not that there is no noise.

    Raises:
        FieldError: a result that is not 0.001 to 50 000 N.
    """
    repeated = [checked_forces(scores) for scores in scores_n if len(scores) > 1]
    tests = sum(map(len, repeated))
    df = tests - len(repeated)
    if df < LEAST_DF or all(min(scores) == max(scores) for scores in repeated):
        return None
    error_n = math.sqrt(sum(map(_squares, repeated)) / df)
    logs = [[math.log(score) for score in scores] for scores in repeated]
    error_pct = 100 * math.expm1(math.sqrt(sum(map(_squares, logs)) / df))
    return Noise(
        whose=whose,
        typical_error_n=error_n,
        typical_error_pct=error_pct,
        mdc95_n=Z95 * math.sqrt(2) * error_n,
        mdc95_pct=Z95 * math.sqrt(2) * error_pct,
        people=len(repeated),
        tests=tests,
        degrees_of_freedom=df,
        typical_error_interval_n=sd_interval(error_n, df=df),
    )


def sd_interval(sd: float, *, df: float, level: float = 0.95) -> tuple[float, float]:
    """The interval of a standard deviation, by chi-square with `df`."""
    from scipy import special  # noqa: PLC0415  no live set asks, and each start would pay

    tail = (1 - level) / 2
    # chdtri(df, p): the value that chi-square exceeds with probability p.
    upper, lower = special.chdtri(df, tail), special.chdtri(df, 1 - tail)
    return sd * math.sqrt(df / upper), sd * math.sqrt(df / lower)


def band_around(baseline_n: Sequence[float], noise: Noise) -> tuple[float, float]:
    """Where a new result is expected while nothing has changed.

    The mean of the n earlier results ± 1.96 · typical error · √(1 + 1/n): both the
    new result and the mean have noise. With n = 1 this is the minimal detectable
    change.

    Raises:
        FieldError: no earlier result, or one that is not 0.001 to 50 000 N.
    """
    if not baseline_n:
        raise FieldError("baseline_n", phrase("has no earlier result."))
    forces_n = checked_forces(baseline_n)
    middle_n = math.fsum(forces_n) / len(forces_n)
    half_n = Z95 * noise.typical_error_n * math.sqrt(1 + 1 / len(forces_n))
    return middle_n - half_n, middle_n + half_n


def judge(new_n: float, baseline_n: Sequence[float], noise: Noise | None) -> Change:
    """What may be said of a new result against earlier ones.

    Unknown without an earlier result or without a noise. The edges of the band count
    as within.

    Raises:
        FieldError: a result that is not 0.001 to 50 000 N.
    """
    checked_forces([new_n])
    if noise is None or not baseline_n:
        return Change.UNKNOWN
    lower_n, upper_n = band_around(baseline_n, noise)
    if new_n > upper_n:
        return Change.MORE
    return Change.LESS if new_n < lower_n else Change.WITHIN


def checked_forces(scores_n: Sequence[float]) -> list[float]:
    """The same forces.

    Raises:
        FieldError: one is not 0.001 to 50 000 N.
    """
    for score_n in scores_n:
        if not LEAST_N <= score_n <= FORCE_MAX_N:
            raise FieldError(
                "scores_n",
                phrase(
                    "{score_n:g} N is no result; one is {least_n:g} to "
                    "{force_max_n:g} N.",
                    score_n=score_n,
                    least_n=LEAST_N,
                    force_max_n=FORCE_MAX_N,
                ),
            )
    return [float(score_n) for score_n in scores_n]


def _squares(values: Sequence[float]) -> float:
    """Sum of squared distances from the mean."""
    middle = math.fsum(values) / len(values)
    return math.fsum((value - middle) ** 2 for value in values)
