"""The noise of something that is followed from visit to visit and may slowly change.

A spread about the mean of all visits would take training for noise. So neighbouring
visits are compared: the typical error is √(Σd² / 2(n − 1)) of the n − 1 differences d
(von Neumann and others, Ann Math Stat 12 (1941) 153, the mean square successive
difference), which a slow change makes hardly larger. From change scores between two
visits it is the typical error of Hopkins, Sports Med 30 (2000) 1-15.

Neighbouring differences share a visit, so n − 1 of them are worth fewer degrees of
freedom: `successive_df`. The interval of the typical error is by chi-square with those.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from biofeedback.measures.change import (
    Z95,
    Noise,
    Whose,
    checked_forces,
    sd_interval,
    typical_error,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

LEAST_VISITS = 5
"""Of fewer the estimate itself is not known to a factor of two (a choice of ours)."""


@dataclass(frozen=True, slots=True)
class VisitNoise:
    """How much values differ between neighbouring visits; in the unit of the values.

    Attributes:
        mdc95: 1.96 √2 · typical error: between two single visits.
        visits: how many it was worked out from.
    """

    typical_error: float
    mdc95: float
    visits: int

    @property
    def degrees_of_freedom(self) -> float:
        """Of the typical error; no whole number."""
        return successive_df(self.visits)


def successive_df(visits: int) -> float:
    """Degrees of freedom of a typical error from n visits: 2 (n − 1)²/(3n − 4).

    Derived here. With the n values independent and normal of variance σ², Σd² is a
    quadratic form whose matrix is D'D, D the table of first differences. Its mean is
    σ² tr(D'D) = 2 (n − 1) σ² and its variance 2σ⁴ tr((D'D)²) = 2 (6n − 8) σ⁴. A
    chi-square scaled to both (Satterthwaite, Biometrics Bull 2 (1946) 110) has
    2 mean²/variance degrees of freedom. Of 5 visits 2.9, of 10 6.2, of many ⅔ (n − 1).
    """
    return 2 * (visits - 1) ** 2 / (3 * visits - 4)


def visit_noise(values: Sequence[float]) -> VisitNoise | None:
    """The noise of values in the order of their visits; None where it is not known.

    That is of fewer than `LEAST_VISITS`, or where all are equal, which says that they
    were rounded or cut at an end of their scale and not that there is no noise.
    """
    if len(values) < LEAST_VISITS:
        return None
    squares = math.fsum((later - earlier) ** 2 for earlier, later in pairwise(values))
    error = math.sqrt(squares / (2 * (len(values) - 1)))
    if error == 0:
        return None
    return VisitNoise(error, Z95 * math.sqrt(2) * error, len(values))


def own_noise(results_n: Sequence[float]) -> Noise | None:
    """The noise of one athlete's test, in newtons and by logarithms in %.

    From five visits on it is worked out from neighbouring ones, or training would be
    taken for noise; of three or four from their spread, in which a change makes it
    larger, never smaller.

    Args:
        results_n: one of each visit, in the order of the visits.

    Returns:
        None where it cannot be told yet.

    Raises:
        FieldError: a result that is not 0.001 to 50 000 N.
    """
    checked_forces(results_n)
    found = visit_noise(results_n)
    by_logs = visit_noise([math.log(force_n) for force_n in results_n])
    if found is None or by_logs is None:
        return typical_error([results_n], whose=Whose.OWN)
    error_pct = 100 * math.expm1(by_logs.typical_error)
    df = found.degrees_of_freedom
    return Noise(
        whose=Whose.OWN,
        typical_error_n=found.typical_error,
        typical_error_pct=error_pct,
        mdc95_n=found.mdc95,
        mdc95_pct=Z95 * math.sqrt(2) * error_pct,
        people=1,
        tests=found.visits,
        degrees_of_freedom=df,
        typical_error_interval_n=sd_interval(found.typical_error, df=df),
    )
