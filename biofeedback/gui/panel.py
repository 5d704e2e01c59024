"""What all parts of the athlete's screen have in common."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QWidget

from biofeedback.gui.theme import DAY, Theme, font


class Panel(QWidget):
    """A part that paints itself in the theme's colours and says what it shows.

    What is painted can also be read: `describe` puts it into the accessible
    description, for screen readers and for tests.
    """

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = DAY
        self.setAccessibleName(name)
        # Each panel fills its whole ground, so Qt need not do it first.
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        self.theme = theme
        self.update()

    def describe(self, text: str) -> None:
        """Tells in words what is shown, and repaints where that is new."""
        if text != self.accessibleDescription():
            self.setAccessibleDescription(text)
            self.update()

    def begin(self) -> QPainter:
        """A painter on clean paper."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self.theme.paper))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        return painter

    def write(
        self,
        painter: QPainter,
        box: QRectF,
        text: str,
        *,
        size_px: float,
        align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignCenter,
        bold: bool = False,
        role: str = "ink",
    ) -> None:
        """Writes text into a box; what is too wide is set smaller, never cut."""
        painter.setFont(font(size_px, bold=bold))
        wide = painter.fontMetrics().horizontalAdvance(text)
        if wide > box.width() > 0:
            painter.setFont(font(size_px * box.width() / wide * 0.98, bold=bold))
        painter.setPen(QPen(self.theme.colour(role)))
        painter.drawText(box, int(align | Qt.TextFlag.TextSingleLine), text)
