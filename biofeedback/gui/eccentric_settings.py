"""What can be set of the check: days apart, the lines, and what a line is for."""

from __future__ import annotations

import math

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.language import said
from biofeedback.measures.eccentric_check import (
    STARTING_LINES,
    WITHIN_DAYS_MOST,
    CheckSettings,
    LineOn,
    MassLine,
)

OWN = "set here"
"""The source of a line that somebody has moved."""


class EccentricSettings(QWidget):
    """The fields; a value that does not fit is complained of and changes nothing.

    Signals:
        changed: other settings are wanted.
    """

    changed = Signal(CheckSettings)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._settings = CheckSettings()
        self.days = Field(
            tr("Apart at most"),
            unit=tr("days"),
            tip=tr("How far apart the two results may be; 0 for the same day"),
        )
        self.days.committed.connect(self._commit)
        self.line_on = QComboBox()
        self.line_on.setAccessibleName(tr("The lines are for"))
        self.line_on.addItem(tr("each side"), LineOn.EACH_SIDE)
        self.line_on.addItem(tr("both sides together"), LineOn.TOTAL)
        self.line_on.activated.connect(self._commit)
        self.lines: list[Field] = []
        self._lines_column = QVBoxLayout()
        self._lines_column.setSpacing(3)
        on = QHBoxLayout()
        on.addWidget(QLabel(tr("The lines are for")))
        on.addWidget(self.line_on, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.days)
        column.addLayout(self._lines_column)
        column.addLayout(on)
        self.show_settings(self._settings)

    def show_settings(self, settings: CheckSettings) -> None:
        """What is set now."""
        self._settings = settings
        self.days.set_number(settings.within_days, digits=0)
        self.line_on.setCurrentIndex(self.line_on.findData(settings.line_on))
        while len(self.lines) > len(settings.lines):
            self.lines.pop().deleteLater()
        while len(self.lines) < len(settings.lines):
            field = Field("", unit="N")
            field.committed.connect(self._commit)
            self.lines.append(field)
            self._lines_column.addWidget(field)
        for field, line in zip(self.lines, settings.lines, strict=True):
            name = self.tr("Line, {name}").format(name=said(line.name))
            field.label.setText(name)
            field.line.setAccessibleName(name)
            field.line.setToolTip(said(line.source))
            field.set_number(line.force_n)

    def _commit(self) -> None:
        days = self.days.number()
        forces = [field.number() for field in self.lines]
        if days is None or not all(map(_known, (days, *forces))):
            return
        if days != int(days) or not 0 <= days <= WITHIN_DAYS_MOST:
            words = self.tr("Please give a whole number, 0 to {most}.")
            self.days.complain(words.format(most=WITHIN_DAYS_MOST))
            return
        lines: list[MassLine] = []
        for field, line, force_n in zip(
            self.lines, self._settings.lines, forces, strict=True
        ):
            try:
                lines.append(_moved(line, force_n or 0.0))
            except FieldError as error:
                field.complain(error.problem)
                return
        wanted = CheckSettings(int(days), tuple(lines), self.line_on.currentData())
        if wanted != self._settings:
            self.show_settings(wanted)
            self.changed.emit(wanted)


def _moved(line: MassLine, force_n: float) -> MassLine:
    """The line at another force, with the source that is then right."""
    if force_n == line.force_n:
        return line
    for start in STARTING_LINES:
        if (start.name, start.force_n) == (line.name, force_n):
            return start
    return MassLine(line.name, force_n, OWN)


def _known(value: float | None) -> bool:
    return value is not None and not math.isnan(value)
