"""What is set before a calibration: cell, known loads, their tolerance, the place."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from biofeedback.conditioning.calibration_guide import Plan
from biofeedback.conditioning.gravity import Gravity, local_gravity
from biofeedback.conditioning.known_load import loads_of_forces, loads_of_masses
from biofeedback.conditioning.masses import MassClass
from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.phrase import sentences

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import RigProfile

RUNS = 3
"""As many as repeatability and the classes ask for."""
TOLERANCE_PCT = 2.0
"""Of gym plates as they are sold: common practice, no source. Weighed ones have
the tolerance of the scale."""


class CalibrationForm(QWidget):
    """The fields; `plan` reads them.

    Signals:
        changed: the words about gravity may be others now.
    """

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.cell = QComboBox()
        self.cell.setAccessibleName(tr("Cell"))
        self.kind = QComboBox()
        self.kind.setAccessibleName(tr("Known loads"))
        self.kind.addItems([tr("masses in kg"), tr("forces in N, reference cell")])
        self.loads = Field(
            tr("Loads"),
            unit="kg",
            tip=tr("With a blank between; a stack as 10+5: 5 10 10+5 20"),
        )
        self.loads.set_text("5 10 15 20 25")
        self.tolerance_kind = QComboBox()
        self.tolerance_kind.setAccessibleName(tr("Tolerance"))
        self.tolerance_kind.addItem(tr("± %"))
        self.tolerance_kind.addItems([f"OIML {known.value}" for known in MassClass])
        self.tolerance = Field(
            tr("Tolerance"),
            unit="± %",
            tip=tr("Plates as sold: about 2 %. Weighed plates: that of the scale."),
        )
        self.tolerance.set_number(TOLERANCE_PCT)
        self.latitude = Field(tr("Latitude"), unit="°", tip=tr("Empty: 9.80665 m/s²"))
        self.altitude = Field(tr("Altitude"), unit="m", tip=tr("Above the sea"))
        self.runs = Field(tr("Runs"), tip=tr("Three show how well it repeats"))
        self.runs.set_number(RUNS, digits=0)
        self.gravity_words = QLabel()
        self.gravity_words.setObjectName("summary")
        self.gravity_words.setWordWrap(True)
        self._lay_out()
        self._connect()
        self._show_kind()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for label, box in ((self.tr("Cell"), self.cell), (self.tr("With"), self.kind)):
            row = QHBoxLayout()
            row.addWidget(QLabel(label))
            row.addWidget(box, 1)
            column.addLayout(row)
        column.addWidget(self.loads)
        row = QHBoxLayout()
        row.addWidget(self.tolerance, 1)
        row.addWidget(self.tolerance_kind)
        column.addLayout(row)
        column.addWidget(self.runs)
        column.addWidget(self.latitude)
        column.addWidget(self.altitude)
        column.addWidget(self.gravity_words)

    def _connect(self) -> None:
        self.kind.currentIndexChanged.connect(self._show_kind)
        self.tolerance_kind.currentIndexChanged.connect(self._show_kind)
        for field in (self.latitude, self.altitude):
            field.committed.connect(self._show_gravity)

    @property
    def reference(self) -> bool:
        """Whether the forces are read from a reference cell."""
        return self.kind.currentIndex() == 1

    @property
    def mass_class(self) -> MassClass | None:
        """The class of the masses, or None where a tolerance in % is given."""
        index = self.tolerance_kind.currentIndex()
        return list(MassClass)[index - 1] if index > 0 and not self.reference else None

    def show_cells(self, profile: RigProfile) -> None:
        """The cells of the rig; the choice stays where it can."""
        names = [channel.words for channel in profile.channels]
        if [shown(name) for name in names] != [
            self.cell.itemText(i) for i in range(self.cell.count())
        ]:
            self.cell.clear()
            self.cell.addItems([shown(name) for name in names])

    def lock(self, *, locked: bool) -> None:
        """Nothing of the plan changes while it is carried out."""
        self.setEnabled(not locked)

    def _show_kind(self) -> None:
        self.loads.unit.setText("N" if self.reference else "kg")
        self.tolerance_kind.setVisible(not self.reference)
        self.tolerance.unit.setVisible(self.reference)
        self.tolerance.line.setEnabled(self.mass_class is None)
        for field in (self.latitude, self.altitude):
            field.setVisible(not self.reference)
        self._show_gravity()

    def _show_gravity(self) -> None:
        if self.reference:
            words = self.tr("A reference cell tells newtons; no gravity is needed.")
        else:
            gravity = self.gravity()
            words = "" if gravity is None else shown(gravity.words)
        self.gravity_words.setText(f"{words[:1].upper()}{words[1:]}")
        self.changed.emit()

    def gravity(self) -> Gravity | None:
        """Which gravity is used; None after a complaint in a field."""
        self.latitude.complain("")
        self.altitude.complain("")
        if not self.latitude.text and not self.altitude.text:
            return Gravity.standard()
        latitude, altitude = self.latitude.number(), self.altitude.number()
        if latitude is None or altitude is None or math.isnan(latitude + altitude):
            return None
        try:
            return local_gravity(latitude_deg=latitude, altitude_m=altitude)
        except FieldError as error:
            wrong = self.latitude if error.field == "latitude" else self.altitude
            wrong.complain(error.problem)
            return None

    def tolerance_pct(self) -> float | None:
        """The tolerance in %; None after a complaint."""
        value = self.tolerance.number()
        if value is None or math.isnan(value):
            return None
        if not 0 <= value <= 100:
            self.tolerance.complain(self.tr("Please give 0 to 100 %."))
            return None
        return value

    def plan(self) -> Plan | None:
        """What the fields ask for; None after a complaint in one of them."""
        self.loads.complain("")
        self.runs.complain("")
        tolerance, gravity, runs = self.tolerance_pct(), self.gravity(), self._runs()
        if tolerance is None or gravity is None or runs is None:
            return None
        try:
            loads = (
                loads_of_forces(self.loads.text)
                if self.reference
                else loads_of_masses(
                    self.loads.text,
                    gravity,
                    mass_class=self.mass_class,
                    tolerance_pct=tolerance,
                )
            )
            return Plan(
                max(0, self.cell.currentIndex()),
                loads,
                runs=runs,
                reference=self.reference,
            )
        except FieldError as error:
            wrong = self.runs if error.field == "runs" else self.loads
            wrong.complain(sentences(error.problem, error.next_step))
            return None

    def _runs(self) -> int | None:
        value = self.runs.number()
        if value is None or math.isnan(value):
            return None
        if value != int(value):
            self.runs.complain(self.tr("Please give a whole number."))
            return None
        return int(value)
