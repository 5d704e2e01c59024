"""Any board that prints one or two numbers a line, read as if it sent frames.

Rules that hold here:

* Bytes in, samples out; no clock. The moment of arrival comes in with the bytes
  and is used only where lines have no time of their own.
* The layout is found from the first lines and then kept; `found` says it in
  words. Lines that came before it was known are not lost.
* The bytes before the first line end may be half a line and are never used: half
  a number looks like a number.
* Whole numbers are counts. Numbers with decimals are multiplied by `scale`, a
  power of ten, and rounded; newtons = counts / `scale` where a board prints
  newtons. What does not fit 24 bits is held at the end and marked saturated.
* A line that looks like a damaged sample takes a number of the sequence, so that
  the loss is seen; a remark (no digits, or starting with a letter or sign) does
  not. Nothing is filled in.
"""

from __future__ import annotations

import re
from collections import deque
from dataclasses import dataclass, replace
from itertools import groupby

import numpy as np

from biofeedback.errors import RigError
from biofeedback.phrase import phrase
from biofeedback.wire.frames import (
    COUNTS_MAX,
    COUNTS_MIN,
    PROTOCOL_MAJOR,
    PROTOCOL_MINOR,
    SEQUENCE_MODULUS,
    Identity,
    Samples,
)
from biofeedback.wire.limits import SPAN_MAX_US
from biofeedback.wire.text_clock import ArrivalClock, StampClock
from biofeedback.wire.text_layout import (
    LINES_KEPT,
    First,
    Layout,
    Line,
    find_layout,
)

LINE_MAX = 200
"""Longest line in bytes: three numbers of 24 characters, twice over and more."""
SAMPLES_MAX = 8
"""Most samples in a frame, as for any board."""

JUDGED_EVERY = 4
"""Lines between two looks for the layout: a board with none costs little."""

_OVERLONG = "0…"  # stands for a line that was thrown away; looks like a damaged one
_DAMAGED = re.compile(r"[\s,;]*[0-9.+-].*", re.ASCII)


@dataclass(frozen=True, slots=True)
class _Row:
    """One sample before it is put into a frame."""

    sequence: int
    time_us: int
    counts: tuple[int, ...]


class TextLines:
    """Bytes of text in, samples out.

    Attributes:
        unparsed: lines that were not understood, remarks and damaged ones, since
            the first line end.
        overlong: lines of more than `LINE_MAX` bytes, thrown away.
    """

    def __init__(self, *, time_column: bool | None = None) -> None:
        """Starts before the first byte.

        Args:
            time_column: whether the first column is a time; None to find out.
        """
        self.unparsed = 0
        self.overlong = 0
        self._time_column = time_column
        self._held = bytearray()
        self._skipping = True  # up to the next line end
        self._early: deque[Line] = deque(maxlen=LINES_KEPT)
        self._sought = 0  # lines before the layout was known
        self._layout: Layout | None = None
        self._stamps: StampClock | None = None
        self._arrivals: ArrivalClock | None = None
        self._sequence = 0  # of the next sample, not wrapped
        self._missing = 0  # samples that are known to be lost before it

    @property
    def ready(self) -> bool:
        """Whether the layout is known."""
        return self._layout is not None

    @property
    def scale(self) -> int:
        """Counts for one of the board's own units; 1 before the layout is known."""
        return self._layout.scale if self._layout else 1

    @property
    def found(self) -> str:
        """What was found, or what is awaited, in words."""
        if self._layout:
            words = self._layout.words()
        elif self._early:
            words = f"no columns of numbers yet in the last {len(self._early)} lines"
        else:
            words = "no lines yet"
        unparsed = self.unparsed + (0 if self._layout else len(self._early))
        return words + (f"; {unparsed} lines not understood" if unparsed else "")

    def identity(self) -> Identity:
        """The board as it would say of itself.

        Raises:
            RigError: it has not printed enough lines of numbers yet.
        """
        if self._layout is None:
            raise RigError(
                phrase("The board has not printed enough lines of numbers yet."),
                phrase("Look at its output: one or two numbers a line are read."),
            )
        clock = self._stamps or self._arrivals
        period_us = clock.period_us if clock else 0.0
        rate_hz = max(0.001, round(1e6 / period_us, 3)) if period_us else 1.0
        return Identity(
            sequence=self._sequence % SEQUENCE_MODULUS,
            protocol=(PROTOCOL_MAJOR, PROTOCOL_MINOR),
            firmware=(0, 0, 0),
            stream_channels=(self._layout.channels,),
            rates_hz=(rate_hz,),
            rate_index=0,
            gains=(),
            gain_index=0,
            adc_bits=24,
            adc="text lines",
            serial_number="",
        )

    def push(self, data: bytes, arrived_s: float) -> list[Samples]:
        """Takes what came and gives the samples whose lines are complete.

        Args:
            data: any bytes.
            arrived_s: when they came, on any clock that does not go back.
        """
        texts = self._lines(data)
        if self._layout is None:
            return _frames(self._learn(texts, arrived_s))
        return _frames(self._rows(texts, arrived_s))

    def _lines(self, data: bytes) -> list[str]:
        r"""Complete lines, without ends and blanks; ``\r`` ends a line as well."""
        *pieces, rest = data.replace(b"\r", b"\n").split(b"\n")
        lines: list[str] = []
        for piece in pieces:
            self._hold(piece, lines)
            if not self._skipping:
                # What is not ASCII is kept as a mark that fits no number.
                text = self._held.decode("ascii", "replace").strip(" \t\0")
                if text:
                    lines.append(text)
            self._skipping = False
            self._held.clear()
        self._hold(rest, lines)
        return lines

    def _hold(self, piece: bytes, lines: list[str]) -> None:
        """Keeps the beginning of a line, or marks in `lines` that it is too long."""
        if not self._skipping and len(self._held) + len(piece) > LINE_MAX:
            self._skipping = True
            self._held.clear()
            self.overlong += 1
            lines.append(_OVERLONG)
        if not self._skipping:
            self._held += piece

    def _learn(self, texts: list[str], arrived_s: float) -> list[_Row]:
        """Looks for the layout; the samples of all lines once it is found."""
        for number, text in enumerate(texts):
            if text is _OVERLONG:
                continue
            if len(self._early) == LINES_KEPT:
                self.unparsed += 1  # the oldest is given up
            self._early.append(Line.read(text, arrived_s))
            self._sought += 1
            if self._sought % JUDGED_EVERY:
                continue
            layout = find_layout(self._early, time_column=self._time_column)
            if layout:
                self._begin(layout)
                early = list(self._early)
                self._early.clear()
                rows: list[_Row] = []
                # Lines that arrived together share their moment.
                for moment_s, group in groupby(early, key=lambda one: one.arrived_s):
                    together = [one.text for one in group]
                    if moment_s == arrived_s:
                        together += texts[number + 1 :]
                    rows += self._rows(together, moment_s)
                return rows
        return []

    def _begin(self, layout: Layout) -> None:
        """Reads by this layout from now on."""
        self._layout = layout
        if layout.first is First.TIME:
            self._stamps = StampClock(layout)
        else:
            self._arrivals = ArrivalClock(layout.period_s)

    def _rows(self, texts: list[str], arrived_s: float) -> list[_Row]:
        """The samples in lines that arrived together."""
        layout = self._layout
        if layout is None:
            return []
        unused = layout.columns - layout.channels
        rows: list[_Row] = []
        for text in texts:
            cells = layout.form.split(text)
            if cells is None or len(cells) != layout.columns:
                self.unparsed += text is not _OVERLONG
                self._missing += bool(_DAMAGED.fullmatch(text))
                continue
            time_us = 0
            if self._stamps:
                missing, time_us = self._stamps.next(cells[0])
                self._missing = max(self._missing, missing)
            sequence = self._sequence + self._missing
            self._sequence = sequence + 1
            self._missing = 0
            counts = tuple(_counts(cell, layout.scale) for cell in cells[unused:])
            rows.append(_Row(sequence, time_us, counts))
        if self._arrivals and rows:
            times = self._arrivals.burst(len(rows), arrived_s)
            rows = [
                replace(row, time_us=time_us)
                for row, time_us in zip(rows, times, strict=True)
            ]
        return rows


def _counts(cell: str, scale: int) -> int:
    """The number in counts, held within 24 bits."""
    if cell.lstrip("+-").isdigit():
        counts = int(cell) * scale
    else:
        counts = round(float(cell) * scale)
    return max(COUNTS_MIN, min(COUNTS_MAX, counts))


def _frames(rows: list[_Row]) -> list[Samples]:
    """Puts samples that follow each other evenly into one frame."""
    frames = []
    start = 0
    while start < len(rows):
        end = start + 1
        step_us = rows[end].time_us - rows[start].time_us if end < len(rows) else 0
        while (
            end < len(rows)
            and end - start < SAMPLES_MAX
            and (end - start) * step_us <= SPAN_MAX_US
            and rows[end].sequence == rows[end - 1].sequence + 1
            and rows[end].time_us - rows[end - 1].time_us == step_us
        ):
            end += 1
        frames.append(_frame(rows[start:end], step_us if end - start > 1 else 0))
        start = end
    return frames


def _frame(rows: list[_Row], step_us: int) -> Samples:
    counts = np.array([row.counts for row in rows], np.int32)
    saturated = (counts == COUNTS_MAX) | (counts == COUNTS_MIN)
    settling = np.zeros(len(rows), np.bool_)
    for array in (counts, saturated, settling):
        array.setflags(write=False)
    return Samples(
        rows[0].sequence % SEQUENCE_MODULUS,
        0,
        rows[0].time_us % SEQUENCE_MODULUS,
        step_us,
        counts,
        saturated,
        settling,
    )
