"""Where all that is kept lies: one logbook, its recordings, the files beside them.

Backup, restore, rebuild and erase are about this place as a whole. Those that change
it refuse while any program has it open: a logbook that is open holds a lock of SQLite
on its file, and a recording being written is claimed.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import claims, folders
from biofeedback.logbook import engine as engines
from biofeedback.logbook.recording_format import SUFFIX
from biofeedback.logbook.sealed import key_file
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from pathlib import Path

ASIDE = "before-"
"""Begins the name of a folder into which something was put aside."""
_COMPANIONS = ("-wal", "-shm", "-journal")


@dataclass(frozen=True, slots=True)
class KeptPlace:
    """One logbook in a file and its recordings.

    Attributes:
        logbook: the file; need not be there, and may be damaged.
        recordings: the folder; need not be there.
    """

    logbook: Path
    recordings: Path

    @property
    def base(self) -> Path:
        """The folder of the logbook, where log and preferences lie too."""
        return self.logbook.parent

    @property
    def preferences(self) -> Path:
        """The preferences of this computer."""
        return self.base / "preferences.json"

    @property
    def keys(self) -> Path:
        """The key file of a sealed logbook; need not be there."""
        return key_file.path_of(self.logbook)

    def logbook_files(self) -> list[Path]:
        """The logbook and what SQLite keeps beside it, as far as they are there."""
        found = [self.logbook.with_name(self.logbook.name + s) for s in _COMPANIONS]
        return [path for path in (self.logbook, *found) if path.exists()]

    def recording_files(self) -> list[Path]:
        """All recordings, by name.

        Raises:
            FileError: the folder cannot be read.
        """
        try:
            if not self.recordings.exists():
                return []
            return sorted(
                path
                for path in self.recordings.iterdir()
                if path.suffix == SUFFIX and path.is_file() and not path.is_symlink()
            )
        except OSError as error:
            raise FileError(
                self.recordings,
                phrase(
                    "the folder cannot be read ({reason}).",
                    reason=folders.reason(error),
                ),
            ) from error

    def aside_folders(self) -> list[Path]:
        """What was put aside by earlier restores and rebuilds."""
        bases = {self.base, self.recordings.parent}
        return sorted(
            path
            for base in bases
            if base.is_dir()
            for path in base.glob(f"{ASIDE}*")
            if path.is_dir()
        )

    def refuse_while_in_use(self) -> None:
        """Goes on only where no program has this place open.

        Raises:
            UserError: one has.
            FileError: the logbook or a recording cannot be opened.
        """
        if self.in_use():
            raise UserError(
                phrase(
                    "{logbook} is in use by a program that is running.",
                    logbook=self.logbook,
                ),
                phrase(
                    "Close the window and all other biofeedback "
                    "commands, then try again."
                ),
            )

    def in_use(self) -> bool:
        """Whether any program has this place open, this one as well.

        Raises:
            FileError: the logbook or a recording cannot be opened.
        """
        return self._logbook_in_use() or any(map(_claimed, self.recording_files()))

    def _logbook_in_use(self) -> bool:
        if not self.logbook.exists():
            return False
        try:
            with closing(sqlite3.connect(self.logbook, timeout=0)) as connection:
                connection.isolation_level = None
                # Before anything is read: then no other may have the file open at
                # all, not even one that only reads.
                connection.execute("PRAGMA locking_mode = EXCLUSIVE")
                connection.execute("BEGIN EXCLUSIVE")
                connection.execute("ROLLBACK")
        except sqlite3.OperationalError as error:
            name = getattr(error, "sqlite_errorname", "")
            if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
                return True
            with engines.faults_in_words(str(self.logbook)):
                raise
        except sqlite3.DatabaseError:
            return False  # damaged, or no logbook at all: nobody works with it
        return False


def kept_place(logbook: str | Path, recordings: Path) -> KeptPlace:
    """The place of a logbook in a file.

    Raises:
        UserError: the logbook is on a server.
        FileError: the URL cannot be read.
    """
    url = engines.url_of(logbook)
    if url.get_backend_name() != "sqlite" or not url.database:
        raise UserError(
            phrase("This logbook is on a database server."),
            phrase("Use the server's own tools for its backups."),
        )
    return KeptPlace(folders.absolute(url.database), folders.absolute(recordings))


def _claimed(path: Path) -> bool:
    try:
        return claims.is_claimed(path)
    except OSError as error:
        raise FileError(
            path,
            phrase("the file cannot be read ({reason}).", reason=folders.reason(error)),
        ) from error
