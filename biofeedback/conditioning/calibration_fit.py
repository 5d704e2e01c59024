"""The fit of a calibration: counts as a line or a quadratic in force.

* Counts are fitted on force, not force on counts. The masses are known far
  better than the readings, and ordinary least squares puts all error into what it
  fits (GUM annex H.3; the NIST Pontius data and ISO 376 go the same way). For use
  the fit is inverted, exactly.
* Forces are scaled to the largest before solving: on raw forces to 3e6 a
  quadratic keeps 6 to 10 digits, on scaled ones 12 to 15.
* Whether a line is enough is asked of the data: its lack of fit is held against
  the scatter of repeated readings (F test), or, where nothing was repeated,
  against the scatter that a quadratic leaves over. The words say which.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.conditioning.calibration_findings import (
    FindingKind,
    RefusedCalibrationError,
)
from biofeedback.conditioning.calibration_points import (
    counts,
    forces,
    runs,
    zero_counts,
)
from biofeedback.conditioning.f_test import f_tail
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.calibration_points import CalibrationPoint

    Floats: TypeAlias = npt.NDArray[np.float64]

SIGNIFICANCE = 0.05
"""A line is given up where its misfit would come by chance in fewer than 5 %."""

CONDITION_LEAST = 1e-7
"""Below this ratio in R, seven of sixteen digits are gone and the slope with them."""


@dataclass(frozen=True, slots=True)
class LackOfFit:
    """Misfit of a model against the scatter of readings at the same load.

    Attributes:
        f: mean square of the misfit over mean square of the pure error.
        df_lack: number of loads less number of parameters.
        df_pure: number of readings less number of loads.
        p_value: how often chance alone would give as much.
        pure_sd_counts: standard deviation of readings at the same load.
    """

    f: float
    df_lack: int
    df_pure: int
    p_value: float
    pure_sd_counts: float

    @property
    def accepted(self) -> bool:
        """Whether the model follows the readings as closely as they repeat."""
        return self.p_value >= SIGNIFICANCE


@dataclass(frozen=True, slots=True)
class CalibrationFit:
    """counts = b0 + b1·force + b2·force², by ordinary least squares.

    Attributes:
        coefficients: (b0, b1) or (b0, b1, b2) in counts, counts/N, counts/N².
        covariance: of the coefficients; a fit through zero holds b0 for exact.
        through_zero: whether the curve was made to pass through the reading of
            the empty rig; each run is then taken net of its own.
        residuals_counts: reading less curve, in the order of `fitted_points`.
        fitted_points: the points that were fitted.
        r2: share of the variation explained; about zero for a fit through zero.
        f: of the regression.
        lack_of_fit: None where nothing was repeated or no degree of freedom is
            left for it.
    """

    coefficients: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    through_zero: bool
    fitted_points: tuple[CalibrationPoint, ...]
    residuals_counts: tuple[float, ...]
    residual_sd_counts: float
    residual_df: int
    residual_ss: float
    regression_ss: float
    lack_of_fit: LackOfFit | None

    @property
    def degree(self) -> int:
        """1 for a line, 2 for a quadratic."""
        return len(self.coefficients) - 1

    @property
    def r2(self) -> float:
        """Share of the variation that the curve explains."""
        return self.regression_ss / (self.regression_ss + self.residual_ss)

    @property
    def f(self) -> float:
        """F of the regression; infinite where nothing is left over."""
        if self.residual_ss == 0:
            return float("inf")
        return self.regression_ss / self.degree / self.residual_sd_counts**2

    @property
    def standard_deviations(self) -> tuple[float, ...]:
        """Of each coefficient."""
        return tuple(float(np.sqrt(row[i])) for i, row in enumerate(self.covariance))

    @property
    def from_n(self) -> float:
        """The smallest force among the points."""
        return min(point.force_n for point in self.fitted_points)

    @property
    def to_n(self) -> float:
        """The largest force among the points; beyond it lies extrapolation."""
        return max(point.force_n for point in self.fitted_points)

    def indication(self, force_n: npt.ArrayLike) -> Floats:
        """Counts that the curve gives for a force."""
        force = np.asarray(force_n, dtype=np.float64)
        values = np.full_like(force, self.coefficients[-1])
        for coefficient in self.coefficients[-2::-1]:
            values = values * force + coefficient
        return values

    def slope(self, force_n: npt.ArrayLike) -> Floats:
        """Counts per newton at a force."""
        force = np.asarray(force_n, dtype=np.float64)
        curvature = self.coefficients[2] if self.degree == 2 else 0.0
        return self.coefficients[1] + 2 * curvature * force

    def force_n(self, indicated: npt.ArrayLike) -> Floats:
        """Force for counts: the exact inverse.

        The form 2d / (b1 ± √(b1² + 4·b2·d)) has no cancellation and turns into
        the line's for b2 = 0. NaN beyond the turning point of a quadratic.
        """
        above = np.asarray(indicated, dtype=np.float64) - self.coefficients[0]
        b1 = self.coefficients[1]
        b2 = self.coefficients[2] if self.degree == 2 else 0.0
        under_root = b1 * b1 + 4 * b2 * above
        root = np.sqrt(np.where(under_root >= 0, under_root, np.nan))
        return 2 * above / (b1 + np.copysign(root, b1))


def fit_points(
    points: Sequence[CalibrationPoint], *, degree: int, through_zero: bool = False
) -> CalibrationFit:
    """Least squares of counts on force.

    Rising and falling readings are fitted alike: the curve then runs through the
    middle of the hysteresis loop, as the rig is used in both directions. Give
    `rising(points)` for the way of ISO 376.

    Args:
        degree: 1 or 2.
        through_zero: make the curve pass through the empty rig's reading; each
            run needs one. Where no run has one, counts of 0 are taken for it.

    Raises:
        FieldError: another degree.
        RefusedCalibrationError: the points cannot say what the curve is, or how well
            it fits.
    """
    if degree not in (1, 2):
        raise FieldError(
            "degree", phrase("is {degree}; it must be 1 or 2.", degree=degree)
        )
    used, net, zero = _net_of_zero(points) if through_zero else _as_read(points)
    force = forces(used)
    powers = np.arange(1 if through_zero else 0, degree + 1)
    spread = net if through_zero else net - net.mean()
    _refuse_too_few(force, spread, degree=degree, through_zero=through_zero)
    scale = float(np.max(np.abs(force)))
    design = (force[:, None] / scale) ** powers
    scaled, inverse = _solve(design, net)
    residuals = net - design @ scaled
    df = len(used) - len(powers)
    residual_ss = float(residuals @ residuals)
    unscale = scale ** -powers.astype(np.float64)
    covariance = np.zeros((degree + 1, degree + 1))
    block = slice(int(powers[0]), None)
    covariance[block, block] = inverse * np.outer(unscale, unscale) * residual_ss / df
    coefficients = [zero] if through_zero else []
    return CalibrationFit(
        coefficients=tuple(coefficients + (scaled * unscale).tolist()),
        covariance=tuple(tuple(row) for row in covariance.tolist()),
        through_zero=through_zero,
        fitted_points=used,
        residuals_counts=tuple(residuals.tolist()),
        residual_sd_counts=float(np.sqrt(residual_ss / df)),
        residual_df=df,
        residual_ss=residual_ss,
        regression_ss=float(spread @ spread) - residual_ss,
        lack_of_fit=lack_of_fit(
            force, net, fitted=design @ scaled, parameters=len(powers)
        ),
    )


def _solve(design: Floats, indicated: Floats) -> tuple[Floats, Floats]:
    """Coefficients and (XᵀX)⁻¹ by QR, which does not square the condition."""
    q, r = np.linalg.qr(design)
    diagonal = np.abs(np.diag(r))
    if diagonal.min() < CONDITION_LEAST * diagonal.max():
        raise RefusedCalibrationError(
            FindingKind.LOADS_TOO_CLOSE,
            phrase("The loads lie so close together that they give no slope."),
            phrase("Spread them from the empty rig to the largest force intended."),
        )
    inverse_r = np.linalg.inv(r)
    return np.linalg.solve(r, q.T @ indicated), inverse_r @ inverse_r.T


def _refuse_too_few(
    force: Floats, spread: Floats, *, degree: int, through_zero: bool
) -> None:
    loads = len(np.unique(force))
    needed = degree + (1 if through_zero else 2)
    if loads < needed:
        model = phrase("line") if degree == 1 else phrase("curve of degree 2")
        under = (
            phrase("loads besides the empty rig") if through_zero else phrase("loads")
        )
        raise RefusedCalibrationError(
            FindingKind.TOO_FEW_LOADS,
            phrase(
                "{loads} different {under} are too few for a {model}; it needs "
                "{needed}, because a curve that meets each point shows nothing of how "
                "well it fits.",
                loads=loads,
                under=under,
                model=model,
                needed=needed,
            ),
            phrase("Add loads; the empty rig counts as one.")
            if not through_zero
            else phrase("Add loads."),
        )
    if not spread.any():
        raise RefusedCalibrationError(
            FindingKind.NO_ANSWER,
            phrase("The counts are the same at all loads."),
            phrase(
                "Check that the load hangs on this cell and that the cell is connected."
            ),
        )


def _as_read(
    points: Sequence[CalibrationPoint],
) -> tuple[tuple[CalibrationPoint, ...], Floats, float]:
    return tuple(points), counts(points), 0.0


def _net_of_zero(
    points: Sequence[CalibrationPoint],
) -> tuple[tuple[CalibrationPoint, ...], Floats, float]:
    """Points under load, their counts net of their run's zero, and the mean zero."""
    zeros = {number: zero_counts(run) for number, run in runs(points).items()}
    known = [zero for zero in zeros.values() if zero is not None]
    if known and len(known) < len(zeros):
        missing = next(number for number, zero in zeros.items() if zero is None)
        raise RefusedCalibrationError(
            FindingKind.EMPTY_RIG_MISSING,
            phrase("Run {missing} has no reading of the empty rig.", missing=missing),
            phrase("A fit through zero needs one in each run."),
        )
    used = tuple(point for point in points if point.force_n != 0)
    own = np.array([zeros[point.run] or 0.0 for point in used])
    return used, counts(used) - own, float(np.mean(known)) if known else 0.0


def lack_of_fit(
    force_n: Floats, indicated: Floats, *, fitted: Floats, parameters: int
) -> LackOfFit | None:
    """The lack-of-fit F test, pure error taken from readings at the same load.

    F = [Σ nᵢ(ȳᵢ − ŷᵢ)² / (loads − parameters)] / [Σ(y − ȳᵢ)² / (n − loads)], see
    for example Draper and Smith, *Applied Regression Analysis*, chapter 2.

    Returns:
        None where no load was repeated, repeats were equal to the last count, or
        there are no more loads than parameters.
    """
    loads, group = np.unique(force_n, return_inverse=True)
    size = np.bincount(group)
    mean = np.bincount(group, weights=indicated) / size
    df_lack, df_pure = len(loads) - parameters, len(force_n) - len(loads)
    pure_ss = float(np.sum((indicated - mean[group]) ** 2))
    if df_lack < 1 or df_pure < 1 or pure_ss == 0:
        return None
    curve = np.bincount(group, weights=fitted) / size
    lack_ss = float(np.sum(size * (mean - curve) ** 2))
    f = (lack_ss / df_lack) / (pure_ss / df_pure)
    return LackOfFit(
        f=f,
        df_lack=df_lack,
        df_pure=df_pure,
        p_value=f_tail(f, df=df_lack, residual_df=df_pure),
        pure_sd_counts=float(np.sqrt(pure_ss / df_pure)),
    )
