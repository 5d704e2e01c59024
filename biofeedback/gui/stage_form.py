"""Name and notes of a plan, and the stage of it that is looked at, as fields."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QVBoxLayout, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.plan_titles import plan_name, plan_title
from biofeedback.gui.reference_rule_form import whole
from biofeedback.gui.text_box import TextBox
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.phrase import sentences

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.training.plan import Plan, Stage

Read = TypeVar("Read")
NAME_PX = 240
"""At least, with its label; in large type what stands beside it goes below."""


class StageForm(QWidget):
    """Fields of a plan and of one stage.

    Signals:
        edited: something was typed or chosen.
    """

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._filling = False
        self.name = Field(tr("Name"))
        self.example = QCheckBox(tr("An invented example"))
        self.note = TextBox(tr("Note on the plan"), lines=2)
        self.stage_name = Field(tr("Stage"))
        self.from_week, self.to_week = Field(tr("from week")), Field(tr("to week"))
        self.stage_note = TextBox(tr("Note on the stage"), lines=2)
        first, second, notes = (WrappedRow(spacing_px=12) for _ in range(3))
        first.add(self.name, 1)
        first.add(self.example)
        weeks = QHBoxLayout()
        weeks.setSpacing(12)
        weeks.addWidget(self.from_week, 1)
        weeks.addWidget(self.to_week, 1)
        second.add(self.stage_name, 3)
        second.add(weeks, 2)
        notes.add(self.note, 1)
        notes.add(self.stage_note, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        for row in (first, second, notes):
            column.addLayout(row)
        for field in (self.name, self.stage_name, self.from_week, self.to_week):
            field.line.textEdited.connect(self._edited)
        for box in (self.note, self.stage_note):
            box.box.textChanged.connect(self._edited)
        self.example.toggled.connect(self._edited)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for field in (self.name, self.stage_name):
            field.setMinimumWidth(round(NAME_PX * size))

    @property
    def in_order(self) -> tuple[QWidget, ...]:
        """All that is typed in or chosen, as one reads."""
        weeks = self.from_week.line, self.to_week.line
        head = self.name.line, self.example, self.stage_name.line
        return (*head, *weeks, self.note.box, self.stage_note.box)

    def show_plan(self, plan: Plan, stage: Stage) -> None:
        """Puts a plan and one of its stages into the fields."""
        self._filling = True
        self.name.set_text(plan_title(plan.name))
        self.note.set_text(plan.note)
        self.example.setChecked(plan.example)
        self.stage_name.set_text(plan_title(stage.name))
        self.from_week.set_number(stage.from_week)
        self.to_week.set_number(stage.to_week)
        self.stage_note.set_text(stage.note)
        self._filling = False

    def read_stage(self, stage: Stage) -> Stage | None:
        """The stage with its fields as typed; None after complaints."""
        for field in (self.stage_name, self.from_week, self.to_week, self.stage_note):
            field.complain("")
        first = self._tried(lambda: whole(self.from_week, "stage.from_week"))
        last = self._tried(lambda: whole(self.to_week, "stage.to_week"))
        if first is None or last is None:
            return None
        return self._tried(
            lambda: replace(
                stage,
                name=plan_name(self.stage_name.text),
                from_week=first,
                to_week=last,
                note=self.stage_note.text,
            )
        )

    def read_plan(self, plan: Plan) -> Plan | None:
        """The plan with its own fields as typed; None after complaints."""
        for field in (self.name, self.note):
            field.complain("")
        return self._tried(
            lambda: replace(
                plan,
                name=plan_name(self.name.text),
                note=self.note.text,
                example=self.example.isChecked(),
            )
        )

    def _tried(self, read: Callable[[], Read]) -> Read | None:
        try:
            return read()
        except FieldError as error:
            if not self._complain(error):
                raise
            return None

    def _complain(self, error: FieldError) -> bool:
        fields: dict[str, Field | TextBox] = {
            "plan.name": self.name,
            "plan.note": self.note,
            "stage.name": self.stage_name,
            "stage.from_week": self.from_week,
            "stage.to_week": self.to_week,
            "stage.note": self.stage_note,
        }
        field = fields.get(error.field)
        if field is not None:
            field.complain(sentences(error.problem, error.next_step))
        return field is not None

    def _edited(self) -> None:
        if not self._filling:
            self.edited.emit()
