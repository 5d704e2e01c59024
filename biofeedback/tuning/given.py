"""What the bench is given: recordings, tables of forces, and folders of both.

A table is made into a recording first, by the same code as an import, in a folder that
is thrown away. What is neither is named, with the reason, and the others go on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import count
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING, BiofeedbackError, FileError
from biofeedback.logbook import folders
from biofeedback.logbook.recording_format import SUFFIX
from biofeedback.logbook.tables import forces_in, import_table
from biofeedback.phrase import joined, phrase, sentences

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from biofeedback.logbook.tables import Choice
    from biofeedback.phrase import Phrase

TABLES = (".csv", ".tsv", ".txt", ".dat")
"""Names that tables of numbers end in; a folder holds other things too."""


@dataclass(frozen=True, slots=True)
class Given:
    """One file.

    Attributes:
        path: as it was named, or as it stands in the folder.
        recording: what is read: the file itself, or what was made of the table.
        why: it cannot be used, in words; else empty.
        other: it stands in a folder and is of another kind, which is no fault.
    """

    path: Path
    recording: Path
    why: Phrase = NOTHING
    other: bool = False


def gathered(
    named: Sequence[Path],
    *,
    table: Choice,
    look_for_forces: bool,
    made_in: Path,
    progress: Callable[[Path], None] | None = None,
) -> list[Given]:
    """All files that were named, those of a folder in the order of their names.

    Args:
        named: recordings, tables and folders.
        table: what is said of tables.
        look_for_forces: take the columns that must be forces, and not those of `table`.
        made_in: an empty folder for recordings of tables.
        progress: told the name of each table before it is read; what it raises stops.
    """
    numbers = count()
    found = []
    for path in _files(named):
        if isinstance(path, Given):
            found.append(path)
        elif path.suffix.casefold() not in TABLES:
            found.append(Given(path, path))
        else:
            if progress is not None:
                progress(path)
            out = made_in / f"{next(numbers)}{SUFFIX}"
            found.append(_of_table(path, out, table, look=look_for_forces))
    return found


def _files(named: Sequence[Path]) -> Iterator[Path | Given]:
    """Files; of a folder, what is no recording and no table is told."""
    for path in named:
        if not path.is_dir():
            yield path
            continue
        try:
            inside = sorted(each for each in path.iterdir() if each.is_file())
        except OSError as error:
            words = phrase(
                "the folder cannot be read ({reason})", reason=folders.reason(error)
            )
            yield Given(path, path, words)
            continue
        if not inside:
            yield Given(path, path, phrase("there is no file in this folder"))
        for each in inside:
            if each.suffix.casefold() in (SUFFIX, *TABLES):
                yield each
            else:
                words = phrase("it is no recording and no table, by its name")
                yield Given(each, each, words, other=True)


def _of_table(path: Path, out: Path, table: Choice, *, look: bool) -> Given:
    try:
        if look:
            table = replace(table, columns=forces_in(path, table))
        import_table(path, out, table)
    except FileError as error:
        words = joined(": ", filter(None, (error.place, error.problem)))
        return Given(path, path, sentences(words, error.next_step))
    except BiofeedbackError as error:
        return Given(path, path, error.words)
    return Given(path, out)
