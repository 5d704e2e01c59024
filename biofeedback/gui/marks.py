"""Shapes that mean something: each is told by its form, never by a colour.

Left is hollow and dashed, right is filled and solid, everywhere. What moves a little in
each frame is stamped: see `Stamps`.
"""

from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPixmap, QPolygonF

if TYPE_CHECKING:
    from collections.abc import Callable

STEPS = 4
"""Places within a pixel for which a stamp is made: none is off by more than an eighth
of a pixel."""
STAMPS_KEPT = 4 * STEPS**2
"""More come only where theme or size changes."""


class Fill(Enum):
    """How a shape is drawn."""

    # There is one of each; Python's own, by the name, takes longer in each frame.
    __hash__ = object.__hash__

    SOLID = 1
    HOLLOW = 2  # dashed outline on paper
    HALVED = 3  # left half hollow, right half solid


class Stamps:
    """Small shapes as pixmaps: one is painted in a twentieth of the time.

    Args:
        draw: paints a shape of a name around a point, with a painter that smooths.
    """

    def __init__(
        self, draw: Callable[[QPainter, str, QPointF, float, Fill], None]
    ) -> None:
        self._draw = draw
        self._kept: dict[object, QPixmap] = {}

    def clear(self) -> None:
        """Other colours."""
        self._kept.clear()

    def put(
        self,
        painter: QPainter,
        shape: str,
        centre: tuple[float, float],
        radius: float,
        fill: Fill,
        *,
        ratio: float = 1.0,
    ) -> None:
        """Paints one.

        Args:
            centre: in the painter's units.
            ratio: physical pixels in each of these units.
        """
        x, y = (round(at * ratio * STEPS) for at in centre)
        (left, part_x), (top, part_y) = divmod(x, STEPS), divmod(y, STEPS)
        reach = math.ceil(1.6 * radius * ratio) + 3
        key = (shape, fill, radius, ratio, part_x, part_y)
        stamp = self._kept.get(key)
        if stamp is None:
            if len(self._kept) >= STAMPS_KEPT:
                self._kept.clear()
            stamp = self._kept[key] = QPixmap(2 * reach + 1, 2 * reach + 1)
            stamp.fill(Qt.GlobalColor.transparent)
            stamp.setDevicePixelRatio(ratio)
            inner = QPainter(stamp)
            inner.setRenderHint(QPainter.RenderHint.Antialiasing)
            middle = QPointF(reach + part_x / STEPS, reach + part_y / STEPS) / ratio
            self._draw(inner, shape, middle, radius, fill)
            inner.end()
        at = QPointF(left - reach, top - reach) / ratio
        painter.drawPixmap(at, stamp)


def disc(
    painter: QPainter,
    centre: QPointF,
    radius: float,
    *,
    ink: QColor,
    paper: QColor,
    fill: Fill = Fill.SOLID,
) -> None:
    """A disc with a rim of paper around it, so that it stands off any line."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(paper)
    rim = max(2.0, radius / 5)
    painter.drawEllipse(centre, radius + rim, radius + rim)
    path = QPainterPath()
    path.addEllipse(centre, radius, radius)
    if fill is not Fill.HALVED:
        _shape(painter, path, ink=ink, paper=paper, fill=fill, width=radius / 4)
        return
    painter.fillPath(path, paper)
    box = path.boundingRect()
    left, right = QPainterPath(), QPainterPath(centre)
    left.arcMoveTo(box, 90)
    left.arcTo(box, 90, 180)
    painter.strokePath(left, _dashed(ink, radius / 4))
    right.arcTo(box, -90, 180)
    painter.fillPath(right, ink)


def triangle(
    painter: QPainter,
    centre: QPointF,
    radius: float,
    *,
    up: bool,
    ink: QColor,
    paper: QColor,
    fill: Fill = Fill.SOLID,
) -> None:
    """A triangle that points up or down, with a rim of paper."""
    sign = -1.0 if up else 1.0
    points = [
        QPointF(centre.x(), centre.y() + sign * 1.15 * radius),
        QPointF(centre.x() - 1.1 * radius, centre.y() - sign * 0.75 * radius),
        QPointF(centre.x() + 1.1 * radius, centre.y() - sign * 0.75 * radius),
    ]
    path = QPainterPath()
    path.addPolygon(QPolygonF(points))
    path.closeSubpath()
    rim = QPen(paper, max(4.0, radius / 2.2))
    rim.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.strokePath(path, rim)
    _shape(painter, path, ink=ink, paper=paper, fill=fill, width=radius / 4)


def ring(
    painter: QPainter, centre: QPointF, radius: float, *, ink: QColor, paper: QColor
) -> None:
    """An open ring: where the force is, while no band asks for anything."""
    painter.setBrush(paper)
    painter.setPen(QPen(ink, max(2.0, radius / 3)))
    painter.drawEllipse(centre, radius * 0.85, radius * 0.85)


def _shape(
    painter: QPainter,
    path: QPainterPath,
    *,
    ink: QColor,
    paper: QColor,
    fill: Fill,
    width: float,
) -> None:
    """A solid shape, or a hollow one with a dashed outline."""
    if fill is Fill.SOLID:
        painter.fillPath(path, ink)
        return
    painter.fillPath(path, paper)
    painter.strokePath(path, _dashed(ink, width))


def _dashed(ink: QColor, width: float) -> QPen:
    pen = QPen(ink, max(2.0, width))
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    pen.setDashPattern([1.6, 0.9])
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen
