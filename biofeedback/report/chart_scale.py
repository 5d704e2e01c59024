"""Where the ticks of a chart stand: round values, and days that begin something."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from biofeedback.phrase import Phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.report.chart import Chart

STEPS = (1.0, 2.0, 2.5, 5.0)
EDGE = 0.06
"""Room above and below the values, as a share of their range."""
LEAST_SPAN = 1e-6
WHOLE_FROM = 4.0
"""Range from which whole numbers are ticks enough."""
SHORTEST_DAYS = 14
"""A chart of one day is drawn as wide as two weeks."""


@dataclass(frozen=True, slots=True)
class Scale:
    """Values from bottom to top, and round ones between them as ticks."""

    bottom: float
    top: float
    ticks: tuple[float, ...]

    def words(self, value: float) -> Phrase:
        """A tick's number, with as many decimals as the step between ticks needs."""
        step = self.ticks[1] - self.ticks[0] if len(self.ticks) > 1 else 1.0
        decimals = next((d for d in range(5) if _whole(step * 10**d)), 5)
        return Phrase(f"{{value:.{decimals}f}}", {"value": float(value)})


def _whole(number: float) -> bool:
    return abs(number - round(number)) < 1e-9 * max(1.0, abs(number))


def value_scale(chart: Chart, *, ticks: int) -> Scale:
    """A scale that holds every point, level and band of a chart.

    Args:
        ticks: at most about so many.
    """
    values = [point.value for one in chart.series for point in one.points]
    if chart.scatter is not None:
        values += [value for _, value in chart.scatter.points]
    values += [level.value for level in chart.levels]
    values += [edge for band in chart.noise for edge in (band.lower, band.upper)]
    values += [end for end in (chart.low, chart.high) if end is not None]
    low, high = (min(values), max(values)) if values else (0.0, 1.0)
    low, high = _widened(low, high, chart)
    if high - low < max(LEAST_SPAN, 1e-9 * abs(high)):
        reach = max(abs(high) * 0.05, 1.0)
        low, high = low - reach, high + reach
    # A little room, but not beyond what is asked for as an end, such as no pain.
    room = EDGE * (high - low)
    bottom = low if low == chart.low else low - room
    top = high if high == chart.high else high + room
    # Values that are told without decimals have no ticks with any.
    whole = chart.decimals == 0 and top - bottom > WHOLE_FROM
    return Scale(bottom, top, _ticks(bottom, top, most=max(ticks, 2), whole=whole))


def _widened(low: float, high: float, chart: Chart) -> tuple[float, float]:
    """As long as the chart asks for; an end that is asked for stays where it is.

    What is never negative gets no room below nothing.
    """
    more = chart.span - (high - low)
    if more <= 0:
        return low, high
    if high == chart.high:
        return low - more, high
    bottom = low if low == chart.low else low - more / 2
    if low >= 0.0:
        bottom = max(bottom, 0.0)
    return bottom, bottom + chart.span


def round_scale(low: float, high: float, *, ticks: int) -> Scale:
    """A scale that holds two values with a little room beyond them."""
    reach = max(high - low, 0.05 * abs(high), 1.0)
    bottom, top = low - EDGE * reach, high + EDGE * reach
    return Scale(bottom, top, _ticks(bottom, top, most=max(ticks, 2), whole=False))


def _ticks(bottom: float, top: float, *, most: int, whole: bool) -> tuple[float, ...]:
    """The most round values, at least two, that are not more than `most`."""
    power = 10.0 ** math.floor(math.log10((top - bottom) / most))
    sizes = [one * power * ten for ten in (0.1, 1.0, 10.0) for one in STEPS]
    sizes = [size for size in sizes if not whole or _whole(size)] or [1.0]
    found: tuple[float, ...] = ()
    for step in sorted(set(sizes), reverse=True):
        first, last = math.ceil(bottom / step - 1e-9), math.floor(top / step + 1e-9)
        if last - first + 1 > most and len(found) >= 2:
            break
        found = tuple(index * step for index in range(first, last + 1))
    return found


def across_scale(values: Sequence[float], *, ticks: int) -> Scale:
    """A scale from left to right that holds all values; at most so many ticks."""
    low, high = min(values), max(values)
    if high - low < max(LEAST_SPAN, 1e-9 * abs(high)):
        reach = max(abs(high) * 0.05, 1.0)
        low, high = low - reach, high + reach
    room = EDGE * (high - low)
    low, high = low - room, high + room
    return Scale(low, high, _ticks(low, high, most=max(ticks, 2), whole=False))


@dataclass(frozen=True, slots=True)
class Days:
    """Days from left to right, with ticks and their words."""

    first: date
    last: date
    ticks: tuple[tuple[date, str], ...]

    def share(self, day: date) -> float:
        """Where a day stands: 0 at the left edge, 1 at the right."""
        return (day - self.first).days / (self.last - self.first).days


def day_scale(first: date, last: date, *, ticks: int) -> Days:
    """A scale that holds two days, with at most so many ticks (at least one)."""
    short = SHORTEST_DAYS - (last - first).days
    if short > 0:
        first, last = (
            first - timedelta(short // 2),
            last + timedelta(short - short // 2),
        )
    pad = timedelta(max(1, (last - first).days // 40))
    first, last = first - pad, last + pad
    found = _weeks(first, last)
    for months in (1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200):
        if len(found) <= ticks:
            break
        found = _months(first, last, months)
    if not found:  # the chart is too narrow for more than one, and none falls in it
        middle = first + (last - first) // 2
        found = [(middle, middle.isoformat())]
    return Days(first, last, tuple(found[: max(1, ticks)]))


def _weeks(first: date, last: date) -> list[tuple[date, str]]:
    """Each Monday."""
    monday = first + timedelta(-first.weekday() % 7)
    count = max(0, (last - monday).days // 7 + 1)
    days = [monday + timedelta(7 * index) for index in range(count)]
    return [(day, day.isoformat()) for day in days]


def _months(first: date, last: date, each: int) -> list[tuple[date, str]]:
    """The first of each so-many-th month."""
    begin = first.year * 12 + first.month - 1 + (first.day > 1)
    begin += -begin % each
    end = last.year * 12 + last.month - 1
    days = [date(at // 12, at % 12 + 1, 1) for at in range(begin, end + 1, each)]
    form = "%Y" if each % 12 == 0 else "%Y-%m"
    return [(day, day.strftime(form)) for day in days]
