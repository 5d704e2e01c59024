"""Takes one athlete out of a logbook in a file, down to its free pages.

Rows are found by their foreign keys, from the athlete on, in whatever tables there are:
what is kept later is reached as soon as it hangs on something that is reached. The
audit keeps its rows, but not whose data they were about.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import engine as engines
from biofeedback.logbook import schema
from biofeedback.logbook.audit import Action
from biofeedback.logbook.audit import row as audit_row

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.logbook.traces import Traces


def erase_rows(
    logbook: Path, code: str, traces: Traces, *, more: int | None = None
) -> int:
    """Deletes all rows of an athlete and clears the file of what they held.

    Args:
        code: whatever its capitals.
        traces: of the same athlete; finds places in the audit that tell the code.
        more: what else was erased of this athlete; the audit has it with the rows,
            if there was anything at all. None for a copy, whose audit is left alone.

    Returns:
        How many rows were deleted.

    Raises:
        FileError: the file cannot be read or written; it is all or nothing.
    """
    engine = engines.connect(engines.url_of(logbook))
    try:
        engines.bring_up_to_date(engine, str(logbook), keep_copy=False)
        writing = engine.execution_options(writes=True)
        with engines.transaction(writing, str(logbook)) as connection:
            connection.exec_driver_sql("PRAGMA secure_delete = ON")
            rows = _delete(connection, code)
            _empty_audit(connection, code, traces)
            if more is not None and rows + more:
                audit_row(connection, Action.ERASED, count=rows + more)
    finally:
        engine.dispose()
    clear(logbook)
    return rows


def count_rows(logbook: Path, code: str) -> int:
    """How many rows an athlete has in a logbook of this version of the program.

    Raises:
        FileError: the file cannot be read.
    """
    engine = engines.connect(engines.url_of(logbook))
    try:
        with engines.transaction(engine, str(logbook)) as connection:
            counts = (
                sa.select(sa.func.count()).select_from(keys.subquery())
                for keys in _keys_of(code).values()
            )
            return sum(connection.scalar(count) or 0 for count in counts)
    finally:
        engine.dispose()


def clear(logbook: Path) -> None:
    """Writes the file anew, so that nothing of what was deleted is in it.

    Raises:
        FileError: it cannot be written.
    """
    with (
        engines.faults_in_words(str(logbook)),
        closing(sqlite3.connect(logbook, isolation_level=None)) as raw,
    ):
        raw.execute("PRAGMA secure_delete = ON")
        raw.execute("VACUUM")
        raw.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _keys_of(code: str) -> dict[sa.Table, sa.Select[tuple[str]]]:
    """Keys of an athlete's rows in each table, parents before children."""
    athletes = schema.athletes
    mine: dict[sa.Table, sa.Select[tuple[str]]] = {
        athletes: sa.select(athletes.c.id).where(
            sa.func.lower(athletes.c.code) == code.lower()
        )
    }
    for table in schema.metadata.sorted_tables:  # parents before children
        hangs = [
            column.in_(mine[key.column.table])
            for column in table.columns
            for key in column.foreign_keys
            if key.column.table in mine
        ]
        if hangs:
            mine[table] = sa.select(table.c.id).where(sa.or_(*hangs))
    return mine


def _delete(connection: sa.Connection, code: str) -> int:
    mine = _keys_of(code)
    rows = 0
    for table in reversed(mine):  # children first
        done = connection.execute(sa.delete(table).where(table.c.id.in_(mine[table])))
        rows += done.rowcount
    return rows


def _empty_audit(connection: sa.Connection, code: str, traces: Traces) -> None:
    table = schema.audit
    mine = sa.func.lower(table.c.code) == code.lower()
    connection.execute(sa.update(table).where(mine).values(code=None, place=None))
    placed = sa.select(table.c.id, table.c.place).where(table.c.place.is_not(None))
    for key, place in connection.execute(placed).all():
        if traces.in_text(place):
            change = sa.update(table).where(table.c.id == key)
            connection.execute(change.values(place=traces.cleaned(place)))
