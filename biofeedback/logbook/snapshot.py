"""Snapshots: a logbook as it is at one moment, in a file of its own.

It is copied by SQLite's own backup, within one read transaction, whoever writes
meanwhile, and looked over before anybody relies on it.
"""

from __future__ import annotations

import os
import sqlite3
import tempfile
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from biofeedback.errors import FileError
from biofeedback.logbook import copy_manifest
from biofeedback.logbook import engine as engines
from biofeedback.logbook.audit import Action
from biofeedback.phrase import phrase


@dataclass(frozen=True, slots=True)
class Standing:
    """What a logbook says that decides whether a backup may be written over."""

    sets: int
    recordings: frozenset[str]
    erased_utc: str


class Snapshot:
    """A copy of the logbook as it is at one moment; gone at the end unless moved."""

    def __init__(self, logbook: Path, folder: Path) -> None:
        descriptor, name = tempfile.mkstemp(prefix=".logbook-", dir=folder)
        os.close(descriptor)
        self._path = Path(name)
        try:
            snapshot(logbook, self._path)
            self.checksum = copy_manifest.checksum(self._path)
        except BaseException:
            self.close()
            raise

    def __enter__(self) -> Path:
        return self._path

    def __exit__(self, *_fault: object) -> None:
        self.close()

    def close(self) -> None:
        """Takes the file away."""
        self._path.unlink(missing_ok=True)


def snapshot(logbook: Path, copy: Path) -> None:
    """Copies a logbook as it is at one moment into one file, and looks it over.

    Raises:
        FileError: it cannot be read, or is damaged.
    """
    with (
        engines.faults_in_words(str(logbook)),
        closing(sqlite3.connect(f"{logbook.as_uri()}?mode=rw", uri=True)) as source,
        closing(sqlite3.connect(copy)) as made,
    ):
        source.backup(made)
        # One file, with nothing beside it to be forgotten.
        made.execute("PRAGMA journal_mode = DELETE")
        check_whole(made, logbook)
    with copy.open("rb+") as file:
        os.fsync(file.fileno())


def check_whole(connection: sqlite3.Connection, path: Path) -> None:
    """Whether SQLite finds the file in order.

    Raises:
        FileError: it does not.
    """
    found = connection.execute("PRAGMA quick_check(1)").fetchone()
    if found != ("ok",):
        raise FileError(
            path,
            phrase("the logbook is damaged."),
            next_step=phrase("Make a new one from the recordings: biofeedback rebuild"),
        )


def standing(logbook: Path) -> Standing:
    """What a logbook says of itself.

    Raises:
        FileError: it cannot be read.
    """
    with (
        engines.faults_in_words(str(logbook)),
        closing(sqlite3.connect(f"{logbook.as_uri()}?mode=ro", uri=True)) as raw,
    ):
        names = [name for (name,) in raw.execute("SELECT recording FROM sets")]
        # What is missing after a restore was not erased, though its audit tells of
        # erasures that were made before.
        query = (
            "SELECT max(at_utc) FROM audit WHERE action = ? AND at_utc > "
            "coalesce((SELECT max(at_utc) FROM audit WHERE action = ?), '')"
        )
        actions = [Action.ERASED.value, Action.RESTORED.value]
        (erased,) = raw.execute(query, actions).fetchone()
    at = f"{erased.replace(' ', 'T')}+00:00" if erased else ""
    return Standing(len(names), frozenset(names), at)
