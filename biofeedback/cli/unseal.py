"""`biofeedback unseal`: names and recordings in the clear again.

It may be cut off anywhere and done again. The exit code is 0 only where nothing that is
here is sealed any more.
"""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.cli.bar import Bar
from biofeedback.errors import UserError
from biofeedback.logbook import sealing
from biofeedback.logbook.sealed import key_file, keyring, lock
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    places.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="what was done, as JSON")


def run(options: Namespace) -> int:
    """Opens what is sealed."""
    places.known_logbook(options.logbook)
    place = places.kept(options)
    if not place.keys.exists():
        if lock.says_sealed(place.logbook):
            raise lock.missing(place.logbook)
        raise UserError(phrase("{logbook} is not sealed.", logbook=place.logbook))
    place.refuse_while_in_use()
    found = key_file.read(place.keys)
    key = keyring.key_of(found)
    with Bar("recordings") as bar:
        done = sealing.unseal(place, found, key, progress=bar.tell)
    if options.json:
        told = {
            "values": done.values,
            "recordings": done.recordings,
            "before": done.before,
            "in_use": done.in_use,
            "problems": done.problems,
        }
        print(json.dumps(told, ensure_ascii=False))
    else:
        print(as_text(done))
    for words in done.problems:
        print(f"biofeedback unseal: {words}", file=sys.stderr)
    return 1 if done.problems or done.in_use else 0


def as_text(done: sealing.Sealed) -> str:
    """What was done, for people."""
    lines = [
        f"In the clear again: {done.values} values and {done.recordings} recordings."
    ]
    if done.in_use:
        lines.append(
            f"Being written, and left: {done.in_use} recordings. Do it again later."
        )
    if done.problems:
        lines.append("Not all is in the clear: what is told below stays sealed.")
    lines.append(
        "The key file stays: backups and copies that were sealed open with it and the "
        "passphrase."
    )
    return "\n".join(lines)
