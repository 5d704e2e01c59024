"""The page of stop rules and cautions: the words of `training.cautions`, to read."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.training.cautions import CAUTIONS, FROM_MEMORY, LEAD, Cautions

COLUMN_PX = 560
"""As wide as a line of text is read with ease."""


class CautionsPage(QWidget):
    """Two columns to read.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Stop rules and cautions"))
        self.live = QPushButton(tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        heading = QLabel(tr("Stop rules and cautions"))
        heading.setObjectName("who")
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(heading, 1)
        lead = QLabel(tr(LEAD))
        lead.setObjectName("message")
        lead.setWordWrap(True)
        columns = QHBoxLayout()
        columns.setSpacing(28)
        self._columns = [self._column(CAUTIONS[:2]), self._column(CAUTIONS[2:])]
        for column in self._columns:
            columns.addWidget(column, 1)
        columns.addStretch(0)
        inner = QWidget()
        inner.setLayout(columns)
        self.body = QScrollArea()
        self.body.setWidget(inner)
        self.body.setWidgetResizable(True)
        self.body.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.body.setAccessibleName(tr("Stop rules and cautions"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.setSpacing(10)
        layout.addLayout(head)
        layout.addWidget(lead)
        layout.addWidget(self.body, 1)
        self.set_size(1.0)

    def _column(self, parts: tuple[Cautions, ...]) -> QWidget:
        column = QWidget()
        rows = QVBoxLayout(column)
        rows.setContentsMargins(0, 4, 0, 4)
        rows.setSpacing(6)
        for part in parts:
            title = QLabel(self.tr(part.title))
            title.setObjectName("look")
            rows.addWidget(title)
            for line in part.lines:
                rows.addWidget(_label(f"•  {self.tr(line)}"))
            if part.from_memory:
                note = _label(self.tr(FROM_MEMORY))
                note.setObjectName("summary")
                rows.addWidget(note)
            rows.addSpacing(10)
        rows.addStretch(1)
        return column

    def enter(self) -> None:
        """The page is shown: the arrow keys move it."""
        self.body.setFocus()

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for column in self._columns:
            column.setMaximumWidth(round(COLUMN_PX * size))


def _label(text: str) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    return label
