"""One prescription of a plan, as fields. What was typed stays where it does not fit."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeVar

from PySide6.QtCore import QDate, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.intensity_form import IntensityForm
from biofeedback.training.planned import (
    PlannedPrescription,
    ReferenceRule,
    SideOrder,
)
from biofeedback.training.prescription import ClockRule, FeedbackMode, StartBy
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from enum import Enum

    from biofeedback.session.planning import SideForces

    Chosen = TypeVar("Chosen", bound=Enum)

_SHOWN = {
    SideOrder.TOGETHER: (Sides.BOTH,),
    SideOrder.LEFT: (Sides.LEFT,),
    SideOrder.RIGHT: (Sides.RIGHT,),
}


class PlannedForm(QWidget):
    """Fields for a planned prescription.

    Args:
        forces: what is known of each side in a task.

    Signals:
        edited: something was typed or chosen.
    """

    edited = Signal()

    def __init__(
        self, forces: Callable[[Task], SideForces], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self._forces = forces
        self._before: PlannedPrescription | None = None
        self._tasks: dict[str, Task] = {}
        self._no_rest_told = False
        self._filling = False
        self.task = QComboBox()
        self.task.setEditable(True)
        self.task.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.task.setAccessibleName(tr("Task"))
        self.task_error = QLabel()
        self.task_error.setObjectName("error")
        self.task_error.hide()
        self.intensity = IntensityForm()
        self.fields = {
            "hold_s": Field(tr("Hold"), unit="s"),
            "reps": Field(tr("Reps")),
            "sets": Field(tr("Sets")),
            "rest_s": Field(tr("Rest"), unit="s"),
            "balance_tolerance_points": Field(
                tr("Balance ±"), unit=tr("points"), tip=tr("Empty for none.")
            ),
            "ceiling": Field(
                tr("Ceiling"), tip=tr("Must not be passed. Empty for none.")
            ),
        }
        self.ceiling_unit = QComboBox()
        self.ceiling_unit.setAccessibleName(tr("Unit of the ceiling"))
        self.ceiling_unit.addItem(tr("% of the reference"), userData="ceiling_pct")
        self.ceiling_unit.addItem(tr("N"), userData="ceiling_n")
        self.clock = _choices(ClockRule, tr("Clock"))
        self.order = _choices(SideOrder, tr("Sides"))
        self.feedback = _choices(FeedbackMode, tr("Force shown"))
        self.start = _choices(StartBy, tr("A rep starts by"))
        self.each_side = QCheckBox(tr("Band for each side"))
        self.required = QCheckBox(tr("Balance is required"))
        self.origin = _choices(Origin, tr("100 % is"))
        self.definition = _choices(Definition, tr("Definition of the 100 %"))
        self.weeks = Field(tr("of the last"), unit=tr("weeks"))
        self.typed = Field(tr("100 % is"), unit="N")
        self.factor = Field(tr("Body weight ×"))
        self.other = QComboBox()
        self.other.setEditable(True)
        self.other.setAccessibleName(tr("Other task"))
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        tr, fields = self.tr, self.fields
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        column.addLayout(_row(tr("Task"), self.task))
        column.addWidget(self.task_error)
        column.addWidget(self.intensity)
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(4)
        top = Qt.AlignmentFlag.AlignTop
        grid.addLayout(_row(tr("100 % is"), self.origin), 0, 0, 1, 2)
        grid.addLayout(_row(tr("by"), self.definition), 0, 2)
        for widget in (self.weeks, self.typed, self.factor, self.other):
            grid.addWidget(widget, 1, 0, 1, 2, top)
        grid.addLayout(_row(tr("Sides"), self.order), 1, 2)
        grid.addWidget(fields["hold_s"], 2, 0, top)
        grid.addWidget(fields["reps"], 2, 1, top)
        grid.addLayout(_row(tr("Clock"), self.clock), 2, 2)
        grid.addWidget(fields["sets"], 3, 0, top)
        grid.addWidget(fields["rest_s"], 3, 1, top)
        grid.addLayout(_row(tr("Shown"), self.feedback), 3, 2)
        grid.addWidget(fields["ceiling"], 4, 0, top)
        grid.addWidget(self.ceiling_unit, 4, 1, top)
        grid.addLayout(_row(tr("Starts by"), self.start), 4, 2)
        grid.addWidget(fields["balance_tolerance_points"], 5, 0, top)
        grid.addWidget(self.required, 5, 1)
        grid.addWidget(self.each_side, 5, 2)
        for at in range(3):
            grid.setColumnStretch(at, 1)
        column.addLayout(grid)

    def _connect(self) -> None:
        self.intensity.edited.connect(self._edited)
        for field in (*self.fields.values(), self.weeks, self.typed, self.factor):
            field.line.textEdited.connect(self._edited)
        for box in (self.clock, self.order, self.feedback, self.start, self.origin):
            box.currentIndexChanged.connect(self._edited)
        self.definition.currentIndexChanged.connect(self._edited)
        self.ceiling_unit.currentIndexChanged.connect(self._edited)
        self.task.currentTextChanged.connect(self._edited)
        self.other.currentTextChanged.connect(self._edited)
        self.each_side.toggled.connect(self._edited)
        self.required.toggled.connect(self._edited)

    # What it is given.

    def offer(self, tasks: Sequence[Task]) -> None:
        """Tasks to choose from."""
        self._tasks = {task.name: task for task in tasks}
        self._filling = True
        for box in (self.task, self.other):
            typed = box.currentText()
            box.clear()
            box.addItems(list(self._tasks))
            box.setCurrentText(typed)
        self._filling = False

    def show_planned(self, planned: PlannedPrescription) -> None:
        """Puts a prescription into the fields."""
        self._filling, self._before = True, planned
        self._no_rest_told = planned.rest_s == 0
        self.task.setCurrentText(planned.task.name)
        self.intensity.show_intensity(planned.intensity)
        for name in ("hold_s", "reps", "sets", "rest_s", "balance_tolerance_points"):
            self.fields[name].set_number(getattr(planned, name))
        in_newtons = planned.ceiling_n is not None
        self.ceiling_unit.setCurrentIndex(1 if in_newtons else 0)
        self.fields["ceiling"].set_number(
            planned.ceiling_n if in_newtons else planned.ceiling_pct
        )
        for box, value in (
            (self.clock, planned.clock),
            (self.order, planned.side_order),
            (self.feedback, planned.feedback),
            (self.start, planned.start),
            (self.origin, planned.reference.origin),
            (self.definition, planned.reference.definition),
        ):
            _choose(box, value)
        self.each_side.setChecked(planned.each_side)
        self.required.setChecked(planned.balance_required)
        rule = planned.reference
        self.weeks.set_number(rule.within_weeks)
        self.typed.set_number(rule.typed_n)
        self.factor.set_number(rule.body_mass_factor, digits=2)
        self.other.setCurrentText(rule.other_task)
        self._filling = False
        self._follow()

    # What it gives.

    def read(self) -> PlannedPrescription | None:
        """The prescription as it was typed; None after a complaint in a field."""
        for field in (*self.fields.values(), self.weeks, self.typed, self.factor):
            field.complain("")
        self._complain_of_task("")
        before, intensity = self._before, self.intensity.read()
        try:
            values, rule = self._values(), self._rule()
        except FieldError as error:
            self.complain(error)
            return None
        if before is None or intensity is None:
            return None
        if values["rest_s"] == 0 and not self._no_rest_told:
            self._no_rest_told = True
            self.fields["rest_s"].complain(
                self.tr("No rest between the reps? Save again if it is meant.")
            )
            return None
        name = self.task.currentText().strip()
        if not name:
            self._complain_of_task(self.tr("Must not be empty."))
            return None
        known = self._tasks.get(name)
        task = known or replace(before.task, name=name, key="")
        try:
            return replace(
                before, task=task, intensity=intensity, reference=rule, **values
            )
        except FieldError as error:
            self.complain(error)
            return None

    def complain(self, error: FieldError) -> None:
        """Says what is wrong beside its field."""
        words = f"{error.problem} {error.next_step}".strip()
        name = error.field.split(".")[-1]
        if error.field.startswith("intensity."):
            self.intensity.complain(error)
            return
        own = {
            "within_weeks": self.weeks,
            "typed_n": self.typed,
            "body_mass_factor": self.factor,
            "ceiling_pct": self.fields["ceiling"],
            "ceiling_n": self.fields["ceiling"],
            "balance_required": self.fields["balance_tolerance_points"],
        }
        field = self.fields.get(name) or own.get(name)
        if field is not None:
            field.complain(words)
        else:
            self._complain_of_task(words)

    def _values(self) -> dict[str, Any]:
        numbers: dict[str, Any] = {}
        for name in ("hold_s", "rest_s"):
            numbers[name] = _number(self.fields[name], name)
        for name in ("reps", "sets"):
            value = _number(self.fields[name], name)
            if value is None or value % 1:
                raise FieldError(name, "must be a whole number.")
            numbers[name] = int(value)
        points = "balance_tolerance_points"
        numbers[points] = _number(self.fields[points], points, empty=True)
        ceiling = _number(self.fields["ceiling"], "ceiling_n", empty=True)
        chosen = self.ceiling_unit.currentData()
        return {
            **numbers,
            "ceiling_pct": ceiling if chosen == "ceiling_pct" else None,
            "ceiling_n": ceiling if chosen == "ceiling_n" else None,
            "clock": self.clock.currentData(),
            "side_order": self.order.currentData(),
            "feedback": self.feedback.currentData(),
            "start": self.start.currentData(),
            "each_side": self.each_side.isChecked(),
            "balance_required": self.required.isChecked(),
        }

    def _rule(self) -> ReferenceRule:
        origin = self.origin.currentData()
        weeks = _number(self.weeks, "reference.within_weeks") or 0
        typed_n = None
        if origin is Origin.TYPED:
            typed_n = _number(self.typed, "reference.typed_n")
            if not typed_n or typed_n < 0.1:
                raise FieldError("reference.typed_n", "must be 0.1 N or more.")
        factor = None
        if origin is Origin.BODY_MASS:
            factor = _number(self.factor, "reference.body_mass_factor")
        return ReferenceRule(
            origin,
            self.definition.currentData(),
            int(weeks),
            self.other.currentText().strip() if origin is Origin.OTHER_TASK else "",
            factor,
            typed_n,
            QDate.currentDate().toString(Qt.DateFormat.ISODate) if typed_n else "",
        )

    def _complain_of_task(self, words: str) -> None:
        self.task_error.setText(words)
        self.task_error.setVisible(bool(words))

    def _edited(self) -> None:
        if not self._filling:
            self._follow()
            self.edited.emit()

    def _follow(self) -> None:
        """What there is to see for the origin, and the newtons of each side."""
        origin = self.origin.currentData()
        best = {Origin.OWN_SIDE, Origin.OTHER_SIDE}
        self.weeks.setVisible(origin in best)
        self.typed.setVisible(origin is Origin.TYPED)
        self.factor.setVisible(origin is Origin.BODY_MASS)
        self.other.setVisible(origin is Origin.OTHER_TASK)
        lowering = self._kind() is TaskKind.LOWERING
        self.fields["hold_s"].label.setText(
            self.tr("Tempo") if lowering else self.tr("Hold")
        )
        try:
            rule = self._rule()
        except FieldError:
            rule = ReferenceRule()
        name = self.task.currentText().strip()
        known = self._forces(self._tasks.get(name) or Task(name or "-"))
        sides = _SHOWN.get(self.order.currentData(), (Sides.LEFT, Sides.RIGHT))
        self.intensity.show_references(
            [(self.tr(side.value), known.reference_n(rule, side)) for side in sides]
        )

    def _kind(self) -> TaskKind:
        known = self._tasks.get(self.task.currentText().strip())
        if known is not None:
            return known.kind
        return self._before.task.kind if self._before else TaskKind.HOLD


def _number(field: Field, name: str, *, empty: bool = False) -> float | None:
    value = field.number(empty=math.nan if empty else None)
    if value is not None and math.isnan(value):
        raise FieldError(name, field.error.text())
    return value


def _row(label: str, box: QComboBox) -> QGridLayout:
    row = QGridLayout()
    row.setHorizontalSpacing(5)
    words = QLabel(label)
    words.setBuddy(box)
    row.addWidget(words, 0, 0)
    row.addWidget(box, 0, 1)
    row.setColumnStretch(1, 1)
    return row


def _choices(kind: type[Chosen], name: str) -> QComboBox:
    box = QComboBox()
    box.setAccessibleName(name)
    policy = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
    box.setSizeAdjustPolicy(policy)
    box.setMinimumContentsLength(8)
    for choice in kind:
        box.addItem(box.tr(str(choice.value)), userData=choice)
    return box


def _choose(box: QComboBox, choice: Enum) -> None:
    for index in range(box.count()):
        if box.itemData(index) is choice:
            box.setCurrentIndex(index)
