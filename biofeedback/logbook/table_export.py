"""Writes a recording as a table: counts as they came, forces as they were meant.

Columns: time, index, then for each channel counts, force and whether the ADC was
at its stop, then whether the sample is usable. Force is calibrated and zeroed by
the same pipeline that runs live, and not filtered; it is empty where a sample is
not usable. A lost sample has no row; the index shows the gap. Lines with # above
the table hold units, calibration, zero and versions.
"""

from __future__ import annotations

import csv
import io
import json
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback import __version__
from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.conditioning.profile import (
    FilterChoice,
    FilterKind,
    RigProfile,
    Zero,
)
from biofeedback.errors import FieldError, FileError, RigError
from biofeedback.logbook import folders
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Event, Samples

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path
    from typing import TextIO

    from biofeedback.conditioning.block import Block
    from biofeedback.logbook.recordings import Recording

NAME = "biofeedback table"
MAJOR = 1
MINOR = 0
"""As in `recording_format`: minor for what an older reader can pass over."""

ZERO = "zero"
"""Kind of the event that carries a new zero under ``zero``."""
DONE = frozenset({ZERO, "band", "stop", "pain", "note"})
"""Kinds of what was done from outside: it cannot be worked out from the samples."""
UNITS = (
    "time_s: seconds of device time from the first sample. index: number of the "
    "sample from 0, lost ones counted. counts: as the ADC gave them. force: newtons, "
    "calibrated and zeroed, not filtered; empty where the sample is not usable."
)


@dataclass(frozen=True, slots=True)
class Exported:
    """What was written.

    Attributes:
        losses: what the recording lacks, in words; empty where nothing is.
    """

    path: Path
    rows: int
    losses: str


def export_table(recording: Recording, out: Path) -> Exported:
    """Writes the table, never over a file that is there.

    Args:
        recording: is read twice, in bounded memory.
        out: the file to be made.

    Raises:
        FileError: the recording holds no usable profile, or a file cannot be read
            or written.
    """
    try:
        profile = RigProfile.from_json(
            Fields(recording.header, "header").inner("profile")
        )
        # Force as it was, sample by sample: despiking would take a sample of the
        # one before.
        pipeline = Pipeline(replace(profile, filter=FilterChoice(FilterKind.NONE)))
    except FieldError as error:
        raise FileError(recording.path, str(error)) from error
    losses = recording.survey().losses()
    with (
        folders.whole_file(out) as plain,
        io.TextIOWrapper(plain, encoding="utf-8", newline="") as file,
    ):
        _write_head(file, recording, losses)
        rows, misfits = _write_rows(file, recording, pipeline)
    if misfits:
        words = f"{misfits} frames that do not fit the rig were passed over"
        losses = f"{losses}; {words}" if losses else words
    return Exported(out, rows, losses)


def _write_head(file: TextIO, recording: Recording, losses: str) -> None:
    header = recording.header
    head: dict[str, object] = {
        "format": f"{NAME} {MAJOR}.{MINOR}",
        "software": f"biofeedback {__version__}",
        "recording": recording.path.name,
        "recorded with": header.get("software"),
        "started_utc": header.get("started_utc"),
        "athlete_code": header.get("athlete_code"),
        "units": UNITS,
        "losses": losses or "none",
        "profile": header.get("profile"),
        "prescription": header.get("prescription"),
    }
    for number, content in enumerate(_done(recording), start=1):
        head[f"{content['kind']} {number}"] = content
    for key, value in head.items():
        text = value if isinstance(value, str) else json.dumps(value)
        file.write(f"# {key}: {' '.join(text.split())}\n")


def _done(recording: Recording) -> Iterator[dict[str, object]]:
    """What was done while recording, and from which sample on."""
    for frame in recording.frames():
        if isinstance(frame, Event) and frame.content.get("kind") in DONE:
            yield {"from_sequence": frame.sequence, **frame.content}


def _write_rows(
    file: TextIO, recording: Recording, pipeline: Pipeline
) -> tuple[int, int]:
    """Writes a row a sample; how many, and how many frames did not fit the rig."""
    names = _column_names(pipeline.profile)
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(
        [
            "time_s",
            "index",
            *(f"counts_{name}" for name in names),
            *(f"force_{name}_n" for name in names),
            *(f"saturated_{name}" for name in names),
            "usable",
        ]
    )
    rows = misfits = 0
    try:
        for frame in recording.frames():
            if isinstance(frame, Samples):
                try:
                    blocks = pipeline.push(frame)
                except RigError:
                    misfits += 1  # passed over, as in the live run
                    continue
                for block in blocks:
                    writer.writerows(_lines(block))
                    rows += len(block)
            elif isinstance(frame, Event) and frame.content.get("kind") == ZERO:
                zero = Fields(frame.content, "event").inner("zero")
                pipeline.set_zero(Zero.from_json(zero))
    except FieldError as error:
        raise FileError(recording.path, str(error)) from error
    return rows, misfits


def _column_names(profile: RigProfile) -> list[str]:
    """The sides, numbered where one comes twice."""
    names: list[str] = []
    for channel in profile.channels:
        side = channel.side.value
        again = sum(name.rstrip("0123456789") == side for name in names)
        names.append(f"{side}{again + 1}" if again else side)
    return names


def _lines(block: Block) -> Iterator[list[str]]:
    columns = zip(
        block.time_s.tolist(),
        block.counts.tolist(),
        block.force_n.tolist(),
        block.saturated.astype(int).tolist(),
        block.good.tolist(),
        strict=True,
    )
    for index, (time_s, counts, force_n, saturated, good) in enumerate(
        columns, start=block.first_index
    ):
        forces = [repr(force) if good else "" for force in force_n]
        yield [
            f"{time_s:.6f}",
            str(index),
            *map(str, counts),
            *forces,
            *map(str, saturated),
            str(int(good)),
        ]
