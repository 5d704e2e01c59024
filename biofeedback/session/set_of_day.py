"""One set as it may be done today: planned, with side, reference, place and newtons.

A value: `at` and `with_reference` give another one. What the practitioner decided
stands beside what was proposed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING, FieldError
from biofeedback.measures.endurance import endurance_of
from biofeedback.measures.endurance import in_words as endurance_words
from biofeedback.phrase import Phrase, phrase, sentences
from biofeedback.training import intensity_words
from biofeedback.training.counting import counted
from biofeedback.training.day_words import in_words as reason_words
from biofeedback.training.reference import STALE_AFTER_DAYS
from biofeedback.training.reference_words import before_start, described

if TYPE_CHECKING:
    import datetime as dt

    from biofeedback.measures.endurance import Endurance
    from biofeedback.training.day import PainRule, Proposal
    from biofeedback.training.planned import PlannedPrescription
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference_choice import Choice
    from biofeedback.training.reference_facts import Candidate
    from biofeedback.training.task import Sides


@dataclass(frozen=True, slots=True)
class PlanPlace:
    """Where in a plan somebody is.

    Attributes:
        id: key of the plan.
        stage: from 0.
        name: of plan and stage, for people.
    """

    id: str
    stage: int
    name: str = ""


@dataclass(frozen=True, slots=True)
class SetOfDay:
    """One set of today.

    Attributes:
        planned: before side, day and newtons.
        sides: that work in this set.
        choice: all references there are.
        reference: the one in use, or None.
        proposal: of the pain rule; None before pain was asked.
        place: in the range, as it is in use: at first as proposed, or the low end.
        plan: None for a free prescription.
        single_cell: whether the rig has one cell.
    """

    planned: PlannedPrescription
    sides: Sides
    choice: Choice
    reference: Candidate | None
    today: dt.date
    proposal: Proposal | None = None
    place: float = 0.0
    plan: PlanPlace | None = None
    single_cell: bool = False
    stale_after_days: int = STALE_AFTER_DAYS

    def at(self, place: float) -> SetOfDay:
        """The same at another place in the range, 0 to 1."""
        return replace(self, place=min(1.0, max(0.0, place)))

    def with_reference(self, candidate: Candidate) -> SetOfDay:
        """The same with another 100 %."""
        return replace(self, reference=candidate)

    @property
    def key(self) -> tuple[str, str, str, str]:
        """Tells this set from all others of the day."""
        plan = self.plan.id if self.plan else ""
        return plan, self.planned.key, self.planned.task.name, self.sides.value

    @property
    def advise_stop(self) -> bool:
        """Whether to stop and ask the treating clinician is advised."""
        return self.proposal is not None and self.proposal.advise_stop

    def asked(self) -> Prescription:
        """What the set asks for.

        Raises:
            FieldError: the reference is missing, or does not fit.
        """
        return self.planned.on(
            self.sides,
            self.reference.reference if self.reference else None,
            place=self.place,
            single_cell=self.single_cell,
        )

    @property
    def problem(self) -> Phrase:
        """Why there are no newtons; empty where there are."""
        if self.reference is None and self.planned.intensity.wants_reference:
            offer = (
                phrase("Choose another, or type one.")
                if self.choice.others
                else phrase("Test, or type one.")
            )
            return sentences(self.choice.missing, offer)
        try:
            self.asked()
        except FieldError as error:
            return error.words
        return NOTHING

    @property
    def context(self) -> dict[str, object]:
        """What the head of the recording says of the plan."""
        if self.plan is None:
            return {}
        return {
            "plan": {
                "id": self.plan.id,
                "stage": self.plan.stage,
                "key": self.planned.key,
            }
        }

    # In words.

    @property
    def title(self) -> str:
        """Task and sides."""
        side = phrase("both sides") if self.sides.value == "both" else self.sides.value
        return phrase("{name}, {side}", name=self.planned.task.name, side=side)

    @property
    def dose_words(self) -> str:
        """Sets, reps, hold and rest, and the range that the day decides in."""
        asked = self.planned
        sets = counted(asked.sets, "set")
        words = phrase(
            "{sets} of {reps} × {hold_s:g} s, {rest_s:g} s rest",
            sets=sets,
            reps=asked.reps,
            hold_s=asked.hold_s,
            rest_s=asked.rest_s,
        )
        found = intensity_words.range_in_words(asked.intensity)
        return (
            phrase("{words}; range {found}", words=words, found=found)
            if found
            else words
        )

    @property
    def band_words(self) -> str:
        """The band in % with both spellings of its tolerance, and in newtons."""
        intensity = self.planned.intensity
        words = intensity_words.in_words(intensity, self.place)
        if self.problem:
            return words
        newtons = intensity_words.newtons(self.asked().band)
        return (
            newtons
            if newtons == words
            else phrase("{words} = {newtons}", words=words, newtons=newtons)
        )

    @property
    def reference_words(self) -> str:
        """The reference in use, with origin, definition, date and age."""
        if self.reference is None:
            return ""
        return described(
            self.reference.reference, today=self.today, note=self.reference.note
        )

    @property
    def cautions(self) -> tuple[str, ...]:
        """What is to be said before the set starts."""
        if self.problem:
            return ()
        return before_start(
            self.asked(), today=self.today, stale_after_days=self.stale_after_days
        )

    @property
    def endurance(self) -> Endurance | None:
        """The hold beside published times, where there are such."""
        return None if self.problem else endurance_of(self.asked())

    @property
    def endurance_words(self) -> str:
        """A calm note; empty where the hold is well within, or nothing is known."""
        found = self.endurance
        return endurance_words(found) if found else ""

    def reason_words(self, rule: PainRule) -> Phrase:
        """Why the proposal is what it is; empty before pain was asked."""
        if self.proposal is None:
            return NOTHING
        room = self.planned.intensity.leaves_room
        return reason_words(self.proposal, rule, room=room)
