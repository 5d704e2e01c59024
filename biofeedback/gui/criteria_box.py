"""The criteria of a stage: how each stands, in a mark and in words, and new ones."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.enum_box import narrow
from biofeedback.gui.field import Field
from biofeedback.gui.folded_grid import FoldedGrid
from biofeedback.gui.language import filled, shown
from biofeedback.gui.reference_rule_form import number, whole
from biofeedback.gui.task_titles import task_name, task_titles
from biofeedback.phrase import sentences
from biofeedback.training.criteria import (
    KINDS,
    Against,
    Criterion,
    HoldsComplete,
    Met,
    PainAtMost,
    Regained,
    Word,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.training.criteria import Judged

MARKS = {Met.MET: "●", Met.NOT_MET: "○", Met.UNKNOWN: "–"}
"""A full mark, an empty one, a line: told by shape, and by the word beside it."""


class CriteriaBox(QWidget):
    """A list of criteria and a row for a new one.

    Signals:
        added: a `Criterion` without a key.
        removed: the key of one.
        said: key of a practitioner's word, and whether it is met.
    """

    added = Signal(object)
    removed = Signal(str)
    said = Signal(str, bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._list = QVBoxLayout()
        self._list.setSpacing(3)
        self.kind = QComboBox()
        self.kind.setAccessibleName(tr("Kind of criterion"))
        for kind in KINDS:
            self.kind.addItem(shown(kind.kind), userData=kind)
        self.first = Field(tr("at most"))
        self.second = Field(tr("sessions"))
        self.task = QComboBox()
        narrow(self.task)
        self.task.setEditable(True)
        self.task.setAccessibleName(tr("Task"))
        self.against = QComboBox()
        self.against.setAccessibleName(tr("Against"))
        for against in Against:
            self.against.addItem(shown(against.value), userData=against)
        self.text = Field(tr("Says"))
        self.add = QPushButton(tr("Add criterion"))
        grid = FoldedGrid(stretches=(0, 1, 1, 0), across_px=8)
        grid.add(self.kind, 0, 0)
        grid.add(self.first, 0, 1)
        grid.add(self.second, 0, 2)
        grid.add(self.against, 0, 2)
        grid.add(self.task, 1, 0, span=3)
        grid.add(self.text, 1, 0, span=3)
        grid.add(self.add, 0, 3)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(self._list)
        column.addLayout(grid)
        self.kind.currentIndexChanged.connect(self._follow)
        self.add.clicked.connect(self._add)
        self._follow()

    @property
    def in_order(self) -> tuple[QWidget, ...]:
        """The fields of a new one, as one reads."""
        lines = self.first.line, self.second.line, self.against
        return (self.kind, *lines, self.add, self.task, self.text.line)

    def offer(self, tasks: Sequence[str]) -> None:
        """Names of tasks for a force to be regained in."""
        typed = self.task.currentText()
        self.task.clear()
        self.task.addItems(task_titles(tasks))
        if typed:
            self.task.setCurrentText(typed)

    def show_judged(self, judged: Sequence[Judged], *, editable: bool) -> None:
        """All criteria of a stage.

        Args:
            editable: whether the practitioner's word can be given now: the plan is
                saved and the stage is under way.
        """
        while (item := self._list.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        for one in judged:
            self._list.addWidget(self._row(one, editable=editable))
        if not judged:
            nothing = QLabel(self.tr("No criterion yet: you decide alone."))
            nothing.setObjectName("summary")
            self._list.addWidget(nothing)

    def _row(self, judged: Judged, *, editable: bool) -> QWidget:
        criterion, tr = judged.criterion, self.tr
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        words = QLabel(
            filled(
                tr("{mark} {state}: {criterion} {why}"),
                mark=MARKS[judged.met],
                state=judged.met.value,
                criterion=criterion.words,
                why=judged.why,
            )
        )
        words.setTextFormat(Qt.TextFormat.PlainText)
        words.setWordWrap(True)
        line.addWidget(words, 1)
        if isinstance(criterion, Word) and editable:
            for name, met in ((tr("It is so"), True), (tr("Not yet"), False)):
                button = QPushButton(name)
                button.setAccessibleName(f"{name}: {shown(criterion.words)}")
                button.clicked.connect(
                    lambda _=False, met=met: self.said.emit(criterion.key, met)
                )
                line.addWidget(button)
        remove = QPushButton(tr("Take out"))
        remove.setAccessibleName(f"{tr('Take out')}: {shown(criterion.words)}")
        remove.clicked.connect(lambda: self.removed.emit(criterion.key))
        line.addWidget(remove)
        return row

    def _follow(self) -> None:
        """The fields that a kind needs."""
        kind = self.kind.currentData()
        tr = self.tr
        self.first.setVisible(kind is not Word)
        self.second.setVisible(kind in {PainAtMost, HoldsComplete})
        self.against.setVisible(kind is Regained)
        self.task.setVisible(kind is Regained)
        self.text.setVisible(kind is Word)
        first = tr("at most") if kind is PainAtMost else tr("at least, %")
        self.first.label.setText(first)
        self.first.line.setAccessibleName(first)
        self.second.label.setText(tr("in the last sessions"))
        for field in (self.first, self.second, self.text):
            field.complain("")

    def _add(self) -> None:
        fields = (self.first, self.second, self.text)
        for field in fields:
            field.complain("")
        try:
            criterion = self._typed()
        except FieldError as error:
            own = {"criterion.sessions": self.second, "criterion.text": self.text}
            problem = sentences(error.problem, error.next_step)
            own.get(error.field, self.first).complain(problem)
            return
        self.added.emit(criterion)

    def clear_new(self) -> None:
        """The new one was taken: the fields are empty for the next."""
        for field in (self.first, self.second, self.text):
            field.set_text("")

    def _typed(self) -> Criterion:
        kind = self.kind.currentData()
        if kind is Word:
            return Word(self.text.text)
        if kind is Regained:
            return Regained(
                _number(self.first, "criterion.least_pct"),
                self.against.currentData(),
                task_name(self.task.currentText()),
            )
        if kind is PainAtMost:
            return PainAtMost(
                whole(self.first, "criterion.most"),
                whole(self.second, "criterion.sessions"),
            )
        return HoldsComplete(
            _number(self.first, "criterion.least_pct"),
            whole(self.second, "criterion.sessions"),
        )


def _number(field: Field, name: str) -> float:
    value = number(field, name)
    return 0.0 if value is None else value
