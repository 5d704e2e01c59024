"""Salvage: rows that can still be read in a broken logbook, taken over into a new one.

Each table is read from its beginning and, where that stops, from its end; a row is
taken over only where it fits the new tables and what it hangs on is there too. The old
file is a copy or has been put aside; it is only read.
"""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook import engine as engines
from biofeedback.logbook import schema

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    import sqlalchemy as sa


@dataclass(frozen=True, slots=True)
class Salvaged:
    """What was taken over.

    Attributes:
        rows: how many of each table.
        broken: tables that could not be read to their end.
    """

    rows: Mapping[str, int]
    broken: tuple[str, ...]


def salvage(old: Path, new: Path) -> Salvaged:
    """Takes over what can be read.

    Args:
        old: the broken logbook, with what SQLite keeps beside it.
        new: a logbook with its tables, and nothing in them.

    Raises:
        FileError: the new one cannot be written.
    """
    taken: dict[str, int] = {}
    broken = []
    with (
        tempfile.TemporaryDirectory(dir=old.parent) as folder,
        engines.faults_in_words(str(new)),
        closing(sqlite3.connect(new, isolation_level=None)) as book,
    ):
        copy = _copied(old, Path(folder))
        book.execute("PRAGMA foreign_keys = ON")
        book.execute("BEGIN IMMEDIATE")
        for table in schema.metadata.sorted_tables:  # parents before children
            rows, whole = _read(copy, table)
            taken[table.name] = sum(_insert(book, table, row) for row in rows)
            if not whole:
                broken.append(table.name)
        book.execute("COMMIT")
    return Salvaged({name: n for name, n in taken.items() if n}, tuple(broken))


def _copied(old: Path, folder: Path) -> Path:
    """SQLite may mend what it opens: that happens to a copy."""
    for path in old.parent.glob(f"{old.name}*"):
        if path.is_file() and not path.name.endswith("-shm"):
            shutil.copyfile(path, folder / path.name)
    return folder / old.name


def _read(path: Path, table: sa.Table) -> tuple[list[Mapping[str, object]], bool]:
    """The rows of a table that can be read, and whether that was all."""
    found: dict[object, Mapping[str, object]] = {}
    for order in ("ASC", "DESC"):
        try:
            for number, row in _rows(path, table, order):
                found.setdefault(number, row)
        except sqlite3.Error:
            continue
        return list(found.values()), True
    return list(found.values()), False


def _rows(
    path: Path, table: sa.Table, order: str
) -> Iterator[tuple[object, Mapping[str, object]]]:
    """Rows with their numbers, one question a row: a fault then costs no sound one."""
    after, first = (">", -(2**63)) if order == "ASC" else ("<", 2**63 - 1)
    # NOT INDEXED: an index may be broken where the table is not.
    query = (
        f'SELECT rowid, * FROM "{table.name}" NOT INDEXED '  # noqa: S608  from the schema
        f"WHERE rowid {after} ? ORDER BY rowid {order} LIMIT 1"
    )
    with closing(sqlite3.connect(path)) as raw:
        number: int | None = first
        while number is not None:
            answer = raw.execute(query, [number])
            names = [column[0] for column in answer.description[1:]]
            number = None
            for number, *cells in answer:
                row = dict(zip(names, cells, strict=True))
                yield number, {n: v for n, v in row.items() if n in table.columns}


def _insert(
    book: sqlite3.Connection, table: sa.Table, row: Mapping[str, object]
) -> bool:
    """Takes a row over; False where it does not fit."""
    names = ", ".join(f'"{name}"' for name in row)
    marks = ", ".join("?" * len(row))
    sql = f'INSERT INTO "{table.name}" ({names}) VALUES ({marks})'  # noqa: S608  from the schema
    try:
        book.execute(sql, list(row.values()))
    except sqlite3.IntegrityError:
        return False
    return True
