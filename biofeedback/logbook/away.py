"""Recordings that had to be written outside the ordinary folder.

Where the folder of the recordings does not take one, the practitioner picks a second.
Rules that hold here:

* A recording that is away is noted in a small file beside the ordinary folder, and in
  the data folder too where that is another place, so that the next start, erasure and
  backup reach it. One note is enough; where neither can be written, it is told.
* It is brought home as soon as the ordinary folder takes it: copied, put on the disk,
  and only then taken away from the second folder.
* What is at home is replaced only where it is the beginning of that same recording:
  its bytes are compared, opened where it is sealed.
* A kill at any place leaves the recording whole somewhere, and the next start ends it.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import logging
import os
import shutil
from dataclasses import dataclass, replace
from pathlib import Path

from biofeedback.errors import FileError
from biofeedback.logbook import claims, folders
from biofeedback.logbook.recordings import read
from biofeedback.logbook.sealed import reading
from biofeedback.phrase import phrase

NOTE = "-elsewhere.json"
NOTE_MAX_BYTES = 1_000_000
"""Some thousand recordings; more is no note of this program."""
NAMES_TRIED = 100
PIECE_BYTES = 65_536

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Away:
    """A recording in a second folder.

    Attributes:
        path: where it is.
        name: what it is called at home, as the logbook knows it.
        begun_at_home: a file of that name at home is no more than its beginning.
    """

    path: Path
    name: str
    begun_at_home: bool


def note_of(recordings: Path) -> Path:
    """The file that says which recordings of this folder are elsewhere."""
    return recordings.with_name(recordings.name + NOTE)


def notes_of(recordings: Path) -> tuple[Path, ...]:
    """All places of that note: the disk of the recordings may be the one that fails."""
    beside, data = note_of(recordings), folders.data_folder()
    if beside.absolute().parent == data.absolute():
        return (beside,)
    digest = hashlib.sha256(str(recordings.absolute()).encode()).hexdigest()
    return beside, data / f"recordings-{digest[:16]}{NOTE}"


def listed(recordings: Path) -> list[Away]:
    """Recordings that are noted as elsewhere.

    Raises:
        FileError: a note cannot be read.
    """
    found: dict[Path, Away] = {}
    for place in notes_of(recordings):
        for one in _read(place):
            found.setdefault(one.path, one)
    return list(found.values())


def _read(path: Path) -> list[Away]:
    try:
        with path.open("rb") as file:
            raw = file.read(NOTE_MAX_BYTES)
        return [_away(one) for one in json.loads(raw)]
    except (FileNotFoundError, NotADirectoryError):
        return []
    except OSError as error:
        words = phrase(
            "the file cannot be read ({reason}).", reason=folders.reason(error)
        )
        raise FileError(path, words) from error
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        words = phrase("this is no note of recordings that are elsewhere.")
        raise FileError(path, words) from error


def _away(one: dict[str, object]) -> Away:
    name = str(one["name"])
    if Path(name).name != name:
        raise ValueError(name)
    return Away(Path(str(one["path"])), name, one["begun_at_home"] is True)


def note(recordings: Path, away: Away) -> None:
    """Notes a recording.

    Raises:
        FileError: no note can be read and written.
    """
    places = notes_of(recordings)
    faults = _change(places, away.path, [away])
    if len(faults) == len(places):
        raise faults[0]


def forget(recordings: Path, path: Path) -> None:
    """Takes a recording off the notes.

    Raises:
        FileError: a note cannot be read or written.
    """
    for fault in _change(notes_of(recordings), path, []):
        raise fault


def _change(places: tuple[Path, ...], path: Path, new: list[Away]) -> list[FileError]:
    """Puts `new` in place of what is noted of a path; tells what failed."""
    faults = []
    for place in places:
        try:
            before = _read(place)
            now = [*new, *(one for one in before if one.path != path)]
            if now != before:
                _write(place, now)
        except FileError as error:
            faults.append(error)
    return faults


def _write(path: Path, all_away: list[Away]) -> None:
    rows = [
        {"path": str(one.path), "name": one.name, "begun_at_home": one.begun_at_home}
        for one in all_away
    ]
    try:
        if rows:
            folders.make_private(path.parent)
            folders.write_whole(path, json.dumps(rows, indent=1).encode())
        else:
            path.unlink(missing_ok=True)
    except OSError as error:
        raise folders.not_written(path, error) from error


def bring_home(recordings: Path, away: Away) -> Path:
    """Moves a recording into the ordinary folder, whole or not at all.

    Returns:
        Where it is now.

    Raises:
        FileError: it cannot be read, or the ordinary folder does not take it.
    """
    wanted = recordings / away.name
    new = wanted.with_name(f".{wanted.name}.coming")
    try:
        if _is_home(wanted, away):
            _forget_home(recordings, away)
            return wanted
        if claims.is_claimed(away.path):
            raise FileError(away.path, phrase("it is being written just now."))
        folders.make_private(recordings)
        target, stands_there = _place(wanted, away)
        if not stands_there:
            _copy(away.path, new)
            new.replace(target)
            folders.sync(recordings)
            _mark(recordings, replace(away, name=target.name, begun_at_home=False))
        if target != away.path:
            away.path.unlink()
    except OSError as error:
        with contextlib.suppress(OSError):
            new.unlink(missing_ok=True)
        words = phrase(
            "it cannot be brought into {folder} ({reason}).",
            folder=recordings,
            reason=folders.reason(error),
        )
        raise FileError(away.path, words) from error
    _forget_home(recordings, away)
    return target


def _is_home(wanted: Path, away: Away) -> bool:
    """Whether it is only the note that was not taken back, for a kill came before.

    A disk that is not there now is another thing; so is a mere beginning at home.
    """
    if away.path.exists() or not away.path.parent.is_dir() or not wanted.exists():
        return False
    try:
        return not away.begun_at_home or not read(wanted).survey().recovered
    except FileError:
        return False  # nobody knows


def _copy(source: Path, new: Path) -> None:
    new.unlink(missing_ok=True)  # of an attempt that was cut off
    descriptor = folders.create_file(new)
    with os.fdopen(descriptor, "wb") as to, source.open("rb") as file:
        shutil.copyfileobj(file, to)
        to.flush()
        os.fsync(to.fileno())


def _mark(recordings: Path, away: Away) -> None:
    """What is at home is whole now: a kill before the end of it does no harm."""
    try:
        note(recordings, away)
    except FileError as error:
        _log.info("that a recording is at home is not noted: %s", error)


def _forget_home(recordings: Path, away: Away) -> None:
    """The recording is safe; a note that stays is found void at the next start."""
    try:
        forget(recordings, away.path)
    except FileError as error:
        _log.info("the note of a recording stays: %s", error)


def bring_all_home(recordings: Path) -> list[tuple[Away, FileError]]:
    """Moves home what is noted as elsewhere.

    Returns:
        What stays elsewhere for now, and why.

    Raises:
        FileError: the note cannot be read.
    """
    left = []
    for one in listed(recordings):
        try:
            bring_home(recordings, one)
        except FileError as error:
            left.append((one, error))
    return left


def what_stays(recordings: Path) -> tuple[str, ...]:
    """Moves home what is noted as elsewhere, for work that goes on in any case.

    Returns:
        Words about each recording that stays elsewhere, or about the note.
    """
    try:
        return tuple(error.words for _one, error in bring_all_home(recordings))
    except FileError as error:
        return (error.words,)


def _place(wanted: Path, away: Away) -> tuple[Path, bool]:
    """Where it may stand, and whether it stands there, whole, already.

    In place of its own beginning, or beside what is there.
    """
    for number in range(1, NAMES_TRIED):
        one = wanted if number == 1 else wanted.with_stem(f"{wanted.stem}-{number}")
        if not one.exists():
            return one, False
        if one == away.path or _begins(away.path, one):
            return one, True
        if (away.begun_at_home or one.stat().st_size) and _begins(one, away.path):
            return one, False
    raise FileExistsError(17, "A file of this name is there already")


def _begins(part: Path, whole: Path) -> bool:
    """Whether what one recording holds is the beginning of what another holds.

    Sizes tell nothing: a sealed one is larger the more often it was put on the disk.
    """
    with part.open("rb") as short, whole.open("rb") as long:
        rest = reading.pieces(long, whole, PIECE_BYTES)
        held = b""
        for piece in reading.pieces(short, part, PIECE_BYTES):
            while len(held) < len(piece):
                more = next(rest, b"")
                if not more:
                    return False
                held += more
            if not held.startswith(piece):
                return False
            held = held[len(piece) :]
    return True
