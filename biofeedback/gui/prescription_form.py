"""What is asked for, as fields; while a set is under way only the band may change."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QDate, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.band_form import BandForm, Tolerance
from biofeedback.gui.choice_row import same_width
from biofeedback.gui.enum_box import choose
from biofeedback.gui.field import Field
from biofeedback.gui.floor_row import FloorRow
from biofeedback.gui.language import shown
from biofeedback.gui.task_field import TaskField
from biofeedback.gui.task_titles import task_name
from biofeedback.gui.whose_row import WhoseRow
from biofeedback.training.band import Band
from biofeedback.training.prescription import (
    BandOn,
    ClockRule,
    FeedbackMode,
    Prescription,
)
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides, Task, TaskKind, same_task, same_work
from biofeedback.training.task_names import HOLD

if TYPE_CHECKING:
    from collections.abc import Callable
    from enum import Enum

    Chosen = TypeVar("Chosen", bound=Enum)

PROBLEM_LINES = 2
PROBLEM_LINES_MORE = 1
"""The rest is in their tip: all of the desk is to be seen at once."""
LIST_PX = 220
_SIDES = {BandOn.LEFT: Sides.LEFT, BandOn.RIGHT: Sides.RIGHT}
_BAND_ON = {sides: band_on for band_on, sides in _SIDES.items()}


@dataclass(frozen=True, slots=True)
class _Numbers:
    """The plain numbers of the form."""

    hold_s: float
    rest_s: float
    reps: int
    ceiling_n: float | None
    balance_points: float | None


class PrescriptionForm(QWidget):
    """Fields for a prescription.

    Signals:
        changed: some value was changed, not necessarily to a good one.
        band_changed: the band is another one now; also while a set is under way.

    Attributes:
        task_named: gives the task that a typed name is of, or None.
    """

    changed = Signal()
    band_changed = Signal()

    def __init__(self, start: Prescription, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._start = start
        self.task_named: Callable[[str], Task | None] = lambda _: None
        tr = self.tr
        self.task = TaskField(tr("Task"))
        self.reference = Field(
            tr("Reference"),
            unit="N",
            tip=tr("The force that is 100 %."),
            error_below=False,
        )
        self._close = False
        self.origin = QLabel()
        self.origin.setObjectName("summary")
        self.whose = WhoseRow()
        # The 100 % that was typed last, and the task that it was typed for.
        self._typed: tuple[str, Task] | None = None
        self.floor = FloorRow()
        self.floor.hide()
        self.band = BandForm()
        self.band_on = _choices(BandOn, tr("Band on"))
        self.clock = _choices(ClockRule, tr("Clock"))
        self.clock.setToolTip(
            tr(
                "unbroken: starts again after a lapse\n"
                "banked: adds up all time in the band\n"
                "running: counts on from the first entry"
            )
        )
        self.hold = Field(tr("Hold"), unit="s", error_below=False)
        self.reps = Field(tr("Reps"), error_below=False)
        self.rest = Field(tr("Rest"), unit="s", error_below=False)
        self.ceiling = Field(
            tr("Ceiling"),
            unit="N",
            tip=tr("Must not be passed. Empty for none."),
            error_below=False,
        )
        self.balance = Field(
            tr("Balance ±"),
            unit=tr("points"),
            tip=tr("How far a side may be from 50 % of the total. Empty for none."),
            error_below=False,
        )
        self.shown = _choices(FeedbackMode, tr("Force shown"))
        # Its longest words must not widen the column; the open list shows them whole.
        policy = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        self.shown.setSizeAdjustPolicy(policy)
        self.shown.setMinimumContentsLength(3)
        self.shown.view().setMinimumWidth(LIST_PX)
        self.shown.setToolTip(
            tr(
                "full: the force is seen all the time\n"
                "only outside the band: it is hidden while all is well\n"
                "every second rep unseen: hidden in it, and shown after it\n"
                "fading over the sessions: seen in fewer reps each time\n"
                "unseen: hidden in each rep, and shown after it"
            )
        )
        self._fields = (
            self.task,
            self.reference,
            self.band.centre,
            self.band.tolerance,
            self.hold,
            self.rest,
            self.reps,
            self.ceiling,
            self.balance,
        )
        self.problems = QLabel()
        self.problems.setObjectName("error")
        self.problems.setAccessibleName(tr("What is wrong in the fields"))
        self.problems.setAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        )
        self.problems.setWordWrap(True)
        # Its place is kept, so that no button moves under the mouse.
        keep = self.problems.sizePolicy()
        keep.setRetainSizeWhenHidden(True)
        keep.setVerticalPolicy(QSizePolicy.Policy.Fixed)
        self.problems.setSizePolicy(keep)
        self.problems.hide()
        self._by_name = {
            "hold_s": self.hold,
            "reps": self.reps,
            "rest_s": self.rest,
            "ceiling_n": self.ceiling,
            "balance_tolerance_points": self.balance,
        }
        self._locked_in_set: tuple[QWidget, ...] = (
            self.task.box,
            self.reference.line,
            self.band_on,
            self.clock,
            self.hold.line,
            self.reps.line,
            self.rest.line,
            self.ceiling.line,
            self.balance.line,
            self.shown,
            self.whose.button,
            self.floor.button,
        )
        self._lay_out()
        self._fill(start)
        self._connect()

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self.task)
        reference = QHBoxLayout()
        reference.addWidget(self.reference, 1)
        reference.addWidget(self.origin, 1, Qt.AlignmentFlag.AlignTop)
        layout.addLayout(reference)
        layout.addWidget(self.whose)
        layout.addWidget(self.floor)
        layout.addWidget(self.band)
        self._details = QWidget()
        grid = QGridLayout(self._details)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(2)
        on, clock = QHBoxLayout(), QHBoxLayout()
        on_label, clock_label = QLabel(self.tr("On")), QLabel(self.tr("Clock"))
        on.addWidget(on_label)
        on.addWidget(self.band_on, 1)
        clock.addWidget(clock_label)
        clock.addWidget(self.clock, 1)
        self._columns = (
            (self.task.label, self.reference.label),
            (on_label, self.hold.label, self.reps.label),
            (clock_label, self.rest.label, self.ceiling.label),
        )
        top = Qt.AlignmentFlag.AlignTop
        grid.addLayout(on, 0, 0)
        grid.addLayout(clock, 0, 1)
        grid.addWidget(self.hold, 1, 0, top)
        grid.addWidget(self.rest, 1, 1, top)
        grid.addWidget(self.reps, 2, 0, top)
        grid.addWidget(self.ceiling, 2, 1, top)
        grid.addWidget(self.balance, 3, 0, top)
        shown, shown_label = QHBoxLayout(), QLabel(self.tr("Shown"))
        shown_label.setBuddy(self.shown)
        shown.addWidget(shown_label)
        shown.addWidget(self.shown, 1)
        grid.addLayout(shown, 3, 1, top)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        layout.addWidget(self._details)
        layout.addWidget(self.problems)

    def align(self) -> None:
        """The same width for labels that stand above one another, in any type."""
        for labels in self._columns:
            same_width(labels)
        self.band.align()
        self._keep_room()

    def _keep_room(self) -> None:
        """For what is wrong; a row under the 100 % takes some of it."""
        self.whose.fit()
        self.problems.ensurePolished()
        more = not (self.floor.isHidden() and self.whose.isHidden())
        lines = PROBLEM_LINES_MORE if more else PROBLEM_LINES
        if self._close:
            lines = 0  # it stands in the place of the band's summary
        self.problems.setFixedHeight(lines * self.problems.fontMetrics().lineSpacing())

    def fill(self, asked: Prescription) -> None:
        """Another prescription in all fields; `changed` tells of it once."""
        blocked = self.blockSignals(True)
        self._start = asked
        self._fill(asked)
        self.blockSignals(blocked)
        self.changed.emit()

    def say_whose(
        self, words: str = "", own: Reference | None = None, *, test: bool = False
    ) -> None:
        """That the 100 % is of another task; as `WhoseRow.say`."""
        self.whose.say(words, own, test=test)
        self._keep_room()

    def take_reference(self, reference: Reference) -> None:
        """Another 100 %, as if it stood there from the start."""
        self._start = replace(self._start, reference=reference)
        self._typed = None
        self.reference.set_number(reference.force_n)
        self._reference_changed()

    def take_tested(
        self, reference: Reference, task: Task, *, single_cell: bool
    ) -> Prescription:
        """Task, side and 100 % of a test; the band is left to be prescribed.

        It asks for as many reps as before, and its band is in the unit that was chosen.

        Args:
            task: with the side that was tested.
            single_cell: whether the rig has one cell, which tells no sides.

        Returns:
            What then stands there, with the band before; nobody was told of it.
        """
        on = BandOn.TOTAL if single_cell else _BAND_ON.get(task.sides, BandOn.TOTAL)
        asked = replace(
            self.read() or self._start,
            task=self._as_typed(task),
            reference=reference,
            band_on=on,
        )
        band = self.band
        unit, spelling = band.in_percent.currentData(), band.spelling.currentData()
        tolerance = band.tolerance.text
        blocked = self.blockSignals(True)
        self._start = asked
        self._fill(asked)
        band.leave_unprescribed()
        band.choose(in_percent=unit, tolerance=spelling)
        band.tolerance.set_text(tolerance)
        self.blockSignals(blocked)
        return asked

    def _as_typed(self, task: Task) -> Task:
        """The task that its name would give here, with the sides of this one."""
        known = self.task_named(task.name)
        if known is None or not same_task(known, task):
            hold = task.kind is TaskKind.MAXIMAL
            known = replace(task, kind=TaskKind.HOLD) if hold else task
        return known.on_side(task.sides)

    def take_floor(self, reference: Reference, floor_n: float) -> None:
        """The floor of a lowering and the peak it is of.

        A ceiling that was typed stays; one that the floor would pass is none.
        """
        asked = self.read() or self._start
        floor, ceiling_n = Band.at_least(floor_n), asked.ceiling_n
        if ceiling_n is not None and ceiling_n <= floor_n:
            ceiling_n = None
        self.fill(replace(asked, reference=reference, band=floor, ceiling_n=ceiling_n))

    def _fill(self, asked: Prescription) -> None:
        self.task.set_text(shown(asked.task.name))
        self._task_put = self.task.text
        self._typed = None
        self._offer_floor(asked.task)
        reference = asked.reference
        self.reference.set_number(reference.force_n if reference else None)
        self._show_origin(reference)
        spelling = Tolerance.OF_REFERENCE if reference else Tolerance.OF_CENTRE
        blocked = self.band.blockSignals(True)
        self.band.set_band(asked.band, reference_n=None)
        self.band.choose(in_percent=reference is not None, tolerance=spelling)
        self.band.set_band(
            asked.band, reference_n=reference.force_n if reference else None
        )
        self.band.blockSignals(blocked)
        choose(self.band_on, asked.band_on)
        choose(self.clock, asked.clock)
        self.hold.set_number(asked.hold_s, digits=3)
        self.reps.set_number(asked.reps)
        self.rest.set_number(asked.rest_s, digits=3)
        self.ceiling.set_number(asked.ceiling_n)
        self.balance.set_number(asked.balance_tolerance_points)
        choose(self.shown, asked.feedback)

    def _offer_floor(self, task: Task) -> None:
        """A lowering may take its floor from its paired task."""
        self.floor.say(())
        self._show_floor(task)
        self._keep_room()

    def _show_floor(self, task: Task) -> None:
        self.floor.setVisible(task.kind is TaskKind.LOWERING and not self._close)

    def _connect(self) -> None:
        # Before anybody is told: what is told may bring words of its own.
        self.task.committed.connect(lambda: self._offer_floor(self._task()))
        for field in self._fields:
            field.complained.connect(self._show_problems)
        for field in (self.task, self.hold, self.reps, self.rest, self.ceiling):
            field.committed.connect(self.changed)
        self.balance.committed.connect(self.changed)
        self.band_on.currentIndexChanged.connect(self.changed)
        self.clock.currentIndexChanged.connect(self.changed)
        self.shown.currentIndexChanged.connect(self.changed)
        self.band.changed.connect(self.band_changed)
        self.reference.committed.connect(self._reference_typed)

    def _show_problems(self) -> None:
        """What is wrong first, and which other fields have their mark and tip."""
        told = [
            f"{field.label.text()}: {field.error.text()}"
            for field in self._fields
            if field.error.text()
        ]
        others = [field.label.text() for field in self._fields if field.error.text()]
        words = told[:1]
        if len(told) > 1:
            also = self.tr("Also look at: {fields}.")
            words.append(also.format(fields=", ".join(others[1:])))
        self.problems.setText("\n".join(words))
        self.problems.setToolTip("\n".join(told))
        self.problems.setVisible(bool(told) and not self._close)
        self.band.say_problem(words[0] if told and self._close else "")

    def _reference_typed(self) -> None:
        self._typed = (self.reference.text, self._task())
        self._reference_changed()

    def _reference_changed(self) -> None:
        reference = self._reference()
        if reference is not None or not self.reference.text:
            self._show_origin(reference)
            self.band.set_reference(reference.force_n if reference else None)
        self.changed.emit()

    def _show_origin(self, reference: Reference | None) -> None:
        words = self.tr("none: no percentages")
        if reference is not None:
            words = self.tr("{origin},\n{definition}, {date}").format(
                origin=shown(reference.origin.value),
                definition=shown(reference.definition.value),
                date=reference.date,
            )
        if self._close:
            words = self.tr("100 %: {whence}").format(whence=words.replace("\n", " "))
        self.origin.setWordWrap(self._close)
        self.origin.setText(words)
        self.origin.setToolTip(words if self._close else "")

    def lock(self, *, locked: bool) -> None:
        """While a set is under way only the band may change."""
        for widget in self._locked_in_set:
            widget.setEnabled(not locked)
        self.band.lock_spelling(locked=locked)

    def show_details(self, *, shown: bool) -> None:
        """All fields, or the band alone and where its 100 % comes from."""
        self._close = not shown
        for part in (self.task, self.reference, self._details):
            part.setVisible(shown)
        self.band.set_close(close=not shown)
        self._show_floor(self._task())
        self._show_origin(self._reference())
        self._show_problems()
        self._keep_room()

    def show_band(self, band: Band) -> None:
        """The band that is in force now."""
        if band != self.band.band:
            reference = self._reference()
            self.band.set_band(
                band, reference_n=reference.force_n if reference else None
            )

    def read(self) -> Prescription | None:
        """The prescription as it was typed; None after a complaint in a field."""
        self.task.complain("")
        band, numbers = self.band.checked(), self._numbers()
        asked = self._fitted(band or self.band.band, numbers, self._reference())
        wrong = any(field.error.text() for field in self._fields)
        return None if wrong or band is None else asked

    def _fitted(
        self, band: Band, numbers: _Numbers, reference: Reference | None
    ) -> Prescription:
        """A prescription of these; what does not fit is told and left as it was."""
        before, task = self._start, self._task_with_sides()
        asked = replace(
            before,
            task=task,
            band=band,
            clock=self.clock.currentData(),
            band_on=self.band_on.currentData(),
            reference=self._whose(reference, task),
            ceiling_n=None,
            feedback=self.shown.currentData(),
        )
        # One by one, so that each field gets its own answer.
        for name, value in (
            ("hold_s", numbers.hold_s),
            ("rest_s", numbers.rest_s),
            ("reps", numbers.reps),
            ("balance_tolerance_points", numbers.balance_points),
            ("ceiling_n", numbers.ceiling_n),
        ):
            field = self._by_name[name]
            if field.error.text():
                continue
            try:
                asked = replace(asked, **{name: value})  # type: ignore[arg-type]  # the names stand beside the values
            except FieldError as error:
                self._by_name.get(error.field, field).complain(error.problem)
        return asked

    @property
    def each_side(self) -> bool:
        """Whether the band is for each of two sides that work together."""
        chosen = self.band_on.currentData()
        return chosen is BandOn.EACH_SIDE

    def task_and_reference(self) -> tuple[Task, Reference | None]:
        """What stands there of the two, whatever is wrong in other fields."""
        task = self._task_with_sides()
        return task, self._whose(self._reference(), task)

    def _task_with_sides(self) -> Task:
        band_on = self.band_on.currentData()
        sides = _SIDES.get(band_on)
        if sides is None:
            same = self._start.band_on is band_on
            sides = self._start.task.sides if same else Sides.BOTH
        return self._task().on_side(sides)

    def _task(self) -> Task:
        """The one that was put here while its name stands, else the one of that name.

        A name that nobody knows is a task that nothing is known of: what was known of
        the one before (key, position, pair) is not of it.
        """
        before, name = self._start.task, task_name(self.task.text) or HOLD
        if self.task.text == self._task_put or name == before.name:
            return before
        return self.task_named(name) or Task(name, before.kind)

    def _numbers(self) -> _Numbers:
        """The plain numbers, after a complaint where one is none."""
        reps = self.reps.number() or 0.0
        if reps % 1 > 0:
            self.reps.complain(self.tr("Must be a whole number."))
        return _Numbers(
            self.hold.number() or 0.0,
            self.rest.number() or 0.0,
            0 if math.isnan(reps) else int(reps),
            self.ceiling.number(empty=math.nan),
            self.balance.number(empty=math.nan),
        )

    def _reference(self) -> Reference | None:
        """The one given at the start while its number stands, else a typed one.

        A number that is typed again for another task is that task's.
        """
        force_n = self.reference.number(empty=math.nan)
        given = self._start.reference
        if force_n is None or math.isnan(force_n):
            return None
        if not 0.1 <= force_n <= 50_000:
            self.reference.complain(self.tr("Must be 0.1 to 50000 N."))
            return None
        if given is not None and abs(given.force_n - force_n) < 0.05:
            whose, again = given.task or self._start.task, self._typed_for()
            if again is None or same_task(again, whose):
                return given
        today = QDate.currentDate().toString(Qt.DateFormat.ISODate)
        whose = self._typed_for() or self._task()
        return Reference(force_n, Origin.TYPED, Definition.PEAK, today, task=whose)

    def _typed_for(self) -> Task | None:
        """The task that the number in the line was typed for, where it was typed."""
        typed = self._typed
        return typed[1] if typed and typed[0] == self.reference.text else None

    def _whose(self, reference: Reference | None, task: Task) -> Reference | None:
        """One that does not say so is of the task that it was put here with."""
        if reference is None or reference.task is not None:
            return reference
        own = self._start.task
        return reference if same_work(own, task) else replace(reference, task=own)


def _choices(kind: type[Chosen], name: str) -> QComboBox:
    box = QComboBox()
    box.setAccessibleName(name)
    for choice in kind:
        box.addItem(shown(choice.value), userData=choice)
    return box
