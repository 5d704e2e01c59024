"""`biofeedback export`: tables, EDF+ and BIDS out of the logbook and its recordings.

The answer goes to standard output, progress and what was left out to standard error.
The exit code is 0 only where all that was asked for is in the folder.
"""

from __future__ import annotations

import json
import sys
from argparse import ArgumentTypeError
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.cli.bar import Bar
from biofeedback.cli.values import day
from biofeedback.errors import UserError
from biofeedback.logbook import folders
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.exports.chosen_sets import Filters
from biofeedback.phrase import phrase
from biofeedback.session.export import export_files, export_logbook
from biofeedback.session.export_asked import FORMATS, REPS, SAMPLES, Exported, Wanted

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable, Sequence

WHAT = (REPS, SAMPLES)


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "folder", type=Path, metavar="OUT_DIR", help="folder to be made; new or empty"
    )
    parser.add_argument(
        "--format",
        type=_list_of(FORMATS),
        default=("csv",),
        metavar="LIST",
        help=f"of {','.join(FORMATS)} (default: csv)",
    )
    parser.add_argument(
        "--what",
        type=_list_of(WHAT),
        default=WHAT,
        metavar="LIST",
        help=f"of {','.join(WHAT)} (default: both)",
    )
    parser.add_argument(
        "--athlete", nargs="+", default=[], metavar="CODE", help="only these athletes"
    )
    parser.add_argument(
        "--task", nargs="+", default=[], metavar="NAME", help="only these tasks"
    )
    parser.add_argument(
        "--from",
        dest="first_day",
        type=day,
        metavar="DATE",
        help="only sets of this day and later, as 2026-11-30",
    )
    parser.add_argument(
        "--to",
        dest="last_day",
        type=day,
        metavar="DATE",
        help="only sets of this day and earlier",
    )
    parser.add_argument(
        "--files",
        nargs="+",
        type=Path,
        metavar="RECORDING",
        help="these recordings, in place of sets of the logbook",
    )
    parser.add_argument(
        "--names", action="store_true", help="write names of athletes beside the codes"
    )
    parser.add_argument(
        "--notes",
        action="store_true",
        help="write notes and reasons; they may say who somebody is",
    )
    places.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="the manifest")


def run(options: Namespace) -> int:
    """Exports."""
    wanted = Wanted(
        formats=options.format,
        reps=REPS in options.what,
        samples=SAMPLES in options.what,
        names=options.names,
        notes=options.notes,
    )
    filters = Filters(
        tuple(options.athlete), tuple(options.task), options.first_day, options.last_day
    )
    with Bar("sets") as bar:
        done = _export(options, filters, wanted, bar.tell)
    if options.json:
        print(json.dumps(done.manifest, ensure_ascii=False, allow_nan=False))
    else:
        print(as_text(done, options.folder))
    for left in done.left_out:
        words = f"left out of {', '.join(left.what)}: {left.why}"
        print(f"biofeedback export: {left.stem}: {words}", file=sys.stderr)
    return 1 if done.left_out else 0


def _export(
    options: Namespace,
    filters: Filters,
    wanted: Wanted,
    progress: Callable[[int, int], None],
) -> Exported:
    if options.files is not None:
        if filters != Filters():
            raise UserError(
                phrase("Athlete, task and dates choose from the logbook."),
                phrase("Leave them out, or leave out --files."),
            )
        return export_files(options.files, options.folder, wanted, progress=progress)
    with Logbook.open(places.known_logbook(options.logbook)) as logbook:
        return export_logbook(
            logbook,
            options.recordings or folders.default_recordings(),
            options.folder,
            filters,
            wanted,
            progress=progress,
        )


def as_text(done: Exported, folder: Path) -> str:
    """A few lines, for people."""
    told = done.manifest
    counts = told["counts"]
    assert isinstance(counts, dict)  # noqa: S101  narrows the type
    parts = [f"{number} {_noun(name, number)}" for name, number in counts.items()]
    lines = [f"{', '.join(parts)} in {folder}."]
    recordings = told["recordings"]
    lines += edf_lines(recordings if isinstance(recordings, list) else [])
    lines += [f"{stem}: {words}." for stem, words in done.losses]
    asked = told["asked"]
    withheld = asked["texts_left_out"] if isinstance(asked, dict) else 0
    if withheld:
        noun = "note or reason was" if withheld == 1 else "notes and reasons were"
        lines.append(f"{withheld} {noun} left out; --notes writes them.")
    return "\n".join(lines)


def edf_lines(recordings: Sequence[dict[str, object]]) -> list[str]:
    """How fine EDF+ is: it is the one format that rounds."""
    steps = [
        step
        for recording in recordings
        if isinstance(facts := recording["edf"], dict)
        for step in facts["step_n"]
    ]
    if not steps:
        return []
    low, high = f"{min(steps):.3g}", f"{max(steps):.3g}"
    span = f"{low} N" if low == high else f"{low} to {high} N"
    return [f"EDF+ holds 16 bits: one step is {span}. Its start is local time."]


def _noun(plural: str, number: int) -> str:
    return plural.removesuffix("s") if number == 1 else plural


def _list_of(known: Sequence[str]) -> Callable[[str], tuple[str, ...]]:
    """Words with commas between them."""

    def read(text: str) -> tuple[str, ...]:
        words = [word.strip() for word in text.split(",")]
        for word in words:
            if word not in known:
                raise ArgumentTypeError(f"“{word}” must be of {', '.join(known)}")
        return tuple(dict.fromkeys(words))

    return read
