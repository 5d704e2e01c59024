"""A sheet on pages: laid out, painted, and written as PDF or PNG.

* One unit is a tenth of a point, on paper and in pictures: the same layout for both.
* A part goes to the next page whole; a table of more than a page is the only one that
  would be cut, and none is so long. A heading goes with what it heads.
* Files are written whole or not at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QImage,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
    QPen,
)

from biofeedback.phrase import phrase
from biofeedback.report.chart_layout import least_height, wrap_of
from biofeedback.report.chart_painter import paint
from biofeedback.report.ink import PRINT, font
from biofeedback.report.png import png_of
from biofeedback.report.sheet import Bullets, Charts, Grid, Heading, Paragraph, Sheet

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtGui import QFont

    from biofeedback.report.chart_layout import Shown
    from biofeedback.report.sheet import Part

UNITS_A_POINT = 10
WIDTH, HEIGHT = 5953, 8419
"""A4 in tenths of a point: 210 × 297 mm."""
MARGIN = 420
"""15 mm."""
FOOT = 200
GAP = 60
TYPE = 85.0
CHART_TYPE = 72.0
CHART_HEIGHT = 1450.0
TALL_CHARTS = 1900.0
"""Where there is room for it."""
PNG_DPI = 150
PDF_DPI = 1200
PLOT_MORE = 5.0
"""Beyond the least height of a plot, in heights of type."""
LEFT = int(Qt.AlignmentFlag.AlignLeft) | int(Qt.AlignmentFlag.AlignTop)
RIGHT = int(Qt.AlignmentFlag.AlignRight) | int(Qt.AlignmentFlag.AlignTop)

Drawn = tuple[float, "Callable[[QPainter, float], None]"]
"""Height of a part, and how it is drawn at a height of the page."""


@dataclass(frozen=True, slots=True)
class Page:
    """Parts of one page with their tops.

    Attributes:
        bottom: of the last one.
    """

    drawn: tuple[tuple[float, Callable[[QPainter, float], None]], ...]
    bottom: float


class Paper:
    """A sheet laid out on A4 pages.

    Args:
        shown: puts a text into the language of the reader.
        chart_height: of charts at least.

    Attributes:
        pages: what stands on each.
    """

    def __init__(
        self, sheet: Sheet, *, shown: Shown = str, chart_height: float = CHART_HEIGHT
    ) -> None:
        self._sheet = sheet
        self._chart_height = chart_height
        self._shown = shown
        self._plain = font(TYPE)
        self._bold = font(TYPE, bold=True)
        self._heading = font(TYPE * 1.2, bold=True)
        self._large = font(TYPE * 1.9, bold=True)
        self.pages = self._laid_out([self._part(part) for part in sheet.parts])

    def _laid_out(self, parts: Sequence[Drawn]) -> tuple[Page, ...]:
        bottom = HEIGHT - MARGIN - FOOT
        pages: list[list[tuple[float, Callable[[QPainter, float], None]]]] = [[]]
        bottoms = [0.0]
        top = float(MARGIN)
        for index, (height, draw) in enumerate(parts):
            kept = height
            if isinstance(self._sheet.parts[index], Heading) and index + 1 < len(parts):
                kept += GAP + parts[index + 1][0]
            if pages[-1] and top + kept > bottom:
                pages.append([])
                bottoms.append(0.0)
                top = float(MARGIN)
            pages[-1].append((top, draw))
            bottoms[-1] = top + height
            top += height + GAP
        return tuple(
            Page(tuple(page), ends) for page, ends in zip(pages, bottoms, strict=True)
        )

    # Parts, measured and ready to be drawn.

    def _part(self, part: Part) -> Drawn:
        match part:
            case Heading():
                return self._head(part)
            case Paragraph():
                role = "quiet" if part.quiet else "ink"
                return self._words(part.text, self._plain, role=role)
            case Bullets():
                return self._bullets(part)
            case Grid():
                return self._grid(part)
            case Charts():
                return self._charts(part)

    def _head(self, part: Heading) -> Drawn:
        height, draw = self._words(
            part.text, self._large if part.large else self._heading
        )
        above = 0.0 if part.large else 0.9 * TYPE

        def drawn(painter: QPainter, top: float) -> None:
            if above:
                painter.setPen(QPen(QColor(PRINT.hatch), 5))
                y = top + 0.35 * TYPE
                painter.drawLine(MARGIN, int(y), WIDTH - MARGIN, int(y))
            draw(painter, top + above)

        return height + above, drawn

    def _words(
        self, text: str, of: QFont, *, role: str = "ink", indent: float = 0.0
    ) -> Drawn:
        told = self._shown(text)
        left, width = MARGIN + indent, WIDTH - 2 * MARGIN - indent
        height = _height(told, of, width)

        def drawn(painter: QPainter, top: float) -> None:
            rect = QRectF(left, top, width, height)
            _write(painter, rect, told, of, role, LEFT)

        return height, drawn

    def _bullets(self, part: Bullets) -> Drawn:
        lines = [self._words(one, self._plain, indent=1.2 * TYPE) for one in part.lines]

        def drawn(painter: QPainter, top: float) -> None:
            for height, draw in lines:
                dot = QRectF(MARGIN + 0.3 * TYPE, top, TYPE, 2 * TYPE)
                _write(painter, dot, "•", self._plain, "ink", LEFT)
                draw(painter, top)
                top += height

        return sum(height for height, _ in lines), drawn

    def _grid(self, part: Grid) -> Drawn:
        whole = WIDTH - 2 * MARGIN
        widths = [whole * share for share in part.widths]
        lefts = [MARGIN + sum(widths[:index]) for index in range(len(widths))]
        rows = [[self._shown(cell) for cell in row] for row in (part.head, *part.rows)]
        pad = 0.5 * TYPE
        heights = [
            max(
                _height(cell, self._plain if index else self._bold, width - pad)
                for cell, width in zip(row, widths, strict=True)
            )
            + 0.3 * TYPE
            for index, row in enumerate(rows)
        ]

        def drawn(painter: QPainter, top: float) -> None:
            for index, (row, height) in enumerate(zip(rows, heights, strict=True)):
                of = self._plain if index else self._bold
                for column, (cell, left, width) in enumerate(
                    zip(row, lefts, widths, strict=True)
                ):
                    flags = LEFT if column < part.texts else RIGHT
                    rect = QRectF(left, top, width - pad, height)
                    _write(painter, rect, cell, of, "ink", flags)
                top += height
                painter.setPen(QPen(QColor(PRINT.hatch), 4))
                y = int(top - 0.15 * TYPE)
                painter.drawLine(MARGIN, y, WIDTH - MARGIN, y)

        return sum(heights), drawn

    def _charts(self, part: Charts) -> Drawn:
        between = 2 * TYPE
        count = len(part.charts)
        width = (WIDTH - 2 * MARGIN - between * (count - 1)) / count
        least = [
            least_height(one, width=width, type_px=CHART_TYPE, shown=self._shown)
            for one in part.charts
        ]
        height = max(self._chart_height, max(least) + PLOT_MORE * CHART_TYPE)

        def drawn(painter: QPainter, top: float) -> None:
            for index, chart in enumerate(part.charts):
                left = MARGIN + index * (width + between)
                rect = QRectF(left, top, width, height)
                paint(
                    painter, rect, chart, PRINT, type_px=CHART_TYPE, shown=self._shown
                )

        return height, drawn

    # Painting.

    def paint(self, painter: QPainter, index: int) -> None:
        """Paints a page; the painter's unit is a tenth of a point."""
        painter.fillRect(QRectF(0, 0, WIDTH, HEIGHT), QColor(PRINT.paper))
        for top, draw in self.pages[index].drawn:
            draw(painter, top)
        foot = QRectF(MARGIN, HEIGHT - MARGIN - 0.7 * FOOT, WIDTH - 2 * MARGIN, FOOT)
        number = phrase(
            "page {number} of {pages}", number=index + 1, pages=len(self.pages)
        )
        _write(painter, foot, self._shown(self._sheet.foot), self._plain, "quiet", LEFT)
        _write(painter, foot, self._shown(number), self._plain, "quiet", RIGHT)

    def pdf(self) -> bytes:
        """The pages as a PDF with text that can be searched."""
        content = QByteArray()
        buffer = QBuffer(content)
        buffer.open(QIODevice.OpenModeFlag.WriteOnly)
        writer = QPdfWriter(buffer)
        writer.setResolution(PDF_DPI)
        writer.setTitle(self._shown(self._sheet.title))
        writer.setCreator("biofeedback")
        writer.setPageLayout(
            QPageLayout(
                QPageSize(QPageSize.PageSizeId.A4),
                QPageLayout.Orientation.Portrait,
                QMarginsF(0, 0, 0, 0),
            )
        )
        painter = QPainter(writer)
        painter.scale(*2 * [PDF_DPI / 72 / UNITS_A_POINT])
        for index in range(len(self.pages)):
            if index:
                writer.newPage()
            self.paint(painter, index)
        painter.end()
        del writer  # which ends the document
        buffer.close()
        return bytes(content.data())

    def picture(self) -> QImage:
        """The pages as one picture, one below the other."""
        scale = PNG_DPI / 72 / UNITS_A_POINT
        width, height = round(WIDTH * scale), round(HEIGHT * scale)
        image = QImage(width, height * len(self.pages), QImage.Format.Format_RGB32)
        image.fill(QColor(PRINT.paper))
        image.setDotsPerMeterX(round(PNG_DPI / 0.0254))
        image.setDotsPerMeterY(round(PNG_DPI / 0.0254))
        painter = QPainter(image)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for index in range(len(self.pages)):
            painter.resetTransform()
            painter.translate(0, index * height)
            painter.scale(scale, scale)
            self.paint(painter, index)
        painter.end()
        return image

    def png(self) -> bytes:
        """The picture as a file."""
        return png_of(self.picture())


def _height(text: str, of: QFont, width: float) -> float:
    metrics = QFontMetricsF(of)
    wrap = wrap_of(text, metrics, width)
    return metrics.boundingRect(QRectF(0, 0, width, 1e6), wrap, text).height()


def _write(
    painter: QPainter, rect: QRectF, text: str, of: QFont, role: str, flags: int
) -> None:
    painter.setFont(of)
    painter.setPen(QColor(getattr(PRINT, role)))
    wrap = wrap_of(text, QFontMetricsF(of), rect.width())
    painter.drawText(rect, flags | wrap | int(Qt.TextFlag.TextDontClip), text)
