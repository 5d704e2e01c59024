"""Reads a table of numbers, row by row, whatever its separators.

Columns are split by comma, semicolon or tab; with the last two a decimal comma is
understood. A row with names above the numbers may be there or not. Lines that
begin with # before the first row are passed over. Nothing is trusted: lines are
bounded, and every fault is told with line and column.
"""

from __future__ import annotations

import csv
import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import folders

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

LINE_MAX = 10_000
"""Characters: hundreds of columns. A longer line is no line of a table."""
NUMBER_MAX = 1e18
"""Above any force, and any time in microseconds; beyond is a fault of the file."""

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?")
_MISSING = {"", "nan", "na", "n/a", "-", "null", "none"}
_SEPARATOR_NAMES = {",": "comma", ";": "semicolon", "\t": "tab"}


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
        layout: what was found, in words.

    Raises:
        FileError: it cannot be read, is empty, or lacks a column.
        FieldError: no column is wanted.
    """

    def __init__(self, path: Path, columns: Sequence[str]) -> None:
        if not columns or not all(column.strip() for column in columns):
            raise FieldError("columns", "must name at least one column.")
        self.path = path
        first_line, first = next(self._lines(), (0, ""))
        if not first:
            raise FileError(path, "the table is empty.")
        self._separator = next((mark for mark in "\t;" if mark in first), ",")
        cells = self._split(first, first_line)
        self._places = [self._place(column, cells) for column in columns]
        self._has_names = not all(
            place < len(cells) and self._is_number(cells[place])
            for place in self._places
        )
        self.all_names = tuple(cells) if self._has_names else ()
        self.names = tuple(
            cells[place] if self._has_names else f"column {place + 1}"
            for place in self._places
        )
        self.layout = (
            f"{len(cells)} {'column' if len(cells) == 1 else 'columns'} split by "
            f"{_SEPARATOR_NAMES[self._separator]}, "
            f"{'with' if self._has_names else 'without'} names"
        )

    def rows(self) -> Iterator[Row]:
        """The rows in order.

        Raises:
            FileError: names line and column of what is no number.
        """
        for count, (line, text) in enumerate(self._lines()):
            if count or not self._has_names:
                cells = self._split(text, line)
                yield Row(line, tuple(self._read(cells, p, line) for p in self._places))

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
                f"there is no column “{column}”; there are {len(cells)}: "
                f"{', '.join(cells)[:300]}.",
                next_step="Give names from the first row, or numbers from 1.",
            )
        return place

    def _read(self, cells: Sequence[str], place: int, line: int) -> float | None:
        where = f"line {line}, column {place + 1}"
        if place >= len(cells):
            raise FileError(self.path, "this line is too short.", place=where)
        text = cells[place]
        if text.casefold() in _MISSING:
            return None
        plain = self._with_point(text)
        number = float(plain) if _NUMBER.fullmatch(plain) else math.nan
        if not abs(number) <= NUMBER_MAX:
            raise FileError(
                self.path, f"“{text[:40]}” is not a number that fits.", place=where
            )
        return number

    def _is_number(self, text: str) -> bool:
        plain = self._with_point(text)
        return text.casefold() in _MISSING or bool(_NUMBER.fullmatch(plain))

    def _with_point(self, text: str) -> str:
        """A decimal comma as a point; both in one number is not understood."""
        if self._separator != "," and "." not in text:
            return text.replace(",", ".", 1)
        return text

    def _split(self, text: str, line: int) -> list[str]:
        try:
            (cells,) = csv.reader([text], delimiter=self._separator, strict=True)
        except (csv.Error, ValueError) as error:
            raise FileError(
                self.path,
                "a quotation mark is opened and not closed.",
                place=f"line {line}",
            ) from error
        return [cell.strip() for cell in cells]

    def _lines(self) -> Iterator[tuple[int, str]]:
        """Each line that is not blank, with its number; comments at the top left out.

        Letters that are not UTF-8 can only stand in names and are replaced.
        """
        begun = False
        try:
            with self.path.open(encoding="utf-8-sig", errors="replace") as file:
                number = 0
                while text := file.readline(LINE_MAX + 1):
                    number += 1
                    self._check(text, number)
                    text = text.strip("\r\n")
                    if text.strip() and (begun or not text.startswith("#")):
                        begun = True
                        yield number, text
        except OSError as error:
            raise FileError(
                self.path, f"the file cannot be read ({folders.reason(error)})."
            ) from error

    def _check(self, text: str, number: int) -> None:
        if len(text) > LINE_MAX:
            raise FileError(
                self.path,
                f"is longer than {LINE_MAX} characters; this is not a table.",
                place=f"line {number}",
            )
        if "\0" in text:
            raise FileError(
                self.path,
                "this is not a text file, or not in UTF-8.",
                place=f"line {number}",
                next_step="Save the table as text (CSV, UTF-8).",
            )
