"""Recordings that had to be written outside the ordinary folder.

Where the folder of the recordings does not take one, the practitioner picks a second.
Rules that hold here:

* A recording that is away is noted in a small file beside the ordinary folder, so that
  erasure and backup reach it; a note that cannot be written is told.
* It is brought home as soon as the ordinary folder takes it: copied, put on the disk,
  and only then taken away from the second folder.
* What is at home is replaced only where it is the beginning of that same recording.
"""

from __future__ import annotations

import contextlib
import json
import os
import shutil
from dataclasses import dataclass
from pathlib import Path

from biofeedback.errors import FileError
from biofeedback.logbook import claims, folders
from biofeedback.phrase import phrase

NOTE = "-elsewhere.json"
NOTE_MAX_BYTES = 1_000_000
"""Some thousand recordings; more is no note of this program."""
NAMES_TRIED = 100


@dataclass(frozen=True, slots=True)
class Away:
    """A recording in a second folder.

    Attributes:
        path: where it is.
        name: what it is called at home, as the logbook knows it.
        begun_at_home: a file of that name at home is its beginning.
    """

    path: Path
    name: str
    begun_at_home: bool


def note_of(recordings: Path) -> Path:
    """The file that says which recordings of this folder are elsewhere."""
    return recordings.with_name(recordings.name + NOTE)


def listed(recordings: Path) -> list[Away]:
    """Recordings that are noted as elsewhere.

    Raises:
        FileError: the note cannot be read.
    """
    path = note_of(recordings)
    try:
        with path.open("rb") as file:
            raw = file.read(NOTE_MAX_BYTES)
        return [_away(one) for one in json.loads(raw)]
    except FileNotFoundError:
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
        FileError: the note cannot be read or written.
    """
    _write(recordings, [*_others(recordings, away.path), away])


def forget(recordings: Path, path: Path) -> None:
    """Takes a recording off the note.

    Raises:
        FileError: the note cannot be read or written.
    """
    before, left = listed(recordings), _others(recordings, path)
    if len(left) < len(before):
        _write(recordings, left)


def _others(recordings: Path, path: Path) -> list[Away]:
    return [one for one in listed(recordings) if one.path != path]


def _write(recordings: Path, all_away: list[Away]) -> None:
    path = note_of(recordings)
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
        words = phrase(
            "the file cannot be written ({reason}).", reason=folders.reason(error)
        )
        raise FileError(path, words) from error


def bring_home(recordings: Path, away: Away) -> Path:
    """Moves a recording into the ordinary folder, whole or not at all.

    Returns:
        Where it is now.

    Raises:
        FileError: it cannot be read, or the ordinary folder does not take it.
    """
    target = recordings / away.name
    new = target.with_name(f".{target.name}.coming")
    try:
        if claims.is_claimed(away.path):
            raise FileError(away.path, phrase("it is being written just now."))
        folders.make_private(recordings)
        new.unlink(missing_ok=True)  # of an attempt that was cut off
        descriptor = folders.create_file(new)
        with os.fdopen(descriptor, "wb") as to, away.path.open("rb") as source:
            shutil.copyfileobj(source, to)
            to.flush()
            os.fsync(to.fileno())
        target = _free(target, away, new.stat().st_size)
        new.replace(target)
        folders.sync(recordings)
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
    forget(recordings, away.path)
    return target


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


def _free(target: Path, away: Away, size: int) -> Path:
    """Where it may stand: in place of its own beginning, or beside what is there."""
    if away.begun_at_home and target.exists() and target.stat().st_size <= size:
        return target
    for number in range(1, NAMES_TRIED):
        one = target if number == 1 else target.with_stem(f"{target.stem}-{number}")
        if not one.exists():
            return one
    raise FileExistsError(17, "A file of this name is there already")
