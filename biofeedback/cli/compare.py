"""`biofeedback compare`: isometric against eccentric force in a group."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.cli import values
from biofeedback.cli.figures import figure, interval, notes, p_value, paragraph
from biofeedback.errors import FieldError, FileError
from biofeedback.logbook.people_tables import read_pairs
from biofeedback.measures.comparison import (
    RESAMPLES,
    SEED,
    Comparison,
    LevelView,
    compare,
)
from biofeedback.measures.comparison_json import as_json
from biofeedback.report.group_charts import group_charts
from biofeedback.report.pair_picture import save_picture

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterator

    from biofeedback.logbook.people_tables import Pairs
    from biofeedback.measures.agreement import Agreement


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "pairs",
        type=Path,
        metavar="PAIRS.csv",
        help="columns: the athlete's code, isometric force and eccentric force in "
        "newtons, names in the first row; rows of one athlete are averaged",
    )
    parser.add_argument(
        "--seed",
        type=values.seed,
        default=SEED,
        help=f"of the bootstrap: the same one, the same answer (default: {SEED})",
    )
    parser.add_argument(
        "--plot",
        type=Path,
        metavar="FILE.png",
        help="save a picture: both forces, and their difference along the level",
    )
    parser.add_argument(
        "--json", action="store_true", help="one JSON object with all figures"
    )


def run(options: Namespace) -> int:
    """Reads the table and tells what it says."""
    pairs = read_pairs(options.pairs)
    generator = np.random.default_rng(options.seed)
    try:
        found = compare(pairs.results_n, generator, resamples=RESAMPLES)
    except FieldError as error:
        raise FileError(options.pairs, error.problem) from error
    if options.plot is not None:
        save_picture(group_charts(found), options.plot)
    if options.json:
        told = as_json(found, seed=options.seed, notes=pairs.notes)
        print(json.dumps(told, allow_nan=False))
    else:
        print("\n".join(_as_text(pairs, found)))
    return 0


def _as_text(pairs: Pairs, found: Comparison) -> Iterator[str]:
    yield from notes(pairs.notes)
    forces = found.forces
    lines = [
        ("isometric", f"{figure(float(forces.isometric_n.mean()))} N on average"),
        ("eccentric", f"{figure(float(forces.eccentric_n.mean()))} N on average"),
        ("correlation", "none: one of them does not vary"),
    ]
    if found.correlation is not None:
        told = f"r = {found.correlation.r:.3f}"
        if found.correlation.interval is not None:
            lower, upper = found.correlation.interval
            told += f" ({lower:.3f} to {upper:.3f})"
        lines[-1] = ("correlation", f"{told}, {p_value(found.correlation.p_value)}")
    if found.views and found.views[0].bootstrap.r_interval is not None:
        lower, upper = found.views[0].bootstrap.r_interval
        lines.append(("", f"bootstrap {lower:.3f} to {upper:.3f}"))
    people = len(forces.isometric_n)
    yield from paragraph(f"{people} athletes, 95 % intervals", lines)
    yield from _of_differences(found.agreement)
    for view in found.views:
        yield from _of_view(view)
    yield from notes(found.cautions)


def _of_differences(found: Agreement) -> Iterator[str]:
    lower, upper = found.exact_intervals
    yield from paragraph(
        "Eccentric less isometric",
        [
            ("mean", f"{figure(found.bias)} N ({interval(found.bias_interval)} N)"),
            ("lower limit", f"{figure(found.limits[0])} N ({interval(lower)} N)"),
            ("upper limit", f"{figure(found.limits[1])} N ({interval(upper)} N)"),
        ],
    )


def _of_view(view: LevelView) -> Iterator[str]:
    line, drawn = view.line, view.bootstrap
    crossing = "none: the line has no slope"
    if line.crossing_n is not None:
        crossing = (
            f"{figure(line.crossing_n)} N; Fieller {_newtons(line.crossing_interval_n)}"
            f"; bootstrap {_newtons(drawn.crossing_interval_n)}"
        )
    lowest_n, highest_n = line.levels_n
    yield from paragraph(
        f"That difference along the {line.level.value}, "
        f"{figure(lowest_n)} to {figure(highest_n)} N",
        [
            (
                "slope",
                f"{figure(line.slope)} N per N ({interval(line.slope_interval)}), "
                f"{p_value(line.slope_p)}",
            ),
            ("zero crossing", crossing),
        ],
    )


def _newtons(limits_n: tuple[float, float] | None) -> str:
    return interval(limits_n) + ("" if limits_n is None else " N")
