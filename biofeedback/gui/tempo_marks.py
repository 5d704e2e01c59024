"""The tempo guide on the path: a slope at the foot that runs out with the tempo.

The slope is where the body should be, high at the start and low at the end. It stands
on the line of rest, apart from the floor and the force, so that nobody takes it for a
force: it has no newtons. At *now* its height is what is left of the way down, and a
ring rides on it. Each whole second has a tick and its number.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from biofeedback.gui.band_brush import Pens
from biofeedback.gui.theme import font

if TYPE_CHECKING:
    from biofeedback.gui.scale import Scale
    from biofeedback.gui.theme import Theme
    from biofeedback.training.tempo import TempoGuide

STRIP_SHARE = 0.16
"""Height of the slope as a share of the plot; less where the floor is lower."""
ROOM_SHARE = 0.8
"""The slope keeps to this part of the room between rest and floor."""
NUMBER_SHARE = 0.075


class TempoMarks:
    """Draws the guide of one lowering, right of *now*.

    Args:
        height: of the plot, physical pixels.
        columns_per_s: of the picture.
    """

    def __init__(self, *, theme: Theme, height: int, columns_per_s: float) -> None:
        self._theme = theme
        self._height = height
        self._columns_per_s = columns_per_s
        self._pens = Pens.for_height(height)

    def rise(self, scale: Scale, floor_n: float) -> float:
        """Height of the whole slope in pixels: it never reaches the floor."""
        room = scale.y(0.0, self._height) - scale.y(floor_n, self._height)
        return min(STRIP_SHARE * self._height, ROOM_SHARE * room)

    def paint(
        self, painter: QPainter, guide: TempoGuide, *, scale: Scale, base_s: float
    ) -> None:
        """Slope, ring, ticks and numbers.

        Args:
            painter: its x axis counts columns from sample time 0.
            base_s: the moment from which the guide is counted.
        """
        foot = scale.y(0.0, self._height)
        rise = self.rise(scale, guide.floor[0][1])
        (start_s, share), (end_s, _) = guide.way_down
        left, right = (self._column(base_s, at_s) for at_s in (start_s, end_s))
        top = foot - rise * (1 - share)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._theme.colour("wash"))
        slope = (QPointF(left, foot), QPointF(left, top), QPointF(right, foot))
        painter.drawPolygon(QPolygonF(slope))
        painter.setPen(QPen(self._theme.colour("edge"), self._pens.edge))
        painter.drawLine(QLineF(left, top, right, foot))
        radius = self._height / 45
        free_from = left
        if not guide.way_in:
            self._ring(painter, left + radius, top - radius, radius)
            free_from += 2 * radius + NUMBER_SHARE * self._height / 2
        for beat in guide.beats:
            x = self._column(base_s, beat.at_s)
            left_s = (end_s - beat.at_s) / (end_s - start_s)
            # A number that would lie under the ring has had its time.
            number = str(beat.number) if x > free_from else ""
            self._beat(painter, x, (foot, foot - (foot - top) * left_s), number)
        painter.restore()

    def _ring(self, painter: QPainter, x: float, y: float, radius: float) -> None:
        """Where the body should be now."""
        painter.setBrush(self._theme.colour("paper"))
        painter.setPen(QPen(self._theme.colour("ink"), self._pens.edge))
        painter.drawEllipse(QPointF(x, y), radius, radius)

    def _beat(
        self, painter: QPainter, x: float, rows: tuple[float, float], number: str
    ) -> None:
        """A tick from the line of rest up to the slope, and the number above."""
        foot, top = rows
        size = max(9.0, NUMBER_SHARE * self._height)
        painter.setPen(QPen(self._theme.colour("edge"), self._pens.edge))
        painter.drawLine(QLineF(x, foot, x, top))
        painter.setFont(font(size))
        painter.setPen(QPen(self._theme.colour("quiet")))
        box = QRectF(x - 2 * size, top - 1.3 * size, 4 * size, 1.2 * size)
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextSingleLine
        painter.drawText(box, int(flags), number)

    def _column(self, base_s: float, at_s: float) -> float:
        return math.floor((base_s + at_s) * self._columns_per_s)
