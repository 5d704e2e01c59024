"""Reads calibration points from a table with named columns.

* The force: `force_n`, or `mass_kg` (10, or a stack as 10+5) with `class` (M1, M2,
  M3 of OIML R 111) or `tolerance_pct`. A force may have `tolerance_pct` too.
* The reading: `indication` or `counts`; `spread` and `others` (the other cell's
  counts meanwhile) where they were taken down.
* The order: `direction` (up or down), `run` (from 1), `time_s`, `channel`.

Columns are split by comma, semicolon or tab; with the last two a decimal comma is
understood. Nothing is trusted; every fault is told with line and column.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from biofeedback.conditioning.calibration_points import Direction
from biofeedback.conditioning.known_load import (
    KnownLoad,
    Reading,
    plain_number,
    stack,
)
from biofeedback.conditioning.masses import MassClass
from biofeedback.errors import NOTHING, FieldError, FileError
from biofeedback.logbook import folders
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from pathlib import Path

    from biofeedback.conditioning.gravity import Gravity

POINTS_MAX = 10_000
"""Far more masses than anyone hangs; a longer table is a signal, not a calibration."""
LINE_MAX = 2_000
"""Characters; a row of such a table has some tens."""
RUNS_MAX = 1000
NUMBER_MAX = 1e12

_NAMES = {
    "force_n": "force_n",
    "force": "force_n",
    "mass_kg": "mass_kg",
    "mass": "mass_kg",
    "class": "class",
    "tolerance_pct": "tolerance_pct",
    "tolerance": "tolerance_pct",
    "indication": "counts",
    "counts": "counts",
    "spread": "spread",
    "others": "others",
    "direction": "direction",
    "run": "run",
    "time_s": "time_s",
    "channel": "channel",
}
_DIRECTIONS = {
    "up": Direction.UP,
    "rising": Direction.UP,
    "down": Direction.DOWN,
    "falling": Direction.DOWN,
}


@dataclass(frozen=True, slots=True)
class PointsTable:
    """What a table held.

    Attributes:
        channels: readings by the name of the channel; "" where no column names it.
        notes: what the person should know, in plain sentences.
    """

    channels: Mapping[str, Sequence[Reading]]
    notes: tuple[str, ...]


@dataclass(slots=True)
class _Row:
    """One line, and where it stands; raises `FileError` with the place."""

    path: Path
    line: int
    cells: dict[str, str]
    decimal_comma: bool
    places: Mapping[str, int] = field(default_factory=dict)

    def fault(
        self, name: str, problem: Phrase, next_step: Phrase = NOTHING
    ) -> FileError:
        """A fault of one cell."""
        column = self.places.get(name)
        where = phrase("line {number}", number=self.line)
        if column is not None:
            where = phrase(
                "line {number}, column {column} ({name})",
                number=self.line,
                column=column + 1,
                name=name,
            )
        return FileError(self.path, problem, place=where, next_step=next_step)

    def has(self, name: str) -> bool:
        """Whether the cell is there and not empty."""
        return bool(self.cells.get(name))

    def number(self, name: str) -> float:
        """The number in a cell."""
        text = self.cells[name]
        plain = text.replace(",", ".", 1) if self.decimal_comma else text
        value = plain_number(plain)
        if not abs(value) <= NUMBER_MAX:
            raise self.fault(
                name, phrase("“{text}” is not a number that fits.", text=text[:40])
            )
        return value

    def optional(self, name: str) -> float | None:
        """The number in a cell, or None where it is empty."""
        return self.number(name) if self.has(name) else None


def read_points(path: Path, *, gravity: Gravity) -> PointsTable:
    """Reads the table.

    Args:
        gravity: what makes forces of masses.

    Raises:
        FileError: names line and column of what does not fit.
    """
    lines = _lines(path)
    number, header = next(lines, (0, ""))
    if not header:
        raise FileError(path, phrase("the table is empty."))
    separator = next((mark for mark in "\t;" if mark in header), ",")
    places, unknown = _columns(path, number, _split(path, number, header, separator))
    channels: dict[str, list[Reading]] = {}
    for count, (line, text) in enumerate(lines, start=1):
        if count > POINTS_MAX:
            raise FileError(
                path,
                phrase(
                    "has more than {points_max} points; this is no table "
                    "of a calibration.",
                    points_max=POINTS_MAX,
                ),
                place=phrase("line {line}", line=line),
            )
        cells = _split(path, line, text, separator)
        row = _Row(
            path,
            line,
            {
                name: cells[place] if place < len(cells) else ""
                for name, place in places.items()
            },
            separator != ",",
            places,
        )
        channels.setdefault(row.cells.get("channel", ""), []).append(
            _reading(row, gravity)
        )
    if not channels:
        raise FileError(path, phrase("there are names of columns and no points."))
    return PointsTable(channels, tuple(_notes(places, unknown)))


def _columns(
    path: Path, line: int, names: Sequence[str]
) -> tuple[dict[str, int], list[str]]:
    """The position of each column that is known, and the names of the others."""
    places: dict[str, int] = {}
    unknown = []
    for place, name in enumerate(names):
        known = _NAMES.get(name.casefold())
        where = phrase("line {line}, column {column}", line=line, column=place + 1)
        if known is None:
            unknown.append(name[:40])
        elif known in places:
            raise FileError(
                path,
                phrase("there are two columns “{known}”.", known=known),
                place=where,
            )
        else:
            places[known] = place
    if "counts" not in places:
        raise FileError(
            path,
            phrase("no column is named indication or counts."),
            place=phrase("line {line}", line=line),
            next_step=phrase(
                "The first row names the columns, for example "
                "mass_kg,indication,direction,run."
            ),
        )
    if ("force_n" in places) == ("mass_kg" in places):
        raise FileError(
            path,
            phrase("there must be one of the columns force_n and mass_kg."),
            place=phrase("line {line}", line=line),
        )
    return places, unknown


def _reading(row: _Row, gravity: Gravity) -> Reading:
    for name in ("counts", "mass_kg" if "mass_kg" in row.places else "force_n"):
        if not row.has(name):
            raise row.fault(name, phrase("is empty."))
    direction = _DIRECTIONS.get(row.cells.get("direction", "up").casefold() or "up")
    if direction is None:
        raise row.fault("direction", phrase("must be up or down."))
    run = row.optional("run")
    if run is not None and not (run == int(run) and 1 <= run <= RUNS_MAX):
        raise row.fault(
            "run", phrase("must be a whole number from 1 to {most}.", most=RUNS_MAX)
        )
    spread = row.optional("spread")
    if spread is not None and spread < 0:
        raise row.fault("spread", phrase("must be 0 or more."))
    others = row.optional("others")
    return Reading(
        _load(row, gravity),
        row.number("counts"),
        direction,
        1 if run is None else int(run),
        row.optional("time_s"),
        spread,
        () if others is None else (others,),
    )


def _load(row: _Row, gravity: Gravity) -> KnownLoad:
    tolerance = row.optional("tolerance_pct")
    if tolerance is not None and not 0 <= tolerance <= 100:
        raise row.fault("tolerance_pct", phrase("must be 0 to 100 %."))
    try:
        if "mass_kg" in row.places:
            mass_class = _class(row)
            mass = stack(
                row.cells["mass_kg"],
                mass_class=mass_class,
                tolerance_pct=tolerance,
            )
            return KnownLoad.of_mass(mass, gravity)
        force_n = row.number("force_n")
        return KnownLoad(
            force_n,
            abs(force_n) * (tolerance or 0.0) / 100,
            words=NOTHING
            if tolerance is None
            else phrase("±{tolerance:g} %", tolerance=tolerance),
        )
    except FieldError as error:
        name = "mass_kg" if "mass_kg" in row.places else "force_n"
        raise row.fault(name, error.problem, error.next_step) from error


def _class(row: _Row) -> MassClass | None:
    if not row.has("class"):
        return None
    text = row.cells["class"].upper()
    for known in MassClass:
        if known.value == text:
            return known
    raise row.fault(
        "class", phrase("“{text}” is none of M1, M2 and M3.", text=text[:20])
    )


def _notes(places: Mapping[str, int], unknown: Sequence[str]) -> Iterator[str]:
    if "direction" not in places:
        yield phrase("No column names the direction: all readings are taken as rising.")
    if "run" not in places:
        yield phrase("No column names the run: all readings are taken as one run.")
    if unknown:
        yield phrase("Not used: column {listed}.", listed=", ".join(unknown[:10]))


def _split(path: Path, line: int, text: str, separator: str) -> list[str]:
    try:
        (cells,) = csv.reader([text], delimiter=separator, strict=True)
    except (csv.Error, ValueError) as error:
        raise FileError(
            path,
            phrase("a quotation mark is opened and not closed."),
            place=phrase("line {line}", line=line),
        ) from error
    return [cell.strip() for cell in cells]


def _lines(path: Path) -> Iterator[tuple[int, str]]:
    """Each line that is neither blank nor a comment, with its number."""
    try:
        with path.open(encoding="utf-8-sig", errors="replace") as file:
            number = 0
            while text := file.readline(LINE_MAX + 1):
                number += 1
                if len(text) > LINE_MAX or "\0" in text:
                    raise FileError(
                        path,
                        phrase("this is no table of points."),
                        place=phrase("line {number}", number=number),
                    )
                text = text.strip("\r\n")
                if text.strip() and not text.startswith("#"):
                    yield number, text
    except OSError as error:
        raise FileError(
            path,
            phrase("the file cannot be read ({reason}).", reason=folders.reason(error)),
        ) from error
