"""Age of the shown value against noise: all candidates, the front, the recommended one.

Rings are candidates; discs with numbers, joined by a line, are those on the front, as
numbered in the table. The recommended one stands in a square; A and B have their
letters. The limit of the rule is dashed. All of it is in the table, too, which has the
keys. pyqtgraph has no types; hence `Any`.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QStackedLayout, QWidget

from biofeedback.gui.language import filled, localised, tr
from biofeedback.gui.number_axis import number_axes
from biofeedback.gui.theme import DAY, Theme, font

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.tuning.search import Found

LETTER_ABOVE = (-0.2, 1.4)
"""Anchor of a letter: clear of the disc, above it and to the right."""
TYPE_PX = 13.0
LEAST_N = 1e-4
"""A noise below it is drawn there: zero has no place on a scale of powers."""


def bare_plot(bottom: str, left: str) -> Any:
    """A figure that no key and no menu changes, with names on its axes."""
    plot = pg.PlotWidget(axisItems=number_axes())
    plot.setMenuEnabled(False)
    plot.hideButtons()
    plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    plot.plotItem.vb.setMouseEnabled(x=False, y=False)
    plot.setLabel("bottom", bottom)
    plot.setLabel("left", left)
    for side in ("bottom", "left"):
        plot.getAxis(side).enableAutoSIPrefix(enable=False)
    return plot


def colour_axes(plot: Any, theme: Theme) -> None:
    """Day or night."""
    plot.setBackground(theme.paper)
    for side in ("bottom", "left"):
        plot.getAxis(side).setPen(theme.edge)
        plot.getAxis(side).setTextPen(theme.ink)
    if plot.plotItem.legend is not None:
        plot.plotItem.legend.setLabelTextColor(theme.ink)


def size_axes(plot: Any, size: float) -> None:
    """Larger type, 1 for a window 720 pixels high."""
    for side in ("bottom", "left"):
        axis = plot.getAxis(side)
        axis.setTickFont(font(TYPE_PX * size))
        axis.label.setFont(font(TYPE_PX * size))
    if plot.plotItem.legend is not None:
        plot.plotItem.legend.setLabelTextSize(f"{TYPE_PX * size:.0f}px")


class FilterChart(QWidget):
    """Draws what a search found.

    Attributes:
        numbered: candidates on the front that are drawn with a number.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Age against noise"))
        self._theme: Theme = DAY
        self._found: Found | None = None
        self._a: FilterChoice | None = None
        self._b: FilterChoice | None = None
        self.numbered = 0
        self._plot = bare_plot(
            tr("age of the shown value (ms)"), tr("noise left in holds (N rms)")
        )
        self._plot.setLogMode(x=False, y=True)
        self.empty = QLabel(tr("Nothing is measured yet: a search fills this chart."))
        self.empty.setObjectName("summary")
        self.empty.setWordWrap(True)
        self.empty.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._stack = QStackedLayout(self)  # axes without a search would be made up
        for either in (self.empty, self._plot):
            self._stack.addWidget(either)
        self.set_theme(DAY)

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self._theme = theme
        colour_axes(self._plot, theme)
        self._draw()

    def set_size(self, size: float) -> None:
        """Larger type, 1 for a window 720 pixels high."""
        size_axes(self._plot, size)

    def show_found(
        self,
        found: Found | None,
        *,
        a: FilterChoice | None = None,
        b: FilterChoice | None = None,
    ) -> None:
        """Another search, or other choices."""
        self._found, self._a, self._b = found, a, b
        self._draw()

    def _draw(self) -> None:
        self._plot.clear()
        self.numbered = 0
        found = self._found
        self._stack.setCurrentWidget(self.empty if found is None else self._plot)
        if found is None:
            self.setAccessibleDescription(tr("nothing measured yet"))
            return
        theme, front = self._theme, found.front
        limit_ms = 1000 * found.wanted.rule.age_most_s
        most_ms = max(1000 * front[-1].age_s, limit_ms) * 1.08
        rest = [each for each in found.scores if 1000 * each.age_s <= most_ms]
        self._plot.addItem(
            pg.ScatterPlotItem(
                [1000 * each.age_s for each in rest],
                [_power(each.noise_n) for each in rest],
                size=7,
                pen=pg.mkPen(theme.quiet, width=1.3),
                brush=None,
            )
        )
        xs = [1000 * each.age_s for each in front]
        ys = [_power(each.noise_n) for each in front]
        edge = pg.mkPen(theme.edge, width=2)
        self._plot.addItem(pg.PlotCurveItem(xs, ys, pen=edge, antialias=True))
        limit = pg.InfiniteLine(
            pos=limit_ms,
            angle=90,
            pen=pg.mkPen(theme.edge, width=1.5, style=Qt.PenStyle.DashLine),
        )
        self._plot.addItem(limit)
        self._discs(xs, ys)
        self._marks(found)
        low, high = min(map(_power, (s.noise_n for s in rest))), max(ys)
        room = 0.06 * (high - low) + 0.05
        words = pg.TextItem(
            filled(tr("limit {ms:g} ms"), ms=limit_ms), color=theme.ink, anchor=(1, 0)
        )
        words.setPos(limit_ms, high + 2.2 * room)
        self._plot.addItem(words)
        self._plot.getAxis("left").setTicks([_ticks(low - room, high + 2.2 * room)])
        self._plot.setXRange(0, most_ms, padding=0)
        self._plot.setYRange(low - room, high + 2.2 * room, padding=0)
        self._describe(found)

    def _discs(self, xs: list[float], ys: list[float]) -> None:
        theme = self._theme
        self._plot.addItem(
            pg.ScatterPlotItem(
                xs,
                ys,
                size=17,
                pen=pg.mkPen(theme.ink, width=1),
                brush=pg.mkBrush(theme.ink),
            )
        )
        for number, (x, y) in enumerate(zip(xs, ys, strict=True), start=1):
            text = pg.TextItem(
                html=f'<span style="color:{theme.paper};font-size:10px;'
                f'font-weight:bold">{number}</span>',
                anchor=(0.5, 0.5),
            )
            text.setPos(x, y)
            self._plot.addItem(text)
        self.numbered = len(xs)

    def _marks(self, found: Found) -> None:
        """The square around the recommended one, and the letters of A and B."""
        theme = self._theme
        chosen = found.recommendation.chosen
        score = found.score_of(chosen.choice) if chosen else None
        if score is not None:
            self._plot.addItem(
                pg.ScatterPlotItem(
                    [1000 * score.age_s],
                    [_power(score.noise_n)],
                    size=27,
                    symbol="s",
                    pen=pg.mkPen(theme.ink, width=2),
                    brush=None,
                )
            )
        for choice, letter in ((self._a, "A"), (self._b, "B")):
            one = found.score_of(choice)
            if one is None:
                continue
            text = pg.TextItem(
                html=f'<b style="font-size:15px;color:{theme.ink}">{letter}</b>',
                anchor=LETTER_ABOVE,
                fill=pg.mkBrush(theme.paper),
                border=pg.mkPen(theme.ink, width=1),
            )
            text.setZValue(10)
            text.setPos(1000 * one.age_s, _power(one.noise_n))
            self._plot.addItem(text)

    def _describe(self, found: Found) -> None:
        chosen = found.recommendation.chosen
        self.setAccessibleDescription(
            filled(
                tr("{n} candidates, {front} on the front; recommended: {name}"),
                n=len(found.scores),
                front=len(found.front),
                name=chosen.name if chosen else tr("none"),
            )
        )


def _ticks(low: float, high: float) -> list[tuple[float, str]]:
    """1, 2 and 5 of each power of ten between two powers."""
    return [
        (math.log10(value), localised(f"{value:g}"))
        for power in range(math.floor(low), math.ceil(high) + 1)
        for value in (digit * 10.0**power for digit in (1, 2, 5))
        if low <= math.log10(value) <= high
    ]


def _power(noise_n: float) -> float:
    return math.log10(max(LEAST_N, noise_n))
