"""A place to be sealed: recordings, and a marked value in each sealed column."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from session.kept_logbook import fill

from biofeedback.logbook import engine as engines
from biofeedback.logbook import schema, sealing
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.sealed import key_file, keyring
from biofeedback.logbook.sealed.columns import SealedJson, SealedText, SealedWhole
from biofeedback.logbook.sealed.master_key import MasterKey

if TYPE_CHECKING:
    from pathlib import Path

PASSPHRASE = "tree lamp orbité stone"  # noqa: S105  of tests alone
CODE = "0123-4567-89AB-CDEF-GHJK-MNPQ-RSNP"
YEAR = 1987
ROWS = 3
KINDS = (SealedText, SealedWhole, SealedJson)


def mark(column: sa.Column[Any]) -> str:
    """A word that stands in this column and nowhere else."""
    return f"Invéntedmärk-{column.table.name}-{column.name}"


def sealed_columns() -> list[sa.Column[Any]]:
    tables = schema.metadata.sorted_tables
    return [c for t in tables for c in t.columns if isinstance(c.type, KINDS)]


def marked_place(folder: Path) -> KeptPlace:
    """Recordings, and some rows in each table that has something to seal."""
    logbook, held = fill(folder)
    engine = engines.connect(engines.url_of(logbook))
    with engine.execution_options(writes=True).begin() as connection:
        for number in range(ROWS):
            keys: dict[sa.Table, str] = {}
            for table in schema.metadata.sorted_tables:
                if "id" in table.columns and table.name != "audit":
                    keys[table] = _insert(connection, table, keys, number)
    engine.dispose()
    return KeptPlace(logbook, held)


def _insert(
    connection: sa.Connection, table: sa.Table, keys: dict[sa.Table, str], number: int
) -> str:
    row: dict[str, Any] = {"id": new_key()}
    for column in table.columns:
        if column.name in row:
            continue
        for foreign in column.foreign_keys:
            row[column.name] = keys[foreign.column.table]
        if column.name not in row and (
            not column.nullable or isinstance(column.type, KINDS)
        ):
            row[column.name] = _value(column, number)
    connection.execute(sa.insert(table).values(row))
    return str(row["id"])


def _value(column: sa.Column[Any], number: int) -> Any:
    kind = column.type
    if isinstance(kind, SealedWhole):
        return YEAR
    if isinstance(kind, SealedJson):
        return {"level": 4, "text": [mark(column)], "n": number + 0.1}
    if isinstance(kind, SealedText):
        return f"{mark(column)} {number}"[: kind.length]
    if isinstance(kind, schema.UtcTime):
        return datetime(2026, 3, 1 + number, tzinfo=UTC)
    return {sa.JSON: {}, sa.Boolean: False, sa.Float: 70.5, sa.Integer: number}.get(
        type(kind), f"x-{number}"
    )


def sealed(place: KeptPlace) -> MasterKey:
    """Seals a place by `PASSPHRASE` and `CODE`; the key is held afterwards."""
    key = MasterKey.new()
    found = key_file.made(place.keys, key, passphrase=PASSPHRASE, code=CODE)
    keyring.hold([key])
    done = sealing.seal(place, found, key)
    assert done.problems == ()
    return key
