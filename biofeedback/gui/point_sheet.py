"""A sheet of pictures whose points are told in words, to the mouse and to the keys.

The point under the mouse, or the one that was walked to with the arrow keys, is told as
a tip and to a screen reader. The sheet has the height that its pictures need.
"""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from biofeedback.gui.language import tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QHelpEvent, QKeyEvent


class PointSheet(QWidget):
    """What all such sheets have in common."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._at = -1
        self.setAccessibleName(tr("Charts"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    @abstractmethod
    def told_at(self, place: QPointF) -> str:
        """The point near a place in words; empty where there is none."""

    @abstractmethod
    def walk(self) -> Sequence[tuple[QPointF, str]]:
        """Place and words of each point, picture after picture."""

    def hasHeightForWidth(self) -> bool:  # noqa: N802  # Qt's name
        """The words wrap."""
        return True

    def event(self, event: QEvent) -> bool:
        """The point under the mouse is told."""
        if event.type() == QEvent.Type.ToolTip:
            asked: QHelpEvent = event  # type: ignore[assignment]  # of this type
            QToolTip.showText(asked.globalPos(), self.told_at(QPointF(asked.pos())))
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The arrow keys walk from point to point, picture after picture."""
        step = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}.get(Qt.Key(event.key()), 0)
        points = self.walk() if step else ()
        if not points:
            super().keyPressEvent(event)
            return
        self._at = min(max(self._at + step, 0), len(points) - 1)
        place, words = points[self._at]
        QToolTip.showText(self.mapToGlobal(place.toPoint()), words, self)
        self.setAccessibleDescription(words)
