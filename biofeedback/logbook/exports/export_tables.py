"""The tables of an export in each format that was asked for, open side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from biofeedback.logbook.exports import csv_table, parquet_table
from biofeedback.logbook.exports.csv_table import CsvTable
from biofeedback.logbook.exports.parquet_table import ParquetTable

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from biofeedback.logbook.exports.export_folder import ExportFolder
    from biofeedback.logbook.exports.table import Cell, Column

    Table: TypeAlias = CsvTable | ParquetTable

CSV, PARQUET = "csv", "parquet"
SUFFIXES = {CSV: csv_table.SUFFIX, PARQUET: parquet_table.SUFFIX}
FREE = frozenset(
    {"task", "reference_task", "rig", "text", "void_reason", "near_rated", "stuck"}
)
"""Columns with words that somebody typed: no name may slip out in one."""


def open_table(
    folder: ExportFolder,
    kind: str,
    name: str,
    columns: Sequence[Column],
    facts: Mapping[str, object],
) -> Table:
    """Opens a table for writing.

    Args:
        kind: `CSV` or `PARQUET`, which is also the folder it is in.
        name: without folder and ending.
        facts: what holds for the whole table; for formats that can carry it.

    Raises:
        TargetError: the file cannot be made.
        UserError: the format is not to be had here.
    """
    file = folder.create(f"{kind}/{name}{SUFFIXES[kind]}")
    if kind == CSV:
        return CsvTable(file, columns)
    return ParquetTable(file, columns, facts)


class ExportTables:
    """Tables that grow set by set.

    Args:
        kinds: of `CSV` and `PARQUET`; with none of them nothing is written.
        tables: the columns of each table by its name.
    """

    def __init__(
        self,
        folder: ExportFolder,
        kinds: Sequence[str],
        tables: Mapping[str, Sequence[Column]],
    ) -> None:
        self._open = {
            name: [
                open_table(folder, kind, name, columns, {"table": name})
                for kind in kinds
            ]
            for name, columns in tables.items()
        }

    def add(self, name: str, row: Mapping[str, Cell]) -> None:
        """A row, where there is such a table."""
        for table in self._open.get(name, ()):
            table.add(row)

    def close(self) -> None:
        """Writes what is held and closes all files."""
        for tables in self._open.values():
            for table in tables:
                table.close()
        self._open = {}
