"""Keeping: backups of all that is kept, who did what, and erasing an athlete.

The door of the page of data. What takes its time is for a thread: it opens connections
of its own and owns what it works on. Rules that hold here:

* A backup is called made only where it was read back whole afterwards.
* An athlete is erased by the window only where no set is under way, all that was
  recorded is kept, somebody else is at the desk, and no other program has the logbook
  open. Meanwhile the window lets go of the logbook (`Logbook.lent`).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING, FileError, UserError
from biofeedback.logbook import copy_manifest, folders
from biofeedback.logbook.audit import Action, AuditRow
from biofeedback.logbook.backup import BackedUp, back_up
from biofeedback.logbook.clear_copies import clear_copies, in_the_clear
from biofeedback.logbook.copy_manifest import LOGBOOK, RECORDINGS
from biofeedback.logbook.erasable import (
    Erasable,
    erasable,
    look_for,
    nothing_here,
)
from biofeedback.logbook.erasure import Erased, erase
from biofeedback.logbook.kept_place import KeptPlace, kept_place
from biofeedback.logbook.verification import verify
from biofeedback.phrase import Phrase, phrase
from biofeedback.session.local_time import here

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TypeAlias

    from biofeedback.logbook.database import Logbook
    from biofeedback.session.live import Session

    Tell: TypeAlias = Callable[[int, int], None]

__all__ = ["AuditRow", "Erasable", "Erased", "Keeping", "LastBackup", "Made", "Outlook"]

OLD_DAYS = 30
"""A backup that is older is reminded of."""
FOLDER = "biofeedback-backup"
"""Made within the folder that is picked, such as that of a whole disk."""
AUDIT_MOST = 1000
"""Rows that are shown; `biofeedback audit` lists as many."""


@dataclass(frozen=True, slots=True)
class LastBackup:
    """The newest backup that is known.

    Attributes:
        here: its folder was looked at; else it is not here now, and only the audit
            tells of it.
    """

    made_utc: datetime
    place: Path
    here: bool


@dataclass(frozen=True, slots=True)
class Outlook:
    """How things stand before a backup.

    Attributes:
        last: the newest one that is known, or None.
        picked: the folder in use: the one that was picked, else that of the last one.
        target: where the next one goes; None where no such folder is here now.
        clear: earlier copies that are not sealed though all is sealed here.
    """

    last: LastBackup | None
    picked: Path | None
    target: Path | None
    clear: tuple[Path, ...] = ()


@dataclass(frozen=True, slots=True)
class Made:
    """A backup that was made and read back.

    Attributes:
        recordings: how many are in it, and `size_bytes` in all of it.
        clear: whether something in it is not sealed.
        same_disk: whether it lies on the disk of the logbook.
    """

    made_utc: datetime
    folder: Path
    recordings: int
    size_bytes: int
    clear: bool
    same_disk: bool
    done: BackedUp


class Keeping:
    """The door.

    Args:
        recordings: folder of the recordings.
        session: says who is at the desk, and whether all is kept.
        clock: the time here, with its zone.

    Raises (every method): `FileError` where logbook, disk or folder does not do what
    is asked.
    """

    def __init__(
        self,
        logbook: Logbook,
        recordings: Path,
        session: Session,
        *,
        clock: Callable[[], datetime] = here,
    ) -> None:
        self._logbook = logbook
        self._recordings = recordings
        self._session = session
        self._clock = clock

    def _place(self) -> KeptPlace:
        """Where all lies.

        Raises:
            UserError: the logbook is on a server.
        """
        return kept_place(self._logbook.place, self._recordings)

    @property
    def on_server(self) -> str:
        """Why neither backup nor erasing is for this page; empty where they are."""
        try:
            self._place()
        except UserError as error:
            return error.words
        return ""

    @property
    def sealed(self) -> bool:
        """Whether names and recordings are sealed from now on."""
        return self._logbook.sealed

    # Backups.

    def last_backup(self) -> LastBackup | None:
        """The newest one that is known; None where there is none.

        The audit has a row before a backup is whole. So where its folder is here, the
        manifest in it counts, which is written last.
        """
        rows = self._logbook.audit.list(actions=(Action.BACKED_UP,))
        seen: set[str] = set()
        found = []
        for row in rows:
            if row.place in seen:
                continue
            seen.add(row.place)
            folder = Path(row.place)
            if _is_here(folder):
                made = _made_utc(folder)
                if made is not None:
                    found.append(LastBackup(made, folder, here=True))
            else:
                found.append(LastBackup(row.at_utc, folder, here=False))
        return max(found, key=lambda one: one.made_utc, default=None)

    def days_since(self, last: LastBackup) -> int:
        """Whole days since a backup."""
        return max(timedelta(), self._clock() - last.made_utc).days

    def outlook(self, picked: str) -> Outlook:
        """How things stand; for a thread, since disks that are asked may sleep.

        Args:
            picked: the folder that was picked last; empty for none.
        """
        last = self.last_backup()
        folder = Path(picked) if picked else (last.place if last else None)
        target = _target(folder) if folder is not None and _is_here(folder) else None
        sealed = self.sealed and not self.on_server
        clear = tuple(clear_copies(self._place())) if sealed else ()
        return Outlook(last, folder, target, clear)

    def back_up(self, picked: Path, tell: Tell) -> Made:
        """Makes a backup and reads it back; for a thread.

        Args:
            picked: a folder; the backup goes into one of its own within, unless it
                is one.
            tell: is told (steps done, steps in all). The first half is copying.

        Raises:
            UserError: it is no place for a backup, or is not here.
        """
        if not _is_here(picked):  # it would be made, on whatever disk is there
            raise UserError(
                phrase("{folder} is not here now.", folder=picked),
                phrase("Plug its disk in, or pick another folder."),
            )
        target = _target(picked)
        place = self._place()
        done = back_up(place, target, progress=lambda now, total: tell(now, 2 * total))
        found = copy_manifest.read(target)
        total = len(found.files)
        checked = 0

        def one_more() -> None:
            nonlocal checked
            checked += 1
            tell(total + checked, 2 * total)

        verify(
            target,
            found,
            checked=one_more,
            next_step=phrase("Make a backup in another folder, on another disk."),
        )
        return Made(
            self._clock().astimezone(UTC),
            target,
            sum(name.startswith(RECORDINGS) for name in found.files),
            sum(one.size_bytes for one in found.files.values()),
            in_the_clear(KeptPlace(target / LOGBOOK, target / RECORDINGS)),
            _disk(target) == _disk(place.logbook),
            done,
        )

    # Who did what.

    def audit(self, code: str = "") -> tuple[AuditRow, ...]:
        """What was done, newest first; only about one athlete where a code is given."""
        return self._logbook.audit.list(code=code, limit=AUDIT_MOST)

    # Erasing.

    def look_for(self, code: str) -> Erasable:
        """What erasing an athlete would take; for a thread.

        Raises:
            FieldError: it is no code.
            UserError: the logbook is on a server, or nothing of this code is here.
        """
        found = erasable(self._place(), code)
        if found.nothing:
            raise nothing_here(found.found, phrase("Check the code."))
        return found

    def in_the_way(self, code: str) -> Phrase:
        """Why an athlete cannot be erased just now; empty where that can be."""
        if code.lower() == self._session.athlete_code.lower():
            return phrase(
                "{code} is at the desk. Choose somebody else under Athletes first.",
                code=code,
            )
        if not self._session.settled:
            return phrase(
                "A set is under way, or is still being written. Try again after it."
            )
        return NOTHING

    def erase(self, found: Erasable, tell: Tell) -> Erased:
        """Erases an athlete; for a thread. The window lets go of the logbook meanwhile.

        Args:
            tell: is told (steps done, steps in all).

        Raises:
            UserError: something is in the way. It may be done again.
        """
        if words := self.in_the_way(found.found.code):
            raise UserError(words)
        place = self._place()
        with self._logbook.lent():
            if place.in_use():
                raise UserError(
                    phrase("Another program has this logbook open."),
                    phrase(
                        "Close other windows and commands of biofeedback, then try "
                        "again."
                    ),
                )
            # Looked for anew: a backup or report may have been made since it was shown.
            return erase(place, look_for(place, found.found.code), progress=tell)


def _target(picked: Path) -> Path:
    """Where the backup goes: the folder that is picked if it is one, or within."""
    picked = folders.absolute(picked)
    try:
        is_one = picked.name == FOLDER or (picked / copy_manifest.FILE).is_file()
    except OSError:
        is_one = False  # nothing may be looked at in it, which the backup tells
    return picked if is_one else picked / FOLDER


def _is_here(folder: Path) -> bool:
    try:
        return folder.is_dir()
    except OSError:  # its disk fails, or somebody else's folder is around it
        return False


def _disk(path: Path) -> int:
    try:
        return path.stat().st_dev
    except OSError as error:
        raise FileError(
            path,
            phrase("the file cannot be read ({reason}).", reason=folders.reason(error)),
        ) from error


def _made_utc(folder: Path) -> datetime | None:
    """When the backup in a folder was last made whole; None where it never was."""
    try:
        made = datetime.fromisoformat(copy_manifest.read(folder).made_utc)
    except (FileError, ValueError):
        return None
    return made if made.tzinfo else made.replace(tzinfo=UTC)
