"""How hard, as a plan spells it: with what each number is of, and the newtons beside.

Every tolerance says what it is a share of. The newtons follow while one types.
"""

from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.training.intensity_words import newtons

if TYPE_CHECKING:
    from collections.abc import Sequence


class Shape(Enum):
    """In which of three ways an intensity is given."""

    CENTRE = "a centre ±"
    RANGE = "a range"
    AT_LEAST = "at least"


class IntensityForm(QWidget):
    """Fields for an intensity.

    Signals:
        edited: something was typed or chosen, not necessarily a good value.
    """

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._references: Sequence[tuple[str, float | None]] = ()
        self._filling = False
        self.shape = QComboBox()
        self.shape.setAccessibleName(tr("Kind of intensity"))
        for shape in Shape:
            self.shape.addItem(tr(shape.value), userData=shape)
        self.unit = QComboBox()
        self.unit.setAccessibleName(tr("Unit of the intensity"))
        for unit in Unit:
            self.unit.addItem(tr(unit.value), userData=unit)
        self.low_end = Field(tr("From"))
        self.high_end = Field(tr("to"))
        self.tolerance = Field("±")
        self.tolerance.line.setAccessibleName(tr("Tolerance"))
        self.of = QComboBox()
        self.of.setAccessibleName(tr("What the tolerance is of"))
        self.newtons = QLabel()
        self.newtons.setObjectName("summary")
        self.newtons.setAccessibleName(tr("In newtons"))
        self.newtons.setWordWrap(True)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(self.shape, 0, 0, top)
        grid.addWidget(self.low_end, 0, 1, top)
        grid.addWidget(self.high_end, 0, 2, top)
        grid.addWidget(self.unit, 0, 3, top)
        grid.addWidget(self.tolerance, 1, 1, top)
        grid.addWidget(self.of, 1, 2, 1, 2, top)
        grid.addWidget(self.newtons, 2, 0, 1, 4)
        for column in (1, 2):
            grid.setColumnStretch(column, 1)
        for field in (self.low_end, self.high_end, self.tolerance):
            field.line.textEdited.connect(self._edited)
        self.shape.currentIndexChanged.connect(self._edited)
        self.unit.currentIndexChanged.connect(self._edited)
        self.of.currentIndexChanged.connect(self._edited)
        self._offer_tolerances()

    def show_intensity(self, intensity: Intensity) -> None:
        """Puts an intensity into the fields."""
        self._filling = True
        shape = Shape.RANGE
        if intensity.upper is None:
            shape = Shape.AT_LEAST
        elif intensity.upper == intensity.lower:
            shape = Shape.CENTRE
        self.shape.setCurrentIndex(self.shape.findData(shape))
        self.unit.setCurrentIndex(self.unit.findData(intensity.unit))
        self._offer_tolerances()
        self.low_end.set_number(intensity.lower)
        self.high_end.set_number(intensity.upper if shape is Shape.RANGE else None)
        self.tolerance.set_number(intensity.tolerance)
        self.of.setCurrentIndex(max(0, self.of.findData(intensity.tolerance_of)))
        self._filling = False
        self._follow()

    def show_references(self, references: Sequence[tuple[str, float | None]]) -> None:
        """Name and newtons of what would be 100 % for each side."""
        self._references = references
        self._follow()

    def read(self) -> Intensity | None:
        """The intensity as it was typed; None after a complaint in a field."""
        lower = self.low_end.number()
        if lower is None or math.isnan(lower):
            return None
        shape, unit = self.shape.currentData(), self.unit.currentData()
        upper: float | None = lower
        if shape is Shape.RANGE:
            upper = self.high_end.number()
        elif shape is Shape.AT_LEAST:
            upper = None
        tolerance = None
        if shape is not Shape.AT_LEAST:
            empty = math.nan if shape is Shape.RANGE else None
            tolerance = self.tolerance.number(empty=empty)
        if any(value is not None and math.isnan(value) for value in (upper, tolerance)):
            return None
        if shape is Shape.RANGE and upper == lower:
            self.high_end.complain(self.tr("Must lie above the lower end."))
            return None
        try:
            return Intensity(lower, upper, unit, tolerance, self.of.currentData())
        except FieldError as error:
            self.complain(error)
            return None

    def complain(self, error: FieldError) -> None:
        """Says what is wrong beside its field."""
        fields = {"upper": self.high_end, "tolerance": self.tolerance}
        field = fields.get(error.field.removeprefix("intensity."), self.low_end)
        if field.isHidden():
            field = self.low_end
        field.complain(f"{error.problem} {error.next_step}".strip())

    def _edited(self) -> None:
        if self._filling:
            return
        if self.sender() is self.unit:
            self._offer_tolerances()
        self._follow()
        self.edited.emit()

    def _offer_tolerances(self) -> None:
        """Those that go with the unit; the one chosen stays where it can."""
        chosen = self.of.currentData()
        percent = self.unit.currentData() is Unit.PERCENT
        offered = (
            (ToleranceOf.CENTRE, ToleranceOf.REFERENCE)
            if percent
            else (ToleranceOf.CENTRE, ToleranceOf.NEWTONS)
        )
        blocked = self.of.blockSignals(True)
        self.of.clear()
        for one in offered:
            self.of.addItem(self.tr(one.value), userData=one)
        self.of.setCurrentIndex(max(0, self.of.findData(chosen)))
        self.of.blockSignals(blocked)

    def _follow(self) -> None:
        """What there is to see, and the newtons of what stands in the fields."""
        shape = self.shape.currentData()
        self.high_end.setVisible(shape is Shape.RANGE)
        self.tolerance.setVisible(shape is not Shape.AT_LEAST)
        self.of.setVisible(shape is not Shape.AT_LEAST)
        centre = self.tr("Centre") if shape is Shape.CENTRE else self.tr("From")
        self.low_end.label.setText(centre)
        self.newtons.setText(self._in_newtons())

    def _in_newtons(self) -> str:
        told = [
            field.error.text()
            for field in (self.low_end, self.high_end, self.tolerance)
        ]
        intensity = self.read()
        # Reading complains; while one types that would be a nuisance.
        for field, before in zip(
            (self.low_end, self.high_end, self.tolerance), told, strict=True
        ):
            field.complain(before)
        if intensity is None:
            return ""
        if not intensity.wants_reference:
            return newtons(intensity.band(None))
        parts = []
        for name, reference_n in self._references:
            if reference_n is None:
                parts.append(self.tr("{side}: needs a reference").format(side=name))
                continue
            low = intensity.band(reference_n, 0.0)
            words = newtons(low)
            if intensity.leaves_room:
                high = newtons(intensity.band(reference_n, 1.0))
                words = self.tr("from {low} up to {high}").format(low=words, high=high)
            parts.append(
                self.tr("{side}: {words} of {reference} N").format(
                    side=name, words=words, reference=f"{reference_n:.4g}"
                )
            )
        return "\n".join(parts)
