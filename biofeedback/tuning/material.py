"""What the bench needs of a recording: force before the filter, and what was done.

Force is calibrated by the pipeline that runs live, without a filter and before zero,
once as it came and once despiked. Zero is kept beside it, because the live run takes
it away after the filter.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.block import Block
from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.conditioning.profile import (
    FilterChoice,
    FilterKind,
    RigProfile,
    Zero,
)
from biofeedback.errors import FieldError, FileError, RigError
from biofeedback.logbook import recordings
from biofeedback.phrase import phrase
from biofeedback.rig import journal
from biofeedback.training.band import Band
from biofeedback.training.changes import Terms
from biofeedback.training.conductor import Conductor
from biofeedback.training.events import RepEnded
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Close, Event, Samples
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.training.events import RepRecord

RATE_LEAST_HZ = 40.0
"""Below it a filter of 10 Hz has no room; no rig for live feedback is so slow."""
SAMPLES_MAX = 20_000_000
"""Over an hour of 5 kHz; more would not fit into memory with what is worked out."""
AT_A_TIME = 1024
"""Samples given to the rules at once: the answer does not depend on it, and what they
work out stays small and on one core."""
ALL_REPS = 1000
"""With a band from outside, every effort is a rep."""
HOLD_MOST_S = 3600.0
"""Where nobody asked for a hold, it lasts as long as the force is in the band."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Consecutive samples without a break or a change between them.

    Attributes:
        done: events of the recording that took effect before its first sample.
    """

    span: slice
    gap: bool
    done: tuple[Mapping[str, object], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Material:
    """One recording, ready to be filtered again and again.

    Attributes:
        time_s: shape (n,).
        calibrated_n: shape (n, channels), before filter and zero; NaN where a
            sample is not good.
        despiked_n: the same after the live despiking, one sample late.
        zero_n: shape (n, channels), what the live run takes away.
        good: shape (n,).
        lower_n: shape (n,), edge of the band in force; `upper_n` likewise.
        runs: stretches of good samples without a gap; each primes the filter.
        own_band: whether the recording's own bands apply.
    """

    path: Path
    profile: RigProfile
    asked: Prescription
    own_band: bool
    time_s: npt.NDArray[np.float64]
    calibrated_n: npt.NDArray[np.float64]
    despiked_n: npt.NDArray[np.float64]
    zero_n: npt.NDArray[np.float64]
    good: npt.NDArray[np.bool_]
    lower_n: npt.NDArray[np.float64]
    upper_n: npt.NDArray[np.float64]
    runs: tuple[slice, ...]
    pieces: tuple[Piece, ...]

    def source_n(self, *, despiked: bool) -> npt.NDArray[np.float64]:
        """What the filter is given, shape (n, channels)."""
        return self.despiked_n if despiked else self.calibrated_n

    @property
    def rate_hz(self) -> float:
        """The rate that the live filter is designed for."""
        return self.profile.rate_hz

    def columns(self) -> tuple[tuple[int, ...], ...]:
        """The channels that make up each force that the band applies to."""
        return Conductor(self.asked, self.profile).judged.columns

    def effort_n(self, force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """The judged effort, shape (n,), of forces of shape (n, channels)."""
        judged = Conductor(self.asked, self.profile).judged
        return np.asarray(judged.effort(force_n), dtype=np.float64)

    def reps(self, shown_n: npt.NDArray[np.float64]) -> list[RepRecord]:
        """The reps that the rules of the live run find in a shown force."""
        conductor = Conductor(self.asked, self.profile)
        ended: list[RepRecord] = []
        for piece in self.pieces:
            for event in piece.done:
                ended += _ended(_apply(conductor, event, own_band=self.own_band))
            for first in range(piece.span.start, piece.span.stop, AT_A_TIME):
                last = min(first + AT_A_TIME, piece.span.stop)
                gap = piece.gap and first == piece.span.start
                part = Piece(slice(first, last), gap, ())
                ended += _ended(conductor.push(self._block(part, shown_n)))
        return ended + _ended(conductor.stop())

    def _block(self, piece: Piece, shown_n: npt.NDArray[np.float64]) -> Block:
        span = piece.span
        shown_n = shown_n[span]
        return Block(
            first_index=span.start,
            lost=0,
            time_s=self.time_s[span],
            counts=np.zeros(shown_n.shape, dtype=np.int32),
            force_n=shown_n,
            shown_n=shown_n,
            good=self.good[span],
            saturated=np.zeros(shown_n.shape, dtype=np.bool_),
            gap=piece.gap,
        )


def _ended(events: object) -> list[RepRecord]:
    assert isinstance(events, list)  # noqa: S101  narrows the type
    return [event.rep for event in events if isinstance(event, RepEnded)]


def _apply(
    conductor: Conductor, event: Mapping[str, object], *, own_band: bool
) -> list[object]:
    """What was done from outside is done again."""
    fields = Fields(event, "event")
    kind = fields.text("kind")
    if kind == journal.STOP:
        return list(conductor.stop())
    if conductor.done or not own_band:
        return []
    if kind == journal.BAND:
        band = Band.from_json(fields.inner("new"))
        conductor.change(conductor.asked.with_band(band))
    elif kind == journal.TERMS:
        terms = Terms.from_json(fields.inner("new"))
        conductor.change(terms.applied_to(conductor.asked))
    elif kind == journal.GATE:
        conductor.move_gate(opened=fields.flag("open"))
    return []


def read(path: Path, band: Band | None = None) -> Material:
    """Reads a recording for the bench.

    Args:
        path: the recording.
        band: judge by this band in place of the recording's own.

    Raises:
        FileError: it cannot be read, or is of no use here; says why.
    """
    recording = recordings.read(path)
    try:
        return _Reading(recording, band).material()
    except FieldError as error:
        raise FileError(path, error.words) from error


class _Reading:
    """One run over one file."""

    def __init__(self, recording: recordings.Recording, band: Band | None) -> None:
        self._recording = recording
        header = Fields(recording.header, "header")
        self._profile = RigProfile.from_json(header.inner("profile"))
        self._own_band = band is None
        self._asked = _asked(header, band)
        if self._profile.rate_hz < RATE_LEAST_HZ:
            raise FieldError(
                "header.profile.rate_hz",
                phrase(
                    "{rate_hz:g} samples a second are too few to compare "
                    "filters; {rate_least_hz:g} are needed.",
                    rate_hz=self._profile.rate_hz,
                    rate_least_hz=RATE_LEAST_HZ,
                ),
            )
        Conductor(self._asked, self._profile)  # refuses a band on a missing channel
        bare = self._profile.with_zero(Zero.none(len(self._profile.channels)))
        self._raw, self._despiked = (
            Pipeline(replace(bare, filter=FilterChoice(FilterKind.NONE, despike=on)))
            for on in (False, True)
        )
        self._zero_n = np.array(self._profile.zero.offsets_n)
        self._band = self._asked.band
        self._raw_blocks: list[Block] = []
        self._despiked_blocks: list[Block] = []
        self._zeros: list[npt.NDArray[np.float64]] = []
        self._edges: list[tuple[float, float]] = []
        self._done: dict[int, list[Mapping[str, object]]] = {}
        self._samples = 0
        self._misfit: RigError | None = None
        self._closed = False

    def material(self) -> Material:
        """Goes through the frames once."""
        for frame in self._recording.pieces():
            if isinstance(frame, Samples | Run):
                self._take(frame)
            elif isinstance(frame, Event):
                self._note(frame.content)
            elif isinstance(frame, Close):
                self._closed = True
        path = self._recording.path
        if not self._samples:
            if self._misfit is not None:
                raise FileError(path, self._misfit.words)
            raise FileError(path, phrase("there is no sample in this recording."))
        if not self._closed:
            raise FileError(
                path,
                phrase("it was cut off before its end, and its last hold with it."),
            )
        good = np.concatenate([block.good for block in self._raw_blocks])
        if not good.any():
            raise FileError(
                path, phrase("no sample is good: all are at the cell's stop.")
            )
        lengths = [len(block) for block in self._raw_blocks]
        edges = np.repeat(np.array(self._edges), lengths, axis=0)
        starts = np.cumsum([0, *lengths[:-1]]).tolist()
        gaps = [
            at for at, each in zip(starts, self._raw_blocks, strict=True) if each.gap
        ]
        return Material(
            path=path,
            profile=self._profile,
            asked=self._asked,
            own_band=self._own_band,
            time_s=np.concatenate([block.time_s for block in self._raw_blocks]),
            calibrated_n=np.concatenate([block.force_n for block in self._raw_blocks]),
            despiked_n=np.concatenate(
                [block.force_n for block in self._despiked_blocks]
            ),
            zero_n=np.repeat(np.array(self._zeros), lengths, axis=0),
            good=good,
            lower_n=edges[:, 0],
            upper_n=edges[:, 1],
            runs=_runs(good, gaps),
            pieces=_pieces(len(good), gaps, self._done),
        )

    def _take(self, samples: Samples | Run) -> None:
        try:
            raw, despiked = self._raw.push(samples), self._despiked.push(samples)
        except RigError as error:
            self._misfit = self._misfit or error
            return  # passed over here as in the live run
        for block, clean in zip(raw, despiked, strict=True):
            if not len(block):
                continue
            self._raw_blocks.append(block)
            self._despiked_blocks.append(clean)
            self._zeros.append(self._zero_n)
            self._edges.append((self._band.lower_n, self._band.upper_n))
            self._samples += len(block)
        if self._samples > SAMPLES_MAX:
            raise FileError(
                self._recording.path,
                phrase(
                    "it is longer than {samples_max} samples.", samples_max=SAMPLES_MAX
                ),
                next_step=phrase("Cut it into parts."),
            )

    def _note(self, event: Mapping[str, object]) -> None:
        kind = event.get("kind")
        if kind == journal.ZERO:
            zero = Zero.from_json(Fields(event, "event").inner("zero"))
            self._profile.with_zero(zero)  # refuses one of another rig
            self._zero_n = np.array(zero.offsets_n)
        elif kind in (journal.BAND, journal.TERMS, journal.GATE, journal.STOP):
            self._done.setdefault(self._samples, []).append(event)
            if kind == journal.BAND and self._own_band:
                self._band = Band.from_json(Fields(event, "event").inner("new"))


def _asked(header: Fields, band: Band | None) -> Prescription:
    """What is judged by: the recording's own, or the band that was given."""
    if not header.has("prescription"):
        if band is None:
            raise FieldError(
                "header.prescription",
                phrase("this recording was made without one."),
                phrase("Give a band to judge it by, for example --band 60:96."),
            )
        return Prescription(
            task=Task("tune"), band=band, hold_s=HOLD_MOST_S, reps=ALL_REPS
        )
    asked = Prescription.from_json(header.inner("prescription"))
    if band is None:
        return asked
    return replace(asked, band=band, reps=ALL_REPS, ceiling_n=None)


def _runs(good: npt.NDArray[np.bool_], gaps: list[int]) -> tuple[slice, ...]:
    changes = np.flatnonzero(good[1:] != good[:-1]) + 1
    cuts = sorted({0, len(good), *changes.tolist(), *gaps})
    return tuple(slice(a, b) for a, b in pairwise(cuts) if good[a])


def _pieces(
    samples: int, gaps: list[int], done: Mapping[int, list[Mapping[str, object]]]
) -> tuple[Piece, ...]:
    cuts = sorted({0, samples, *gaps, *(at for at in done if at < samples)})
    broken = set(gaps)
    return tuple(
        Piece(slice(a, b), a in broken, tuple(done.get(a, ())))
        for a, b in pairwise(cuts)
    )
