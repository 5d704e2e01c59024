"""Restore: a backup is put back in the place of what is there.

Rules that hold here:

* Every checksum of the backup is right, its logbook is in order and of a version that
  this program knows, before anything is touched; and what was copied out of it is
  checked once more.
* What was there is put aside, whole, and never deleted; a restore that fails puts it
  back.
* What was done is not undone: the audit of what was there is carried over, so that an
  erasure still knows of reports, exports and backups that were made since.
* Nothing is restored under a program that is running.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import FileError
from biofeedback.logbook import copy_manifest, folders, known_places
from biofeedback.logbook import engine as engines
from biofeedback.logbook.audit import Action
from biofeedback.logbook.copy_manifest import KEYS, LOGBOOK, PREFERENCES, RECORDINGS
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.put_aside import PutAside
from biofeedback.logbook.sealed import lock
from biofeedback.logbook.verification import verify
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.logbook.copy_manifest import CopyManifest
    from biofeedback.logbook.kept_place import KeptPlace


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restore did.

    Attributes:
        files: how many were put back, and `size_bytes` in them.
        made_utc: when the backup was last brought up to date.
        aside: where what was there is now.
        not_in_backup: recordings that were there and are only aside now.
        sealed: whether the logbook that was put back says so.
        was_sealed: whether the one that was there did, or had a key file that seals.
    """

    files: int
    size_bytes: int
    made_utc: str
    aside: tuple[Path, ...]
    not_in_backup: int
    sealed: bool
    was_sealed: bool


def restore(
    source: Path,
    place: KeptPlace,
    *,
    progress: Callable[[int, int], None] | None = None,
) -> Restored:
    """Puts a backup back.

    Args:
        source: the folder of the backup.
        progress: is told (files done, files in all) after each; each file counts
            twice, once checked and once copied.

    Raises:
        FileError: the backup is not whole, or something cannot be written; nothing
            was changed.
        UserError: a program is running on what is there.
    """
    source = folders.absolute(source)
    found = copy_manifest.read(source)
    steps = _Steps(2 * len(found.files), progress)
    verify(source, found, checked=steps.one)
    place.refuse_while_in_use()
    folders.make_private(place.base)
    folders.make_private(place.recordings.parent)
    audit = known_places.audit_rows(place.logbook)
    before = {path.name for path in place.recording_files()}
    was_sealed = _seals(place)
    with _staging(place.base) as books, _staging(place.recordings.parent) as held:
        _copy_out(source, found, books, held, steps)
        with PutAside("restore") as aside:
            aside.take(place.logbook_files())
            aside.take([place.recordings])
            aside.take([place.keys])  # another state of things has another key
            if KEYS in found.files:  # first: nothing sealed is here without its key
                aside.place(books / KEYS, place.keys)
            aside.place(books / LOGBOOK, place.logbook)
            aside.place(held / RECORDINGS, place.recordings)
            if PREFERENCES in found.files:
                aside.take([place.preferences])
                aside.place(books / PREFERENCES, place.preferences)
            with Logbook.open(place.logbook, shut=True) as logbook:
                logbook.audit.add(Action.RESTORED, count=len(found.files), place=source)
            with engines.faults_in_words(str(place.logbook)):
                known_places.carry_over(audit, place.logbook)
    names = {Path(name).name for name in found.files}
    return Restored(
        len(found.files),
        sum(one.size_bytes for one in found.files.values()),
        found.made_utc,
        tuple(aside.folders),
        len(before - names),
        lock.says_sealed(place.logbook),
        was_sealed,
    )


def _seals(place: KeptPlace) -> bool:
    """Asked of the logbook, and of the key file: the logbook may be damaged or gone."""
    try:
        return (
            lock.says_sealed(place.logbook) or lock.sealing(place.logbook) is not None
        )
    except FileError:
        return True  # there is a key file, and it is damaged


class _Steps:
    """Tells of progress."""

    def __init__(self, total: int, progress: Callable[[int, int], None] | None) -> None:
        self._done = 0
        self._total = total
        self._progress = progress

    def one(self) -> None:
        self._done += 1
        if self._progress is not None:
            self._progress(self._done, self._total)


class _staging:  # noqa: N801  used as a function is, in a `with`
    """A folder in the making beside its place; gone at the end."""

    def __init__(self, base: Path) -> None:
        self._folder = Path(tempfile.mkdtemp(prefix=".restore-", dir=base))

    def __enter__(self) -> Path:
        return self._folder

    def __exit__(self, *_fault: object) -> None:
        shutil.rmtree(self._folder, ignore_errors=True)


def _copy_out(
    source: Path, found: CopyManifest, books: Path, held: Path, steps: _Steps
) -> None:
    folders.make_private(held / RECORDINGS)
    for name, one in found.files.items():
        new = (held if name.startswith(RECORDINGS) else books) / name
        try:
            with (
                found.path(source, name).open("rb") as old,
                os.fdopen(folders.create_file(new), "wb") as file,
            ):
                shutil.copyfileobj(old, file, copy_manifest.CHUNK_BYTES)
                file.flush()
                os.fsync(file.fileno())
            told = copy_manifest.checksum(new)
        except OSError as error:
            raise FileError(
                new.parent,
                phrase(
                    "the backup cannot be copied here ({reason}).",
                    reason=folders.reason(error),
                ),
                next_step=phrase("Nothing was changed. Make room and try again."),
            ) from error
        if told != (one.size_bytes, one.sha256):
            raise FileError(
                source / name,
                phrase("changed while it was read."),
                next_step=phrase("Try again."),
            )
        steps.one()
