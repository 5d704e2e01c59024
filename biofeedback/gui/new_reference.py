"""A new 100 %, and what follows it: the set at the desk, the floors and the order.

* A set of the same task at the desk goes by it from now on; one of another task is
  offered it when it is typed.
* Where the desk has no 100 % of its own task, and nobody's plan or order stands there,
  the task that was tested comes to the desk with it, or the set of a plan that waited
  for it. The band is then still to be prescribed.
* A lowering whose floor is of this task's peak follows it, at the desk and in an order;
  what was typed without a peak stays.
* What was taken last can be given back.
* A 100 % that is of another task than the one at the desk stays, and the row under it
  says so, with the way to another; before a start it is said with all other doubts.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from biofeedback.gui.language import localised, plain_number, shown
from biofeedback.gui.lowering_words import floor_words, missing_words
from biofeedback.gui.task_titles import task_title
from biofeedback.session.local_time import here
from biofeedback.session.lowering import Floor, PairMissing
from biofeedback.training.band import Band
from biofeedback.training.reference import Caution, Origin, Reference, is_for
from biofeedback.training.reference_words import in_words
from biofeedback.training.task import (
    Sides,
    TaskKind,
    is_pair,
    same_task,
    same_work,
)

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.gui.day_order import DayOrder
    from biofeedback.gui.desk import Desk
    from biofeedback.gui.visit import Visit
    from biofeedback.session.desk_set import DeskSet
    from biofeedback.session.office import Office
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.task import Task


class NewReference(QObject):
    """Takes a 100 % that was kept in this visit to where it counts.

    Args:
        visit: what stands at its desk, and who is here.
        desk_set: the set at the desk.

    Signals:
        test_wanted: a `Task` with its side is to be tested.
    """

    test_wanted = Signal(object)

    def __init__(
        self,
        visit: Visit,
        office: Office,
        desk: Desk,
        order: DayOrder | None,
        desk_set: DeskSet,
    ) -> None:
        super().__init__(visit)
        self._visit = visit
        self._office = office
        self._desk = desk
        self._order = order
        self._set = desk_set
        self._before: Reference | Prescription | None = None  # the last new 100 %
        self._unprescribed = False  # what was at the desk before it
        self._kept: list[tuple[Task, Reference]] = []  # in this visit, newest last
        self._lowered: list[tuple[Reference, Task]] = []  # and of lowerings with it
        self._own: Reference | None = None  # of the task at the desk, where in doubt
        desk.form.floor.wanted.connect(self.take_floor)
        desk.form.changed.connect(self._see)
        desk.form.whose.own_wanted.connect(self._take_own)
        desk.form.whose.test_wanted.connect(
            lambda: self.test_wanted.emit(desk.form.task_and_reference()[0])
        )

    def forget(self) -> None:
        """Somebody else is here."""
        self._kept.clear()

    def offer(self, task: Task) -> None:
        """Another task was typed, whose 100 % was kept in this visit."""
        kept = self._kept_of(task)
        if kept is not None and not self._desk.in_set:
            self._desk.form.take_reference(kept)
            words = self.tr("{force} N, kept before, is the 100 % here.")
            self._desk.say(words.format(force=localised(f"{kept.force_n:.1f}")))

    def _kept_of(self, task: Task) -> Reference | None:
        found = (one for of, one in reversed(self._kept) if same_work(of, task))
        return next(found, None)

    def _see(self) -> None:
        """Another task or 100 % is at the desk: whether it is that of the task."""
        form, visit, now = self._desk.form, self._visit, here()
        if self._desk.in_set:
            return
        task, reference = form.task_and_reference()
        if reference is None or is_for(reference, task):
            form.say_whose()
            return
        each_side = form.each_side and not visit.single_cell
        found: list[Reference | None] = []
        visit.ask(
            lambda: found.append(
                self._office.own_reference(
                    visit.code, task, now=now, each_side=each_side
                )
            )
        )
        self._own = found[0] if found else None
        words = in_words(Caution.NOT_ITS_TASK, reference, task, today=now.date())
        lowering = task.kind is TaskKind.LOWERING  # its floor row is the way
        tested = self._office.tests is not None and not lowering
        form.say_whose(shown(words), None if lowering else self._own, test=tested)

    def _take_own(self) -> None:
        """The newest of the task itself is the 100 %."""
        own = self._own
        if own is not None and not self._desk.in_set:
            self._before, self._set.decided = self._visit.asked, own
            self._desk.form.take_reference(own)

    def take(self, reference: Reference, task: Task | None) -> None:
        """A new 100 %; a set of the same task at the desk goes by it from now on."""
        if task is not None:
            self._kept.append((task, reference))
        order, self._before = self._order, None
        self._unprescribed = self._desk.form.band.unprescribed
        old = order.reference_of(task) if order is not None and task else None
        if task is None:
            return
        if order is not None and order.on:
            self._say_kept(reference, task)
            if order.take_reference(reference, task):
                self._before = old
                self._lower_by(order, reference, task)
            return
        same = not self._desk.in_set and same_work(task, self._visit.asked.task)
        if same and not self._unprescribed:
            self._say_kept(reference, task)
            self._before = self._visit.asked
            self._set.decided = reference
            self._desk.form.take_reference(reference)
        elif self._has_floor_of(task):
            self._say_kept(reference, task)
            self._follow_peak()
        elif same or self._is_free:
            self._put_tested(reference, task)
        else:
            other = self._visit.asked.task
            name = task_title(other.name)
            if same_task(other, task):  # of another side
                name = f"{name}, {self._side(other)}"
            stays = self.tr("At the desk: {task}.").format(task=name)
            self._say_kept(reference, task, stays)

    def _say_kept(self, reference: Reference, task: Task, more: str = "") -> None:
        """Whose 100 % it is, and what that means at the desk."""
        words = self.tr("{force} is the 100 % of {task}, {side}, from now on.").format(
            force=f"{plain_number(reference.force_n)} N",
            task=task_title(task.name),
            side=self._side(task),
        )
        self._desk.say(f"{words} {more}".rstrip())

    def _side(self, task: Task) -> str:
        both = task.sides is Sides.BOTH
        return self.tr("both sides") if both else shown(task.sides.value)

    @property
    def _is_free(self) -> bool:
        """Whether the desk has no 100 % of its task, and nobody's plan stands there."""
        task, reference = self._desk.form.task_and_reference()
        own = reference is not None and is_for(reference, task)
        planned = self._set.stands(self._visit.asked)
        return not (own or planned or self._desk.in_set)

    def _put_tested(self, reference: Reference, task: Task) -> None:
        """The task that was tested comes to the desk, or the set that waited for it."""
        visit, form = self._visit, self._desk.form
        self._before = visit.asked
        if visit.offer_plan(though_waiting=False):
            self._say_kept(reference, task)
            return
        visit.await_band(
            form.take_tested(reference, task, single_cell=visit.single_cell)
        )
        self._see()
        self._say_kept(reference, task, self.tr("Type the centre of its band."))

    def _lower_by(self, order: DayOrder, reference: Reference, task: Task) -> None:
        """Lowerings of the order whose 100 % is the peak of this task follow it.

        By the same kind of number: a peak where theirs is one.
        """
        self._lowered = []
        for lowering, old in order.lowerings_of(task):
            new: Reference | None = replace(
                reference, origin=Origin.OTHER_TASK, task=lowering
            )
            if old.definition is not reference.definition:
                new = self._peak_for(lowering, old)
            if new is None:
                self._desk.say(self.tr("The 100 % of the lowerings to come stays."))
            elif order.take_reference(new, lowering):
                self._lowered.append((old, lowering))
                self._desk.say(self.tr("The lowerings to come follow the new peak."))

    def _peak_for(self, lowering: Task, old: Reference) -> Reference | None:
        """The newest peak of the paired task; None where the old 100 % is no peak."""
        floor = self._floor(lowering, here())
        if not isinstance(floor, Floor):
            return None
        same = floor.reference.definition is old.definition
        return floor.reference if same else None

    def _floor(self, lowering: Task, now: datetime) -> Floor | PairMissing | None:
        """By the newest peak of the paired task; None where it cannot be looked up."""
        found: list[Floor | PairMissing] = []
        code = self._visit.code
        self._visit.ask(
            lambda: found.append(self._office.floor(code, lowering, now=now))
        )
        return found[0] if found else None

    def _has_floor_of(self, task: Task) -> bool:
        """Whether a lowering stands at the desk whose floor is of this task's peak."""
        lowering = self._visit.asked.task
        return not (self._desk.in_set or self._visit.ordered) and is_pair(
            task, lowering
        )

    def _follow_peak(self) -> None:
        """A new peak of the paired task: the floor stays the same share of it.

        A floor that was typed without a peak stays as it is.
        """
        asked, now = self._visit.asked, here()
        floor, old = self._floor(asked.task, now), asked.reference
        if not isinstance(floor, Floor):
            return
        if old is None or old.origin is not Origin.OTHER_TASK:
            self._desk.say(self.tr("A new peak is kept; the typed floor stays."))
            return
        by = floor.reference.force_n / old.force_n
        ceiling_n = asked.ceiling_n
        if ceiling_n is not None and self._set.ceiling_in_percent:
            ceiling_n *= by  # one that was given in newtons stays
        band = Band.at_least(asked.band.lower_n * by)
        if ceiling_n is not None and band.lower_n >= ceiling_n:
            self._desk.say(
                self.tr("By the new peak the floor would pass the ceiling; it stays.")
            )
            return
        self._before, self._set.decided = asked, floor.reference
        form = self._desk.form
        form.fill(
            replace(asked, reference=floor.reference, band=band, ceiling_n=ceiling_n)
        )
        share = replace(
            floor, pct=floor.pct * band.lower_n / floor.force_n(asked.band_on)
        )
        words = floor_words(share, asked.task, asked.band_on, today=now.date())
        form.floor.say(words)
        self._desk.say(self.tr("The floor follows the new peak of the paired task."))

    def take_floor(self) -> None:
        """The floor of the lowering at the desk from its paired task, with words."""
        asked, now = self._visit.asked, here()
        form, floor = self._desk.form, self._floor(asked.task, now)
        if floor is None:
            return
        if isinstance(floor, PairMissing):
            form.floor.say((missing_words(floor),))
            return
        floor_n, ceiling_n = floor.force_n(asked.band_on), asked.ceiling_n
        form.take_floor(floor.reference, floor_n)
        if ceiling_n is not None and ceiling_n <= floor_n:
            self._desk.say(
                self.tr("The ceiling was below this floor and is taken out.")
            )
        form.floor.say(floor_words(floor, asked.task, asked.band_on, today=now.date()))

    def give_back(self, task: Task) -> None:
        """The reference that was taken last is none any more; the one before counts."""
        self._kept = [one for one in self._kept if not same_work(one[0], task)]
        before, self._before = self._before, None
        lowered, self._lowered = self._lowered, []
        if self._order is not None:
            for old, lowering in lowered:
                self._order.take_reference(old, lowering)
        if isinstance(before, Reference):
            if self._order is not None:
                self._order.take_reference(before, task)
        elif (
            before is not None
            and not self._desk.in_set
            and (
                same_work(task, before.task)
                or same_work(task, self._visit.asked.task)
                or is_pair(task, before.task)
            )
        ):
            self._set.decided = before.reference
            self._desk.form.fill(before)
            if self._unprescribed:
                self._desk.form.band.leave_unprescribed()
