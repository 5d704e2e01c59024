"""The fields of a planned prescription: where each stands, and nothing else."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.enum_box import enum_box, labelled, narrow
from biofeedback.gui.field import Field
from biofeedback.gui.floor_row import FloorRow
from biofeedback.gui.folded_grid import FoldedGrid
from biofeedback.gui.intensity_form import IntensityForm
from biofeedback.gui.reference_rule_form import ReferenceRuleForm
from biofeedback.training.planned import SideOrder
from biofeedback.training.prescription import ClockRule, FeedbackMode, StartBy

BALANCE = "balance_tolerance_points"


class PlannedFields(QWidget):
    """Task, intensity, 100 %, and what there is to each rep and set.

    Attributes:
        fields: the lines to type in, by the names of the prescription.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.task = QComboBox()
        narrow(self.task)
        self.task.setEditable(True)
        self.task.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.task.setAccessibleName(tr("Task"))
        self.task_error = QLabel()
        self.task_error.setObjectName("error")
        self.task_error.setWordWrap(True)
        self.task_error.hide()
        self.intensity = IntensityForm()
        self.rule = ReferenceRuleForm()
        self.floor = FloorRow()
        self.fields = {
            "hold_s": Field(tr("Hold"), unit="s"),
            "reps": Field(tr("Reps")),
            "sets": Field(tr("Sets")),
            "rest_s": Field(tr("Rest"), unit="s"),
            "grace_s": Field(
                tr("Grace"), unit="s", tip=tr("Excursions up to this are no lapses.")
            ),
            BALANCE: Field(
                tr("Balance ±"), unit=tr("points"), tip=tr("Empty for none.")
            ),
            "ceiling": Field(
                tr("Ceiling"), tip=tr("Must not be passed. Empty for none.")
            ),
            "note": Field(tr("Note")),
        }
        self.ceiling_unit = QComboBox()
        self.ceiling_unit.setAccessibleName(tr("Unit of the ceiling"))
        self.ceiling_unit.addItem(tr("% of the reference"), userData="ceiling_pct")
        self.ceiling_unit.addItem(tr("N"), userData="ceiling_n")
        self.ceiling_newtons = QLabel()
        self.ceiling_newtons.setObjectName("look")
        self.ceiling_newtons.setAccessibleName(tr("Ceiling in newtons"))
        self.clock = enum_box(ClockRule, tr("Clock"))
        self.order = enum_box(SideOrder, tr("Sides"))
        self.feedback = enum_box(FeedbackMode, tr("Force shown"))
        self.start = enum_box(StartBy, tr("A rep starts by"))
        self.each_side = QCheckBox(tr("Band for each side"))
        self.required = QCheckBox(tr("Balance is required"))
        for label in (self.task_error, self.ceiling_newtons):
            label.setTextFormat(Qt.TextFormat.PlainText)
        self._lay_out()

    def _lay_out(self) -> None:
        tr, fields = self.tr, self.fields
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        column.addLayout(labelled(tr("Task"), self.task))
        column.addWidget(self.task_error)
        column.addWidget(self.intensity)
        column.addWidget(self.rule)
        column.addWidget(self.floor)
        grid = FoldedGrid(stretches=(1, 1, 1), across_px=12, down_px=4)
        for row, (first, second, third) in enumerate(
            (
                (fields["hold_s"], fields["reps"], (tr("Sides"), self.order)),
                (fields["sets"], fields["rest_s"], (tr("Clock"), self.clock)),
                (fields["grace_s"], self.each_side, (tr("Shown"), self.feedback)),
                (fields["ceiling"], self.ceiling_unit, (tr("Starts by"), self.start)),
            )
        ):
            grid.add(first, row, 0)
            grid.add(second, row, 1)
            grid.add(labelled(*third), row, 2)
        grid.add(fields[BALANCE], 4, 0)
        grid.add(self.required, 4, 1)
        grid.add(self.ceiling_newtons, 4, 2)
        grid.add(fields["note"], 5, 0, span=3)
        column.addLayout(grid)

    @property
    def in_order(self) -> tuple[QWidget, ...]:
        """All that is typed in or chosen, as one reads."""
        line = {name: field.line for name, field in self.fields.items()}
        return (
            self.task,
            *self.intensity.in_order,
            *self.rule.in_order,
            self.floor.button,
            *(line["hold_s"], line["reps"], self.order),
            *(line["sets"], line["rest_s"], self.clock),
            *(line["grace_s"], self.each_side, self.feedback),
            *(line["ceiling"], self.ceiling_unit, self.start),
            *(line[BALANCE], self.required, line["note"]),
        )
