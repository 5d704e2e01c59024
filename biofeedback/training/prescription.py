"""The prescription: everything that is asked for in one set."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import FORCE_MAX_N, Band
from biofeedback.training.reference import Reference
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

HOLD_LEAST_S = 0.001
"""Shorter is a typing slip: no rig here takes more than one sample meanwhile."""


class ClockRule(Enum):
    """How time in the band adds up to the hold.

    ``unbroken`` counts from the last entry and starts again after a lapse,
    ``banked`` counts all time inside, ``running`` counts from the first entry
    whatever happens.
    """

    UNBROKEN = phrase("unbroken")
    BANKED = phrase("banked")
    RUNNING = phrase("running")


class BandOn(Enum):
    """Which force the band applies to."""

    TOTAL = phrase("total")
    EACH_SIDE = phrase("each side")
    LEFT = phrase("left")
    RIGHT = phrase("right")


class FeedbackMode(Enum):
    """What the athlete sees of the live force; see `biofeedback.training.showing`."""

    # There is one of each; Python's own, by the name, takes longer in each frame.
    __hash__ = object.__hash__

    FULL = phrase("full")
    OUTSIDE = phrase("only outside the band")
    ALTERNATE = phrase("every second rep unseen")
    FADING = phrase("fading over the sessions")
    UNSEEN = phrase("unseen")


class StartBy(Enum):
    """What lets a rep start."""

    FORCE = phrase("force")  # as soon as there is force
    KEY = phrase("key")  # not before the practitioner has pressed a key, rep by rep


@dataclass(frozen=True, slots=True)
class Prescription:
    """What one set asks for.

    Attributes:
        hold_s: time in the band that is asked for, seconds.
        rest_s: rest after each rep, seconds; a countdown, not a lock.
        grace_s: excursions up to this long are not lapses.
        balance_tolerance_points: how far the left share may be from 50 % of the
            total, in points; None where balance does not matter.
        balance_required: whether being out of balance is being out of the band.
        ceiling_n: a force that must not be passed, above the band (above the lower
            edge of an open one); None where there is none.
        faded_sessions: earlier sessions in which the feedback was fading; counts
            with that mode only.
    """

    task: Task
    band: Band
    hold_s: float
    clock: ClockRule = ClockRule.UNBROKEN
    reps: int = 1
    sets: int = 1
    rest_s: float = 60.0
    grace_s: float = 0.3
    band_on: BandOn = BandOn.TOTAL
    reference: Reference | None = None
    balance_tolerance_points: float | None = None
    balance_required: bool = False
    ceiling_n: float | None = None
    feedback: FeedbackMode = FeedbackMode.FULL
    start: StartBy = StartBy.FORCE
    faded_sessions: int = 0

    def __post_init__(self) -> None:
        if not HOLD_LEAST_S <= self.hold_s <= 3600:
            raise FieldError(
                "hold_s",
                phrase(
                    "must be {hold_least_s:g} s to 3600 s.", hold_least_s=HOLD_LEAST_S
                ),
            )
        if not 1 <= self.reps <= 1000:
            raise FieldError("reps", phrase("must be 1 to 1000."))
        if not 1 <= self.sets <= 100:
            raise FieldError("sets", phrase("must be 1 to 100."))
        if not 0 <= self.rest_s <= 3600:
            raise FieldError("rest_s", phrase("must be 0 s to 3600 s."))
        if not 0 <= self.grace_s <= 60:
            raise FieldError("grace_s", phrase("must be 0 s to 60 s."))
        points = self.balance_tolerance_points
        if points is not None and not 0 <= points <= 50:
            raise FieldError(
                "balance_tolerance_points", phrase("must be 0 to 50 points.")
            )
        if self.balance_required and points is None:
            raise FieldError(
                "balance_required",
                phrase("needs a tolerance."),
                phrase("Set one in points."),
            )
        if self.ceiling_n is None:
            return
        least_n = self.band.lower_n if self.band.open_above else self.band.upper_n
        if not least_n < self.ceiling_n <= FORCE_MAX_N:
            raise FieldError(
                "ceiling_n",
                phrase(
                    "must lie above the band, which reaches to {least_n:g} N, "
                    "and be at most {force_max_n:g} N.",
                    least_n=least_n,
                    force_max_n=FORCE_MAX_N,
                ),
            )

    def with_band(self, band: Band) -> Prescription:
        """The same prescription with another band.

        Raises:
            FieldError: the band would reach the ceiling.
        """
        try:
            return replace(self, band=band)
        except FieldError as error:
            if error.field != "ceiling_n" or self.ceiling_n is None:
                raise
            raise FieldError(
                "band",
                phrase("would reach the ceiling of {n:g} N.", n=self.ceiling_n),
            ) from error

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "task": self.task.to_json(),
            "band": self.band.to_json(),
            "hold_s": self.hold_s,
            "clock": self.clock.value,
            "reps": self.reps,
            "sets": self.sets,
            "rest_s": self.rest_s,
            "grace_s": self.grace_s,
            "band_on": self.band_on.value,
            "reference": self.reference.to_json() if self.reference else None,
            "balance_tolerance_points": self.balance_tolerance_points,
            "balance_required": self.balance_required,
            "ceiling_n": self.ceiling_n,
            "feedback": self.feedback.value,
            "start": self.start.value,
            "faded_sessions": self.faded_sessions,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Prescription:
        """Checks and reads what `to_json` wrote.

        Raises:
            FieldError: names the field that does not fit.
        """
        return cls(
            task=Task.from_json(fields.inner("task")),
            band=Band.from_json(fields.inner("band")),
            hold_s=fields.number("hold_s", least=HOLD_LEAST_S, most=3600),
            clock=fields.choice("clock", ClockRule),
            reps=fields.whole("reps", least=1, most=1000),
            sets=fields.whole("sets", least=1, most=100),
            rest_s=fields.number("rest_s", least=0, most=3600),
            grace_s=fields.number("grace_s", least=0, most=60),
            band_on=fields.choice("band_on", BandOn),
            reference=(
                Reference.from_json(fields.inner("reference"))
                if fields.has("reference")
                else None
            ),
            balance_tolerance_points=fields.number_or_none(
                "balance_tolerance_points", least=0, most=50
            ),
            balance_required=fields.flag("balance_required"),
            ceiling_n=fields.number_or_none("ceiling_n", least=0, most=FORCE_MAX_N),
            feedback=fields.choice("feedback", FeedbackMode),
            start=(
                fields.choice("start", StartBy)
                if fields.has("start")
                else StartBy.FORCE
            ),
            faded_sessions=(
                fields.whole("faded_sessions", least=0, most=100_000)
                if fields.has("faded_sessions")
                else 0
            ),
        )
