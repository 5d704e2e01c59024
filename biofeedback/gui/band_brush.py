"""How the band is drawn: a slate wash with drawn edges.

Inside it fills denser and its edges thicken, outside it is hatched. What was and
what is to come are drawn by the same brush.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap

if TYPE_CHECKING:
    from biofeedback.gui.theme import Theme


class BandLook(Enum):
    """How a stretch of the band is drawn."""

    # There is one of each; Python's own, by the name, takes longer in each frame.
    __hash__ = object.__hash__

    QUIET = 1  # nothing is told about the force in it
    INSIDE = 2  # denser, thicker edges
    OUTSIDE = 3  # hatched


@dataclass(frozen=True, slots=True)
class Pens:
    """Widths in physical pixels, from the height of the path."""

    trace: int
    edge: int
    edge_inside: int
    hatch: int

    @classmethod
    def for_height(cls, height: int) -> Pens:
        """Widths that are seen from three metres."""
        return cls(
            trace=max(3, round(height / 95)),
            edge=max(2, round(height / 170)),
            edge_inside=max(4, round(height / 72)),
            hatch=max(12, round(height / 26)),
        )


class BandBrush:
    """Draws stretches of the band: past and to come look the same."""

    def __init__(self, theme: Theme, pens: Pens) -> None:
        self._theme = theme
        self._pens = pens
        self._edge = theme.colour("edge")
        # Made once: a frame asks for some ten of them.
        self._fills = {
            BandLook.QUIET: QBrush(theme.colour("wash")),
            BandLook.INSIDE: QBrush(theme.colour("dense")),
            BandLook.OUTSIDE: QBrush(self._hatch_tile()),
        }

    def _hatch_tile(self) -> QPixmap:
        size = self._pens.hatch
        tile = QPixmap(size, size)
        tile.fill(QColor(self._theme.wash))
        painter = QPainter(tile)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pen = QPen(QColor(self._theme.hatch), max(2.0, size / 7))
        pen.setCapStyle(Qt.PenCapStyle.SquareCap)
        painter.setPen(pen)
        for shift in (-size, 0, size):
            painter.drawLine(shift, size, shift + size, 0)
        painter.end()
        return tile

    def fill(self, look: BandLook) -> QBrush:
        """What the inside of the band is filled with."""
        return self._fills[look]

    def edge_width(self, look: BandLook) -> int:
        """Width of the drawn edges."""
        inside = look is BandLook.INSIDE
        return self._pens.edge_inside if inside else self._pens.edge

    def paint(
        self,
        painter: QPainter,
        columns: tuple[int, int],
        rows: tuple[int, int],
        look: BandLook,
        *,
        open_above: bool,
    ) -> None:
        """One stretch of one band in one look.

        Args:
            columns: first column and the one after the last.
            rows: row of the upper edge and of the lower edge.
            open_above: whether the band has no upper edge.
        """
        (left, right), (top, foot) = columns, rows
        painter.fillRect(left, top, right - left, foot - top, self.fill(look))
        width = self.edge_width(look)
        edge = self._edge
        # The edges lie outside the wash: the wash itself is all band.
        painter.fillRect(left, foot, right - left, width, edge)
        if not open_above:
            painter.fillRect(left, top - width, right - left, width, edge)

    def paint_post(self, painter: QPainter, column: int, rows: tuple[int, int]) -> None:
        """The post that stands at the end of a hold, from `column` on."""
        (top, foot), width = rows, self._pens.edge_inside
        tall = foot - top + 2 * width
        painter.fillRect(column, top - width, width, tall, self._edge)
