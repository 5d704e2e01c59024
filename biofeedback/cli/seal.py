"""`biofeedback seal`: names and recordings encrypted by a passphrase.

It may be cut off anywhere and done again. The exit code is 0 only where all that is
here is sealed.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli import passphrase, places, sealed_told
from biofeedback.cli.bar import Bar
from biofeedback.errors import UserError
from biofeedback.logbook import sealing
from biofeedback.logbook.sealed import key_file, keyring, library, lock, recovery_code
from biofeedback.logbook.sealed.master_key import MasterKey
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from biofeedback.logbook.kept_place import KeptPlace
    from biofeedback.logbook.sealed.key_file import KeyFile

ABOUT = """\
What is sealed: names and what is told of a person in words, and all recordings.
Not sealed: codes, dates, tasks, forces and reps in the logbook; reports and exports.
A stolen computer or backup gives no name and no recording away. A program that is
open does, and so does a passphrase that can be guessed. The system's disk encryption
is still recommended: see README.md."""


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    does = parser.add_mutually_exclusive_group()
    does.add_argument(
        "--change-passphrase", action="store_true", help="put another one in its place"
    )
    does.add_argument(
        "--recover",
        action="store_true",
        help="the passphrase is lost: set a new one by the recovery code",
    )
    does.add_argument(
        "--new-recovery-code",
        action="store_true",
        help="make another recovery code; the one there was opens nothing any more",
    )
    parser.add_argument(
        "--new-passphrase-file",
        type=Path,
        metavar="FILE",
        help="its first line is the new passphrase, at the first sealing too (default: "
        "asked for, twice)",
    )
    parser.add_argument(
        "--recovery-code-file",
        type=Path,
        metavar="FILE",
        help="its first line is the recovery code (default: asked for)",
    )
    parser.add_argument(
        "--yes",
        action="store_true",
        help="do not ask whether the recovery code was written down; for scripts",
    )
    places.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="what was done, as JSON")


def run(options: Namespace) -> int:
    """Seals, or changes what the key is wrapped by."""
    library.require()  # before anybody is asked for anything
    places.known_logbook(options.logbook)
    place = places.kept(options)
    if options.change_passphrase or options.recover or options.new_recovery_code:
        return _change_keys(_known(place), options)
    place.refuse_while_in_use()
    if place.keys.exists():
        found = key_file.read(place.keys)
        key = keyring.key_of(found)
    else:
        lock.refuse_lost_keys(place.logbook)
        found, key = _new(place, options)
    keyring.hold([key])
    with Bar("recordings") as bar:
        done = sealing.seal(place, found, key, progress=bar.tell)
    clear = [str(folder) for folder in done.clear]
    return sealed_told.tell(
        done, as_text(done), command="seal", as_json=options.json, clear=clear
    )


def _known(place: KeptPlace) -> KeyFile:
    lock.refuse_lost_keys(place.logbook)
    if not place.keys.exists():
        raise UserError(
            phrase("{logbook} is not sealed.", logbook=place.logbook),
            phrase("Seal it: biofeedback seal"),
        )
    return key_file.read(place.keys)


def _new(place: KeptPlace, options: Namespace) -> tuple[KeyFile, MasterKey]:
    if not options.json:
        print(ABOUT)
    file = options.new_passphrase_file or options.passphrase_file
    words = _new_passphrase(options, file)
    key, code = MasterKey.new(), recovery_code.new()
    found = key_file.made(place.keys, key, passphrase=words, code=code)
    _show(code, options)
    return found, key


def _new_passphrase(options: Namespace, file: Path | None) -> str:
    """A new passphrase, checked.

    Raises:
        UserError: it is too short, or was not typed twice.
    """
    words = passphrase.read(file) if file else None
    if words is None and not (options.change_passphrase or options.recover):
        words = passphrase.given(None)
    if words is not None:
        return key_file.check_passphrase(words)
    nobody = UserError(
        phrase("There is no terminal to ask for a new passphrase on."),
        phrase("Name a file that holds it: --new-passphrase-file FILE"),
    )
    asked = passphrase.asked("New passphrase: ", nobody=nobody)
    words = key_file.check_passphrase(asked)
    if passphrase.asked("Once more: ", nobody=nobody) != words:
        raise UserError(
            phrase("The two are not the same; nothing was changed."),
            phrase("Try again."),
        )
    return words


def _show(code: str, options: Namespace) -> None:
    """Shows the recovery code, once, before anything rests on it."""
    if not options.json:
        print(
            f"\nRecovery code:  {code}\n\n"
            "Write it on paper and keep it away from this computer. It is shown this "
            "once. Who has\nlost passphrase and code has lost names and recordings; "
            "who has the code needs no passphrase."
        )
    else:
        print(json.dumps({"recovery_code": code}))
    if options.yes:
        return
    last = code.rpartition("-")[2]
    try:
        typed = input("Type its last four characters to go on: ")
    except EOFError:
        typed = ""
    if typed.strip().upper() != last:
        raise UserError(
            phrase("These are others; nothing was changed."),
            phrase("Write the code down and try again."),
        )


def _change_keys(found: KeyFile, options: Namespace) -> int:
    if options.recover:
        file = options.recovery_code_file
        nobody = UserError(
            phrase("There is no terminal to ask for the recovery code on."),
            phrase("Name a file that holds it: --recovery-code-file FILE"),
        )
        code = (
            passphrase.read(file)
            if file
            else passphrase.asked("Recovery code: ", nobody=nobody)
        )
        key = found.recovered(code)
    else:
        key = keyring.key_of(found)
    if options.new_recovery_code:
        code = recovery_code.new()
        changed = found.with_code(key, code)
        _show(code, options)
    else:
        words = _new_passphrase(options, options.new_passphrase_file)
        changed = found.with_passphrase(key, words)
    changed.write()
    print(
        "Changed. Backups keep what they were made with until the next backup.",
        file=sys.stderr if options.json else sys.stdout,
    )
    return 0


def as_text(done: sealing.Sealed) -> str:
    """What was done, for people."""
    lines = [f"Sealed: {done.values} values and {done.recordings} recordings."]
    if done.before:
        lines.append(f"Sealed before: {done.before} recordings.")
    lines += sealed_told.in_use(done)
    if done.clear:
        lines.append(
            "In the clear as before: these copies. Bring backups up to date "
            "(biofeedback backup DIR), delete what was put aside:"
        )
        lines += [f"  {folder}" for folder in done.clear]
    lines.append(
        "In the clear too: reports and exports that were made, and what the disk keeps "
        "of files that are gone."
    )
    return "\n".join(lines)
