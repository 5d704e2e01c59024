"""Backups: a folder with a copy of the logbook, the recordings and the preferences.

Rules that hold here:

* A backup can be made at any time. The logbook is copied by SQLite's own backup, within
  one read transaction, so it is as it was at one moment, whoever writes meanwhile. A
  recording that is being written is copied up to its last whole frame.
* The next one copies only what has changed. A file that takes the place of an earlier
  one lies beside it until all are whole and on disk; then the manifest is changed, at
  once, and names are given (see `copy_manifest`). So whenever it is given up or killed,
  the earlier backup is whole, or the new one.
* A backup never becomes poorer unseen: it is refused where the logbook holds fewer sets
  than the copy does, unless something was erased here since, and where it has none of
  the copy's sets, for then it is another logbook. Recordings that are not here any more
  stay in it, unless they were erased.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import tempfile
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import away, claims, copy_manifest, folders
from biofeedback.logbook.audit import Action
from biofeedback.logbook.copy_manifest import (
    CHUNK_BYTES,
    KEYS,
    LOGBOOK,
    PREFERENCES,
    RECORDINGS,
    CopiedFile,
    CopyManifest,
)
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.sealed import lock, reading
from biofeedback.logbook.snapshot import Snapshot, Standing, standing
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from biofeedback.logbook.kept_place import KeptPlace


@dataclass(frozen=True, slots=True)
class BackedUp:
    """What a backup did.

    Attributes:
        copied: how many files, and `copied_bytes` in them.
        same: files that had not changed.
        removed: recordings that were erased here since the last one.
        gone: recordings that are in the backup and not here any more.
        problems: recordings in another folder that could not be brought home, in
            words; they are not in the backup.
    """

    copied: int
    copied_bytes: int
    same: int
    removed: int
    gone: int
    problems: tuple[str, ...] = ()


def back_up(
    place: KeptPlace,
    target: Path,
    *,
    progress: Callable[[int, int], None] | None = None,
) -> BackedUp:
    """Makes a backup, or brings one up to date.

    Args:
        target: a new or empty folder, or that of an earlier backup.
        progress: is told (files done, files in all) after each.

    Raises:
        FileError: something cannot be read or written, or the key file belongs to
            another logbook; the earlier backup stays.
        UserError: the target is no place for it, or would become poorer.
    """
    target = folders.absolute(target)
    _check_target(place, target)
    lock.refuse_another_key(place.logbook)  # it would take the place of the right one
    try:
        before = _earlier(target)
        folders.make_private(target)
        folders.make_private(target / RECORDINGS)
        problems = away.what_stays(place.recordings)
        if not before.made_utc:  # cut off, it is known for what it is the next time
            before.write(target)
        run = _Backup(place, target, before, progress)
        return replace(run.run(), problems=problems)
    except OSError as error:
        raise FileError(
            target,
            phrase(
                "the backup cannot be written ({reason}).", reason=folders.reason(error)
            ),
            next_step=phrase("Make room or choose another folder."),
        ) from error


def _check_target(place: KeptPlace, target: Path) -> None:
    if target in (place.base, place.recordings) or place.recordings in target.parents:
        raise UserError(
            phrase("{target} holds what is to be copied.", target=target),
            phrase("Choose a folder on another disk."),
        )


def _earlier(target: Path) -> CopyManifest:
    """The manifest of the backup that is there; an empty one where there is none."""
    if (target / copy_manifest.FILE).exists():
        return copy_manifest.settle(target)
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise FileError(
            target,
            phrase("this folder holds something else."),
            next_step=phrase("Choose a new folder, or that of an earlier backup."),
        )
    return CopyManifest("")


class _Backup:
    """One backup under way."""

    def __init__(
        self,
        place: KeptPlace,
        target: Path,
        before: CopyManifest,
        progress: Callable[[int, int], None] | None,
    ) -> None:
        self._place = place
        self._target = target
        self._before = before
        self._progress = progress
        self._files: dict[str, CopiedFile] = {}
        self._copied = self._copied_bytes = self._same = 0

    def run(self) -> BackedUp:
        """The logbook as it is now; what is in it by then is in the recordings too."""
        changed = self._recordings_changed()
        with self._logbook_copy(noted=changed) as copy:
            removed, gone = self._no_more_here(standing(copy))
            try:
                self._put_all(copy)
            except BaseException:
                self._give_up()
                raise
        kept = {name: self._before.files[name] for name in gone}
        if self._copied or removed:
            now = datetime.now(tz=UTC).isoformat(timespec="microseconds")
            files = {**kept, **self._files}
            folders.sync(self._target / RECORDINGS)
            CopyManifest(now, files, tuple(removed)).write(self._target)
            folders.sync(self._target)
            copy_manifest.settle(self._target)
        return BackedUp(
            self._copied, self._copied_bytes, self._same, len(removed), len(gone)
        )

    def _put_all(self, logbook: Path) -> None:
        """The key first: nothing sealed is ever in the copy without it."""
        self._put_if_there(KEYS, self._place.keys)
        if KEYS in self._before.files and KEYS not in self._files:
            self._keep_key()
        paths = self._place.recording_files()
        for done, path in enumerate(paths, start=1):
            self._put(f"{RECORDINGS}/{path.name}", path)
            if self._progress is not None:
                self._progress(done, len(paths))
        self._put_if_there(PREFERENCES, self._place.preferences)
        self._put_logbook(logbook)

    def _give_up(self) -> None:
        """The earlier backup stays; what is new beside it need not be copied again."""
        new = {name: one for name, one in self._files.items() if not one.coming}
        there = {**self._before.files, **new}
        with contextlib.suppress(OSError, FileError):  # such as a disk that was pulled
            CopyManifest(self._before.made_utc, there).write(self._target)
            copy_manifest.settle(self._target)

    def _recordings_changed(self) -> bool:
        return any(
            self._unchanged(f"{RECORDINGS}/{path.name}", path) is None
            for path in self._place.recording_files()
        )

    def _unchanged(self, name: str, path: Path) -> CopiedFile | None:
        """What the backup has of a file, where that is still the same."""
        known = self._before.files.get(name)
        copy = self._target / name
        stat = path.stat()
        same = (
            known is not None
            and (known.source_bytes, known.source_ns)
            == (stat.st_size, stat.st_mtime_ns)
            and copy.is_file()
            and copy.stat().st_size == known.size_bytes
        )
        return known if same else None

    def _put_if_there(self, name: str, path: Path) -> None:
        if path.exists():
            self._put(name, path)

    def _keep_key(self) -> None:
        """Where the key file is gone here, the one in the backup may be the last."""
        if lock.says_sealed(self._place.logbook) and (self._target / KEYS).is_file():
            self._files[KEYS] = self._before.files[KEYS]

    def _put(self, name: str, path: Path) -> None:
        known = self._unchanged(name, path)
        if known is not None:
            self._files[name] = known
            self._same += 1
            return
        stat = path.stat()  # before it is read: what is added later is copied again
        growing = name.startswith(RECORDINGS) and claims.is_claimed(path)
        length = _whole_frames(path, stat.st_size) if growing else None
        place, coming = self._place_of(name)
        size, sha256 = _copy(path, place, length=length)
        copied = CopiedFile(size, sha256, stat.st_size, stat.st_mtime_ns, coming)
        self._note(name, copied)

    def _place_of(self, name: str) -> tuple[Path, bool]:
        """Where a file is put, and whether that is beside an earlier one."""
        place = self._target / name
        if name in self._before.files and place.exists():
            return copy_manifest.coming(place), True
        return place, False

    def _note(self, name: str, copied: CopiedFile) -> None:
        self._files[name] = copied
        self._copied += 1
        self._copied_bytes += copied.size_bytes

    def _logbook_copy(self, *, noted: bool) -> Snapshot:
        """A copy of the logbook, in which this backup stands if it is a new one."""
        known = self._before.files.get(LOGBOOK)
        copy = Snapshot(self._place.logbook, self._target)
        same = known is not None and copy.checksum == (known.size_bytes, known.sha256)
        if same and not noted and (self._target / LOGBOOK).is_file():
            return copy
        copy.close()
        with Logbook.open(self._place.logbook, shut=True) as logbook:
            logbook.audit.add(Action.BACKED_UP, place=self._target)
        return Snapshot(self._place.logbook, self._target)

    def _put_logbook(self, copy: Path) -> None:
        size, sha256 = copy_manifest.checksum(copy)
        known = self._before.files.get(LOGBOOK)
        same = known is not None and (known.size_bytes, known.sha256) == (size, sha256)
        if known is not None and same and (self._target / LOGBOOK).is_file():
            self._files[LOGBOOK] = known
            self._same += 1
            return
        place, coming = self._place_of(LOGBOOK)
        copy.replace(place)
        self._note(LOGBOOK, CopiedFile(size, sha256, size, 0, coming))

    def _no_more_here(self, now: Standing) -> tuple[list[str], list[str]]:
        """Recordings of the backup that are not here: erased, and only gone."""
        here = {path.name for path in self._place.recording_files()}
        missing = [
            name
            for name in self._before.files
            if name.startswith(RECORDINGS) and Path(name).name not in here
        ]
        erased = now.erased_utc > self._before.made_utc
        old = self._target / LOGBOOK
        if not erased and LOGBOOK in self._before.files and old.is_file():
            then = standing(old)
            both = then.recordings, now.recordings
            if all(both) and then.recordings.isdisjoint(now.recordings):
                raise UserError(
                    phrase(
                        "{target} holds the backup of another logbook. It is left as "
                        "it is.",
                        target=self._target,
                    ),
                    phrase("Choose another folder."),
                )
            if now.sets < then.sets:
                raise UserError(
                    phrase(
                        "The backup in {target} holds {sets} sets, this "
                        "logbook only {now}, and nothing was erased here "
                        "since. It is left as it is.",
                        target=self._target,
                        sets=then.sets,
                        now=now.sets,
                    ),
                    phrase("Choose another folder."),
                )
        removed = [
            name for name in missing if erased and Path(name).name not in now.recordings
        ]
        return removed, [name for name in missing if name not in removed]


def _whole_frames(path: Path, size: int) -> int:
    """Length up to the end of the last whole frame: a 00 ends each.

    A sealed one is copied as it is: a chunk that is not whole is passed over.
    """
    if reading.is_sealed(path):
        return size
    with path.open("rb") as file:
        end = size
        while end > 0:
            start = max(0, end - CHUNK_BYTES)
            file.seek(start)
            at = file.read(end - start).rfind(b"\0")
            if at >= 0:
                return start + at + 1
            end = start
    return 0


def _parts(path: Path, length: int | None) -> Iterator[bytes]:
    left = length
    with path.open("rb") as file:
        while chunk := file.read(
            CHUNK_BYTES if left is None else min(left, CHUNK_BYTES)
        ):
            yield chunk
            if left is not None:
                left -= len(chunk)


def _copy(path: Path, target: Path, *, length: int | None) -> tuple[int, str]:
    """Copies a file, whole or not at all; gives length and checksum of the copy."""
    descriptor, name = tempfile.mkstemp(prefix=".copy-", dir=target.parent)
    new = Path(name)
    given = hashlib.sha256()
    try:
        with os.fdopen(descriptor, "wb") as file:
            for chunk in _parts(path, length):
                given.update(chunk)
                file.write(chunk)
            file.flush()
            os.fsync(file.fileno())
        # Read back: what is told is what lies there.
        told = copy_manifest.checksum(new)
        if told[1] != given.hexdigest():
            raise FileError(
                target, phrase("the disk gives back something else than was written.")
            )
        new.replace(target)
    finally:
        new.unlink(missing_ok=True)
    return told
