"""The samples of one set, in every format at once, from one run over the recording.

Two runs before it find what the writers must know from the start: a replay tells reps
and bands, and an overview tells gaps, range and rate. Only some thousand samples are in
memory at any time.
"""

from __future__ import annotations

from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Protocol

from biofeedback.errors import NOTHING, FieldError, FileError
from biofeedback.logbook import recordings
from biofeedback.logbook.exports import edf
from biofeedback.logbook.exports.bids import Run
from biofeedback.logbook.exports.edf import EdfFile, EdfHead, ForceSignal
from biofeedback.logbook.exports.even_grid import EvenGrid, Overview, overview
from biofeedback.logbook.exports.export_tables import SUFFIXES, open_table
from biofeedback.logbook.exports.sample_batch import InForce, batches
from biofeedback.logbook.exports.table import samples_columns
from biofeedback.logbook.sample_stream import SampleStream
from biofeedback.logbook.table_import import NAME as IMPORTED
from biofeedback.phrase import Phrase, phrase
from biofeedback.session.export_events import event_texts, set_events
from biofeedback.session.replay import Replayed, replay

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from biofeedback.logbook.exports.bids import BidsFolder
    from biofeedback.logbook.exports.export_folder import ExportFolder
    from biofeedback.logbook.exports.sample_batch import SampleBatch
    from biofeedback.logbook.exports.table import Cell
    from biofeedback.session.export_source import SetSource

EDF, BIDS = "edf", "bids"


class SampleWriter(Protocol):
    """Takes samples."""

    def add_samples(self, batch: SampleBatch) -> None:
        """The next rows."""

    def close(self) -> None:
        """Writes what is held and closes the file."""


@dataclass(slots=True)
class Studied:
    """What is known of a recording before its samples are written.

    Attributes:
        replayed: None for a recording without a prescription.
        losses: what it lacks, in words; empty where nothing is.
    """

    stream: SampleStream
    found: Overview
    replayed: Replayed | None
    events: list[dict[str, Cell]]
    losses: str
    software: str

    @property
    def rate_hz(self) -> float:
        """By the board's clock."""
        return self.found.rate_hz(self.stream.profile.rate_hz)

    @property
    def in_force(self) -> InForce:
        """Bands and reps over time."""
        if self.replayed is None:
            return InForce()
        spans = [
            (
                float(str(rep["start_s"])),
                float(str(rep["end_s"])),
                int(str(rep["number"])),
            )
            for rep in self.replayed.reps
        ]
        return InForce(self.replayed.bands, sorted(spans))


def study(source: SetSource, *, blocks: bool = False) -> Studied:
    """Goes over a recording, twice or three times.

    Args:
        blocks: whether the force is kept as well, for what is worked out of reps.

    Raises:
        FileError: it cannot be read, is of another set, or holds no sample.
    """
    recording = recordings.read(source.path)
    if source.set_id and recording.header.get("set_id") != source.set_id:
        raise FileError(source.path, phrase("this is the recording of another set."))
    stream = SampleStream(recording)
    prescribed = recording.header.get("prescription")
    replayed = replay(source.path, keep_blocks=blocks) if prescribed else None
    found = overview(
        batches(stream.blocks(), InForce()), channels=len(stream.profile.channels)
    )
    if not found.samples:
        raise FileError(source.path, phrase("there is no sample in this recording."))
    losses = recording.survey().losses()
    if stream.misfits:
        words = f"{stream.misfits} frames that do not fit the rig were passed over"
        losses = f"{losses}; {words}" if losses else words
    software = recording.header.get("software")
    return Studied(
        stream,
        found,
        replayed,
        set_events(
            stream.events,
            found,
            replayed,
            zeros_s=stream.zeros_s,
            pain_taken_back=source.pain_taken_back,
        ),
        losses,
        software if isinstance(software, str) else "",
    )


@dataclass(frozen=True, slots=True)
class SamplesWanted:
    """What is to be written, and how discreetly.

    Attributes:
        clean: takes names out of a text that somebody typed.
    """

    formats: Sequence[str]
    names: bool
    notes: bool
    clean: Callable[[str], str]


@dataclass(slots=True)
class SamplesWritten:
    """What became of the samples of a set.

    Attributes:
        files: name of the file for each format.
        edf: what the manifest tells of EDF+.
        farthest_s: how far a sample is from its slot in EDF+ and BIDS, at most.
        problem: why some formats are missing, in words; else empty.
        missing: those formats.
    """

    files: dict[str, str] = field(default_factory=dict)
    edf: dict[str, object] = field(default_factory=dict)
    farthest_s: float | None = None
    problem: Phrase = NOTHING
    missing: tuple[str, ...] = ()


class _SetWriting:
    """One set on its way into all formats."""

    def __init__(
        self,
        source: SetSource,
        studied: Studied,
        wanted: SamplesWanted,
        folder: ExportFolder,
    ) -> None:
        self.source = source
        self.studied = studied
        self.wanted = wanted
        self.folder = folder
        self.told = SamplesWritten()
        self.task = wanted.clean(source.task)
        self.events = [
            {key: value for key, value in row.items() if key != "text"}
            if not wanted.notes
            else {**row, "text": wanted.clean(str(row.get("text") or ""))}
            for row in studied.events
        ]

    def table(self, kind: str) -> SampleWriter:
        name = f"samples/{self.source.stem}"
        self.told.files[kind] = f"{kind}/{name}{SUFFIXES[kind]}"
        facts = {
            "table": "samples",
            "athlete_code": self.source.code,
            "set_id": self.source.set_id,
            "task": self.task,
            "started_utc": self.source.started_utc.isoformat(),
            "rate_hz": self.studied.rate_hz,
        }
        columns = samples_columns(self.studied.stream.names)
        return open_table(self.folder, kind, name, columns, facts)

    def edf(self, grid: EvenGrid) -> SampleWriter:
        name = f"{EDF}/{self.source.stem}{edf.SUFFIX}"
        start = self.source.started_utc.astimezone()
        profile = self.studied.stream.profile
        rated = profile.serial_number != IMPORTED
        signals = [
            ForceSignal(
                f"Force {side}",
                edf.range_n(
                    largest_n=largest_n, rated_n=channel.rated_n if rated else None
                ),
            )
            for side, channel, largest_n in zip(
                self.studied.stream.names,
                profile.channels,
                self.studied.found.largest_n,
                strict=True,
            )
        ]
        head = EdfHead(
            patient=self.source.code,
            patient_name=self.source.name if self.wanted.names else "",
            start=start,
            equipment=self.wanted.clean(profile.serial_number),
        )
        texts = event_texts(
            self.events,
            self.task,
            start_s=grid.start_s,
            simulated=profile.simulated,
        )
        file = EdfFile(self.folder.create(name), head, signals, grid, texts)
        self.told.files[EDF] = name
        self.told.edf = {
            "range_n": [one.range_n for one in signals],
            "step_n": [one.step_n for one in signals],
            "rate_hz": file.rate_hz,
            "start_local": start.replace(tzinfo=None).isoformat(),
            "utc_offset": f"{start:%z}",
        }
        return file

    def run(self) -> Run:
        return Run(
            athlete_code=self.source.code,
            athlete_name=self.source.name if self.wanted.names else "",
            session_id=self.source.session_id,
            session_utc=self.source.session_utc,
            started_utc=self.source.started_utc,
            task=self.task,
            task_key=self.source.task,
            rig=self.wanted.clean(self.studied.stream.profile.serial_number),
            simulated=self.studied.stream.profile.simulated,
            names=self.studied.stream.names,
            software=self.studied.software,
        )


def write_samples(
    source: SetSource,
    studied: Studied,
    wanted: SamplesWanted,
    folder: ExportFolder,
    bids: BidsFolder | None,
) -> tuple[SamplesWritten, list[Mapping[str, Cell]]]:
    """Writes the samples of one set: all of it or, after an exception, nothing.

    Returns:
        What was written, and the events as they may be told.

    Raises:
        TargetError: the export cannot be written.
        FileError: the recording can no longer be read.
    """
    writing = _SetWriting(source, studied, wanted, folder)
    told = writing.told
    grid = _grid(writing)
    with folder.trial(), folder.faults(), ExitStack() as stack:
        writers: list[SampleWriter] = []

        def add(writer: SampleWriter) -> None:
            writers.append(stack.enter_context(_closing(writer)))

        for kind in wanted.formats:
            if kind in SUFFIXES:
                add(writing.table(kind))
        if grid is not None and EDF in wanted.formats:
            add(writing.edf(grid))
        if grid is not None and bids is not None:
            add(bids.begin(writing.run(), grid, writing.events))
        blocks = studied.stream.blocks()
        rows = batches(blocks, studied.in_force, samples=studied.found.samples)
        for batch in rows:
            for writer in writers:
                writer.add_samples(batch)
    if grid is not None and bids is not None:
        told.files[BIDS] = bids.enter(writing.run())
    return told, list(writing.events)


def _grid(writing: _SetWriting) -> EvenGrid | None:
    """The even grid, where a format needs one and the samples fit on it."""
    told = writing.told
    even = tuple(kind for kind in writing.wanted.formats if kind in {EDF, BIDS})
    if not even:
        return None
    try:
        grid = EvenGrid.of(
            writing.studied.found, nominal_hz=writing.studied.stream.profile.rate_hz
        )
    except FieldError as error:
        told.problem, told.missing = error.words, even
        return None
    told.farthest_s = grid.farthest_s
    return grid


@contextmanager
def _closing(writer: SampleWriter) -> Iterator[SampleWriter]:
    """Closes in any case; what closing adds to a failure is of no interest."""
    try:
        yield writer
    except BaseException:
        with suppress(Exception):
            writer.close()
        raise
    writer.close()
