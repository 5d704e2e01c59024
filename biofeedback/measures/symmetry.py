"""Symmetry: shares of two sides, never without the name of the formula.

Efforts of both sides at once are parts of one total and use (R − L)/(R + L).
Efforts done one side at a time use 100 (max − min)/max with the side named. The
two are never mixed in one trend.
"""

from __future__ import annotations

import math
import statistics
from typing import TYPE_CHECKING

from biofeedback.measures.visit_noise import visit_noise

if TYPE_CHECKING:
    from collections.abc import Sequence

SIMULTANEOUS_FORMULA = "100 (R − L)/(R + L)"
ONE_SIDE_FORMULA = "100 (max − min)/max"
Z95 = 1.96
LEAST_VISITS = 3


def share_pct(part: float, other: float) -> float | None:
    """100 · part / (part + other); None where the total is not positive."""
    total = part + other
    return 100 * part / total if total > 0 else None


def simultaneous_index_pct(left: float, right: float) -> float | None:
    """100 (R − L)/(R + L) of both sides working at once; + is right heavier."""
    total = left + right
    return 100 * (right - left) / total if total > 0 else None


def one_side_difference_pct(left: float, right: float) -> float | None:
    """100 (max − min)/max of efforts done one side at a time.

    It has no sign: whoever shows it names the weaker side.
    """
    most = max(left, right)
    return 100 * (most - min(left, right)) / most if most > 0 else None


def one_side_noise_pct(left_error_pct: float, right_error_pct: float) -> float:
    """Below this, a difference of one visit may be noise alone (95 %).

    Both sides' typical errors in %, taken as independent: their squares add up to
    that of the logarithm of the ratio, which is near the difference while it is small.
    Of 5 % each it is 13.9 %.
    """
    return Z95 * math.hypot(left_error_pct, right_error_pct)


def index_noise_pct(indices_pct: Sequence[float]) -> float | None:
    """Below this, an index of one visit may be noise alone (95 %).

    From how far the index of one athlete scatters from visit to visit; the noise of
    the two sides of one effort is not independent, so it is not put together of
    theirs. From five visits on neighbours are compared, so that a slow change is not
    taken for noise (see `visit_noise`); of fewer it is in the spread, which makes it
    larger, never smaller.

    Args:
        indices_pct: in the order of their visits.

    Returns:
        None of fewer than three visits, or where all are equal.
    """
    if len(indices_pct) < LEAST_VISITS:
        return None
    followed = visit_noise(indices_pct)
    if followed is not None:
        return Z95 * followed.typical_error
    return Z95 * statistics.stdev(indices_pct) or None
