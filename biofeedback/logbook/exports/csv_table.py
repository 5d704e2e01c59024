"""CSV: RFC 4180, UTF-8, a header line, decimal point, nothing but the table.

A text that a spreadsheet would take for a formula gets an apostrophe before it, and
control characters in texts become blanks. Numbers are written so that reading gives
the very same number; an empty cell is no number. Flags are 1 and 0.
"""

from __future__ import annotations

import csv
import io
import math
import re
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.logbook.exports.table import fitted

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from typing import BinaryIO

    from biofeedback.logbook.exports.sample_batch import SampleBatch
    from biofeedback.logbook.exports.table import Cell, Column

SUFFIX = ".csv"
FORMAT = "RFC 4180, UTF-8"

_FORMULA = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What begins a formula in spreadsheets, in both widths (OWASP, CSV injection)."""
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]+")


def safe_text(text: str) -> str:
    """The text as it may stand in a cell."""
    text = _CONTROL.sub(" ", text).strip()
    return f"'{text}" if text.startswith(_FORMULA) else text


def _cell(value: Cell) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(int(value))
    return safe_text(value) if isinstance(value, str) else repr(value)


class CsvTable:
    """Rows into a file.

    Args:
        file: takes the bytes; is closed by `close`.
    """

    def __init__(self, file: BinaryIO, columns: Sequence[Column]) -> None:
        self._text = io.TextIOWrapper(file, encoding="utf-8", newline="")
        self._columns = columns
        self._writer = csv.writer(self._text, lineterminator="\r\n")
        self._writer.writerow([column.name for column in columns])

    def add(self, row: Mapping[str, Cell]) -> None:
        """A row; columns it does not have stay empty."""
        self._writer.writerow(
            [_cell(fitted(row.get(each.name), each.kind)) for each in self._columns]
        )

    def add_samples(self, batch: SampleBatch) -> None:
        """The rows of a batch; columns as in `table.samples_columns`."""
        self._writer.writerows(sample_rows(batch, empty=""))

    def close(self) -> None:
        """Writes what is held and closes the file."""
        self._text.close()


def sample_rows(batch: SampleBatch, *, empty: str) -> Iterator[list[str]]:
    """The rows of a batch as texts.

    Args:
        empty: stands for what is no number.
    """
    bands = np.column_stack([batch.band_lower_n, batch.band_upper_n])
    columns = zip(
        batch.time_s.tolist(),
        batch.index.tolist(),
        batch.counts.tolist(),
        batch.force_n.tolist(),
        batch.saturated.astype(int).tolist(),
        batch.usable.tolist(),
        bands.tolist(),
        batch.rep.tolist(),
        strict=True,
    )
    for time_s, index, counts, force_n, saturated, usable, edges_n, rep in columns:
        yield [
            f"{time_s:.6f}",
            str(index),
            *map(str, counts),
            *(repr(force) if usable else empty for force in force_n),
            *map(str, saturated),
            str(int(usable)),
            *(empty if math.isnan(edge) else repr(edge) for edge in edges_n),
            str(rep) if rep else empty,
        ]
