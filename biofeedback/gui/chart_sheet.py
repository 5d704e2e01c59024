"""A sheet of charts: as many columns as fit, each chart as high as its words need.

The charts are drawn by the painter that draws them on paper. What a sheet shows is told
to a screen reader in words; a point under the mouse, or the one walked to with the
arrow keys, is told with its day, its value and how many results are behind it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QPainter, QPixmap

from biofeedback.gui.language import shown, tr
from biofeedback.gui.point_sheet import PointSheet
from biofeedback.gui.theme import DAY
from biofeedback.report.chart import description
from biofeedback.report.chart_layout import ChartLayout, lay_out, least_height
from biofeedback.report.chart_painter import paint_layout

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QPaintEvent, QResizeEvent
    from PySide6.QtWidgets import QWidget

    from biofeedback.gui.theme import Theme
    from biofeedback.report.chart import Chart, Point, Series

TYPE_PX = 13.0
COLUMN_LEAST = 30.0
"""Width of a chart at least, in heights of type."""
PLOT_MORE = 6.0
"""Height beyond what the words need, in heights of type."""
GAP = 1.2
NEAR = 1.2
"""How far from the mouse a point may be, in heights of type."""


class ChartSheet(PointSheet):
    """Draws charts; it has the height that they need at its width.

    Args:
        plot_more: height beyond what the words need, in heights of type.
    """

    def __init__(
        self, parent: QWidget | None = None, *, plot_more: float = PLOT_MORE
    ) -> None:
        super().__init__(parent)
        self._plot_more = plot_more
        self._charts: tuple[Chart, ...] = ()
        self._layouts: list[ChartLayout] = []
        self._theme: Theme = DAY
        self._type_px = TYPE_PX
        self._drawn: QPixmap | None = None

    # What is shown.

    def show_charts(self, charts: Sequence[Chart]) -> None:
        """Other charts."""
        self._charts = tuple(charts)
        self._at = -1
        self.setAccessibleDescription(
            "\n".join(shown(description(chart)) for chart in self._charts)
        )
        self._place()
        self.updateGeometry()

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self._theme = theme
        self._drawn = None
        self.update()

    def set_size(self, size: float) -> None:
        """Larger type, 1 for a window 720 pixels high."""
        self._type_px = TYPE_PX * size
        self._place()
        self.updateGeometry()

    # Where it stands.

    def heightForWidth(self, width: int) -> int:  # noqa: N802  # Qt's name
        """As high as all rows of charts."""
        return round(self._rows(float(width))[1])

    def sizeHint(self) -> QSize:
        """Two columns."""
        width = round(2 * COLUMN_LEAST * self._type_px)
        return QSize(width, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:
        """One column."""
        width = round(COLUMN_LEAST * self._type_px)
        return QSize(width, self.heightForWidth(max(width, self.width())))

    def _rows(self, width: float) -> tuple[list[QRectF], float]:
        """The place of each chart, and the height of all."""
        gap = GAP * self._type_px
        least = COLUMN_LEAST * self._type_px
        columns = max(1, min(len(self._charts), int((width + gap) // (least + gap))))
        each = (width - (columns - 1) * gap) / columns
        places, top = [], 0.0
        for first in range(0, len(self._charts), columns):
            row = self._charts[first : first + columns]
            height = self._plot_more * self._type_px + max(
                least_height(chart, width=each, type_px=self._type_px, shown=shown)
                for chart in row
            )
            places += [
                QRectF(column * (each + gap), top, each, height)
                for column in range(len(row))
            ]
            top += height + gap
        return places, max(0.0, top - gap)

    def _place(self) -> None:
        places, _ = self._rows(float(self.width()))
        self._layouts = [
            lay_out(chart, place, type_px=self._type_px, shown=shown)
            for chart, place in zip(self._charts, places, strict=True)
        ]
        self._drawn = None
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The charts follow the width."""
        self._place()

    # Drawing.

    def paintEvent(self, event: QPaintEvent) -> None:
        """Drawn once, then shown; scrolling moves a picture."""
        if self._drawn is None:
            ratio = self.devicePixelRatioF()
            self._drawn = QPixmap(self.size() * ratio)
            self._drawn.setDevicePixelRatio(ratio)
            self._drawn.fill(self._theme.colour("paper"))
            painter = QPainter(self._drawn)
            for layout in self._layouts:
                paint_layout(painter, layout, self._theme, shown=shown)
            painter.end()
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._drawn)
        painter.end()

    # Telling of a point.

    def told_at(self, place: QPointF) -> str:
        """The point near a place in words; empty where there is none."""
        for layout in self._layouts:
            found = layout.nearest(place, within_px=NEAR * self._type_px)
            if found is not None:
                series, index = found
                return _told(layout.chart, series, series.points[index])
        return ""

    def walk(self) -> Sequence[tuple[QPointF, str]]:
        """Each point of each series, chart after chart."""
        return [
            (layout.place(series, point), _told(layout.chart, series, point))
            for layout in self._layouts
            for series in layout.chart.series
            for point in series.points
        ]


def _told(chart: Chart, series: Series, point: Point) -> str:
    """Day, value, how many results, and what is to be known of it."""
    words = tr("{series}: {value} on {day}, n = {n}").format(
        series=shown(series.name),
        value=shown(chart.value_words(point.value)),
        day=point.day.isoformat(),
        n=point.n,
    )
    return f"{words}; {shown(point.remark)}" if point.remark else words
