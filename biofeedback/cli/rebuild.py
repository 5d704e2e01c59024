"""`biofeedback rebuild`: a new logbook from the recordings, where the old is broken.

The exit code is 0 only where every recording could be used.
"""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.cli.bar import Bar
from biofeedback.session.rebuild import Rebuilt, rebuild

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    places.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="what was done, as JSON")


def run(options: Namespace) -> int:
    """Rebuilds."""
    with Bar("recordings") as bar:
        done = rebuild(places.kept(options), progress=bar.tell)
    if options.json:
        told = {
            "sets": done.sets,
            "reps": done.reps,
            "taken_over": dict(done.salvaged.rows),
            "not_read_whole": done.salvaged.broken,
            "problems": done.problems,
            "aside": str(done.aside) if done.aside else None,
        }
        print(json.dumps(told, ensure_ascii=False))
    else:
        print(as_text(done))
    for words in done.problems:
        print(f"biofeedback rebuild: {words}", file=sys.stderr)
    return 1 if done.problems else 0


def as_text(done: Rebuilt) -> str:
    """A few lines, for people."""
    lines = [f"From recordings: {done.sets} sets with {done.reps} reps."]
    rows = sum(done.salvaged.rows.values())
    lines.append(f"Taken over from the old logbook: {rows} rows.")
    if done.salvaged.broken:
        tables = ", ".join(done.salvaged.broken)
        lines.append(f"Not readable to their end: {tables}.")
        lines.append(
            "Names, plans, kept tests and days are in no recording: look them over, or "
            "restore a backup."
        )
    if done.aside is not None:
        lines.append(f"The old logbook is in {done.aside}.")
    return "\n".join(lines)
