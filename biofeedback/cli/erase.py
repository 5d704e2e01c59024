"""`biofeedback erase`: all of one athlete, here and in the copies that are known.

It asks to type the code. The exit code is 0 only where neither the code nor the name
is found any more.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.cli.bar import Bar
from biofeedback.errors import UserError
from biofeedback.logbook.erasable import copies_out_of_reach, erasable, nothing_here
from biofeedback.logbook.erasure import OUT_OF_REACH, Erased, erase
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from biofeedback.logbook.erasable import Found


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("code", metavar="CODE", help="code of the athlete")
    parser.add_argument(
        "--yes", action="store_true", help="do not ask; for scripts. There is no undo"
    )
    places.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="what was done, as JSON")


def run(options: Namespace) -> int:
    """Erases."""
    places.known_logbook(options.logbook)
    place = places.kept(options)
    here = erasable(place, options.code)
    found = here.found
    if here.nothing and not found.copies:
        raise nothing_here(found, phrase("Check the code and --logbook."))
    if not options.yes:
        _ask(found)
    with Bar("steps") as bar:
        done = erase(place, found, progress=bar.tell)
    if options.json:
        print(json.dumps({**asdict(done), "never_reached": OUT_OF_REACH}))
    else:
        print(as_text(done))
    return 1 if done.left else 0


def _ask(found: Found) -> None:
    copies = len(found.copies)
    print(
        f"This erases all of {found.code}: recordings, rows, {len(found.reports)} "
        f"reports, and what is in {copies} backups and folders put aside. There is no "
        "undo."
    )
    if known := copies_out_of_reach(found):
        print("\n".join(["Known and not reached:", *(f"  {words}" for words in known)]))
    try:
        typed = input("Type the code to erase it: ")
    except EOFError:
        typed = ""
    if typed.strip() != found.code:
        raise UserError(phrase("That is not the code; nothing was erased."))


def as_text(done: Erased) -> str:
    """What was done, for people."""
    lines = [
        f"Erased: {done.rows} rows, {done.recordings} recordings, {done.reports} "
        f"reports; {done.backups} backups cleared."
    ]
    if done.left:
        lines.append("Still there, or not cleared; look at these yourself:")
        lines += [f"  {words}" for words in done.left]
    else:
        lines.append(
            "Neither the code nor the name is found any more in the program's folders "
            "and the backups it knows."
        )
    if done.out_of_reach:
        lines.append("Known and not reached:")
        lines += [f"  {words}" for words in done.out_of_reach]
    lines.append("Out of reach of this program:")
    lines += [f"  {words}" for words in OUT_OF_REACH]
    return "\n".join(lines)
