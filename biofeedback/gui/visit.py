"""The visit: what the desk wants, asked of the session for whoever is here.

* What speaks against a start is said once; a second start with the same prescription
  goes on once the words were seen (see `session.second_start`), and the recording says
  that it did. Any change asks again.
* Whoever follows a plan finds its set at the desk, and not the last one that was done;
  what goes beyond the plan is said before the start, as all that speaks against it.
* What cannot be done is said at the desk, and nothing typed is lost by it.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.language import said, shown
from biofeedback.gui.new_reference import NewReference
from biofeedback.gui.offer_words import offer_words
from biofeedback.gui.task_titles import task_titles
from biofeedback.gui.words import rest_words
from biofeedback.phrase import marked, sentences
from biofeedback.session import CHANGE, EFFORT, NOTE, PAIN, PAIN_BACK
from biofeedback.session.desk_set import DeskSet
from biofeedback.session.pain_told import WENT_ON
from biofeedback.session.second_start import SecondStart
from biofeedback.session.set_changes import rest_note
from biofeedback.training.events import RepStarted
from biofeedback.training.maximal import StepKind
from biofeedback.training.task import same_work

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from biofeedback.gui.day_order import DayOrder
    from biofeedback.gui.desk import Desk
    from biofeedback.gui.live_session import LiveSession
    from biofeedback.session import SessionEvent
    from biofeedback.session.office import Office
    from biofeedback.session.plan_at_desk import Offer
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.task import Task

_HELD = {
    None: marked("No next rep starts; {key} lets it start."),
    StepKind.PRACTICE: marked("No next practice ramp starts; {key} lets it start."),
    StepKind.TRIAL: marked("No next trial starts; {key} lets it start."),
}
_MAY_START = {
    None: marked("The next rep may start."),
    StepKind.PRACTICE: marked("The next practice ramp may start."),
    StepKind.TRIAL: marked("The next trial may start."),
}
_BEGAN_EARLY = {
    None: marked("Rep {number} began after {taken} of {asked} s of rest."),
    StepKind.PRACTICE: marked("The ramp began after {taken} of {asked} s of rest."),
    StepKind.TRIAL: marked("The trial began after {taken} of {asked} s of rest."),
}


class Visit(QObject):
    """Stands between desk and session.

    Attributes:
        no_force: why no force comes from the rig now; empty where one does.
        effort: which effort of the maximal test under way is next; None in any other
            set.
        reference: takes a new 100 %.

    Signals:
        planned: a `Prescription` that the next set would ask for.
        begun: a set was asked for; the live page must be seen.
        pain_above: pain above the agreed cut was told in a set.
        pain_back: it was a slip, and nothing above the cut stands any more.
        noted: what was told of pain or effort, and what is advised, in words; they
            stand at the desk too.
        athlete_changed: somebody else is here.
    """

    planned = Signal(object)
    begun = Signal()
    pain_above = Signal()
    pain_back = Signal()
    noted = Signal(str)
    athlete_changed = Signal()

    def __init__(
        self,
        session: LiveSession,
        office: Office,
        desk: Desk,
        asked: Prescription,
        order: DayOrder | None = None,
        *,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        super().__init__(desk)
        self._session = session
        self._office = office
        self._desk = desk
        self._asked = asked
        self._clock = clock
        self._second = SecondStart()
        self._set = DeskSet(session, self._tell)
        self.no_force: Callable[[], str] = str
        self.effort: Callable[[], StepKind | None] = lambda: None
        self._offered: Prescription | None = None  # by the plan, pain not asked yet
        self._single_cell: bool | None = None  # not known before a board was met
        self._sets = 0
        self._order = order
        self.reference = NewReference(self, office, desk, order, self._set)
        self._marks: list[tuple[int, str, int]] = []  # level, when, and of which set
        self._takes_pain: list[Callable[[int], bool]] = []
        self._keeps: list[Callable[[], str]] = []
        desk.form.task_named = self._task_named
        desk.form.task.titles = self._task_titles
        desk.start_wanted.connect(self.start)
        desk.stop_wanted.connect(lambda: self.ask(session.end_set))
        desk.planned.connect(self.plan)
        desk.band_wanted.connect(self.change_band)
        desk.zero_wanted.connect(self.take_zero)
        desk.pain_marked.connect(self.mark_pain)
        desk.pain_back_wanted.connect(self.take_back_pain)
        desk.effort_marked.connect(self.mark_effort)
        desk.note_written.connect(self.write_note)

    @property
    def code(self) -> str:
        """Who is here."""
        return self._session.athlete_code

    @property
    def asked(self) -> Prescription:
        """What the set under way asks for, or the next one would."""
        return self._asked

    @property
    def single_cell(self) -> bool:
        """Whether the rig is known to have one cell."""
        return bool(self._single_cell)

    @property
    def ordered(self) -> bool:
        """Whether a running order says what comes next."""
        return self._order is not None and self._order.on

    @property
    def asks_again(self) -> bool:
        """Whether something was said against a start, and a second one goes on."""
        return self._second.asked

    def ask(self, what: Callable[[], object]) -> bool:
        """Asks for something; what cannot be done is said at the desk."""
        try:
            what()
        except BiofeedbackError as error:
            self._desk.say(str(error))
            return False
        return True

    # What is asked of the athlete.

    def _task_named(self, name: str) -> Task | None:
        """The task that a name typed at the desk is of; None where none is known."""
        found: list[Task | None] = []
        self.ask(lambda: found.append(self._office.task_named(self.code, name)))
        return found[0] if found else None

    def _task_titles(self) -> list[str]:
        """Tasks to choose from at the desk."""
        found: list[Task] = []
        self.ask(lambda: found.extend(self._office.listed_tasks()))
        return task_titles(task.name for task in found)

    def plan(self, asked: Prescription) -> None:
        """Another prescription stands at the desk."""
        self._second.forget()
        before, self._asked = self._asked, asked
        self.planned.emit(asked)
        self._say_outside()
        if asked.reference is None and not same_work(asked.task, before.task):
            self.reference.offer(asked.task)

    def _say_outside(self) -> None:
        """A nudge beyond what is prescribed is allowed, and said."""
        words = "" if self.ordered else self._set.words_outside(self._asked)
        if words:
            self._desk.say(words)

    def prescribe(
        self,
        asked: Prescription,
        context: Mapping[str, object],
        chosen: SetOfDay | None = None,
    ) -> None:
        """Puts a set of today at the desk.

        Args:
            context: what the head of its recording says of the plan.
            chosen: the set of the day that it is.
        """
        if self._desk.in_set:
            self._desk.say(self.tr("A set is under way: the desk stays as it is."))
            return
        self._offered = None
        self._set.put(asked, context, chosen)
        self._desk.form.fill(asked)

    def meet_rig(self, *, single_cell: bool) -> None:
        """The cells are known; the plan's set can be made for them."""
        first, self._single_cell = self._single_cell is None, single_cell
        # Whoever was asked about a start decides on what stands at the desk.
        if first and not self.asks_again:
            self.offer_plan()

    def await_band(self, asked: Prescription) -> None:
        """Another task stands at the desk, and nobody has prescribed its band.

        Args:
            asked: with the band that stood there before.
        """
        self._second.forget()
        self._offered = None
        self._set.put(None, {})
        self._set.decided = asked.reference
        self._asked = asked

    def offer_plan(self, *, though_waiting: bool = True) -> bool:
        """Puts the set of a followed plan at the desk, but not beside an order.

        Args:
            though_waiting: a plain one, where the plan's has to wait; else none.

        Returns:
            Whether a set of the plan stands there now.
        """
        self._offered = None
        if self._desk.in_set or self.ordered:
            return False
        offers: list[Offer | None] = []
        single = self.single_cell
        if not self.ask(
            lambda: offers.append(self._office.offer(self.code, single_cell=single))
        ):
            return False
        offer = offers[0]
        if offer is not None and (offer.chosen is not None or though_waiting):
            chosen = offer.chosen
            put, context = (offer.asked, chosen.context) if chosen else (None, {})
            self._set.put(put, context, chosen, decided=False)
            self._desk.form.fill(offer.asked)
            self._offered = None if offer.pain_asked or not chosen else self._asked
            self._desk.say(offer_words(offer))
        return offer is not None and offer.chosen is not None

    def renew_offer(self) -> None:
        """Pain may have been answered since the plan's set was put at the desk.

        What was changed there since stays as it is.
        """
        if self._offered is None or self._offered != self._asked:
            return
        offers: list[Offer | None] = []
        single = self.single_cell
        self.ask(
            lambda: offers.append(self._office.offer(self.code, single_cell=single))
        )
        if offers and offers[0] is not None and offers[0].pain_asked:
            self.offer_plan()

    def start(self, asked: Prescription) -> None:
        """Begins a set, or says first what speaks against it; in one, reps go on."""
        if self._let_reps_start():
            return
        self.begun.emit()
        if why := self.no_force():  # nothing else is asked, for no answer starts
            self._desk.say(why)
            return
        self._office.pain.ask_start()
        if self._order is not None and self._order.start():
            return
        pressed_s = self._clock() / 1e9
        said: list[tuple[str, ...]] = []
        if not self.ask(lambda: said.append(self._against(asked))):
            return
        pain = self._office.pain
        against = (*pain.against(), *said[0])
        of = (self.code, asked, pain.count)
        if not self._second.goes_on(of, against, pressed_s=pressed_s):
            again = self.tr("{key} again starts.").format(key=self._desk.start_key)
            self._desk.object(sentences(*against, again), end=again)
            self._second.say(of, against, now_s=self._clock() / 1e9)
            return
        context: dict[str, object] = {WENT_ON: list(against)} if against else {}
        context |= self._set.context_of(asked)
        self.ask(lambda: self._begin(asked, context))

    def _against(self, asked: Prescription) -> tuple[str, ...]:
        """What day, reference and plan say against a set at the desk."""
        office = self._office
        return (
            *office.against_start(self.code, asked),
            *office.against_plan(
                self.code,
                asked,
                single_cell=self.single_cell,
                decided=self._set.decided,
            ),
        )

    def _begin(self, asked: Prescription, context: Mapping[str, object]) -> None:
        chosen = self._set.take_decision(asked)
        if chosen is not None:
            single = self.single_cell
            # Whatever the logbook says, the set begins.
            self.ask(
                lambda: self._office.keep_offered(self.code, chosen, single_cell=single)
            )
        asked = self._office.with_fading(self.code, asked)
        self._asked = asked
        self._session.begin_set(asked, context)

    def change_band(self, band: Band) -> None:
        """A nudge of the set under way."""
        if self._order is not None and self._order.change_band(band):
            return
        try:
            self._asked = self._asked.with_band(band)
        except FieldError as error:
            in_force = self._asked.band
            self._desk.form.band.reject(error.problem, in_force=in_force)
            return
        self.ask(lambda: self._session.change_band(band, "nudge at the desk"))
        self._say_outside()

    def hear(self, event: SessionEvent) -> None:
        """What was changed in a set that is of no order is kept."""
        self._set.hear(event)

    def hear_rep(self, event: SessionEvent) -> None:
        """A rep that began before the rest was over: that is said, and kept."""
        if not isinstance(event, RepStarted) or event.cut is None:
            return
        words = self._by_effort(_BEGAN_EARLY)
        self._desk.say(rest_words(words, event.cut, number=event.number))
        self._tell(CHANGE, rest_note(event.cut, time_s=event.time_s))

    def _tell(self, kind: str, content: Mapping[str, object]) -> bool:
        return self.ask(lambda: self._session.tell(kind, content))

    def _let_reps_start(self) -> bool:
        """The start key, in a set whose reps are held back."""
        if not self._set.let_reps_start():
            return False
        self._desk.hold_reps(held=False)
        self._desk.say(self._by_effort(_MAY_START))
        return True

    def _by_effort(self, words: Mapping[StepKind | None, str]) -> str:
        """Words of the next rep, which a maximal test calls by another name."""
        effort = self.effort()
        return said(words[StepKind.TRIAL if effort is StepKind.ENOUGH else effort])

    def take_zero(self, kind: ZeroKind) -> None:
        """Zero over the next second."""
        words = self.tr("Taking zero for one second: nothing should pull.")
        if kind is ZeroKind.LIMB_RESTING:
            words = self.tr(
                "Taking zero for one second: the limb rests in place and stays still."
            )
        self._desk.say(words)
        self.ask(lambda: self._session.take_zero(kind))

    # What is told.

    def mark_pain(self, level: int) -> None:
        """Pain before, in or after a set; what is told in a set is recorded too."""
        in_set = self._desk.in_set
        when = "during" if in_set else "after" if self._sets else "before"

        pain = self._office.pain
        if any(takes(level) for takes in self._takes_pain):
            # The last mark is the test's, which corrects its own; none before it is.
            self._desk.pain.back.setEnabled(False)
            return
        advised: list[str] = []

        def keep() -> None:
            words = self._order.mark_pain(level) if self._order else None
            if words is not None:
                advised.append(words)
                return
            pain.tell(level)  # before what the logbook may refuse
            if in_set:
                self._session.mark_pain(level)
            self._session.tell(PAIN, {"level": level, "when": when})

        if not self.ask(keep):
            self.noted.emit(self._desk.messages.all[0])  # why it is not
            return
        self._desk.pain.show_level(level)
        self._marks.append((level, when, self._sets))
        self._desk.pain.back.setEnabled(True)
        if in_set and level > pain.rule.high:
            self.pain_above.emit()
        noted = self.tr("Pain {level} of 10 is noted.").format(level=level)
        cut = pain.rule.high
        if level <= cut or (advised and advised[0]):
            self._desk.say(noted)  # what an order advises stands in its box
            self.noted.emit(shown(sentences(noted, *advised)))
            return
        above = self.tr("That is above {cut} of 10.").format(cut=cut)
        advice = self.tr("Stopping is advised; you decide.")
        words = sentences(noted, above, advice)
        self._desk.advise(words, end=advice, lasting=True)
        self.noted.emit(shown(words))
        if not advised and self._desk.in_set:
            self._hold_reps()

    def take_back_pain(self) -> None:
        """The last mark of pain of this visit was a slip: that is kept beside it."""
        if not self._marks:
            return
        level, when, of_set = self._marks[-1]
        told = when == "during" and self._desk.in_set and of_set == self._sets

        def back() -> None:
            order = self._order
            if order is not None and order.take_back_pain(level, in_recording=told):
                return
            self._session.tell(PAIN_BACK, {"level": level})
            if told:
                self._session.take_back_pain(level)
            self._office.pain.take_back(level)

        if not self.ask(back):
            return
        self._marks.pop()
        self._desk.pain.back.setEnabled(bool(self._marks))
        self._desk.pain.show_level(None)
        if not self._office.pain.against():
            self._desk.messages.act()  # what was advised is not so
            self.pain_back.emit()
        words = self.tr("Pain {level} of 10 is taken back; it counts nowhere.")
        self._desk.say(words.format(level=level))
        self.noted.emit(words.format(level=level))

    def _hold_reps(self) -> None:
        """Above the cut no next rep starts by itself, with or without an order."""
        self.ask(self._set.hold_reps)
        self._desk.hold_reps(held=True)
        # Apart from the advice, which stays in sight when the set is over.
        self._desk.say(self._by_effort(_HELD).format(key=self._desk.start_key))

    def hold_efforts(self) -> None:
        """Pain above the cut was told in a maximal test, which is held like a set."""
        self.pain_above.emit()
        self._hold_reps()

    def mark_effort(self, level: int) -> None:
        """How hard the set was that is over."""
        if self._desk.in_set or not self._sets:
            self._desk.say(self.tr("Not noted: effort is told after a set."))
        elif self.ask(lambda: self._session.tell(EFFORT, {"level": level})):
            self._desk.effort.show_level(level)
            noted = self.tr("Effort {level} of 10 is noted, of the last set.")
            self._desk.say(noted.format(level=level))
            self.noted.emit(noted.format(level=level))

    def write_note(self, text: str) -> None:
        """A note; in a set it is recorded too."""

        def keep() -> None:
            if self._desk.in_set:
                self._session.note(text)
            self._session.tell(NOTE, {"text": text})

        if self.ask(keep):
            self._desk.note_kept()

    def hands_pain(self, takes: Callable[[int], bool]) -> None:
        """Something that may take a pain mark for itself."""
        self._takes_pain.append(takes)

    # Who is here, and what came of it.

    def keeps_athlete(self, why: Callable[[], str]) -> None:
        """Something that may keep the athlete; `why` gives words, or nothing."""
        self._keeps.append(why)

    def follow_code(self, before: str, after: str) -> None:
        """An athlete has another code now; what was told under the old one stays."""
        if before == self.code:
            self.change_athlete(after, must=True)

    def change_athlete(self, code: str, *, must: bool = False) -> None:
        """Somebody else is here; the desk starts with the plan's set, or the last one.

        Args:
            must: whatever is not saved, for it is the same athlete.
        """

        def change() -> None:
            before, asked = self.code, self._office.last_prescription(code)
            if self._order is not None:
                self._order.let_go()
            self._session.change_athlete(code)
            if not must:
                self._office.pain.forget()
            self._second.forget()
            self._sets = 0
            self._marks.clear()
            self._desk.pain.back.setEnabled(False)
            self.reference.forget()
            self._set.put(None, {})
            if must:
                self._desk.messages.act()
            else:  # what was said and advised is not of this athlete
                self._desk.messages.change_athlete(before)
            self._desk.effort.hide()
            self._desk.pain.show_level(None)
            self._desk.lowering.show_line(None)
            self._desk.show_athlete(code, self._session.athlete_name)
            self._desk.form.fill(asked)

        left = self._order.not_kept if self._order is not None else ""
        if must:
            self.ask(change)
            self.athlete_changed.emit()
            self.offer_plan()
            return
        why = left or next((words for keeps in self._keeps if (words := keeps())), "")
        if code == self.code:
            return
        if why:
            self._desk.say(why)
        elif self.ask(change):
            self._desk.say(self.tr("{code} is here now.").format(code=code))
            self.athlete_changed.emit()
            self.offer_plan()

    def show_set(self, *, under_way: bool, test: bool = False) -> None:
        """A set has begun or ended.

        Args:
            test: whether it is a maximal test, whose effort is not asked for.
        """
        self._desk.show_set(under_way=under_way)
        self._desk.hold_reps(held=False)
        order = self._order.control.visit if self._order is not None else None
        if under_way and not test and order is None:
            self._set.begin(self._asked)
        else:
            self._set.end()
        self._sets += under_way
        if under_way and not test:
            self._office.pain.begin()
            if self._office.pain.against() and order is None:
                self._hold_reps()  # told between the key and the first sample
        if under_way:
            self._desk.lowering.show_line(None)
            for row in (self._desk.pain, self._desk.effort):
                row.show_level(None)  # what was told before is not of this set
        self._desk.effort.setVisible(not under_way and not test)
