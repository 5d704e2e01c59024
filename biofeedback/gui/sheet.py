"""The sheet of keys, marks and words. It is never shown while a set is under way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from biofeedback.gui.language import shown
from biofeedback.gui.reading_page import ReadingPage
from biofeedback.gui.words import MARKS, WORDS
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.phrase import marked

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtGui import QResizeEvent, QShowEvent

    Row = tuple[str, str]


MEANING_PX = 110
"""At least; in large type columns go below one another."""


class Sheet(ReadingPage):
    """Three columns to read: keys, marks and words.

    Args:
        keys: each key in use, as people write it, and what it does; asked for anew
            whenever the page is shown.
    """

    TITLE = marked("Keys and words")

    def __init__(
        self, keys: Callable[[], Sequence[Row]], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self._keys = keys
        self._grids: list[QGridLayout] = []
        half = (len(WORDS) + 1) // 2
        row = WrappedRow(spacing_px=24)
        self.columns.addLayout(row)
        in_use = self._column((tr("Keys"), keys()))
        # Row 0 is the heading.
        cells = [in_use.itemAtPosition(row + 1, 0) for row in range(len(keys()))]
        self._key_labels = [cell.widget() for cell in cells if cell is not None]
        row.add(in_use, 10)
        row.add(self._column((tr("Marks"), MARKS), (tr("Words"), WORDS[:half])), 12)
        row.add(self._column((tr("Words"), WORDS[half:])), 12)

    def enter(self) -> None:
        """The page is shown; keys may have been changed since it was last."""
        super().enter()
        for label, (key, _) in zip(self._key_labels, self._keys(), strict=True):
            if isinstance(label, QLabel):
                label.setText(key)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for grid in self._grids:
            grid.setColumnMinimumWidth(1, round(MEANING_PX * size))

    def _column(self, *parts: tuple[str, Sequence[Row]]) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(3)
        grid.setColumnStretch(1, 1)
        self._grids.append(grid)
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

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The columns get the height that their lines need at this width."""
        super().resizeEvent(event)
        self._give_height()

    def showEvent(self, event: QShowEvent) -> None:
        """As where the size is another one: the type may be too."""
        super().showEvent(event)
        self._give_height()

    def _give_height(self) -> None:
        # A scroll area asks for a height that goes with any width, which is too little
        # where lines are wrapped.
        inner, width = self.body.widget(), self.body.viewport().width()
        if inner is not None:
            for label in inner.findChildren(QLabel):
                label.updateGeometry()  # else a row may keep its height of before
            inner.setMinimumHeight(self.columns.heightForWidth(width))
