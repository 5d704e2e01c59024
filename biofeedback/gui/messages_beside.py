"""All messages of the desk, whole, read in the place of its column."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from biofeedback.gui.reading_page import ReadingPage
from biofeedback.phrase import marked

if TYPE_CHECKING:
    from collections.abc import Sequence


class MessagesBeside(ReadingPage):
    """The newest first, each as it was said."""

    TITLE = marked("Messages, the newest first")

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.stand_beside()
        self._labels: list[QLabel] = []
        column = QWidget()
        self._rows = QVBoxLayout(column)
        self._rows.setContentsMargins(0, 4, 6, 4)
        self._rows.setSpacing(10)
        self._rows.addStretch(1)
        self.columns.addWidget(column)

    def show_all(self, messages: Sequence[str]) -> None:
        """What was said, the newest first."""
        while len(self._labels) < len(messages):
            label = QLabel()
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
            self._rows.insertWidget(len(self._labels), label)
            self._labels.append(label)
        for place, label in enumerate(self._labels):
            label.setObjectName("message" if place == 0 else "")
            label.setText(messages[place] if place < len(messages) else "")
            label.setVisible(place < len(messages))
