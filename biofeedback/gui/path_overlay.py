"""What stands over the path and does not flow: the ceiling, *now* and the markers.

All of it is drawn once and kept; a frame puts pixmaps over the columns.
"""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING, TypeAlias

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPixmap

from biofeedback.gui.language import tr
from biofeedback.gui.marks import Fill, Stamps, disc, ring, triangle

if TYPE_CHECKING:
    from biofeedback.gui.panel import Panel
    from biofeedback.gui.scale import Scale

Piece: TypeAlias = tuple[int, int, QPixmap]
"""A pixmap and where it stands."""
ASIDE = 1.3
"""Of two markers each stands beside *now*, by so many radii."""


class PathOverlay:
    """Ceiling, line of *now* and markers, for one size and one set of colours.

    Args:
        panel: gives colours and letters.
        width: of the plot, physical pixels; so is all else.
        size: of letters.
        edge: width of a line.
    """

    def __init__(
        self, panel: Panel, *, width: int, height: int, size: float, edge: int
    ) -> None:
        self._panel = panel
        self._width = width
        self._height = height
        self._size = size
        self._edge = edge
        self._radius = height / 24
        # Nothing that leads back here: what is laid out anew goes at once, and not in
        # whatever thread the collector runs in.
        self._stamps = Stamps(partial(_draw_marker, panel))
        self._lines: dict[bool, QPixmap] = {}
        self._ceiling: tuple[Piece, ...] = ()
        self._ceiling_y: float | None = None

    @property
    def reach(self) -> int:
        """How far right of *now* a marker can be seen."""
        return math.ceil((ASIDE + 1.6) * self._radius) + 4

    def paint_ceiling(
        self, painter: QPainter, scale: Scale, ceiling_n: float | None
    ) -> None:
        """A line with teeth that point down: not to be passed."""
        if ceiling_n is None:
            return
        y = scale.y(ceiling_n, self._height)
        if y != self._ceiling_y:
            self._ceiling_y, self._ceiling = y, self._ceiling_at(y)
        for left, top, piece in self._ceiling:
            painter.drawPixmap(left, top, piece)

    def paint_now(
        self,
        painter: QPainter,
        now_x: int,
        *,
        live: bool,
        markers: list[tuple[str, float]],
        scale: Scale,
    ) -> None:
        """The line of *now*, and on it where the force is."""
        line = self._lines.get(live)
        if line is None:
            line = self._lines[live] = self._now_line(live=live)
        painter.drawPixmap(now_x - self._edge, 0, line)
        radius, height = self._radius, self._height
        two = len(markers) == 2
        for i, (shape, force_n) in enumerate(markers):
            fill, x = Fill.SOLID, float(now_x)
            if two:
                # Left beside the line and hollow, right beside it and solid.
                fill = (Fill.HOLLOW, Fill.SOLID)[i]
                x += (-ASIDE, ASIDE)[i] * radius
            y = min(height - radius, max(radius, scale.y(force_n, height)))
            self._stamps.put(painter, shape, (x, y), radius, fill)

    def _ceiling_at(self, y: float) -> tuple[Piece, ...]:
        """The word and the line apart: what is empty beside a word costs too."""
        size, edge = self._size, self._edge
        wide = self._panel.wide(tr("ceiling"), size, bold=False) + math.ceil(size)
        word_left = max(0, self._width - wide)
        word_top = math.floor(y) - math.ceil(1.5 * size) - 1
        top, foot = math.floor(y) - edge, math.floor(y) + 6 * edge
        pieces = []
        for left, head, end in ((word_left, word_top, top), (0, top, foot)):
            piece = QPixmap(self._width - left, max(1, end - head))
            piece.fill(Qt.GlobalColor.transparent)
            inner = QPainter(piece)
            inner.setRenderHint(QPainter.RenderHint.Antialiasing)
            inner.translate(-left, y - head)
            self._draw_ceiling(inner)
            inner.end()
            pieces.append((left, head, piece))
        return tuple(pieces)

    def _draw_ceiling(self, painter: QPainter) -> None:
        """With the line itself at row 0."""
        panel, size = self._panel, self._size
        painter.setPen(QPen(panel.theme.colour("ink"), self._edge))
        tooth = self._edge * 4
        teeth = range(tooth, self._width - tooth, tooth * 6)
        painter.drawLines(
            [
                QLineF(0, 0, self._width, 0),
                *(QLineF(x, 0, x + tooth, tooth) for x in teeth),
            ]
        )
        panel.write(
            painter,
            QRectF(0, -1.5 * size, self._width - size / 2, 1.4 * size),
            tr("ceiling"),
            size_px=size,
            align=Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter,
        )

    def _now_line(self, *, live: bool) -> QPixmap:
        """Dashed without a signal."""
        line = QPixmap(2 * self._edge + 1, self._height)
        line.fill(Qt.GlobalColor.transparent)
        pen = QPen(self._panel.theme.colour("edge"), self._edge)
        if not live:
            pen.setDashPattern([3, 3])
        painter = QPainter(line)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(pen)
        painter.drawLine(QLineF(self._edge, 0, self._edge, self._height))
        painter.end()
        return line


def _draw_marker(
    panel: Panel,
    painter: QPainter,
    shape: str,
    centre: QPointF,
    radius: float,
    fill: Fill,
) -> None:
    ink, paper = panel.theme.colour("ink"), panel.theme.colour("paper")
    if shape == "disc":
        disc(painter, centre, radius, ink=ink, paper=paper, fill=fill)
    elif shape == "ring":
        ring(painter, centre, radius, ink=ink, paper=paper)
    else:
        up = shape == "up"
        triangle(painter, centre, radius, up=up, ink=ink, paper=paper, fill=fill)
