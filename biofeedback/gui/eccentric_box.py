"""Isometric against eccentric: the numbers of paired results, and what they may mean.

It shows and decides nothing: where an eccentric peak is not above the isometric one
all readings are listed, always in the same order and none marked.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.eccentric_settings import EccentricSettings
from biofeedback.gui.language import shown
from biofeedback.gui.lowering_words import (
    difference_words,
    finding_words,
    force_words,
    line_words,
    mass_words,
    missing_words,
    part_words,
    reading_words,
    readings_title,
    told_words,
)
from biofeedback.gui.task_titles import task_title
from biofeedback.measures.eccentric_check import CheckSettings, LineOn
from biofeedback.training.lowering import Told

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from biofeedback.measures.eccentric_check import EccentricCheck, PartCheck
    from biofeedback.session.lowering import Paired

_HEADS = ("", "Isometric", "Eccentric", "Difference", "")


class EccentricBox(QWidget):
    """The paired results of a day.

    Signals:
        settings_wanted: other settings; whoever keeps them shows the results anew.
    """

    settings_wanted = Signal(CheckSettings)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Isometric against eccentric"))
        self._paired: tuple[Paired, ...] = ()
        heading = QLabel(tr("Isometric against eccentric"))
        heading.setObjectName("who")
        self.which = QComboBox()
        self.which.setAccessibleName(tr("Task"))
        self.which.currentIndexChanged.connect(self._show)
        self.what = self._label("summary")
        self.finding = self._label("look")
        self.numbers = QWidget()
        self._grid = QGridLayout(self.numbers)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(14)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(len(_HEADS) - 1, 1)
        self.readings = self._label()
        self.rep = self._label()
        self.lines = self._label("summary")
        self.advice = self._label("summary")
        self.advice.setText(
            tr(
                "The practitioner decides. Newtons alone do not compare people: mass, "
                "lever and angle matter."
            )
        )
        self.settings = EccentricSettings()
        self.settings.changed.connect(self.settings_wanted)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        for part in (
            heading,
            self.which,
            self.what,
            self.numbers,
            self.finding,
            self.rep,
            self.readings,
            self.lines,
            self.advice,
            self.settings,
        ):
            column.addWidget(part)
        column.addStretch(1)
        self.show_paired((), CheckSettings())

    def _label(self, name: str = "") -> QLabel:
        label = QLabel()
        label.setObjectName(name)
        label.setWordWrap(True)
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        return label

    def show_paired(self, paired: Sequence[Paired], settings: CheckSettings) -> None:
        """The results of a day; the chosen task stays where it can."""
        chosen = self.which.currentText()
        self._paired = tuple(paired)
        self.settings.show_settings(settings)
        self.which.blockSignals(True)
        self.which.clear()
        self.which.addItems([_name(one) for one in self._paired])
        self.which.setCurrentIndex(max(0, self.which.findText(chosen)))
        self.which.blockSignals(False)
        self.which.setVisible(len(self._paired) > 1)
        self._show()

    def _show(self) -> None:
        at = self.which.currentIndex()
        one = self._paired[at] if 0 <= at < len(self._paired) else None
        for label in (self.what, self.finding, self.rep, self.readings, self.lines):
            label.clear()
        if one is None:
            self.what.setText(self.tr("No lowering rep on this day."))
        else:
            self._show_one(one)
        shown = one.check.parts if one is not None and one.check else ()
        self._fill(shown)
        for label in (self.finding, self.rep, self.readings, self.lines):
            label.setVisible(bool(label.text()))

    def _show_one(self, one: Paired) -> None:
        tr = self.tr
        if one.missing is not None or one.check is None or one.isometric is None:
            self.what.setText(_dated(_name(one), one.day))
            if one.missing is not None:
                self.finding.setText(missing_words(one.missing))
            return
        self.what.setText(
            tr("{eccentric}, against {isometric}{practice}{mass}").format(
                eccentric=_dated(_name(one), one.day),
                isometric=_dated(task_title(one.isometric.task), one.isometric_day),
                practice=tr(", a first test") if one.isometric.practice else "",
                mass=mass_words(one.check.mass),
            )
        )
        self.finding.setText(finding_words(one.check))
        if one.line is not None and one.line.told is not Told.KEPT:
            words = tr("That lowering rep: {words}.")
            self.rep.setText(words.format(words=told_words(one.line)))
        if one.check.readings:
            listed = [f"•  {reading_words(each)}" for each in one.check.readings]
            self.readings.setText("\n".join((readings_title(), *listed)))
        self.lines.setText(self._lines_words(one.check))

    def _lines_words(self, check: EccentricCheck) -> str:
        if not check.settings.lines:
            return ""
        title = {
            LineOn.EACH_SIDE: self.tr(
                "Isometric peaks of each side from which body mass may no longer "
                "suffice. Practice does not say whether a side or both are meant; it "
                "is set below:"
            ),
            LineOn.TOTAL: self.tr(
                "Isometric peaks of both sides together from which body mass may no "
                "longer suffice. Practice does not say whether a side or both are "
                "meant; it is set below:"
            ),
        }[check.settings.line_on]
        listed = [
            f"•  {line_words(line, check.lines)}" for line in check.settings.lines
        ]
        return "\n".join((title, *listed))

    def _fill(self, parts: Sequence[PartCheck]) -> None:
        while self._grid.count():
            item = self._grid.takeAt(0)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.deleteLater()
        self.numbers.setVisible(bool(parts))
        if not parts:
            return
        rows = [
            (
                part_words(part.part),
                force_words(part.isometric_n, part.isometric_n_per_kg),
                force_words(part.eccentric_n, part.eccentric_n_per_kg),
                difference_words(part),
                self.tr("▲ above") if part.above else self.tr("▽ not above"),
            )
            for part in parts
        ]
        for row, texts in enumerate([tuple(shown(head) for head in _HEADS), *rows]):
            for column, text in enumerate(texts):
                label = QLabel(text)
                label.setObjectName("look" if row == 0 or column == 0 else "")
                label.setAlignment(
                    Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
                )
                self._grid.addWidget(label, row, column)


def _name(one: Paired) -> str:
    """The task, with its side where one works alone."""
    task = one.eccentric.task
    return (
        shown(task.name)
        if task.sides.value == "both"
        else f"{shown(task.name)}, {shown(task.sides.value)}"
    )


def _dated(name: str, day: date | None) -> str:
    return name if day is None else f"{name} ({day.isoformat()})"
