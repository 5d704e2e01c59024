"""Parquet: the same tables, with units, meaning and facts in the schema.

Needs pyarrow, which is large and therefore no part of the program itself. It is
loaded only when Parquet is asked for.
"""

from __future__ import annotations

import importlib
import json
from typing import TYPE_CHECKING, Any

import numpy as np

from biofeedback.errors import UserError
from biofeedback.logbook.exports.table import Kind, fitted
from biofeedback.missing_package import install_with
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import BinaryIO

    from biofeedback.logbook.exports.sample_batch import SampleBatch
    from biofeedback.logbook.exports.table import Cell, Column

SUFFIX = ".parquet"
FORMAT = "Apache Parquet 2.6, Zstandard"
ROWS = 4096
"""Rows of a table held before they are written as one group."""
FACTS = b"biofeedback"
"""Key of the facts in the metadata of the schema: a JSON object."""


def load() -> tuple[Any, Any]:
    """The module pyarrow and its Parquet part.

    Raises:
        UserError: it is not installed.
    """
    try:
        return (
            importlib.import_module("pyarrow"),
            importlib.import_module("pyarrow.parquet"),
        )
    except ImportError as error:
        raise UserError(
            phrase("Parquet needs the package pyarrow, which is not installed."),
            install_with("pyarrow"),
        ) from error


class ParquetTable:
    """Rows into a file.

    Args:
        file: takes the bytes; is closed by `close`.
        facts: what holds for the whole table, into the schema.
    """

    def __init__(
        self, file: BinaryIO, columns: Sequence[Column], facts: Mapping[str, object]
    ) -> None:
        self._arrow, parquet = load()
        self._file = file
        self._columns = columns
        self._rows: list[Mapping[str, Cell]] = []
        types = {
            Kind.TEXT: self._arrow.string(),
            Kind.REAL: self._arrow.float64(),
            Kind.WHOLE: self._arrow.int64(),
            Kind.FLAG: self._arrow.bool_(),
        }
        self._schema = self._arrow.schema(
            [
                self._arrow.field(
                    column.name,
                    types[column.kind],
                    metadata={"unit": column.unit, "meaning": column.meaning},
                )
                for column in columns
            ],
            metadata={FACTS: json.dumps(facts, ensure_ascii=False, allow_nan=False)},
        )
        self._writer = parquet.ParquetWriter(
            file, self._schema, compression="zstd", version="2.6"
        )

    def add(self, row: Mapping[str, Cell]) -> None:
        """A row; columns it does not have stay empty."""
        self._rows.append(row)
        if len(self._rows) >= ROWS:
            self._write_rows()

    def add_samples(self, batch: SampleBatch) -> None:
        """The rows of a batch; columns as in `table.samples_columns`."""
        arrow = self._arrow
        arrays = [
            arrow.array(batch.time_s),
            arrow.array(batch.index),
            *(arrow.array(each.astype(np.int64)) for each in batch.counts.T),
            *(arrow.array(each, from_pandas=True) for each in batch.force_n.T),
            *(arrow.array(each) for each in batch.saturated.T),
            arrow.array(batch.usable),
            arrow.array(batch.band_lower_n, from_pandas=True),
            arrow.array(batch.band_upper_n, from_pandas=True),
            arrow.array(batch.rep, mask=batch.rep == 0),
        ]
        self._writer.write_table(arrow.Table.from_arrays(arrays, schema=self._schema))

    def close(self) -> None:
        """Writes what is held and closes the file."""
        if self._rows:
            self._write_rows()
        self._writer.close()
        self._file.close()

    def _write_rows(self) -> None:
        rows = [
            {each.name: fitted(row.get(each.name), each.kind) for each in self._columns}
            for row in self._rows
        ]
        self._writer.write_table(self._arrow.Table.from_pylist(rows, self._schema))
        self._rows = []
