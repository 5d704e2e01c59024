"""`biofeedback export`: write the samples of recordings as tables."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError, UserError
from biofeedback.logbook import recordings
from biofeedback.logbook.tables import export_table

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("recordings", nargs="+", type=Path, metavar="RECORDING")
    parser.add_argument(
        "-o",
        "--output",
        type=Path,
        metavar="OUT.csv",
        help="the table (default: beside each recording, ending in .csv)",
    )


def run(options: Namespace) -> int:
    """Exports each recording; one that cannot be does not stop the others."""
    if options.output is not None and len(options.recordings) > 1:
        raise UserError("One output cannot hold several recordings.", "Leave out -o.")
    failed = 0
    for path in options.recordings:
        try:
            out = options.output or path.with_suffix(".csv")
            done = export_table(recordings.read(path), out)
        except BiofeedbackError as error:
            print(f"biofeedback export: {error}", file=sys.stderr)
            failed += 1
            continue
        print(f"{done.rows} samples are in {done.path}.")
        if done.losses:
            print(f"{path}: {done.losses}.")
    return 1 if failed else 0
