"""A calibration report in words: for the command line and the page alike."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from biofeedback.conditioning.calibration_findings import Severity
from biofeedback.conditioning.calibration_quality import ReferenceLine
from biofeedback.phrase import Phrase, joined, marked, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_quality import CycleQualities, Deviation
    from biofeedback.measures.calibration_budget import ForceUncertainty
    from biofeedback.measures.calibration_report import CalibrationReport

PLOT_COLUMNS = 41
"""Width of the residual plot in text; odd, so that zero has a column."""
ROWS_MOST = 60
"""Longer plots are read in a picture or a spreadsheet."""


def in_words(found: CalibrationReport) -> list[str]:
    """The whole report, one line after the other."""
    lines = figure_lines(found)
    if found.fit is None or found.outcome.chosen is None:
        return lines
    return [*lines, "", *residual_plot(found.fit)]


def figure_lines(found: CalibrationReport) -> list[str]:
    """The report without its plot, which a window draws better."""
    lines: list[str] = [gravity_words(found), *finding_words(found)]
    if found.fit is None or found.outcome.chosen is None:
        return lines
    lines += ["", found.outcome.chosen.words, *fit_words(found.fit)]
    lines += ["", *quality_words(found)]
    lines += ["", *uncertainty_words(found)]
    return [*lines, "", *class_words(found)]


def gravity_words(found: CalibrationReport) -> Phrase:
    """Which gravity made forces of the masses, or that there were none."""
    if any(reading.load.mass_kg for reading in found.readings):
        return phrase(
            "Forces from masses by {gravity}.", gravity=found.asked.gravity_words
        )
    return phrase("Forces as given, from a reference; no gravity was used.")


def finding_words(found: CalibrationReport) -> list[Phrase]:
    """What speaks against it, refusals first."""
    told = {
        Severity.REFUSED: marked("Refused: {finding}"),
        Severity.WARNING: marked("Note: {finding}"),
    }
    return [
        Phrase(told[finding.severity], {"finding": str(finding)})
        for finding in found.outcome.findings
    ]


def _line(words: str) -> Phrase:
    """Set in, below a heading."""
    return joined("", ("  ", words))


def fit_words(fit: CalibrationFit) -> list[Phrase]:
    """Coefficients with their standard deviations, and how well they fit."""
    templates = (
        marked("b{power} = {value:.12g} ± {sd:.3g} counts"),
        marked("b{power} = {value:.12g} ± {sd:.3g} counts/N"),
        marked("b{power} = {value:.12g} ± {sd:.3g} counts/N²"),
    )
    lines = [
        Phrase(template, {"power": power, "value": value, "sd": sd})
        for power, (value, sd, template) in enumerate(
            zip(fit.coefficients, fit.standard_deviations, templates, strict=False)
        )
    ]
    residual = phrase(
        "residual standard deviation {sd:.4g} counts, {df} degrees of freedom",
        sd=fit.residual_sd_counts,
        df=fit.residual_df,
    )
    lines.append(
        phrase("{residual}; through zero", residual=residual)
        if fit.through_zero
        else phrase("{residual}; R² = {r2:.9f}", residual=residual, r2=fit.r2)
    )
    test = fit.lack_of_fit
    if test is not None:
        verdict = (
            phrase("it follows the loads")
            if test.accepted
            else phrase("it misses the loads")
        )
        lines.append(
            phrase(
                "lack of fit F = {f:.5g} ({df_lack} and {df_pure} degrees of freedom, "
                "p = {p_value:.2g}): {verdict}",
                f=test.f,
                df_lack=test.df_lack,
                df_pure=test.df_pure,
                p_value=test.p_value,
                verdict=verdict,
            )
        )
    return [_line(line) for line in lines]


def quality_words(found: CalibrationReport) -> list[Phrase]:
    """Data-sheet figures, worst run each, in % of rated output."""
    lines = [phrase("In % of rated output, worst run:")]
    if not found.cycles:
        return [*lines, _line(phrase("no run has three rising loads to judge by"))]
    if all(reading.load.force_n != 0 for reading in found.readings):
        lines.append(_line(phrase("(the smallest load stands for no load)")))
    lines += [
        _figure(
            phrase("non-linearity from the {line}", line=line.value),
            _worst_line(found, line),
        )
        for line in ReferenceLine
    ]
    none_falling = phrase("no falling load")
    lines.append(
        _figure(phrase("hysteresis"), _worst(found, "hysteresis"), none_falling)
    )
    repeat = found.repeatability
    if repeat is None:
        lines.append(_line(phrase("repeatability: not known, fewer than two runs")))
    else:
        name = phrase("repeatability over {runs} runs, net of zero", runs=repeat.runs)
        lines.append(_figure(name, repeat.net))
    lines.append(
        _figure(
            phrase("zero return"),
            _worst(found, "zero_return"),
            phrase("no empty rig at the end"),
        )
    )
    lines.append(_creep_words(found))
    lines.append(_figure(phrase("combined error"), _worst(found, "combined_error")))
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


def _figure(name: str, deviation: Deviation | None, missing: str = "") -> Phrase:
    if deviation is None:
        return _line(phrase("{name}: not known, {why}", name=name, why=missing))
    return _line(
        phrase(
            "{name}: {pct:.4f} % at {force_n:.6g} N",
            name=name,
            pct=deviation.pct,
            force_n=deviation.force_n,
        )
    )


def _creep_words(found: CalibrationReport) -> Phrase:
    creep = found.creep
    if creep is None:
        return _line(phrase("creep: not known, no load was read at two known times"))
    return _line(
        phrase(
            "creep: {pct:.4f} % from {from_s:g} s to {to_s:g} s at {force_n:.6g} N",
            pct=creep.pct,
            from_s=creep.from_s,
            to_s=creep.to_s,
            force_n=creep.force_n,
        )
    )


def uncertainty_words(found: CalibrationReport) -> list[Phrase]:
    """How far a shown force may be off, and what that is made of."""
    lines = [phrase("Uncertainty of a shown force, k = 2:")]
    if any(reading.load.words.endswith("assumed") for reading in found.readings):
        lines.append(
            _line(phrase("(a tolerance was assumed for the masses; weigh them)"))
        )
    if found.applied_pct == 0:
        lines.append(
            _line(
                phrase("(the uncertainty of the known forces is left out: not given)")
            )
        )
    if found.resolution_n is None:
        lines.append(_line(phrase("(the resolution is left out: not given)")))
    lines += map(_row_words, found.uncertainties)
    if found.uncertainties:
        last = found.uncertainties[-1]
        parts = sorted(last.budget.components, key=lambda part: -abs(part.share))
        made = [
            phrase("{name} {share_n:.2g} N", name=part.name, share_n=abs(part.share))
            for part in parts[:6]
        ]
        lines.append(
            _line(
                phrase(
                    "largest parts at {force_n:.4g} N, k = 1: {parts}",
                    force_n=last.force_n,
                    parts=joined(", ", made),
                )
            )
        )
    return lines


def _row_words(row: ForceUncertainty) -> Phrase:
    return _line(
        phrase(
            "{force_n:10.6g} N  ± {expanded_n:.3g} N ({share_pct:.2g} %), "
            "{df} degrees of freedom (95 %: k = {k_95:.2f})",
            force_n=row.force_n,
            expanded_n=row.expanded_n,
            share_pct=100 * row.expanded_n / abs(row.force_n),
            df="∞" if math.isinf(row.df) else f"{row.df:.0f}",
            k_95=row.k_95,
        )
    )


def class_words(found: CalibrationReport) -> list[Phrase]:
    """Ranges in the manner of the standards; for none it is said once why."""
    lines = [phrase("Force range in which the limits hold:")]
    if found.applied_pct == 0 and found.classes:
        lines.append(
            _line(
                phrase(
                    "(the known forces are taken as exact: their uncertainty was not "
                    "given)"
                )
            )
        )
    for standard in ("ISO 376", "ISO 7500-1"):
        classes = [each for each in found.classes if each.standard == standard]
        met = [each for each in classes if each.from_n is not None]
        lines += [_line(each.words) for each in met or classes[-1:]]
    limit = found.lower_limit
    if limit is not None:
        upto = (
            phrase("from {force_n:.4g} N", force_n=limit.class_a_from_n)
            if limit.class_a_from_n is not None
            else phrase("nowhere in the range")
        )
        lines.append(
            _line(
                phrase(
                    "lower limit factor {factor_n:.3g} N, so 0.25 % {upto}, in the "
                    "manner of ASTM E74, class A (not a certificate)",
                    factor_n=limit.factor_n,
                    upto=upto,
                )
            )
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
