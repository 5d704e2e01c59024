"""Correlation: how closely two numbers of the same people go together.

It is no agreement: two scales that always differ by half correlate perfectly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.uncertainty import coverage_factor

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

LEAST_PEOPLE = 3
"""Two points always lie on a line."""
LEAST_FISHER = 4
"""Below it the standard error 1/√(n − 3) of Fisher's z does not exist."""
ROUNDING = 1e-13
"""An r nearer to one is one: points on a line come out a few last digits off."""


@dataclass(frozen=True, slots=True)
class Correlation:
    """Pearson's r.

    Attributes:
        interval: 95 %, by Fisher's z; None for fewer than four people or |r| = 1.
        p_value: of no correlation, by Student's t. The two may disagree by a hair.
    """

    r: float
    interval: tuple[float, float] | None
    p_value: float


def correlation(first: Floats, second: Floats) -> Correlation | None:
    """Pearson's r of two of shape (n,); None where one does not vary, or n < 3."""
    if len(first) < LEAST_PEOPLE:
        return None
    r = float(pearson(first, second))
    if math.isnan(r):
        return None
    return Correlation(r, fisher_interval(r, len(first)), _p(r, len(first)))


def pearson(first: Floats, second: Floats) -> Floats:
    """Pearson's r along the last axis; NaN where one of the two does not vary."""
    x = first - first.mean(axis=-1, keepdims=True)
    y = second - second.mean(axis=-1, keepdims=True)
    varied = varies(first) & varies(second)
    below = np.sqrt(np.sum(x * x, axis=-1)) * np.sqrt(np.sum(y * y, axis=-1))
    r = np.sum(x * y, axis=-1) / np.where(varied, below, np.nan)
    rounded: Floats = np.where(1 - np.abs(r) < ROUNDING, np.sign(r), r)
    return rounded


def fisher_interval(
    r: float, people: int, *, level: float = 0.95
) -> tuple[float, float] | None:
    """The interval of r: tanh(atanh r ± z/√(n − 3)) (Fisher, Metron 1 (1921) 3-32)."""
    if people < LEAST_FISHER or abs(r) >= 1:
        return None
    half = coverage_factor(math.inf, level=level) / math.sqrt(people - 3)
    middle = math.atanh(r)
    return math.tanh(middle - half), math.tanh(middle + half)


def _p(r: float, people: int) -> float:
    if abs(r) >= 1:
        return 0.0
    return student_p(abs(r) * math.sqrt((people - 2) / (1 - r * r)), people - 2)


def student_p(t: float, df: int) -> float:
    """How often chance alone would give a t as far from zero, on either side."""
    from scipy import special  # noqa: PLC0415  no start of the window needs it

    return 2 * float(special.stdtr(df, -abs(t)))


def varies(values: Floats, *, size: Floats | float = 0.0) -> npt.NDArray[np.bool_]:
    """Whether they differ along the last axis by more than rounding.

    Args:
        values: shape (..., n), n at least 1.
        size: of what they were worked out from, where that is larger.
    """
    largest = np.maximum(size, np.abs(values).max(axis=-1))
    apart = values.max(axis=-1) - values.min(axis=-1)
    return np.asarray(apart > 8 * np.finfo(np.float64).eps * largest)
