"""One input field: what was typed is kept, and what is wrong is said beside it."""

from __future__ import annotations

import math

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from biofeedback.gui.language import plain_number, shown, typed_number

LEAST = "12.5"
"""A line has room for as long a number, in any type."""


class _Line(QLineEdit):
    """Never too narrow for a number."""

    def minimumSizeHint(self) -> QSize:
        """Qt's is that of the widest letter."""
        least, letters = super().minimumSizeHint(), self.fontMetrics()
        more = letters.horizontalAdvance(LEAST) - letters.maxWidth()
        return least + QSize(max(0, more), 0)


class Field(QWidget):
    """A label, a line to type in, a unit, and room for a word about an error.

    Signals:
        committed: Enter was pressed or the field was left with a new text.
        complained: what is said to be wrong is another thing now.

    Attributes:
        enter_only: leaving the field does not commit it. For values that act at
            once: a number that is half typed must not.
        error: the words of the error. Where they would push other things away,
            whoever holds the field shows them at a place of their own; the field
            has its mark and its tip all the same.
    """

    committed = Signal()
    complained = Signal()

    def __init__(
        self,
        label: str,
        *,
        unit: str = "",
        tip: str = "",
        error_below: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._error_below = error_below
        self._tip: str | None = None
        self.line = _Line()
        self.line.setAccessibleName(label)
        # A menu would catch the stop key while it is open.
        self.line.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)
        self.line.setToolTip(tip)
        self.label = QLabel(label)
        self.label.setBuddy(self.line)
        self.label.setToolTip(tip)
        self.unit = QLabel(unit)
        self.error = QLabel(self)
        self.error.setObjectName("error")
        self.error.setTextFormat(Qt.TextFormat.PlainText)  # it tells what was typed
        self.error.setWordWrap(True)
        self.error.hide()
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setHorizontalSpacing(5)
        layout.setVerticalSpacing(1)
        layout.addWidget(self.label, 0, 0)
        layout.addWidget(self.line, 0, 1)
        if unit:
            layout.addWidget(self.unit, 0, 2)
        if error_below:
            layout.addWidget(self.error, 1, 0, 1, 3 if unit else 2)
        layout.setColumnStretch(1, 1)
        self.enter_only = False
        self._committed_text = ""
        self._entered = False
        # Qt tells of Enter first and of the end of editing right after it.
        self.line.returnPressed.connect(self._enter)
        self.line.editingFinished.connect(self._finish)
        # What is being put right is not complained of any more.
        self.line.textEdited.connect(lambda: self.complain(""))

    @property
    def text(self) -> str:
        """What stands in the line, without blanks around it."""
        return self.line.text().strip()

    def set_text(self, text: str) -> None:
        """Puts a value in; it is taken as committed and right."""
        self.line.setText(text)
        self.line.setCursorPosition(0)  # of a long text the beginning is seen
        self._committed_text = text
        self.complain("")

    def set_number(self, value: float | None, *, digits: int = 1) -> None:
        """Puts a number in, without needless zeros; None leaves it empty."""
        self.set_text("" if value is None else plain_number(value, digits=digits))

    def complain(self, problem: str) -> None:
        """Says what is wrong, or with nothing that all is well."""
        words = as_sentence(problem)
        if words == self.error.text():
            return
        self.error.setText(words)
        self.error.setVisible(bool(words) and self._error_below)
        if self._tip is None:
            self._tip = self.line.toolTip()
        self.line.setToolTip(words or self._tip)
        if not words:
            self._tip = None
        self.line.setProperty("wrong", bool(words))
        self.line.style().unpolish(self.line)  # the style sheet looks again
        self.line.style().polish(self.line)
        self.complained.emit()

    def number(self, *, empty: float | None = None) -> float | None:
        """The number that was typed; a complaint and NaN where it is none.

        Args:
            empty: the answer for an empty line where that is allowed.
        """
        if not self.text and empty is not None:
            self.complain("")
            return None if math.isnan(empty) else empty
        try:
            value = typed_number(self.text)
        except ValueError as error:
            self.complain(str(error))
            return math.nan
        self.complain("")
        return value

    def _enter(self) -> None:
        self._entered = True

    def _finish(self) -> None:
        entered, self._entered = self._entered, False
        if self.enter_only and not entered:
            return
        if self.line.text() != self._committed_text:
            self._committed_text = self.line.text()
            self.committed.emit()


def as_sentence(problem: str) -> str:
    """In the language of the interface, with a capital letter and a full stop."""
    words = shown(problem).strip()
    if not words:
        return ""
    return words[0].upper() + words[1:] + ("" if words.endswith(".") else ".")
