"""One question that is answered by a number from 0 to 10."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

MOST = 10


class AnswerRow(QWidget):
    """A question and eleven buttons; one stop for the Tab key.

    A digit answers, the arrows move the answer, Del takes it back, and so does a
    second press of the same button. + answers 10, which has no key of its own.

    Signals:
        answered: another answer, or none, stands now.
    """

    answered = Signal()

    def __init__(self, question: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._value: int | None = None
        self.setObjectName("answers")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.question = QLabel(question)
        self.question.setWordWrap(True)
        self.words = QLabel()
        self.words.setObjectName("summary")
        self.buttons = [QPushButton(str(level)) for level in range(MOST + 1)]
        row = QHBoxLayout(self)
        row.setContentsMargins(3, 1, 3, 1)
        row.setSpacing(3)
        row.addWidget(self.question, 1)
        for level, button in enumerate(self.buttons):
            button.setObjectName("pain")
            button.setCheckable(True)
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            button.clicked.connect(lambda _=False, at=level: self._press(at))
            row.addWidget(button)
        row.addSpacing(6)
        row.addWidget(self.words)
        self.set_question(question)
        self._show()

    @property
    def value(self) -> int | None:
        """The answer, or None."""
        return self._value

    def set_question(self, question: str) -> None:
        """Another wording."""
        self.question.setText(question)
        self.setAccessibleName(question)
        for level, button in enumerate(self.buttons):
            button.setAccessibleName(f"{question}: {level}")
        self.setToolTip(self.tr("A digit answers, + is 10, Del takes it back"))

    def set_value(self, value: int | None) -> None:
        """Shows an answer and tells nobody."""
        self._value = value
        self._show()

    def set_size(self, size: float) -> None:
        """Room for larger type."""
        for button in self.buttons:
            button.setFixedWidth(round(30 * size))
        self.words.setFixedWidth(round(72 * size))

    def _press(self, level: int) -> None:
        self._answer(None if level == self._value else level)

    def _answer(self, value: int | None) -> None:
        changed = value != self._value
        self.set_value(value)
        if changed:
            self.answered.emit()

    def _show(self) -> None:
        for level, button in enumerate(self.buttons):
            button.setChecked(level == self._value)
        words = (
            self.tr("not asked")
            if self._value is None
            else self.tr("{level} of {most}").format(level=self._value, most=MOST)
        )
        self.words.setText(words)
        self.setAccessibleDescription(words)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Digits, arrows and Del answer; all other keys go on their way."""
        value = self._by_key(event)
        if value == -1:
            super().keyPressEvent(event)
        else:
            self._answer(value)

    def _by_key(self, event: QKeyEvent) -> int | None:
        """The answer that a key gives; None takes it back, -1 is no such key."""
        key, before = event.key(), self._value
        plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.KeypadModifier,
            Qt.KeyboardModifier.ShiftModifier,
        )
        if not plain:
            return -1
        if key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            return None
        if key == Qt.Key.Key_Left:
            return max(0, (before or 0) - 1)
        if key == Qt.Key.Key_Right:
            return 0 if before is None else min(MOST, before + 1)
        if event.text() == "+":
            return MOST
        return int(event.text()) if event.text() in set("0123456789") else -1
