"""`biofeedback agree`: how well repeated scores of people agree."""

from __future__ import annotations

import json
from argparse import ArgumentTypeError
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.cli.figures import figure, interval, notes, p_value, paragraph
from biofeedback.errors import FileError, UserError
from biofeedback.logbook.people_tables import Scores, left_out, read_scores
from biofeedback.logbook.plan_file import write_whole
from biofeedback.measures.reliability import IccForm
from biofeedback.measures.retest import Retest, retest
from biofeedback.measures.retest_json import as_json
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
        "--plot",
        type=Path,
        metavar="FILE.png",
        help="draws the differences of the first two trials over their mean, with "
        "bias, limits of agreement and their intervals (Bland and Altman)",
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
    if options.plot is not None:
        _plot(scores, options.unit, options.plot)
    if options.json:
        told = as_json(
            found,
            trials=scores.trials,
            unit=options.unit,
            notes=[*scores.notes, *left_out(scores)],
        )
        print(json.dumps(told, allow_nan=False))
    else:
        print("\n".join(_as_text(scores, found, options.unit)))
    return 0


def _plot(scores: Scores, unit: str, path: Path) -> None:
    from biofeedback.report.agreement_chart import (  # noqa: PLC0415  loads Qt
        agreement_chart,
        picture,
    )

    if path.suffix.lower() != ".png":
        raise UserError(
            phrase("“{name}” is no name of a picture.", name=path.name),
            phrase("End it in .png."),
        )
    write_whole(path, picture(agreement_chart(scores.values, scores.trials, unit)))


def _as_text(scores: Scores, found: Retest, unit: str) -> Iterator[str]:
    yield from notes([*scores.notes, *left_out(scores)])
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
