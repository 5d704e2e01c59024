"""The order of the day at work in the window: taken up, shown, driven and let go.

* While an order is on, the start key begins its next set, the fields show that set, and
  only its band changes there; all else is changed in the order box.
* An order that was not worked through is found again when its athlete is here; it then
  waits for a hand.
* Whoever leaves takes nothing along: the order stays with its athlete.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol, runtime_checkable

from PySide6.QtCore import QObject, Signal

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.language import shown
from biofeedback.gui.order_box import Act
from biofeedback.gui.order_control import OrderControl
from biofeedback.phrase import sentences
from biofeedback.session import SetBegun
from biofeedback.session.local_time import here
from biofeedback.session.order_of_day import order_of_day
from biofeedback.session.order_record import left_over
from biofeedback.session.visit import Driven
from biofeedback.session.visit import Visit as OrderVisit
from biofeedback.training.breathing import wants_breathing_cue
from biofeedback.training.reference import Origin
from biofeedback.training.running_order import Doing, Stand
from biofeedback.training.task import Sides, TaskKind, is_pair, same_work

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from datetime import datetime

    from biofeedback.gui.athlete_screen import AthleteScreen
    from biofeedback.gui.desk import Desk
    from biofeedback.session import Update
    from biofeedback.session.office import Office
    from biofeedback.session.order_record import OrderRecord
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.session.today import DayView
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task


@runtime_checkable
class VisitSession(Driven, Protocol):
    """What an order needs of a session."""

    @property
    def athlete_code(self) -> str:
        """Who is here."""

    def take_up_visit(self, session_id: str) -> None:
        """Goes on with a visit that was cut off."""


class DayOrder(QObject):
    """Stands between the order box, the desk and the athlete's screen.

    Args:
        session: runs the sets; one that cannot drive an order gets none.
        auto: whether a next set may begin by itself.

    Signals:
        begun: a set was asked for; the live page must be seen.
        said: why an order was not taken up.
    """

    begun = Signal()
    said = Signal(str)

    def __init__(
        self,
        session: object,
        office: Office,
        desk: Desk,
        screen_part: AthleteScreen,
        *,
        auto: Callable[[], bool] = lambda: True,
        clock: Callable[[], datetime] = here,
    ) -> None:
        super().__init__(desk)
        self._session = session
        self._office = office
        self._desk = desk
        self._screen_part = screen_part
        self._auto = auto
        self._clock = clock
        self._shown: Prescription | None = None
        self.control = OrderControl(self)
        self.box = self.control.box
        desk.hold_order(self.box)
        self.control.said.connect(desk.say)
        self.control.begun.connect(self.begun)
        self.control.objected.connect(self._object)
        self.control.over.connect(self._over)

    @property
    def on(self) -> bool:
        """Whether there is an order with something still to do."""
        visit = self.control.visit
        return visit is not None and not visit.order.over

    # Taken up and let go.

    def take_day(
        self, view: DayView, sets: Sequence[SetOfDay], *, warm_up: bool, against: bool
    ) -> None:
        """All sets of the day, one after the other."""
        today, code = self._office.today, view.athlete_code
        if today is None or self._desk.in_set:
            return

        def take() -> None:
            record = order_of_day(
                today,
                view,
                sets,
                warm_up=warm_up,
                against_advice=against,
                ready=lambda asked: self._office.with_fading(code, asked),
                auto=self._auto(),
            )
            self._office.recall_pain(code, self._clock(), whole_day=True)
            self._take_up(record)
            self._desk.say(
                self.tr("The day is at the desk: {key} begins.").format(
                    key=self._desk.start_key
                )
            )
            self.begun.emit()

        self._try(take, self.said.emit)

    def find_left_over(self) -> str:
        """An order of today that was not worked through goes on where it was.

        Returns:
            What was said of it; empty where there is none.
        """
        logbook, session = self._office.logbook, self._session
        said: list[str] = []
        if logbook is None or not isinstance(session, VisitSession):
            return ""

        def find() -> None:
            self._office.recall_pain(session.athlete_code, self._clock())
            found = left_over(logbook, session.athlete_code, self._clock())
            if found is None:
                return
            session.take_up_visit(found.session_id)
            visit = self._take_up(found)
            visit.pause()
            words = self.tr(
                "Today's order is taken up again; sets still to come: {count}. "
                "Next set begins it, End visit leaves it."
            )
            if found.order.doing is Doing.STOPPED:
                words = self.tr(
                    "Today's order is taken up again; sets still to come: {count}. "
                    "The last one was not done to its end: Repeat or Skip it."
                )
            said.append(words.format(count=found.order.to_come))
            self._desk.advise(said[0])

        self._try(find, self._desk.say)
        return " ".join(said)

    def _take_up(self, record: OrderRecord) -> OrderVisit:
        session, office = self._session, self._office
        if not isinstance(session, VisitSession):
            message = "an order was taken up by a session that cannot drive one"
            raise TypeError(message)
        code = session.athlete_code
        visit = OrderVisit(
            session,
            record,
            logbook=office.logbook,
            against=lambda asked: office.against_start(code, asked),
            pain=office.pain,
        )
        self.control.take_up(visit)
        self._show_next()
        return visit

    def let_go(self) -> str:
        """The athlete leaves or the program ends; what is not kept, in words."""
        visit = self.control.visit
        words = visit.close() if visit is not None else ""
        self.control.take_up(None)
        self._show_next()
        return words

    @property
    def not_kept(self) -> str:
        """What of the order could not be kept yet, in words; else empty."""
        visit = self.control.visit
        return visit.not_kept if visit is not None else ""

    # At work.

    def start(self) -> bool:
        """The start key; False where no order takes it."""
        if not self.on:
            return False
        self.control.act(Act.NEXT_SET)
        return True

    def let_rep_start(self) -> bool:
        """The start key in a set whose next rep waits for a key; else False."""
        visit = self.control.visit
        if visit is None or not visit.waits_for_key:
            return False
        self.control.act(Act.NEXT_REP)
        return True

    def change_band(self, band: Band) -> bool:
        """Another band of the set under way or the next; False without an order."""
        visit = self.control.visit
        if visit is None or not self.on:
            return False
        try:
            visit.changes.change_band(band)
            outside = visit.changes.outside_words()
        except FieldError as error:
            asked = visit.asked
            if asked is not None:
                form = self._desk.form.band
                form.reject(shown(error.problem), in_force=asked.band)
        except BiofeedbackError as error:
            self._desk.say(shown(str(error)))
        else:
            if outside:
                self._desk.say(shown(outside))
        return True

    def reference_of(self, task: Task) -> Reference | None:
        """The 100 % of the next set in percent of a task; None without one."""
        visit = self.control.visit
        legs = visit.order.legs if visit is not None and self.on else ()
        found = (
            leg.asked.reference
            for leg in legs
            if leg.in_percent
            and leg.stand is Stand.TO_COME
            and same_work(leg.asked.task, task)
        )
        return next(found, None)

    def lowerings_of(self, task: Task) -> tuple[tuple[Task, Reference], ...]:
        """Lowerings to come whose 100 % is of this task, with that 100 %."""
        visit = self.control.visit
        legs = visit.order.legs if visit is not None and self.on else ()
        found: dict[str, tuple[Task, Reference]] = {}
        for leg in legs:
            lowering, reference = leg.asked.task, leg.asked.reference
            if (
                is_pair(task, lowering)
                and leg.in_percent
                and leg.stand is Stand.TO_COME
                and reference is not None
                and reference.origin is Origin.OTHER_TASK
            ):
                found.setdefault(lowering.name, (lowering, reference))
        return tuple(found.values())

    def take_reference(self, reference: Reference, task: Task) -> bool:
        """A new 100 % for the sets to come; False where they go by it not.

        That is so without an order, and where a set refuses it, which is said.
        """
        visit = self.control.visit
        if visit is None or not self.on:
            return False
        return self._try(
            lambda: visit.changes.change_reference(reference, task),
            self._desk.say,
        )

    def mark_pain(self, level: int) -> str | None:
        """Notes pain; the advice, or None where no order takes it."""
        visit = self.control.visit
        return visit.mark_pain(level) if visit is not None and self.on else None

    def take_back_pain(self, level: int, *, in_recording: bool) -> bool:
        """Takes the last mark of pain back; False where no order takes it."""
        visit = self.control.visit
        if visit is None or not self.on:
            return False
        visit.take_back_pain(level, in_recording=in_recording)
        return True

    def follow(self, update: Update, *, now_s: float, live: bool) -> None:
        """What is new in this frame."""
        if self.control.visit is not None:
            self.control.follow(update, now_s)
            self._show_next()
        screen_part = self._screen_part
        asked = screen_part.asked
        begins = any(isinstance(event, SetBegun) for event in update.events)
        if begins or not self._desk.in_set:  # in a set nothing moves
            test = asked.task.kind is TaskKind.MAXIMAL
            breathes = wants_breathing_cue(asked)
            names_side = test or asked.task.sides is not Sides.BOTH
            screen_part.want_line(
                wanted=self.on or names_side or breathes,
                narrow=names_side and not breathes and (begins or not self.on),
            )
        screen_part.between_sets_s = self._between_sets_s
        self.control.tell_athlete(
            screen_part.breath,
            update.state,
            asked,
            live=live,
            start_key=self._desk.start_key,
        )

    @property
    def _between_sets_s(self) -> float | None:
        """Rest that is left between two sets; None where no set was begun."""
        visit = self.control.visit
        if visit is None or not self.on or visit.in_set:
            return None
        begun = any(leg.stand is not Stand.TO_COME for leg in visit.order.legs)
        return visit.rest_left_s if begun else None

    def _show_next(self) -> None:
        """Between sets the fields show what comes next."""
        visit = self.control.visit
        self._desk.show_order(on=self.on)
        asked = visit.asked if visit is not None and self.on else None
        if visit is not None and asked is not None and not visit.in_set:
            if asked != self._shown:
                self._shown = asked
                self._desk.form.fill(asked)
        else:
            self._shown = None

    def _object(self) -> None:
        """What was said before, such as that a key begins, does not hold any more."""
        words = self.tr("Not started: see above. {key} again starts.")
        self._desk.messages.turn_over(words.format(key=self._desk.start_key))

    def _over(self) -> None:
        """What the box advised is advised at the desk from now on."""
        against = self._office.pain.against()
        if against:
            self._desk.advise(sentences(*against), lasting=True)
        self._desk.say(self.tr("The order is over. Visit shows what was done."))

    def _try(self, what: Callable[[], object], say: Callable[[str], object]) -> bool:
        """Whether it went well; what is in its way is said."""
        try:
            what()
        except BiofeedbackError as error:
            say(str(error))
            return False
        return True
