"""`biofeedback unseal`: names and recordings in the clear again.

It may be cut off anywhere and done again. The exit code is 0 only where nothing that is
here is sealed any more.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.cli import places, sealed_told
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
    lock.refuse_lost_keys(place.logbook)
    if not place.keys.exists():
        raise UserError(phrase("{logbook} is not sealed.", logbook=place.logbook))
    place.refuse_while_in_use()
    found = key_file.read(place.keys)
    key = keyring.key_of(found)
    with Bar("recordings") as bar:
        done = sealing.unseal(place, found, key, progress=bar.tell)
    return sealed_told.tell(done, as_text(done), command="unseal", as_json=options.json)


def as_text(done: sealing.Sealed) -> str:
    """What was done, for people."""
    lines = [
        f"In the clear again: {done.values} values and {done.recordings} recordings.",
        *sealed_told.in_use(done),
    ]
    if done.problems:
        lines.append("Not all is in the clear: what is told below stays sealed.")
    lines.append(
        "The key file stays: backups and copies that were sealed open with it and the "
        "passphrase."
    )
    return "\n".join(lines)
