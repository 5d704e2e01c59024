"""The sheet of keys, marks and words. It is never shown while a set is under way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from biofeedback.gui.language import shown
from biofeedback.gui.reading_page import ReadingPage
from biofeedback.gui.words import MARKS, WORDS
from biofeedback.phrase import marked

if TYPE_CHECKING:
    from collections.abc import Sequence

    Row = tuple[str, str]


class Sheet(ReadingPage):
    """Three columns to read: keys, marks and words.

    Args:
        keys: each key, as people write it, and what it does.
    """

    TITLE = marked("Keys and words")

    def __init__(self, keys: Sequence[Row], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        half = (len(WORDS) + 1) // 2
        self.columns.setSpacing(24)
        self.columns.addLayout(self._column((tr("Keys"), keys)), 10)
        self.columns.addLayout(
            self._column((tr("Marks"), MARKS), (tr("Words"), WORDS[:half])), 12
        )
        self.columns.addLayout(self._column((tr("Words"), WORDS[half:])), 12)

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
                    label = QLabel(shown(text))
                    label.setWordWrap(True)
                    label.setAlignment(
                        Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
                    )
                    label.setObjectName("" if column else "look")
                    grid.addWidget(label, row, column)
                row += 1
        grid.setRowStretch(row, 1)
        return grid
