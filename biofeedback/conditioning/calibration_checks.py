"""What speaks against a calibration: points, fit and range are looked at in turn.

The limits are our own choices, each with its reason beside it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.calibration_findings import (
    Finding,
    FindingKind,
    Severity,
)
from biofeedback.conditioning.f_test import f_tail
from biofeedback.phrase import phrase

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
"""A slope that chance gives more often than this is none."""


def check_points(points: Sequence[CalibrationPoint]) -> tuple[Finding, ...]:
    """What can be said before any fit."""
    findings = []
    loads = {point.force_n for point in points} - {0.0}
    if len(loads) < LOADS_ADVISED:
        findings.append(
            Finding(
                FindingKind.FEW_LOADS,
                Severity.WARNING,
                phrase(
                    "Only {loads} different loads beside the empty rig: the "
                    "shape of the curve is little known.",
                    loads=len(loads),
                ),
                phrase(
                    "Take {loads_advised} or more, evenly spread.",
                    loads_advised=LOADS_ADVISED,
                ),
            )
        )
    if all(point.force_n != 0 for point in points):
        findings.append(
            Finding(
                FindingKind.EMPTY_RIG_MISSING,
                Severity.WARNING,
                phrase("There is no reading of the empty rig."),
                phrase("Begin and end each run without a load."),
            )
        )
    return tuple(findings)


def check_fit(
    fit: CalibrationFit, *, residual_limit_pct: float = RESIDUAL_LIMIT_PCT
) -> tuple[Finding, ...]:
    """What the fit itself tells: no answer, sign, shape, residuals."""
    if _chance_of_slope(fit) > ANSWER_P or not _span_counts(fit):
        return (
            Finding(
                FindingKind.NO_ANSWER,
                Severity.REFUSED,
                phrase("The counts do not follow the load."),
                phrase(
                    "Check that the load hangs on this cell and that it is connected."
                ),
            ),
        )
    findings = []
    slopes = fit.slope([min(0.0, fit.from_n), max(0.0, fit.to_n)])
    if slopes[0] * slopes[1] <= 0:
        findings.append(
            Finding(
                FindingKind.CURVE_TURNS_BACK,
                Severity.REFUSED,
                phrase(
                    "The curve turns back within the range, so that two forces "
                    "would give the same counts."
                ),
                phrase("Check the points, or fit a line."),
            )
        )
    elif slopes[0] < 0:
        findings.append(
            Finding(
                FindingKind.REVERSED_POLARITY,
                Severity.WARNING,
                phrase(
                    "The counts fall as the load grows: the signal wires of "
                    "this cell are reversed, or it is pulled where it should "
                    "be pushed."
                ),
                phrase(
                    "The calibration turns the sign. Swap the wires only "
                    "together with a new calibration."
                ),
            )
        )
    findings += _check_residuals(fit, residual_limit_pct)
    return tuple(findings)


def _span_counts(fit: CalibrationFit) -> float:
    """How far the fitted counts reach from no load to the largest one.

    0 where they do not move, or by less than a number can hold.
    """
    ends = fit.indication([min(0.0, fit.from_n), max(0.0, fit.to_n)])
    return abs(float(ends[1] - ends[0]))


def _chance_of_slope(fit: CalibrationFit) -> float:
    if math.isinf(fit.f):
        return 0.0
    return f_tail(fit.f, df=fit.degree, residual_df=fit.residual_df)


def _check_residuals(fit: CalibrationFit, limit_pct: float) -> list[Finding]:
    findings = []
    share_pct = 100 * np.abs(fit.residuals_counts) / _span_counts(fit)
    worst = int(np.argmax(share_pct))
    if share_pct[worst] > limit_pct:
        point = fit.fitted_points[worst]
        findings.append(
            Finding(
                FindingKind.POOR_FIT,
                Severity.REFUSED,
                phrase(
                    "The reading at {force_n:.4g} N ({direction}, run {run}) "
                    "lies {share_pct:.2g} % of the span off the curve; the "
                    "limit is {limit_pct:g} %.",
                    force_n=point.force_n,
                    direction=point.direction.value,
                    run=point.run,
                    share_pct=share_pct[worst],
                    limit_pct=limit_pct,
                ),
                phrase(
                    "Check that mass and what was entered, and that nothing touched it."
                ),
            )
        )
    test = fit.lack_of_fit
    if test is not None and not test.accepted:
        findings.append(
            Finding(
                FindingKind.LACK_OF_FIT,
                Severity.WARNING,
                phrase(
                    "The {fitted} misses the loads by more than the readings "
                    "scatter (F = {f:.4g}, p = {p_value:.2g}).",
                    fitted=phrase("line") if fit.degree == 1 else phrase("curve"),
                    f=test.f,
                    p_value=test.p_value,
                ),
                phrase("Fit degree 2.")
                if fit.degree == 1
                else phrase("Look at the residuals."),
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
                phrase(
                    "The loads cover {span_n:.4g} N; the rig is to show "
                    "{intended_n:.4g} N.",
                    span_n=span_n,
                    intended_n=intended_n,
                ),
                phrase(
                    "Use loads from the empty rig to near the largest force intended."
                ),
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
            phrase(
                "{force_n:.4g} N lies above the largest load, {to_n:.4g} N: "
                "what the rig shows there is carried on from below, not "
                "calibrated.",
                force_n=force_n,
                to_n=fit.to_n,
            ),
            phrase(
                "A curve of degree 2 must not be carried so far; fit a line or "
                "add loads."
            )
            if refused
            else phrase("Add a larger load."),
        ),
    )
