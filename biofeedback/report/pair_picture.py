"""A picture of pairs of numbers: a mark for each athlete, lines, and words beside them.

A mark that is an average of several rows is a hollow square, any other a full disc.
Everything is told by form and words; the painter is that of page and file alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter, QPen

from biofeedback.phrase import joined, phrase
from biofeedback.report.chart_painter import DASHES
from biofeedback.report.chart_scale import Scale, round_scale
from biofeedback.report.ink import PRINT, Ink, font
from biofeedback.report.png import png_of
from biofeedback.report.writing import painting
from biofeedback.session.planning import write_whole

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from biofeedback.phrase import Phrase
    from biofeedback.report.chart_layout import Shown

PLOT = 17.0
"""Height of the plot, in heights of type."""
WRAP = int(Qt.TextFlag.TextWordWrap) | int(Qt.AlignmentFlag.AlignLeft)
SAVED_PX = (1600, 24)
"""Width of a saved picture, and the height of its type."""


@dataclass(frozen=True, slots=True)
class PairPoint:
    """One athlete.

    Attributes:
        name: the code.
        repeated: whether it is an average of several rows.
    """

    x: float
    y: float
    name: str
    repeated: bool


@dataclass(frozen=True, slots=True)
class Slant:
    """A line from one point to another; its words stand in the legend."""

    x0: float
    y0: float
    x1: float
    y1: float
    words: Phrase
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Upright:
    """A line at a value of x."""

    value: float
    words: Phrase


@dataclass(frozen=True, slots=True, kw_only=True)
class PairChart:
    """What is drawn.

    Attributes:
        words: sentences below the plot.
        span: an interval on x, drawn at y = 0.
        crossing: a value of x, drawn at y = 0.
    """

    title: Phrase
    x_words: Phrase
    y_words: Phrase
    points: tuple[PairPoint, ...]
    slants: tuple[Slant, ...] = ()
    uprights: tuple[Upright, ...] = ()
    words: tuple[Phrase, ...] = ()
    span: tuple[float, float] | None = None
    crossing: float | None = None

    @property
    def spoken(self) -> Phrase:
        """The picture in words."""
        head = phrase(
            "{title}, {count} athletes", title=self.title, count=len(self.points)
        )
        return joined(". ", (head, *self.words))


def point_words(chart: PairChart, point: PairPoint) -> Phrase:
    """A point in words."""
    told = phrase(
        "{code}: {x_words} {x:.0f}; {y_words} {y:.0f}",
        code=point.name,
        x_words=chart.x_words,
        x=point.x,
        y_words=chart.y_words,
        y=point.y,
    )
    if not point.repeated:
        return told
    return joined("; ", (told, phrase("average of several rows")))


class PairPicture:
    """A chart laid out in a place.

    Args:
        place: top left corner and width; the height follows.
        shown: puts a text into the language of the reader.
    """

    def __init__(
        self,
        chart: PairChart,
        place: QPointF,
        width: float,
        *,
        type_px: float,
        shown: Shown = str,
    ) -> None:
        self.chart = chart
        self._type = type_px
        self._shown = shown
        self._plain = QFontMetricsF(font(type_px))
        self._texts: list[tuple[QRectF, str, bool]] = []
        self._swatches: list[tuple[QPointF, object]] = []
        top = self._write(place.y(), place.x(), width, shown(chart.title), bold=True)
        for what, words in self._legend():
            indent = 3.0 * type_px
            self._swatches.append((QPointF(place.x(), top + 0.62 * type_px), what))
            top = self._write(top, place.x() + indent, width - indent, shown(words))
        top = self._write(top, place.x(), width, shown(chart.y_words))
        points = chart.points
        xs = [point.x for point in points]
        ys = [point.y for point in points]
        ys += [y for slant in chart.slants for y in (slant.y0, slant.y1)]
        xs += [line.value for line in chart.uprights]
        self.x_scale: Scale = round_scale(min(xs), max(xs), ticks=6)
        self.y_scale: Scale = round_scale(min(ys), max(ys), ticks=6)
        left = 4.2 * type_px
        self.plot = QRectF(
            place.x() + left, top + 4, width - left - 0.8 * type_px, PLOT * type_px
        )
        top = self.plot.bottom() + 2.0 * type_px
        top = self._write(
            top, self.plot.left(), self.plot.width(), shown(chart.x_words)
        )
        for words in chart.words:
            top = self._write(top, place.x(), width, shown(words))
        self.bottom = top

    def _legend(self) -> list[tuple[object, Phrase]]:
        found: list[tuple[object, Phrase]] = [(False, phrase("one athlete"))]
        if any(point.repeated for point in self.chart.points):
            found.append((True, phrase("one athlete, average of several rows")))
        found += [(slant, slant.words) for slant in self.chart.slants]
        found += [(line, line.words) for line in self.chart.uprights]
        if self.chart.span is not None:
            found.append(("span", phrase("where the line may cross zero (95 %)")))
        return found

    def _write(
        self, top: float, left: float, width: float, text: str, *, bold: bool = False
    ) -> float:
        metrics = QFontMetricsF(font(self._type, bold=bold))
        room = metrics.boundingRect(QRectF(0, 0, width, 1e6), WRAP, text)
        self._texts.append((QRectF(left, top, width, room.height()), text, bold))
        return top + room.height() + 0.2 * self._type

    def at(self, x: float, y: float) -> QPointF:
        """Where a pair of values stands."""
        plot, across, up = self.plot, self.x_scale, self.y_scale
        return QPointF(
            plot.left()
            + plot.width() * (x - across.bottom) / (across.top - across.bottom),
            plot.bottom() - plot.height() * (y - up.bottom) / (up.top - up.bottom),
        )

    def nearest(self, place: QPointF, *, within_px: float) -> PairPoint | None:
        """The point drawn nearest to a place."""
        best = min(
            self.chart.points,
            key=lambda point: QLineF(self.at(point.x, point.y), place).length(),
        )
        near = QLineF(self.at(best.x, best.y), place).length() <= within_px
        return best if near else None

    # Drawing.

    def paint(self, painter: QPainter, ink: Ink) -> None:
        """Draws it."""
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for rect, text, bold in self._texts:
            painter.setFont(font(self._type, bold=bold))
            painter.setPen(QColor(ink.ink))
            painter.drawText(rect, WRAP | int(Qt.TextFlag.TextDontClip), text)
        self._axes(painter, ink)
        for at, what in self._swatches:
            middle = at + QPointF(1.2 * self._type, 0)
            if isinstance(what, bool):
                self._mark(painter, ink, middle, repeated=what)
            else:
                end = at + QPointF(2.4 * self._type, 0)
                self._line(painter, ink, QLineF(at, end), what)
        painter.setClipRect(self.plot)
        for slant in self.chart.slants:
            line = QLineF(self.at(slant.x0, slant.y0), self.at(slant.x1, slant.y1))
            self._line(painter, ink, line, slant)
        for upright in self.chart.uprights:
            x = self.at(upright.value, 0).x()
            line = QLineF(x, self.plot.top(), x, self.plot.bottom())
            self._line(painter, ink, line, upright)
        if self.chart.span is not None:
            low, high = (self.at(value, 0.0) for value in self.chart.span)
            self._line(painter, ink, QLineF(low, high), "span")
        for point in self.chart.points:
            at = self.at(point.x, point.y)
            self._mark(painter, ink, at, repeated=point.repeated)
        painter.restore()

    def _axes(self, painter: QPainter, ink: Ink) -> None:
        plot, tick = self.plot, 0.3 * self._type
        painter.setFont(font(self._type))
        painter.setPen(QPen(QColor(ink.edge), self._type / 13))
        painter.drawLine(plot.bottomLeft(), plot.bottomRight())
        painter.drawLine(plot.bottomLeft(), plot.topLeft())
        painter.setPen(QColor(ink.ink))
        height = self._plain.height()
        for value in self.x_scale.ticks:
            foot = QPointF(self.at(value, 0).x(), plot.bottom())
            painter.drawLine(foot, foot + QPointF(0, tick))
            rect = QRectF(foot.x() - 60, foot.y() + tick, 120, height)
            text = self._shown(self.x_scale.words(value))
            painter.drawText(rect, int(Qt.AlignmentFlag.AlignCenter), text)
        side = int(Qt.AlignmentFlag.AlignRight) | int(Qt.AlignmentFlag.AlignVCenter)
        for value in self.y_scale.ticks:
            foot = QPointF(plot.left(), self.at(0, value).y())
            painter.drawLine(foot, foot - QPointF(tick, 0))
            rect = QRectF(foot.x() - 2 * tick - 200, foot.y() - height, 200, 2 * height)
            painter.drawText(rect, side, self._shown(self.y_scale.words(value)))

    def _line(self, painter: QPainter, ink: Ink, line: QLineF, what: object) -> None:
        unit = self._type / 13
        pen = QPen(QColor(ink.ink), 1.4 * unit)
        if isinstance(what, Slant) and what.bold:
            pen.setWidthF(2.4 * unit)
        elif isinstance(what, Slant):
            pen.setColor(QColor(ink.edge))
        elif isinstance(what, Upright):
            number = self.chart.uprights.index(what)
            pen.setDashPattern(DASHES[number % len(DASHES)])
        else:
            pen.setWidthF(4.0 * unit)
            pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        painter.setPen(pen)
        painter.drawLine(line)
        if what == "span":
            cap = QPointF(0, 0.45 * self._type)
            pen.setWidthF(1.6 * unit)
            painter.setPen(pen)
            for end in (line.p1(), line.p2()):
                painter.drawLine(end - cap, end + cap)

    def _mark(
        self, painter: QPainter, ink: Ink, at: QPointF, *, repeated: bool
    ) -> None:
        size = 0.3 * self._type
        painter.setPen(QPen(QColor(ink.ink), 1.5 * self._type / 13))
        painter.setBrush(QColor(ink.paper if repeated else ink.ink))
        if repeated:
            corner = QPointF(size, size)
            painter.drawRect(QRectF(at - corner, at + corner))
        else:
            painter.drawEllipse(at, size, size)


def save_picture(
    charts: Sequence[PairChart], path: Path, *, shown: Shown = str
) -> None:
    """Writes charts side by side as a PNG, whole or not at all.

    Raises:
        FileError: the file cannot be written.
    """
    _app = painting()
    width, type_px = SAVED_PX
    edge = 1.5 * type_px
    each = (width - (len(charts) + 1) * edge) / len(charts)
    pictures = [
        PairPicture(
            chart,
            QPointF(edge + place * (each + edge), edge),
            each,
            type_px=type_px * 0.75,
            shown=shown,
        )
        for place, chart in enumerate(charts)
    ]
    height = max(picture.bottom for picture in pictures) + edge
    image = QImage(width, round(height), QImage.Format.Format_RGB32)
    image.fill(QColor(PRINT.paper))
    painter = QPainter(image)
    for picture in pictures:
        picture.paint(painter, PRINT)
    painter.end()
    write_whole(path, png_of(image))
