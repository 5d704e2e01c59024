"""Makes a recording of a table of forces, so that old data can be judged again.

The forces become counts of a board that never was (identity "imported table"), in
24 bits. One count is a round decimal step of the table's own unit (1, 2 or 5 times
a power of ten), the finest that covers the data: decimals that are coarser than
the step are kept exactly, all others to within half of it, and that is told.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    FilterChoice,
    FilterKind,
    RigProfile,
    Side,
    Zero,
)
from biofeedback.errors import FileError
from biofeedback.logbook import folders, recording_format
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.table_source import NEWTONS, Choice, Findings, Sample, Source
from biofeedback.phrase import phrase
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import (
    COUNTS_MAX,
    PROTOCOL_MAJOR,
    PROTOCOL_MINOR,
    SEQUENCE_MODULUS,
    Close,
    Frame,
    Header,
    Identity,
    Samples,
)

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

NAME = "imported table"
FAR_ABOVE = 10
FRAME_SAMPLES = 20
"""33 of two channels fit; fewer lose less to a damaged frame."""
NAME_MAX = 100
LEAST_RATED_N = 0.001
MOST_RATED_N = 1e7
"""As the profile asks; a table of zeros has no range of its own."""
SIDES = {1: (Side.SINGLE,), 2: (Side.LEFT, Side.RIGHT)}


@dataclass(frozen=True, slots=True)
class Imported:
    """What came of a table.

    Attributes:
        resolution_n: newtons in one count.
        lost: samples missing between others.
        notes: what the person should know, in plain sentences.
    """

    path: Path
    samples: int
    lost: int
    rate_hz: float
    resolution_n: float
    notes: tuple[str, ...]


def import_table(table: Path, out: Path, choice: Choice) -> Imported:
    """Reads the table twice, to measure and to write, in bounded memory.

    Args:
        table: the file with the numbers.
        out: the recording to be made; never over a file that is there.

    Raises:
        FileError: names file, line and column of what is wrong.
        FieldError: a choice that does not fit the table.
    """
    source = Source(table, choice)
    found = source.measure()
    samples = _Quantised(source, found)
    profile = _profile(source, choice, found)
    note = f"One count is {profile.channels[0].calibration.coefficients[1]:.3g} N."
    notes = (f"Found {source.table.layout}.", *found.notes, note)
    header = recording_format.completed(
        {
            "profile": profile.to_json(),
            "imported": {
                "unit": choice.unit,
                "columns": [channel.name for channel in profile.channels],
                "notes": list(notes),
            },
        },
        set_id=new_key(),
        started_utc=now_utc(),
    )
    frames = _frames(header, found.rate_hz, len(choice.columns), samples)
    with folders.whole_file(out) as file:
        file.writelines(map(encode, frames))
    return Imported(
        out,
        found.samples,
        samples.lost,
        found.rate_hz,
        profile.channels[0].calibration.coefficients[1],
        notes,
    )


class _Quantised:
    """Samples as frames of counts.

    Attributes:
        lost: samples missing between those given so far.
    """

    def __init__(self, source: Source, found: Findings) -> None:
        self.lost = 0
        self.next_index = 0
        self._source = source
        self._found = found

    def frames(self) -> Iterator[Samples]:
        """Frames of evenly spaced samples without a gap in them."""
        run: list[Sample] = []
        for sample in self._source.samples(self._found.rate_hz):
            if run and not _continues(run, sample):
                yield self._frame(run)
                run = []
            if self.next_index:  # rows without a number before the first are none
                self.lost += sample.index - self.next_index
            self.next_index = sample.index + 1
            run.append(sample)
        if run:
            yield self._frame(run)

    def _frame(self, run: list[Sample]) -> Samples:
        values = np.array([sample.values for sample in run])
        counts = np.rint(values / self._found.step)
        if np.abs(counts).max() >= COUNTS_MAX:
            raise FileError(
                self._source.table.path, phrase("it was changed while being read.")
            )
        return Samples(
            sequence=run[0].index % SEQUENCE_MODULUS,
            stream=0,
            time_us=run[0].time_us % SEQUENCE_MODULUS,
            step_us=_step_us(run),
            counts=counts.astype(np.int32),
            saturated=np.zeros(counts.shape, np.bool_),
            settling=np.zeros(len(run), np.bool_),
        )


def _step_us(run: list[Sample]) -> int:
    return run[1].time_us - run[0].time_us if len(run) > 1 else 0


def _continues(run: list[Sample], sample: Sample) -> bool:
    """Whether the sample may go into the frame; see `hardware/PROTOCOL.md`, 3."""
    if len(run) >= FRAME_SAMPLES or sample.index != run[-1].index + 1:
        return False
    step_us = _step_us(run)
    if not step_us:
        return True
    off_us = sample.time_us - run[0].time_us - len(run) * step_us
    return abs(off_us) <= max(0.02 * step_us, 2)


def _profile(source: Source, choice: Choice, found: Findings) -> RigProfile:
    n_per_count = found.step * NEWTONS[choice.unit]
    calibration = Calibration((0.0, n_per_count), label=NAME)
    # A table does not say what its cell was rated for: so much that none is near it.
    rated_n = FAR_ABOVE * n_per_count * COUNTS_MAX
    rated_n = min(max(rated_n, LEAST_RATED_N), MOST_RATED_N)
    sides = SIDES[len(choice.columns)]
    usual = FilterChoice()
    return RigProfile(
        name=NAME,
        channels=tuple(
            Channel(name[:NAME_MAX], side, calibration, rated_n)
            for name, side in zip(source.table.names, sides, strict=False)
        ),
        rate_hz=found.rate_hz,
        zero=Zero.none(len(sides)),
        # The usual low pass needs some samples in each of its periods.
        filter=(
            usual
            if found.rate_hz >= 4 * usual.cutoff_hz
            else FilterChoice(kind=FilterKind.NONE)
        ),
        serial_number=NAME,
    )


def _frames(
    header: dict[str, object], rate_hz: float, channels: int, samples: _Quantised
) -> Iterator[Frame]:
    yield Header(header)
    yield Identity(
        sequence=0,
        protocol=(PROTOCOL_MAJOR, PROTOCOL_MINOR),
        firmware=(0, 0, 0),
        stream_channels=(channels,),
        rates_hz=(rate_hz,),
        rate_index=0,
        gains=(),
        gain_index=0,
        adc_bits=24,
        adc=NAME,
        serial_number=NAME,
    )
    count = 0
    for frame in samples.frames():
        count += len(frame.counts)
        yield frame
    totals: dict[str, object] = {"samples": count, "lost": samples.lost}
    yield Close(totals, samples.next_index % SEQUENCE_MODULUS)
