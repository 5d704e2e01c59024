"""The past of the path as a picture: any range of pixel columns, from the samples.

A *column* is one physical pixel, counted from sample time 0. Each column is drawn
from the samples alone, slowly and exactly; `ColumnRing` makes it fast. What is drawn
in each frame are a few columns of a few samples, which plain Python goes through.
"""

from __future__ import annotations

import bisect
import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QPainter, QPen, QRegion

from biofeedback.gui.band_brush import BandBrush, BandLook, Pens
from biofeedback.gui.trace_store import FEW, as_list, point_lists, values_at

if TYPE_CHECKING:
    from biofeedback.gui.path_content import PathContent
    from biofeedback.gui.theme import Theme
    from biofeedback.gui.trace_store import Series
    from biofeedback.training.band import Band

DASH_COLUMNS = 14
DASH_GAP_COLUMNS = 6
STROKE_COLUMNS = 32
"""A line is stroked in pieces: the time for one grows with the square of its points."""
FLAT_PX = 0.5
"""Lowest and highest of a column that are less apart are drawn as one point: neither
moves by more than a quarter of a pixel, and most of the line costs half."""


class PathPicture:
    """Draws any columns of the past.

    Args:
        content: samples and bands; followed as they change.
        height: of the picture, physical pixels.
        columns_per_s: pixel columns a second.

    Attributes:
        pens: widths of all lines.
        brush: draws the band.
    """

    def __init__(
        self,
        content: PathContent,
        *,
        theme: Theme,
        height: int,
        columns_per_s: float,
    ) -> None:
        self._content = content
        self._height = height
        self._columns_per_s = columns_per_s
        self.pens = Pens.for_height(height)
        self.brush = BandBrush(theme, self.pens)
        self._dense = content.rate_hz > 2.0 * columns_per_s
        self._paper, self._edge = theme.colour("paper"), theme.colour("edge")
        self._pen = QPen(theme.colour("ink"), self.pens.trace)
        self._pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        self._pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        self._near = math.ceil(self.pens.trace / 2) + 1  # and one half tone

    @property
    def margin(self) -> int:
        """How far before its own column a change of the band can change the picture."""
        return max(self.pens.trace, self.pens.edge_inside) + 3

    @property
    def reach(self) -> int:
        """How far before its own column a sample can change the picture.

        By half of the pen; and the column of the last sample was not full yet.
        """
        return self._near + 1

    def rows(self, band: Band) -> tuple[int, int]:
        """Rows of a band's upper and lower edge."""
        return (
            round(self._content.scale.y(band.upper_n, self._height)),
            round(self._content.scale.y(band.lower_n, self._height)),
        )

    def paint(self, painter: QPainter, first: int, end: int) -> None:
        """Draws the columns from `first` up to, not including, `end`.

        The painter's x axis counts columns; it is left clipped to them. It smooths
        what it draws.
        """
        content = self._content
        painter.setClipRect(first, 0, end - first, self._height)
        painter.fillRect(first, 0, end - first, self._height, self._paper)
        rest = round(content.scale.y(0.0, self._height))
        painter.fillRect(first, rest, end - first, 2, self._edge)
        # From far enough left that no half-filled column reaches into the clip.
        since_s = (first - self._near - 2) / self._columns_per_s
        time_s, force_n = content.store.since(since_s)
        if content.withheld_from_s is not None:
            shown = int(time_s.searchsorted(content.withheld_from_s))
            time_s, force_n = time_s[:shown], force_n[:shown]
        count = content.store.lines
        times: Series = time_s
        lines: list[Series] = [force_n[:, line] for line in range(count)]
        if len(time_s) <= FEW:
            times, lines = time_s.tolist(), [as_list(line) for line in lines]
        self._paint_band(painter, first, end, times, lines)
        for number, line in enumerate(lines):
            # Of two lines the first is the left side's: dashed, as everywhere.
            dashed = count == 2 and number == 0
            self._paint_line(painter, first, end, times, line, dashed)

    def _paint_band(
        self,
        painter: QPainter,
        first: int,
        end: int,
        times: Series,
        lines: list[Series],
    ) -> None:
        newest_s = self._content.store.newest_s
        if newest_s is None:
            return
        end = min(end, math.floor(newest_s * self._columns_per_s) + 1)
        if end <= first:
            return
        history, brush = self._content.history, self.brush
        looks = self._looks(first, end, times, lines)
        start, before = 0, looks[0]
        for i, now in enumerate((*looks, None)):
            if now == before:
                continue
            index, look = before
            band = history[index].band
            if band is not None:
                columns, open_above = (first + start, first + i), band.open_above
                brush.paint(
                    painter, columns, self.rows(band), look, open_above=open_above
                )
            if now is not None:
                start, before = i, now
        for index in range(looks[0][0], looks[-1][0] + 1):
            self._paint_end(painter, index)

    def _paint_end(self, painter: QPainter, index: int) -> None:
        """The post at the end of a hold."""
        history = self._content.history
        step, following = history[index], history.after(index)
        if step.band is None or following is None or following.band is not None:
            return
        # The column after the last whose middle still belongs to the band.
        column = math.ceil(following.time_s * self._columns_per_s - 0.5)
        post = column - self.pens.edge_inside
        self.brush.paint_post(painter, post, self.rows(step.band))

    def _looks(
        self, first: int, end: int, times: Series, lines: list[Series]
    ) -> list[tuple[int, BandLook]]:
        """Step and look of each column, by the force in its middle."""
        per_s = self._columns_per_s
        middles_s = [(column + 0.5) / per_s for column in range(first, end)]
        steps = self._content.history.at(middles_s)
        edges = {index: self._edges(index) for index in range(steps[0], steps[-1] + 1)}
        if not len(times) or not any(edges.values()):
            return [(index, BandLook.QUIET) for index in steps]
        forces_n = [values_at(middles_s, times, line) for line in lines]
        withheld_s = self._content.withheld_from_s
        seen_s = math.inf if withheld_s is None else withheld_s
        looks: list[tuple[int, BandLook]] = []
        for i, index in enumerate(steps):
            look, judged = BandLook.QUIET, edges[index]
            if judged is not None and middles_s[i] < seen_s:
                look = _look([one[i] for one in forces_n], *judged)
            looks.append((index, look))
        return looks

    def _edges(self, index: int) -> tuple[float, float] | None:
        """Where the force is inside, in a step that judges it."""
        step = self._content.history[index]
        if step.band is None or not step.judged:
            return None
        # An open band reaches past its ceiling, where nobody is to stay.
        ceiling_n = self._content.asked.ceiling_n or math.inf
        return step.band.lower_n, min(step.band.upper_n, ceiling_n)

    def _paint_line(
        self,
        painter: QPainter,
        first: int,
        end: int,
        times: Series,
        line: Series,
        dashed: bool,
    ) -> None:
        scale, height = self._content.scale, float(self._height)
        per_n = height / (scale.top_n - scale.bottom_n)
        columns, points_n = point_lists(
            times,
            line,
            columns_per_s=self._columns_per_s,
            dense=self._dense,
            flat_n=FLAT_PX / per_n,
        )
        foot = height + per_n * scale.bottom_n
        rows = [
            0.0 if (y := foot - per_n * n) < 0.0 else min(y, height) for n in points_n
        ]
        if dashed:
            painter.setClipRegion(self._dashes(first, end))
        painter.setPen(self._pen)
        if not math.isnan(sum(rows)):  # no break, as in nearly each frame
            self._stroke(painter, columns, rows)
        else:
            begun = 0
            for i, y in enumerate((*rows, math.nan)):
                if math.isnan(y):
                    self._stroke(painter, columns[begun:i], rows[begun:i])
                    begun = i + 1
        if dashed:
            painter.setClipRect(first, 0, end - first, self._height)

    def _stroke(
        self, painter: QPainter, columns: list[float], rows: list[float]
    ) -> None:
        """One unbroken piece of the line."""
        points = list(map(QPointF, columns, rows))
        if len(points) == 1 and self._dense:  # a column that stands alone
            aside = QPointF(0.25, 0.0)
            painter.drawPolyline([points[0] - aside, points[0] + aside])
        start, last = 0, len(points) - 1
        while start < last:
            # Always cut at the same columns: a part is drawn like the whole.
            cut = (columns[start] // STROKE_COLUMNS + 1) * STROKE_COLUMNS
            stop = min(last, bisect.bisect_left(columns, cut, start + 1))
            painter.drawPolyline(points[start : stop + 1])
            start = stop

    def _dashes(self, first: int, end: int) -> QRegion:
        """The columns in which a dashed line is drawn."""
        period = DASH_COLUMNS + DASH_GAP_COLUMNS
        region = QRegion()
        for start in range(first - first % period, end, period):
            region += QRect(start, 0, DASH_COLUMNS, self._height)
        return region & QRegion(first, 0, end - first, self._height)


def _look(forces_n: list[float], lower_n: float, upper_n: float) -> BandLook:
    """Quiet where a force is not known, inside where all of them are."""
    look = BandLook.INSIDE
    for force_n in forces_n:
        if math.isnan(force_n):
            return BandLook.QUIET
        if not lower_n <= force_n <= upper_n:
            look = BandLook.OUTSIDE
    return look
