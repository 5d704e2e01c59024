"""What layouts of our own have in common: their items, margins and height for a width.

They place their parts by the width that there is, so that a page is never wider than
the window, however large the type is.
"""

from __future__ import annotations

from abc import abstractmethod

from PySide6.QtCore import QMargins, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class HeldLayout(QLayout):
    """Holds items; how they are placed is told by `place`."""

    def __init__(self, parent: QWidget | None = None, *, spacing_px: int = 6) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self.setContentsMargins(QMargins())
        self.setSpacing(spacing_px)

    @abstractmethod
    def place(self, rect: QRect, *, move: bool) -> int:
        """Places all items, or only tells how high they are."""

    def hold(self, part: QWidget | QLayout) -> QLayoutItem:
        """One item more, a widget or a layout of widgets that stay together."""
        if isinstance(part, QWidget):
            self.addWidget(part)
        else:
            self.addChildLayout(part)
            self.addItem(part)
        return self._items[-1]

    # What Qt asks of a layout.

    def addItem(self, item: QLayoutItem) -> None:  # noqa: N802  Qt's name
        """As `hold`."""
        self._items.append(item)

    def count(self) -> int:
        """Number of items."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:  # noqa: N802  Qt's name
        """One item, or None."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:  # noqa: N802  Qt's name
        """Takes one item out."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:  # noqa: N802  Qt's name
        """It takes no room of its own accord."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:  # noqa: N802  Qt's name
        """More lines where it is narrow."""
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802  Qt's name
        """How high its lines are in a width."""
        sides, around = self._margins_px()
        return self.place(QRect(0, 0, width - sides, 0), move=False) + around

    def minimumSize(self) -> QSize:  # noqa: N802  Qt's name
        """As wide as its widest item."""
        least = QSize()
        for item in self._seen():
            least = least.expandedTo(item.minimumSize())
        return least + QSize(*self._margins_px())

    def setGeometry(self, rect: QRect) -> None:  # noqa: N802  Qt's name
        """Places all items."""
        super().setGeometry(rect)
        self.place(rect.marginsRemoved(self.contentsMargins()), move=True)

    def _margins_px(self) -> tuple[int, int]:
        """What the margins take of the width, and of the height."""
        margins = self.contentsMargins()
        return margins.left() + margins.right(), margins.top() + margins.bottom()

    def _seen(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]


def high_px(item: QLayoutItem, width: int) -> int:
    """How high an item is in a width."""
    if item.hasHeightForWidth():
        return item.heightForWidth(width)
    return item.sizeHint().height()


def shared(widths: list[int], stretches: list[int], width: int) -> list[int]:
    """Widths; those that stretch are as wide as their shares, or as they must be.

    Args:
        widths: of each at least.
        stretches: the share of each; 0 for one that stays as it is.
        width: of all together.
    """
    widths = [*widths]
    shares = {at: stretch for at, stretch in enumerate(stretches) if stretch}
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
