"""Agreement of two measurements of the same people, and repeatability of one.

* Bias and limits of agreement follow Bland and Altman, Lancet i (1986) 307-310, with
  1.96 SD where that paper has 2.
* The limits are estimates and have intervals: the simple one of 1986, the finer one
  of Bland and Altman, Stat Methods Med Res 8 (1999) 135-160, and the exact one by the
  noncentral t distribution (Carkeet, Optom Vis Sci 92 (2015) e71-80), which is not
  symmetric. With few people the exact one is the one to read.
* The limits are for differences that lie about evenly around their mean and do not
  grow with the level; `level_difference` looks at the latter.
* Agreement is no correlation: two scales that always differ by half agree badly and
  correlate perfectly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.measures.change import Z95
from biofeedback.measures.uncertainty import coverage_factor
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Agreement:
    """Differences of two measurements, in their unit.

    Attributes:
        people: pairs, n.
        bias: mean difference.
        sd: of the differences, with n − 1.
        level: confidence of all intervals.
    """

    people: int
    bias: float
    sd: float
    level: float

    @property
    def limits(self) -> tuple[float, float]:
        """Bias ± 1.96 SD: where nineteen of twenty differences lie."""
        return self.bias - Z95 * self.sd, self.bias + Z95 * self.sd

    @property
    def bias_interval(self) -> tuple[float, float]:
        """Of the bias, by Student's t."""
        return _around(self.bias, self._t * self.sd / math.sqrt(self.people))

    @property
    def simple_intervals(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Of the lower and the upper limit, by √(3/n) SD (1986)."""
        half = self._t * self.sd * math.sqrt(3 / self.people)
        return _around(self.limits[0], half), _around(self.limits[1], half)

    @property
    def finer_intervals(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Of both limits, by √(1/n + 1.96²/(2(n − 1))) SD (1999)."""
        n = self.people
        half = self._t * self.sd * math.sqrt(1 / n + Z95**2 / (2 * (n - 1)))
        return _around(self.limits[0], half), _around(self.limits[1], half)

    @property
    def exact_intervals(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Of both limits, by the noncentral t distribution; the outer part is longer.

        With t of n − 1 degrees of freedom and noncentrality 1.96 √n, the upper limit
        lies between bias + SD · t/√n at the two tails of t; the lower one mirrors it.
        """
        from scipy import special  # noqa: PLC0415  no start of the window needs it

        root = math.sqrt(self.people)
        tail = (1 - self.level) / 2
        near, far = (
            float(special.nctdtrit(self.people - 1, Z95 * root, p)) / root
            for p in (tail, 1 - tail)
        )
        lower = (self.bias - far * self.sd, self.bias - near * self.sd)
        return lower, (self.bias + near * self.sd, self.bias + far * self.sd)

    @property
    def _t(self) -> float:
        return coverage_factor(self.people - 1, level=self.level)


def agreement(differences: npt.ArrayLike, *, level: float = 0.95) -> Agreement:
    """Bias and limits of agreement.

    Args:
        differences: one of each person, first less second; shape (n,), at least 3.
            Several of one person are to be averaged before.
        level: confidence of the intervals.

    Raises:
        FieldError: fewer than three differences, or one that is not a number.
    """
    apart = np.asarray(differences, dtype=np.float64)
    if apart.ndim != 1 or len(apart) < 3 or not np.isfinite(apart).all():
        raise FieldError("differences", phrase("must be three numbers or more."))
    return Agreement(
        len(apart), float(np.mean(apart)), float(np.std(apart, ddof=1)), level
    )


@dataclass(frozen=True, slots=True)
class Repeatability:
    """How far two readings of one person are apart when nothing has changed.

    Attributes:
        within_sd: s_w, root of the within-person mean square; a change common to
            all is part of it.
        degrees_of_freedom: readings less people.
    """

    within_sd: float
    degrees_of_freedom: int

    @property
    def coefficient(self) -> float:
        """1.96 √2 s_w: nineteen of twenty pairs of readings are nearer."""
        return Z95 * math.sqrt(2) * self.within_sd


def repeatability(readings: npt.ArrayLike) -> Repeatability | None:
    """The repeatability coefficient (Bland and Altman 1999).

    For two readings √2 s_w is the root mean square of their differences; Bland and
    Altman 1986 took 2 where 1.96 stands here.

    Args:
        readings: shape (people, readings), NaN where one is missing.

    Returns:
        None where nobody has two readings.
    """
    table = np.asarray(readings, dtype=np.float64)
    table = table[np.isfinite(table).sum(axis=1) > 1]
    df = int(np.isfinite(table).sum()) - len(table)
    if df < 1:
        return None
    apart = table - np.nanmean(table, axis=1, keepdims=True)
    return Repeatability(math.sqrt(float(np.nansum(apart**2)) / df), df)


def _around(middle: float, half: float) -> tuple[float, float]:
    return middle - half, middle + half
