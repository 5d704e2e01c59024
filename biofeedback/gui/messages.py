"""The one place for messages: the newest, and above it the one before or advice."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from biofeedback.gui.language import shown

MESSAGE_PX = 42
"""At least; it grows upwards with a long message, and the keys stay in place."""
EARLIER_PX = 17
KEPT = 20


class Messages(QWidget):
    """Says one message after the other; all earlier ones stay in the tip."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._messages: list[str] = []
        self._advice = ""
        self._advised: tuple[str, str] = (
            "",
            "",
        )  # advice before the last, and the last
        self.message = QLabel()
        self.message.setObjectName("message")
        self.message.setAccessibleName(self.tr("Messages"))
        self.message.setAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        )
        self.earlier = QLabel()
        self.earlier.setObjectName("earlier")
        self.earlier.setAccessibleName(self.tr("The message before, or advice"))
        self.earlier.setAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        for label in (self.earlier, self.message):
            label.setWordWrap(True)
            # An empty label has no height that goes with its width, and what is
            # around it would have to learn of it only when words come.
            policy = label.sizePolicy()
            policy.setHeightForWidth(True)
            label.setSizePolicy(policy)
            layout.addWidget(label)
        self.set_size(1.0)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.message.setMinimumHeight(round(MESSAGE_PX * size))
        self.earlier.setMinimumHeight(round(EARLIER_PX * size))

    def say(self, message: str) -> None:
        """A message; the one before stays in sight above it."""
        self._messages = [shown(message), *self._messages][:KEPT]
        self.message.setText(self._messages[0])
        self.message.setToolTip("\n".join(self._messages))
        self._show_earlier()

    def advise(self, message: str) -> None:
        """A message that stays in sight until `act`; it replaces advice before it."""
        self._advice = shown(message)
        self._advised = self._advised[1], self._advice
        self.say(message)

    def act(self) -> None:
        """Something was done: advice has been seen."""
        self._advice = ""

    def turn_over(self, message: str) -> None:
        """A message after which what was said before offers nothing any more."""
        self.say(message)
        if not self._advice:
            self.earlier.setText("")

    def _show_earlier(self) -> None:
        before = self._messages[1] if len(self._messages) > 1 else ""
        if before and (before, self._messages[0]) == self._advised:
            before = ""  # the same would stand there twice
        advice = bool(self._advice) and self._advice != self._messages[0]
        self.earlier.setText(self._advice if advice else before)
        if advice is not self.earlier.property("advice"):
            self.earlier.setProperty("advice", advice)
            self.earlier.style().unpolish(self.earlier)  # the style sheet looks again
            self.earlier.style().polish(self.earlier)
