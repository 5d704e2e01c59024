"""Reads tables of people: scores of several trials, or pairs of forces.

* Scores: a row a person, a column a trial; the first column may be a code.
* Pairs: a row a test; athlete, isometric force, eccentric force.

Separators, missing cells and faults are those of `table_cells`. What was understood,
and what was left out, is told in notes. Codes serve to tell people apart and go no
further; notes name lines.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FileError
from biofeedback.logbook.table_cells import Cells
from biofeedback.phrase import Phrase, listed, numbered, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from pathlib import Path

    import numpy.typing as npt

PEOPLE_MAX = 10_000
"""Rows: more people than any laboratory tests twice; a longer table is a signal."""
TRIALS_MAX = 100
NAME_MAX = 40
"""Characters of a column's name that are told."""
LINES_TOLD = 10

_CODE_WORDS = {
    "athlete", "case", "code", "id", "name", "no", "nr", "number", "participant",
    "patient", "person", "player", "subject", "target",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Scores:
    """A table of scores.

    Attributes:
        trials: names of the columns.
        values: shape (people, trials), NaN where a score is missing.
        lines: where each row stands in the file.
        notes: what was understood, in plain sentences.
    """

    trials: tuple[str, ...]
    values: npt.NDArray[np.float64]
    lines: tuple[int, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pairs:
    """Forces by athlete.

    Attributes:
        results_n: by athlete, isometric and eccentric results; either may be empty.
        notes: what was understood, in plain sentences.
    """

    results_n: Mapping[str, tuple[Sequence[float], Sequence[float]]]
    notes: tuple[str, ...]


class _Rows:
    """All rows of a table, bounded, with the names above them."""

    def __init__(self, path: Path, *, columns: int) -> None:
        self.cells = Cells(path)
        first = self.cells.first
        while first and not first[-1]:  # separators at the end of each line
            first = first[:-1]
        self.named = not first or self._are_names(first)
        self.width = len(first)
        self.names = tuple(
            name[:NAME_MAX] if self.named else phrase("column {place}", place=place)
            for place, name in enumerate(first, start=1)
        )
        self.rows = list(self._read(path))
        if self.width < columns:
            raise FileError(
                path,
                numbered(
                    self.width,
                    "there is 1 column; {columns} are needed.",
                    "there are {count} columns; {columns} are needed.",
                    columns=columns,
                ),
                place=phrase("line {line}", line=1),
                next_step=phrase("Columns are split by comma, semicolon or tab."),
            )
        if not self.rows:
            raise FileError(path, phrase("there are names of columns and no rows."))

    def _are_names(self, first: Sequence[str]) -> bool:
        """Whether the first row holds names; trials may be named 1, 2, 3."""
        numbers = list(map(self.cells.is_number, first))
        if not all(numbers[1:]):
            return True
        numbered = [str(number) for number in range(1, len(first))]
        return names_code(first[0]) or (not numbers[0] and [*first[1:]] == numbered)

    def _read(self, path: Path) -> Iterator[tuple[int, list[str]]]:
        for count, (line, cells) in enumerate(self.cells.rows()):
            if count == PEOPLE_MAX + 1:
                raise FileError(
                    path,
                    phrase(
                        "there are more than {people_max} rows; this is no "
                        "table of people.",
                        people_max=PEOPLE_MAX,
                    ),
                    place=phrase("line {line}", line=line),
                )
            if count == 0 and self.named:
                continue
            if any(cells[self.width :]):
                raise FileError(
                    path,
                    phrase(
                        "there are more cells than the {width} columns of "
                        "the first row.",
                        width=self.width,
                    ),
                    place=phrase("line {line}", line=line),
                )
            if any(cells):
                yield line, cells

    def notes(self) -> Iterator[str]:
        yield phrase("Found {layout}.", layout=self.cells.layout(names=self.named))
        if not self.named:
            yield phrase(
                "The first row holds numbers: it is read as a row, not as names."
            )

    def column(self, place: int) -> list[float]:
        """The numbers of a column; NaN where one is missing."""
        found = (self.cells.number(cells, place, line) for line, cells in self.rows)
        return [np.nan if value is None else value for value in found]


def read_scores(path: Path) -> Scores:
    """Reads a table of scores.

    The first column is taken as a code where its name says so, where most of its
    cells are no numbers, or where they count the rows.

    Raises:
        FileError: names line and column of what does not fit.
    """
    table = _Rows(path, columns=2)
    coded = _is_code(table)
    trials = table.names[1:] if coded else table.names
    if len(trials) < 2:
        raise FileError(
            path,
            phrase("there is one column of scores; two trials are needed."),
            place=phrase("line {line}", line=1),
            next_step=phrase(
                "The first column, “{names}”, is taken as a code.", names=table.names[0]
            ),
        )
    if len(trials) > TRIALS_MAX:
        raise FileError(
            path,
            phrase(
                "there are {trials} trials; {trials_max} at most.",
                trials=len(trials),
                trials_max=TRIALS_MAX,
            ),
        )
    if len(table.rows) < 2:
        raise FileError(path, phrase("there is one row; two people are needed."))
    if coded:
        _refuse_twice(table, path)
    places = range(int(coded), table.width)
    try:
        values = np.array([table.column(place) for place in places]).T
    except FileError as error:
        if not coded and error.place.endswith("column 1"):
            raise FileError(
                path,
                error.problem,
                place=error.place,
                next_step=phrase("If the first column holds codes, name it code."),
            ) from error
        raise
    notes = [*table.notes()]
    if coded:
        notes.append(
            phrase(
                "The first column, “{names}”, is taken as a code.", names=table.names[0]
            )
        )
    return Scores(
        trials=trials,
        values=values,
        lines=tuple(line for line, _ in table.rows),
        notes=tuple(notes),
    )


def _is_code(table: _Rows) -> bool:
    if table.named and names_code(table.names[0]):
        return True
    cells = [row[0] for _, row in table.rows]
    words = sum(not table.cells.is_number(cell) for cell in cells)
    numbered = [str(number) for number in range(1, len(cells) + 1)]
    return 2 * words > len(cells) or (len(cells) > 2 and cells == numbered)


def names_code(name: str) -> bool:
    """Whether a column's name says that people stand in it."""
    words = set(re.findall(r"[a-z]+|[^a-z _.#-]", name.casefold()))
    return not name or (bool(words) and words <= _CODE_WORDS)


def _refuse_twice(table: _Rows, path: Path) -> None:
    """A person has one row; a second one would count as another person."""
    seen: dict[str, int] = {}
    for line, cells in table.rows:
        if cells[0] and seen.setdefault(cells[0].casefold(), line) != line:
            raise FileError(
                path,
                phrase(
                    "this code stands in line {seen} already.",
                    seen=seen[cells[0].casefold()],
                ),
                place=phrase("line {line}, column 1", line=line),
                next_step=phrase("A person has one row, with a column for each trial."),
            )


def read_pairs(path: Path) -> Pairs:
    """Reads a table of isometric and eccentric forces, in newtons.

    The columns are found by names that begin with iso and ecc; else they are the
    second and the third. The athlete is the first of the others.

    Raises:
        FileError: names line and column of what does not fit.
    """
    table = _Rows(path, columns=3)
    athlete, isometric, eccentric, named = _pair_places(table)
    results: dict[str, tuple[list[float], list[float]]] = {}
    for line, cells in table.rows:
        code = cells[athlete].casefold() if athlete < len(cells) else ""
        if not code:
            raise FileError(
                path,
                phrase("the athlete's code is empty."),
                place=phrase(
                    "line {line}, column {athlete}", line=line, athlete=athlete + 1
                ),
            )
        kinds = results.setdefault(code, ([], []))
        for place, kind in zip((isometric, eccentric), kinds, strict=True):
            force_n = table.cells.number(cells, place, line)
            if force_n is None:
                continue
            if force_n <= 0:
                raise FileError(
                    path,
                    phrase("{force_n:g} N is not a force above 0 N.", force_n=force_n),
                    place=phrase(
                        "line {line}, column {place}", line=line, place=place + 1
                    ),
                )
            kind.append(force_n)
    notes = [*table.notes()]
    if not named:
        notes.append(
            f"Column {isometric + 1} is taken as isometric and column {eccentric + 1} "
            "as eccentric."
        )
    return Pairs(results, (*notes, *_rows_told(table)))


def _pair_places(table: _Rows) -> tuple[int, int, int, bool]:
    names = [name.casefold() for name in table.names]
    found = [
        [place for place, name in enumerate(names) if name.startswith(start)]
        for start in ("iso", "ecc")
    ]
    if not all(len(places) == 1 for places in found):
        return 0, 1, 2, False
    (isometric,), (eccentric,) = found
    others = (place for place in range(table.width) if [place] not in found)
    return next(others), isometric, eccentric, True


def _rows_told(table: _Rows) -> Iterator[str]:
    if table.width > 3:
        yield f"Columns not used: {table.width - 3}."


def left_out(scores: Scores) -> list[Phrase]:
    """Which rows have no part in which figures."""
    there = np.isfinite(scores.values).sum(axis=1)
    told = []
    if holed := [
        line
        for line, count in zip(scores.lines, there, strict=True)
        if count < len(scores.trials)
    ]:
        lines = lines_told(holed)
        told.append(
            phrase(
                "A score is missing in {lines}: left out of the correlations and the "
                "limits of agreement.",
                lines=lines,
            )
            if len(scores.trials) == 2
            else phrase(
                "A score is missing in {lines}: left out of the correlations.",
                lines=lines,
            )
        )
    if alone := [
        line for line, count in zip(scores.lines, there, strict=True) if count < 2
    ]:
        told.append(
            phrase(
                "Fewer than two scores in {lines}: left out of the error of "
                "measurement too.",
                lines=lines_told(alone),
            )
        )
    return told


def lines_told(lines: Sequence[int]) -> Phrase:
    """“line 4” or “lines 4, 9 and 12”; a long list is cut."""
    if len(lines) == 1:
        return phrase("line {line}", line=lines[0])
    told = [str(line) for line in lines[:LINES_TOLD]]
    if len(lines) > LINES_TOLD:
        return phrase(
            "lines {lines} and {more} more",
            lines=", ".join(told),
            more=len(lines) - LINES_TOLD,
        )
    return phrase("lines {lines}", lines=listed(told))
