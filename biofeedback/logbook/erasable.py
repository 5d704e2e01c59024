"""Who would be erased, and where there is something of that athlete.

It may be asked while the window has the logbook open: rows are counted by connections
of their own, and no byte of the logbook's file is read past SQLite.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erased_rows import count_rows
from biofeedback.logbook.known_places import known_places
from biofeedback.logbook.rows import check_code
from biofeedback.logbook.sealed import columns, texts
from biofeedback.logbook.traces import Traces
from biofeedback.phrase import Phrase, joined, phrase, sentences

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from biofeedback.logbook.kept_place import KeptPlace
    from biofeedback.logbook.known_places import MissingBackup


@dataclass(frozen=True, slots=True)
class Found:
    """Who is to be erased, and where there is something.

    Attributes:
        code: as the logbook writes it.
        names: under which the athlete is known in the logbook or a copy of it.
        copies: backups and what was put aside, each a place of its own.
        backups: folders among them that are backups.
        reports: files that were written, as far as they are there.
        exports: folders into which something was exported, there or not.
        held: folders of the copies whose logbook knows this code.
        missing: backups that are known and cannot be reached now.
        put_back: ISO date of the newest restore; empty where there was none.
        gone: reports that were written and are not where they were.
        unread: in words, where a name could not be opened; it is not searched for.
    """

    code: str
    names: tuple[str, ...]
    copies: tuple[KeptPlace, ...]
    backups: tuple[Path, ...]
    reports: tuple[Path, ...]
    exports: tuple[str, ...]
    held: tuple[Path, ...]
    missing: tuple[MissingBackup, ...]
    put_back: str
    gone: tuple[Path, ...]
    unread: tuple[Phrase, ...]


@dataclass(frozen=True, slots=True)
class Erasable:
    """What is known of an athlete, and how much of it is here.

    Attributes:
        rows: in the logbook itself.
        recordings: in its own folder. Copies hold more of both.
    """

    found: Found
    rows: int
    recordings: int

    @property
    def nothing(self) -> bool:
        """Whether nothing of this code is known here, nor in a copy."""
        found = self.found
        return not (self.rows or self.recordings or found.reports or found.held)


def erasable(place: KeptPlace, code: str) -> Erasable:
    """What erasing this athlete would take.

    Raises:
        FieldError: it is no code.
        FileError: logbook or recordings cannot be read.
    """
    found = look_for(place, code)
    traces = Traces(found.code, found.names)
    return Erasable(
        found,
        count_rows(place.logbook, found.code),
        len(recordings_of(place, found.code, traces)),
    )


def look_for(place: KeptPlace, code: str) -> Found:
    """Who has this code, and what is known of copies.

    Raises:
        FieldError: it is no code.
        FileError: the logbook cannot be read.
    """
    code = check_code(code)
    with Logbook.open(place.logbook) as logbook:
        known = {each.code.lower(): each for each in logbook.athletes()}
        athlete = known.get(code.lower())
    places = known_places(place, code)
    names: set[str] = set()
    held, unread = [], []
    for copy in (place, *places.copies):
        cells = _name_cells(copy.logbook, code)
        found, problems = _names(copy.logbook, cells)
        names |= found
        unread += problems
        if cells and copy is not place:
            held.append(copy.base)
    here = tuple(path for path in places.reports if path.is_file())
    return Found(
        athlete.code if athlete else code,
        tuple(sorted(filter(None, names))),
        places.copies,
        places.backups,
        here,
        places.exports,
        tuple(held),
        places.missing,
        places.put_back,
        tuple(path for path in places.reports if path not in here),
        tuple(unread),
    )


def copies_out_of_reach(found: Found) -> list[Phrase]:
    """Known backups and reports that are not here now, and exports, in words."""
    newer = phrase(
        "backups that are newer than the one that was put back here on {day}, and of "
        "which this logbook does not know",
        day=found.put_back,
    )
    return [
        *(
            phrase(
                "the backup {place}, last known on {day}: it is not here now and still "
                "holds whoever was in it. Bring its disk, then erase again",
                place=each.place,
                day=each.day,
            )
            for each in found.missing
        ),
        *((newer,) if found.put_back else ()),
        *(phrase("the export {place}", place=each) for each in found.exports),
        *(
            phrase("the report {place}: it is not there now", place=each)
            for each in found.gone
        ),
    ]


def nothing_here(found: Found, check: Phrase) -> UserError:
    """Says that nothing of a code is here, and where something of it may be still.

    Args:
        check: what to look at again.
    """
    away = [
        phrase("{place} (last known on {day})", place=each.place, day=each.day)
        for each in found.missing
    ]
    held = phrase(
        "Backups that are not here now may hold this person: {places}.",
        places=joined(", ", away),
    )
    return UserError(
        phrase("Nothing of {code} is here.", code=found.code),
        sentences(check, held) if away else check,
    )


def _name_cells(logbook: Path, code: str) -> list[str | None]:
    """The name of each athlete of this code as it stands in a readable logbook."""
    if not logbook.is_file():
        return []
    query = "SELECT name FROM athletes WHERE lower(code) = lower(?)"
    try:
        with closing(sqlite3.connect(f"{logbook.as_uri()}?mode=ro", uri=True)) as raw:
            return [name for (name,) in raw.execute(query, [code])]
    except sqlite3.Error:
        return []  # it is told when it cannot be cleared, or searched


def _names(logbook: Path, cells: Iterable[str | None]) -> tuple[set[str], list[Phrase]]:
    """The names of cells of a logbook; in words, those that cannot be opened."""
    names: set[str] = set()
    unread = []
    for cell in filter(None, cells):
        try:
            name = columns.told(cell, "athletes.name", logbook)
        except UserError as error:
            unread.append(
                phrase(
                    "a name in {logbook} was not searched for: {error}",
                    logbook=logbook,
                    error=error.words,
                )
            )
            continue
        if name == columns.DAMAGED or name.startswith(texts.PREFIX):
            unread.append(
                phrase(
                    "a name in {logbook} was not searched for: it is damaged",
                    logbook=logbook,
                )
            )
        else:
            names.add(name)
    return names, unread


def recordings_of(place: KeptPlace, code: str, traces: Traces) -> list[Path]:
    """The recordings of an athlete: by the logbook, and each by its own header.

    Raises:
        FileError: the folder cannot be read.
    """
    known = _known_recordings(place.logbook, code)
    return [
        path
        for path in place.recording_files()
        if path.name in known or _is_of(path, code, traces)
    ]


def _known_recordings(logbook: Path, code: str) -> set[str]:
    if not logbook.is_file():
        return set()
    query = (
        "SELECT recording FROM sets JOIN sessions ON sessions.id = session_id "
        "JOIN athletes ON athletes.id = athlete_id WHERE lower(code) = lower(?)"
    )
    try:
        with closing(sqlite3.connect(f"{logbook.as_uri()}?mode=ro", uri=True)) as raw:
            return {name for (name,) in raw.execute(query, [code])}
    except sqlite3.Error:
        return set()


def _is_of(path: Path, code: str, traces: Traces) -> bool:
    try:
        header = recordings.read(path).header
    except FileError:
        return traces.in_text(path.name)
    return str(header.get("athlete_code", "")).lower() == code.lower()
