"""Uncertainty: how far a force may be off, after the GUM (JCGM 100:2008).

A budget is a list of components; combining them gives one standard uncertainty
and its effective degrees of freedom, and from these follows the interval at a
level of confidence. What two forces share (the same weight, the same gravity)
must be given as correlation: it adds up in their sum and cancels in their
difference.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.calibration_fit import CalibrationFit

LEVEL = 0.95
"""Level of confidence where none is asked for."""


@dataclass(frozen=True, slots=True)
class Component:
    """One source of uncertainty.

    Attributes:
        name: what it is.
        u: standard uncertainty, in the unit of the result once multiplied by
            `sensitivity`.
        df: degrees of freedom; infinite where `u` is held for exact.
        sensitivity: change of the result for a unit change of this input.
    """

    name: str
    u: float
    df: float = math.inf
    sensitivity: float = 1.0

    def __post_init__(self) -> None:
        if not 0 <= self.u < math.inf:
            raise FieldError(self.name, phrase("an uncertainty must be 0 or more."))
        if not self.df > 0:
            raise FieldError(self.name, phrase("needs more than 0 degrees of freedom."))

    @property
    def share(self) -> float:
        """Its part of the result, signed: sensitivity times u."""
        return self.sensitivity * self.u

    @classmethod
    def rectangular(
        cls, name: str, half_width: float, *, reliable_to: float = 0.0
    ) -> Component:
        """Anywhere within ± `half_width` alike: a/√3 (GUM 4.3.7)."""
        return cls(name, half_width / math.sqrt(3), reliability_df(reliable_to))

    @classmethod
    def triangular(
        cls, name: str, half_width: float, *, reliable_to: float = 0.0
    ) -> Component:
        """Within ± `half_width`, the middle likeliest: a/√6 (GUM 4.3.9)."""
        return cls(name, half_width / math.sqrt(6), reliability_df(reliable_to))

    @classmethod
    def u_shaped(
        cls, name: str, half_width: float, *, reliable_to: float = 0.0
    ) -> Component:
        """Swings between ± `half_width`, the ends likeliest: a/√2."""
        return cls(name, half_width / math.sqrt(2), reliability_df(reliable_to))

    @classmethod
    def resolution(cls, name: str, step: float) -> Component:
        """Read in steps of `step`: step/√12 (GUM F.2.2.1)."""
        return cls(name, step / math.sqrt(12))

    @classmethod
    def repeated(cls, name: str, sd: float, *, n: int) -> Component:
        """Mean of `n` readings that scatter by `sd`: sd/√n, n − 1 (GUM 4.2.3)."""
        return cls(name, sd / math.sqrt(n), n - 1)


def reliability_df(reliable_to: float) -> float:
    """Degrees of freedom of a judged u that may itself be off by this share.

    ν ≈ ½ (Δu/u)⁻² (GUM G.4.2): 10 % → 50, 25 % → 8, 50 % → 2. 0 → infinite.
    """
    return math.inf if reliable_to == 0 else 0.5 / reliable_to**2


Correlations: TypeAlias = Mapping[tuple[str, str], float]
"""Correlation coefficients by the names of two components."""


@dataclass(frozen=True, slots=True)
class Combined:
    """A combined standard uncertainty.

    Attributes:
        u: u_c.
        df: effective degrees of freedom.
        components: what went in, for showing the budget.
    """

    u: float
    df: float
    components: tuple[Component, ...]


@dataclass(frozen=True, slots=True)
class Expanded:
    """An interval: the value lies within ± `expanded` at `level`.

    Attributes:
        k: coverage factor.
        df: degrees of freedom that k was taken for.
    """

    expanded: float
    k: float
    df: float
    level: float


def combine(
    components: Sequence[Component], correlations: Correlations | None = None
) -> Combined:
    """u_c of a budget: GUM eq. 10, with correlations eq. 16.

    Degrees of freedom by Welch and Satterthwaite (eq. G.2b). That formula holds
    for independent components; where two correlate, the smallest degrees of
    freedom of any that take part are used instead, which errs on the safe side.

    Raises:
        FieldError: a correlation of an unknown component, beyond ±1, or
            correlations that contradict each other.
    """
    parts = np.array([component.share for component in components])
    matrix = _matrix(components, correlations or {})
    variance = float(parts @ matrix @ parts)
    u = math.sqrt(max(variance, 0.0))
    if correlations:
        used = [c.df for c in components if c.share != 0]
        return Combined(u, min(used, default=math.inf), tuple(components))
    return Combined(u, effective_df(components), tuple(components))


def _matrix(
    components: Sequence[Component], correlations: Correlations
) -> np.typing.NDArray[np.float64]:
    index = {component.name: i for i, component in enumerate(components)}
    matrix = np.eye(len(components))
    if correlations and len(index) < len(components):
        raise FieldError("components", phrase("two have the same name."))
    for (first, second), r in correlations.items():
        if first not in index or second not in index or first == second:
            raise FieldError(
                "correlations",
                phrase(
                    "there is no pair {first}, {second}.", first=first, second=second
                ),
            )
        if not -1 <= r <= 1:
            raise FieldError(
                "correlations", phrase("{r:g} is not between −1 and 1.", r=r)
            )
        matrix[index[first], index[second]] = r
        matrix[index[second], index[first]] = r
    if correlations and np.linalg.eigvalsh(matrix)[0] < -1e-9:
        raise FieldError("correlations", phrase("contradict each other."))
    return matrix


def effective_df(components: Sequence[Component]) -> float:
    """ν_eff = u_c⁴ / Σ (uᵢ⁴/νᵢ), Welch–Satterthwaite, GUM eq. G.2b."""
    parts = [component.share**2 for component in components]
    below = sum(
        part**2 / component.df
        for part, component in zip(parts, components, strict=True)
    )
    return math.inf if below == 0 else sum(parts) ** 2 / below


def coverage_factor(df: float, *, level: float = LEVEL) -> float:
    """Two-sided t for `df` degrees of freedom; the normal's for infinite."""
    from scipy import special  # noqa: PLC0415  no live set asks, and each start would pay

    if math.isinf(df):
        return float(special.ndtri((1 + level) / 2))
    return float(special.stdtrit(df, (1 + level) / 2))


def expand(
    combined: Combined, *, level: float = LEVEL, truncate: bool = True
) -> Expanded:
    """U = k·u_c at a level of confidence (GUM G.4.1).

    Args:
        truncate: take ν_eff down to the next whole number, as the GUM's examples
            do; else t is taken for ν_eff as it is.
    """
    df = combined.df
    if truncate and not math.isinf(df):
        # A hair is added so that 9.999… from rounding stays 10.
        df = float(max(1, math.floor(df * (1 + 1e-12))))
    k = coverage_factor(df, level=level)
    return Expanded(k * combined.u, k, df, level)


@dataclass(frozen=True, slots=True)
class TwoCells:
    """Standard uncertainties of what two cells give together, in N."""

    sum_n: float
    difference_n: float


def two_cells(*, left_n: float, right_n: float, common_n: float) -> TwoCells:
    """Sum and difference of two cells that share part of their uncertainty.

    Args:
        left_n: what belongs to the left cell alone, one standard uncertainty.
        right_n: what belongs to the right cell alone.
        common_n: what both share and share fully, the same weight for example;
            twice in the sum, not at all in the difference.
    """
    own_n = math.hypot(left_n, right_n)
    return TwoCells(sum_n=math.hypot(own_n, 2 * common_n), difference_n=own_n)


@dataclass(frozen=True, slots=True)
class ForceReading:
    """A force read from a fit.

    Attributes:
        force_n: from the exact inverse, net of zero where one was given.
        from_fit_n: standard uncertainty from the curve itself.
        from_readings_n: from the counts of this reading, and of the zero.
        df: degrees of freedom of the curve's part.
    """

    force_n: float
    from_fit_n: float
    from_readings_n: float
    df: float

    @property
    def u_n(self) -> float:
        """Both parts together."""
        return math.hypot(self.from_fit_n, self.from_readings_n)

    def components(self) -> tuple[Component, Component]:
        """Both parts, ready for a budget."""
        return (
            Component(phrase("calibration curve"), self.from_fit_n, self.df),
            Component(phrase("noise of the reading"), self.from_readings_n),
        )


def read_force(
    fit: CalibrationFit,
    counts: float,
    *,
    u_counts: float,
    zero_counts: float | None = None,
    u_zero_counts: float = 0.0,
) -> ForceReading:
    """A force and its uncertainty from the covariance of the fit.

    With y = b0 + b1·x + b2·x² and c = (1, x, x²)/y′(x), the curve gives
    u² = cᵀ V c (GUM H.3 for a line). Net of zero, c is the difference of the two
    places, and the doubt in b0 nearly cancels.

    Args:
        u_counts: standard uncertainty of the reading: noise of one sample as it
            is shown, or of a mean.
        zero_counts: reading of the empty rig that is taken away; None for none.
        u_zero_counts: its standard uncertainty.
    """
    covariance = np.array(fit.covariance)
    force = float(fit.force_n(counts))
    slope = float(fit.slope(force))
    gradient = force ** np.arange(fit.degree + 1) / slope
    from_readings = u_counts / slope
    net = force
    if zero_counts is not None:
        zero = float(fit.force_n(zero_counts))
        zero_slope = float(fit.slope(zero))
        gradient = gradient - zero ** np.arange(fit.degree + 1) / zero_slope
        from_readings = math.hypot(from_readings, u_zero_counts / zero_slope)
        net -= zero
    return ForceReading(
        force_n=net,
        from_fit_n=math.sqrt(max(0.0, float(gradient @ covariance @ gradient))),
        from_readings_n=abs(from_readings),
        df=fit.residual_df,
    )
