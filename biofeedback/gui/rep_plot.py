"""One saved rep as a figure: its force, its bands, its times, its balance.

pyqtgraph has no types; hence `Any`. Three times can
be moved: they are drawn as solid lines with a handle, all others as dotted ones. What
was moved by hand says so, and a thin line stays where the rules found it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QFontMetricsF, QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from biofeedback.conditioning.profile import Side
from biofeedback.gui.filter_chart import TYPE_PX, size_axes
from biofeedback.gui.language import filled, localised, shown
from biofeedback.gui.number_axis import number_axes
from biofeedback.gui.rep_labels import Label, in_rows
from biofeedback.gui.review_rows import marks_around
from biofeedback.gui.theme import DAY, Theme, font
from biofeedback.gui.thinned_line import thinned_line
from biofeedback.measures.zero_phase import CUTOFF_HZ, zero_phase
from biofeedback.phrase import numbered
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.gui.review_rows import SavedTrace

LEGEND_PX = 30
LABEL_PX = 17
AXIS_PX = 58
LABEL_GAP_PX = 14
MARK_LETTERS = 24
"""A longer note is cut in the figure; the table has all of it."""
GAPS_NAMED = 20
LEAST_TOTAL_N = 5.0
"""Below it a share of the total is noise; as the least onset."""
MARKERS = 12
"""Of each side along its line."""
BALANCE_PX = 92
ZOOM_LEAST_S = 0.05
REDRAW_MS = 30
"""After the wheel has come to rest."""


class RepPlot(QWidget):
    """Draws the force of one rep.

    Signals:
        marker_dropped: name of a marker, and where the mouse put it, seconds.
    """

    marker_dropped = Signal(str, float)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Force of the rep"))
        self._theme: Theme = DAY
        self._size = 1.0
        self._trace: SavedTrace | None = None
        self._plot: Any = pg.PlotWidget(axisItems=number_axes())
        self._plot.setMenuEnabled(False)
        self._plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # no key does anything here
        self._plot.hideButtons()
        # Above the figure, where it covers nothing.
        self._plot.plotItem.layout.setContentsMargins(1, LEGEND_PX, 1, 1)
        self._legend: Any = self._plot.addLegend(offset=(40, 2), colCount=3)
        self._legend.setParentItem(self._plot.plotItem)
        self._plot.plotItem.vb.setMouseEnabled(x=True, y=False)
        self._plot.setLabel("bottom", self.tr("time since the set began (s)"))
        self._plot.setLabel("left", self.tr("force (N)"))
        self._balance: Any = pg.PlotWidget(axisItems=number_axes())
        self._balance.setMenuEnabled(False)
        self._balance.hideButtons()
        self._balance.setFixedHeight(BALANCE_PX)
        self._balance.plotItem.vb.setMouseEnabled(x=False, y=False)
        self._balance.setLabel("left", self.tr("right (%)"))
        self._balance.setAccessibleName(self.tr("Right share of the total over time"))
        self._balance.hide()
        for plot in (self._plot, self._balance):
            plot.getAxis("left").setWidth(AXIS_PX)
        self.lines_drawn = 0
        self.labels: tuple[tuple[str, int], ...] = ()
        self.markers: dict[str, Any] = {}
        self.smooth = False
        self._selected = ""
        self._view: tuple[float, float] | None = None
        self._drawing = False
        self._redraw = QTimer(self)
        self._redraw.setSingleShot(True)
        self._redraw.setInterval(REDRAW_MS)
        self._redraw.timeout.connect(self._draw)
        self._plot.plotItem.vb.sigXRangeChanged.connect(self._ranged)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._plot, 1)
        layout.addWidget(self._balance)
        self.set_theme(DAY)

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        self._theme = theme
        for plot in (self._plot, self._balance):
            plot.setBackground(theme.paper)
            for side in ("bottom", "left"):
                axis = plot.getAxis(side)
                axis.setPen(theme.edge)
                axis.setTextPen(theme.ink)
                axis.enableAutoSIPrefix(enable=False)
        self._legend.setLabelTextColor(theme.ink)
        self._draw()

    def set_size(self, size: float) -> None:
        """Larger type, 1 for a window 720 pixels high."""
        self._size = size
        for plot in (self._plot, self._balance):
            size_axes(plot, size)
            plot.getAxis("left").setWidth(AXIS_PX * size)
        self._plot.plotItem.layout.setContentsMargins(1, LEGEND_PX * size, 1, 1)
        self._balance.setFixedHeight(round(BALANCE_PX * size))
        self._draw()

    def show_trace(self, trace: SavedTrace | None, *, keep_view: bool = False) -> None:
        """Another rep, or none.

        Args:
            keep_view: stay zoomed: it is the same rep with other times.
        """
        self._trace = trace
        if not keep_view:
            self._view = None
        self._draw()

    def set_smooth(self, smooth: bool) -> None:
        """Zero-phase filtered, or as measured."""
        self.smooth = smooth
        self._draw()

    def select(self, marker: str) -> None:
        """The marker that the keys move; it is drawn thicker."""
        self._selected = marker
        self._draw()

    def zoom(self, factor: float) -> None:
        """Closer for more than 1, around the middle of what is seen."""
        from_s, to_s = self.seen_s
        half_s = max(ZOOM_LEAST_S, (to_s - from_s) / factor) / 2
        middle_s = (from_s + to_s) / 2
        self._see(middle_s - half_s, middle_s + half_s)

    def shift(self, share: float) -> None:
        """Along the time, by a share of what is seen; + is later."""
        from_s, to_s = self.seen_s
        by_s = share * (to_s - from_s)
        first_s, last_s = self._whole_s
        by_s = min(max(by_s, first_s - from_s), last_s - to_s)
        self._see(from_s + by_s, to_s + by_s)

    def see_all(self) -> None:
        """The whole rep."""
        self._view = None
        self._draw()

    @property
    def seen_s(self) -> tuple[float, float]:
        """From when to when is seen."""
        return self._view or self._whole_s

    @property
    def _whole_s(self) -> tuple[float, float]:
        trace = self._trace
        if trace is None or len(trace.time_s) == 0:
            return 0.0, 1.0
        return float(trace.time_s[0]), float(trace.time_s[-1])

    def _see(self, from_s: float, to_s: float) -> None:
        first_s, last_s = self._whole_s
        whole = from_s <= first_s and to_s >= last_s
        self._view = None if whole else (max(from_s, first_s), min(to_s, last_s))
        self._draw()

    def _ranged(self) -> None:
        """The wheel or a drag changed what is seen."""
        if not self._drawing and self._trace is not None:
            from_s, to_s = self._plot.plotItem.vb.viewRange()[0]
            first_s, last_s = self._whole_s
            if to_s - from_s >= last_s - first_s:
                self._view = None
            else:
                self._view = (max(from_s, first_s), min(to_s, last_s))
            self._redraw.start()

    def _draw(self) -> None:
        self._drawing = True
        try:
            self._draw_all()
        finally:
            self._drawing = False

    def _draw_all(self) -> None:
        self._plot.clear()
        self._balance.clear()
        self.lines_drawn = 0
        self.labels = ()
        self.markers = {}
        trace = self._trace
        if trace is None or len(trace.time_s) == 0:
            self._balance.hide()
            self.setAccessibleDescription(self.tr("nothing chosen"))
            return
        force_n, effort_n = trace.force_n, trace.effort_n
        if self.smooth:
            force_n = zero_phase(trace.time_s, force_n)
            effort_n = zero_phase(trace.time_s, effort_n)
        self._draw_bands(trace)
        if force_n.shape[1] > 1:
            self._draw_channels(trace, force_n)
        ink = pg.mkPen(self._theme.ink, width=2.5)
        name = self.tr("judged")
        if self.smooth:
            name = self.tr("judged, zero phase {hz} Hz").format(
                hz=localised(f"{CUTOFF_HZ:g}")
            )
        judged = self._line(trace.time_s, effort_n, ink, name)
        judged.curve.setSegmentedLineMode("on")  # thick lines: five times as fast
        self._draw_moments(trace)
        self._draw_balance(trace, force_n)
        self.setAccessibleDescription(
            filled(
                self.tr("{start:.2f} s to {end:.2f} s, {lapses}"),
                start=trace.start_s,
                end=trace.end_s,
                lapses=numbered(len(trace.lapses), "1 lapse", "{count} lapses"),
            )
        )

    def _draw_balance(
        self, trace: SavedTrace, force_n: npt.NDArray[np.float64]
    ) -> None:
        """The right side's share while the rep lasted, and what was allowed.

        Where one side works alone, there is nothing to be shared.
        """
        left, right = (trace.profile.index_of(side) for side in (Side.LEFT, Side.RIGHT))
        together = trace.prescription.task.sides is Sides.BOTH
        shared = together and left is not None and right is not None
        self._balance.setVisible(shared)
        if not shared or left is None or right is None:
            return
        total_n = force_n[:, left] + force_n[:, right]
        pulled = (trace.time_s >= trace.start_s) & (trace.time_s <= trace.end_s)
        pulled &= total_n > LEAST_TOTAL_N
        share = np.full(len(total_n), np.nan)
        share[pulled] = 100 * force_n[pulled, right] / total_n[pulled]
        points = trace.prescription.balance_tolerance_points
        edge = pg.mkPen(self._theme.edge, width=1)
        dashed = pg.mkPen(self._theme.edge, width=1, style=Qt.PenStyle.DashLine)
        self._balance.addItem(pg.InfiniteLine(pos=50, angle=0, pen=edge))
        for level in () if points is None else (50 - points, 50 + points):
            self._balance.addItem(pg.InfiniteLine(pos=level, angle=0, pen=dashed))
        pen = pg.mkPen(self._theme.ink, width=1.5)
        self._balance.addItem(self._item(trace.time_s, share, pen, ""))
        reach = float(np.nanmax(np.abs(share - 50), initial=(points or 0) + 5))
        reach = min(50.0, reach * 1.1)
        self._balance.setYRange(50 - reach, 50 + reach, padding=0)
        from_s, to_s = self.seen_s
        self._balance.setXRange(from_s, to_s, padding=0.01)

    def _draw_channels(
        self, trace: SavedTrace, forces_n: npt.NDArray[np.float64]
    ) -> None:
        """Each cell by itself: left hollow and dashed, right filled and solid."""
        step = max(1, len(trace.time_s) // MARKERS)
        for index, channel in enumerate(trace.profile.channels):
            left = channel.side is Side.LEFT
            force_n = forces_n[:, index]
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
        moments = [
            (self._place(trace, marker), self._name(trace, marker))
            for marker in self._movable(trace)
        ]
        movable = len(moments)
        moments.append((trace.end_s, self.tr("end")))
        for left_s, back_s in trace.lapses:
            moments.append((left_s, self.tr("lapse")))
            moments.append((back_s, self.tr("back")))
        for from_s, _ in trace.bands:
            if trace.start_s < from_s <= trace.end_s:
                moments.append((from_s, self.tr("nudge")))
        gap = self.tr("gap")
        moments += [(at_s, gap) for at_s in self._gaps_s(trace)]
        marks_from = len(moments)
        for mark in marks_around(trace):
            words = shown(mark.text)
            short = f"{words[:MARK_LETTERS]}…"
            text = words if len(words) <= MARK_LETTERS + 1 else short
            moments.append((mark.time_s, text))
        kinds = [
            "marker" if i < movable else "mark" if i >= marks_from else "moment"
            for i in range(len(moments))
        ]
        first_s, last_s = self.seen_s
        seen = [first_s <= at_s <= last_s for at_s, _ in moments]
        movers = self._movable(trace)
        box = self._plot.plotItem.vb
        wide_px, high_px = max(100.0, box.width()), max(100.0, box.height())
        s_per_px = (last_s - first_s) / wide_px
        face = font(TYPE_PX * self._size)
        letters, label_px = QFontMetricsF(face), LABEL_PX * self._size
        labels = [
            Label(
                time_s,
                name,
                (letters.horizontalAdvance(name) + LABEL_GAP_PX) * s_per_px,
            )
            for (time_s, name), inside in zip(moments, seen, strict=True)
            if inside
        ]
        numbers = [index for index, inside in enumerate(seen) if inside]
        placed = in_rows(labels, last_s=last_s)
        rows = 1 + max((row for _, _, row in placed), default=0)
        low_n, high_n = self._forces(trace)
        room = min(0.6, (rows * label_px + 6) / high_px)
        top_n = low_n + (high_n - low_n) / (1 - room)
        n_per_px = (top_n - low_n) / high_px
        for (label, from_s, row), number in zip(placed, numbers, strict=True):
            style = Qt.PenStyle.DotLine
            if kinds[number] == "mark":
                style = Qt.PenStyle.DashDotLine
            if kinds[number] == "marker":
                self._add_marker(trace, movers[number])
            else:
                pen = pg.mkPen(self._theme.edge, width=1, style=style)
                line = pg.InfiniteLine(pos=label.time_s, angle=90, pen=pen)
                self._plot.addItem(line, ignoreBounds=True)
            text = pg.TextItem(label.name, color=self._theme.ink, anchor=(0, 0))
            text.setFont(face)
            text.setPos(from_s, top_n - row * label_px * n_per_px)
            self._plot.addItem(text, ignoreBounds=True)
        self.labels = tuple((label.name, row) for label, _, row in placed)
        self._plot.setXRange(first_s, last_s, padding=0.01)
        self._plot.setYRange(low_n, top_n, padding=0)

    def _movable(self, trace: SavedTrace) -> tuple[str, ...]:
        return tuple(
            marker
            for marker in ("onset", "entry", "hold end")
            if marker != "entry" or trace.entry_s is not None
        )

    def _place(self, trace: SavedTrace, marker: str) -> float:
        if marker == "onset":
            return trace.start_s
        if marker == "entry":
            return trace.entry_s if trace.entry_s is not None else trace.start_s
        return trace.hold_end_s

    def _name(self, trace: SavedTrace, marker: str) -> str:
        name = {
            "onset": self.tr("start"),
            "entry": self.tr("entry"),
            "hold end": self.tr("hold end"),
        }[marker]
        if marker in trace.by_hand:
            return self.tr("{marker}, by hand").format(marker=name)
        return name

    def _add_marker(self, trace: SavedTrace, marker: str) -> None:
        """A line that can be dragged, and where the rules had it."""
        wide = 3 if marker == self._selected else 1.5
        line = pg.InfiniteLine(
            pos=self._place(trace, marker),
            angle=90,
            movable=True,
            pen=pg.mkPen(self._theme.ink, width=wide),
            hoverPen=pg.mkPen(self._theme.ink, width=4),
        )
        line.addMarker("v", 0.06, 10)
        line.sigPositionChangeFinished.connect(
            lambda moved: self.marker_dropped.emit(marker, float(moved.value()))
        )
        self._plot.addItem(line, ignoreBounds=True)
        self.markers[marker] = line
        if marker in trace.by_hand:
            automatic_s = getattr(trace.automatic, f"{marker.replace(' ', '_')}_s")
            if automatic_s is not None:
                pen = pg.mkPen(self._theme.edge, width=1, style=Qt.PenStyle.DashLine)
                ghost = pg.InfiniteLine(pos=automatic_s, angle=90, pen=pen)
                self._plot.addItem(ghost, ignoreBounds=True)

    def _gaps_s(self, trace: SavedTrace) -> list[float]:
        """Where the signal breaks within the rep."""
        missing = np.isnan(trace.effort_n)
        begins = missing & ~np.concatenate(([False], missing[:-1]))
        within = (trace.time_s >= trace.start_s) & (trace.time_s <= trace.end_s)
        found: list[float] = trace.time_s[begins & within].tolist()
        return found[:GAPS_NAMED]

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
        item = self._item(time_s, force_n, pen, name)
        self._plot.addItem(item)
        self.lines_drawn += 1
        return item

    def _item(
        self,
        time_s: npt.NDArray[np.float64],
        force_n: npt.NDArray[np.float64],
        pen: Any,
        name: str,
    ) -> Any:
        return thinned_line(time_s, force_n, seen_s=self.seen_s, pen=pen, name=name)

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
