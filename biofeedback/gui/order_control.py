"""What stands between the order box and the visit: the visit itself, frame by frame.

It passes on what is wanted and tells what came of it. Faults that people can put right
are told in words.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.language import error_words, shown
from biofeedback.gui.order_box import Act, OrderBox
from biofeedback.gui.words import rest_words
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.events import Phase
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.breathing_line import BreathingLine
    from biofeedback.session import Update
    from biofeedback.session.visit import Visit
    from biofeedback.training.changes import Reason
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

ASK_AGAIN_S = 6.0
"""Within this time a second press ends a visit that has sets to come; not at once, for
a double click is no second press."""


class OrderControl(QObject):
    """Holds the visit that is under way.

    Attributes:
        box: to be put at the desk; hidden while there is no order.
        visit: None while there is no order.

    Signals:
        said: a message for the desk.
        begun: a set was asked for; the live page must be seen.
        objected: a start was not made, for what the box says against it.
        over: the order is worked through, or was ended.
    """

    said = Signal(str)
    begun = Signal()
    objected = Signal()
    over = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.box = OrderBox()
        self.box.hide()
        self.visit: Visit | None = None
        self._now_s = 0.0
        self._end_asked_s: float | None = None
        self._told_over = False
        self.box.wanted.connect(self.act)
        self.box.reason_given.connect(self._reason)
        self.box.leg_wanted.connect(
            lambda place: self._try(lambda visit: visit.go_to(place))
        )
        self.box.auto_changed.connect(self._auto)
        self.box.said.connect(self.said)

    def take_up(self, visit: Visit | None) -> None:
        """Another visit, or none."""
        self.visit = visit
        self._told_over, self._end_asked_s = False, None
        self.box.setVisible(visit is not None)
        if visit is not None:
            self.box.show_visit(visit)

    def follow(self, update: Update, now_s: float) -> None:
        """What is new in this frame.

        Args:
            now_s: of a clock that never goes back.
        """
        visit = self.visit
        self._now_s = now_s
        if visit is None:
            return
        was_asked = visit.in_set
        visit.follow(update, now_s)
        if visit.in_set and not was_asked:
            self.begun.emit()
        self._tell_rest(visit)
        self.box.show_visit(visit)
        over = visit.order.over
        if over and not self._told_over:
            self.over.emit()
        self._told_over = over

    def _tell_rest(self, visit: Visit) -> None:
        """That the set began before the rest was over; once."""
        cut, visit.rest_cut = visit.rest_cut, None
        if cut is not None:
            words = self.tr("The set began after {taken} of {asked} s of rest.")
            self.said.emit(rest_words(words, cut))

    def tell_athlete(
        self,
        line: BreathingLine,
        state: SetState | None,
        asked: Prescription,
        *,
        live: bool,
        start_key: str = "",
    ) -> None:
        """The line at the foot: breathing in a set, the rest between two of them.

        In a maximal test, and after it, it names the side, and else where one works.

        Args:
            asked: what the set under way asks for.
            live: whether the newest sample is fresh.
            start_key: begins a set that does not begin by itself.
        """
        visit = self.visit
        test = asked.task.kind is TaskKind.MAXIMAL
        on = state is not None and state.phase is not Phase.DONE
        rests = visit is not None and not visit.in_set and not (test and on)
        if visit is not None and rests and visit.rest_left_s > 0:
            key = "" if visit.begins_itself else start_key
            line.show_rest(
                visit.rest_left_s,
                ready=visit.get_ready,
                key=key,
                sides=(visit.asked or asked).task.sides,
            )
        elif test:
            line.show_sides(asked.task.sides)
        else:
            line.show_state(state, asked, live=live)

    def act(self, what: Act) -> None:
        """Does what was wanted, or says why not."""
        if what is Act.NEXT_SET:
            self._try(self._next_set)
        elif what is Act.PAUSE:
            self._try(lambda visit: visit.resume() if visit.paused else visit.pause())
        elif what is Act.END:
            self._end()
        else:
            self._try(_DONE_BY[what])

    def _next_set(self, visit: Visit) -> None:
        if visit.begin_next():
            self.begun.emit()
        else:
            self.objected.emit()

    def _end(self) -> None:
        """A visit with sets to come is ended by a second press."""
        visit = self.visit
        if visit is None:
            return
        to_come = visit.order.to_come
        asked_s = self._end_asked_s
        since_s = None if asked_s is None else self._now_s - asked_s
        if to_come and (since_s is None or not SEEN_S <= since_s <= ASK_AGAIN_S):
            self._end_asked_s = self._now_s
            words = self.tr("Sets still to come: {count}. Once more ends the visit.")
            self.said.emit(words.format(count=to_come))
            return
        self._end_asked_s = None
        self._try(lambda visit: visit.end())

    def _reason(self, reason: Reason) -> None:
        visit = self.visit
        if visit is None:
            return
        if visit.changes.give_reason(reason):
            words = self.tr("Noted: {reason}.").format(reason=shown(reason.value))
        else:
            words = self.tr("There is no change to give a reason for.")
        self.said.emit(words)
        self.box.show_visit(visit)

    def _auto(self, on: bool) -> None:
        if self.visit is not None:
            self.visit.auto = on

    def _try(self, what: Callable[[Visit], object]) -> None:
        visit = self.visit
        if visit is None:
            return
        try:
            what(visit)
        except BiofeedbackError as error:
            self.said.emit(error_words(error))
        self.box.show_visit(visit)


_DONE_BY: dict[Act, Callable[[Visit], object]] = {
    Act.REPEAT: lambda visit: visit.repeat(),
    Act.SKIP: lambda visit: visit.skip(),
    Act.CUT_SHORT: lambda visit: visit.cut_short(),
    Act.NEXT_REP: lambda visit: visit.let_rep_start(),
    Act.SKIP_REP: lambda visit: visit.skip_rep(),
    Act.REPEAT_REP: lambda visit: visit.changes.repeat_rep(),
    Act.SHORTER_HOLD: lambda visit: visit.changes.longer_hold(-1),
    Act.LONGER_HOLD: lambda visit: visit.changes.longer_hold(1),
    Act.FEWER_REPS: lambda visit: visit.changes.more_reps(-1),
    Act.MORE_REPS: lambda visit: visit.changes.more_reps(1),
    Act.SHORTER_REST: lambda visit: visit.changes.longer_rest(-1),
    Act.LONGER_REST: lambda visit: visit.changes.longer_rest(1),
    Act.UNDO: lambda visit: visit.changes.undo(),
    Act.PRESCRIBED: lambda visit: visit.changes.back_to_prescribed(),
    Act.SIDE: lambda visit: visit.changes.change_side(),
}
