"""Correlation: how closely two numbers of the same people go together.

It is no agreement: two scales that always differ by half correlate perfectly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy import special

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
    x, y = first - first.mean(), second - second.mean()
    below = math.sqrt(float(x @ x)) * math.sqrt(float(y @ y))
    if not varies(first) or not varies(second) or below == 0:
        return None
    r = float(x @ y) / below
    if 1 - abs(r) < ROUNDING:
        r = math.copysign(1.0, r)
    return Correlation(r, fisher_interval(r, len(x)), _student_p(r, len(x)))


def fisher_interval(
    r: float, people: int, *, level: float = 0.95
) -> tuple[float, float] | None:
    """The interval of r: tanh(atanh r ± z/√(n − 3)) (Fisher, Metron 1 (1921) 3-32)."""
    if people < LEAST_FISHER or abs(r) >= 1:
        return None
    half = float(special.ndtri((1 + level) / 2)) / math.sqrt(people - 3)
    middle = math.atanh(r)
    return math.tanh(middle - half), math.tanh(middle + half)


def _student_p(r: float, people: int) -> float:
    if abs(r) >= 1:
        return 0.0
    t = abs(r) * math.sqrt((people - 2) / (1 - r * r))
    return 2 * float(special.stdtr(people - 2, -t))


def varies(values: Floats, *, size: float = 0.0) -> bool:
    """Whether they differ by more than rounding, of themselves or of `size`."""
    largest = max(size, float(np.abs(values).max(initial=0.0)))
    rounding = 8 * float(np.finfo(np.float64).eps) * largest
    return len(values) > 0 and float(np.ptp(values)) > rounding
