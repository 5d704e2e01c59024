"""Erasing an athlete: from the logbook, the recordings and all copies that are known.

Rules that hold here:

* Copies first, the logbook last: an erasure that is cut off is done again, and knows
  the name and the copies until then.
* Then it looks: every file in the program's own folders and in the backups it knows is
  searched for the code and the name. What is found is told, and it is not said to be
  done.
* What stays is that somebody was erased, by whom and when, with a number of rows.
* What cannot be reached is said each time: see `OUT_OF_REACH`.
"""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError, FileError, UserError
from biofeedback.logbook import away, copy_manifest, folders, recordings
from biofeedback.logbook.audit import Action
from biofeedback.logbook.copy_manifest import LOGBOOK, RECORDINGS, CopiedFile
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erased_rows import erase_rows
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.rows import check_code
from biofeedback.logbook.sealed import columns, texts
from biofeedback.logbook.traces import Traces
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

OUT_OF_REACH = (
    "exports, printed pages and pictures, and reports that were moved or renamed",
    "backups and copies made by other programs or carried elsewhere",
    "snapshots of the disk, and what a solid-state disk keeps of deleted files",
    "parts of the name, such as a first name in a note of somebody else",
)
"""What no program on this machine can erase for certain."""
SHARED_NAME = "the name, which somebody who stays has too: only the code was looked for"
LOG = "biofeedback.log"
DEMO = "demo"
"""Folder of the demo within the data folder; a place of its own."""


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
        missing: backups that are known and cannot be reached now.
        unread: in words, where a name could not be opened; it is not searched for.
    """

    code: str
    names: tuple[str, ...]
    copies: tuple[KeptPlace, ...]
    backups: tuple[Path, ...]
    reports: tuple[Path, ...]
    exports: tuple[str, ...]
    missing: tuple[str, ...]
    unread: tuple[str, ...]


@dataclass(slots=True)
class Erased:
    """What an erasure did.

    Attributes:
        rows, recordings, reports: how many were erased, copies included.
        backups: how many were cleared.
        left: where the code or the name was still found, or what could not be
            cleared, in words.
        out_of_reach: backups and exports that are known and were not reached.
    """

    rows: int = 0
    recordings: int = 0
    reports: int = 0
    backups: int = 0
    left: list[str] = field(default_factory=list)
    out_of_reach: list[str] = field(default_factory=list)


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
        kept = (Action.BACKED_UP, Action.RESTORED)
        rows = logbook.audit.list(actions=kept, limit=100_000)
        backups = sorted({row.place for row in rows if row.place})
        given = logbook.audit.list(code=code, limit=100_000)
    there = tuple(
        Path(each) for each in backups if (Path(each) / copy_manifest.FILE).is_file()
    )
    aside = tuple(
        KeptPlace(folder / place.logbook.name, folder / place.recordings.name)
        for folder in place.aside_folders()
    )
    copies = (*(KeptPlace(one / LOGBOOK, one / RECORDINGS) for one in there), *aside)
    names: set[str] = set()
    unread = []
    for copy in (place, *copies):
        found, problems = _names(copy.logbook, code)
        names |= found
        unread += problems
    reports = {Path(row.place) for row in given if row.action == Action.REPORTED.value}
    return Found(
        athlete.code if athlete else code,
        tuple(sorted(filter(None, names))),
        copies,
        there,
        tuple(sorted(path for path in reports if path.is_file())),
        tuple(sorted({r.place for r in given if r.action == Action.EXPORTED.value})),
        tuple(each for each in backups if Path(each) not in there),
        tuple(unread),
    )


def erase(
    place: KeptPlace,
    found: Found,
    *,
    progress: Callable[[int, int], None] = lambda _done, _total: None,
) -> Erased:
    """Erases an athlete.

    Args:
        progress: is told (steps done, steps in all); a large logbook takes a while.

    Raises:
        UserError: a program is running, or nothing is known of this code.
        FileError: the logbook or a recording cannot be written. It may be done again.
    """
    place.refuse_while_in_use()
    with Logbook.open(place.logbook) as logbook:
        code = found.code.lower()
        others = [each for each in logbook.athletes() if each.code.lower() != code]
    stay = [each.name.casefold() for each in others]
    names = [  # “Max Invented” stands in “Max Invented junior” too
        name
        for name in found.names
        if not any(name.casefold() in other for other in stay)
    ]
    traces = Traces(found.code, names, other_codes=[each.code for each in others])
    done = Erased(left=list(found.unread))
    for one, error in away.bring_all_home(place.recordings):  # they are erased there
        done.left.append(f"{one.path} could not be reached: {error}")
    if len(names) < len(found.names):
        done.out_of_reach.append(SHARED_NAME)
    steps = 2 * len(found.copies) + 2  # each is cleared, and then searched
    for number, copy in enumerate(found.copies):
        progress(number, steps)
        try:
            _erase_copy(copy, found, traces, done)
        except BiofeedbackError as error:
            done.left.append(f"{copy.base} could not be cleared: {error}")
    for report in found.reports:
        _unlink(report)
        done.reports += 1
    done.recordings += _erase_recordings(place, found.code, traces)
    _clean_logs(place.base, traces)
    progress(len(found.copies), steps)
    more = done.rows + done.recordings + done.reports
    done.rows += erase_rows(place.logbook, found.code, traces, more=more)
    done.out_of_reach += [f"the backup {each}" for each in found.missing]
    done.out_of_reach += [f"the export {each}" for each in found.exports]
    progress(len(found.copies) + 1, steps)
    done.left += _search(place, found, traces)
    progress(steps, steps)
    if not (done.rows or done.recordings or done.reports):
        raise UserError(
            phrase("Nothing of {code} is here.", code=found.code),
            phrase("Check the code and --logbook."),
        )
    return done


def _names(logbook: Path, code: str) -> tuple[set[str], list[str]]:
    """Names of this code in a logbook; in words, those that cannot be opened."""
    if not logbook.is_file():
        return set(), []
    query = "SELECT name FROM athletes WHERE lower(code) = lower(?)"
    try:
        with closing(sqlite3.connect(f"{logbook.as_uri()}?mode=ro", uri=True)) as raw:
            cells = [name for (name,) in raw.execute(query, [code]) if name]
    except sqlite3.Error:
        return set(), []  # it is told when it cannot be cleared, or searched
    names, unread = set(), []
    for cell in cells:
        try:
            name = columns.told(cell, "athletes.name", logbook)
        except UserError as error:
            unread.append(f"a name in {logbook} was not searched for: {error}")
            continue
        if name == columns.DAMAGED or name.startswith(texts.PREFIX):
            unread.append(f"a name in {logbook} was not searched for: it is damaged")
        else:
            names.add(name)
    return names, unread


def _erase_copy(copy: KeptPlace, found: Found, traces: Traces, done: Erased) -> None:
    done.recordings += _erase_recordings(copy, found.code, traces)
    if copy.logbook.is_file():
        copy.refuse_while_in_use()
        done.rows += erase_rows(copy.logbook, found.code, traces)
        _one_file(copy.logbook)
    if copy.base in found.backups:
        _manifest_anew(copy.base)
        done.backups += 1


def _one_file(logbook: Path) -> None:
    with closing(sqlite3.connect(logbook)) as raw:
        raw.execute("PRAGMA journal_mode = DELETE")


def _manifest_anew(folder: Path) -> None:
    """The manifest tells what is in the backup now."""
    before = copy_manifest.read(folder)
    files = {n: one for n, one in before.files.items() if (folder / n).is_file()}
    if LOGBOOK in files:
        size, sha256 = copy_manifest.checksum(folder / LOGBOOK)
        files[LOGBOOK] = CopiedFile(size, sha256, size, 0)
    copy_manifest.CopyManifest(before.made_utc, files).write(folder)


def _erase_recordings(place: KeptPlace, code: str, traces: Traces) -> int:
    known = _recordings_of(place.logbook, code)
    mine = [
        path
        for path in place.recording_files()
        if path.name in known or _is_of(path, code, traces)
    ]
    for path in mine:
        _unlink(path)
    return len(mine)


def _recordings_of(logbook: Path, code: str) -> set[str]:
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


def _unlink(path: Path) -> None:
    try:
        path.unlink()
    except OSError as error:
        raise FileError(
            path,
            phrase(
                "the file cannot be deleted ({reason}).", reason=folders.reason(error)
            ),
        ) from error


def _clean_logs(base: Path, traces: Traces) -> None:
    """Codes may stand in the log; the lines stay, without them."""
    for path in sorted(base.glob(f"{LOG}*")):
        text = path.read_text(encoding="utf-8", errors="replace")
        cleaned = traces.cleaned(text)
        if cleaned != text:
            folders.write_whole(path, cleaned.encode())


def _search(place: KeptPlace, found: Found, traces: Traces) -> list[str]:
    left = []
    for path in _own_files(place, found):
        try:
            left += traces.in_file(path)
        except FileError as error:
            left.append(str(error))
    return left


def _own_files(place: KeptPlace, found: Found) -> Iterator[Path]:
    """All files of the program; the data folder whole, other folders by name."""
    data = folders.absolute(folders.data_folder())
    own = {*place.logbook_files(), *place.base.glob(f"{LOG}*"), place.preferences}
    trees = [place.recordings, *place.aside_folders(), *found.backups]
    if place.base == data or data in place.base.parents:
        trees.append(place.base)
    for tree in trees:
        for folder, inner, names in os.walk(tree):
            if Path(folder) == data and DEMO in inner:
                inner.remove(DEMO)
            own |= {Path(folder) / name for name in names}
    yield from sorted(path for path in own if path.is_file())
