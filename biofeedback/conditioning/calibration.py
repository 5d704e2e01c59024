"""A calibration put together: points in; fit, newtons and findings out.

The profile keeps counts → newtons as a polynomial of degree 1 or 2, in each
recording, for ever. A line inverts into it exactly. The inverse of a quadratic is
no polynomial; it is replaced by the quadratic that meets it at three Chebyshev
nodes, and the largest error of that over the range is stated. For a cell that
leaves its end-point line by d of the span at mid scale it is about d² of the range:
1e-5 for the NIST cell (0.33 %), 2e-7 for a sound one (0.04 %), below any noise.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.polynomial import Chebyshev, Polynomial

from biofeedback.conditioning.calibration_checks import (
    RESIDUAL_LIMIT_PCT,
    check_fit,
    check_points,
    check_range,
)
from biofeedback.conditioning.calibration_degree import ChosenFit, choose_fit
from biofeedback.conditioning.calibration_findings import (
    Finding,
    FindingKind,
    RefusedCalibrationError,
    Severity,
)
from biofeedback.conditioning.calibration_fit import fit_points
from biofeedback.conditioning.profile import Calibration
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_points import CalibrationPoint

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
                phrase("Degree {degree}, as asked.", degree=degree),
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
            phrase(
                "The stored polynomial is up to "
                "{largest_error_n:.2g} N off the exact inverse of "
                "the fit.",
                largest_error_n=conversion.largest_error_n,
            ),
            phrase("The cell bends far more than a sound one; have it looked at."),
        ),
    )
