"""What the lines of a plain board look like, found from the lines themselves.

A line holds one or two forces, with or without a time before them. Separators
are comma, semicolon, tab or spaces; numbers have a decimal point, or a decimal
comma where the separator is another one. A comma alone between two whole
numbers is always a separator. Anything that does not fit is no sample: a number
is never guessed.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.wire.frames import COUNTS_MAX

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

LINES_NEEDED = 16
"""Lines of one form before it is believed: 0.2 s at 80 Hz."""
LINES_KEPT = 64
"""Lines looked at, junk among them; the oldest are given up first."""
RATE_LEAST_HZ = 4.0
RATE_MOST_HZ = 4000.0
"""Rates that tell s, ms and µs apart; a factor of 1000 wide, so one unit fits."""
ARRIVAL_SPAN_S = 0.1
"""Shortest span of arrival that says something about the rate."""
PERIOD_MOST_S = 2.0
"""Longest period that arrival is believed to tell: else it was a pause."""
DECIMALS_MAX = 6

_POINT = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,2})?", re.ASCII)
_COMMA = re.compile(r"[+-]?\d+(?:,\d+)?(?:[eE][+-]?\d{1,2})?", re.ASCII)
_NAMES = {",": "comma", ";": "semicolon", "\t": "tab", " ": "space"}


class First(Enum):
    """What the first column is."""

    FORCE = "force"
    TIME = "time"
    COUNTER = "a counter"  # grows by regular steps, but is no time; not used


@dataclass(frozen=True, slots=True)
class Form:
    """How a line is taken apart.

    Attributes:
        separator: one of ``, ; tab space``; empty for a single column.
        decimal: ``.`` or ``,``.
    """

    separator: str
    decimal: str

    def split(self, line: str) -> tuple[str, ...] | None:
        """The numbers of the line, with decimal points, or None if it is not so."""
        if self.separator == " ":
            cells = [] if "\t" in line else line.split(" ")
            cells = [cell for cell in cells if cell]
        elif self.separator:
            cells = [cell.strip(" ") for cell in line.split(self.separator)]
            if len(cells) > 2 and not cells[-1]:  # a separator after the last number
                cells.pop()
        else:
            cells = [line]
        if bool(self.separator) != (len(cells) > 1):
            return None
        number = _POINT if self.decimal == "." else _COMMA
        if not all(number.fullmatch(cell) for cell in cells):
            return None
        return tuple(cell.replace(",", ".") for cell in cells)


# The first that fits the most lines is taken.
_FORMS = (
    Form("", "."),
    Form("\t", "."),
    Form(";", "."),
    Form(",", "."),
    Form(" ", "."),
    Form("\t", ","),
    Form(";", ","),
    Form(" ", ","),
)


@dataclass(frozen=True, slots=True)
class Line:
    """A line and when it arrived.

    Attributes:
        fits: its numbers in each form that it could have; found once a line.
    """

    text: str
    arrived_s: float
    fits: Mapping[Form, tuple[str, ...]]

    @classmethod
    def read(cls, text: str, arrived_s: float) -> Line:
        """The line with all forms it could have."""
        split = {form: form.split(text) for form in _FORMS}
        fits = {form: cells for form, cells in split.items() if cells}
        return cls(text, arrived_s, fits)


@dataclass(frozen=True, slots=True)
class Layout:
    """What was found.

    Attributes:
        form: how lines are taken apart.
        columns: numbers in a line.
        first: what the first of them is.
        unit: ``s``, ``ms`` or ``µs``; empty where there is no time.
        whole_stamps: whether times are whole numbers, which wrap at 2**32.
        resolution: smallest step of the times that are written, in `unit`.
        period_s: from line to line; 0 where nothing tells it.
        decimals: digits after the point that forces are kept with.
        doubt: words about what could also be true; often empty.
    """

    form: Form
    columns: int
    first: First
    unit: str
    whole_stamps: bool
    resolution: float
    period_s: float
    decimals: int
    doubt: str = ""

    @property
    def channels(self) -> int:
        """Number of forces in a line."""
        return self.columns - (self.first is not First.FORCE)

    @property
    def scale(self) -> int:
        """Counts for one of the board's own units."""
        return int(10**self.decimals)

    def words(self) -> str:
        """What was found, for people."""
        if self.columns == 1:
            parts = ["1 column"]
        else:
            name = _NAMES[self.form.separator]
            parts = [f"{self.columns} columns separated by {name}"]
        if self.first is First.TIME:
            parts.append(f"the first looks like time in {self.unit}")
        elif self.first is First.COUNTER:
            parts.append("the first counts lines and is not used")
        if self.form.decimal == ",":
            parts.append("decimal comma")
        forces = "1 force" if self.channels == 1 else f"{self.channels} forces"
        if self.decimals:
            most = COUNTS_MAX / self.scale
            step = f"{1 / self.scale:.{self.decimals}f}"
            forces += f" in steps of {step}, up to ±{most:.{self.decimals}f}"
        else:
            forces += " in whole counts"
        parts.append(forces)
        if self.first is not First.TIME:
            parts.append("timed by arrival")
        if self.period_s:
            parts.append(f"about {1 / self.period_s:.3g} lines a second")
        return "; ".join(parts) + (f" ({self.doubt})" if self.doubt else "")


def find_layout(
    lines: Sequence[Line], *, time_column: bool | None = None
) -> Layout | None:
    """The layout of most of the lines, or None while it cannot be told.

    Args:
        lines: the latest `LINES_KEPT` lines, junk among them.
        time_column: whether the first column is a time, where the user has said
            so; None to find out. Two forces that both rise evenly, as in a test
            with numbered counts, look like a time and a force.
    """
    fits = Counter(
        (form, len(cells)) for line in lines for form, cells in line.fits.items()
    )
    if not fits:
        return None
    most = max(fits.values())
    form, columns = min(
        (key for key, count in fits.items() if count == most),
        key=lambda key: _FORMS.index(key[0]),
    )
    if most < LINES_NEEDED or columns > 3:
        return None
    rows = [(line, line.fits.get(form, ())) for line in lines]
    fitting = [(line, cells) for line, cells in rows if len(cells) == columns]
    table = [cells for _, cells in fitting]
    first = _Stamps(
        [cells[0] for cells in table], [line.arrived_s for line, _ in fitting]
    )
    kind: First | None = First.FORCE
    unit, period_s = "", first.arrival_period_s
    if columns > 1 and time_column is not False:
        kind, unit, period_s = first.judge()
    if kind is None or (kind is First.FORCE and (columns == 3 or time_column)):
        return None
    unused = int(kind is not First.FORCE)
    forces = [cell for cells in table for cell in cells[unused:]]
    alone = form == Form(",", ".") and columns == 2 and kind is First.FORCE
    doubtful = alone and not any("." in cell for cells in table for cell in cells)
    return Layout(
        form,
        columns,
        kind,
        unit,
        whole_stamps=first.decimals == 0,
        resolution=10.0**-first.decimals,
        period_s=period_s,
        decimals=_fitting_decimals(forces),
        doubt="one number with a decimal comma would look the same" if doubtful else "",
    )


def _decimals(cell: str) -> int:
    """Digits after the point that a number is written with."""
    mantissa, _, exponent = cell.lower().partition("e")
    return max(0, len(mantissa.partition(".")[2]) - int(exponent or 0))


def _fitting_decimals(forces: Sequence[str]) -> int:
    """As many digits as are written, but room for four times what was seen."""
    decimals = min(DECIMALS_MAX, max(_decimals(cell) for cell in forces))
    largest = max(abs(float(cell)) for cell in forces)
    while decimals and 4 * largest * 10**decimals > COUNTS_MAX:
        decimals -= 1
    return decimals


class _Stamps:
    """A first column that may be a time."""

    def __init__(self, cells: Sequence[str], arrivals: Sequence[float]) -> None:
        self.decimals = min(9, max(_decimals(cell) for cell in cells))
        self._steps = np.diff(np.array([float(cell) for cell in cells]))
        self._arrivals = arrivals

    @property
    def arrival_period_s(self) -> float:
        """From line to line by arrival; 0 where all came nearly at once."""
        span_s = self._arrivals[-1] - self._arrivals[0]
        period_s = span_s / len(self._steps)
        return period_s if span_s >= ARRIVAL_SPAN_S and period_s < PERIOD_MOST_S else 0

    def judge(self) -> tuple[First | None, str, float]:
        """What the column is, its unit, the period; None while more is needed."""
        back = np.flatnonzero(self._steps < 0)
        steps = self._steps[back[-1] + 1 :] if len(back) else self._steps
        if len(back) > 1 or not self._is_regular(steps):
            return First.FORCE, "", self.arrival_period_s
        many = len(self._steps) + 1 >= LINES_KEPT
        if len(steps) < LINES_NEEDED - 1 and not many:
            return None, "", 0.0  # the board may have started anew
        arrival_s = self.arrival_period_s
        if np.all(steps == 1) and not arrival_s and not many:
            return None, "", 0.0  # ms at 1 kHz, or a counter: arrival will tell
        step = _usual(steps)
        for unit, unit_s in (("s", 1.0), ("ms", 1e-3), ("µs", 1e-6)):
            period_s = step * unit_s
            plausible = 1 / RATE_MOST_HZ <= period_s < 1 / RATE_LEAST_HZ
            fractional = self.decimals > 0 or unit != "s"
            agrees = not arrival_s or 1 / 3 < period_s / arrival_s < 3
            if plausible and fractional and agrees:
                return First.TIME, unit, period_s
        return First.COUNTER, "", arrival_s

    def _is_regular(self, steps: np.ndarray[tuple[int], np.dtype[np.float64]]) -> bool:
        """Whether it never goes back and grows by about the same each time.

        A step may be off by the resolution that is written: 3, 3, 4 ms at 300 Hz.
        """
        if not len(steps):
            return True
        usual = _usual(steps)
        off = np.abs(steps - usual)
        near = off <= max(0.5 * usual, 1.01 * 10.0**-self.decimals)
        return bool(usual > 0 and np.all(steps >= 0) and np.mean(near) >= 0.8)


def _usual(steps: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float:
    """Mean step without the largest tenth, which may be pauses."""
    kept = np.sort(steps)[: max(1, len(steps) - len(steps) // 10)]
    return float(np.mean(kept))
