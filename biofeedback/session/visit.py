"""A whole visit: the running order, live, on top of a session.

It is stepped once a frame by `follow` and does what the practitioner asks for. The
rules of the order are in `biofeedback.training.running_order`, those of changes in
`set_changes`; here they meet the session, and all of it is kept.

* The first set begins by hand. After a rest the next one begins exactly when it is
  due, where `auto` is on and nothing speaks against it; each time something does, it
  is said, and a hand is needed.
* What speaks against a start is said first (see `objections`); a second start goes on,
  and the head of the recording says what was passed over.
* A set that was stopped waits for the practitioner. One that was cut short is left at
  that, and the order goes on.
* Pause lets no rep and no set start; a rep under way goes on to its end.
* When no frame came for a while (a closed lid), nothing begins by itself.
* Nothing here raises because a logbook is busy: notes wait, and that is said.

The program advises; the practitioner and the treating clinician decide.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.session_notes import CHANGE, EFFORT, ORDER, PAIN, PAIN_BACK
from biofeedback.phrase import phrase, sentences
from biofeedback.rig.commands import WORDS, BeginSet
from biofeedback.rig.handoff import Refused, SetBegun, SetEnded
from biofeedback.session.objections import Objections
from biofeedback.session.order_record import Begun, OrderRecord
from biofeedback.session.order_words import words_of_band, words_of_next
from biofeedback.session.pain_told import WENT_ON, PainTold
from biofeedback.session.set_changes import Changeable, SetChanges, rest_note
from biofeedback.session.visit_changes import VisitChanges
from biofeedback.session.visit_notes import VisitNotes
from biofeedback.training.events import Phase
from biofeedback.training.prescription import StartBy
from biofeedback.training.reference import PAIN_MOST
from biofeedback.training.running_order import Doing
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from datetime import datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.rig.handoff import SessionEvent, Update
    from biofeedback.training.band import Band
    from biofeedback.training.events import RestCut, SetState
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.running_order import RunningOrder

COMPLETE = "complete"
CUT_SHORT = "cut short"
ASLEEP_S = 10.0
"""Without a frame for this long somebody may have closed the lid and left."""


class Driven(Changeable, Protocol):
    """The part of `biofeedback.session.live.Session` that a visit uses."""

    @property
    def set_id(self) -> str:
        """Key of the set that was asked for last."""

    def visit_id(self) -> str:
        """Key of the visit, entered into the logbook."""

    def begin_set(
        self, prescription: Prescription, context: Mapping[str, object] | None = None
    ) -> None:
        """Begins a set and its recording with the next sample."""

    def end_set(self, reason: str = "stop") -> None:
        """Ends the set."""

    def move_gate(self, *, opened: bool, reason: str = "") -> None:
        """Lets reps start, or holds them back."""

    def mark_pain(self, level: int) -> None:
        """Writes a pain mark into the recording."""

    def take_back_pain(self, level: int) -> None:
        """Writes into the recording that its last pain mark was a slip."""


class Visit:
    """Drives a running order, and keeps what comes of it.

    Args:
        session: runs the sets.
        record: the order, new or found again; see `order_record.left_over`.
        logbook: where notes go; None keeps nothing.
        against: what is to be said before a set starts, or nothing.
        pain: what was told of pain, also outside of the order.
        clock: the time, with its zone.

    Attributes:
        auto: whether the next set begins by itself when it is due.
        paused: whether the practitioner lets nothing start.
        changes: what is changed in the set under way, or in the next one.
        rest_cut: the rest before the set of the order that was begun last, where it
            was cut short.
    """

    def __init__(
        self,
        session: Driven,
        record: OrderRecord,
        *,
        logbook: Logbook | None = None,
        against: Callable[[Prescription], tuple[str, ...]] = lambda _: (),
        pain: PainTold | None = None,
        clock: Callable[[], datetime] = now_utc,
    ) -> None:
        self.auto = record.auto
        self.paused = False
        self.rest_cut: RestCut | None = None
        self._session = session
        self._order = record.order
        self._record = replace(record, asked_now=None)
        self._pain = pain or PainTold()
        self._objections = Objections(self._pain, against)
        self._clock = clock
        self._notes = VisitNotes(session.visit_id, logbook, clock=clock)
        self._changes = SetChanges(session, self._tell, allows=self._allows)
        self.changes = VisitChanges(
            self._changes,
            record.order,
            busy=lambda: self.in_set,
            now_s=lambda: self._now,
            kept=self._keep_order,
        )
        self._asked: Prescription | None = None  # sent, and not answered yet
        self._other_set = False  # under way, and none of the order
        self._set_id = record.begun[-1].set_id if record.begun else ""
        self._words = ""
        self._tells_next = False  # beside the words, which set is next
        self._held = False  # nothing begins by itself until a hand begins it
        self._ending = False
        self._state: SetState | None = None
        self._now_s: float | None = None
        self._last_frame: datetime | None = None
        self._keep_order()

    # How it stands.

    @property
    def order(self) -> RunningOrder:
        """The sets, for looking at."""
        return self._order

    @property
    def in_set(self) -> bool:
        """Whether a set is under way, of the order or not, or was asked for."""
        return self._asked is not None or self._changes.open or self._other_set

    @property
    def asked(self) -> Prescription | None:
        """What the set under way asks for, or the next one would."""
        if self._changes.asked is not None:
            return self._changes.asked
        leg = self._order.leg
        return leg.asked if leg is not None else None

    @property
    def rest_left_s(self) -> float:
        """Rest still to go before the next set."""
        return self._order.rest_left_s(self._now)

    @property
    def get_ready(self) -> bool:
        """Whether the athlete is to be told that the next set is near."""
        return self._order.get_ready(self._now)

    @property
    def begins_itself(self) -> bool:
        """Whether the next set begins without a hand when the rest is over."""
        resting = self._order.doing is Doing.REST
        return self.auto and resting and not (self._held or self.paused)

    @property
    def waits_for_key(self) -> bool:
        """Whether the next rep starts only after `let_rep_start`."""
        state, asked = self._state, self._changes.asked
        return (
            state is not None
            and asked is not None
            and asked.start is StartBy.KEY
            and state.phase is Phase.HELD_BACK
        )

    @property
    def not_kept(self) -> str:
        """What the logbook has not taken yet; empty where all is kept."""
        return self._notes.words

    @property
    def words(self) -> str:
        """What is to be said now, and why nothing begins by itself."""
        if self._order.over:
            return ""
        if self._words and self._tells_next:
            return sentences(self._words, self.next_words)
        return self._words

    @property
    def next_words(self) -> str:
        """Which set comes next, after the one under way; empty where none does."""
        return words_of_next(
            self._order, own_under_way=self.in_set and not self._other_set
        )

    @property
    def band_words(self) -> str:
        """That the next set has another band than is prescribed; else empty."""
        return "" if self.in_set else words_of_band(self._order)

    def _allows(self, band: Band) -> bool:
        """Whether a band of the set under way, or the next one, is as prescribed."""
        leg = self._order.leg
        return leg is None or self._other_set or leg.allows(band)

    @property
    def _now(self) -> float:
        return self._now_s if self._now_s is not None else 0.0

    # Once a frame.

    def follow(self, update: Update, now_s: float) -> bool:
        """Takes in what is new in a frame, and begins the next set when it is due.

        Args:
            now_s: of a clock that never goes back.

        Returns:
            Whether anything about the visit is new; times and words apart.
        """
        self._mind_the_gap(now_s)
        self._now_s, self._state = now_s, update.state
        news = [self._hear(event) for event in update.events]
        if self.begins_itself and self._order.due(now_s) and not self.in_set:
            news.append(self._begin())
        self._notes.flush(now_s)
        return any(news)

    def close(self) -> str:
        """Last try to bring all notes to the logbook; what is not kept, in words."""
        self._notes.flush(self._now, last=True)
        return self._notes.words

    def _mind_the_gap(self, now_s: float) -> None:
        """Some clocks stand still while a computer sleeps, and some do not."""
        now, last = self._clock(), self._last_frame
        gap_s = now_s - self._now_s if self._now_s is not None else 0.0
        if last is not None:
            gap_s = max(gap_s, (now - last).total_seconds())
        self._last_frame = now
        if gap_s >= ASLEEP_S and self._order.leg is not None:
            self._hold(
                phrase("The program stood still for a while. Begin when all is ready.")
            )

    def _hear(self, event: SessionEvent) -> bool:
        if isinstance(event, SetBegun):
            self._begun(event.prescription)
        elif isinstance(event, SetEnded):
            self._ended(event.reason)
        elif isinstance(event, Refused) and event.command == WORDS[BeginSet]:
            if self._asked is None:
                return False
            self._asked = None
            self._hold(phrase("Not begun: {message}", message=event.message))
        else:
            return self._changes.hear(event, self._now) and self._changed()
        return True

    def _begun(self, prescription: Prescription) -> None:
        self._set_id = self._session.set_id
        self.changes.forget()
        own = self._asked is not None and prescription == self._asked
        self._asked, self._other_set = None, not own
        if own or prescription.task.kind is not TaskKind.MAXIMAL:
            self._pain.forget()
            self._changes.begin(prescription)  # a maximal test keeps its own books
        leg = self._order.leg
        if own and leg is not None:
            self.rest_cut = self._order.rest_cut(self._now)
            if self.rest_cut is not None:
                self._tell(CHANGE, rest_note(self.rest_cut, time_s=None))
            self._order.begin()
            begun = Begun(self._set_id, leg.key, leg.warm_up, leg.number)
            self._record = replace(self._record, begun=(*self._record.begun, begun))
            self._keep_order()

    def _ended(self, reason: str) -> None:
        carried = self._changes.carried
        self._changes.end()
        if not self._other_set and carried is not None:
            self._order.set_ended(self._now, carried, complete=reason == COMPLETE)
            if reason == CUT_SHORT:
                self._order.skip()
        self._other_set = False
        if self._ending:
            self._ending = False
            self._order.end()
        self._keep_order()

    def _changed(self) -> bool:
        """What was changed in a set is not lost with the program."""
        if not self._other_set:
            self._keep_order()
        return True

    # Sets.

    def begin_next(self) -> bool:
        """Begins the set that is next, also before its rest is over.

        Returns:
            Whether it was asked for; if not, `words` say what speaks against it, and
            a second start goes on, a second later at the earliest.

        Raises:
            UserError: no set is to begin now.
        """
        self._between_sets()
        if self._order.leg is None:
            raise UserError(
                phrase("All sets of this visit are over."),
                phrase("Repeat one, or plan."),
            )
        if self._order.doing is Doing.STOPPED:
            raise UserError(
                phrase("The last set was stopped."), phrase("Repeat it, or skip it.")
            )
        return self._begin()

    def _begin(self) -> bool:
        leg = self._order.leg
        if leg is None:
            return False
        to_say, passed_over = self._objections.to_say(leg.asked, now_s=self._now)
        if to_say:
            self._hold(sentences(*to_say, phrase("A second start goes on.")))
            return False
        context: dict[str, object] = {}
        if passed_over:
            context[WENT_ON] = list(passed_over)
        context |= self._record.context(leg)
        self._session.begin_set(leg.asked, context)
        self._asked = leg.asked
        self._held = self.paused = False
        self._objections.forget_said()
        self._words = ""
        return True

    def skip(self) -> None:
        """Leaves out the set that is next, or was stopped.

        Raises:
            UserError: a set is under way.
        """
        self._between_sets()
        self._order.skip()
        self._stepped()

    def repeat(self) -> None:
        """Puts in the last set once more.

        Raises:
            UserError: a set is under way.
        """
        self._between_sets()
        self._order.repeat()
        self._stepped()

    def go_to(self, place: int) -> None:
        """Goes on with a later set, or one that was left out.

        Raises:
            UserError: a set is under way.
        """
        self._between_sets()
        self._order.go_to(place)
        self._stepped()

    def cut_short(self) -> None:
        """Ends the set under way, leaves it at that, and the order goes on.

        Raises:
            UserError: no set is under way.
        """
        self._in_a_set()
        self._session.end_set(CUT_SHORT)

    def stop(self, reason: str = "stop") -> None:
        """Ends the set under way at once; it waits to be repeated or skipped."""
        self._session.end_set(reason)

    def stop_for_pain(self, level: int) -> str:
        """Notes the pain and ends the set; the words are those of `mark_pain`."""
        words = self.mark_pain(level)
        self._session.end_set("pain")
        return words

    def end(self) -> None:
        """Ends the visit, and the set under way with it."""
        if self._changes.open or self._other_set:
            self._ending = True
            self._session.end_set("visit ended")
            return
        self._order.end()
        self._stepped()

    def _stepped(self) -> None:
        self._words = self._words if self._held else ""
        self._objections.forget_said()
        self.changes.forget()
        self._keep_order()

    def _between_sets(self) -> None:
        if self.in_set:
            raise UserError(
                phrase("A set is under way."), phrase("Stop it, or cut it short.")
            )

    def _in_a_set(self) -> None:
        if not self._changes.open:
            raise UserError(phrase("No set is under way."))

    # Reps.

    def pause(self) -> None:
        """No rep and no set starts from now on."""
        self.paused = True
        if self._changes.open:
            self._session.move_gate(opened=False, reason="paused")

    def resume(self) -> None:
        """Goes on after a pause; where reps start by key, with the next key."""
        self.paused = False
        asked = self._changes.asked
        if asked is not None and asked.start is StartBy.FORCE:
            self._session.move_gate(opened=True, reason="resumed")

    def let_rep_start(self) -> None:
        """The key that lets the next rep start.

        Raises:
            UserError: no set is under way.
        """
        self._in_a_set()
        self.paused = False
        self._session.move_gate(opened=True, reason="key")

    def skip_rep(self) -> None:
        """Leaves out the rep that is next; of the only one the set is cut short.

        Raises:
            UserError: no set is under way, or no rep is left to leave out.
        """
        if not self.changes.skip_rep(self._state):
            self.cut_short()

    # What is told.

    def mark_pain(self, level: int) -> str:
        """Pain from 0 to 10: before, during or after a set.

        Above the agreed cut nothing begins by itself any more, no set and no rep, and
        it speaks against the next start.

        Returns:
            The advice; empty where there is none. `words` tell what is next, too.

        Raises:
            FieldError: it is not from 0 to 10.
        """
        _check_level("pain", level)
        in_set = self._changes.open or self._other_set
        when = "during" if in_set else "after" if self._set_id else "before"
        if in_set:
            self._session.mark_pain(level)
        self._tell(PAIN, {"level": level, "when": when})
        self._pain.tell(level)
        advice = self._pain.above_cut(level)
        if advice:
            if in_set:
                self.pause()  # no next rep by itself either
            self._hold(advice, tells_next=True)
        return advice

    def take_back_pain(self, level: int, *, in_recording: bool) -> None:
        """The last mark of pain of the visit was a slip.

        Where nothing above the agreed cut stands any more, nothing is advised any
        more. What was held waits for a key all the same.

        Args:
            level: of the mark.
            in_recording: whether the mark stands in the recording under way.
        """
        if in_recording:
            self._session.take_back_pain(level)
        self._tell(PAIN_BACK, {"level": level})
        advised = self._pain.above_cut(level)
        self._pain.take_back(level)
        if advised and self._words == advised and not self._pain.against():
            self._hold(phrase("The mark of pain is taken back."), tells_next=True)

    def mark_effort(self, level: int) -> None:
        """How hard the last set was, from 0 to 10.

        Raises:
            FieldError: it is not from 0 to 10.
            UserError: no set is over yet.
        """
        _check_level("effort", level)
        if self.in_set or not self._set_id:
            raise UserError(phrase("Effort is told after a set."))
        self._tell(EFFORT, {"level": level})

    # How it is kept.

    def _hold(self, words: str, *, tells_next: bool = False) -> None:
        self._held, self._words, self._tells_next = True, words, tells_next

    def _tell(self, kind: str, content: Mapping[str, object]) -> None:
        self._notes.tell(kind, content, set_id=self._set_id)

    def _keep_order(self) -> None:
        own = self._changes.asked if not self._other_set else None
        self._record = replace(self._record, asked_now=own, auto=self.auto)
        self._tell(ORDER, self._record.to_json())


def _check_level(field: str, level: int) -> None:
    if not 0 <= level <= PAIN_MOST:
        raise FieldError(
            field,
            phrase(
                "is {level}; it must be 0 to {pain_most}.",
                level=level,
                pain_most=PAIN_MOST,
            ),
        )
