"""A prescription as a plan holds it: before the day, the side and the newtons.

`PlannedPrescription.on` makes it into the `Prescription` of one set, once the
reference is known and the place in the range is decided.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.intensity import Intensity
from biofeedback.training.prescription import (
    HOLD_LEAST_S,
    BandOn,
    ClockRule,
    FeedbackMode,
    Prescription,
    StartBy,
)
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.reference_rule import ReferenceRule
from biofeedback.training.task import KEY_MAX, Sides, Task, TaskKind

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

__all__ = ["PlannedPrescription", "ReferenceRule", "SideOrder"]

NOTE_MAX = 2000
CEILING_MOST_PCT = 1000.0


class SideOrder(Enum):
    """Which sides work, and in which order."""

    TOGETHER = phrase("both together")
    LEFT = phrase("left")
    RIGHT = phrase("right")
    LEFT_FIRST = phrase("left, then right")
    RIGHT_FIRST = phrase("right, then left")
    INJURED = phrase("injured side")
    INJURED_FIRST = phrase("injured side, then the other")
    INJURED_LAST = phrase("other side, then the injured")

    def sides(self, injured: Sides | None) -> tuple[Sides, ...]:
        """The sides in order.

        Raises:
            FieldError: it speaks of the injured side, and that is not known or
                is both.
        """
        fixed = _ORDERS.get(self)
        if fixed is not None:
            return fixed
        if injured is None or injured is Sides.BOTH:
            raise FieldError(
                "side_order",
                phrase(
                    "is “{self}”, and the athlete has no one injured side.",
                    self=self.value,
                ),
                phrase(
                    "Name the injured side of the athlete, or choose left or right."
                ),
            )
        if self is SideOrder.INJURED:
            return (injured,)
        pair = (injured, injured.other)
        return pair if self is SideOrder.INJURED_FIRST else pair[::-1]


_ORDERS = {
    SideOrder.TOGETHER: (Sides.BOTH,),
    SideOrder.LEFT: (Sides.LEFT,),
    SideOrder.RIGHT: (Sides.RIGHT,),
    SideOrder.LEFT_FIRST: (Sides.LEFT, Sides.RIGHT),
    SideOrder.RIGHT_FIRST: (Sides.RIGHT, Sides.LEFT),
}


@dataclass(frozen=True, slots=True)
class PlannedPrescription:
    """What a plan asks for of one task.

    Attributes:
        task: with the sides that its set-up allows; the set has those of the order.
        each_side: with both sides together, whether the band is for each of them
            and not for their total.
        rest_s: after each rep, seconds.
        ceiling_pct: a force that must not be passed, in % of the reference.
        ceiling_n: the same in newtons; at most one of the two is given.
        key: names it within its plan.
    """

    task: Task
    intensity: Intensity
    hold_s: float
    reps: int = 1
    sets: int = 1
    rest_s: float = 60.0
    side_order: SideOrder = SideOrder.TOGETHER
    reference: ReferenceRule = field(default_factory=ReferenceRule)
    clock: ClockRule = ClockRule.UNBROKEN
    grace_s: float = 0.3
    each_side: bool = False
    balance_tolerance_points: float | None = None
    balance_required: bool = False
    ceiling_pct: float | None = None
    ceiling_n: float | None = None
    feedback: FeedbackMode = FeedbackMode.FULL
    start: StartBy = StartBy.FORCE
    note: str = ""
    key: str = ""

    def __post_init__(self) -> None:
        if not self.task.name.strip():
            raise FieldError("task.name", phrase("must not be empty."))
        if not HOLD_LEAST_S <= self.hold_s <= 3600:
            raise FieldError(
                "hold_s",
                phrase(
                    "must be {hold_least_s:g} s to 3600 s.", hold_least_s=HOLD_LEAST_S
                ),
            )
        if len(self.note) > NOTE_MAX:
            raise FieldError(
                "note",
                phrase("is longer than {note_max} characters.", note_max=NOTE_MAX),
            )
        self._check_ceiling()
        # All that does not depend on the day is tried once, so that a plan that
        # could never be carried out is told while it is typed.
        self.on(
            Sides.BOTH,
            Reference(100.0, Origin.TYPED, Definition.STATED, "-")
            if self.intensity.wants_reference
            else None,
            place=1.0,
            unchecked_ceiling=self.ceiling_n is not None
            and self.intensity.wants_reference,
        )

    def _check_ceiling(self) -> None:
        """Against the whole range, wherever in it the day may put the band."""
        ceiling_pct, intensity = self.ceiling_pct, self.intensity
        if ceiling_pct is None:
            return
        if self.ceiling_n is not None:
            raise FieldError(
                "ceiling", phrase("is given in % and in newtons; one is enough.")
            )
        if not intensity.wants_reference:
            raise FieldError("ceiling_pct", phrase("needs an intensity in % too."))
        highest = intensity.lower
        if intensity.upper is not None:
            highest = intensity.band(100.0, place=1.0).upper_n  # newtons of 100 N: %
        if not highest < ceiling_pct <= CEILING_MOST_PCT:
            raise FieldError(
                "ceiling_pct",
                phrase(
                    "is {ceiling_pct:g} %; it must lie above the band, which "
                    "reaches to {highest:.4g} %, and be at most "
                    "{ceiling_most_pct:g} %.",
                    ceiling_pct=ceiling_pct,
                    highest=highest,
                    ceiling_most_pct=CEILING_MOST_PCT,
                ),
            )

    def check_kind(self) -> None:
        """That a lowering is asked for as one: a floor, and a clock that runs on.

        Raises:
            FieldError: it is not.
        """
        if self.task.kind is not TaskKind.LOWERING:
            return
        if self.intensity.upper is not None:
            raise FieldError(
                "intensity.upper", phrase("a lowering has a floor and no upper edge.")
            )
        if self.clock is not ClockRule.RUNNING:
            raise FieldError(
                "clock",
                phrase(
                    "must be “{running}” in a lowering.",
                    running=ClockRule.RUNNING.value,
                ),
            )

    def on(
        self,
        sides: Sides,
        reference: Reference | None,
        *,
        place: float = 0.0,
        single_cell: bool = False,
        faded_sessions: int = 0,
        unchecked_ceiling: bool = False,
    ) -> Prescription:
        """The prescription of one set.

        Args:
            sides: one of `side_order.sides`.
            reference: the 100 % of these sides.
            place: where in the range the band lies, from 0 to 1.
            single_cell: whether the rig has one cell, which then serves any side.
            faded_sessions: earlier sessions of this prescription, for fading.
            unchecked_ceiling: leave out a ceiling in newtons, which cannot be
                compared with percentages before the reference is known.

        Raises:
            FieldError: names the field that does not fit.
        """
        reference_n = reference.force_n if reference else None
        ceiling_n = None if unchecked_ceiling else self.ceiling_n
        if self.ceiling_pct is not None and reference_n is not None:
            ceiling_n = reference_n * self.ceiling_pct / 100
        return Prescription(
            task=self.task.on_side(sides),
            band=self.intensity.band(reference_n, place),
            hold_s=self.hold_s,
            clock=self.clock,
            reps=self.reps,
            sets=self.sets,
            rest_s=self.rest_s,
            grace_s=self.grace_s,
            band_on=self._band_on(sides, single_cell=single_cell),
            reference=reference,
            balance_tolerance_points=self.balance_tolerance_points,
            balance_required=self.balance_required,
            ceiling_n=ceiling_n,
            feedback=self.feedback,
            start=self.start,
            faded_sessions=faded_sessions,
        )

    def _band_on(self, sides: Sides, *, single_cell: bool) -> BandOn:
        if single_cell:
            return BandOn.TOTAL
        if sides is Sides.BOTH:
            return BandOn.EACH_SIDE if self.each_side else BandOn.TOTAL
        return BandOn.LEFT if sides is Sides.LEFT else BandOn.RIGHT

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "key": self.key,
            "task": self.task.to_json(),
            "intensity": self.intensity.to_json(),
            "hold_s": self.hold_s,
            "reps": self.reps,
            "sets": self.sets,
            "rest_s": self.rest_s,
            "side_order": self.side_order.value,
            "reference": self.reference.to_json(),
            "clock": self.clock.value,
            "grace_s": self.grace_s,
            "each_side": self.each_side,
            "balance_tolerance_points": self.balance_tolerance_points,
            "balance_required": self.balance_required,
            "ceiling_pct": self.ceiling_pct,
            "ceiling_n": self.ceiling_n,
            "feedback": self.feedback.value,
            "start": self.start.value,
            "note": self.note,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> PlannedPrescription:
        """Checks and reads what `to_json` wrote.

        Raises:
            FieldError: names the field that does not fit.
        """
        return cls(
            task=Task.from_json(fields.inner("task")),
            intensity=Intensity.from_json(fields.inner("intensity")),
            hold_s=fields.number("hold_s", least=HOLD_LEAST_S, most=3600),
            reps=fields.whole("reps", least=1, most=1000),
            sets=fields.whole("sets", least=1, most=100),
            rest_s=fields.number("rest_s", least=0, most=3600),
            side_order=fields.choice("side_order", SideOrder),
            reference=ReferenceRule.from_json(fields.inner("reference")),
            clock=fields.choice("clock", ClockRule),
            grace_s=fields.number("grace_s", least=0, most=60),
            each_side=fields.flag("each_side"),
            balance_tolerance_points=fields.number_or_none("balance_tolerance_points"),
            balance_required=fields.flag("balance_required"),
            ceiling_pct=fields.number_or_none("ceiling_pct"),
            ceiling_n=fields.number_or_none("ceiling_n"),
            feedback=fields.choice("feedback", FeedbackMode),
            start=fields.choice("start", StartBy),
            note=fields.text("note", longest=NOTE_MAX),
            key=fields.text("key", longest=KEY_MAX),
        )
