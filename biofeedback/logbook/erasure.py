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

from biofeedback.errors import BiofeedbackError, FileError
from biofeedback.logbook import away, copy_manifest, folders
from biofeedback.logbook.copy_manifest import LOGBOOK, CopiedFile
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erasable import (
    copies_out_of_reach,
    nothing_here,
    recordings_of,
)
from biofeedback.logbook.erased_rows import erase_rows
from biofeedback.logbook.traces import Traces
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from biofeedback.logbook.erasable import Found
    from biofeedback.logbook.kept_place import KeptPlace
    from biofeedback.phrase import Phrase

OUT_OF_REACH = (
    phrase(
        "exports, printed pages and pictures, and reports that were moved or renamed"
    ),
    phrase("backups and copies made by other programs or carried elsewhere"),
    phrase("snapshots of the disk, and what a solid-state disk keeps of deleted files"),
    phrase("parts of the name, such as a first name in a note of somebody else"),
)
"""What no program on this machine can erase for certain."""
SHARED_NAME = phrase(
    "the name, which somebody who stays has too: only the code was looked for"
)
LOG = "biofeedback.log"
DEMO = "demo"
"""Folder of the demo within the data folder; a place of its own."""


@dataclass(slots=True)
class Erased:
    """What an erasure did.

    Attributes:
        rows, recordings, reports: how many were erased, copies included.
        backups: how many were cleared.
        left: where the code or the name was still found, or what could not be
            cleared, in words.
        out_of_reach: backups, reports and exports that are known and were not reached.
    """

    rows: int = 0
    recordings: int = 0
    reports: int = 0
    backups: int = 0
    left: list[Phrase] = field(default_factory=list)
    out_of_reach: list[Phrase] = field(default_factory=list)


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
        done.left.append(
            phrase(
                "{path} could not be reached: {error}", path=one.path, error=error.words
            )
        )
    if len(names) < len(found.names):
        done.out_of_reach.append(SHARED_NAME)
    steps = 2 * len(found.copies) + 2  # each is cleared, and then searched
    for number, copy in enumerate(found.copies):
        progress(number, steps)
        try:
            _erase_copy(copy, found, traces, done)
        except BiofeedbackError as error:
            done.left.append(
                phrase(
                    "{folder} could not be cleared: {error}",
                    folder=copy.base,
                    error=error.words,
                )
            )
    for report in found.reports:
        _unlink(report)
        done.reports += 1
    done.recordings += _erase_recordings(place, found.code, traces)
    _clean_logs(place.base, traces)
    progress(len(found.copies), steps)
    more = done.rows + done.recordings + done.reports
    done.rows += erase_rows(place.logbook, found.code, traces, more=more)
    done.out_of_reach += copies_out_of_reach(found)
    progress(len(found.copies) + 1, steps)
    done.left += _search(place, found, traces)
    progress(steps, steps)
    if not (done.rows or done.recordings or done.reports):
        raise nothing_here(found, phrase("Check the code and --logbook."))
    return done


def _erase_copy(copy: KeptPlace, found: Found, traces: Traces, done: Erased) -> None:
    if copy.base in found.backups:
        copy_manifest.settle(copy.base)
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
    mine = recordings_of(place, code, traces)
    for path in mine:
        _unlink(path)
    return len(mine)


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
    """Codes may stand in the log; the lines stay, without them.

    In the same file: where the window itself erases, it goes on writing to it.
    """
    for path in sorted(base.glob(f"{LOG}*")):
        try:
            with path.open("r+b") as file:
                text = file.read().decode("utf-8", "replace")
                cleaned = traces.cleaned(text)
                if cleaned != text:
                    file.seek(0)
                    file.write(cleaned.encode())
                    file.truncate()
        except OSError as error:
            words = phrase(
                "the log cannot be cleaned ({reason}).", reason=folders.reason(error)
            )
            raise FileError(path, words) from error


def _search(place: KeptPlace, found: Found, traces: Traces) -> list[Phrase]:
    left = []
    for path in _own_files(place, found):
        try:
            left += traces.in_file(path)
        except FileError as error:
            left.append(error.words)
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
