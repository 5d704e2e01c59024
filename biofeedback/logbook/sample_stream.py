"""The samples of a recording as force, each as it was: what every export is made of.

Force is calibrated and zeroed by the same pipeline that runs live, and neither
filtered nor despiked, which would take a sample of the one before. A new zero takes
effect where it stands in the file. A lost sample is not there; the index shows the
gap. The file is read anew each time, in bounded memory.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.conditioning.profile import (
    FilterChoice,
    FilterKind,
    RigProfile,
    Zero,
)
from biofeedback.errors import FieldError, FileError, RigError
from biofeedback.phrase import phrase
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Event, Samples
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from biofeedback.conditioning.block import Block
    from biofeedback.logbook.recordings import Recording

ZERO = "zero"
"""Kind of the event that carries a new zero under ``zero``."""


class SampleStream:
    """The samples of one recording.

    Attributes:
        profile: as it stands in the recording.
        names: a name for each channel: its side, numbered where it comes twice.
        misfits: frames that did not fit the rig in the last run, and were passed
            over as in the live run.
        zeros_s: when a new zero was taken in the last run, seconds.
        events: what the recording holds of events, as the last run found it.

    Raises:
        FileError: the recording holds no usable profile.
    """

    def __init__(self, recording: Recording) -> None:
        try:
            self.profile = RigProfile.from_json(
                Fields(recording.header, "header").inner("profile")
            )
        except FieldError as error:
            raise FileError(recording.path, error.words) from error
        self.names = _names(self.profile)
        self.misfits = 0
        self.zeros_s: list[float] = []
        self.events: list[Mapping[str, object]] = []
        self._recording = recording

    def blocks(self) -> Iterator[Block]:
        """All blocks, from the first.

        Raises:
            FileError: the file cannot be read, or holds something unusable.
        """
        self.misfits = 0
        self.zeros_s = []
        self.events = []
        now_s = 0.0
        raw = replace(self.profile, filter=FilterChoice(FilterKind.NONE))
        try:
            pipeline = Pipeline(raw)
            for frame in self._recording.pieces():
                if isinstance(frame, Samples | Run):
                    for block in self._conditioned(pipeline, frame):
                        now_s = float(block.time_s[-1])
                        yield block
                elif isinstance(frame, Event):
                    self.events.append(frame.content)
                    if frame.content.get("kind") == ZERO:
                        zero = Fields(frame.content, "event").inner("zero")
                        pipeline.set_zero(Zero.from_json(zero))
                        self.zeros_s.append(now_s)
        except FieldError as error:
            raise FileError(
                self._recording.path,
                error.words,
                place=phrase("near {now_s:.3f} s", now_s=now_s),
            ) from error

    def _conditioned(self, pipeline: Pipeline, samples: Samples | Run) -> list[Block]:
        try:
            return [block for block in pipeline.push(samples) if len(block)]
        except RigError:
            self.misfits += len(samples) if isinstance(samples, Run) else 1
            return []


def _names(profile: RigProfile) -> tuple[str, ...]:
    names: list[str] = []
    for channel in profile.channels:
        side = channel.side.value
        again = sum(name.rstrip("0123456789") == side for name in names)
        names.append(f"{side}{again + 1}" if again else side)
    return tuple(names)
