"""Parts of a page that move up and down, and never sideways.

In a row whose parts go below one another in large type, the page scrolls as a whole and
not each part for itself.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtWidgets import QScrollArea, QWidget

if TYPE_CHECKING:
    from PySide6.QtCore import QObject


class SideArea(QScrollArea):
    """Moves up and down, and is as wide as what is in it must be, in any type."""

    def __init__(self, inner: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._inner = inner
        self.setWidget(inner)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def minimumSizeHint(self) -> QSize:
        """With room for the bar at its side."""
        least = super().minimumSizeHint()
        bar = self.verticalScrollBar().sizeHint().width()
        wide = self._inner.minimumSizeHint().width() + bar + 2 * self.frameWidth()
        return QSize(max(least.width(), wide), least.height())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """What is in it needs another size, as with larger type."""
        if event.type() is QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def viewportEvent(self, event: QEvent) -> bool:  # noqa: N802  Qt's name
        """The same of what has no layout of its own, as words and charts."""
        if event.type() is QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().viewportEvent(event)


class TallArea(SideArea):
    """Scrolls only where its page cannot give it all its height."""

    def __init__(self, inner: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(inner, parent)
        policy = self.sizePolicy()
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def hasHeightForWidth(self) -> bool:  # noqa: N802  Qt's name
        """Words in it wrap."""
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802  Qt's name
        """How high all of it is in a width, beside a bar.

        What fits only without its bar would keep it for good once it had it.
        """
        edges = 2 * self.frameWidth()
        bar = self.verticalScrollBar().sizeHint().width()
        inner, room = self._inner, max(1, width - edges - bar)
        layout = inner.layout() or inner
        needed = inner.minimumSizeHint().height()  # as the area itself asks for it
        if layout.hasHeightForWidth():
            needed = max(needed, layout.heightForWidth(room))
        return needed + edges
