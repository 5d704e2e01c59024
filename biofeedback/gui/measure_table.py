"""The measures of one rep as a table in which each value can be read.

Value and unit have the room that they need: a number is never cut. Words wrap, those of
the value as well as those of the measure, which takes up what is left, and where that
is little those of unit and signal too. Where not even the longest words have room, the
table can be moved sideways.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QModelIndex, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QHeaderView, QStyle, QTableView

if TYPE_CHECKING:
    from PySide6.QtCore import QAbstractItemModel
    from PySide6.QtGui import QResizeEvent

MEASURE, VALUE = 0, 1
LONG_LETTERS = 12
"""Longer values are words or sums: they wrap between their words."""


class MeasureTable(QTableView):
    """A table whose first column is a measure and whose second is its value."""

    def __init__(self) -> None:
        super().__init__()
        self._tight = False  # units and signals wrap too

    def setModel(self, model: QAbstractItemModel | None) -> None:  # noqa: N802  Qt's
        """Another content."""
        super().setModel(model)
        if model is not None:
            model.modelReset.connect(self._share_room)

    def sizeHintForColumn(self, column: int) -> int:  # noqa: N802  Qt's name
        """The room that a column needs so that nothing in it is cut, in pixels."""
        if column not in (MEASURE, VALUE) and not self._tight:
            return super().sizeHintForColumn(column)
        model = self.model()
        letters, margin_px = QFontMetrics(self.font()), self._margin_px()
        texts = (
            str(model.index(row, column).data() or "")
            for row in range(model.rowCount(QModelIndex()))
        )
        parts = (part for text in texts for part in _parts(text, column))
        widest_px = max(map(letters.horizontalAdvance, parts), default=0)
        return widest_px + margin_px

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self._share_room()

    def changeEvent(self, event: QEvent) -> None:
        """Another size of type."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._share_room()

    def _margin_px(self) -> int:
        style = self.style()
        margin = style.pixelMetric(QStyle.PixelMetric.PM_FocusFrameHMargin, None, self)
        return 2 * (margin + 1) + 4  # and what rounding takes

    def _fits(self, *, tight: bool) -> bool:
        """Whether the longest word of each measure has room beside all else."""
        self._tight = tight
        header = self.horizontalHeader()
        header.resizeSections()
        others_px = sum(
            header.sectionSize(column)
            for column in range(header.count())
            if column != MEASURE
        )
        left_px = self.viewport().width() - others_px
        return left_px >= max(
            self.sizeHintForColumn(MEASURE), header.sectionSizeHint(MEASURE)
        )

    def _share_room(self) -> None:
        """The measure takes what is left, but never less than its longest word."""
        header = self.horizontalHeader()
        if header.count() == 0:
            return
        fits = self._fits(tight=False) or self._fits(tight=True)
        mode = QHeaderView.ResizeMode
        wanted = mode.Stretch if fits else mode.ResizeToContents
        if header.sectionResizeMode(MEASURE) is not wanted:
            header.setSectionResizeMode(MEASURE, wanted)
        self.setHorizontalScrollBarPolicy(
            Qt.ScrollBarPolicy.ScrollBarAlwaysOff
            if fits
            else Qt.ScrollBarPolicy.ScrollBarAsNeeded
        )
        self.resizeRowsToContents()


def _parts(text: str, column: int) -> list[str]:
    """What of a text stands on one line in any case."""
    if column == VALUE and len(text) <= LONG_LETTERS:
        return [text]
    return text.split(" ")
