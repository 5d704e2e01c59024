"""A part that scrolls only where its page cannot give it all its height.

In a row whose parts go below one another in large type, the page scrolls as a whole and
not each part for itself.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QScrollArea, QWidget

if TYPE_CHECKING:
    from PySide6.QtCore import QObject


class TallArea(QScrollArea):
    """Wants the height of what is in it, and never moves sideways."""

    def __init__(self, inner: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWidget(inner)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        policy = self.sizePolicy()
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """What is in it wants another height, and so does this."""
        if watched is self.widget() and event.type() is QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def hasHeightForWidth(self) -> bool:  # noqa: N802  Qt's name
        """Words in it wrap."""
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802  Qt's name
        """How high all of it is in a width."""
        inner, edges = self.widget(), 2 * self.frameWidth()
        layout = inner.layout() if inner is not None else None
        if layout is None:
            return self.sizeHint().height()
        return layout.totalHeightForWidth(max(1, width - edges)) + edges
