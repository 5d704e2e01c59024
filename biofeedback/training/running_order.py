"""The running order: the sets of one visit, which is next, and the rests between.

A leg is one set of one task with the sides of that set. The order is worked through
from the first leg to the last; the practitioner may skip, repeat, put in and end at
any moment. It advises and keeps count; it starts nothing by itself, but says when a
set is due.

Rules:

* A set that was stopped is not done: the order stays there until the practitioner
  repeats it, skips it or ends the visit.
* What was changed within a set (band, hold, rest, reps) holds for the later legs of
  the same task and sides too, unless it is changed back.
* Another reference changes the legs in percent that have not begun.
* Times are seconds of one clock that never goes back; the caller hands them in. After
  a restart that clock is another one: a rest under way is over then.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, UserError
from biofeedback.phrase import phrase
from biofeedback.training.band import Band
from biofeedback.training.changes import MAY_CHANGE
from biofeedback.training.events import rest_cut
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import same_work

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.training.events import RestCut
    from biofeedback.training.planned import PlannedPrescription
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Sides, Task
    from biofeedback.wire.fields import Fields

GET_READY_S = 5.0
"""How long before the end of a rest the athlete is told to get ready (our choice)."""
LEGS_MAX = 500
"""More sets than fit into any visit."""
NEAR_N = 1e-6
"""Rounding is no nudge."""
WARM_UP_SHARE = 0.5
"""A warm-up is done at this share of the band (common practice, no source)."""


class Stand(Enum):
    """How a leg stands."""

    TO_COME = phrase("to come")
    UNDER_WAY = phrase("under way")
    DONE = phrase("done")
    STOPPED = phrase("stopped")
    SKIPPED = phrase("skipped")


class Doing(Enum):
    """What the visit is at."""

    READY = "ready"  # the next set may begin
    SET = "set"
    REST = "rest"
    STOPPED = "stopped"  # a set was stopped: the practitioner decides
    DONE = "done"
    ENDED = "ended"  # by the practitioner, before the last set


def lies_within(band: Band, most: Band) -> bool:
    """Whether a band lies within what is prescribed; rounding is no nudge."""
    low = band.lower_n >= most.lower_n - NEAR_N
    return low and band.upper_n <= most.upper_n + NEAR_N


@dataclass(frozen=True, slots=True)
class Leg:
    """One set of the visit.

    Attributes:
        number, of: of the sets of this task, from 1.
        key: of the planned prescription, or empty.
        in_percent: whether another reference moves the band.
        ceiling_in_percent: whether it moves the ceiling too; one that is given in
            newtons stays.
        warm_up: it is done, kept, and counted apart.
        done_as: what was asked for at its end, changes included; None before.
        prescribed: the band before any nudge; None where that is not known.
        prescribed_range: from the lowest to the highest edge that the prescription
            allows, wherever in it the band was put; None likewise.
    """

    asked: Prescription
    number: int = 1
    of: int = 1
    key: str = ""
    in_percent: bool = False
    ceiling_in_percent: bool = False
    warm_up: bool = False
    stand: Stand = Stand.TO_COME
    done_as: Prescription | None = None
    prescribed: Band | None = None
    prescribed_range: Band | None = None

    @property
    def sides(self) -> Sides:
        """Which sides work."""
        return self.asked.task.sides

    def allows(self, band: Band) -> bool:
        """Whether a band lies within what is prescribed, where that is known."""
        most = self.prescribed_range
        return most is None or lies_within(band, most)

    def scaled(self, by: float) -> Leg:
        """With another 100 %: what is prescribed moves with it."""
        return replace(
            self,
            prescribed=_scaled(self.prescribed, by) if self.prescribed else None,
            prescribed_range=(
                _scaled(self.prescribed_range, by) if self.prescribed_range else None
            ),
        )

    def same_work(self, other: Leg) -> bool:
        """Whether it is the same task with the same sides, warm-up apart."""
        return (
            self.key == other.key
            and self.warm_up == other.warm_up
            and self.asked.task == other.asked.task
        )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "asked": self.asked.to_json(),
            "number": self.number,
            "of": self.of,
            "key": self.key,
            "in_percent": self.in_percent,
            "ceiling_in_percent": self.ceiling_in_percent,
            "warm_up": self.warm_up,
            "stand": self.stand.value,
            "done_as": self.done_as.to_json() if self.done_as else None,
            "prescribed": _band_json(self.prescribed),
            "prescribed_range": _band_json(self.prescribed_range),
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Leg:
        """Checks and reads what `to_json` wrote."""
        return cls(
            Prescription.from_json(fields.inner("asked")),
            number=fields.whole("number", least=1, most=LEGS_MAX),
            of=fields.whole("of", least=1, most=LEGS_MAX),
            key=fields.text("key", longest=36),
            in_percent=fields.flag("in_percent"),
            ceiling_in_percent=(
                fields.flag("ceiling_in_percent")
                if fields.has("ceiling_in_percent")
                else False
            ),
            warm_up=fields.flag("warm_up"),
            stand=fields.choice("stand", Stand),
            done_as=(
                Prescription.from_json(fields.inner("done_as"))
                if fields.has("done_as")
                else None
            ),
            prescribed=_band_of(fields, "prescribed"),
            prescribed_range=_band_of(fields, "prescribed_range"),
        )


def _by(leg: Leg, reference: Reference, old: Reference) -> Leg:
    """A leg by another 100 %."""
    by = reference.force_n / old.force_n
    ceiling_n = leg.asked.ceiling_n
    if ceiling_n is not None and leg.ceiling_in_percent:
        ceiling_n *= by
    band = _scaled(leg.asked.band, by)
    try:
        asked = replace(leg.asked, reference=reference, band=band, ceiling_n=ceiling_n)
    except FieldError as error:
        raise UserError(
            phrase(
                "By the new 100 % of {force_n:.0f} N the band would pass the ceiling "
                "of {ceiling_n:.0f} N: the sets to come stay as they were.",
                force_n=reference.force_n,
                ceiling_n=ceiling_n or 0.0,
            ),
            phrase("Change the ceiling in the plan, or the band here."),
        ) from error
    return replace(leg.scaled(by), asked=asked)


def _band_json(band: Band | None) -> dict[str, object] | None:
    return band.to_json() if band else None


def _band_of(fields: Fields, name: str) -> Band | None:
    return Band.from_json(fields.inner(name)) if fields.has(name) else None


def legs_of(
    planned: PlannedPrescription,
    asked: Sequence[Prescription],
    *,
    warm_up: bool = False,
) -> tuple[Leg, ...]:
    """The legs of one planned prescription: set by set, and in each side by side.

    Args:
        asked: of each side in its order, as `PlannedPrescription.on` makes them.
        warm_up: put a set of one easy rep for each side before.
    """
    percent = planned.intensity.wants_reference
    common = {
        "key": planned.key,
        "in_percent": percent,
        "ceiling_in_percent": planned.ceiling_pct is not None,
    }
    first = [
        Leg(
            (easy := _easy(one)),
            warm_up=True,
            prescribed=easy.band,
            prescribed_range=_scaled(_range_of(planned, one), WARM_UP_SHARE),
            **common,  # type: ignore[arg-type]  # by name
        )
        for one in asked
        if warm_up
    ]
    return (
        *first,
        *(
            Leg(
                one,
                number=number,
                of=planned.sets,
                prescribed=one.band,
                prescribed_range=_range_of(planned, one),
                **common,  # type: ignore[arg-type]  # as above
            )
            for number in range(1, planned.sets + 1)
            for one in asked
        ),
    )


def _range_of(planned: PlannedPrescription, asked: Prescription) -> Band:
    """All that the bands of a prescription may cover, from its low to its high end."""
    reference_n = asked.reference.force_n if asked.reference else None
    return planned.intensity.whole_range(reference_n)


def _easy(asked: Prescription) -> Prescription:
    """One rep at half the band; a ceiling stays where it is."""
    return replace(asked, band=_scaled(asked.band, WARM_UP_SHARE), reps=1)


def _scaled(band: Band, by: float) -> Band:
    return Band(band.lower_n * by, band.upper_n * by)


class RunningOrder:
    """The sets of one visit.

    Args:
        legs: in their order.
        current: index of the leg that is next or under way.

    Raises:
        FieldError: there are no legs, or more than any visit has.
    """

    def __init__(self, legs: Sequence[Leg], *, current: int = 0) -> None:
        if not 1 <= len(legs) <= LEGS_MAX:
            raise FieldError(
                "legs", phrase("must be 1 to {legs_max} sets.", legs_max=LEGS_MAX)
            )
        self._legs = list(legs)
        self._current = current
        self._doing = Doing.READY
        self._rested_at_s = self._ended_at_s = 0.0
        self._settle()

    @property
    def legs(self) -> tuple[Leg, ...]:
        """All legs, as they stand."""
        return tuple(self._legs)

    @property
    def doing(self) -> Doing:
        """What the visit is at."""
        return self._doing

    @property
    def leg(self) -> Leg | None:
        """The leg that is next or under way; None when all is over."""
        return None if self.over else self._legs[self._current]

    @property
    def over(self) -> bool:
        """Whether the order is worked through, or was ended."""
        return self._doing in {Doing.DONE, Doing.ENDED}

    @property
    def to_come(self) -> int:
        """How many legs are still to come."""
        return sum(leg.stand is Stand.TO_COME for leg in self._legs)

    @property
    def place(self) -> int:
        """Index of `leg`; of the last one when all is over."""
        return min(self._current, len(self._legs) - 1)

    def rest_left_s(self, now_s: float) -> float:
        """Rest still to go before the next set; 0 when rested."""
        resting = self._doing is Doing.REST
        return max(0.0, self._rested_at_s - now_s) if resting else 0.0

    def rest_cut(self, now_s: float) -> RestCut | None:
        """The rest, if the next set begins now; None where it was long enough."""
        asked_s = self._rested_at_s - self._ended_at_s
        return rest_cut(asked_s, self.rest_left_s(now_s))

    def get_ready(self, now_s: float) -> bool:
        """Whether the athlete is to be told that the next set is near."""
        return self._doing is Doing.REST and self.rest_left_s(now_s) <= GET_READY_S

    def due(self, now_s: float) -> bool:
        """Whether the next set may begin: rested, and nothing was stopped."""
        if self._doing is Doing.REST:
            return self.rest_left_s(now_s) <= 0
        return self._doing is Doing.READY

    # What happens.

    def begin(self) -> Prescription:
        """The next set begins, also before the rest is over.

        Raises:
            FieldError: a set is under way, or all is over.
        """
        leg = self.leg
        if leg is None or self._doing not in {Doing.READY, Doing.REST}:
            raise FieldError(
                "visit",
                phrase("no set is to begin now."),
                phrase("Repeat or skip a set that was stopped."),
            )
        self._stand(Stand.UNDER_WAY)
        self._doing = Doing.SET
        return leg.asked

    def set_ended(self, now_s: float, asked: Prescription, *, complete: bool) -> None:
        """The set under way is over.

        Args:
            asked: what was asked for at its end, changes of its course included.
            complete: False where it was stopped before its last rep.
        """
        if self._doing is not Doing.SET:
            return
        before = self._legs[self._current]
        self._legs[self._current] = replace(before, done_as=asked)
        self._stand(Stand.DONE if complete else Stand.STOPPED)
        self._carry_over(before, asked)
        self._ended_at_s, self._rested_at_s = now_s, now_s + asked.rest_s
        if complete:
            self._doing = Doing.REST
            self._current += 1
            self._settle()
        else:
            self._doing = Doing.STOPPED

    def skip(self) -> None:
        """Leaves out the leg that is next, or was stopped."""
        if self.leg is None or self._doing is Doing.SET:
            return
        if self._legs[self._current].stand is not Stand.STOPPED:
            self._stand(Stand.SKIPPED)
        self._doing = Doing.REST if self._doing is Doing.STOPPED else self._doing
        self._current += 1
        self._settle()

    def repeat(self) -> None:
        """Puts in the last set once more: the one stopped, or the one before."""
        if self._doing is Doing.SET:
            return
        stopped = self._at_stopped
        last = self._current if stopped else self._current - 1
        if last < 0 or len(self._legs) >= LEGS_MAX:
            return
        leg = self._legs[last]
        asked = leg.done_as or leg.asked
        again = replace(leg, asked=asked, stand=Stand.TO_COME, done_as=None)
        self._current = last + 1
        self._legs.insert(self._current, again)
        if self._doing is not Doing.REST:
            self._doing = Doing.REST if stopped else Doing.READY

    def go_to(self, place: int) -> None:
        """Goes on with a later leg, or one that was left out; others stay to come."""
        may = 0 <= place < len(self._legs) and self._doing is not Doing.SET
        if not may or self._legs[place].stand not in {Stand.TO_COME, Stand.SKIPPED}:
            return
        leg = self._legs.pop(place)
        if place < self._current:
            self._current -= 1
        if self._at_stopped:
            self._current += 1  # what was stopped is left at that
        self._legs.insert(self._current, replace(leg, stand=Stand.TO_COME))
        if self._doing is not Doing.REST:
            self._doing = Doing.READY

    def end(self) -> None:
        """The practitioner ends the visit; what is to come stays as not done."""
        if self._doing not in {Doing.DONE, Doing.SET}:
            self._doing = Doing.ENDED

    def change_reference(self, reference: Reference, task: Task) -> int:
        """Another 100 % for the legs in percent of a task that have not begun.

        Args:
            task: with its sides.

        Returns:
            How many legs were changed.

        Raises:
            UserError: a band would pass a ceiling that is given in newtons; nothing
                was changed.
        """
        changed: dict[int, Leg] = {}
        for index in range(self._current, len(self._legs)):
            leg = self._legs[index]
            old = leg.asked.reference
            fits = same_work(leg.asked.task, task)
            if leg.stand is Stand.TO_COME and leg.in_percent and fits and old:
                changed[index] = _by(leg, reference, old)
        for index, leg in changed.items():
            self._legs[index] = leg
        return len(changed)

    def change_next(self, asked: Prescription, *, later_too: bool = True) -> None:
        """Another prescription for the leg that is next.

        Args:
            later_too: what differs in band, hold, rest or reps holds for the later
                legs of the same task and sides as well.

        Raises:
            FieldError: no leg is to begin now.
        """
        leg = self.leg
        if leg is None or leg.stand is not Stand.TO_COME:
            raise FieldError(
                "visit",
                phrase("there is no set to come that could be changed."),
                phrase("Repeat or skip a set that was stopped."),
            )
        changed = replace(leg, asked=asked)
        if asked.task != leg.asked.task:  # of another side: what is prescribed is not
            changed = replace(changed, prescribed=None, prescribed_range=None)
        self._legs[self._current] = changed
        if later_too:
            self._carry_over(leg, asked)

    def stretch_rest(self, by_s: float) -> None:
        """A rest under way becomes longer, or shorter where `by_s` is negative."""
        self._rested_at_s += by_s

    @property
    def _at_stopped(self) -> bool:
        at = self._legs[self._current : self._current + 1]
        return bool(at) and at[0].stand is Stand.STOPPED

    def _stand(self, stand: Stand) -> None:
        self._legs[self._current] = replace(self._legs[self._current], stand=stand)

    def _settle(self) -> None:
        """Past the last leg all is over."""
        if self._current == len(self._legs):
            self._doing = Doing.DONE

    def _carry_over(self, before: Leg, asked: Prescription) -> None:
        """What was changed in a set holds for what is still to come of its kind."""
        old = before.asked
        new = {
            name: getattr(asked, name)
            for name in MAY_CHANGE
            if getattr(asked, name) != getattr(old, name)
        }
        for index in range(self._current + 1, len(self._legs)):
            leg = self._legs[index]
            if new and leg.same_work(before) and leg.stand is Stand.TO_COME:
                self._legs[index] = replace(leg, asked=replace(leg.asked, **new))

    # To be picked up again.

    def to_json(self) -> dict[str, object]:
        """Plain JSON values, enough to go on after a restart."""
        return {
            "legs": [leg.to_json() for leg in self._legs],
            "current": self._current,
            "ended": self._doing is Doing.ENDED,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> RunningOrder:
        """Goes on where it was; a set that was under way then counts as stopped.

        Raises:
            FieldError: names the field that does not fit.
        """
        legs = [Leg.from_json(one) for one in fields.items("legs", most=LEGS_MAX)]
        if not legs:
            raise FieldError(fields.path("legs"), phrase("is empty."))
        current = fields.whole("current", least=0, most=len(legs))
        order = cls(legs, current=current)
        if current < len(legs):
            stand = legs[current].stand
            if stand is Stand.UNDER_WAY:
                order._stand(Stand.STOPPED)
            if stand in {Stand.UNDER_WAY, Stand.STOPPED}:
                order._doing = Doing.STOPPED
        if fields.flag("ended"):
            order._doing = Doing.ENDED
        return order
