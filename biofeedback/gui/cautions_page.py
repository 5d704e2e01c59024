"""Stop rules and cautions, to read: the words of `training.cautions`.

They have a page of their own; while a set is under way they are read in the desk's
column, beside the live picture, which stays whole.
"""

from __future__ import annotations

from typing import ClassVar

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from biofeedback.gui.language import shown
from biofeedback.gui.reading_page import ReadingPage
from biofeedback.phrase import marked
from biofeedback.training.cautions import CAUTIONS, FROM_MEMORY, LEAD, Cautions

COLUMN_PX = 560
"""As wide as a line of text is read with ease."""


class _Cautions(ReadingPage):
    """The words, in columns.

    Attributes:
        COLUMNS: the parts in each.
    """

    TITLE = marked("Stop rules and cautions")
    COLUMNS: ClassVar[tuple[tuple[Cautions, ...], ...]] = (CAUTIONS,)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        lead = QLabel(shown(LEAD))
        lead.setObjectName("message")
        lead.setWordWrap(True)
        self.whole.setSpacing(10)
        self.whole.insertWidget(1, lead)
        self.columns.setSpacing(28)
        self._columns = [self._column(parts) for parts in self.COLUMNS]
        for column in self._columns:
            self.columns.addWidget(column, 1)

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


class CautionsPage(_Cautions):
    """Two columns to read, in all of the window."""

    COLUMNS = (CAUTIONS[:2], CAUTIONS[2:])

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.columns.addStretch(0)
        self.set_size(1.0)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for column in self._columns:
            column.setMaximumWidth(round(COLUMN_PX * size))


class CautionsBeside(_Cautions):
    """One column to read, in the place of the desk's."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.stand_beside()
        self.columns.setContentsMargins(0, 0, 6, 0)


def _label(text: str) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    return label
