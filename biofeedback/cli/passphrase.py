"""The passphrase of a sealed logbook: where a command gets it from.

From the file that is named, else from the environment, else it is asked for on the
terminal, without being shown. Never from the command line itself: others can read that.
It is asked for only where something sealed is met.
"""

from __future__ import annotations

import contextlib
import getpass
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import FileError, UserError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterator

    from biofeedback.logbook.sealed.key_file import KeyFile
    from biofeedback.logbook.sealed.master_key import MasterKey

VARIABLE = "BIOFEEDBACK_PASSPHRASE"
FILE_BYTES_MAX = 4096
TRIES = 3


def add_arguments(parser: ArgumentParser) -> None:
    """`--passphrase-file`."""
    parser.add_argument(
        "--passphrase-file",
        type=Path,
        metavar="FILE",
        help="of a sealed logbook: its first line is the passphrase (default: from "
        f"{VARIABLE}, which other programs of yours can read, or asked for)",
    )


@contextlib.contextmanager
def asked_by(options: Namespace) -> Iterator[None]:
    """What is sealed is opened by the passphrase that these options lead to."""
    from biofeedback.logbook.sealed import keyring  # noqa: PLC0415  few commands need it

    keyring.ask_by(lambda found: key_of(found, options.passphrase_file))
    place = getattr(options, "logbook", None)
    if place and "://" not in place:
        keyring.look_in(Path(place).expanduser().absolute().parent)
    try:
        yield
    finally:
        keyring.forget()


def given(file: Path | None) -> str | None:
    """The passphrase from a file or from the environment; None where neither is.

    Raises:
        FileError: the file cannot be read, or is empty.
    """
    if file is not None:
        return read(file)
    return os.environ.get(VARIABLE) or None


def read(file: Path) -> str:
    """The first line of a file.

    Raises:
        FileError: it cannot be read, or is empty.
    """
    try:
        with file.open("rb") as opened:
            raw = opened.read(FILE_BYTES_MAX)
        line = raw.decode("utf-8-sig").splitlines()[0]
    except OSError as error:
        raise FileError(
            file, phrase("cannot be read: {strerror}.", strerror=error.strerror)
        ) from error
    except (UnicodeDecodeError, IndexError) as error:
        raise FileError(
            file, phrase("there is no passphrase in its first line.")
        ) from error
    return line


def key_of(found: KeyFile, file: Path | None) -> MasterKey:
    """The key of a key file.

    Raises:
        FileError: the passphrase is wrong, or the file with it cannot be read.
        UserError: there is nobody to ask.
    """
    from biofeedback.logbook.sealed.key_file import (  # noqa: PLC0415  as above
        WrongPassphraseError,
    )

    passphrase = given(file)
    if passphrase is not None:
        try:
            return found.opened(passphrase)
        except WrongPassphraseError as error:
            raise FileError(found.path, error.message) from error
    for tried in range(1, TRIES + 1):
        try:
            return found.opened(asked(f"Passphrase for {found.path}: "))
        except WrongPassphraseError as error:
            print(error.message, file=sys.stderr)
            if tried == TRIES:
                raise FileError(
                    found.path,
                    phrase("was not opened."),
                    next_step=phrase(
                        "With the recovery code: biofeedback seal --recover"
                    ),
                ) from error
    raise AssertionError("unreachable")  # pragma: no cover


def asked(prompt: str, *, nobody: UserError | None = None) -> str:
    """Asks on the terminal, without showing what is typed.

    Args:
        nobody: what is said where there is no terminal; None where what is asked for
            opens a sealed logbook.

    Raises:
        UserError: there is no terminal.
    """
    if not sys.stdin.isatty():
        raise nobody or UserError(
            phrase("This logbook is sealed, and there is no terminal to ask on."),
            phrase("Name a file that holds the passphrase: --passphrase-file FILE"),
        )
    try:
        return getpass.getpass(prompt, stream=sys.stderr)
    except EOFError:
        return ""
