"""The forces in a table, each with its place: what an import starts from.

The table is read twice: `measure` finds range and rate, `samples` gives the rows.
With a time column, a step longer than one and a half periods is a gap; a row whose
time is not later than the one before has no place of its own and is left out; both
are told. Nothing is filled in.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import RATE_MAX_HZ
from biofeedback.conditioning.units import NEWTONS_PER_KGF, NEWTONS_PER_LBF
from biofeedback.errors import FieldError, FileError
from biofeedback.logbook.table_rows import Table
from biofeedback.phrase import phrase
from biofeedback.wire.frames import COUNTS_MAX

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

NEWTONS = {
    "N": 1.0,
    "kN": 1000.0,
    "kgf": NEWTONS_PER_KGF,
    "kg": NEWTONS_PER_KGF,
    "g": NEWTONS_PER_KGF / 1000,
    "lbf": NEWTONS_PER_LBF,
    "Nm": 1.0,
}
"""Newtons in one unit of the table."""
_UNIT_WORDS = {
    "Nm": "The table holds torque: newton metres stand wherever newtons are written.",
    "kg": "Kilograms became newtons by standard gravity, 9.80665 m/s².",
    "g": "Grams became newtons by standard gravity, 9.80665 m/s².",
}
TIME_UNITS_S = {"s": 1.0, "ms": 1e-3, "us": 1e-6, "µs": 1e-6}
STEPS_LOOKED_AT = 10_000
"""Steps from which the rate is found: minutes of any table, and bounded."""
LEAST_STEP_S = 1e-6
"""The wire tells microseconds; what is nearer to the row before is not later."""
SLOW_HZ = 5.0
"""Half the rate of the slowest bridge converters; below it a unit is likely wrong."""
GAP_FROM_PERIODS = 1.5
JUMP_MAX_S = 24 * 3600.0
"""Longer than a session; see `wire.timeline`, which takes it for a new start."""
LARGEST_N = 1e7
"""Force of a thousand tonnes: then the unit is not the one that was said."""
FINEST_STEP = 1e-9
"""Of one count, in the table's unit: finer than any table means."""
COLUMNS_MAX = 2
"""One force, or left and right."""

_TIME_NAME = re.compile(r"time|t(?:$|[^a-z0-9])", re.IGNORECASE)
_TIME_UNIT = re.compile(r"(?:^|[^a-z])(ms|us|[µμ]s)[)\] ]*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Choice:
    """What the person says of the table.

    Attributes:
        columns: the force, or left and right; names, or numbers from 1.
        unit: one of `NEWTONS`.
        rate_hz: sample rate; None takes it from the time column.
        time_column: name or number; None where `rate_hz` says it all, or else a
            column whose name begins with "time" or is "t" is looked for.
        time_unit: one of `TIME_UNITS_S`; None takes it from the column's name,
            else seconds.
    """

    columns: tuple[str, ...]
    unit: str = "N"
    rate_hz: float | None = None
    time_column: str | None = None
    time_unit: str | None = None

    def __post_init__(self) -> None:
        if not 1 <= len(self.columns) <= COLUMNS_MAX:
            raise FieldError(
                "columns", phrase("must be one column, or left and right.")
            )
        if self.unit not in NEWTONS:
            raise FieldError(
                "unit", phrase("must be one of {listed}.", listed=", ".join(NEWTONS))
            )
        if self.rate_hz is not None and not 0.1 <= self.rate_hz <= RATE_MAX_HZ:
            raise FieldError(
                "rate",
                phrase(
                    "must be 0.1 Hz to {rate_max_hz:g} Hz.", rate_max_hz=RATE_MAX_HZ
                ),
            )
        if self.time_unit is not None and self.time_unit not in TIME_UNITS_S:
            raise FieldError(
                "time unit",
                phrase("must be one of {listed}.", listed=", ".join(TIME_UNITS_S)),
            )


@dataclass(frozen=True, slots=True)
class Sample:
    """Forces of one moment, in the table's unit; `index` counts lost ones too."""

    index: int
    time_us: int
    values: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Findings:
    """What the first reading of the table found.

    Attributes:
        step: one count in the table's unit.
        notes: what the person should know, in plain sentences.
    """

    rate_hz: float
    step: float
    samples: int
    notes: tuple[str, ...]


class Source:
    """The table with its columns and its time found.

    Raises:
        FileError: the table cannot be read, lacks a column, or there is neither a
            rate nor a time.
    """

    def __init__(self, path: Path, choice: Choice) -> None:
        self.choice = choice
        self.table = Table(path, choice.columns)
        self._channels = len(choice.columns)
        time_column = choice.time_column
        if time_column is None and choice.rate_hz is None:
            time_column = next(filter(_names_time, self.table.all_names), None)
            if time_column is None:
                raise FileError(
                    path,
                    phrase("no rate is given and no column is named time."),
                    place=phrase("line {line}", line=1),
                    next_step=phrase(
                        "Give the sample rate in Hz, or name the time column."
                    ),
                )
        self._timed = time_column is not None
        self._second_s = 1.0
        if time_column is not None:
            self.table = Table(path, (*choice.columns, time_column))
            unit = choice.time_unit or _time_unit(self.table.names[-1])
            self._second_s = TIME_UNITS_S[unit]
        self._missing = self._late = self._first_late = 0

    def measure(self) -> Findings:
        """The first reading: range, rate and what is amiss."""
        largest, largest_line, count = 0.0, 0, 0
        steps_s: list[float] = []
        last_s = math.nan
        for line, time_s, values in self._good_rows():
            size = max(map(abs, values))
            if size > largest:
                largest, largest_line = size, line
            count += 1
            if len(steps_s) < STEPS_LOOKED_AT and not math.isnan(last_s):
                steps_s.append(time_s - last_s)
            last_s = time_s
        if count < 2:
            raise FileError(
                self.table.path,
                phrase("there are fewer than two rows with numbers in it."),
            )
        if largest * NEWTONS[self.choice.unit] > LARGEST_N:
            raise FileError(
                self.table.path,
                phrase(
                    "the unit makes the largest force {largest:.3g} N.",
                    largest=largest * NEWTONS[self.choice.unit],
                ),
                place=phrase("line {line}", line=largest_line),
                next_step=phrase("Check the unit and the columns."),
            )
        rate_hz = self.choice.rate_hz or 1 / median(steps_s)
        if not 0.1 <= rate_hz <= RATE_MAX_HZ:
            raise FileError(
                self.table.path,
                phrase(
                    "the time unit gives a sample rate of {rate_hz:g} Hz.",
                    rate_hz=rate_hz,
                ),
                place=phrase("column “{name}”", name=self.table.names[-1]),
                next_step=phrase(
                    "Say in which unit the time column is, or give the rate."
                ),
            )
        if not self.choice.rate_hz:
            rate_hz = float(f"{rate_hz:.6g}")  # time stamps are decimals
        notes = tuple(self._notes(rate_hz))
        return Findings(rate_hz, _round_step(largest), count, notes)

    def _notes(self, rate_hz: float) -> Iterator[str]:
        yield f"Forces are taken as {self.choice.unit}."
        if self.choice.unit in _UNIT_WORDS:
            yield _UNIT_WORDS[self.choice.unit]
        if rate_hz < SLOW_HZ:
            yield (
                f"{rate_hz:g} Hz is slow for a force: is the time in another unit? "
                "If so, say which with --time-unit."
            )
        if self._missing:
            yield f"{self._missing} rows without a number are missing samples."
        if self._late:
            yield (
                f"{self._late} rows were left out, because their time is not later "
                f"than the one before; the first is in line {self._first_late}."
            )

    def samples(self, rate_hz: float) -> Iterator[Sample]:
        """The second reading: each sample with its place."""
        index, last_s, first_s = -1, math.nan, math.nan
        period_s = 1 / rate_hz
        for line, time_s, values in self._good_rows():
            if not self._timed:
                index = round(time_s)
                yield Sample(index, round(index * 1e6 / rate_hz), values)
                continue
            if math.isnan(last_s):
                first_s = last_s = time_s
            step_s = time_s - last_s
            if step_s > JUMP_MAX_S:
                raise FileError(
                    self.table.path,
                    phrase(
                        "time jumps by {step_s:.0f} s, more than a day.", step_s=step_s
                    ),
                    place=phrase("line {line}", line=line),
                    next_step=phrase("Cut the table there."),
                )
            long = step_s > GAP_FROM_PERIODS * period_s
            index += round(step_s / period_s) if long else 1
            last_s = time_s
            yield Sample(index, round((time_s - first_s) * 1e6), values)

    def _good_rows(self) -> Iterator[tuple[int, float, tuple[float, ...]]]:
        """Line, time and forces of the rows that have them and go forward.

        Without a time column, time is the number of the row.
        """
        self._missing = self._late = self._first_late = 0
        last_s = -math.inf
        for number, row in enumerate(self.table.rows()):
            values = tuple(value for value in row.values if value is not None)
            if len(values) < len(row.values):
                self._missing += 1
                continue
            time_s = values[-1] * self._second_s if self._timed else float(number)
            if time_s < last_s + LEAST_STEP_S:
                self._late += 1
                self._first_late = self._first_late or row.line
                continue
            last_s = time_s
            yield row.line, time_s, values[: self._channels]


def _round_step(largest: float) -> float:
    """The finest 1, 2 or 5 times a power of ten at which `largest` fits 24 bits."""
    if largest == 0:
        return 0.001
    # The last code at each end means that the ADC is at its stop.
    least = max(largest / (COUNTS_MAX - 1), FINEST_STEP)
    power = 10.0 ** math.floor(math.log10(least))
    return next(m * power for m in (1, 2, 5, 10, 20) if m * power >= least)


def forces_in(path: Path, choice: Choice) -> tuple[str, ...]:
    """The columns that must be forces, because nothing else is in the table.

    Raises:
        FileError: the table cannot be read, or more than one answer is possible.
    """
    table = Table(path, ("1",))
    names = table.all_names
    if not names and table.columns == 1:
        return ("1",)
    taken = (choice.time_column or "").casefold()
    forces = tuple(
        name for name in names if not _names_time(name) and name.casefold() != taken
    )
    if not 1 <= len(forces) <= COLUMNS_MAX or len(set(forces)) < len(forces):
        raise FileError(
            path,
            phrase("which of its columns are forces is not to be seen."),
            next_step=phrase("Name one, or left and right, with --columns."),
        )
    return forces


def _names_time(name: str) -> bool:
    return bool(_TIME_NAME.match(name))


def _time_unit(name: str) -> str:
    """The unit that a name like ``time_ms`` or ``t [µs]`` ends in; else seconds."""
    found = _TIME_UNIT.search(name)
    if not found:
        return "s"
    return "ms" if found[1].casefold() == "ms" else "us"
