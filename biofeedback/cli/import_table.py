"""`biofeedback import`: make a recording of a table of forces."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook.tables import NEWTONS, TIME_UNITS_S, Choice, import_table

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("table", type=Path, metavar="TABLE")
    parser.add_argument(
        "-o", "--output", type=Path, required=True, metavar="OUT", help="the recording"
    )
    add_choice(parser, columns_needed=True)


def add_choice(parser: ArgumentParser, *, columns_needed: bool) -> None:
    """What is said of a table."""
    parser.add_argument(
        "--columns",
        required=columns_needed,
        metavar="LEFT[,RIGHT]",
        help="names or numbers (from 1) of the columns with the force",
    )
    parser.add_argument(
        "--rate",
        type=float,
        metavar="HZ",
        help="samples per second (default: from the time column)",
    )
    parser.add_argument(
        "--unit", choices=list(NEWTONS), default="N", help="of the forces (default: N)"
    )
    parser.add_argument(
        "--time", metavar="COLUMN", help="name or number of the time column"
    )
    parser.add_argument("--time-unit", choices=list(TIME_UNITS_S))


def choice(options: Namespace) -> Choice:
    """What was said of a table; the first column where none was named."""
    return Choice(
        columns=tuple(name.strip() for name in (options.columns or "1").split(",")),
        unit=options.unit,
        rate_hz=options.rate,
        time_column=options.time,
        time_unit=options.time_unit,
    )


def run(options: Namespace) -> int:
    """Imports one table."""
    done = import_table(options.table, options.output, choice(options))
    for note in done.notes:
        print(note)
    print(
        f"{done.samples} samples at {done.rate_hz:g} Hz are in {done.path}"
        + (f"; {done.lost} are missing in between." if done.lost else ".")
    )
    return 0
