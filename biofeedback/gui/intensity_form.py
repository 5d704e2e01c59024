"""How hard, as a plan spells it: with what each number is of, and the newtons beside.

Every tolerance says what it is a share of. The newtons follow while one types. Of a
lowering only the floor is asked.
"""

from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QLabel, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.folded_grid import FoldedGrid
from biofeedback.gui.language import filled, shown
from biofeedback.phrase import phrase, sentences
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.training.intensity_words import newtons_in_range, number

if TYPE_CHECKING:
    from collections.abc import Sequence


class Shape(Enum):
    """In which of three ways an intensity is given."""

    CENTRE = phrase("a centre ±")
    RANGE = phrase("a range")
    AT_LEAST = phrase("at least")


DIGITS = 6
"""As many as anyone types: what is shown is what is read again."""


class IntensityForm(QWidget):
    """Fields for an intensity.

    Signals:
        edited: something was typed or chosen, not necessarily a good value.
    """

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._references: Sequence[tuple[str, float | None, str]] = ()
        self._lowering = False
        self._filling = False
        self.shape = QComboBox()
        self.shape.setAccessibleName(tr("Kind of intensity"))
        for shape in Shape:
            self.shape.addItem(shown(shape.value), userData=shape)
        self.unit = QComboBox()
        self.unit.setAccessibleName(tr("Unit of the intensity"))
        for unit in Unit:
            self.unit.addItem(shown(unit.value), userData=unit)
        self.low_end = Field(tr("From"))
        self.high_end = Field(tr("to"))
        self.tolerance = Field("±")
        self.tolerance.line.setAccessibleName(tr("Tolerance"))
        self.of = QComboBox()
        self.of.setAccessibleName(tr("What the tolerance is of"))
        self.newtons = QLabel()
        self.newtons.setObjectName("look")
        self.newtons.setAccessibleName(tr("In newtons"))
        self.newtons.setWordWrap(True)
        grid = FoldedGrid(self, stretches=(0, 1, 1, 0), across_px=8, down_px=4)
        grid.add(self.shape, 0, 0)
        grid.add(self.low_end, 0, 1)
        grid.add(self.high_end, 0, 2)
        grid.add(self.unit, 0, 3)
        grid.add(self.tolerance, 1, 1)
        grid.add(self.of, 1, 2, span=2)
        grid.add(self.newtons, 2, 0, span=4)
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
        upper = intensity.upper if shape is Shape.RANGE else None
        self.low_end.set_number(intensity.lower, digits=DIGITS)
        self.high_end.set_number(upper, digits=DIGITS)
        self.tolerance.set_number(intensity.tolerance, digits=DIGITS)
        self.of.setCurrentIndex(max(0, self.of.findData(intensity.tolerance_of)))
        self._filling = False
        self._follow()

    def set_lowering(self, *, lowering: bool) -> None:
        """Whether it is of a lowering: that has a floor and nothing else."""
        if lowering == self._lowering:
            return
        self._lowering = lowering
        if lowering:
            filling, self._filling = self._filling, True
            self.shape.setCurrentIndex(self.shape.findData(Shape.AT_LEAST))
            self._filling = filling
        self._follow()

    def show_references(
        self, references: Sequence[tuple[str, float | None, str]]
    ) -> None:
        """Of each side its name, the newtons of 100 %, and why there are none."""
        self._references = references
        self._follow()

    def read(self) -> Intensity | None:
        """The intensity as it was typed; None after a complaint in a field."""
        self.calm()
        shape, unit = self.shape.currentData(), self.unit.currentData()
        lower = self.low_end.number()
        upper: float | None = lower
        if shape is Shape.RANGE:
            upper = self.high_end.number()
        elif shape is Shape.AT_LEAST:
            upper = None
        tolerance = None
        if shape is not Shape.AT_LEAST:
            empty = math.nan if shape is Shape.RANGE else None
            tolerance = self.tolerance.number(empty=empty)
        if any(field.error.text() for field in self._fields) or lower is None:
            return None
        if shape is Shape.RANGE and upper == lower:
            self.high_end.complain(self.tr("Must lie above the lower end."))
            return None
        of = self.of.currentData() if tolerance is not None else ToleranceOf.CENTRE
        try:
            return Intensity(lower, upper, unit, tolerance, of)
        except FieldError as error:
            self.complain(error)
            return None

    def calm(self) -> None:
        """Nothing is complained of any more."""
        for field in self._fields:
            field.complain("")

    @property
    def in_order(self) -> tuple[QWidget, ...]:
        """All that is typed in or chosen, as one reads."""
        low, high, tolerance = (field.line for field in self._fields)
        return self.shape, low, high, self.unit, tolerance, self.of

    @property
    def _fields(self) -> tuple[Field, ...]:
        return self.low_end, self.high_end, self.tolerance

    def complain(self, error: FieldError) -> None:
        """Says what is wrong beside its field."""
        fields = {"upper": self.high_end, "tolerance": self.tolerance}
        field = fields.get(error.field.removeprefix("intensity."), self.low_end)
        if field.isHidden():
            field = self.low_end
        field.complain(sentences(error.problem, error.next_step))

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
            self.of.addItem(shown(one.value), userData=one)
        self.of.setCurrentIndex(max(0, self.of.findData(chosen)))
        self.of.blockSignals(blocked)

    def _follow(self) -> None:
        """What there is to see, and the newtons of what stands in the fields."""
        shape = self.shape.currentData()
        self.shape.setVisible(not self._lowering)
        self.high_end.setVisible(shape is Shape.RANGE)
        self.tolerance.setVisible(shape is not Shape.AT_LEAST)
        self.of.setVisible(shape is not Shape.AT_LEAST)
        words = {
            Shape.CENTRE: self.tr("Centre"),
            Shape.RANGE: self.tr("From"),
            Shape.AT_LEAST: self.tr("Floor") if self._lowering else self.tr("At least"),
        }
        self.low_end.label.setText(words[shape])
        self.low_end.line.setAccessibleName(words[shape])
        self.newtons.setText(self._in_newtons())

    def _in_newtons(self) -> str:
        told = [field.error.text() for field in self._fields]
        intensity = self.read()
        # Reading complains; while one types that would be a nuisance.
        for field, before in zip(self._fields, told, strict=True):
            field.complain(before)
        if intensity is None:
            return ""
        if not intensity.wants_reference:
            return newtons_in_range(intensity, None)
        parts = []
        for name, reference_n, missing in self._references:
            side = f"{name}: " if name else ""
            if reference_n is None:
                needs = self.tr("{side}needs a reference. {missing}")
                parts.append(filled(needs, side=side, missing=missing).strip())
                continue
            parts.append(
                filled(
                    self.tr("{side}{words}; 100 % is {reference} N"),
                    side=side,
                    words=newtons_in_range(intensity, reference_n),
                    reference=number(reference_n),
                )
            )
        return "\n".join(parts)
