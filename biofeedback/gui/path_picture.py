"""The past of the path as a picture, and the ring of columns that keeps it.

`PathPicture.paint` draws any range of pixel columns from the samples: slow and
exact. `ColumnRing` keeps the drawn columns in a pixmap used as a ring, asks for
the new ones only and copies the rest with two blits a frame; the cost of a frame
depends neither on the sample rate nor on the time shown. Both give the same
picture, since a column is drawn by the same code either way.

A *column* is one physical pixel, counted from sample time 0.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QLineF, QRect, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap, QRegion

from biofeedback.gui.trace_store import line_points

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.gui.band_history import BandHistory
    from biofeedback.gui.scale import Scale
    from biofeedback.gui.theme import Theme
    from biofeedback.gui.trace_store import TraceStore
    from biofeedback.training.band import Band

DASH_COLUMNS = 14
DASH_GAP_COLUMNS = 6


class BandLook(Enum):
    """How a stretch of the band is drawn."""

    QUIET = 1  # nothing is told about the force in it
    INSIDE = 2  # denser, thicker edges
    OUTSIDE = 3  # hatched


@dataclass(frozen=True, slots=True)
class Pens:
    """Widths in physical pixels, from the height of the path."""

    trace: int
    edge: int
    edge_inside: int
    hatch: int

    @classmethod
    def for_height(cls, height: int) -> Pens:
        """Widths that are seen from three metres."""
        return cls(
            trace=max(3, round(height / 95)),
            edge=max(2, round(height / 170)),
            edge_inside=max(4, round(height / 72)),
            hatch=max(12, round(height / 26)),
        )


class BandBrush:
    """Draws stretches of the band: past and to come look the same."""

    def __init__(self, theme: Theme, pens: Pens) -> None:
        self._theme = theme
        self._pens = pens
        self._tile = self._hatch_tile()

    def _hatch_tile(self) -> QPixmap:
        size = self._pens.hatch
        tile = QPixmap(size, size)
        tile.fill(QColor(self._theme.wash))
        painter = QPainter(tile)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pen = QPen(QColor(self._theme.hatch), max(2.0, size / 7))
        pen.setCapStyle(Qt.PenCapStyle.SquareCap)
        painter.setPen(pen)
        for shift in (-size, 0, size):
            painter.drawLine(shift, size, shift + size, 0)
        painter.end()
        return tile

    def fill(self, look: BandLook) -> QBrush:
        """What the inside of the band is filled with."""
        if look is BandLook.OUTSIDE:
            return QBrush(self._tile)
        role = "dense" if look is BandLook.INSIDE else "wash"
        return QBrush(QColor(getattr(self._theme, role)))

    def edge_width(self, look: BandLook) -> int:
        """Width of the drawn edges."""
        inside = look is BandLook.INSIDE
        return self._pens.edge_inside if inside else self._pens.edge

    def paint(
        self,
        painter: QPainter,
        columns: tuple[int, int],
        rows: tuple[int, int],
        look: BandLook,
        *,
        open_above: bool,
    ) -> None:
        """One stretch of one band in one look.

        Args:
            columns: first column and the one after the last.
            rows: row of the upper edge and of the lower edge.
            open_above: whether the band has no upper edge.
        """
        (left, right), (top, foot) = columns, rows
        painter.fillRect(left, top, right - left, foot - top, self.fill(look))
        width = self.edge_width(look)
        edge = QColor(self._theme.edge)
        # The edges lie outside the wash: the wash itself is all band.
        painter.fillRect(left, foot, right - left, width, edge)
        if not open_above:
            painter.fillRect(left, top - width, right - left, width, edge)


class PathPicture:
    """Draws any columns of the past.

    Attributes:
        store: the samples.
        history: the bands.
        withheld_from_s: from this time on the force is not shown, as in an unseen
            rep; None where all is shown.
    """

    def __init__(self, store: TraceStore, history: BandHistory) -> None:
        self.store = store
        self.history = history
        self.withheld_from_s: float | None = None
        self._dense = False

    def prepare(
        self,
        *,
        theme: Theme,
        scale: Scale,
        height: int,
        columns_per_s: float,
        rate_hz: float,
    ) -> None:
        """Sets what all columns have in common.

        Args:
            height: of the picture, physical pixels.
            columns_per_s: pixel columns a second.
            rate_hz: nominal sample rate.
        """
        self.theme = theme
        self.scale = scale
        self.height = height
        self.columns_per_s = columns_per_s
        self.pens = Pens.for_height(height)
        self.brush = BandBrush(theme, self.pens)
        self._dense = rate_hz > 2.0 * columns_per_s

    @property
    def margin(self) -> int:
        """How far before its own column a sample can change the picture."""
        return max(self.pens.trace, self.pens.edge_inside) + 3

    def rows(self, band: Band) -> tuple[int, int]:
        """Rows of a band's upper and lower edge."""
        return (
            round(self.scale.y(band.upper_n, self.height)),
            round(self.scale.y(band.lower_n, self.height)),
        )

    def paint(self, painter: QPainter, first: int, end: int) -> None:
        """Draws the columns from `first` up to, not including, `end`.

        The painter's x axis counts columns; it is left clipped to them.
        """
        painter.setClipRect(first, 0, end - first, self.height)
        painter.fillRect(first, 0, end - first, self.height, QColor(self.theme.paper))
        rest = round(self.scale.y(0.0, self.height))
        painter.fillRect(first, rest, end - first, 2, QColor(self.theme.edge))
        # From far enough left that no half-filled column reaches into the clip.
        since_s = (first - self.margin - 2) / self.columns_per_s
        time_s, force_n = self.store.since(since_s)
        if self.withheld_from_s is not None:
            shown = int(np.searchsorted(time_s, self.withheld_from_s))
            time_s, force_n = time_s[:shown], force_n[:shown]
        self._paint_band(painter, first, end, time_s, force_n)
        for line in range(self.store.lines):
            # Of two lines the first is the left side's: dashed, as everywhere.
            dashed = self.store.lines == 2 and line == 0
            self._paint_line(painter, first, end, time_s, force_n[:, line], dashed)

    def _paint_band(
        self,
        painter: QPainter,
        first: int,
        end: int,
        time_s: npt.NDArray[np.float64],
        force_n: npt.NDArray[np.float64],
    ) -> None:
        newest_s = self.store.newest_s
        if newest_s is None:
            return
        end = min(end, math.floor(newest_s * self.columns_per_s) + 1)
        if end <= first:
            return
        columns = np.arange(first, end, dtype=np.float64)
        centres_s: npt.NDArray[np.float64] = (columns + 0.5) / self.columns_per_s
        steps = self.history.at(centres_s)
        inside = self._inside(centres_s, steps, time_s, force_n)
        changes = np.flatnonzero((np.diff(steps) != 0) | (np.diff(inside) != 0)) + 1
        starts = [0, *changes.tolist()]
        for start, stop in zip(starts, [*starts[1:], end - first], strict=True):
            step = self.history[int(steps[start])]
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
        for index in np.unique(steps).tolist():
            self._paint_end(painter, index)

    def _paint_end(self, painter: QPainter, index: int) -> None:
        """The post at the end of a hold."""
        step, following = self.history[index], self.history.after(index)
        if step.band is None or following is None or following.band is not None:
            return
        column = math.floor(following.time_s * self.columns_per_s)
        top, foot = self.rows(step.band)
        width = self.pens.edge_inside
        edge = QColor(self.theme.edge)
        tall = foot - top + 2 * width
        painter.fillRect(column - width, top - width, width, tall, edge)

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
        bands = [self.history[int(index)].band for index in np.unique(steps)]
        lower_n = np.zeros(len(centres_s))
        upper_n = np.zeros(len(centres_s))
        for index, band in zip(np.unique(steps), bands, strict=True):
            if band is not None:
                lower_n[steps == index] = band.lower_n
                upper_n[steps == index] = band.upper_n
        known = np.ones(len(centres_s), dtype=bool)
        inside = np.ones(len(centres_s), dtype=bool)
        for line in range(force_n.shape[1]):
            here_n = np.interp(centres_s, time_s, force_n[:, line])
            known &= ~np.isnan(here_n)
            inside &= (here_n >= lower_n) & (here_n <= upper_n)
        if self.withheld_from_s is not None:
            known &= centres_s < self.withheld_from_s
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
            time_s, force_n, columns_per_s=self.columns_per_s, dense=self._dense
        )
        if len(x) < 2:
            return
        span_n = self.scale.top_n - self.scale.bottom_n
        share = np.clip((points_n - self.scale.bottom_n) / span_n, 0.0, 1.0)
        y = self.height * (1.0 - share)
        drawn = ~(np.isnan(y[:-1]) | np.isnan(y[1:]))
        ends = np.column_stack((x[:-1], y[:-1], x[1:], y[1:]))[drawn]
        if not len(ends):
            return
        if dashed:
            painter.setClipRegion(self._dashes(first, end))
        pen = QPen(QColor(self.theme.ink), self.pens.trace)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(pen)
        painter.drawLines([QLineF(*row) for row in ends.tolist()])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        if dashed:
            painter.setClipRect(first, 0, end - first, self.height)

    def _dashes(self, first: int, end: int) -> QRegion:
        """The columns in which a dashed line is drawn."""
        period = DASH_COLUMNS + DASH_GAP_COLUMNS
        region = QRegion()
        for start in range(first - first % period, end, period):
            region += QRect(start, 0, DASH_COLUMNS, self.height)
        return region & QRegion(first, 0, end - first, self.height)


class ColumnRing:
    """The drawn columns, kept in a pixmap: column c lies at c modulo the width."""

    def __init__(self) -> None:
        self._pixmap = QPixmap()
        self._end: int | None = None
        self._dirty_from: int | None = None
        self.drawn_columns = 0
        """How many columns have been drawn so far, for tests and measurements."""

    @property
    def width(self) -> int:
        """How many columns are kept."""
        return self._pixmap.width()

    def resize(self, width: int, height: int) -> None:
        """Another size; everything is drawn anew."""
        self._pixmap = QPixmap(max(1, width), max(1, height))
        self._end = None

    def invalidate(self) -> None:
        """Everything is drawn anew with the next refresh."""
        self._end = None

    def invalidate_from(self, column: int) -> None:
        """The columns from here on are drawn anew with the next refresh."""
        if self._dirty_from is None or column < self._dirty_from:
            self._dirty_from = column

    def refresh(self, picture: PathPicture, end: int) -> None:
        """Draws what is missing up to, not including, column `end`."""
        oldest = end - self.width
        if self._end is None or end < self._end:
            first = oldest
        else:
            # The newest columns again: the line goes on from where it ended.
            first = min(self._end, end) - picture.margin
            if self._dirty_from is not None:
                first = min(first, self._dirty_from - picture.margin)
            if self._end == end and self._dirty_from is None:
                return
        first = max(first, oldest)
        self._end, self._dirty_from = end, None
        self.drawn_columns += end - first
        painter = QPainter(self._pixmap)
        while first < end:
            lap = first // self.width * self.width
            stop = min(end, lap + self.width)
            painter.resetTransform()
            painter.translate(-lap, 0)
            picture.paint(painter, first, stop)
            first = stop
        painter.end()

    def blit(self, painter: QPainter, left: int, top: int) -> None:
        """Copies the ring so that its oldest column stands at `left`."""
        if self._end is None:
            return
        height = self._pixmap.height()
        split = self._end % self.width
        older = self.width - split
        painter.drawPixmap(left, top, self._pixmap, split, 0, older, height)
        if split:
            painter.drawPixmap(left + older, top, self._pixmap, 0, 0, split, height)
