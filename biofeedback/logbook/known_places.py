"""Where something went, by the audits of a logbook and of all its copies.

The logbook alone does not know all: one that was restored is older than what went out
before, and what was put aside then still has it. So each copy is asked, and whatever
copy it names in turn.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook import copy_manifest
from biofeedback.logbook.audit import Action
from biofeedback.logbook.copy_manifest import LOGBOOK, RECORDINGS
from biofeedback.logbook.kept_place import KeptPlace

if TYPE_CHECKING:
    from collections.abc import Iterable

_BACKUPS = {Action.BACKED_UP.value, Action.RESTORED.value}
Row = dict[str, object]


@dataclass(frozen=True, slots=True)
class MissingBackup:
    """A backup that is known and is not where it was.

    Attributes:
        day: ISO date on which it was last made or put back, as far as is known.
    """

    place: str
    day: str


@dataclass(frozen=True, slots=True)
class KnownPlaces:
    """What is known of one logbook.

    Attributes:
        copies: backups that are there and what was put aside, each a place of its own.
        backups: folders among them that are backups.
        missing: backups that are known and are not there now.
        put_back: ISO date of the newest restore; empty where there was none.
        reports: files that were written of one athlete, there or not.
        exports: folders into which something of that athlete was exported.
    """

    copies: tuple[KeptPlace, ...]
    backups: tuple[Path, ...]
    missing: tuple[MissingBackup, ...]
    put_back: str
    reports: tuple[Path, ...]
    exports: tuple[str, ...]


def known_places(place: KeptPlace, code: str) -> KnownPlaces:
    """What the audits tell, those of all copies included.

    Args:
        code: of the athlete, whatever its capitals.
    """
    aside = [
        KeptPlace(folder / place.logbook.name, folder / place.recordings.name)
        for folder in place.aside_folders()
    ]
    told: list[Row] = []
    there: dict[str, KeptPlace] = {}
    missing: set[str] = set()
    to_ask = [place.logbook, *(one.logbook for one in aside)]
    while to_ask:
        rows = audit_rows(to_ask.pop())
        told += rows
        for name in _placed(rows, _BACKUPS) - there.keys() - missing:
            if (Path(name) / copy_manifest.FILE).is_file():
                there[name] = KeptPlace(Path(name) / LOGBOOK, Path(name) / RECORDINGS)
                to_ask.append(there[name].logbook)
            else:
                missing.add(name)
    own = [row for row in told if str(row.get("code") or "").lower() == code.lower()]
    return KnownPlaces(
        (*(there[name] for name in sorted(there)), *aside),
        tuple(Path(name) for name in sorted(there)),
        tuple(
            MissingBackup(name, _newest(told, _BACKUPS, name))
            for name in sorted(missing)
        ),
        _newest(told, {Action.RESTORED.value}),
        tuple(Path(name) for name in sorted(_placed(own, {Action.REPORTED.value}))),
        tuple(sorted(_placed(own, {Action.EXPORTED.value}))),
    )


def audit_rows(logbook: Path) -> list[Row]:
    """The audit of a logbook in a file, as it stands there; empty if unreadable."""
    if not logbook.is_file():
        return []
    try:
        uri = f"{logbook.as_uri()}?mode=ro"
        with closing(sqlite3.connect(uri, uri=True)) as raw:
            answer = raw.execute("SELECT * FROM audit")
            names = [column[0] for column in answer.description]
            return [dict(zip(names, row, strict=True)) for row in answer]
    except sqlite3.Error:
        return []  # a damaged copy is told when it cannot be cleared, or searched


def carry_over(rows: Iterable[Row], logbook: Path) -> None:
    """Adds rows of another audit that a logbook does not have; both of any version.

    Raises:
        sqlite3.Error: it cannot be written.
    """
    with closing(sqlite3.connect(logbook)) as raw, raw:
        known = {name for _, name, *_ in raw.execute("PRAGMA table_info(audit)")}
        for row in rows:
            names = [name for name in row if name in known]
            listed, marks = ", ".join(names), ", ".join("?" for _ in names)
            raw.execute(
                f"INSERT OR IGNORE INTO audit ({listed}) VALUES ({marks})",  # noqa: S608  names of columns that are there
                [row[name] for name in names],
            )


def _placed(rows: Iterable[Row], actions: set[str]) -> set[str]:
    return {
        str(row["place"])
        for row in rows
        if row.get("place") and row["action"] in actions
    }


def _newest(rows: Iterable[Row], actions: set[str], place: str = "") -> str:
    """The day, here, of the newest of some rows; empty where there is none."""
    times = (
        str(row["at_utc"])
        for row in rows
        if row["action"] in actions and place in {"", row.get("place")}
    )
    newest = max(times, default="")
    if not newest:
        return ""
    at = datetime.fromisoformat(newest).replace(tzinfo=UTC)
    return at.astimezone().date().isoformat()
