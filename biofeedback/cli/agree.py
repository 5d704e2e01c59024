"""`biofeedback agree`: how well repeated scores of people agree."""

from __future__ import annotations

import json
from argparse import ArgumentTypeError
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from biofeedback.cli.figures import figure, interval, notes, p_value, paragraph
from biofeedback.errors import FileError
from biofeedback.logbook.people_tables import Scores, lines_told, read_scores
from biofeedback.measures.reliability import IccForm
from biofeedback.measures.retest import Retest, retest
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterator

    from biofeedback.measures.agreement import Agreement
    from biofeedback.measures.reliability import Variation
    from biofeedback.measures.trial_error import TypicalError

UNIT_MAX = 12

_MEANING = {
    IccForm.ONE_WAY: "one score; trials in no order",
    IccForm.AGREEMENT: "one score; agreement",
    IccForm.CONSISTENCY: "one score; consistency",
    IccForm.ONE_WAY_MEAN: "mean of all trials; in no order",
    IccForm.AGREEMENT_MEAN: "mean of all trials; agreement",
    IccForm.CONSISTENCY_MEAN: "mean of all trials; consistency",
}


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "scores",
        type=Path,
        metavar="SCORES.csv",
        help="a row a person, a column a trial, names in the first row; the first "
        "column may be a code",
    )
    parser.add_argument(
        "--unit", type=unit, default="N", help="of the scores (default: N)"
    )
    parser.add_argument(
        "--json", action="store_true", help="one JSON object with all figures"
    )


def unit(text: str) -> str:
    """A short word."""
    if not (text.strip() and len(text) <= UNIT_MAX and text.isprintable()):
        raise ArgumentTypeError(f"must be 1 to {UNIT_MAX} letters")
    return text.strip()


def run(options: Namespace) -> int:
    """Reads the table and tells what it says."""
    scores = read_scores(options.scores)
    if not np.isfinite(scores.values).any():
        raise FileError(options.scores, phrase("there is no score in the table."))
    found = retest(scores.values)
    if options.json:
        told = _as_json(scores, found, options.unit)
        print(json.dumps(told, allow_nan=False))
    else:
        print("\n".join(_as_text(scores, found, options.unit)))
    return 0


def _left_out(scores: Scores) -> list[str]:
    """Which rows have no part in which figures."""
    there = np.isfinite(scores.values).sum(axis=1)
    told = []
    if holed := [
        line
        for line, count in zip(scores.lines, there, strict=True)
        if count < len(scores.trials)
    ]:
        told.append(
            f"A score is missing in {lines_told(holed)}: left out of the correlations"
            f"{' and the limits of agreement' if len(scores.trials) == 2 else ''}."
        )
    if alone := [
        line for line, count in zip(scores.lines, there, strict=True) if count < 2
    ]:
        told.append(
            f"Fewer than two scores in {lines_told(alone)}: left out of the error of "
            "measurement too."
        )
    return told


def _as_text(scores: Scores, found: Retest, unit: str) -> Iterator[str]:
    yield from notes([*scores.notes, *_left_out(scores)])
    yield f"{found.people} people, {len(scores.trials)} trials"
    if found.variation is not None:
        yield from _of_trials(scores.trials, found.variation, unit)
        yield from paragraph(
            f"Intraclass correlations of {found.complete} people, 95 % intervals",
            (
                (
                    f"{each.form.value}  {_three(each.value):>6}",
                    f"{_limits(each.lower, each.upper):<17}  {_MEANING[each.form]}",
                )
                for each in found.iccs
            ),
        )
    if found.error is not None:
        yield from _of_error(found.error, found.mean, unit)
    if found.agreement is not None:
        first, second = scores.trials
        yield from _of_agreement(found.agreement, f"{second} less {first}", unit)
    if found.repeatability is not None:
        yield from paragraph(
            "Repeatability, a change common to all not taken out",
            [
                ("within-person SD", f"{figure(found.repeatability.within_sd)} {unit}"),
                (
                    "coefficient",
                    f"{figure(found.repeatability.coefficient)} {unit}: two scores of "
                    "a person are nearer in 95 %",
                ),
            ],
        )
    yield from notes(found.cautions)


def _of_trials(
    names: tuple[str, ...], variation: Variation, unit: str
) -> Iterator[str]:
    means = ", ".join(
        f"{name} {figure(mean)}"
        for name, mean in zip(names, variation.trial_means, strict=True)
    )
    lines = [("mean", f"{means} {unit}")]
    if variation.trials_f is not None and variation.trials_p is not None:
        lines.append(
            (
                "common change",
                f"F({variation.trials - 1}, {variation.error_df}) = "
                f"{figure(variation.trials_f)}, {p_value(variation.trials_p)}",
            )
        )
    yield from paragraph("Trials", lines)


def _of_error(error: TypicalError, mean: float, unit: str) -> Iterator[str]:
    of_mean = f" ({figure(100 * error.mdc95 / mean)} % of the mean)" if mean > 0 else ""
    lines = [
        ("SEM", f"{figure(error.sem)} {unit} ({interval(error.interval)} {unit})"),
        ("MDC95", f"{figure(error.mdc95)} {unit}{of_mean}"),
        ("MDC90", f"{figure(error.mdc90)} {unit}"),
    ]
    if error.cv_pct is not None:
        told = f"{figure(error.cv_pct)} % ({interval(error.cv_interval_pct)} %)"
        lines.insert(1, ("CV", f"{told}, by logarithms"))
    yield from paragraph(
        f"Error of measurement from {error.scores} scores of {error.people} people, "
        f"{error.degrees_of_freedom} degrees of freedom",
        lines,
    )


def _of_agreement(found: Agreement, what: str, unit: str) -> Iterator[str]:
    bias = f"{figure(found.bias)} {unit} ({interval(found.bias_interval)} {unit})"
    lines = [("bias", bias)]
    for name, limit, exact, simple in zip(
        ("lower limit", "upper limit"),
        found.limits,
        found.exact_intervals,
        found.simple_intervals,
        strict=True,
    ):
        lines.append(
            (
                name,
                f"{figure(limit)} {unit} (exact {interval(exact)}; approximate "
                f"{interval(simple)} {unit})",
            )
        )
    yield from paragraph(
        f"Agreement of {found.people} people, {what}, 95 % intervals", lines
    )


def _three(value: float | None) -> str:
    return "none" if value is None else f"{value:.3f}"


def _limits(lower: float | None, upper: float | None) -> str:
    if lower is None and upper is None:
        return "no interval"
    return f"{_three(lower)} to {_three(upper)}"


def _as_json(scores: Scores, found: Retest, unit: str) -> dict[str, Any]:
    error, repeat = found.error, found.repeatability
    return {
        "unit": unit,
        "people": found.people,
        "complete": found.complete,
        "trials": list(scores.trials),
        "mean": found.mean,
        "variation": None if found.variation is None else _variation(found.variation),
        "icc": {
            each.form.value: {"value": each.value, "ci95": [each.lower, each.upper]}
            for each in found.iccs
        },
        "error": None if error is None else _error(error),
        "agreement": None if found.agreement is None else limits(found.agreement),
        "repeatability": None
        if repeat is None
        else {
            "within_sd": repeat.within_sd,
            "coefficient": repeat.coefficient,
            "degrees_of_freedom": repeat.degrees_of_freedom,
        },
        "notes": [*scores.notes, *_left_out(scores)],
        "cautions": list(found.cautions),
    }


def _variation(found: Variation) -> dict[str, Any]:
    return {
        "trial_means": found.trial_means,
        "ms_people": found.ms_people,
        "ms_trials": found.ms_trials,
        "ms_error": found.ms_error,
        "ms_within": found.ms_within,
        "trials_f": found.trials_f,
        "trials_p": found.trials_p,
    }


def _error(error: TypicalError) -> dict[str, Any]:
    return {
        "sem": error.sem,
        "sem_ci95": error.interval,
        "cv_pct": error.cv_pct,
        "cv_ci95_pct": error.cv_interval_pct,
        "mdc95": error.mdc95,
        "mdc90": error.mdc90,
        "degrees_of_freedom": error.degrees_of_freedom,
        "people": error.people,
        "scores": error.scores,
    }


def limits(found: Agreement) -> dict[str, Any]:
    """Bias and limits of agreement as JSON."""
    return {
        "people": found.people,
        "bias": found.bias,
        "bias_ci95": found.bias_interval,
        "sd": found.sd,
        "limits": found.limits,
        "limits_ci95_exact": found.exact_intervals,
        "limits_ci95_1986": found.simple_intervals,
        "limits_ci95_1999": found.finer_intervals,
    }
