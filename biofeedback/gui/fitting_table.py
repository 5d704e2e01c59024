"""A table that is never wider than its place.

Where there is no room for all of it, it leaves out its last columns, which can be read
elsewhere too; where that is not enough, words in other columns go on in the next line.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QModelIndex
from PySide6.QtWidgets import QTableView

if TYPE_CHECKING:
    from PySide6.QtCore import QAbstractItemModel
    from PySide6.QtGui import QResizeEvent

LEAST_LETTERS = 12
"""Room that the stretched column has in any case."""
MARGIN_PX = 12
"""What the frame of a cell takes from its words."""


class FittingTable(QTableView):
    """A table that fits.

    Args:
        spare: the columns that may be left out; the last goes first.
        wraps: the columns whose words may go on in the next line.
        stretch: the column that takes what is left.
    """

    def __init__(
        self, *, spare: tuple[int, ...], wraps: tuple[int, ...], stretch: int
    ) -> None:
        super().__init__()
        self._spare = spare
        self._wraps = wraps
        self._stretch = stretch
        self._wrapped = False

    def setModel(self, model: QAbstractItemModel | None) -> None:  # noqa: N802  Qt's
        """Another content."""
        super().setModel(model)
        if model is not None:
            model.modelReset.connect(self.fit)
            model.rowsInserted.connect(self.fit)

    def sizeHintForColumn(self, column: int) -> int:  # noqa: N802  Qt's name
        """The room that a column needs, in pixels."""
        if not (self._wrapped and column in self._wraps):
            return super().sizeHintForColumn(column)
        model, letters = self.model(), self.fontMetrics()
        rows = range(model.rowCount(QModelIndex()))
        texts = (str(model.index(row, column).data() or "") for row in rows)
        words = (word for text in texts for word in text.split(" "))
        return max(map(letters.horizontalAdvance, words), default=0) + MARGIN_PX

    def fit(self) -> None:
        """Shows as many columns as there is room for."""
        for column in self._spare:
            self.setColumnHidden(column, False)  # hidden ones tell no width
        self._wrapped = False
        left_px = self._left_px()
        if left_px < 0:
            self._wrapped = True
            left_px = self._left_px()
        wide = {column: self._wide_px(column) for column in self._spare}
        for column, width in wide.items():
            left_px -= width
            self.setColumnHidden(column, left_px < 0)
        self.horizontalHeader().resizeSections()
        self.resizeRowsToContents()

    def _left_px(self) -> int:
        """What the columns that stay leave of the width."""
        least_px = LEAST_LETTERS * self.fontMetrics().averageCharWidth()
        others = set(range(self.horizontalHeader().count())) - {self._stretch}
        taken_px = sum(map(self._wide_px, others - set(self._spare)))
        return self.viewport().width() - taken_px - least_px

    def _wide_px(self, column: int) -> int:
        header = self.horizontalHeader()
        return max(self.sizeHintForColumn(column), header.sectionSizeHint(column))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self.fit()

    def changeEvent(self, event: QEvent) -> None:
        """Another size of type."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self.fit()
