"""Reads a table of numbers, row by row: the chosen columns of its cells.

A row with names above the numbers may be there or not. Every fault is told with line
and column.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook.table_cells import Cells
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Row:
    """Numbers of the chosen columns; None where a cell is empty or says so."""

    line: int
    values: tuple[float | None, ...]


class Table:
    """A table whose layout has been found out.

    Args:
        path: the file.
        columns: those wanted, each by its name or by its number from 1.

    Attributes:
        names: of the wanted columns; their numbers where the table has no names.
        all_names: of all columns, empty where the table has no names.
        columns: how many there are.
        layout: what was found, in words.

    Raises:
        FileError: it cannot be read, is empty, or lacks a column.
        FieldError: no column is wanted.
    """

    def __init__(self, path: Path, columns: Sequence[str]) -> None:
        if not columns or not all(column.strip() for column in columns):
            raise FieldError("columns", phrase("must name at least one column."))
        self.path = path
        self._cells = Cells(path)
        cells = self._cells.first
        self._places = [self._place(column, cells) for column in columns]
        self._has_names = not all(
            place < len(cells) and self._cells.is_number(cells[place])
            for place in self._places
        )
        self.columns = len(cells)
        self.all_names = tuple(cells) if self._has_names else ()
        self.names = tuple(
            cells[place] if self._has_names else f"column {place + 1}"
            for place in self._places
        )
        self.layout = self._cells.layout(names=self._has_names)

    def rows(self) -> Iterator[Row]:
        """The rows in order.

        Raises:
            FileError: names line and column of what is no number.
        """
        number = self._cells.number
        for count, (line, cells) in enumerate(self._cells.rows()):
            if count or not self._has_names:
                yield Row(line, tuple(number(cells, p, line) for p in self._places))

    def _place(self, column: str, cells: Sequence[str]) -> int:
        """The position of a wanted column, from 0."""
        column = column.strip()
        if column.isascii() and column.isdecimal():
            place = int(column) - 1
        else:
            lowered = [cell.casefold() for cell in cells]
            place = (
                lowered.index(column.casefold()) if column.casefold() in lowered else -1
            )
        if not 0 <= place < len(cells):
            raise FileError(
                self.path,
                phrase(
                    "there is no column “{column}”; there are {cells}: {listed}.",
                    column=column,
                    cells=len(cells),
                    listed=", ".join(cells)[:300],
                ),
                place=phrase("line {line}", line=1),
                next_step=phrase("Give names from the first row, or numbers from 1."),
            )
        return place
