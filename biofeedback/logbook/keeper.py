"""The keeper: what the recorder's thread does, one thing after the other.

It belongs to one thread, waits for nothing but the disk, and can be stepped by
hand. What it is given to do stays in order and is done once: what fails is tried
again from the very same place.

* A row about a rep is entered after the rep is on disk.
* Where a second folder was picked, the recording goes on there, whole; it comes home
  when the ordinary folder takes it again (`away`). A file is let go only after the
  next one holds all of it, and where one folder fails, the other is tried.
* The logbook is never allowed to hold up the recording.
"""

from __future__ import annotations

import contextlib
import logging
from collections import deque
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from biofeedback.errors import NOTHING, FieldError, FileError
from biofeedback.logbook import away, folders
from biofeedback.logbook.away import Away
from biofeedback.logbook.recording_file import RecordingFile
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from biofeedback.logbook.database import Logbook

BUSY_S = 0.05
"""How long to wait for another program at the logbook: a fraction of the 0.25 s
within which the signal must be on disk."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Begin:
    """A new recording; `data` is its header frame."""

    path: Path
    data: bytes


@dataclass(frozen=True, slots=True)
class Put:
    """Bytes for the recording; `own` are frames of the recording itself."""

    data: bytes
    own: bool


@dataclass(frozen=True, slots=True)
class Enter:
    """Something for the logbook, once all that came before it is on disk.

    Attributes:
        row: enters it; is given the logbook and the name of the recording.
    """

    row: Callable[[Logbook, str], object]


@dataclass(frozen=True, slots=True)
class End:
    """The recording is complete."""


Item: TypeAlias = Begin | Put | Enter | End


class Keeper:
    """Writes recordings and enters rows.

    Args:
        logbook: where the rows go.
        tell: is given plain words about what goes wrong.

    Attributes:
        disk_trouble: why the recording could not be written at the last attempt;
            empty while all of it is on disk.
        logbook_trouble: the same of the logbook, which holds up no recording.
    """

    def __init__(self, logbook: Logbook, tell: Callable[[Phrase], None]) -> None:
        self.disk_trouble = NOTHING
        self.logbook_trouble = NOTHING
        self._logbook = logbook
        self._tell = tell
        self._held: deque[Item] = deque()
        self._rows: deque[Callable[[Logbook], object]] = deque()
        self._file: RecordingFile | None = None
        self._home: Path | None = None  # ordinary folder of the open recording
        self._second: Path | None = None  # picked, while home does not take it
        self._picked: Path | None = None  # where the open recording is to go now
        self._away: list[tuple[Path, Away]] = []  # with the home of each, newest first
        self._open_away: Away | None = None  # the open recording, where it is elsewhere
        self._told_where = False  # the open recording goes on, in this attempt

    @property
    def trouble(self) -> bool:
        """Whether something must be tried again."""
        return bool(self.disk_trouble or self.logbook_trouble)

    @property
    def idle(self) -> bool:
        """Whether no recording is open, nothing waits and nothing is elsewhere."""
        return not (self._held or self._rows or self._file or self._away)

    def work(self, items: Iterable[Item]) -> bool:
        """Does what is held and what is new, as far as disk and logbook take it.

        Returns:
            Whether all bytes are on disk. One may go on in any case.
        """
        self._held.extend(items)
        self._told_where = False
        disk = self._write()
        again = phrase("The recording is being written again.")
        if self._told_where:
            again = NOTHING  # where it goes on was told
        self._tell_change(self.disk_trouble, disk, again)
        self.disk_trouble = disk
        logbook = self._enter_rows(self._logbook.hurried(BUSY_S))
        again = phrase("The logbook is being written again.")
        self._tell_change(self.logbook_trouble, logbook, again)
        self.logbook_trouble = logbook
        return not disk

    def use_folder(self, folder: Path) -> None:
        """The open recording goes on in another folder, and the next ones begin there.

        That lasts until the ordinary folder takes a recording again, or is picked.
        """
        file = self._file
        self._second = None if folder == self._home else folder
        there = file is None or file.path.parent == folder
        self._picked = None if there else folder

    def _flush(self) -> None:
        """Puts the open recording on the disk: in the picked folder, or where it is.

        Raises:
            OSError: neither takes it. One may try again.
            FileError: likewise.
        """
        file = self._file
        if file is None:
            return
        if self._picked is not None:
            self._flush_picked(file, self._picked)
            return
        try:
            file.flush()
        except (OSError, FileError):
            if self._home is None or file.path.parent == self._home:
                raise
            try:
                self._go_to(file, self._home)
            except FileError as error:
                _log.info("home does not take the recording: %s", error)
            else:
                self._second = None
                return
            raise

    def _flush_picked(self, file: RecordingFile, picked: Path) -> None:
        try:
            self._go_to(file, picked)
        except FileError as error:
            try:
                file.flush()
            except (OSError, FileError):
                raise error from None  # of the folder that is wanted
            self._second = None if file.path.parent == self._home else file.path.parent
            self._tell(
                phrase(
                    "The recording is written in {folder} as before: {error}",
                    folder=file.path.parent,
                    error=error,
                )
            )
        self._picked, self._told_where = None, True

    def _go_to(self, file: RecordingFile, folder: Path) -> None:
        """The open recording goes on in another folder, if that takes all of it.

        Raises:
            FileError: it does not; nothing is left there.
        """
        other = file.in_folder(folder, self._logbook.sealer())
        try:
            other.flush()
        except OSError as error:
            other.discard()
            words = phrase(
                "it takes no files ({reason}).", reason=folders.reason(error)
            )
            raise FileError(folder, words) from error
        before, home = self._open_away, self._home
        name = before.name if before else file.name
        begun = before.begun_at_home if before else file.begun
        with contextlib.suppress(OSError):
            file.close()
        self._file, self._picked, self._told_where = other, None, True
        if home is None or other.path == home / name:
            self._open_away = None
        else:
            one = Away(other.path, name, begun_at_home=begun and other.whole)
            self._open_away = one
            self._away.insert(0, (home, one))
            self._note(home, one)
        self._tell(
            phrase(
                "The recording goes on in {folder}, whole from its beginning.",
                folder=folder,
            )
            if other.whole
            else phrase(
                "The recording goes on in {folder}; its first part stands where it was "
                "begun.",
                folder=folder,
            )
        )

    def _note(self, home: Path, one: Away) -> None:
        """The note may fail as home does; then a person must know where it is."""
        try:
            away.note(home, one)
        except FileError as error:
            self._tell(
                phrase(
                    "The recording {path} cannot be noted as elsewhere: {error} Unless "
                    "it is told to be back, move it to {home} by hand before the next "
                    "start.",
                    path=one.path,
                    error=error,
                    home=home,
                )
            )

    def _bring_home(self, *, last: bool = False) -> bool:
        """Brings home what is elsewhere, as far as the ordinary folder takes it.

        Returns:
            Whether nothing is elsewhere any more.
        """
        left = []
        back: Path | None = None
        for home, one in self._away:
            try:
                away.bring_home(home, one)
            except FileError as error:
                left.append((home, one))
                self._say_away(home, one, error, last=last)
            else:
                back = home
        if back is not None:
            self._tell(
                phrase("The recording is back in its folder, {home}.", home=back)
            )
        if self._away and not left:
            self._second = None
        self._away = left
        return not left

    def _say_away(self, home: Path, one: Away, error: FileError, *, last: bool) -> None:
        """A recording stays elsewhere for now; at the end it is told where."""
        _log.info("a recording stays elsewhere: %s", error)
        try:
            away.note(home, one)
        except FileError:
            if last:
                self._tell(
                    phrase(
                        "The recording {path} is not noted anywhere. Move it to "
                        "{home} by hand, before the next start.",
                        path=one.path,
                        home=home,
                    )
                )
        else:
            if last:
                self._tell(
                    phrase(
                        "The recording {path} stays there; the next start brings it "
                        "home.",
                        path=one.path,
                    )
                )

    def _tell_change(self, before: Phrase, now: Phrase, again: Phrase) -> None:
        """Trouble is told once, and that it is over."""
        if now and now != before:
            self._tell(now)
        elif before and not now and again:
            self._tell(again)

    def give_up(self) -> bool:
        """The last attempt at the end of the program; then nothing is held.

        Returns:
            Whether all is kept, and in its ordinary folder.
        """
        disk = self._write()
        if self._file is not None:
            # Numbers that are known are entered even where the disk has failed.
            name = self._name(self._file)
            rows = [item.row for item in self._held if isinstance(item, Enter)]
            self._rows.extend(_named(row, name) for row in rows)
        self._close()
        home = self._bring_home(last=True)
        trouble = self._enter_rows(self._logbook)
        if disk:
            self._tell(phrase("{disk} The end of the recording is lost.", disk=disk))
        if trouble:
            self._tell(trouble)
        self.let_go()
        return home and not (disk or trouble)

    def let_go(self) -> None:
        """Closes the file and forgets what waits."""
        self._held.clear()
        self._rows.clear()
        self._close()

    def _write(self) -> Phrase:
        """Writes what is held; words where the disk does not take it."""
        try:
            while self._held:
                self._do(self._held[0])
                self._held.popleft()
            self._flush()
        except FileError as error:
            return phrase("The recording cannot be written: {error}", error=error)
        except OSError as error:
            place = self._file.path if self._file else ""
            return phrase(
                "The recording cannot be written: {place}: {reason}.",
                place=place,
                reason=folders.reason(error),
            )
        return NOTHING

    def _do(self, item: Item) -> None:
        """Does one thing; where it raises, it can be done again."""
        if isinstance(item, Begin):
            if self._file is not None:  # the set before was never finished
                self._flush()
                self._close()
            self._begin(item)
        elif self._file is None:
            return  # the recording was given up, and that was told
        elif isinstance(item, Put):
            self._file.add(item.data, own=item.own)
        else:
            self._flush()
            if isinstance(item, Enter):
                self._rows.append(_named(item.row, self._name(self._file)))
            else:
                self._close()
                self._bring_home()

    def _begin(self, item: Begin) -> None:
        self._bring_home()  # it tells whether home works again
        self._home = item.path.parent
        self._file = RecordingFile(item.path, self._logbook.sealer())
        self._file.add(item.data, own=True)
        if self._second is not None and self._second != self._home:
            self._picked = self._second

    def _name(self, file: RecordingFile) -> str:
        """What the open recording is called at home."""
        return self._open_away.name if self._open_away else file.name

    def _close(self) -> None:
        self._open_away = self._picked = None
        if self._file is not None:
            file, self._file = self._file, None
            file.close()

    def _enter_rows(self, logbook: Logbook) -> Phrase:
        """Enters what is on disk; words where the logbook does not take it now."""
        while self._rows:
            try:
                self._rows[0](logbook)
            except FileError as error:
                return phrase("The logbook cannot be written: {error}", error=error)
            except FieldError as error:
                self._tell(
                    phrase(
                        "A result could not be entered into the logbook: {error}",
                        error=error,
                    )
                )
            except Exception:  # noqa: BLE001  the recording goes on whatever happens here
                _log.exception("a row could not be entered")
                self._tell(
                    phrase(
                        "A result could not be entered into the logbook "
                        "because of a fault in this program; the recording "
                        "holds it."
                    )
                )
            self._rows.popleft()
        return NOTHING


def _named(
    row: Callable[[Logbook, str], object], name: str
) -> Callable[[Logbook], object]:
    return lambda logbook: row(logbook, name)
