"""A calibration report as plain JSON values: for scripts, and for the record."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from biofeedback.conditioning.calibration_fit import CalibrationFit, LackOfFit
    from biofeedback.conditioning.calibration_quality import CycleQualities, Deviation
    from biofeedback.measures.calibration_budget import ForceUncertainty
    from biofeedback.measures.calibration_report import CalibrationReport


def to_json(found: CalibrationReport) -> dict[str, object]:
    """The whole report."""
    chosen, conversion = found.outcome.chosen, found.outcome.conversion
    return {
        "refused": found.outcome.refused,
        "gravity": found.asked.gravity_words or None,
        "findings": [
            {
                "kind": finding.kind.value,
                "severity": finding.severity.value,
                "words": finding.words,
                "next_step": finding.next_step,
            }
            for finding in found.outcome.findings
        ],
        "degree": chosen.fit.degree if chosen else None,
        "degree_words": chosen.words if chosen else None,
        "fit": _fit(found.fit),
        "line": _fit(found.line),
        "curve": _fit(found.curve),
        "calibration": conversion.calibration.to_json() if conversion else None,
        "from_n": conversion.from_n if conversion else None,
        "to_n": conversion.to_n if conversion else None,
        "inverse_error_n": conversion.largest_error_n if conversion else None,
        "cycles": {str(run): _cycle(each) for run, each in found.cycles.items()},
        "repeatability": _repeatability(found),
        "creep": _creep(found),
        "applied_force_pct": found.applied_pct,
        "resolution_n": found.resolution_n,
        "lower_limit_factor_n": found.lower_limit and found.lower_limit.factor_n,
        "classes": [
            {
                "standard": each.standard,
                "class": each.name,
                "from_n": each.from_n,
                "to_n": each.to_n,
                "words": each.words,
            }
            for each in found.classes
        ],
        "uncertainty": [_uncertainty(each) for each in found.uncertainties],
        "readings": [reading.to_json() for reading in found.readings],
    }


def _fit(fit: CalibrationFit | None) -> dict[str, object] | None:
    if fit is None:
        return None
    return {
        "degree": fit.degree,
        "coefficients": list(fit.coefficients),
        "standard_deviations": list(fit.standard_deviations),
        "covariance": [list(row) for row in fit.covariance],
        "through_zero": fit.through_zero,
        "residual_sd": fit.residual_sd_counts,
        "residual_df": fit.residual_df,
        "residual_ss": fit.residual_ss,
        "regression_ss": fit.regression_ss,
        "r2": fit.r2,
        "f": _finite(fit.f),
        "lack_of_fit": _test(fit.lack_of_fit),
        "residuals": [
            {
                "force_n": point.force_n,
                "direction": point.direction.value,
                "run": point.run,
                "counts": residual,
            }
            for point, residual in zip(
                fit.fitted_points, fit.residuals_counts, strict=True
            )
        ],
    }


def _test(test: LackOfFit | None) -> dict[str, object] | None:
    if test is None:
        return None
    return {
        "f": test.f,
        "df_lack": test.df_lack,
        "df_pure": test.df_pure,
        "p_value": test.p_value,
        "pure_sd": test.pure_sd_counts,
        "accepted": test.accepted,
    }


def _cycle(cycle: CycleQualities) -> dict[str, object]:
    return {
        "rated_output_counts": cycle.rated_output_counts,
        "nonlinearity": [
            {"reference_line": line.value, **_place(deviation)}
            for line, deviation in cycle.nonlinearity.items()
        ],
        "hysteresis": _deviation(cycle.hysteresis),
        "zero_return": _deviation(cycle.zero_return),
        "combined_error": _deviation(cycle.combined_error),
    }


def _deviation(deviation: Deviation | None) -> dict[str, object] | None:
    return None if deviation is None else _place(deviation)


def _place(deviation: Deviation) -> dict[str, object]:
    return {"pct": deviation.pct, "force_n": deviation.force_n}


def _repeatability(found: CalibrationReport) -> dict[str, object] | None:
    repeat = found.repeatability
    if repeat is None:
        return None
    return {
        "runs": repeat.runs,
        "net": _place(repeat.net),
        "gross": _place(repeat.gross),
    }


def _creep(found: CalibrationReport) -> dict[str, object] | None:
    creep = found.creep
    if creep is None:
        return None
    return {
        "pct": creep.pct,
        "force_n": creep.force_n,
        "from_s": creep.from_s,
        "to_s": creep.to_s,
    }


def _uncertainty(row: ForceUncertainty) -> dict[str, object]:
    return {
        "force_n": row.force_n,
        "u_n": row.budget.u,
        "expanded_k2_n": row.expanded_n,
        "degrees_of_freedom": _finite(row.df),
        "k_95": row.k_95,
        "components": [
            {"name": part.name, "u_n": abs(part.share), "df": _finite(part.df)}
            for part in row.budget.components
        ],
    }


def _finite(value: float) -> float | None:
    """JSON has no infinity; null stands for it."""
    return value if math.isfinite(value) else None
