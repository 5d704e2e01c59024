"""The charts of training over the sessions: asked and held, in the band, steadiness.

Each says what of a change between two visits may be noise, or that it cannot tell yet.
"""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING
from biofeedback.phrase import joined, phrase
from biofeedback.report.chart import (
    SHARES_SPAN_PCT,
    Chart,
    Mark,
    NoiseBand,
    Point,
    Series,
)
from biofeedback.report.report_charts import MARKS, SIDES
from biofeedback.session.training_trends import (
    FAILURE_LEAST_S,
    FAILURE_WITHIN_DAYS,
    OPEN_ENDED_LEAST_S,
)

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from biofeedback.phrase import Phrase
    from biofeedback.session.training_trends import (
        Kind,
        TrainingPoint,
        TrainingTrend,
    )
    from biofeedback.training.task import Setup

FEEDBACK_WORDS = {
    "full": phrase("force seen"),
    "only outside the band": phrase("force seen only outside the band"),
    "unseen": phrase("force unseen"),
}


def kind_words(kind: Kind, among: Iterable[Kind] = ()) -> Phrase:
    """Task, sides and feedback, as a title.

    Args:
        among: all that are titled; what tells `kind` apart from them is told too.
    """
    words = phrase(
        "{task}, {side}, {feedback}",
        task=kind.task,
        side=SIDES[kind.sides],
        feedback=FEEDBACK_WORDS.get(kind.feedback, kind.feedback),
    )
    among = tuple(among)
    alike = [
        one
        for one in among
        if (one.key, one.sides, one.feedback) == (kind.key, kind.sides, kind.feedback)
    ]
    parts: list[str] = [words]
    if any(one.task == kind.task and one.key != kind.key for one in among):
        parts.append(phrase("task {key}", key=kind.key[-4:]))
    if any(one.setup != kind.setup for one in alike):
        parts += position_words(kind.setup)
    if any(one.definition is not kind.definition for one in alike):
        parts.append(of_what(kind))
    if kind.whose is not None:
        parts.append(whose_words(kind))
    elif kind.origin and any(one.origin is not kind.origin for one in alike):
        parts.append(phrase("100 %: {origin}", origin=kind.origin.value))
    return joined(", ", parts)


def whose_words(kind: Kind) -> Phrase:
    """A foreign 100 %: by whose the shares are."""
    whose = kind.whose
    if whose is None:
        return NOTHING
    if whose.somebody_else:
        return phrase("by the 100 % of another athlete")
    if not whose.key:
        return phrase("by the 100 % of another task")
    if whose.key == kind.key and whose.sides is not None:
        return phrase("by the 100 % of another side: {side}", side=SIDES[whose.sides])
    if whose.sides is None:
        return phrase("by the 100 % of “{task}”", task=whose.task)
    return phrase(
        "by the 100 % of “{task}”, {side}", task=whose.task, side=SIDES[whose.sides]
    )


def position_words(setup: Setup | None) -> tuple[str, ...]:
    """What was written down of a position."""
    if setup is None:
        return (phrase("position not written down"),)
    angle, arm_m = setup.angle_deg, setup.lever_arm_m
    told = (
        setup.joint.value,
        setup.movement,
        "" if angle is None else phrase("{angle:g}°", angle=angle),
        setup.posture,
        setup.site,
        "" if arm_m is None else phrase("lever arm {arm_m:g} m", arm_m=arm_m),
    )
    return tuple(one for one in told if one)


def of_what(kind: Kind) -> Phrase:
    """Which number is the 100 %."""
    if kind.definition is None:
        return phrase("without a reference")
    return phrase("of the {definition}", definition=kind.definition.value)


def training_charts(trend: TrainingTrend) -> tuple[Chart, ...]:
    """All charts of one kind of work, most wanted first."""
    return (
        _held(trend),
        _in_band(trend),
        _single(
            trend,
            "cv_pct",
            title=phrase("Unsteadiness: CV without slow drift, median of the reps"),
            unit="%",
            decimals=1,
        ),
        _dose(trend, "dose_pct_s", "%·s"),
        _dose(trend, "dose_ns", "N·s"),
        _single(
            trend,
            "fall_pct",
            title=phrase("Last rep of a set below its first, % of the reference"),
            unit="%",
            decimals=1,
        ),
        _single(
            trend,
            "slope_pct_s",
            title=phrase("Slope within the holds, % of the reference a second"),
            unit="%/s",
            decimals=2,
        ),
    )


WIDTHS_ALIKE_PCT = 0.5
"""Bands that differ by less, in points of the reference, are taken as one width."""


def _in_band(trend: TrainingTrend) -> Chart:
    """Time in the band, with what its width says against a comparison."""
    chart = _single(
        trend,
        "in_band_pct",
        title=phrase("Time in the band, of the time of the reps"),
        unit="%",
        bounds=(0.0, 100.0),
        span=SHARES_SPAN_PCT,
    )
    widths = [one.width_pct for one in trend.points if one.width_pct is not None]
    if not widths or max(widths) - min(widths) < WIDTHS_ALIKE_PCT:
        return chart
    words = phrase(
        "The band was {least:.1f} to {most:.1f} points of the reference wide: a wider "
        "one is easier to stay in.",
        least=min(widths),
        most=max(widths),
    )
    return replace(chart, remarks=(*chart.remarks, words))


def _points(trend: TrainingTrend, of: str) -> tuple[Point, ...]:
    return tuple(
        Point(one.day, value, one.reps, _remark(one))
        for one in trend.points
        if (value := getattr(one, of)) is not None
    )


def _remark(point: TrainingPoint) -> str:
    if not point.nudges:
        return ""
    return phrase("band changed {number} ×", number=point.nudges)


def _held(trend: TrainingTrend) -> Chart:
    mark = MARKS[trend.kind.sides]
    noise = trend.noise.get("held_pct")
    nudges = sum(one.nudges for one in trend.points)
    remarks = [
        _cannot_tell(trend.points)
        if noise is None
        else phrase(
            "Held minus asked: between two visits less than {mdc:.1f} points may be "
            "noise (n = {visits} visits).",
            mdc=noise.mdc95,
            visits=noise.visits,
        )
    ]
    if nudges:
        remarks.append(
            phrase("Changes of the band within sets: {number}.", number=nudges)
        )
    return Chart(
        title=phrase("Asked and held, % of the reference of the day"),
        unit="%",
        series=(
            Series(phrase("asked, centre of the band"), Mark.PLAIN,
                   _points(trend, "asked_pct")),
            Series(phrase("held, mean"), mark, _points(trend, "held_pct")),
        ),
        remarks=tuple(remarks),
        decimals=1,
        span=SHARES_SPAN_PCT,
    )  # fmt: skip


def _single(
    trend: TrainingTrend,
    of: str,
    *,
    title: Phrase,
    unit: str,
    decimals: int = 0,
    bounds: tuple[float, float] = (-math.inf, math.inf),
    span: float = 0.0,
) -> Chart:
    """One number over the visits, with the noise about its first visit.

    Args:
        bounds: no value lies beyond them, so the noise ends there.
        span: the least length of the scale.
    """
    points = _points(trend, of)
    noise = trend.noise.get(of)
    bands: tuple[NoiseBand, ...] = ()
    remarks: tuple[str, ...] = ()
    if points and noise is not None:
        first = points[0].value
        words = phrase(
            "95 % of changes from the first visit within ± {mdc:.2g} {unit} are noise "
            "(n = {visits} visits)",
            mdc=noise.mdc95,
            unit=unit,
            visits=noise.visits,
        )
        bands = (
            NoiseBand(
                max(bounds[0], first - noise.mdc95),
                min(bounds[1], first + noise.mdc95),
                words,
                first_day=points[0].day,
            ),
        )
    elif points:
        remarks = (_cannot_tell(trend.points),)
    return Chart(
        title=title,
        unit=unit,
        series=(Series(SIDES[trend.kind.sides], MARKS[trend.kind.sides], points),),
        noise=bands,
        remarks=remarks,
        decimals=decimals,
        high=bounds[1] if math.isfinite(bounds[1]) else None,
        span=span,
    )


def _dose(trend: TrainingTrend, of: str, unit: str) -> Chart:
    """Sums of each week; one without a visit has no point, and no sum is half known."""
    weeks: dict[date, list[float | None]] = {}
    for one in trend.points:
        monday = one.day - timedelta(days=one.day.weekday())
        weeks.setdefault(monday, []).append(getattr(one, of))
    points = []
    for monday, doses in sorted(weeks.items()):
        known = [dose for dose in doses if dose is not None]
        if len(known) == len(doses):
            points.append(Point(monday, sum(known), len(doses)))
    sides = trend.kind.sides
    return Chart(
        title=phrase("Dose of each week"),
        unit=unit,
        series=(
            Series(SIDES[sides], MARKS[sides], tuple(points),
                   join_within_days=7),
        ),
        remarks=(
            phrase(
                "What was done, not what it did: no noise of it is told. A week "
                "without a visit is no zero, it has no point."
            ),
        ),
        low=0.0,
    )  # fmt: skip


def _cannot_tell(points: Iterable[TrainingPoint]) -> Phrase:
    return phrase(
        "Cannot tell yet what is noise: it takes five visits with different results, "
        "there are {visits}.",
        visits=len(tuple(points)),
    )


def failure_words(trend: TrainingTrend) -> Phrase:
    """Critical force and the holds it is from, or why there is none."""
    found = trend.failure
    if found is None:
        return phrase(
            "Critical force: cannot be told. It takes three open-ended holds (asked "
            "for {open_s:.0f} s or more) within {days} days, let go after "
            "{least_s:.0f} s or more, the longest at least twice the shortest; there "
            "are {holds}.",
            open_s=OPEN_ENDED_LEAST_S,
            days=FAILURE_WITHIN_DAYS,
            least_s=FAILURE_LEAST_S,
            holds=len(trend.failed),
        )
    return phrase(
        "Critical force {force_n:.0f} N (standard error {error_n:.0f} N), reserve "
        "above it {reserve_ns:.0f} N·s (± {reserve_error_ns:.0f}), from {holds} "
        "open-ended holds that were let go, taken as holds to failure: {used}. It "
        "promises nothing beyond the longest of them.",
        force_n=found.force_n,
        error_n=found.force_error_n,
        reserve_ns=found.reserve_ns,
        reserve_error_ns=found.reserve_error_ns,
        holds=found.holds,
        used=joined(
            ", ",
            [
                phrase(
                    "{day} {time_s:.0f} s", day=one.day.isoformat(), time_s=one.time_s
                )
                for one in trend.failed
            ],
        ),
    )
