"""Line or quadratic: the choice of degree, with its reason in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.conditioning.calibration_findings import RefusedCalibrationError
from biofeedback.conditioning.calibration_fit import SIGNIFICANCE, fit_points
from biofeedback.conditioning.f_test import f_tail
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_points import CalibrationPoint

ROUNDING = 1e-12
"""A misfit below this share of the span is rounding, not the cell."""


@dataclass(frozen=True, slots=True)
class ChosenFit:
    """A fit and why it has this degree."""

    fit: CalibrationFit
    words: str


def choose_fit(
    points: Sequence[CalibrationPoint], *, through_zero: bool = False
) -> ChosenFit:
    """The line, unless the points reject it and are enough for a quadratic.

    Raises:
        RefusedCalibrationError: too few points even for a line.
    """
    line = fit_points(points, degree=1, through_zero=through_zero)
    try:
        curve = fit_points(points, degree=2, through_zero=through_zero)
    except RefusedCalibrationError:
        return ChosenFit(
            line, phrase("A line: there are too few loads to ask for more.")
        )
    test = line.lack_of_fit
    if test is not None:
        figures = phrase(
            "lack of fit F = {f:.4g} ({df_lack} and {df_pure} "
            "degrees of freedom, p = {p_value:.2g}), judged by "
            "repeated readings",
            f=test.f,
            df_lack=test.df_lack,
            df_pure=test.df_pure,
            p_value=test.p_value,
        )
        if test.accepted:
            return ChosenFit(
                line, phrase("A line is enough: {figures}.", figures=figures)
            )
        return ChosenFit(
            curve,
            phrase("A line does not fit: {figures}; so degree 2.", figures=figures),
        )
    return _by_residuals(line, curve)


def _by_residuals(line: CalibrationFit, curve: CalibrationFit) -> ChosenFit:
    """Without repeats: F of the quadratic term against what it leaves over."""
    repeat = phrase(
        "No load gave two different readings to judge by; repeat the loads."
    )
    if line.residual_ss <= ROUNDING**2 * line.regression_ss:
        return ChosenFit(
            line,
            phrase("A line is enough: it meets all points. {repeat}", repeat=repeat),
        )
    if curve.residual_ss <= ROUNDING**2 * curve.regression_ss:
        return ChosenFit(
            curve, phrase("Degree 2: it meets all points. {repeat}", repeat=repeat)
        )
    gain_ss = line.residual_ss - curve.residual_ss
    f = gain_ss / (curve.residual_ss / curve.residual_df)
    p_value = f_tail(f, df=1, residual_df=curve.residual_df)
    figures = phrase(
        "the quadratic term, against the residuals it "
        "leaves, has F = {f:.4g} (1 and {residual_df} "
        "degrees of freedom, p = {p_value:.2g})",
        f=f,
        residual_df=curve.residual_df,
        p_value=p_value,
    )
    if p_value < SIGNIFICANCE:
        return ChosenFit(
            curve,
            phrase("Degree 2: {figures}. {repeat}", figures=figures, repeat=repeat),
        )
    return ChosenFit(
        line,
        phrase("A line is enough: {figures}. {repeat}", figures=figures, repeat=repeat),
    )
