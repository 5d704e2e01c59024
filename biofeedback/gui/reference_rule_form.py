"""Where the 100 % of a planned prescription is to be looked for, as fields."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QDate, Qt, Signal
from PySide6.QtWidgets import QComboBox, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.enum_box import choose, enum_box, labelled, narrow
from biofeedback.gui.field import Field, as_sentence
from biofeedback.gui.folded_grid import FoldedGrid
from biofeedback.gui.language import as_said
from biofeedback.gui.plain_label import plain_label
from biofeedback.gui.task_titles import task_name, task_title, task_titles
from biofeedback.phrase import phrase, sentences
from biofeedback.training.planned import ReferenceRule
from biofeedback.training.reference import Definition, Origin

if TYPE_CHECKING:
    from collections.abc import Sequence

DIGITS = 6
"""As many as anyone types: what is shown is what is read again."""
ORIGIN_CHARACTERS = 13
"""Of the widest letter: room for the words of most."""
_TESTED = {Origin.OWN_SIDE, Origin.OTHER_SIDE, Origin.OTHER_TASK}


class ReferenceRuleForm(QWidget):
    """Fields for a rule.

    Signals:
        edited: something was typed or chosen.
    """

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._before = ReferenceRule()
        self._filling = False
        self.origin = enum_box(Origin, tr("100 % is"))
        self.origin.setMinimumContentsLength(ORIGIN_CHARACTERS)
        self.definition = enum_box(Definition, tr("Definition of the 100 %"))
        self.weeks = Field(tr("of the last"), unit=tr("weeks"))
        self.typed = Field(
            tr("100 % is"), unit="N", tip=tr("Empty: the one typed for the side.")
        )
        self.factor = Field(
            tr("times the weight"), tip=tr("Of the body: 0.7 for 70 % of it.")
        )
        self.other = QComboBox()
        narrow(self.other)
        self.other.setEditable(True)
        self.other.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.other.setAccessibleName(tr("Other task"))
        self.other_error = plain_label(look="error")
        self.other_error.hide()
        grid = FoldedGrid(self, stretches=(1, 1, 1), across_px=12, down_px=4)
        grid.add(labelled(tr("100 % is"), self.origin), 0, 0)
        for widget in (self.weeks, self.typed, self.factor):
            grid.add(widget, 0, 1)
        self._by = labelled(tr("by"), self.definition)
        grid.add(self._by, 0, 2)
        grid.add(self.other, 1, 0, span=3)
        grid.add(self.other_error, 2, 0, span=3)
        for field in (self.weeks, self.typed, self.factor):
            field.line.textEdited.connect(self._edited)
        self.origin.currentIndexChanged.connect(self._edited)
        self.definition.currentIndexChanged.connect(self._edited)
        self.other.currentTextChanged.connect(self._edited)
        self._follow()

    def offer(self, tasks: Sequence[str]) -> None:
        """Tasks to choose from."""
        self._filling = True
        typed = self.other.currentText()
        self.other.clear()
        self.other.addItems(task_titles(tasks))
        self.other.setCurrentText(typed)
        self._filling = False

    def show_rule(self, rule: ReferenceRule) -> None:
        """Puts a rule into the fields."""
        self._filling, self._before = True, rule
        choose(self.origin, rule.origin)
        choose(self.definition, rule.definition)
        self.weeks.set_number(rule.within_weeks)
        self.typed.set_number(rule.typed_n, digits=DIGITS)
        self.factor.set_number(rule.body_mass_factor, digits=DIGITS)
        self.other.setCurrentText(task_title(rule.other_task))
        self._complain_of_other("")
        self._filling = False
        self._follow()

    def read(self) -> ReferenceRule:
        """The rule as it was typed.

        Raises:
            FieldError: names the field that does not fit; nothing is said beside it.
        """
        origin = self.origin.currentData()
        typed_n, factor, weeks = None, None, self._before.within_weeks
        if origin in _TESTED:
            weeks = whole(self.weeks, "reference.within_weeks")
        if origin is Origin.TYPED:
            typed_n = number(self.typed, "reference.typed_n", empty=True)
        elif self._before.origin is not Origin.TYPED:
            typed_n = self._before.typed_n  # on offer where nothing else is found
        if origin is Origin.BODY_MASS:
            factor = number(self.factor, "reference.body_mass_factor", empty=True)
        return ReferenceRule(
            origin,
            self.definition.currentData(),
            weeks,
            task_name(self.other.currentText()) if origin is Origin.OTHER_TASK else "",
            factor,
            typed_n,
            self._date_of(typed_n),
        )

    def complain(self, error: FieldError) -> bool:
        """Says what is wrong beside its field; False where it belongs to none."""
        words = sentences(error.problem, error.next_step)
        fields = {
            "reference.within_weeks": self.weeks,
            "reference.typed_n": self.typed,
            "reference.body_mass_factor": self.factor,
        }
        if error.field in fields:
            fields[error.field].complain(words)
        elif error.field == "reference.other_task":
            self._complain_of_other(words)
        else:
            return False
        return True

    def calm(self) -> None:
        """Nothing is complained of any more."""
        for field in (self.weeks, self.typed, self.factor):
            field.complain("")
        self._complain_of_other("")

    @property
    def in_order(self) -> tuple[QWidget, ...]:
        """All that is typed in or chosen, as one reads."""
        lines = (field.line for field in (self.weeks, self.typed, self.factor))
        return (self.origin, *lines, self.definition, self.other)

    def _complain_of_other(self, words: str) -> None:
        self.other_error.setText(as_sentence(words))
        self.other_error.setVisible(bool(words))

    def _date_of(self, typed_n: float | None) -> str:
        """A number keeps the date it was typed on; another one is of today."""
        if typed_n is None:
            return ""
        if typed_n == self._before.typed_n and self._before.typed_on:
            return self._before.typed_on
        return QDate.currentDate().toString(Qt.DateFormat.ISODate)

    def _edited(self) -> None:
        if not self._filling:
            self._complain_of_other("")
            self._follow()
            self.edited.emit()

    def _follow(self) -> None:
        origin = self.origin.currentData()
        self.weeks.setVisible(origin in _TESTED)
        self.typed.setVisible(origin is Origin.TYPED)
        self.factor.setVisible(origin is Origin.BODY_MASS)
        self.other.setVisible(origin is Origin.OTHER_TASK)
        measured = origin in _TESTED or origin is Origin.TYPED
        for at in range(self._by.count()):
            item = self._by.itemAt(at)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.setVisible(measured)


def number(field: Field, name: str, *, empty: bool = False) -> float | None:
    """The number that was typed.

    Args:
        empty: whether nothing at all may stand there, which gives None.

    Raises:
        FieldError: it is none.
    """
    value = field.number(empty=math.nan if empty else None)
    if value is not None and math.isnan(value):
        raise FieldError(name, as_said(field.error.text()))
    return value


def whole(field: Field, name: str) -> int:
    """The whole number that was typed.

    Raises:
        FieldError: it is none.
    """
    value = number(field, name)
    if value is None or value % 1 or abs(value) > 1e6:
        raise FieldError(name, phrase("must be a whole number."))
    return int(value)
