"""The chain: samples in, conditioned blocks and events out.

Pipeline, conductor and measures in one place. The acquisition thread runs it
live and a replay runs it on a recording: there is no second implementation. It
has no thread and no clock of its own.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.measures.band_uncertainty import band_uncertainty_n
from biofeedback.measures.cells import cells
from biofeedback.measures.rep import measure
from biofeedback.measures.trace import TraceStore
from biofeedback.rig.handoff import (
    BandChanged,
    GateMoved,
    Measured,
    SessionEvent,
    TermsChanged,
)
from biofeedback.rig.notices import Notices
from biofeedback.training.changes import Terms
from biofeedback.training.conductor import Conductor
from biofeedback.training.events import Phase, RepEnded
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile, Zero
    from biofeedback.training.band import Band
    from biofeedback.training.events import SetState, TrainingEvent
    from biofeedback.training.prescription import Prescription
    from biofeedback.wire.frames import Samples
    from biofeedback.wire.run import Run

KEEP_BEFORE_S = 3.0
"""How much force is kept before a rep has begun: the two seconds in which the
measures look for rest, and well over one sample before them."""


@dataclass(slots=True)
class Step:
    """What came of some samples, in order."""

    blocks: list[Block] = field(default_factory=list)
    events: list[SessionEvent] = field(default_factory=list)


class Chain:
    """One stream from its first sample on; make a new one for each set.

    Args:
        profile: turns counts into newtons.
        raw: judge the calibrated force without the live filter.
    """

    def __init__(self, profile: RigProfile, *, raw: bool = False) -> None:
        self._profile = profile
        self._pipeline = Pipeline(profile)
        self._raw = raw
        self._prescription: Prescription | None = None
        self._conductor: Conductor | None = None
        self._notices = Notices(profile)
        self._kept = TraceStore()
        self._now_s = 0.0
        self._next_index = 0

    @property
    def profile(self) -> RigProfile:
        """The profile in force, with its zero."""
        return self._profile

    @property
    def filter_delay_s(self) -> float:
        """Delay of the live filter at DC."""
        return self._pipeline.facts.delay_s

    @property
    def now_s(self) -> float:
        """Sample time of the newest sample."""
        return self._now_s

    @property
    def next_index(self) -> int:
        """Number of the next sample since the start of the stream."""
        return self._next_index

    @property
    def set_open(self) -> bool:
        """Whether a set is under way."""
        return self._under_way is not None

    @property
    def _under_way(self) -> Conductor | None:
        """The conductor of a set that is under way."""
        conductor = self._conductor
        return None if conductor is None or conductor.done else conductor

    @property
    def state(self) -> SetState | None:
        """How the set stands, or None where none was begun."""
        return self._conductor.state if self._conductor else None

    def begin(self, prescription: Prescription) -> None:
        """Begins a set with the next sample.

        Raises:
            FieldError: the rig has no channel for what the band applies to.
        """
        self._conductor = Conductor(prescription, self._profile, raw=self._raw)
        self._prescription = prescription
        self._notices.trials = prescription.task.kind is TaskKind.MAXIMAL

    def push_all(self, frames: Iterable[Samples | Run]) -> Step:
        """Conditions and judges frames that follow each other.

        Many at once are quicker. Reps and their numbers are the same, to the last
        bit, however they are cut; what is told of the cells while a force is not let
        go is told later.

        Args:
            frames: each of which `check` lets pass.
        """
        return self._judged(self._pipeline.push_all(frames))

    def check(self, samples: Samples | Run) -> None:
        """Refuses samples that do not fit.

        Raises:
            RigError: they do not fit the profile.
        """
        self._pipeline.check(samples)

    def _judged(self, blocks: Iterable[Block]) -> Step:
        step = Step()
        for block in blocks:
            if not len(block):
                continue
            step.blocks.append(block)
            self._now_s = float(block.time_s[-1])
            self._next_index = block.first_index + len(block)
            step.events += self._notices.block(block)
            if self._conductor is not None:
                self._keep(block, self._conductor.rep_start_s)
                step.events += self._measured(self._conductor.push(block))
                step.events += self._release(block, self._conductor)
        return step

    def change_band(self, band: Band, reason: str) -> list[SessionEvent]:
        """A nudge, from the next sample on.

        Raises:
            FieldError: the band does not fit what else is asked for.
        """
        conductor = self._under_way
        if conductor is None:
            return []
        old = conductor.asked.band
        conductor.change(conductor.asked.with_band(band))
        return [BandChanged(self._now_s, old, band, reason)]

    def change_terms(self, terms: Terms, reason: str) -> list[SessionEvent]:
        """Another hold, rest or number of reps, from the next sample on.

        Raises:
            FieldError: a value does not fit.
        """
        conductor = self._under_way
        if conductor is None:
            return []
        old = conductor.asked
        conductor.change(terms.applied_to(old))
        return [TermsChanged(self._now_s, Terms.of(old).only(terms), terms, reason)]

    def move_gate(self, *, opened: bool, reason: str) -> list[SessionEvent]:
        """Lets reps start, or holds them back, from the next sample on."""
        conductor = self._under_way
        if conductor is None:
            return []
        conductor.move_gate(opened=opened)
        return [GateMoved(self._now_s, opened, reason)]

    def set_zero(self, zero: Zero) -> None:
        """Another zero, from the next sample on."""
        self._profile = self._profile.with_zero(zero)
        self._pipeline.set_zero(zero)
        self._notices.set_zero(zero)

    def stop(self) -> list[SessionEvent]:
        """Ends the set; a rep under way is kept as stopped."""
        return self._measured(self._conductor.stop()) if self._conductor else []

    def _release(self, block: Block, conductor: Conductor) -> list[SessionEvent]:
        """What is to be told while a force is not let go."""
        if conductor.phase is not Phase.RELEASE:
            return []
        effort_n = conductor.judged.effort(block.shown_n)
        return [*self._notices.release(block, effort_n, conductor.band)]

    def _keep(self, block: Block, rep_start_s: float | None) -> None:
        """Holds on to the force that the measures of a rep will need."""
        self._kept.push(block)
        # A rep that begins in this block begins no earlier than at its first line.
        first_s = float(block.time_s[0])
        needed_s = first_s if rep_start_s is None else rep_start_s
        self._kept.forget(before_s=needed_s - KEEP_BEFORE_S)

    def _measured(self, events: list[TrainingEvent]) -> list[SessionEvent]:
        """The events, with the numbers of each rep right after its end."""
        told: list[SessionEvent] = []
        for event in events:
            told.append(event)
            if isinstance(event, RepEnded) and self._conductor and self._prescription:
                told += self._numbers(event, self._conductor, self._prescription)
        return told

    def _numbers(
        self, ended: RepEnded, conductor: Conductor, prescription: Prescription
    ) -> list[SessionEvent]:
        """The numbers of a rep, and what they give to tell."""
        trace = self._kept.trace(
            from_s=ended.rep.start_s - KEEP_BEFORE_S, to_s=ended.time_s
        )
        stuck, told = self._notices.stuck()
        fared = cells(
            ended.rep,
            trace,
            self._profile,
            told_s=ended.time_s,
            stuck=stuck,
        )
        numbers = measure(
            ended.rep,
            trace,
            conductor.judged,
            prescription,
            cells=fared,
            uncertainty_n=band_uncertainty_n(
                self._profile, conductor.judged, (band for _, band in ended.rep.bands)
            ),
            raw=self._raw,
        )
        band = ended.rep.bands[-1][1]
        return [Measured(numbers.to_json()), *told, *self._notices.rep(fared, band)]
