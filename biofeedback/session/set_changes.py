"""What is changed within the set under way: sent, heard back, kept, and undone.

* A change is sent at once and takes effect at the next sample. It is kept when the
  acquisition tells that it did, with the sample time, the old and the new value.
* A reason can be given with it, or within `REASON_S` after it. In the second case the
  recording's event has no reason; a later note in the logbook names the changes that
  the reason is of. Changes that follow one another that closely share one reason.
* Undo goes back step by step to the begin of the set. It is a change of its own: what
  was asked for meanwhile stays as it was, and so do the samples judged by it.
* A rep that is left out or put in concerns this set only; all else holds for later
  sets of the same task and sides too (`carried`).
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Protocol

from biofeedback.errors import UserError
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.session_notes import CHANGE
from biofeedback.phrase import phrase
from biofeedback.rig.commands import WORDS, ChangeBand, ChangeTerms
from biofeedback.rig.handoff import BandChanged, Refused, TermsChanged
from biofeedback.training.band import Band
from biofeedback.training.changes import Reason, Terms
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from biofeedback.rig.handoff import SessionEvent
    from biofeedback.training.events import RestCut
    from biofeedback.training.prescription import Prescription

BAND = "band"
REST_TAKEN = "rest_taken_s"
"""Not what was asked for was changed, but less rest was taken before a rep or a set."""
OUTSIDE = "outside_prescribed"
"""Of a note about a band: whether it left what is prescribed."""
REASON_S = 15.0
"""Long enough to look up from the athlete and press one key (our choice)."""
OF_THIS_SET = frozenset({Reason.SKIPPED.value, Reason.REPEATED.value})
_OF_CHANGE = frozenset({WORDS[ChangeBand], WORDS[ChangeTerms]})


def rest_note(cut: RestCut, *, time_s: float | None) -> dict[str, object]:
    """Content of the note that a rest was cut short.

    Args:
        time_s: in the set; None before one.
    """
    return {
        "id": new_key(),
        "what": REST_TAKEN,
        "old": cut.asked_s,
        "new": round(cut.taken_s, 1),
        "reason": "",
        "time_s": time_s,
    }


class Changeable(Protocol):
    """The part of `biofeedback.session.live.Session` that is used here."""

    def change_band(self, band: Band, reason: str = "") -> None:
        """Another band, from the next sample on."""

    def change_terms(self, terms: Terms, reason: str = "") -> None:
        """Another hold, rest or number of reps, from the next sample on."""


@dataclass(frozen=True, slots=True)
class _At:
    """What is asked for at a moment, and what of it holds for later sets."""

    asked: Prescription
    carried: Prescription

    def with_band(self, band: Band) -> _At:
        return _At(self.asked.with_band(band), self.carried.with_band(band))

    def with_terms(self, terms: Terms, reason: str) -> _At:
        carried = replace(terms, reps=None) if reason in OF_THIS_SET else terms
        return _At(terms.applied_to(self.asked), carried.applied_to(self.carried))


@dataclass(frozen=True, slots=True)
class _Sent:
    """A command that is on its way."""

    what: Band | Terms
    after: _At
    undo: bool


class SetChanges:
    """The changes of one set after the other.

    Args:
        session: carries them out.
        tell: keeps a note: kind and content.
        allows: whether a band is within what is prescribed; one that is not may be,
            and its note says so.
    """

    def __init__(
        self,
        session: Changeable,
        tell: Callable[[str, Mapping[str, object]], None],
        *,
        allows: Callable[[Band], bool] = lambda _: True,
    ) -> None:
        self._session = session
        self._tell = tell
        self._allows = allows
        self._wanted: _At | None = None
        self._in_force: _At | None = None
        self._before: list[_At] = []
        self._sent: deque[_Sent] = deque()
        self._unexplained: tuple[str, ...] = ()
        self._changed_at_s = 0.0

    @property
    def open(self) -> bool:
        """Whether a set is under way."""
        return self._wanted is not None

    @property
    def asked(self) -> Prescription | None:
        """What is asked for, with all that was sent; None between sets."""
        return self._wanted.asked if self._wanted else None

    @property
    def carried(self) -> Prescription | None:
        """What is in force, without reps that were left out or put in."""
        return self._in_force.carried if self._in_force else None

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back."""
        return bool(self._before)

    def begin(self, asked: Prescription) -> None:
        """A set has begun."""
        self._wanted = self._in_force = _At(asked, asked)
        self._before.clear()
        self._sent.clear()
        self._unexplained = ()

    def end(self) -> None:
        """The set is over; a reason can still be given."""
        self._wanted = self._in_force = None
        self._before.clear()
        self._sent.clear()

    # What is asked for.

    def change_band(self, band: Band, reason: Reason = Reason.NONE) -> None:
        """A nudge.

        Raises:
            UserError: no set is under way.
            FieldError: the band does not fit what else is asked for.
        """
        now = self._now()
        if band != now.asked.band:
            self._send(band, now.with_band(band), reason)

    def change_terms(self, terms: Terms, reason: Reason = Reason.NONE) -> None:
        """Another hold, rest or number of reps.

        Raises:
            UserError: no set is under way.
            FieldError: a value does not fit.
        """
        now = self._now()
        after = now.with_terms(terms, reason.value)
        if after.asked != now.asked:
            self._send(terms, after, reason)

    def undo(self) -> None:
        """Takes the last change back; again, and the one before it.

        Raises:
            UserError: nothing was changed in this set.
        """
        now = self._now()
        if not self._before:
            raise UserError(phrase("Nothing was changed in this set."))
        after = self._before.pop()
        if after.asked.band != now.asked.band:
            self._send(after.asked.band, after, Reason.UNDONE)
        else:
            old = Terms.of(now.asked).to_json()
            new = Terms.of(after.asked).to_json()
            differs = {name: new[name] for name in new if new[name] != old[name]}
            self._send(Terms(**differs), after, Reason.UNDONE)  # type: ignore[arg-type]  # its own values

    def _now(self) -> _At:
        if self._wanted is None:
            raise UserError(phrase("No set is under way."))
        return self._wanted

    def _send(self, what: Band | Terms, after: _At, reason: Reason) -> None:
        undo = reason is Reason.UNDONE
        if not undo:
            self._before.append(self._now())
        self._sent.append(_Sent(what, after, undo))
        self._wanted = after
        if isinstance(what, Terms):
            self._session.change_terms(what, reason.value)
        else:
            self._session.change_band(what, reason.value)

    # What is heard.

    def hear(self, event: SessionEvent, now_s: float) -> bool:
        """Takes in an event; whether it is about a change."""
        if isinstance(event, Refused) and event.command in _OF_CHANGE:
            self._give_up()
            return True
        if not isinstance(event, BandChanged | TermsChanged) or self._in_force is None:
            return False
        if self._sent and self._sent[0].what == event.new:
            self._in_force = self._sent.popleft().after
        else:
            self._follow(event, self._in_force)
        self.keep(_values_of(event), event.reason, now_s, time_s=event.time_s)
        return True

    def _follow(self, event: BandChanged | TermsChanged, before: _At) -> None:
        """A change that was asked for elsewhere."""
        after = (
            before.with_band(event.new)
            if isinstance(event, BandChanged)
            else before.with_terms(event.new, event.reason)
        )
        self._before.append(before)
        self._in_force = self._wanted = after

    def _give_up(self) -> None:
        """A command was refused, and with it what was built on it."""
        lost = sum(not sent.undo for sent in self._sent)
        del self._before[len(self._before) - lost :]
        self._sent.clear()
        self._wanted = self._in_force

    def keep(
        self,
        values: Mapping[str, tuple[object, object]],
        reason: str,
        now_s: float,
        *,
        time_s: float | None = None,
    ) -> None:
        """Keeps a change that was made: the old and the new value of each thing.

        Args:
            time_s: sample time in the set; None for a change between sets.
        """
        keys: tuple[str, ...] = ()
        for what, (old, new) in values.items():
            key = new_key()
            keys += (key,)
            content = {
                "id": key,
                "what": what,
                "old": old,
                "new": new,
                "reason": reason,
                "time_s": time_s,
            }
            if what == BAND and isinstance(new, dict):
                band = Band.from_json(Fields(new, BAND))
                content[OUTSIDE] = not self._allows(band)
            self._tell(CHANGE, content)
        late = not self.reason_open(now_s)
        if reason:
            self._unexplained = ()
        else:
            self._unexplained = keys if late else self._unexplained + keys
        self._changed_at_s = now_s

    # Reasons.

    def reason_open(self, now_s: float) -> bool:
        """Whether a reason can be given for what was changed last."""
        return bool(self._unexplained) and now_s - self._changed_at_s <= REASON_S

    def give_reason(self, reason: Reason, now_s: float) -> bool:
        """The reason of the last changes; False where it is too late for one."""
        if not self.reason_open(now_s):
            return False
        self._tell(
            CHANGE,
            {
                "what": "reason",
                "of": list(self._unexplained),
                "reason": reason.value,
            },
        )
        self._unexplained = ()
        return True


def _values_of(
    event: BandChanged | TermsChanged,
) -> dict[str, tuple[object, object]]:
    """The old and the new value of each thing that was changed."""
    if isinstance(event, BandChanged):
        return {"band": (event.old.to_json(), event.new.to_json())}
    old, new = event.old.to_json(), event.new.to_json()
    return {name: (old.get(name), value) for name, value in new.items()}
