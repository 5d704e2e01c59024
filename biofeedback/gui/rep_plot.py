"""One saved rep as a figure: its force, its bands and its times.

The only module that knows pyqtgraph, which has no types; hence `Any`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from biofeedback.conditioning.profile import Side
from biofeedback.gui.theme import DAY, Theme
from biofeedback.gui.trace_store import line_points

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.gui.review_rows import SavedTrace

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
        self._plot.hideButtons()
        self._legend: Any = self._plot.addLegend(offset=(10, 10))
        self._plot.setLabel("bottom", self.tr("time since the set began (s)"))
        self._plot.setLabel("left", self.tr("force (N)"))
        self.lines_drawn = 0
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
        self._plot.autoRange(padding=0.03)
        self.setAccessibleDescription(
            self.tr("{start} s to {end} s, {lapses} lapses").format(
                start=f"{trace.start_s:.2f}",
                end=f"{trace.end_s:.2f}",
                lapses=len(trace.lapses),
            )
        )

    def _draw_channels(self, trace: SavedTrace) -> None:
        """Each cell by itself: left is dashed, right is solid, as everywhere."""
        for index, channel in enumerate(trace.profile.channels):
            left = channel.side is Side.LEFT
            style = Qt.PenStyle.DashLine if left else Qt.PenStyle.SolidLine
            pen = pg.mkPen(self._theme.edge, width=1, style=style)
            name = self.tr(channel.side.value)
            self._line(trace.time_s, trace.force_n[:, index], pen, name)

    def _draw_moments(self, trace: SavedTrace) -> None:
        """The times of the rep, each name at a height of its own."""
        moments = [(trace.start_s, self.tr("start"), 0.92)]
        if trace.entry_s is not None:
            moments.append((trace.entry_s, self.tr("entry"), 0.76))
        if trace.end_s - trace.hold_end_s > 0.01:
            moments.append((trace.hold_end_s, self.tr("hold end"), 0.92))
        moments.append((trace.end_s, self.tr("end"), 0.76))
        for left_s, back_s in trace.lapses:
            moments.append((left_s, self.tr("lapse"), 0.6))
            moments.append((back_s, self.tr("back"), 0.44))
        for time_s, name, position in moments:
            self._moment(time_s, name, position=position)

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

    def _moment(self, time_s: float, name: str, *, position: float) -> None:
        line = pg.InfiniteLine(
            pos=time_s,
            angle=90,
            pen=pg.mkPen(self._theme.edge, width=1, style=Qt.PenStyle.DotLine),
            label=name,
            labelOpts={
                "position": position,
                "color": self._theme.ink,
                "rotateAxis": (1, 0),
            },
        )
        self._plot.addItem(line, ignoreBounds=True)
