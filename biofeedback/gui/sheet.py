"""The sheet of keys, marks and words. It is never shown while a set is under way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.words import MARKS, WORDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    Row = tuple[str, str]


class Sheet(QWidget):
    """Three columns to read: keys, marks and words.

    Args:
        keys: each key, as people write it, and what it does.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, keys: Sequence[Row], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Keys and words"))
        self.live = QPushButton(tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        heading = QLabel(tr("Keys and words"))
        heading.setObjectName("who")
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(heading, 1)
        half = (len(WORDS) + 1) // 2
        columns = QHBoxLayout()
        columns.setSpacing(24)
        columns.addLayout(self._column((tr("Keys"), keys)), 10)
        columns.addLayout(
            self._column((tr("Marks"), MARKS), (tr("Words"), WORDS[:half])), 12
        )
        columns.addLayout(self._column((tr("Words"), WORDS[half:])), 12)
        inner = QWidget()
        inner.setLayout(columns)
        self.body = QScrollArea()
        self.body.setWidget(inner)
        self.body.setWidgetResizable(True)
        self.body.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.body.setAccessibleName(tr("Keys and words"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addWidget(self.body, 1)

    def enter(self) -> None:
        """The sheet is shown: the arrow keys move it."""
        self.body.setFocus()

    def _column(self, *parts: tuple[str, Sequence[Row]]) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(3)
        grid.setColumnStretch(1, 1)
        row = 0
        for title, rows in parts:
            heading = QLabel(title)
            heading.setObjectName("who")
            grid.addWidget(heading, row, 0, 1, 2)
            row += 1
            for name, meaning in rows:
                for column, text in enumerate((name, meaning)):
                    label = QLabel(self.tr(text))
                    label.setWordWrap(True)
                    label.setAlignment(
                        Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
                    )
                    label.setObjectName("" if column else "look")
                    grid.addWidget(label, row, column)
                row += 1
        grid.setRowStretch(row, 1)
        return grid
