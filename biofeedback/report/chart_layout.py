"""Where the parts of a chart stand in a rectangle, before anything is drawn.

Texts are wrapped and never cut. What there is no room for is left out whole, from the
last remark upwards; `least_height` tells how much room keeps all of it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF

from biofeedback.phrase import phrase
from biofeedback.report.chart_places import ALONE, ChartLayout, Part, TextBlock
from biofeedback.report.chart_scale import (
    Days,
    Scale,
    across_scale,
    day_scale,
    value_scale,
)
from biofeedback.report.ink import font

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from biofeedback.report.chart import (
        Chart,
        Level,
        NoiseBand,
        Series,
    )

    Shown = Callable[[str], str]

__all__ = ["ChartLayout", "lay_out", "least_height", "nothing", "wrap_of"]

BETWEEN_WORDS = int(Qt.TextFlag.TextWordWrap)
ANYWHERE = BETWEEN_WORDS | int(Qt.TextFlag.TextWrapAnywhere)
LEAST_PLOT = 7.0
"""Height of the plot at least, in heights of type."""
LEAST_EMPTY = 3.0
"""The same of one without a point."""
INDENT = 3.0
"""Room for the swatch before an entry of the legend, in heights of type."""
LETTERS = "abcdefghijklmnopqrstuvwxyz"


def least_height(
    chart: Chart, *, width: float, type_px: float, shown: Shown = str
) -> float:
    """The height that keeps all texts of a chart and a plot worth looking at."""
    writer = _Writer(chart, QRectF(0, 0, width, 0), type_px, shown)
    rows = writer.rows(writer.above()) + writer.rows(writer.below())
    return writer.height_of(rows) + writer.least_frame


def lay_out(
    chart: Chart, rect: QRectF, *, type_px: float, shown: Shown = str
) -> ChartLayout:
    """The layout of a chart.

    Args:
        type_px: height of the type, in the units of `rect`.
        shown: puts a text into the language of the reader.
    """
    writer = _Writer(chart, rect, type_px, shown)
    above, below = writer.above(), writer.below()
    left_out: list[str] = []
    while True:
        over, under = writer.rows(above), writer.rows(below)
        needed = writer.height_of(over + under) + writer.least_frame
        if needed <= rect.height() or len(above) == 1:
            break
        left_out.insert(0, (below or above).pop().text)
    top, bottom = rect.top(), rect.bottom() - writer.height_of(under)
    placed = writer.placed(over, top) + writer.placed(under, bottom + writer.gap)
    frame = (top + writer.height_of(over), bottom)
    return writer.framed(placed, frame, tuple(left_out))


class _Writer:
    """Measures the texts of one chart."""

    def __init__(
        self, chart: Chart, rect: QRectF, type_px: float, shown: Shown
    ) -> None:
        self._chart = chart
        self._rect = rect
        self._type = type_px
        self._shown = shown
        self._plain = QFontMetricsF(font(type_px))
        self._bold = QFontMetricsF(font(type_px * 1.1, bold=True))
        self.gap = 0.35 * type_px

    @property
    def _head(self) -> float:
        """Height of what stands above the plot."""
        return self._plain.height() if self._chart.moments else 0.5 * self._type

    @property
    def _foot(self) -> float:
        """Height of what stands below the plot."""
        lines = 1 if self._chart.scatter is None else 2
        return lines * self._plain.height() + 0.85 * self._type

    @property
    def least_frame(self) -> float:
        """Height of the plot at least, with the letters above and the days below."""
        plot = LEAST_EMPTY if self._chart.empty else LEAST_PLOT
        return self._head + self._foot + plot * self._type

    def rows(self, blocks: list[TextBlock]) -> list[list[TextBlock]]:
        """Texts side by side where they fit."""
        found: list[list[TextBlock]] = []
        right = 0.0
        for block in blocks:
            indent = INDENT * self._type if block.of is not None else 0.0
            width = indent + block.rect.width()
            beside = bool(found) and found[-1][0].part not in ALONE
            fits = right + width <= self._rect.right()
            if beside and fits and block.part not in ALONE:
                found[-1].append(_moved(block, left=right + indent))
            else:
                right = self._rect.left()
                found.append([_moved(block, left=right + indent)])
            right += width + 1.5 * self._type
        return found

    def height_of(self, rows: list[list[TextBlock]]) -> float:
        """Of rows one below the other, each with the gap before or after it."""
        return sum(self.gap + _tallest(row) for row in rows)

    def placed(self, rows: list[list[TextBlock]], top: float) -> list[TextBlock]:
        """The texts of the rows, from `top` down."""
        found = []
        for row in rows:
            found += [_moved(block, top=top) for block in row]
            top += _tallest(row) + self.gap
        return found

    def above(self) -> list[TextBlock]:
        """Title and legend, measured; where they stand is not known yet."""
        chart = self._chart
        title = phrase("{title} ({unit})", title=chart.title, unit=chart.unit)
        blocks = [self._block(Part.TITLE, title)]
        for index, one in enumerate(chart.series):
            if one.points:
                words = chart.series_words(one)
                blocks.append(self._block(Part.SERIES, words, one, index))
        for index, level in enumerate(chart.levels):
            blocks.append(self._block(Part.LEVEL, level.words, level, index))
        for index, band in enumerate(chart.noise):
            blocks.append(self._block(Part.NOISE, band.words, band, index))
        return blocks

    def below(self) -> list[TextBlock]:
        """What the letters mean, and the remarks."""
        chart = self._chart
        blocks = [
            self._block(
                Part.MOMENT,
                phrase(
                    "{letter}: {words}, {day}",
                    letter=letter,
                    words=moment.words,
                    day=moment.day.isoformat(),
                ),
            )
            for letter, moment in zip(LETTERS, chart.moments, strict=False)
        ]
        return [*blocks, *(self._block(Part.REMARK, one) for one in chart.remarks)]

    def _block(
        self,
        part: Part,
        text: str,
        of: Series | Level | NoiseBand | None = None,
        index: int = 0,
    ) -> TextBlock:
        indent = INDENT * self._type if of is not None else 0.0
        most = max(self._rect.width() - indent, self._type)
        metrics = self._bold if part is Part.TITLE else self._plain
        told = self._shown(text)
        wrap = wrap_of(told, metrics, most)
        room = metrics.boundingRect(QRectF(0, 0, most, 1e6), wrap, told)
        # A hair more: what just fits here must not be wrapped where it is drawn.
        width = min(most, room.width() + 0.4 * self._type)
        return TextBlock(
            part, told, QRectF(0, 0, width, room.height()), wrap, of, index
        )

    def framed(
        self,
        blocks: list[TextBlock],
        frame: tuple[float, float],
        left_out: tuple[str, ...],
    ) -> ChartLayout:
        """The plot and its ticks between what stands above and below."""
        line = self._plain.height()
        height = max(frame[1] - frame[0] - self._head - self._foot, 1.0)
        scale = value_scale(self._chart, ticks=max(2, int(height / (2.2 * line))))
        words = [self._shown(scale.words(tick)) for tick in scale.ticks]
        widest = max(map(self._plain.horizontalAdvance, words))
        left = self._rect.left() + widest + 0.8 * self._type
        right = self._rect.right() - 0.6 * self._type
        plot = QRectF(left, frame[0] + self._head, max(right - left, 1.0), height)
        days = self._days(plot.width())
        across = self._across(plot.width())
        return ChartLayout(
            chart=self._chart,
            type_px=self._type,
            blocks=tuple(blocks),
            plot=plot,
            scale=scale,
            days=days,
            value_ticks=tuple(self._value_ticks(plot, scale, words)),
            day_ticks=tuple(
                self._day_ticks(plot, days)
                if across is None
                else self._across_ticks(plot, across)
            ),
            letters=tuple(self._letters(plot, days)),
            left_out=left_out,
            across=across,
        )

    def _across(self, width: float) -> Scale | None:
        scatter = self._chart.scatter
        if scatter is None or not scatter.points:
            return None
        one = self._plain.horizontalAdvance("00000") + 1.5 * self._type
        values = [value for value, _ in scatter.points]
        return across_scale(values, ticks=max(2, int(width / one)))

    def _across_ticks(
        self, plot: QRectF, scale: Scale
    ) -> Iterator[tuple[float, str, QRectF]]:
        """The numbers of a scatter, and below them what they are."""
        top, line = plot.bottom() + 0.65 * self._type, self._plain.height()
        for tick in scale.ticks:
            share = (tick - scale.bottom) / (scale.top - scale.bottom)
            x = plot.left() + plot.width() * share
            text = self._shown(scale.words(tick))
            width = self._plain.horizontalAdvance(text)
            yield x, text, QRectF(x - width / 2, top, width, line)

    def _days(self, width: float) -> Days | None:
        ends = self._chart.days
        if ends is None:
            return None
        moments = [moment.day for moment in self._chart.moments]
        first, last = min((ends[0], *moments)), max((ends[1], *moments))
        one = self._plain.horizontalAdvance("0000-00-00") + 1.5 * self._type
        return day_scale(first, last, ticks=max(1, int(width / one)))

    def _value_ticks(
        self, plot: QRectF, scale: Scale, words: list[str]
    ) -> Iterator[tuple[float, str, QRectF]]:
        if self._chart.empty:
            return
        line = self._plain.height()
        free_below = float("inf")
        for tick, text in zip(scale.ticks, words, strict=True):
            share = (tick - scale.bottom) / (scale.top - scale.bottom)
            y = plot.bottom() - plot.height() * share
            if y + line / 2 > free_below:
                continue  # it would stand on the one below
            free_below = y - line / 2
            width = plot.left() - 0.5 * self._type - self._rect.left()
            yield y, text, QRectF(self._rect.left(), y - line / 2, width, line)

    def _day_ticks(
        self, plot: QRectF, days: Days | None
    ) -> Iterator[tuple[float, str, QRectF]]:
        if days is None:
            return
        free_from = self._rect.left()
        for day, text in days.ticks:
            x = plot.left() + plot.width() * days.share(day)
            width = self._plain.horizontalAdvance(text)
            left = min(max(x - width / 2, free_from), self._rect.right() - width)
            if left < free_from:
                continue
            free_from = left + width + 0.5 * self._type
            top = plot.bottom() + 0.65 * self._type
            yield x, text, QRectF(left, top, width, self._plain.height())

    def _letters(
        self, plot: QRectF, days: Days | None
    ) -> Iterator[tuple[float, str, QRectF]]:
        if days is None:
            return
        moments = zip(LETTERS, self._chart.moments, strict=False)
        dated = sorted(moments, key=lambda one: one[1].day)
        widths = [self._plain.horizontalAdvance(letter) for letter, _ in dated]
        at = [plot.left() + plot.width() * days.share(one.day) for _, one in dated]
        lefts = self._apart(at, widths, plot.left(), self._rect.right())
        top, line = plot.top() - self._plain.height(), self._plain.height()
        for (letter, _), x, left, width in zip(dated, at, lefts, widths, strict=True):
            if left >= plot.left():
                yield x, letter, QRectF(left, top, width, line)

    def _apart(
        self, at: list[float], widths: list[float], first: float, end: float
    ) -> list[float]:
        """Left edges of texts near `at`, none on another, none beyond `end`."""
        gap, lefts = 0.2 * self._type, []
        for x, width in zip(at, widths, strict=True):
            lefts.append(max(x - width / 2, first))
            first = lefts[-1] + width + gap
        for index in reversed(range(len(lefts))):
            lefts[index] = min(lefts[index], end - widths[index])
            end = lefts[index] - gap
        return lefts


def wrap_of(text: str, metrics: QFontMetricsF, width: float) -> int:
    """Flags that wrap a text between words, or anywhere where a word is too long."""
    longest = max(map(metrics.horizontalAdvance, text.split()), default=0.0)
    return ANYWHERE if longest > width else BETWEEN_WORDS


def _moved(
    block: TextBlock, *, left: float | None = None, top: float | None = None
) -> TextBlock:
    rect = QRectF(block.rect)
    if left is not None:
        rect.moveLeft(left)
    if top is not None:
        rect.moveTop(top)
    return replace(block, rect=rect)


def _tallest(row: list[TextBlock]) -> float:
    return max(block.rect.height() for block in row)


def nothing(chart: Chart, shown: Shown = str) -> str:
    """What stands in an empty plot."""
    return shown(chart.nothing)
