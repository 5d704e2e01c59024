"""A row of controls that goes on in the next line where it has no more room.

So a page is never wider than the window, however large the type is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QMargins, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QWidget

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLayoutItem

    Line = list[tuple[QLayoutItem, int, int]]  # with its stretch and its width


class WrappedRow(QLayout):
    """Places its items from the left, line by line.

    What is left of a line goes to its items that stretch; an item that is wider than
    a line gets all of it.

    Args:
        fills: whether its last line takes the height that is left.
    """

    def __init__(
        self,
        parent: QWidget | None = None,
        *,
        spacing_px: int = 6,
        fills: bool = False,
    ) -> None:
        super().__init__(parent)
        self._fills = fills
        self._items: list[QLayoutItem] = []
        self._stretches: list[int] = []
        self.setContentsMargins(QMargins())
        self.setSpacing(spacing_px)

    def add(self, part: QWidget | QLayout, stretch: int = 0) -> None:
        """One item more, a widget or a row of widgets that stay together."""
        if isinstance(part, QWidget):
            self.addWidget(part)
        else:
            self.addChildLayout(part)
            self.addItem(part)
        self._stretches[-1] = stretch

    # What Qt asks of a layout.

    def addItem(self, item: QLayoutItem) -> None:  # noqa: N802  Qt's name
        """As `add`, without stretch."""
        self._items.append(item)
        self._stretches.append(0)

    def count(self) -> int:
        """Number of items."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:  # noqa: N802  Qt's name
        """One item, or None."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:  # noqa: N802  Qt's name
        """Takes one item out."""
        if not 0 <= index < len(self._items):
            return None
        self._stretches.pop(index)
        return self._items.pop(index)

    def expandingDirections(self) -> Qt.Orientation:  # noqa: N802  Qt's name
        """It takes no room of its own accord, or height where it fills it."""
        return Qt.Orientation.Vertical if self._fills else Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:  # noqa: N802  Qt's name
        """More lines where it is narrow."""
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802  Qt's name
        """How high its lines are in a width."""
        sides, around = self._margins_px()
        return self._place(QRect(0, 0, width - sides, 0), move=False) + around

    def sizeHint(self) -> QSize:
        """All in one line."""
        sizes = [item.sizeHint() for item in self._seen()]
        wide = sum(size.width() for size in sizes)
        wide += self.spacing() * max(0, len(sizes) - 1)
        high = max((size.height() for size in sizes), default=0)
        return QSize(wide, high) + QSize(*self._margins_px())

    def minimumSize(self) -> QSize:  # noqa: N802  Qt's name
        """As wide as its widest item."""
        least = QSize()
        for item in self._seen():
            least = least.expandedTo(item.minimumSize())
        return least + QSize(*self._margins_px())

    def setGeometry(self, rect: QRect) -> None:  # noqa: N802  Qt's name
        """Places all items."""
        super().setGeometry(rect)
        self._place(rect.marginsRemoved(self.contentsMargins()), move=True)

    def _margins_px(self) -> tuple[int, int]:
        """What the margins take of the width, and of the height."""
        margins = self.contentsMargins()
        return margins.left() + margins.right(), margins.top() + margins.bottom()

    def _seen(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _lines(self, width: int) -> list[Line]:
        lines: list[Line] = [[]]
        left = width
        for item, stretch in zip(self._items, self._stretches, strict=True):
            if item.isEmpty():
                continue
            hint, least = item.sizeHint().width(), item.minimumSize().width()
            wanted = least if stretch else hint
            if lines[-1] and wanted > left:
                lines.append([])
                left = width
            lines[-1].append((item, stretch, min(wanted, width)))
            left -= wanted + self.spacing()
        return lines

    def _place(self, rect: QRect, *, move: bool) -> int:
        """Places the lines, or only tells how high they are."""
        top = rect.y()
        lines = self._lines(rect.width())
        for line in lines:
            widths = _shared(line, rect.width() - self.spacing() * (len(line) - 1))
            heights = [
                item.heightForWidth(width)
                if item.hasHeightForWidth()
                else item.sizeHint().height()
                for (item, _, _), width in zip(line, widths, strict=True)
            ]
            high, left = max(heights, default=0), rect.x()
            if self._fills and line is lines[-1]:
                high = max(high, rect.y() + rect.height() - top)
            for (item, _, _), width in zip(line, widths, strict=True):
                if move:
                    item.setGeometry(QRect(left, top, width, high))
                left += width + self.spacing()
            top += high + self.spacing()
        return max(0, top - self.spacing() - rect.y())


def _shared(line: Line, width: int) -> list[int]:
    """Widths; those that stretch are as wide as their shares, or as they must be."""
    widths = [wide for _, _, wide in line]
    shares = {at: stretch for at, (_, stretch, _) in enumerate(line) if stretch}
    while shares:
        others = sum(wide for at, wide in enumerate(widths) if at not in shares)
        total = sum(shares.values())
        fair = {at: (width - others) * one // total for at, one in shares.items()}
        wider = [at for at in shares if widths[at] > fair[at]]
        if not wider:
            for at, wide in fair.items():
                widths[at] = wide
            break
        for at in wider:
            del shares[at]
    return widths
