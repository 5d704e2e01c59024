"""Reads a table's cells, line by line, whatever its separators.

Columns are split by comma, semicolon or tab; with the last two a decimal comma is
understood. Lines that begin with # before the first row are passed over. Nothing is
trusted: lines are bounded, and every fault is told with line and column.
"""

from __future__ import annotations

import csv
import math
import re
from typing import TYPE_CHECKING

from biofeedback.errors import FileError
from biofeedback.logbook import folders
from biofeedback.phrase import Phrase, numbered, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

LINE_MAX = 10_000
"""Characters: hundreds of columns. A longer line is no line of a table."""
NUMBER_MAX = 1e18
"""Above any force, and any time in microseconds; beyond is a fault of the file."""

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?")
_MISSING = {"", "nan", "na", "n/a", "-", "null", "none"}
_SEPARATOR_NAMES = {
    ",": phrase("comma"),
    ";": phrase("semicolon"),
    "\t": phrase("tab"),
}


class Cells:
    """A table whose separator has been found out.

    Attributes:
        first: cells of the first row, which may be names.

    Raises:
        FileError: it cannot be read, or is empty.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        line, text = next(self._lines(), (0, ""))
        if not text:
            raise FileError(path, phrase("the table is empty."))
        self._separator = next((mark for mark in "\t;" if mark in text), ",")
        self.first = self._split(text, line)

    def layout(self, *, names: bool) -> Phrase:
        """What was found, in words."""
        count = len(self.first)
        return numbered(
            count,
            "{count} column split by {separator}, {names}",
            "{count} columns split by {separator}, {names}",
            separator=_SEPARATOR_NAMES[self._separator],
            names=phrase("with names") if names else phrase("without names"),
        )

    def rows(self) -> Iterator[tuple[int, list[str]]]:
        """Number of the line and cells of each row, from the first on.

        Raises:
            FileError: names the line that is none of a table.
        """
        for line, text in self._lines():
            yield line, self._split(text, line)

    def number(self, cells: Sequence[str], place: int, line: int) -> float | None:
        """The number in a cell; None where it is empty or says so.

        Raises:
            FileError: names line and column of what is no number, or not there.
        """
        where = phrase("line {line}, column {column}", line=line, column=place + 1)
        if place >= len(cells):
            raise FileError(self.path, phrase("this line is too short."), place=where)
        text = cells[place]
        if text.casefold() in _MISSING:
            return None
        plain = self._with_point(text)
        number = float(plain) if _NUMBER.fullmatch(plain) else math.nan
        if not abs(number) <= NUMBER_MAX:
            raise FileError(
                self.path,
                phrase("“{text}” is not a number that fits.", text=text[:40]),
                place=where,
            )
        return number

    def is_number(self, text: str) -> bool:
        """Whether a cell holds a number, or says that it is missing."""
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
                phrase("a quotation mark is opened and not closed."),
                place=phrase("line {line}", line=line),
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
                self.path,
                phrase(
                    "the file cannot be read ({reason}).", reason=folders.reason(error)
                ),
            ) from error

    def _check(self, text: str, number: int) -> None:
        if len(text) > LINE_MAX:
            raise FileError(
                self.path,
                phrase(
                    "is longer than {line_max} characters; this is not a table.",
                    line_max=LINE_MAX,
                ),
                place=phrase("line {number}", number=number),
            )
        if "\0" in text:
            raise FileError(
                self.path,
                phrase("this is not a text file, or not in UTF-8."),
                place=phrase("line {number}", number=number),
                next_step=phrase("Save the table as text (CSV, UTF-8)."),
            )
