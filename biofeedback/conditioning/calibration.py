"""A calibration put together: points in; fit, newtons and findings out.

The profile keeps counts → newtons as a polynomial of degree 1 or 2, in each
recording, for ever. A line inverts into it exactly. The inverse of a quadratic is
no polynomial; it is replaced by the quadratic that meets it at three Chebyshev
nodes, and the largest error of that over the range is stated: a fraction
2·ε²/32 of the range for a cell whose curvature bends the end by ε, which is 3e-7
of full scale for 0.3 % and lost in the noise of any cell.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.polynomial import Chebyshev, Polynomial
from scipy import stats

from biofeedback.conditioning.calibration_degree import ChosenFit, choose_fit
from biofeedback.conditioning.calibration_findings import (
    RefusedCalibrationError,
    Finding,
    FindingKind,
    Severity,
)
from biofeedback.conditioning.calibration_fit import fit_points
from biofeedback.conditioning.profile import Calibration

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_points import CalibrationPoint

RESIDUAL_LIMIT_PCT = 1.0
"""Largest residual in % of the span of the readings. A mass typed wrong by one
plate is far above, a sound cell far below (our own choice)."""
LOADS_ADVISED = 5
"""ISO 7500-1 takes five levels; fewer leave the shape of the curve unseen."""
SPAN_ADVISED = 0.8
SPAN_LEAST = 0.2
"""Share of the largest force intended that the loads should, and must, cover."""
CURVE_BEYOND = 1.25
"""How far past its largest load a curve of degree 2 may be carried."""
ANSWER_P = 0.01
INVERSE_SHARE = 0.3
"""The polynomial inverse may be off by this share of the residual scatter."""


@dataclass(frozen=True, slots=True)
class Conversion:
    """Counts to newtons, ready for a profile.

    Attributes:
        largest_error_n: how far the polynomial is off the exact inverse of the
            fit, at most, between `from_n` and `to_n`; 0 for a line.
    """

    calibration: Calibration
    from_n: float
    to_n: float
    largest_error_n: float


@dataclass(frozen=True, slots=True)
class CalibrationOutcome:
    """All that came out of a set of points.

    Attributes:
        chosen: the fit and why it has its degree; None where none was possible.
        conversion: None where the calibration is refused.
        findings: refusals first.
    """

    chosen: ChosenFit | None
    conversion: Conversion | None
    findings: tuple[Finding, ...]

    @property
    def refused(self) -> bool:
        """Whether this calibration must not be used."""
        return any(finding.refused for finding in self.findings)


def calibrate(
    points: Sequence[CalibrationPoint],
    *,
    degree: int | None = None,
    through_zero: bool = False,
    intended_n: float | None = None,
    residual_limit_pct: float = RESIDUAL_LIMIT_PCT,
    label: str = "",
    date: str = "",
) -> CalibrationOutcome:
    """From points to a calibration, or to the reasons against one.

    Args:
        degree: 1 or 2, or None to let the points choose.
        through_zero: make the curve pass through the empty rig's reading.
        intended_n: largest force that the rig is to show; None where unknown.
        residual_limit_pct: a residual above this share of the span refuses.
        label: number or name of the calibration record.
        date: ISO date.
    """
    try:
        chosen = (
            choose_fit(points, through_zero=through_zero)
            if degree is None
            else ChosenFit(
                fit_points(points, degree=degree, through_zero=through_zero),
                f"Degree {degree}, as asked.",
            )
        )
    except RefusedCalibrationError as refusal:
        return CalibrationOutcome(None, None, (refusal.finding,))
    fit = chosen.fit
    findings = [
        *check_points(points),
        *check_fit(fit, residual_limit_pct=residual_limit_pct),
        *(() if intended_n is None else check_range(fit, intended_n=intended_n)),
    ]
    conversion = None
    if not any(finding.refused for finding in findings):
        conversion = to_newtons(fit, label=label, date=date)
        findings += _check_inverse(fit, conversion)
    findings.sort(key=lambda finding: not finding.refused)
    return CalibrationOutcome(chosen, conversion, tuple(findings))


def to_newtons(fit: CalibrationFit, *, label: str = "", date: str = "") -> Conversion:
    """The polynomial counts → newtons of a fit, from the empty rig to its largest.

    Args:
        fit: a curve that does not turn back within its range.
    """
    from_n, to_n = min(0.0, fit.from_n), max(0.0, fit.to_n)
    b0, b1 = fit.coefficients[:2]
    if fit.degree == 1:
        exact = Calibration((-b0 / b1, 1 / b1), label, date)
        return Conversion(exact, from_n, to_n, 0.0)
    ends = np.sort(fit.indication([from_n, to_n]))
    near = Chebyshev.interpolate(fit.force_n, 2, domain=ends)
    polynomial = near.convert(kind=Polynomial, domain=[-1, 1], window=[-1, 1])
    forces = np.linspace(from_n, to_n, 1001)
    error = np.abs(polynomial(fit.indication(forces)) - forces)
    calibration = Calibration(tuple(polynomial.coef.tolist()), label, date)
    return Conversion(calibration, from_n, to_n, float(error.max()))


def check_points(points: Sequence[CalibrationPoint]) -> tuple[Finding, ...]:
    """What can be said before any fit."""
    findings = []
    loads = {point.force_n for point in points} - {0.0}
    if len(loads) < LOADS_ADVISED:
        findings.append(
            Finding(
                FindingKind.FEW_LOADS,
                Severity.WARNING,
                f"Only {len(loads)} different loads: the shape of the curve is little "
                "known.",
                f"Take {LOADS_ADVISED} or more, evenly spread.",
            )
        )
    if all(point.force_n != 0 for point in points):
        findings.append(
            Finding(
                FindingKind.EMPTY_RIG_MISSING,
                Severity.WARNING,
                "There is no reading of the empty rig.",
                "Begin and end each run without a load.",
            )
        )
    return tuple(findings)


def check_fit(
    fit: CalibrationFit, *, residual_limit_pct: float = RESIDUAL_LIMIT_PCT
) -> tuple[Finding, ...]:
    """What the fit itself tells: no answer, sign, shape, residuals."""
    if _chance_of_slope(fit) > ANSWER_P:
        return (
            Finding(
                FindingKind.NO_ANSWER,
                Severity.REFUSED,
                "The counts do not follow the load.",
                "Check that the load hangs on this cell and that it is connected.",
            ),
        )
    findings = []
    slopes = fit.slope([min(0.0, fit.from_n), max(0.0, fit.to_n)])
    if slopes[0] * slopes[1] <= 0:
        findings.append(
            Finding(
                FindingKind.CURVE_TURNS_BACK,
                Severity.REFUSED,
                "The curve turns back within the range, so that two forces would give "
                "the same counts.",
                "Check the points, or fit a line.",
            )
        )
    elif slopes[0] < 0:
        findings.append(
            Finding(
                FindingKind.REVERSED_POLARITY,
                Severity.WARNING,
                "The counts fall as the load grows: the signal wires of this cell are "
                "reversed, or it is pulled where it should be pushed.",
                "The calibration turns the sign. Swap the wires only together with a "
                "new calibration.",
            )
        )
    findings += _check_residuals(fit, residual_limit_pct)
    return tuple(findings)


def _chance_of_slope(fit: CalibrationFit) -> float:
    if math.isinf(fit.f):
        return 0.0
    return float(stats.f.sf(fit.f, fit.degree, fit.residual_df))


def _check_residuals(fit: CalibrationFit, limit_pct: float) -> list[Finding]:
    findings = []
    ends = fit.indication([min(0.0, fit.from_n), max(0.0, fit.to_n)])
    share_pct = 100 * np.abs(fit.residuals_counts) / abs(float(ends[1] - ends[0]))
    worst = int(np.argmax(share_pct))
    if share_pct[worst] > limit_pct:
        point = fit.fitted_points[worst]
        findings.append(
            Finding(
                FindingKind.POOR_FIT,
                Severity.REFUSED,
                f"The reading at {point.force_n:.4g} N ({point.direction.value}, run "
                f"{point.run}) lies {share_pct[worst]:.2g} % of the span off the "
                f"curve; the limit is {limit_pct:g} %.",
                "Check that mass and what was entered, and that nothing touched it.",
            )
        )
    test = fit.lack_of_fit
    if test is not None and not test.accepted:
        findings.append(
            Finding(
                FindingKind.LACK_OF_FIT,
                Severity.WARNING,
                f"The {'line' if fit.degree == 1 else 'curve'} misses the loads by "
                f"more than the readings scatter (F = {test.f:.4g}, p = "
                f"{test.p_value:.2g}).",
                "Fit degree 2." if fit.degree == 1 else "Look at the residuals.",
            )
        )
    return findings


def check_range(fit: CalibrationFit, *, intended_n: float) -> tuple[Finding, ...]:
    """Whether the loads reach as far as the rig is to be used."""
    span_n = max(0.0, fit.to_n) - min(point.force_n for point in fit.fitted_points)
    if fit.through_zero:
        span_n = fit.to_n
    findings = []
    if span_n < SPAN_ADVISED * intended_n:
        refused = span_n < SPAN_LEAST * intended_n
        findings.append(
            Finding(
                FindingKind.RANGE_NOT_COVERED,
                Severity.REFUSED if refused else Severity.WARNING,
                f"The loads cover {span_n:.4g} N; the rig is to show {intended_n:.4g} "
                "N.",
                "Use loads from the empty rig to near the largest force intended.",
            )
        )
    findings += check_extrapolation(fit, force_n=intended_n)
    return tuple(findings)


def check_extrapolation(fit: CalibrationFit, *, force_n: float) -> tuple[Finding, ...]:
    """Whether a force lies above the largest load."""
    if force_n <= fit.to_n:
        return ()
    refused = fit.degree == 2 and force_n > CURVE_BEYOND * fit.to_n
    return (
        Finding(
            FindingKind.EXTRAPOLATION,
            Severity.REFUSED if refused else Severity.WARNING,
            f"{force_n:.4g} N lies above the largest load, {fit.to_n:.4g} N: what the "
            "rig shows there is carried on from below, not calibrated.",
            "A curve of degree 2 must not be carried so far; fit a line or add loads."
            if refused
            else "Add a larger load.",
        ),
    )


def _check_inverse(fit: CalibrationFit, conversion: Conversion) -> tuple[Finding, ...]:
    scatter_n = fit.residual_sd_counts / abs(float(fit.slope(conversion.to_n)))
    if conversion.largest_error_n <= max(
        INVERSE_SHARE * scatter_n, 1e-5 * (conversion.to_n - conversion.from_n)
    ):
        return ()
    return (
        Finding(
            FindingKind.INVERSE_APPROXIMATE,
            Severity.WARNING,
            f"The stored polynomial is up to {conversion.largest_error_n:.2g} N off "
            "the exact inverse of the fit.",
            "The cell bends far more than a sound one; have it looked at.",
        ),
    )
