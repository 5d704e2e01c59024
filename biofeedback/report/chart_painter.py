"""Draws a chart with any painter: on the window, on paper, into a picture.

Lines and marks grow with the type, so that it looks the same at every size.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from biofeedback.report.chart import (
    Chart,
    Join,
    Level,
    Mark,
    NoiseBand,
    Point,
    Scatter,
    Series,
)
from biofeedback.report.chart_layout import BETWEEN_WORDS, INDENT, lay_out, nothing
from biofeedback.report.chart_places import MARK, ChartLayout, Part, TextBlock
from biofeedback.report.ink import Ink, font

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.report.chart_layout import Shown

DASHES = ([6.0, 3.0], [1.5, 2.5], [9.0, 3.0, 1.5, 3.0], [3.0, 3.0])
"""Of horizontal lines, in widths of the line; their legend shows the same."""
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
MIDDLE = Qt.AlignmentFlag.AlignCenter


def paint(
    painter: QPainter,
    rect: QRectF,
    chart: Chart,
    ink: Ink,
    *,
    type_px: float = 13.0,
    shown: Shown = str,
) -> ChartLayout:
    """Draws a chart and returns where everything stands.

    Args:
        type_px: height of the type, in the painter's units.
        shown: puts a text into the language of the reader.
    """
    layout = lay_out(chart, rect, type_px=type_px, shown=shown)
    paint_layout(painter, layout, ink, shown=shown)
    return layout


def paint_layout(
    painter: QPainter, layout: ChartLayout, ink: Ink, *, shown: Shown = str
) -> None:
    """Draws what was laid out before."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _Drawing(painter, layout, ink).draw(shown)
    painter.restore()


class _Drawing:
    """One chart on one painter."""

    def __init__(self, painter: QPainter, layout: ChartLayout, ink: Ink) -> None:
        self._painter = painter
        self._layout = layout
        self._ink = ink
        self._unit = layout.type_px / 13.0
        self._plain = font(layout.type_px)
        self._title = font(layout.type_px * 1.1, bold=True)

    def draw(self, shown: Shown) -> None:
        """Everything."""
        for block in self._layout.blocks:
            self._block(block)
        self._frame()
        if self._layout.chart.empty:
            empty = nothing(self._layout.chart, shown)
            self._text(self._layout.plot, empty, "quiet", int(MIDDLE) | BETWEEN_WORDS)
            return
        painter, plot = self._painter, self._layout.plot
        painter.save()
        painter.setClipRect(plot)
        for band in self._layout.chart.noise:
            self._band(self._band_rect(band), band)
        painter.restore()
        for index, level in enumerate(self._layout.chart.levels):
            y = self._layout.y(level.value)
            self._level(QLineF(plot.left(), y, plot.right(), y), index)
        self._moments()
        for one in self._layout.chart.series:
            self._series(one)
        if self._layout.chart.scatter is not None:
            self._scatter(self._layout.chart.scatter, shown)

    # Around the plot.

    def _block(self, block: TextBlock) -> None:
        title = block.part is Part.TITLE
        quiet = block.part in (Part.MOMENT, Part.REMARK)
        self._text(
            block.rect,
            block.text,
            "quiet" if quiet else "ink",
            int(LEFT) | block.wrap,
            title=title,
        )
        if block.of is None:
            return
        type_px = self._layout.type_px
        left = block.rect.left() - INDENT * type_px
        line = QLineF(left, 0, left + 2.4 * type_px, 0)
        line.translate(0, block.rect.top() + 0.62 * type_px)
        if isinstance(block.of, Series):
            if block.of.join is not Join.NONE:
                self._line([line], block.of.mark)
            self._mark(line.center(), block.of.mark)
        elif isinstance(block.of, Level):
            self._level(line, block.index)
        else:
            half = QPointF(0, 0.45 * type_px)
            self._band(QRectF(line.p1() - half, line.p2() + half), block.of)

    def _frame(self) -> None:
        layout, painter = self._layout, self._painter
        plot = layout.plot
        painter.setPen(self._pen("edge", 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawLine(plot.bottomLeft(), plot.bottomRight())
        painter.drawLine(plot.bottomLeft(), plot.topLeft())
        tick = 0.3 * layout.type_px
        for y, text, rect in layout.value_ticks:
            painter.setPen(self._pen("edge", 1.0))
            painter.drawLine(QPointF(plot.left() - tick, y), QPointF(plot.left(), y))
            self._text(rect, text, "ink", int(RIGHT))
        for x, text, rect in layout.day_ticks:
            painter.setPen(self._pen("edge", 1.0))
            foot = QPointF(x, plot.bottom())
            painter.drawLine(foot, foot + QPointF(0, tick))
            self._text(rect, text, "ink", int(MIDDLE))

    def _text(
        self,
        rect: QRectF,
        text: str,
        role: str,
        flags: int,
        *,
        title: bool = False,
    ) -> None:
        self._painter.setFont(self._title if title else self._plain)
        self._painter.setPen(self._colour(role))
        # A metric may be a hair wider on another device; nothing is clipped for it.
        flags |= int(Qt.TextFlag.TextDontClip)
        self._painter.drawText(rect, flags, text)

    # Inside the plot.

    def _band_rect(self, band: NoiseBand) -> QRectF:
        plot = self._layout.plot
        left = plot.left()
        if band.first_day is not None:
            left = max(left, self._layout.x(band.first_day))
        top, bottom = self._layout.y(band.upper), self._layout.y(band.lower)
        return QRectF(left, top, max(plot.right() - left, 1.0), bottom - top)

    def _band(self, rect: QRectF, band: NoiseBand) -> None:
        """Washed, hatched one way or the other, with drawn edges."""
        painter = self._painter
        painter.save()
        painter.setClipRect(rect, Qt.ClipOperation.IntersectClip)
        if not band.mark.hollow:
            painter.fillRect(rect, self._colour("wash"))
        painter.setPen(self._pen("hatch", 0.8))
        step, height = 9 * self._unit, rect.height()
        count = int((rect.width() + height) / step) + 1
        lines = []
        for index in range(count):
            x = rect.left() + index * step
            low, high = (x, x - height) if band.mark.hollow else (x - height, x)
            lines.append(QLineF(low, rect.bottom(), high, rect.top()))
        painter.drawLines(lines)
        painter.restore()
        pen = self._pen("edge", 1.2)
        if band.mark.hollow:
            pen.setDashPattern([4.0, 3.0])
        painter.setPen(pen)
        painter.drawLine(rect.topLeft(), rect.topRight())
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())

    def _level(self, line: QLineF, index: int) -> None:
        pen = self._pen("ink", 1.4)
        pen.setDashPattern(DASHES[index % len(DASHES)])
        self._painter.setPen(pen)
        self._painter.drawLine(line)

    def _moments(self) -> None:
        plot = self._layout.plot
        for x, letter, rect in self._layout.letters:
            pen = self._pen("quiet", 1.0)
            pen.setDashPattern([1.0, 3.0])
            self._painter.setPen(pen)
            self._painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()))
            self._text(rect, letter, "ink", int(MIDDLE))

    def _series(self, series: Series) -> None:
        if series.join is not Join.NONE:
            lines = [line for run in series.runs for line in self._joined(series, run)]
            self._line(lines, series.mark)
        size = MARK * self._layout.mark_size(series)
        for point in series.points:
            self._mark(self._layout.place(series, point), series.mark, size)

    def _scatter(self, scatter: Scatter, shown: Shown) -> None:
        layout = self._layout
        plot, line = layout.plot, 1.3 * layout.type_px
        foot = QRectF(plot.left(), plot.bottom() + 2 * line - 4, plot.width(), line)
        self._text(foot, shown(scatter.across), "ink", int(MIDDLE))
        for level, value in scatter.points:
            at = QPointF(layout.x_across(level), layout.y(value))
            self._mark(at, scatter.mark)

    def _joined(self, series: Series, run: Sequence[Point]) -> list[QLineF]:
        points = [self._layout.place(series, point) for point in run]
        found = []
        for here, there in pairwise(points):
            if series.join is Join.STEPS:
                corner = QPointF(there.x(), here.y())
                found += [QLineF(here, corner), QLineF(corner, there)]
            else:
                found.append(QLineF(here, there))
        return found

    def _line(self, lines: list[QLineF], mark: Mark) -> None:
        pen = self._pen("edge", 1.5)
        if mark.hollow:
            pen.setDashPattern([4.0, 3.0])
        self._painter.setPen(pen)
        self._painter.drawLines(lines)

    def _mark(self, at: QPointF, mark: Mark, radius: float | None = None) -> None:
        size = MARK * self._layout.type_px if radius is None else radius
        self._painter.setPen(self._pen("ink", 1.5))
        self._painter.setBrush(self._colour("paper" if mark.hollow else "ink"))
        if mark in (Mark.LEFT, Mark.RIGHT):
            self._painter.drawEllipse(at, size, size)
        elif mark in (Mark.BEFORE, Mark.AFTER):
            square = QPointF(0.85 * size, 0.85 * size)
            self._painter.drawRect(QRectF(at - square, at + square))
        else:
            tall, wide = QPointF(0, 1.25 * size), QPointF(1.25 * size, 0)
            corners = [at - tall, at + wide, at + tall, at - wide]
            self._painter.drawPolygon(QPolygonF(corners))

    def _pen(self, role: str, width: float) -> QPen:
        return QPen(self._colour(role), width * self._unit)

    def _colour(self, role: str) -> QColor:
        return QColor(getattr(self._ink, role))
