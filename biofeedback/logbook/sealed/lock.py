"""Whether a logbook is sealed, and with which key: asked once, when it is opened.

A logbook in a file is sealed where its key file says so. The logbook says so too: a
key file that is gone is told, and not taken for a logbook that was never sealed; one
of another key is told too, and nothing is sealed by it.
"""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FileError
from biofeedback.logbook import folders
from biofeedback.logbook.sealed import columns, key_file, keyring
from biofeedback.logbook.sealed.columns import Lock
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.logbook.sealed.key_file import KeyFile
    from biofeedback.logbook.sealed.master_key import MasterKey

SETTING = "sealed by"
"""Name of the setting that holds the id of the key, while a logbook is sealed."""

_SAID = "SELECT content FROM settings WHERE key = :key"


def key_of_logbook(engine: sa.Engine, *, shut: bool) -> MasterKey | None:
    """The key by which a logbook seals what is written; None for a plain one.

    Args:
        shut: it is opened without its key; then None too.

    Raises:
        FileError: it is sealed and its key file is not here, or is another one's.
        UserError: the passphrase was not given.
    """
    if engine.dialect.name != "sqlite" or not engine.url.database:
        return None
    path = folders.absolute(engine.url.database)
    found = sealing(path)
    with engine.connect() as connection:
        said = connection.scalar(sa.text(_SAID), {"key": SETTING})
    if said is not None and not shut:
        if not has_keys(path):
            raise missing(path)
        refuse_another_key(path)
    key = keyring.key_of(found) if found is not None and not shut else None
    is_shut = shut and (found is not None or said is not None)
    columns.put_lock(engine.dialect, Lock(path, key, is_shut))
    return key


def says_sealed(logbook: Path) -> bool:
    """Whether a logbook in a file says so itself; False where it cannot be asked."""
    return _said(logbook) is not None


def refuse_another_key(logbook: Path, found: KeyFile | None = None) -> None:
    """Goes on unless the logbook says that it is sealed by another key.

    Args:
        found: the key file; None for the one beside the logbook, be it there or not.

    Raises:
        FileError: it does, or the key file cannot be read.
    """
    said = _said(logbook)
    if said is None or (found is None and not has_keys(logbook)):
        return
    found = found or key_file.read(key_file.path_of(logbook))
    if said != found.key_id.hex():
        raise FileError(
            found.path,
            phrase(
                "this key file belongs to another logbook: the one here is sealed by "
                "the key {key_id}.",
                key_id=said,
            ),
            next_step=phrase(
                "Move it aside and put the right one back from a backup of this "
                "logbook. Nothing was changed."
            ),
        )


def _said(logbook: Path) -> str | None:
    """Which key a logbook in a file says; None for none, or if it cannot be asked."""
    try:
        # Not `ro`, which would leave beside it what SQLite makes to read it.
        with closing(sqlite3.connect(f"{logbook.as_uri()}?mode=rw", uri=True)) as raw:
            row = raw.execute(_SAID, {"key": SETTING}).fetchone()
    except sqlite3.Error:
        return None
    return None if row is None else str(json.loads(row[0]))


def has_keys(logbook: Path) -> bool:
    """Whether there is a key file, whatever it says."""
    return key_file.path_of(logbook).exists()


def sealing(logbook: Path) -> KeyFile | None:
    """The key file of a logbook, where it seals; None for a plain logbook.

    Raises:
        FileError: the key file cannot be read.
    """
    path = key_file.path_of(logbook)
    if not path.exists():
        return None
    found = key_file.read(path)
    return found if found.sealing else None


def refuse_lost_keys(logbook: Path) -> None:
    """Goes on only where no key file is gone that the logbook was sealed by.

    Another key would be the end of what was sealed.

    Raises:
        FileError: it is gone.
    """
    if not has_keys(logbook) and says_sealed(logbook):
        raise missing(logbook)


def missing(logbook: Path) -> FileError:
    """The fault of a sealed logbook without its key file."""
    return FileError(
        key_file.path_of(logbook),
        phrase("the logbook is sealed, and this file with its key is not here."),
        next_step=phrase("Put it back from a backup: nothing opens without it."),
    )
