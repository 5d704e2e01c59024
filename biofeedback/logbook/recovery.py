"""Recovery: which recordings were cut off, or never came into the logbook.

Only looks. Judging a recording again and entering its reps is the session's; when
it has closed the set, the recording is no longer listed here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING, FileError
from biofeedback.logbook import claims, folders, recordings
from biofeedback.logbook.recording_format import SUFFIX
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.recordings import Recording


@dataclass(frozen=True, slots=True)
class Unfinished:
    """A recording that the logbook does not have whole.

    Attributes:
        recording: with its header; None where it cannot be read.
        known: whether its set is in the logbook, not closed.
        problem: why it cannot be read, in words; else empty.
    """

    path: Path
    recording: Recording | None
    known: bool
    problem: Phrase = NOTHING


def unfinished(folder: Path, logbook: Logbook) -> list[Unfinished]:
    """Recordings to be offered for recovery, oldest first by their names.

    A recording that a running program is writing is left alone.

    Raises:
        FileError: folder or logbook cannot be read.
    """
    known = logbook.recordings()
    found = []
    for path in _files(folder):
        if known.get(path.name) is True:
            continue
        try:
            if claims.is_claimed(path):
                continue
            recording = recordings.read(path)
        except OSError as error:
            fault = FileError(path, phrase("{reason}.", reason=folders.reason(error)))
            found.append(Unfinished(path, None, path.name in known, fault.words))
        except FileError as error:
            found.append(Unfinished(path, None, path.name in known, error.words))
        else:
            if not _closed_under_another_name(recording, logbook):
                found.append(Unfinished(path, recording, path.name in known))
    return found


def _files(folder: Path) -> list[Path]:
    try:
        if not folder.exists():
            return []
        return sorted(path for path in folder.iterdir() if path.suffix == SUFFIX)
    except OSError as error:
        raise FileError(
            folder,
            phrase(
                "the folder cannot be read ({reason}).", reason=folders.reason(error)
            ),
        ) from error


def _closed_under_another_name(recording: Recording, logbook: Logbook) -> bool:
    """A file that somebody renamed or copied is not offered again."""
    row = logbook.set_by_id(str(recording.header.get("set_id", "")))
    return row is not None and row.closed_utc is not None
