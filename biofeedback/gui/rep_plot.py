"""One saved rep as a figure: its force, its bands and its times.

The only module that knows pyqtgraph, which has no types; hence `Any`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF, QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from biofeedback.conditioning.profile import Side
from biofeedback.gui.language import localised, shown
from biofeedback.gui.review_rows import marks_around
from biofeedback.gui.theme import DAY, Theme
from biofeedback.gui.trace_store import line_points

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.gui.review_rows import SavedTrace

LEGEND_PX = 30
LABEL_PX = 17
LABEL_GAP_PX = 14
MARK_LETTERS = 24
"""A longer note is cut in the figure; the table has all of it."""
MARKERS = 12
"""Of each side along its line."""
COLUMNS = 1500
"""Points a line is reduced to, lowest and highest of each column: as many as a
wide screen can show; more would only cost time."""


class RepPlot(QWidget):
    """Draws the force of one rep."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Force of the rep"))
        self._theme: Theme = DAY
        self._trace: SavedTrace | None = None
        self._plot: Any = pg.PlotWidget()
        self._plot.setMenuEnabled(False)
        self._plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # no key does anything here
        self._plot.hideButtons()
        # Above the figure, where it covers nothing.
        self._plot.plotItem.layout.setContentsMargins(1, LEGEND_PX, 1, 1)
        self._legend: Any = self._plot.addLegend(offset=(40, 2), colCount=3)
        self._legend.setParentItem(self._plot.plotItem)
        self._plot.plotItem.vb.setMouseEnabled(x=False, y=False)
        self._plot.setLabel("bottom", self.tr("time since the set began (s)"))
        self._plot.setLabel("left", self.tr("force (N)"))
        self.lines_drawn = 0
        self.labels: tuple[tuple[str, int], ...] = ()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._plot)
        self.set_theme(DAY)

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        self._theme = theme
        self._plot.setBackground(theme.paper)
        for side in ("bottom", "left"):
            axis = self._plot.getAxis(side)
            axis.setPen(theme.edge)
            axis.setTextPen(theme.ink)
            axis.enableAutoSIPrefix(enable=False)
        self._legend.setLabelTextColor(theme.ink)
        self._draw()

    def show_trace(self, trace: SavedTrace | None) -> None:
        """Another rep, or none."""
        self._trace = trace
        self._draw()

    def _draw(self) -> None:
        self._plot.clear()
        self.lines_drawn = 0
        self.labels = ()
        trace = self._trace
        if trace is None or len(trace.time_s) == 0:
            self.setAccessibleDescription(self.tr("nothing chosen"))
            return
        self._draw_bands(trace)
        if trace.force_n.shape[1] > 1:
            self._draw_channels(trace)
        ink = pg.mkPen(self._theme.ink, width=2.5)
        judged = self._line(trace.time_s, trace.effort_n, ink, self.tr("judged"))
        judged.curve.setSegmentedLineMode("on")  # thick lines: five times as fast
        self._draw_moments(trace)
        self.setAccessibleDescription(
            self.tr("{start} s to {end} s, {lapses} lapses").format(
                start=localised(f"{trace.start_s:.2f}"),
                end=localised(f"{trace.end_s:.2f}"),
                lapses=len(trace.lapses),
            )
        )

    def _draw_channels(self, trace: SavedTrace) -> None:
        """Each cell by itself: left hollow and dashed, right filled and solid."""
        step = max(1, len(trace.time_s) // MARKERS)
        for index, channel in enumerate(trace.profile.channels):
            left = channel.side is Side.LEFT
            force_n = trace.force_n[:, index]
            pen = pg.mkPen(self._theme.edge, width=2 if left else 1.5)
            if left:
                pen.setDashPattern([4, 3])
            name = self.tr("left, dashed") if left else shown(channel.side.value)
            self._line(trace.time_s, force_n, pen, name)
            # Between one another, so that neither hides the other.
            at = slice(step // 4 if left else 3 * step // 4, None, step)
            ground = self._theme.paper if left else self._theme.edge
            self._plot.addItem(
                pg.ScatterPlotItem(
                    trace.time_s[at],
                    force_n[at],
                    size=8,
                    pen=pg.mkPen(self._theme.edge, width=1.5),
                    brush=pg.mkBrush(ground),
                )
            )

    def _draw_moments(self, trace: SavedTrace) -> None:
        """The times of the rep, pain marks and notes, named above all forces."""
        moments = [(trace.start_s, self.tr("start"))]
        if trace.entry_s is not None:
            moments.append((trace.entry_s, self.tr("entry")))
        if trace.end_s - trace.hold_end_s > 0.01:
            moments.append((trace.hold_end_s, self.tr("hold end")))
        moments.append((trace.end_s, self.tr("end")))
        for left_s, back_s in trace.lapses:
            moments.append((left_s, self.tr("lapse")))
            moments.append((back_s, self.tr("back")))
        for mark in marks_around(trace):
            short = f"{mark.text[:MARK_LETTERS]}…"
            text = mark.text if len(mark.text) <= MARK_LETTERS + 1 else short
            moments.append((mark.time_s, text))
        first_s, last_s = float(trace.time_s[0]), float(trace.time_s[-1])
        box = self._plot.plotItem.vb
        wide_px, high_px = max(100.0, box.width()), max(100.0, box.height())
        s_per_px = (last_s - first_s) / wide_px
        letters = QFontMetricsF(self.font())
        labels = [
            Label(
                time_s,
                name,
                (letters.horizontalAdvance(name) + LABEL_GAP_PX) * s_per_px,
            )
            for time_s, name in moments
        ]
        placed = in_rows(labels, last_s=last_s)
        rows = 1 + max(row for _, _, row in placed)
        low_n, high_n = self._forces(trace)
        room = min(0.6, (rows * LABEL_PX + 6) / high_px)
        top_n = low_n + (high_n - low_n) / (1 - room)
        n_per_px = (top_n - low_n) / high_px
        marks_from = len(moments) - len(marks_around(trace))
        for index, (label, from_s, row) in enumerate(placed):
            style = Qt.PenStyle.DotLine
            if index >= marks_from:
                style = Qt.PenStyle.DashDotLine
            pen = pg.mkPen(self._theme.edge, width=1, style=style)
            line = pg.InfiniteLine(pos=label.time_s, angle=90, pen=pen)
            self._plot.addItem(line, ignoreBounds=True)
            text = pg.TextItem(label.name, color=self._theme.ink, anchor=(0, 0))
            text.setPos(from_s, top_n - row * LABEL_PX * n_per_px)
            self._plot.addItem(text, ignoreBounds=True)
        self.labels = tuple((label.name, row) for label, _, row in placed)
        self._plot.setXRange(first_s, last_s, padding=0.01)
        self._plot.setYRange(low_n, top_n, padding=0)

    def _forces(self, trace: SavedTrace) -> tuple[float, float]:
        """From zero, or what is below it, to the highest force or edge."""
        forces_n = np.append(trace.force_n.ravel(), trace.effort_n)
        edges_n = [
            band.lower_n if band.open_above else band.upper_n for _, band in trace.bands
        ]
        high_n = max(float(np.nanmax(forces_n, initial=1.0)), *edges_n)
        low_n = min(0.0, float(np.nanmin(forces_n, initial=0.0)))
        return low_n - 0.02 * (high_n - low_n), high_n

    def _line(
        self,
        time_s: npt.NDArray[np.float64],
        force_n: npt.NDArray[np.float64],
        pen: Any,
        name: str,
    ) -> Any:
        span_s = max(1e-3, float(time_s[-1] - time_s[0]))
        columns_per_s = COLUMNS / span_s
        dense = len(time_s) > 2 * COLUMNS
        x, y = line_points(
            time_s - time_s[0], force_n, columns_per_s=columns_per_s, dense=dense
        )
        item = pg.PlotDataItem(
            x / columns_per_s + time_s[0],
            y,
            pen=pen,
            name=name,
            connect="finite",
            antialias=True,
        )
        self._plot.addItem(item)
        self.lines_drawn += 1
        return item

    def _draw_bands(self, trace: SavedTrace) -> None:
        """The band in force at each time, from the start to the end of the hold."""
        highest_n = float(np.nanmax(trace.effort_n, initial=1.0))
        starts_s = [max(from_s, trace.start_s) for from_s, _ in trace.bands]
        ends_s = [*starts_s[1:], trace.hold_end_s]
        for (_, band), from_s, to_s in zip(trace.bands, starts_s, ends_s, strict=True):
            if to_s <= from_s:
                continue
            upper_n = max(highest_n, band.lower_n) if band.open_above else band.upper_n
            edge = pg.mkPen(self._theme.edge, width=2)
            low, high = (
                pg.PlotCurveItem([from_s, to_s], [level, level], pen=edge)
                for level in (band.lower_n, upper_n)
            )
            self._plot.addItem(
                pg.FillBetweenItem(low, high, brush=pg.mkBrush(self._theme.wash))
            )
            self._plot.addItem(low)
            if not band.open_above:
                self._plot.addItem(high)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Names of the times find their places anew."""
        super().resizeEvent(event)
        self._draw()


@dataclass(frozen=True, slots=True)
class Label:
    """A name at a time, as wide as it is written, in seconds of the figure."""

    time_s: float
    name: str
    wide_s: float


def in_rows(
    labels: Sequence[Label], *, last_s: float
) -> tuple[tuple[Label, float, int], ...]:
    """Where each label begins, and in which row, so that none covers another.

    A label stands right of its time, or left of it where the figure ends.
    """
    ends: list[float] = []
    placed: dict[int, tuple[Label, float, int]] = {}
    begins = [
        label.time_s if label.time_s + label.wide_s <= last_s
        else label.time_s - label.wide_s
        for label in labels
    ]  # fmt: skip
    for index in sorted(range(len(labels)), key=begins.__getitem__):
        from_s, label = begins[index], labels[index]
        free = (row for row, end_s in enumerate(ends) if end_s <= from_s)
        row = next(free, len(ends))
        if row == len(ends):
            ends.append(0.0)
        ends[row] = from_s + label.wide_s
        placed[index] = (label, from_s, row)
    return tuple(placed[index] for index in range(len(labels)))
