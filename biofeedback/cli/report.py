"""`biofeedback report`: one or two pages on an athlete, as PDF or PNG.

The answer, where the file is, goes to standard output. Names are left out unless they
are asked for, and never stand in the name of the file.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.cli.values import day
from biofeedback.logbook.database import Logbook
from biofeedback.report import writing
from biofeedback.session.reports import Reports
from biofeedback.session.today import Today

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("code", metavar="CODE", help="code of the athlete")
    parser.add_argument(
        "--since",
        type=day,
        metavar="DATE",
        help="first day (default: of the first entry)",
    )
    parser.add_argument(
        "--until", type=day, metavar="DATE", help="last day (default: today)"
    )
    parser.add_argument("--task", default="", metavar="NAME", help="only this task")
    parser.add_argument(
        "--name", action="store_true", help="write the athlete's name beside the code"
    )
    parser.add_argument(
        "--output",
        type=Path,
        metavar="FILE",
        help="ends in .pdf or .png (default: CODE_report_FIRST_LAST.pdf here)",
    )
    places.add_logbook(parser)


def run(options: Namespace) -> int:
    """Writes the report."""
    with Logbook.open(places.known_logbook(options.logbook)) as logbook:
        reports = Reports(logbook, rule=Today(logbook).pain_rule)
        facts = reports.of(
            options.code,
            since=options.since,
            until=options.until,
            task=options.task,
            name=options.name,
        )
        path = options.output or Path(writing.file_name(facts))
        app = writing.painting()
        writing.write(facts, path)
        del app
        reports.written(options.code, path)
    print(f"The report is in {path}.")
    return 0
