"""A force that was not measured here: from before the injury, or a typed number."""

from __future__ import annotations

import math
from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.training.reference import Definition, Origin


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed, not yet checked against the day."""

    force_n: float
    origin: Origin
    definition: Definition
    date: str


class StatedForm(QWidget):
    """Force, where it comes from, by which definition, and its date.

    Signals:
        typed: a `Typed` is to be kept.
        left: the form is not wanted any more.
    """

    typed = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Type a reference"))
        self.force = Field(tr("Force"), unit="N")
        self.origin = QComboBox()
        self.origin.setAccessibleName(tr("Where it comes from"))
        for origin in (Origin.BEFORE_INJURY, Origin.TYPED):
            self.origin.addItem(shown(origin.value), userData=origin)
        self.definition = QComboBox()
        self.definition.setAccessibleName(tr("Definition"))
        for definition in Definition:
            self.definition.addItem(shown(definition.value), userData=definition)
        self.definition.setCurrentIndex(self.definition.count() - 1)
        self.date = Field(tr("Date"), tip=tr("On which it was measured: 2026-03-09"))
        self.keep = QPushButton(tr("Keep it"))
        self.leave = QPushButton(tr("Leave it"))
        first, second = QHBoxLayout(), QHBoxLayout()
        for widget in (self.force, self.origin, self.definition):
            first.addWidget(widget, 1)
        second.addWidget(self.date, 1)
        for button in (self.keep, self.leave):
            second.addWidget(button)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(3)
        whole.addLayout(first)
        whole.addLayout(second)
        self.keep.clicked.connect(self._read)
        self.date.line.returnPressed.connect(self._read)
        self.leave.clicked.connect(self.left)

    def complain(self, field: str, problem: str) -> None:
        """What is wrong, beside the field it belongs to."""
        wrong = self.date if field.endswith("date") else self.force
        wrong.complain(problem)

    def _read(self) -> None:
        force_n = self.force.number()
        if force_n is None or math.isnan(force_n):
            return
        self.typed.emit(
            Typed(
                force_n,
                self.origin.currentData(),
                self.definition.currentData(),
                self.date.text,
            )
        )
