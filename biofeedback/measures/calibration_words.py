"""A calibration report in words: for the command line and the page alike."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from biofeedback.conditioning.calibration_findings import Severity
from biofeedback.conditioning.calibration_quality import ReferenceLine

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_quality import CycleQualities, Deviation
    from biofeedback.measures.calibration_report import CalibrationReport

PLOT_COLUMNS = 41
"""Width of the residual plot in text; odd, so that zero has a column."""
ROWS_MOST = 60
"""Longer plots are read in a picture or a spreadsheet."""


def in_words(found: CalibrationReport) -> list[str]:
    """The whole report, one line after the other."""
    lines = [gravity_words(found), *finding_words(found)]
    if found.fit is None or found.outcome.chosen is None:
        return lines
    lines += ["", found.outcome.chosen.words, *fit_words(found.fit)]
    lines += ["", *quality_words(found)]
    lines += ["", *uncertainty_words(found)]
    lines += ["", *class_words(found)]
    return [*lines, "", *residual_plot(found.fit)]


def gravity_words(found: CalibrationReport) -> str:
    """Which gravity made forces of the masses, or that there were none."""
    if any(reading.load.mass_kg for reading in found.readings):
        return f"Forces from masses by {found.asked.gravity_words}."
    return "Forces as given, from a reference; no gravity was used."


def finding_words(found: CalibrationReport) -> list[str]:
    """What speaks against it, refusals first."""
    told = {Severity.REFUSED: "Refused", Severity.WARNING: "Note"}
    return [
        f"{told[finding.severity]}: {finding}" for finding in found.outcome.findings
    ]


def fit_words(fit: CalibrationFit) -> list[str]:
    """Coefficients with their standard deviations, and how well they fit."""
    units = ("counts", "counts/N", "counts/N²")
    lines = [
        f"  b{power} = {value:.12g} ± {sd:.3g} {unit}"
        for power, (value, sd, unit) in enumerate(
            zip(fit.coefficients, fit.standard_deviations, units, strict=False)
        )
    ]
    lines.append(
        f"  residual standard deviation {fit.residual_sd_counts:.4g} counts, "
        f"{fit.residual_df} degrees of freedom"
        + ("; through zero" if fit.through_zero else f"; R² = {fit.r2:.9f}")
    )
    test = fit.lack_of_fit
    if test is not None:
        verdict = "follows the loads" if test.accepted else "misses the loads"
        lines.append(
            f"  lack of fit F = {test.f:.5g} ({test.df_lack} and {test.df_pure} "
            f"degrees of freedom, p = {test.p_value:.2g}): it {verdict}"
        )
    return lines


def quality_words(found: CalibrationReport) -> list[str]:
    """Data-sheet figures, worst run each, in % of rated output."""
    lines = ["In % of rated output, worst run:"]
    if not found.cycles:
        return [*lines, "  no run has three rising loads to judge by"]
    if all(reading.load.force_n != 0 for reading in found.readings):
        lines.append("  (the smallest load stands for no load)")
    lines += [
        _figure(f"non-linearity from the {line.value}", _worst_line(found, line))
        for line in ReferenceLine
    ]
    lines.append(_figure("hysteresis", _worst(found, "hysteresis"), "no falling load"))
    repeat = found.repeatability
    if repeat is None:
        lines.append("  repeatability: not known, fewer than two runs")
    else:
        name = f"repeatability over {repeat.runs} runs, net of zero"
        lines.append(_figure(name, repeat.net))
    lines.append(
        _figure("zero return", _worst(found, "zero_return"), "no empty rig at the end")
    )
    lines.append(_creep_words(found))
    lines.append(_figure("combined error", _worst(found, "combined_error")))
    return lines


def _worst_line(found: CalibrationReport, line: ReferenceLine) -> Deviation:
    every = [cycle.nonlinearity[line] for cycle in found.cycles.values()]
    return max(every, key=lambda deviation: abs(deviation.pct))


def _worst(found: CalibrationReport, name: str) -> Deviation | None:
    def of(cycle: CycleQualities) -> Deviation | None:
        value: Deviation | None = getattr(cycle, name)
        return value

    every = [each for each in map(of, found.cycles.values()) if each is not None]
    return max(every, key=lambda deviation: abs(deviation.pct), default=None)


def _figure(name: str, deviation: Deviation | None, missing: str = "") -> str:
    if deviation is None:
        return f"  {name}: not known, {missing}"
    return f"  {name}: {deviation.pct:.4f} % at {deviation.force_n:.6g} N"


def _creep_words(found: CalibrationReport) -> str:
    creep = found.creep
    if creep is None:
        return "  creep: not known, no load was read at two known times"
    return (
        f"  creep: {creep.pct:.4f} % from {creep.from_s:g} s to {creep.to_s:g} s at "
        f"{creep.force_n:.6g} N"
    )


def uncertainty_words(found: CalibrationReport) -> list[str]:
    """How far a shown force may be off, and what that is made of."""
    lines = ["Uncertainty of a shown force, k = 2:"]
    if any(reading.load.words.endswith("assumed") for reading in found.readings):
        lines.append("  (a tolerance was assumed for the masses; weigh them)")
    if found.applied_pct == 0:
        lines.append("  (the uncertainty of the known forces is left out: not given)")
    if found.resolution_n is None:
        lines.append("  (the resolution is left out: not given)")
    for row in found.uncertainties:
        df = "∞" if math.isinf(row.df) else f"{row.df:.0f}"
        share = 100 * row.expanded_n / abs(row.force_n)
        lines.append(
            f"  {row.force_n:10.6g} N  ± {row.expanded_n:.3g} N ({share:.2g} %), "
            f"{df} degrees of freedom (95 %: k = {row.k_95:.2f})"
        )
    if found.uncertainties:
        last = found.uncertainties[-1]
        parts = sorted(last.budget.components, key=lambda part: -abs(part.share))
        made = ", ".join(f"{part.name} {abs(part.share):.2g} N" for part in parts[:6])
        lines.append(f"  largest parts at {last.force_n:.4g} N, k = 1: {made}")
    return lines


def class_words(found: CalibrationReport) -> list[str]:
    """Ranges in the manner of the standards; for none it is said once why."""
    lines = ["Force range in which the limits hold:"]
    if found.applied_pct == 0 and found.classes:
        lines.append(
            "  (the known forces are taken as exact: their uncertainty was not given)"
        )
    for standard in ("ISO 376", "ISO 7500-1"):
        classes = [each for each in found.classes if each.standard == standard]
        met = [each for each in classes if each.from_n is not None]
        lines += [f"  {each.words}" for each in met or classes[-1:]]
    limit = found.lower_limit
    if limit is not None:
        upto = (
            f"from {limit.class_a_from_n:.4g} N"
            if limit.class_a_from_n is not None
            else "nowhere in the range"
        )
        lines.append(
            f"  lower limit factor {limit.factor_n:.3g} N, so 0.25 % {upto}, in the "
            "manner of ASTM E74, class A (not a certificate)"
        )
    return lines


def residual_plot(fit: CalibrationFit) -> list[str]:
    """Residuals as text: one row a reading, o rising, v falling."""
    return list(_plot_rows(fit))


def _plot_rows(fit: CalibrationFit) -> Iterator[str]:
    largest = max((abs(value) for value in fit.residuals_counts), default=0.0) or 1.0
    half = PLOT_COLUMNS // 2
    yield f"Residuals in counts, from −{largest:.3g} to +{largest:.3g}:"
    rows = sorted(
        zip(fit.fitted_points, fit.residuals_counts, strict=True),
        key=lambda row: (row[0].force_n, row[0].run),
    )
    for point, residual in rows[:ROWS_MOST]:
        cells = [" "] * PLOT_COLUMNS
        cells[half] = "|"
        cells[half + round(half * residual / largest)] = (
            "o" if point.direction.value == "up" else "v"
        )
        yield (
            f"  {point.force_n:10.6g} N  run {point.run}  {''.join(cells)}  "
            f"{residual:+.3g}"
        )
    if len(rows) > ROWS_MOST:
        yield f"  … and {len(rows) - ROWS_MOST} more; --json has them all"
