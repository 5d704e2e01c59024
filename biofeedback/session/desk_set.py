"""The set at the desk outside of a running order: what it was put there as.

* A set of the day knows what its prescription allows. A nudge beyond that is allowed,
  said once for each set that is put there, and its note says so, as in an order.
* After pain above the cut no rep starts by itself, as in an order; a key lets reps
  start again.
* What a plan says of a set goes along as long as its task stands at the desk.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from biofeedback.session.order_words import words_outside
from biofeedback.session.set_changes import Changeable, SetChanges
from biofeedback.training.running_order import lies_within
from biofeedback.training.task import same_work

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from biofeedback.rig.handoff import SessionEvent
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference import Reference


class Gated(Changeable, Protocol):
    """The part of `biofeedback.session.live.Session` that is used here."""

    def move_gate(self, *, opened: bool, reason: str = "") -> None:
        """Lets reps start, or holds them back."""


class DeskSet:
    """What stands at the desk, and the set that is begun from there.

    Args:
        session: runs the set.
        tell: keeps a note: kind and content.

    Attributes:
        decided: the 100 % that was decided on for the set, where one was.
        held: whether no rep starts before a key.
    """

    def __init__(
        self, session: Gated, tell: Callable[[str, Mapping[str, object]], object]
    ) -> None:
        self.decided: Reference | None = None
        self.held = False
        self._session = session
        self._changes = SetChanges(
            session, lambda *what: (tell(*what), None)[1], allows=self._allows
        )
        self._put: Prescription | None = None
        self._context: dict[str, object] = {}
        self._chosen: SetOfDay | None = None
        self._undecided = False
        self._told_outside = False

    # What is put there.

    def put(
        self,
        asked: Prescription | None,
        context: Mapping[str, object],
        chosen: SetOfDay | None = None,
        *,
        decided: bool = True,
    ) -> None:
        """Another set is put there; None for one of nobody's day.

        Args:
            context: what the head of its recording says of the plan.
            chosen: the set of the day that it is.
            decided: whether that it is done was decided on already, as on the page of
                today; what is only offered is decided on by its start.
        """
        self._put, self._context, self._chosen = asked, dict(context), chosen
        self._undecided = not decided
        self.decided = asked.reference if asked else None
        self._told_outside = False

    def context_of(self, asked: Prescription) -> dict[str, object]:
        """What the head of the recording of this set says of the plan."""
        return dict(self._context) if self.stands(asked) else {}

    def stands(self, asked: Prescription) -> bool:
        """Whether this is what was put there, by its task and sides."""
        return self._put is not None and same_work(self._put.task, asked.task)

    def take_decision(self, asked: Prescription) -> SetOfDay | None:
        """The set of the day that is decided on by beginning this one, told once.

        None where it was decided on before, or another task or band begins.
        """
        offered, put = self._undecided, self._put
        self._undecided = False
        same = (
            put is not None
            and same_work(put.task, asked.task)
            and put.band == asked.band
        )
        return self._chosen if offered and same else None

    @property
    def ceiling_in_percent(self) -> bool:
        """Whether the plan gives the ceiling of the set in % of its reference."""
        chosen = self._chosen
        return chosen is not None and chosen.planned.ceiling_pct is not None

    def words_outside(self, asked: Prescription) -> str:
        """That the band has left what is prescribed; said once, else empty."""
        most = self._range(asked)
        if most is None or self._told_outside or lies_within(asked.band, most):
            return ""
        self._told_outside = True
        return words_outside(most)

    def _range(self, asked: Prescription) -> Band | None:
        """All that the prescription allows, where that is known."""
        chosen, put = self._chosen, self._put
        if chosen is None or put is None or not same_work(put.task, asked.task):
            return None
        decided = self.decided or put.reference
        intensity = chosen.planned.intensity
        if intensity.wants_reference and decided is None:
            return None
        return intensity.whole_range(decided.force_n if decided else None)

    def _allows(self, band: Band) -> bool:
        asked = self._changes.asked
        most = self._range(asked) if asked else None
        return most is None or lies_within(band, most)

    # The set under way.

    def begin(self, asked: Prescription) -> None:
        """It has begun."""
        self.held = False
        self._changes.begin(asked)

    def end(self) -> None:
        """It is over."""
        self.held = False
        self._changes.end()

    def hear(self, event: SessionEvent) -> None:
        """Keeps a change of the set that took effect."""
        self._changes.hear(event, 0.0)

    def hold_reps(self) -> None:
        """No next rep starts by itself; the one under way goes on to its end."""
        if not self.held:
            self.held = True
            self._session.move_gate(opened=False, reason="paused")

    def let_reps_start(self) -> bool:
        """The key that goes on; whether anything was held back."""
        if not self.held:
            return False
        self.held = False
        self._session.move_gate(opened=True, reason="resumed")
        return True
