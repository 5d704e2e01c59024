"""A chart over days, as a value: what is shown, before anything is drawn.

Rules that hold for every chart:

* left is hollow and right is filled; sides are told by shape, never by colour alone;
* days without a result are a gap: points further apart than `Series.join_within_days`
  are not joined, and nothing is filled in between;
* what is noise is said in words, also where it cannot be told yet;
* all texts may be phrases. They are put into another language when they are drawn.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import Phrase, numbered, phrase, sentences

if TYPE_CHECKING:
    from datetime import date

JOIN_WITHIN_DAYS = 42
"""Six weeks. A choice of ours: tests come every two to four weeks, and one that was
missed is no gap yet."""


SHARES_SPAN_PCT = 10.0
"""A scale of shares is no shorter: tenths of a point are no difference to be seen
large. A choice of ours."""


class Mark(Enum):
    """Shape of a series' points."""

    LEFT = "hollow disc"
    RIGHT = "filled disc"
    BOTH = "filled diamond"
    PLAIN = "hollow diamond"
    BEFORE = "hollow square"
    AFTER = "filled square"

    @property
    def hollow(self) -> bool:
        """Whether only the outline is drawn; its line is then dashed."""
        return self in {Mark.LEFT, Mark.PLAIN, Mark.BEFORE}


class Join(Enum):
    """How neighbouring points are joined."""

    LINE = "a straight line"
    STEPS = "the value stands until the next"
    NONE = "not at all"


@dataclass(frozen=True, slots=True)
class Point:
    """One dated value.

    Attributes:
        n: how many results are behind it.
        remark: what is to be known of it, such as that it is of another position.
    """

    day: date
    value: float
    n: int = 1
    remark: str = ""

    def __post_init__(self) -> None:
        if not math.isfinite(self.value):
            raise FieldError("value", phrase("of a point must be a finite number."))


@dataclass(frozen=True, slots=True)
class Series:
    """Values of one thing, in order of their days.

    Attributes:
        name: "left", "pain before", …
        join_within_days: points further apart are not joined.
        aside: the marks stand so many widths of a mark to the right of their day, so
            that equal values of one day do not cover each other.
    """

    name: str
    mark: Mark
    points: tuple[Point, ...]
    join: Join = Join.LINE
    join_within_days: int = JOIN_WITHIN_DAYS
    aside: float = 0.0

    def __post_init__(self) -> None:
        days = [point.day for point in self.points]
        if days != sorted(days):
            raise FieldError("points", phrase("must be in the order of their days."))

    @property
    def runs(self) -> tuple[tuple[Point, ...], ...]:
        """The points between gaps."""
        found: list[list[Point]] = []
        for point in self.points:
            if found and (point.day - found[-1][-1].day).days <= self.join_within_days:
                found[-1].append(point)
            else:
                found.append([point])
        return tuple(map(tuple, found))


@dataclass(frozen=True, slots=True)
class NoiseBand:
    """Where values are expected while nothing has changed.

    Attributes:
        words: what it is, such as "95 % of changes within this are noise (n = 8)".
        mark: of the series it belongs to; tells bands of two sides apart.
        first_day: where it begins; None is the left edge of the chart.
    """

    lower: float
    upper: float
    words: str
    mark: Mark = Mark.BOTH
    first_day: date | None = None

    def __post_init__(self) -> None:
        if not (math.isfinite(self.lower) and self.lower <= self.upper < math.inf):
            raise FieldError(
                "upper", phrase("of a noise band must not be below its lower.")
            )


@dataclass(frozen=True, slots=True)
class Level:
    """A horizontal line, such as the value before the injury."""

    value: float
    words: str


@dataclass(frozen=True, slots=True)
class Moment:
    """A day on which something changed, such as a move to another stage."""

    day: date
    words: str


@dataclass(frozen=True, slots=True)
class Scatter:
    """Points over another number than days, one a person.

    Attributes:
        name: what a point is.
        across: what stands from left to right, with its unit.
        points: from left to right, and from bottom to top.
    """

    name: str
    across: str
    points: tuple[tuple[float, float], ...]
    mark: Mark = Mark.LEFT


EMPTY = phrase("Nothing to show yet.")


@dataclass(frozen=True, slots=True)
class Chart:
    """All of one chart.

    Attributes:
        title: what is shown, without the unit.
        unit: "N", "%", "of 10", …; every value of the chart has it.
        decimals: of values in words.
        low, high: the scale reaches at least so far, for example 0 and 10 of pain.
        span: the scale is at least so long, so that small differences look small.
        remarks: what else must be said, such as "Cannot tell yet: …".
        scatter: in place of series; the chart has then no days.
        nothing: what is said in place of points where there is none.
    """

    title: str
    unit: str
    series: tuple[Series, ...]
    levels: tuple[Level, ...] = ()
    noise: tuple[NoiseBand, ...] = ()
    moments: tuple[Moment, ...] = ()
    remarks: tuple[str, ...] = ()
    decimals: int = 0
    low: float | None = None
    high: float | None = None
    span: float = 0.0
    scatter: Scatter | None = None
    nothing: str = EMPTY

    @property
    def empty(self) -> bool:
        """Whether there is no point in it."""
        if self.scatter is not None and self.scatter.points:
            return False
        return not any(one.points for one in self.series)

    @property
    def days(self) -> tuple[date, date] | None:
        """First and last day with a point."""
        found = [point.day for one in self.series for point in one.points]
        return (min(found), max(found)) if found else None

    def value_words(self, value: float) -> Phrase:
        """A value with its unit."""
        template = _VALUES[min(max(self.decimals, 0), len(_VALUES) - 1)]
        return Phrase(template, {"value": float(value), "unit": self.unit})

    def series_words(self, series: Series) -> Phrase:
        """A series in a legend: its name and its newest value."""
        if not series.points:
            return phrase("{name}: nothing yet", name=series.name)
        newest = series.points[-1]
        return phrase(
            "{name}: {value} on {day}",
            name=series.name,
            value=self.value_words(newest.value),
            day=newest.day.isoformat(),
        )


_VALUES = ("{value:.0f} {unit}", "{value:.1f} {unit}", "{value:.2f} {unit}")


def description(chart: Chart) -> Phrase:
    """The chart in words, for those who do not see it."""
    named = phrase("{title} ({unit}).", title=chart.title, unit=chart.unit)
    if chart.empty:
        return sentences(named, chart.nothing, *chart.remarks)
    return sentences(
        named,
        *(
            phrase(
                "{series}, {values}.",
                series=chart.series_words(one),
                values=numbered(len(one.points), "1 value", "{count} values"),
            )
            for one in chart.series
        ),
        *(_scattered(chart.scatter) if chart.scatter is not None else ()),
        *(_ended(level.words) for level in chart.levels),
        *(_ended(band.words) for band in chart.noise),
        *(
            phrase("{day}: {words}.", day=one.day.isoformat(), words=one.words)
            for one in chart.moments
        ),
        *chart.remarks,
    )


def _scattered(scatter: Scatter) -> tuple[Phrase, ...]:
    words = numbered(
        len(scatter.points),
        "{name}: 1 point over {across}.",
        "{name}: {count} points over {across}.",
        name=scatter.name,
        across=scatter.across,
    )
    return (words,)


def _ended(words: str) -> str:
    """A text as a sentence."""
    return words if words.endswith(".") else phrase("{words}.", words=words)
