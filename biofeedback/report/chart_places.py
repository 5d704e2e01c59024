"""What stands where on a chart that was laid out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtCore import QRectF

    from biofeedback.report.chart import Chart, Level, NoiseBand, Point, Series
    from biofeedback.report.chart_scale import Days, Scale

MARK = 0.35
"""Radius of a mark, in heights of type."""
CROWDED = 3.0
"""Radii between marks; where there is less room they shrink, at most to half."""


class Part(Enum):
    """What a text is."""

    TITLE = "title"
    SERIES = "series"
    LEVEL = "level"
    NOISE = "noise"
    MOMENT = "moment"
    REMARK = "remark"


ALONE = (Part.TITLE, Part.REMARK)
"""Nothing stands beside these."""


@dataclass(frozen=True, slots=True)
class TextBlock:
    """A text in its place.

    Attributes:
        of: the series, level or band that the swatch before it shows.
        index: the how-manieth of its part.
        wrap: flags for drawing it.
    """

    part: Part
    text: str
    rect: QRectF
    wrap: int
    of: Series | Level | NoiseBand | None = None
    index: int = 0


@dataclass(frozen=True, slots=True)
class ChartLayout:
    """A chart in a rectangle.

    Attributes:
        blocks: title, legend and remarks.
        plot: the frame.
        value_ticks, day_ticks: where a tick is, its words, and where they stand.
        across: the scale of a scatter; its ticks are then `day_ticks`.
        letters: of the moments that have one, with their places above the plot.
        left_out: texts there was no room for.
    """

    chart: Chart
    type_px: float
    blocks: tuple[TextBlock, ...]
    plot: QRectF
    scale: Scale
    days: Days | None
    value_ticks: tuple[tuple[float, str, QRectF], ...]
    day_ticks: tuple[tuple[float, str, QRectF], ...]
    letters: tuple[tuple[float, str, QRectF], ...]
    left_out: tuple[str, ...]
    across: Scale | None = None

    def x(self, day: date) -> float:
        """Where a day stands; there is at least one point."""
        assert self.days is not None  # noqa: S101  asked for with points only
        return self.plot.left() + self.plot.width() * self.days.share(day)

    def x_across(self, value: float) -> float:
        """Where a value of a scatter stands."""
        scale = self.across
        assert scale is not None  # noqa: S101  asked for with a scatter only
        share = (value - scale.bottom) / (scale.top - scale.bottom)
        return self.plot.left() + self.plot.width() * share

    def y(self, value: float) -> float:
        """Where a value stands."""
        share = (value - self.scale.bottom) / (self.scale.top - self.scale.bottom)
        return self.plot.bottom() - self.plot.height() * share

    def place(self, series: Series, point: Point) -> QPointF:
        """Where a point of a series is drawn."""
        aside = series.aside * 2.0 * MARK * self.mark_size(series)
        return QPointF(self.x(point.day) + aside, self.y(point.value))

    def mark_size(self, series: Series) -> float:
        """Height of type that a series' marks go with; smaller where there are many."""
        full = MARK * self.type_px
        each = self.plot.width() / max(len(series.points), 1)
        return max(0.5, min(1.0, each / (CROWDED * full))) * self.type_px

    def nearest(self, place: QPointF, *, within_px: float) -> tuple[Series, int] | None:
        """The series and the index of the point that is drawn nearest to a place."""
        best: tuple[float, Series, int] | None = None
        for one in self.chart.series:
            for index, point in enumerate(one.points):
                away = self.place(one, point) - place
                length = (away.x() ** 2 + away.y() ** 2) ** 0.5
                if length <= within_px and (best is None or length < best[0]):
                    best = (length, one, index)
        return best[1:] if best else None
