"""The noise of something that is followed from visit to visit and may slowly change.

A spread about the mean of all visits would take training for noise. So neighbouring
visits are compared: the typical error is √(Σd² / 2(n − 1)) of the n − 1 differences d
(von Neumann and others, Ann Math Stat 12 (1941) 153, the mean square successive
difference), which a slow change makes hardly larger. From change scores between two
visits it is the typical error of Hopkins, Sports Med 30 (2000) 1-15.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from biofeedback.measures.change import Z95

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
