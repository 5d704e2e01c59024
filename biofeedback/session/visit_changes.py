"""What the practitioner changes in a visit: in the set under way, or in the next one.

Within a set a change goes to the session (see `set_changes`); between sets it changes
the running order, for the next set and the later ones of its kind. Either is kept with
time, old, new and reason, and can be taken back step by step: in a set to its begin,
between sets to the end of the last one.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.phrase import phrase
from biofeedback.session.order_words import words_outside
from biofeedback.training.changes import Reason, Terms
from biofeedback.training.events import Phase
from biofeedback.training.prescription import BandOn
from biofeedback.training.running_order import Stand
from biofeedback.training.task import Sides, same_work

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.session.set_changes import SetChanges
    from biofeedback.training.band import Band
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference import Reference
    from biofeedback.training.running_order import RunningOrder
    from biofeedback.training.task import Task

HOLD_STEP_S, REST_STEP_S = 5.0, 15.0
SMALL_HOLD_S, SMALL_REST_S = 1.0, 5.0
"""Steps of one press (our choice): the small ones up to twice the large one."""


class VisitChanges:
    """Changes of one visit.

    Args:
        in_set: those of the set under way.
        order: the sets to come.
        busy: whether any set is under way, or was asked for.
        now_s: of the clock of the visit.
        kept: is called when the order was changed.
    """

    def __init__(
        self,
        in_set: SetChanges,
        order: RunningOrder,
        *,
        busy: Callable[[], bool],
        now_s: Callable[[], float],
        kept: Callable[[], None],
    ) -> None:
        self._in_set = in_set
        self._order = order
        self._busy = busy
        self._now_s = now_s
        self._kept = kept
        self._before: list[tuple[int, Prescription]] = []
        self._told_outside: set[tuple[str, Sides, bool]] = set()

    @property
    def asked(self) -> Prescription | None:
        """What the set under way asks for; None between sets."""
        return self._in_set.asked

    @property
    def can_undo(self) -> bool:
        """Whether there is a change to take back."""
        return self._in_set.can_undo or self._undo_next() is not None

    @property
    def reason_open(self) -> bool:
        """Whether a reason can be given for the last change."""
        return self._in_set.reason_open(self._now_s())

    def forget(self) -> None:
        """What was changed before this step is not taken back any more."""
        self._before.clear()

    def skip_rep(self, state: SetState | None) -> bool:
        """Leaves out the rep that is next.

        Returns:
            Whether it was left out; the only rep of a set cannot be, so that the set
            has to be cut short.

        Raises:
            UserError: no set is under way, or no rep is left to leave out.
        """
        asked = self._in_set.asked
        if asked is None or state is None:
            raise UserError(phrase("No set is under way."))
        under_way = state.phase in {Phase.REP, Phase.RELEASE}
        if asked.reps - len(state.outcomes) - under_way < 1:
            raise UserError(
                phrase("No rep is left to skip."), phrase("Cut the set short, or stop.")
            )
        if asked.reps == 1:
            return False
        self._in_set.change_terms(Terms(reps=asked.reps - 1), Reason.SKIPPED)
        return True

    def repeat_rep(self) -> None:
        """Puts in one more rep in this set.

        Raises:
            UserError: no set is under way.
            FieldError: there are as many as may be.
        """
        asked = self._in_set.asked
        if asked is None:
            raise UserError(phrase("No set is under way."))
        self._in_set.change_terms(Terms(reps=asked.reps + 1), Reason.REPEATED)

    def change_band(self, band: Band, reason: Reason = Reason.NONE) -> None:
        """Another band.

        Raises:
            UserError: there is nothing to change.
            FieldError: the band does not fit what else is asked for.
        """
        if self._in_set.open:
            self._in_set.change_band(band, reason)
        else:
            self._change_next(self._next().with_band(band), reason)

    @property
    def nudged(self) -> bool:
        """Whether the set under way, or the next one, has a band of its own."""
        leg, asked = self._order.leg, self._in_set.asked
        if leg is None or leg.prescribed is None:
            return False
        if asked is None and (self._busy() or leg.stand is not Stand.TO_COME):
            return False
        same = asked is None or asked.task == leg.asked.task
        return same and (asked or leg.asked).band != leg.prescribed

    def back_to_prescribed(self) -> None:
        """The band that is prescribed, whatever was nudged.

        Raises:
            UserError: there is no nudge to leave.
        """
        leg = self._order.leg
        if not self.nudged or leg is None or leg.prescribed is None:
            raise UserError(phrase("The band is the prescribed one."))
        self.change_band(leg.prescribed)

    def outside_words(self) -> str:
        """That the band has left what is prescribed; said once for each task and side.

        It is allowed, and its note says so.
        """
        leg, asked = self._order.leg, self._to_change()
        if leg is None or leg.allows(asked.band) or leg.prescribed_range is None:
            return ""
        whose = leg.key, leg.sides, leg.warm_up
        if whose in self._told_outside:
            return ""
        self._told_outside.add(whose)
        return words_outside(leg.prescribed_range)

    def change_terms(self, terms: Terms, reason: Reason = Reason.NONE) -> None:
        """Another hold, rest or number of reps.

        Raises:
            UserError, FieldError: as `change_band`.
        """
        if self._in_set.open:
            self._in_set.change_terms(terms, reason)
        else:
            self._change_next(terms.applied_to(self._next()), reason)

    def longer_hold(self, steps: int) -> None:
        """Hold longer by steps, or shorter where that is negative."""
        hold_s = self._to_change().hold_s
        new_s = stepped(hold_s, steps, large=HOLD_STEP_S, small=SMALL_HOLD_S)
        self.change_terms(Terms(hold_s=max(SMALL_HOLD_S, new_s)))

    def longer_rest(self, steps: int) -> None:
        """Rest longer by steps, or shorter; a rest under way too."""
        rest_s = self._to_change().rest_s
        new_s = stepped(rest_s, steps, large=REST_STEP_S, small=SMALL_REST_S)
        self.change_terms(Terms(rest_s=max(0.0, new_s)))

    def more_reps(self, count: int) -> None:
        """More reps in this set and later ones, or fewer."""
        self.change_terms(Terms(reps=self._to_change().reps + count))

    def undo(self) -> None:
        """Takes the last change back; again, and the one before it.

        Raises:
            UserError: there is none.
        """
        if self._in_set.open:
            self._in_set.undo()
            return
        before = self._undo_next()
        if before is None:
            raise UserError(phrase("There is no change to take back."))
        self._before.pop()
        self._put_next(before, Reason.UNDONE)

    def give_reason(self, reason: Reason) -> bool:
        """The reason of the last changes; False where there is none to explain."""
        return self._in_set.give_reason(reason, self._now_s())

    def change_side(self, asked: Prescription | None = None) -> None:
        """The next set is done with the other side.

        Where the order has that side of the same task still to come it is done first;
        else the next set changes sides.

        Args:
            asked: of the other side, where the caller knows it. Without it the newtons
                of a set in percent are not known, and it cannot be changed.

        Raises:
            UserError: both sides work together, or the newtons are not known.
        """
        if self._busy():
            raise UserError(
                phrase("A set is under way."), phrase("Stop it, or cut it short.")
            )
        old = self._next()
        if old.task.sides is Sides.BOTH:
            raise UserError(phrase("Both sides work together in this set."))
        other = old.task.sides.other
        found = asked is None and self._other_side(other)
        if found:
            self._order.go_to(found)
        else:
            new = asked or self._on_other_side(old)
            self._order.change_next(new, later_too=False)
        self._before.clear()
        self._in_set.keep(
            {"side": (old.task.sides.value, other.value)},
            Reason.NONE.value,
            self._now_s(),
        )
        self._kept()

    def change_reference(self, reference: Reference, task: Task) -> int:
        """Another 100 % for the sets in percent of a task that are to come.

        Args:
            task: with its sides.

        Returns:
            How many were changed.
        """
        olds = [
            leg.asked.reference.to_json()
            for leg in self._order.legs
            if leg.stand is Stand.TO_COME
            and leg.in_percent
            and leg.asked.reference is not None
            and same_work(leg.asked.task, task)
        ]
        changed = self._order.change_reference(reference, task)
        if changed:
            self._before.clear()
            self._in_set.keep(
                {"reference": (olds[0], reference.to_json())},
                Reason.NONE.value,
                self._now_s(),
            )
            self._kept()
        return changed

    def _to_change(self) -> Prescription:
        return self._in_set.asked or self._next()

    def _next(self) -> Prescription:
        leg = self._order.leg
        if self._busy() or leg is None or leg.stand is not Stand.TO_COME:
            raise UserError(phrase("There is no set to change now."))
        return leg.asked

    def _change_next(self, asked: Prescription, reason: Reason) -> None:
        old = self._next()
        if asked != old:
            self._before.append((self._order.place, old))
            self._put_next(asked, reason)

    def _put_next(self, asked: Prescription, reason: Reason) -> None:
        old = self._next()
        self._order.change_next(asked)
        self._order.stretch_rest(asked.rest_s - old.rest_s)
        values: dict[str, tuple[object, object]] = {}
        if asked.band != old.band:
            values["band"] = old.band.to_json(), asked.band.to_json()
        before, after = Terms.of(old).to_json(), Terms.of(asked).to_json()
        values |= {
            name: (before[name], after[name])
            for name in after
            if before[name] != after[name]
        }
        self._in_set.keep(values, reason.value, self._now_s())
        self._kept()

    def _undo_next(self) -> Prescription | None:
        """What the next set asked for before it was changed."""
        if self._busy() or not self._before:
            return None
        place, before = self._before[-1]
        return before if place == self._order.place else None

    def _other_side(self, other: Sides) -> int:
        """Place of the same set of the other side, still to come; 0 without one."""
        at = self._order.place
        here = self._order.legs[at]
        for place, leg in enumerate(self._order.legs):
            same = (leg.key, leg.warm_up, leg.asked.task.name) == (
                here.key,
                here.warm_up,
                here.asked.task.name,
            )
            to_come = place > at and leg.stand is Stand.TO_COME
            if to_come and same and leg.sides is other:
                return place
        return 0

    def _on_other_side(self, old: Prescription) -> Prescription:
        leg = self._order.leg
        if leg is None or leg.in_percent:
            raise UserError(
                phrase("The newtons of the other side are not known here."),
                phrase("Take its set from today's page."),
            )
        swap = {BandOn.LEFT: BandOn.RIGHT, BandOn.RIGHT: BandOn.LEFT}
        return replace(
            old,
            task=old.task.on_side(old.task.sides.other),
            band_on=swap.get(old.band_on, old.band_on),
        )


def stepped(value_s: float, steps: int, *, large: float, small: float) -> float:
    """A time after some presses: small steps up to twice the large one."""
    for _ in range(abs(steps)):
        near = value_s < 2 * large or (steps < 0 and value_s == 2 * large)
        value_s += (small if near else large) * (1 if steps > 0 else -1)
    return value_s
