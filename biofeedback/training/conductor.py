"""The conductor: one set, from the first sample to the last rep.

It puts the pure rules together and keeps the count of reps and rests. Blocks
in, events out; all on sample time. A rest is a countdown for the athlete, not a
lock: an effort that comes early is judged like any other.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import Side
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.changes import MAY_CHANGE
from biofeedback.training.crossings import Crossings, Judged
from biofeedback.training.events import (
    Outcome,
    Phase,
    RepEnded,
    RepStarted,
    SetState,
    rest_cut,
)
from biofeedback.training.hold import HoldRules
from biofeedback.training.prescription import StartBy

if TYPE_CHECKING:
    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.training.band import Band
    from biofeedback.training.events import TrainingEvent
    from biofeedback.training.prescription import Prescription


def judged_by(prescription: Prescription, profile: RigProfile) -> Judged:
    """Which channels of this rig the prescription speaks of.

    Raises:
        FieldError: the rig has no channel for what the band applies to.
    """
    return Judged(
        prescription.band_on,
        left=profile.index_of(Side.LEFT),
        right=profile.index_of(Side.RIGHT),
        channels=len(profile.channels),
    )


class Conductor:
    """Runs one set.

    Args:
        prescription: what is asked for.
        profile: tells which channel is which side.
        raw: judge the calibrated force without the live filter.

    Raises:
        FieldError: the rig has no channel for what the band or the balance
            applies to.
    """

    def __init__(
        self, prescription: Prescription, profile: RigProfile, *, raw: bool = False
    ) -> None:
        self._prescription = prescription
        self._raw = raw
        self.judged = judged_by(prescription, profile)
        if prescription.balance_required and self.judged.sides is None:
            raise FieldError(
                "balance_required", phrase("needs a left and a right cell on the rig.")
            )
        self._crossings = Crossings(prescription, self.judged)
        self._rules = HoldRules(prescription)
        self._outcomes: tuple[Outcome, ...] = ()
        self._rested_at_s = 0.0
        self._now_s = 0.0
        self._heard = False

    @property
    def asked(self) -> Prescription:
        """What is asked for now; in force from the next sample on."""
        return self._prescription

    @property
    def band(self) -> Band:
        """The band in force."""
        return self._crossings.band

    @property
    def done(self) -> bool:
        """Whether all reps are over, or the set was stopped."""
        return self._rules.done

    def push(self, block: Block) -> list[TrainingEvent]:
        """Consecutive samples in, events out, in order of time."""
        if not len(block):
            return []
        self._now_s = float(block.time_s[-1])
        moments = self._crossings.push(
            block.time_s,
            block.force_n if self._raw else block.shown_n,
            block.good,
            after_gap=block.gap,
        )
        self._heard = bool(block.good[-1])
        # Time in which nothing is heard must not let anything fall due.
        return self._keep(self._rules.push(moments, self._crossings.heard_until_s))

    def change(self, asked: Prescription) -> None:
        """Another band, hold, rest or number of reps, from the next sample on.

        Raises:
            FieldError: something else was changed, which a set cannot follow.
        """
        old = self._prescription
        may = {name: getattr(asked, name) for name in MAY_CHANGE}
        if replace(old, **may) != asked:
            raise FieldError(
                "prescription",
                phrase("only band, hold, rest and reps change within a set."),
            )
        self._prescription = asked
        self._rested_at_s += asked.rest_s - old.rest_s if self._outcomes else 0.0
        self._crossings.change(asked)

    def move_gate(self, *, opened: bool) -> None:
        """Lets reps start, or holds them back, from the next sample on."""
        self._crossings.move_gate(opened=opened)

    def stop(self) -> list[TrainingEvent]:
        """Ends the set; a rep under way is kept as stopped."""
        return self._keep(self._rules.stop())

    @property
    def phase(self) -> Phase:
        """Where in the set the athlete is."""
        rep = self._rules.rep
        if rep is not None:
            return Phase.REP if rep.holding else Phase.RELEASE
        if self.done:
            return Phase.DONE
        resting = self._rested_at_s > self._now_s
        by_key = self._prescription.start is StartBy.KEY
        if not self._rules.gate_open and not (by_key and resting):
            return Phase.HELD_BACK
        return Phase.REST if resting else Phase.WAITING

    @property
    def rep_start_s(self) -> float | None:
        """Onset of the rep under way, or None."""
        rep = self._rules.rep
        return None if rep is None else rep.start_at_s

    @property
    def state(self) -> SetState:
        """How the set stands at the newest sample."""
        rules, rep, asked = self._rules, self._rules.rep, self._prescription
        levels = rules.levels if self._heard and rules.hearing else None
        return SetState(
            time_s=self._now_s,
            phase=self.phase,
            position=levels.position if levels else None,
            clock_s=rules.clock_s,
            running=self._heard and rules.running,
            hold_s=asked.hold_s,
            rep_start_s=self.rep_start_s,
            lapse_clock_s=rep.lapse_clocks if rep else (),
            rep_number=rep.number if rep else len(self._outcomes) + 1,
            reps=asked.reps,
            outcomes=self._outcomes,
            rest_left_s=max(0.0, self._rested_at_s - self._now_s),
            over_ceiling=bool(levels and levels.over_ceiling),
            band=self.band,
            balanced=levels.balanced if levels else True,
        )

    def _keep(self, events: list[TrainingEvent]) -> list[TrainingEvent]:
        for index, event in enumerate(events):
            if isinstance(event, RepEnded):
                self._outcomes += (event.rep.outcome,)
                self._rested_at_s = event.rep.end_s + self._prescription.rest_s
            elif isinstance(event, RepStarted) and self._outcomes:
                left_s = self._rested_at_s - event.time_s
                cut = rest_cut(self._prescription.rest_s, left_s)
                events[index] = replace(event, cut=cut)
        return events
