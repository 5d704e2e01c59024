"""What all parts of the athlete's screen have in common."""

from __future__ import annotations

from functools import cache, lru_cache

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QWidget

from biofeedback.gui.theme import DAY, Theme, font

TEXTS_KEPT = 64
"""Widths that are remembered: few texts are written, over and over."""


class Panel(QWidget):
    """A part that paints itself in the theme's colours and says what it shows.

    What is painted can also be read: `describe` puts it into the accessible
    description, for screen readers and for tests.
    """

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.theme = DAY
        self._described = ""
        self.setAccessibleName(name)
        # Each panel fills its whole ground, so Qt need not do it first.
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        self.theme = theme
        self.update()

    def describe(self, text: str) -> None:
        """Tells in words what is shown, and repaints where that is new."""
        if self.tell(text):
            self.update()

    def tell(self, text: str) -> bool:
        """Tells in words what is shown; whether that is new."""
        new = text != self._described
        if new:
            self._described = text
            self.setAccessibleDescription(text)
        return new

    def begin(self) -> QPainter:
        """A painter on clean paper."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self.theme.colour("paper"))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        return painter

    def begin_kept(self) -> QPainter:
        """A painter for kept pictures that fill the whole ground.

        Where a pixel of the screen is no whole number of the widget's, they may end
        within the last one, and what stood there before would stay.
        """
        painter = QPainter(self)
        if self.devicePixelRatio() % 1:
            ground = self.rect().adjusted(0, 0, 1, 1)
            painter.fillRect(ground, self.theme.colour("paper"))
        return painter

    def wide(self, text: str, size_px: float, *, bold: bool) -> int:
        """How many pixels a text takes."""
        return _wide(text, round(size_px), bold)

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
        wide = _wide(text, round(size_px), bold)
        if wide > box.width() > 0:
            size_px *= 0.98 * box.width() / wide
        painter.setFont(_font(round(size_px), bold))
        painter.setPen(QPen(self.theme.colour(role)))
        painter.drawText(box, int(align | Qt.TextFlag.TextSingleLine), text)


# A font is put together from parts, and a text measured, in longer than it is painted.


@cache
def _font(size_px: int, bold: bool) -> QFont:
    return font(size_px, bold=bold)


@lru_cache(maxsize=TEXTS_KEPT)
def _wide(text: str, size_px: int, bold: bool) -> int:
    return QFontMetrics(_font(size_px, bold)).horizontalAdvance(text)
