"""`biofeedback backup`: a copy of all that is kept; only what changed the next time.

It may run while the window is open. The exit code is 0 only where the backup is whole.
"""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.cli.bar import Bar
from biofeedback.logbook.backup import BackedUp, back_up
from biofeedback.logbook.clear_copies import in_the_clear
from biofeedback.logbook.copy_manifest import LOGBOOK, RECORDINGS
from biofeedback.logbook.kept_place import KeptPlace

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "folder",
        type=Path,
        metavar="DIR",
        help="new or empty folder, or that of an earlier backup",
    )
    places.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="what was done, as JSON")


def run(options: Namespace) -> int:
    """Makes the backup."""
    places.known_logbook(options.logbook)
    place = places.kept(options)
    with Bar("recordings") as bar:
        done = back_up(place, options.folder, progress=bar.tell)
    print(json.dumps(asdict(done)) if options.json else as_text(done, options.folder))
    for words in done.problems:
        print(f"biofeedback backup: {words}", file=sys.stderr)
    return 1 if done.problems else 0


def as_text(done: BackedUp, folder: Path) -> str:
    """A few lines, for people."""
    if not (done.copied or done.removed):
        lines = [f"Nothing has changed since the last backup in {folder}."]
    else:
        size = f"{done.copied_bytes / 1e6:.1f} MB"
        lines = [
            f"Copied: {done.copied} files, {size}, to {folder}. "
            f"As before: {done.same} files."
        ]
    if done.removed:
        lines.append(f"Taken out, as erased here since: {done.removed} recordings.")
    if done.gone:
        lines.append(f"In the backup and not here any more: {done.gone} recordings.")
    if not in_the_clear(KeptPlace(folder / LOGBOOK, folder / RECORDINGS)):
        lines.append(
            "Names and recordings in it are sealed by the passphrase of today; codes, "
            "forces and dates are not: keep it as safe as the logbook."
        )
    else:
        lines.append(
            "It holds names and health data and is not encrypted: keep it as safe as "
            "the logbook."
        )
    return "\n".join(lines)
