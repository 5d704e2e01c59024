"""EDF+: one file for each set, written here from the published format.

Kemp B, Olivan J. European data format 'plus' (EDF+), an EDF alike standard format for
the exchange of physiological data. Clin Neurophysiol 2003;114:1755-1761. The format is
a fixed header in ASCII and 16-bit numbers, and this writer needs neither a library nor
the whole signal in memory.

Rules:

* EDF+C, on the even grid: common readers refuse discontinuous files (EDF+D). An empty
  slot holds the lowest number, which no force reaches, the signal ``Usable`` is 0
  there, and an annotation names the gap.
* The range of a cell is its rated load, or more where more was measured: 65,532 steps
  for its two directions. A force is kept to half a step; zero is kept exactly. EDF+ is
  an export and not the record.
* Start is local time without a zone, as the format has it, with its part of a second
  in the time of the first data record.
* Of the patient stands the code alone, unless the name is asked for.
"""

from __future__ import annotations

import itertools
import math
import unicodedata
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.logbook.exports.edf_annotations import Annotation, packed
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime
    from typing import BinaryIO

    import numpy.typing as npt

    from biofeedback.logbook.exports.even_grid import EvenGrid
    from biofeedback.logbook.exports.sample_batch import SampleBatch

SUFFIX = ".edf"
FORMAT = "EDF+C (Kemp and Olivan 2003)"

DIGITAL_MAX = 32_767
EMPTY = -DIGITAL_MAX
"""What an empty slot holds: the lowest number of the range."""
STEPS = DIGITAL_MAX - 1
"""Steps of each direction that a force may use."""
RANGE_MAX_N = 9_999_999.0
DECIMALS_MAX = 5
"""What eight characters hold with a minus before them."""
RECORD_BYTES_MAX = 61_440
"""The standard's bound for a data record."""
_FOR_ANNOTATIONS = 8192
_MONTHS = "JANFEBMARAPRMAYJUNJULAUGSEPOCTNOVDEC"


@dataclass(frozen=True, slots=True)
class ForceSignal:
    """One cell.

    Attributes:
        range_n: its largest force in either direction.
    """

    label: str
    range_n: float

    @property
    def step_n(self) -> float:
        """The resolution: newtons between neighbouring numbers."""
        return self.range_n / DIGITAL_MAX


def range_n(*, largest_n: float, rated_n: float | None) -> float:
    """The range of a signal: four digits, so that the header holds it exactly.

    Args:
        largest_n: largest force by amount in the recording.
        rated_n: rated load of the cell; None where it is not known.

    Raises:
        FieldError: it does not fit the header.
    """
    least_n = max(largest_n * DIGITAL_MAX / STEPS, rated_n or 0.0)
    if least_n <= 0:
        return 1.0
    digits = min(3 - math.floor(math.log10(least_n)), DECIMALS_MAX)
    grown = math.ceil(least_n * 10**digits - 1e-9)
    # By way of decimal text: the very number that a reader will find.
    found = float(_number_text(Decimal(grown).scaleb(-digits)))
    if found > RANGE_MAX_N:
        raise FieldError(
            "range",
            phrase("is {found:g} N, more than EDF+ can say.", found=found),
            phrase("Use CSV or Parquet."),
        )
    return found


@dataclass(frozen=True, slots=True)
class EdfHead:
    """Whose recording it is, and of when.

    Attributes:
        patient: code of the athlete.
        patient_name: empty unless asked for.
        start: local, aware.
        equipment: serial number of the rig.
    """

    patient: str
    patient_name: str
    start: datetime
    equipment: str


class EdfFile:
    """Writes one file; samples come in batches, annotations are known before.

    Args:
        file: takes the bytes; is closed by `close`.

    Attributes:
        rate_hz: as the header says it: samples of a record over its duration, which
            has eight characters.
    """

    def __init__(
        self,
        file: BinaryIO,
        head: EdfHead,
        signals: Sequence[ForceSignal],
        grid: EvenGrid,
        annotations: Sequence[Annotation],
    ) -> None:
        self._file = file
        self._signals = signals
        self._grid = grid
        self._per_record = _samples_per_record(grid.rate_hz, len(signals) + 1)
        self._duration = _eight_characters(self._per_record / grid.rate_hz)
        self.rate_hz = self._per_record / float(self._duration)
        self._records = -(-grid.slots // self._per_record)
        part = Decimal(head.start.microsecond) / 1_000_000
        self._texts = packed(
            annotations,
            records=self._records,
            duration=self._duration,
            part_of_second=part,
        )
        self._record = 0
        self._held = self._empty()
        file.write(self._header(head))

    def add_samples(self, batch: SampleBatch) -> None:
        """Puts the samples into their slots."""
        slots = self._grid.slot(batch.index)
        steps_n = np.array([signal.step_n for signal in self._signals])
        numbers = np.full((len(batch), len(self._signals) + 1), EMPTY, np.int16)
        good = batch.usable
        scaled = np.rint(batch.force_n[good] / steps_n)
        numbers[good, :-1] = np.clip(scaled, -STEPS, DIGITAL_MAX)
        numbers[:, -1] = good
        records = slots // self._per_record
        edges = [0, *(np.flatnonzero(np.diff(records)) + 1).tolist(), len(slots)]
        for first, stop in itertools.pairwise(edges):
            while self._record < records[first]:
                self._write_record()
            within = slots[first:stop] % self._per_record
            self._held[within] = numbers[first:stop]

    def close(self) -> None:
        """Writes the last records and closes the file."""
        while self._record < self._records:
            self._write_record()
        self._file.close()

    def _empty(self) -> npt.NDArray[np.int16]:
        held = np.full((self._per_record, len(self._signals) + 1), EMPTY, np.int16)
        held[:, -1] = 0
        return held

    def _write_record(self) -> None:
        self._file.write(self._held.T.astype("<i2").tobytes())
        self._file.write(self._texts[self._record])
        self._record += 1
        self._held = self._empty()

    def _header(self, head: EdfHead) -> bytes:
        count = len(self._signals) + 2
        start = head.start
        month = _MONTHS[3 * start.month - 3 : 3 * start.month]
        date = f"{start.day:02}-{month}-{start.year}"
        fixed = [
            (8, "0"),
            (80, f"{_word(head.patient)} X X {_word(head.patient_name)}"),
            (80, f"Startdate {date} X X {_word(head.equipment)}"),
            (8, f"{start:%d.%m.%y}"),
            (8, f"{start:%H.%M.%S}"),
            (8, str(256 * (count + 1))),
            (44, "EDF+C"),
            (8, str(self._records)),
            (8, _number_text(self._duration)),
            (4, str(count)),
        ]
        return b"".join(_field(text, width) for width, text in fixed) + b"".join(
            _field(text, width)
            for width, texts in self._signal_fields()
            for text in texts
        )

    def _signal_fields(self) -> list[tuple[int, list[str]]]:
        """Each field of all signals: the forces, whether usable, the annotations."""
        forces = len(self._signals)
        highest = [_number_text(Decimal(repr(one.range_n))) for one in self._signals]
        texts = str(len(self._texts[0]) // 2)
        return [
            (16, [*(s.label for s in self._signals), "Usable", "EDF Annotations"]),
            (80, ["Load cell"] * forces + ["", ""]),
            (8, ["N"] * forces + ["", ""]),
            (8, [*(f"-{text}" for text in highest), "0", "-1"]),
            (8, [*highest, "1", "1"]),
            (8, [str(EMPTY)] * forces + ["0", "-32768"]),
            (8, [str(DIGITAL_MAX)] * forces + ["1", "32767"]),
            (80, ["None"] * forces + ["", ""]),
            (8, [str(self._per_record)] * (forces + 1) + [texts]),
            (32, [""] * (forces + 2)),
        ]


def _samples_per_record(rate_hz: float, signals: int) -> int:
    """About a second of samples, within the bound of a record."""
    most = (RECORD_BYTES_MAX - _FOR_ANNOTATIONS) // (2 * signals)
    return max(1, min(round(rate_hz), most))


def _eight_characters(number: float) -> Decimal:
    """The nearest number that the header can hold."""
    return Decimal(f"{number:.{7 - len(str(int(number)))}f}")


def _number_text(number: Decimal) -> str:
    """The shortest text without an exponent."""
    text = f"{number:f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text) or "0"


def _field(text: str, width: int) -> bytes:
    return _ascii(text)[:width].ljust(width).encode("ascii")


def _ascii(text: str) -> str:
    """Letters lose their marks; what is left of others is a question mark."""
    plain = unicodedata.normalize("NFKD", text)
    kept = "".join(letter for letter in plain if not unicodedata.combining(letter))
    return "".join(letter if " " <= letter <= "~" else "?" for letter in kept)


def _word(text: str) -> str:
    """One word of a header field: blanks part words there; X is not known."""
    return "_".join(text.split()) or "X"
