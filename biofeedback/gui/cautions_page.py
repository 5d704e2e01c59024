"""The page of stop rules and cautions: the words of `training.cautions`, to read."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from biofeedback.gui.language import shown
from biofeedback.gui.reading_page import ReadingPage
from biofeedback.phrase import marked
from biofeedback.training.cautions import CAUTIONS, FROM_MEMORY, LEAD, Cautions

COLUMN_PX = 560
"""As wide as a line of text is read with ease."""


class CautionsPage(ReadingPage):
    """Two columns to read."""

    TITLE = marked("Stop rules and cautions")

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        lead = QLabel(shown(LEAD))
        lead.setObjectName("message")
        lead.setWordWrap(True)
        self.whole.setSpacing(10)
        self.whole.insertWidget(1, lead)
        self.columns.setSpacing(28)
        self._columns = [self._column(CAUTIONS[:2]), self._column(CAUTIONS[2:])]
        for column in self._columns:
            self.columns.addWidget(column, 1)
        self.columns.addStretch(0)
        self.set_size(1.0)

    def _column(self, parts: tuple[Cautions, ...]) -> QWidget:
        column = QWidget()
        rows = QVBoxLayout(column)
        rows.setContentsMargins(0, 4, 0, 4)
        rows.setSpacing(6)
        for part in parts:
            title = QLabel(shown(part.title))
            title.setObjectName("look")
            rows.addWidget(title)
            for line in part.lines:
                rows.addWidget(_label(f"•  {shown(line)}"))
            if part.from_memory:
                note = _label(shown(FROM_MEMORY))
                note.setObjectName("summary")
                rows.addWidget(note)
            rows.addSpacing(10)
        rows.addStretch(1)
        return column

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for column in self._columns:
            column.setMaximumWidth(round(COLUMN_PX * size))


def _label(text: str) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    return label
