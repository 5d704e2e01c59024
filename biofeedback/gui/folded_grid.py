"""A grid of fields that has fewer columns where there is no room for all of them.

A row then goes on in the next line. So a form is never wider than its place, however
large the type is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt

from biofeedback.gui.held_layout import HeldLayout, high_px, shared

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


@dataclass(frozen=True, slots=True)
class Cell:
    """Where an item stands.

    Attributes:
        span: how many columns it takes.
    """

    item: QLayoutItem
    row: int
    column: int
    span: int


class FoldedGrid(HeldLayout):
    """Places its cells as they were given, or row by row in fewer columns.

    Cells of the same place are shown one at a time.

    Args:
        stretches: the share of each column in what is left of the width.
    """

    def __init__(
        self,
        parent: QWidget | None = None,
        *,
        stretches: Sequence[int],
        across_px: int = 6,
        down_px: int = 6,
    ) -> None:
        self._cells: list[Cell] = []
        self._stretches = list(stretches)
        self._down_px = down_px
        super().__init__(parent, spacing_px=across_px)

    def add(
        self, part: QWidget | QLayout, row: int, column: int, *, span: int = 1
    ) -> None:
        """One cell more; it stands at the top of its row."""
        item = self.hold(part)
        item.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._cells.append(Cell(item, row, column, span))

    def takeAt(self, index: int) -> QLayoutItem | None:  # noqa: N802  Qt's name
        """Takes one item out."""
        item = super().takeAt(index)
        self._cells = [cell for cell in self._cells if cell.item is not item]
        return item

    def sizeHint(self) -> QSize:
        """All columns."""
        cells = self._shown
        widths = _least(cells, self._stretches, self.spacing())
        wide = sum(widths) + self.spacing() * (len(widths) - 1)
        high = self._place_cells(cells, widths, QRect(0, 0, wide, 0), move=False)
        return QSize(wide, high) + QSize(*self._margins_px())

    def place(self, rect: QRect, *, move: bool) -> int:
        """Places the cells in as many columns as there is room for."""
        cells, stretches = self._shown, self._stretches
        while True:
            least = _least(cells, stretches, self.spacing())
            room = rect.width() - self.spacing() * (len(stretches) - 1)
            if sum(least) <= room or len(stretches) == 1:
                widths = shared(least, stretches, room)
                return self._place_cells(cells, widths, rect, move=move)
            stretches = [1] * (len(stretches) - 1)
            cells = _folded(self._shown, len(stretches))

    @property
    def _shown(self) -> list[Cell]:
        return [cell for cell in self._cells if not cell.item.isEmpty()]

    def _place_cells(
        self, cells: list[Cell], widths: list[int], rect: QRect, *, move: bool
    ) -> int:
        top = rect.y()
        for row in sorted({cell.row for cell in cells}):
            here = [cell for cell in cells if cell.row == row]
            places = [_across(cell, widths, self.spacing()) for cell in here]
            high = max(
                high_px(cell.item, wide)
                for cell, (_, wide) in zip(here, places, strict=True)
            )
            for cell, (left, wide) in zip(here, places, strict=True):
                if move:
                    cell.item.setGeometry(QRect(rect.x() + left, top, wide, high))
            top += high + self._down_px
        return max(0, top - self._down_px - rect.y())


def _across(cell: Cell, widths: list[int], gap: int) -> tuple[int, int]:
    """How far from the left a cell begins, and how wide it is."""
    left = sum(widths[: cell.column]) + gap * cell.column
    wide = sum(widths[cell.column : cell.column + cell.span]) + gap * (cell.span - 1)
    return left, wide


def _least(cells: list[Cell], stretches: list[int], gap: int) -> list[int]:
    """The width that each column must have."""
    widths = [0] * len(stretches)
    for cell in sorted(cells, key=lambda cell: cell.span):
        columns = range(cell.column, cell.column + cell.span)
        stretched = [at for at in columns if stretches[at]]
        size = cell.item.minimumSize() if stretched else cell.item.sizeHint()
        more = size.width() - _across(cell, widths, gap)[1]
        if more > 0:
            widths[(stretched or columns)[-1]] += more
    return widths


def _folded(cells: list[Cell], count: int) -> list[Cell]:
    """The cells in fewer columns; the last of a line takes what is left of it."""
    folded: list[Cell] = []
    line = -1
    for row in sorted({cell.row for cell in cells}):
        at = count  # each row begins in a line of its own
        here = (cell for cell in cells if cell.row == row)
        for cell in sorted(here, key=lambda cell: cell.column):
            span = min(cell.span, count)
            if at + span > count:
                line, at = line + 1, 0
            folded.append(Cell(cell.item, line, at, span))
            at += span
    last = {cell.row: cell.column for cell in folded}
    return [
        replace(cell, span=count - cell.column)
        if cell.column == last[cell.row]
        else cell
        for cell in folded
    ]
