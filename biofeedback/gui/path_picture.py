"""The past of the path as a picture: any range of pixel columns, from the samples.

A *column* is one physical pixel, counted from sample time 0. Each column is drawn
from the samples alone, slowly and exactly; `ColumnRing` makes it fast.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QLineF, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QRegion

from biofeedback.gui.band_brush import BandBrush, BandLook, Pens
from biofeedback.gui.trace_store import line_points

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.gui.path_content import PathContent
    from biofeedback.gui.theme import Theme
    from biofeedback.training.band import Band

DASH_COLUMNS = 14
DASH_GAP_COLUMNS = 6


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
        self._theme = theme
        self._height = height
        self._columns_per_s = columns_per_s
        self.pens = Pens.for_height(height)
        self.brush = BandBrush(theme, self.pens)
        self._dense = content.rate_hz > 2.0 * columns_per_s

    @property
    def margin(self) -> int:
        """How far before its own column a change of the band can change the picture."""
        return max(self.pens.trace, self.pens.edge_inside) + 3

    @property
    def reach(self) -> int:
        """How far before its own column a sample can change the picture.

        By half of the pen; and the column of the last sample was not full yet.
        """
        return self.pens.trace + 3

    def rows(self, band: Band) -> tuple[int, int]:
        """Rows of a band's upper and lower edge."""
        return (
            round(self._content.scale.y(band.upper_n, self._height)),
            round(self._content.scale.y(band.lower_n, self._height)),
        )

    def paint(self, painter: QPainter, first: int, end: int) -> None:
        """Draws the columns from `first` up to, not including, `end`.

        The painter's x axis counts columns; it is left clipped to them.
        """
        painter.setClipRect(first, 0, end - first, self._height)
        painter.fillRect(first, 0, end - first, self._height, QColor(self._theme.paper))
        rest = round(self._content.scale.y(0.0, self._height))
        painter.fillRect(first, rest, end - first, 2, QColor(self._theme.edge))
        # From far enough left that no half-filled column reaches into the clip.
        since_s = (first - self.reach - 2) / self._columns_per_s
        time_s, force_n = self._content.store.since(since_s)
        if self._content.withheld_from_s is not None:
            shown = int(np.searchsorted(time_s, self._content.withheld_from_s))
            time_s, force_n = time_s[:shown], force_n[:shown]
        self._paint_band(painter, first, end, time_s, force_n)
        for line in range(self._content.store.lines):
            # Of two lines the first is the left side's: dashed, as everywhere.
            dashed = self._content.store.lines == 2 and line == 0
            self._paint_line(painter, first, end, time_s, force_n[:, line], dashed)

    def _paint_band(
        self,
        painter: QPainter,
        first: int,
        end: int,
        time_s: npt.NDArray[np.float64],
        force_n: npt.NDArray[np.float64],
    ) -> None:
        newest_s = self._content.store.newest_s
        if newest_s is None:
            return
        end = min(end, math.floor(newest_s * self._columns_per_s) + 1)
        if end <= first:
            return
        columns = np.arange(first, end, dtype=np.float64)
        centres_s: npt.NDArray[np.float64] = (columns + 0.5) / self._columns_per_s
        steps = self._content.history.at(centres_s)
        inside = self._inside(centres_s, steps, time_s, force_n)
        changes = np.flatnonzero((np.diff(steps) != 0) | (np.diff(inside) != 0)) + 1
        starts = [0, *changes.tolist()]
        for start, stop in zip(starts, [*starts[1:], end - first], strict=True):
            step = self._content.history[int(steps[start])]
            if step.band is None:
                continue
            look = BandLook(int(inside[start])) if step.judged else BandLook.QUIET
            self.brush.paint(
                painter,
                (first + start, first + stop),
                self.rows(step.band),
                look,
                open_above=step.band.open_above,
            )
        for index in range(int(steps[0]), int(steps[-1]) + 1):
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

    def _inside(
        self,
        centres_s: npt.NDArray[np.float64],
        steps: npt.NDArray[np.intp],
        time_s: npt.NDArray[np.float64],
        force_n: npt.NDArray[np.float64],
    ) -> npt.NDArray[np.int64]:
        """The value of the `BandLook` of each column."""
        look = np.full(len(centres_s), BandLook.QUIET.value)
        if len(time_s) == 0:
            return look
        lower_n = np.zeros(len(centres_s))
        upper_n = np.zeros(len(centres_s))
        # An open band reaches past its ceiling, where nobody is to stay.
        ceiling_n = self._content.asked.ceiling_n or math.inf
        for index in range(int(steps[0]), int(steps[-1]) + 1):
            band = self._content.history[index].band
            if band is not None:
                here = slice(*np.searchsorted(steps, (index, index + 1)))
                lower_n[here] = band.lower_n
                upper_n[here] = min(band.upper_n, ceiling_n)
        known = np.ones(len(centres_s), dtype=bool)
        inside = np.ones(len(centres_s), dtype=bool)
        for line in range(force_n.shape[1]):
            here_n = np.interp(centres_s, time_s, force_n[:, line])
            known &= ~np.isnan(here_n)
            inside &= (here_n >= lower_n) & (here_n <= upper_n)
        if self._content.withheld_from_s is not None:
            known &= centres_s < self._content.withheld_from_s
        look[known & inside] = BandLook.INSIDE.value
        look[known & ~inside] = BandLook.OUTSIDE.value
        return look

    def _paint_line(
        self,
        painter: QPainter,
        first: int,
        end: int,
        time_s: npt.NDArray[np.float64],
        force_n: npt.NDArray[np.float64],
        dashed: bool,
    ) -> None:
        x, points_n = line_points(
            time_s, force_n, columns_per_s=self._columns_per_s, dense=self._dense
        )
        if len(x) < 2:
            return
        span_n = self._content.scale.top_n - self._content.scale.bottom_n
        share = np.clip((points_n - self._content.scale.bottom_n) / span_n, 0.0, 1.0)
        y = self._height * (1.0 - share)
        drawn = ~(np.isnan(y[:-1]) | np.isnan(y[1:]))
        ends = np.column_stack((x[:-1], y[:-1], x[1:], y[1:]))[drawn]
        if not len(ends):
            return
        if dashed:
            painter.setClipRegion(self._dashes(first, end))
        pen = QPen(QColor(self._theme.ink), self.pens.trace)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(pen)
        painter.drawLines([QLineF(*row) for row in ends.tolist()])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        if dashed:
            painter.setClipRect(first, 0, end - first, self._height)

    def _dashes(self, first: int, end: int) -> QRegion:
        """The columns in which a dashed line is drawn."""
        period = DASH_COLUMNS + DASH_GAP_COLUMNS
        region = QRegion()
        for start in range(first - first % period, end, period):
            region += QRect(start, 0, DASH_COLUMNS, self._height)
        return region & QRegion(first, 0, end - first, self._height)
