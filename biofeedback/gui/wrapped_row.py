"""A row of controls that goes on in the next line where it has no more room.

So a page is never wider than the window, however large the type is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt

from biofeedback.gui.held_layout import HeldLayout, high_px, shared

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


@dataclass(frozen=True, slots=True)
class Part:
    """One item of a row.

    Attributes:
        stretch: its share of what is left of a line.
        scrolls: whether it moves for itself where others stand beside it.
    """

    item: QLayoutItem
    stretch: int = 0
    scrolls: bool = False


class WrappedRow(HeldLayout):
    """Places its items from the left, line by line.

    What is left of a line goes to its items that stretch; an item that is wider than
    a line gets all of it.

    Args:
        fills: whether it holds the parts of a page: each is no wider than it must be,
            one that is alone in a line has all of it, and the last line takes the
            height that is left.
    """

    def __init__(
        self,
        parent: QWidget | None = None,
        *,
        spacing_px: int = 6,
        fills: bool = False,
    ) -> None:
        self._fills = fills
        self._parts: list[Part] = []
        self._first: QWidget | None = None
        super().__init__(parent, spacing_px=spacing_px)

    def add(
        self, part: QWidget | QLayout, stretch: int = 0, *, scrolls: bool = False
    ) -> None:
        """One item more, a widget or a row of widgets that stay together.

        Args:
            stretch: its share of what is left of a line.
            scrolls: whether it moves for itself, in the height that there is, where
                others stand beside it; alone in a line it has all its height.
        """
        self.hold(part)
        self._parts[-1] = replace(self._parts[-1], stretch=stretch, scrolls=scrolls)

    def put_first(self, part: QWidget | None) -> None:
        """A part that stands above the others where not all have room in one line."""
        self._first = part
        self.invalidate()

    def addItem(self, item: QLayoutItem) -> None:  # noqa: N802  Qt's name
        """As `add`, without stretch."""
        super().addItem(item)
        self._parts.append(Part(item))

    def takeAt(self, index: int) -> QLayoutItem | None:  # noqa: N802  Qt's name
        """Takes one item out."""
        item = super().takeAt(index)
        if item is not None:
            self._parts.pop(index)
        return item

    def expandingDirections(self) -> Qt.Orientation:  # noqa: N802  Qt's name
        """It takes no room of its own accord, or height where it fills it."""
        return Qt.Orientation.Vertical if self._fills else Qt.Orientation(0)

    def sizeHint(self) -> QSize:
        """All in one line."""
        sizes = [item.sizeHint() for item in self._seen()]
        wide = sum(size.width() for size in sizes)
        wide += self.spacing() * max(0, len(sizes) - 1)
        high = max((size.height() for size in sizes), default=0)
        return QSize(wide, high) + QSize(*self._margins_px())

    def place(self, rect: QRect, *, move: bool) -> int:
        """Places the lines, or only tells how high they are."""
        top = rect.y()
        lines = self._lines(self._parts, rect.width())
        if len(lines) > 1 and self._first is not None:
            first = [one for one in self._parts if one.item.widget() is self._first]
            others = [one for one in self._parts if one not in first]
            lines = self._lines([*first, *others], rect.width())
        for line in lines:
            parts = [part for part, _ in line]
            beside = len(line) > 1
            widths = shared(
                [wide for _, wide in line],
                [part.stretch or int(self._fills and not beside) for part in parts],
                rect.width() - self.spacing() * (len(line) - 1),
            )
            heights = [
                part.item.minimumSize().height()
                if beside and part.scrolls
                else high_px(part.item, width)
                for part, width in zip(parts, widths, strict=True)
            ]
            high, left = max(heights, default=0), rect.x()
            if self._fills and line is lines[-1]:
                high = max(high, rect.y() + rect.height() - top)
            for part, width in zip(parts, widths, strict=True):
                if move:
                    part.item.setGeometry(QRect(left, top, width, high))
                left += width + self.spacing()
            top += high + self.spacing()
        return max(0, top - self.spacing() - rect.y())

    def _lines(self, parts: list[Part], width: int) -> list[list[tuple[Part, int]]]:
        """The parts in each line, with the width that each takes at least."""
        lines: list[list[tuple[Part, int]]] = [[]]
        left = width
        for part in parts:
            item = part.item
            if item.isEmpty():
                continue
            least = self._fills or part.stretch
            wanted = (item.minimumSize() if least else item.sizeHint()).width()
            if lines[-1] and wanted > left:
                lines.append([])
                left = width
            lines[-1].append((part, min(wanted, width)))
            left -= wanted + self.spacing()
        return lines
