"""`biofeedback restore`: a backup is put back; what was there is put aside.

The exit code is 0 only where all of it was put back.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.cli.bar import Bar
from biofeedback.logbook.restore import Restored, restore
from biofeedback.session.local_time import day_and_time

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "folder", type=Path, metavar="DIR", help="the folder of the backup"
    )
    places.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="what was done, as JSON")


def run(options: Namespace) -> int:
    """Restores."""
    with Bar("checks and copies") as bar:
        done = restore(options.folder, places.kept(options), progress=bar.tell)
    if options.json:
        told = {
            "files": done.files,
            "size_bytes": done.size_bytes,
            "made_utc": done.made_utc,
            "aside": [str(folder) for folder in done.aside],
            "not_in_backup": done.not_in_backup,
            "sealed": done.sealed,
        }
        print(json.dumps(told))
    else:
        print(as_text(done))
    return 0


def as_text(done: Restored) -> str:
    """A few lines, for people."""
    lines = [
        f"Put back: {done.files} files, {done.size_bytes / 1e6:.1f} MB, as of "
        f"{day_and_time(done.made_utc) or done.made_utc}."
    ]
    if done.aside:
        where = " and ".join(str(folder) for folder in done.aside)
        lines.append(f"What was here is in {where}; delete it when it is not needed.")
    if done.not_in_backup:
        lines.append(
            f"{done.not_in_backup} recordings that are not in the backup are only "
            "there now."
        )
    if done.sealed:
        lines.append("It is sealed; the passphrase is that of the day of the backup.")
    elif done.was_sealed:
        lines.append(
            "It is not sealed, as what was here is: names and recordings stand in the "
            "clear again. Seal them: biofeedback seal"
        )
    lines.append("Who was erased since the backup is back: erase them again.")
    return "\n".join(lines)
