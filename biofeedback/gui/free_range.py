"""The range of a set without a plan, in which the day decides on the place."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.enum_box import labelled
from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.phrase import sentences
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.planned import PlannedPrescription, SideOrder

if TYPE_CHECKING:
    from biofeedback.training.intensity import Unit


class FreeRange(QWidget):
    """Lower and upper end, tolerance, and the order of sides.

    Signals:
        changed: another good `PlannedPrescription`.
    """

    changed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Range of the set without a plan"))
        self._planned: PlannedPrescription | None = None
        self.low_end = Field(tr("Range from"))
        self.high_end = Field(tr("to"), unit="%", tip=tr("Empty: no upper end"))
        self.tolerance = Field(
            tr("band ±"),
            unit=tr("% of the centre"),
            tip=tr("Empty: the band is the whole range"),
        )
        self.order = QComboBox()
        self.order.setAccessibleName(tr("Sides"))
        for order in SideOrder:
            self.order.addItem(shown(order.value), userData=order)
        row = WrappedRow(self, spacing_px=8)
        for field in (self.low_end, self.high_end, self.tolerance):
            row.add(field, 1)
            field.committed.connect(self._read)
        row.add(labelled(tr("Sides"), self.order))
        self.order.activated.connect(self._read)

    def show_planned(self, planned: PlannedPrescription) -> None:
        """What stands now."""
        self._planned = planned
        intensity = planned.intensity
        self.low_end.set_number(intensity.lower)
        self.high_end.set_number(intensity.upper)
        self.tolerance.set_number(intensity.tolerance)
        self.high_end.unit.setText("%" if intensity.wants_reference else "N")
        self.order.setCurrentIndex(self.order.findData(planned.side_order))

    def _read(self) -> None:
        planned = self._planned
        if planned is None:
            return
        lower = self.low_end.number()
        upper = self.high_end.number(empty=math.nan)
        tolerance = self.tolerance.number(empty=math.nan)
        if any(
            field.error.text()
            for field in (self.low_end, self.high_end, self.tolerance)
        ):
            return
        try:
            changed = replace(
                planned,
                intensity=_intensity(
                    lower or 0.0, upper, tolerance, planned.intensity.unit
                ),
                side_order=self.order.currentData(),
            )
        except FieldError as error:
            self._complain(error)
            return
        self._planned = changed
        self.changed.emit(changed)

    def _complain(self, error: FieldError) -> None:
        ends = {"intensity.upper": self.high_end, "intensity.tolerance": self.tolerance}
        words = sentences(error.problem, error.next_step)
        ends.get(error.field, self.low_end).complain(words)


def _intensity(
    lower: float, upper: float | None, tolerance: float | None, unit: Unit
) -> Intensity:
    if upper is None:
        return Intensity.at_least(lower, unit=unit)
    return Intensity.in_range(
        lower, upper, unit=unit, tolerance=tolerance, tolerance_of=ToleranceOf.CENTRE
    )
