"""The charts of training over the sessions: asked and held, in the band, steadiness.

Each says what of a change between two visits may be noise, or that it cannot tell yet.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import phrase
from biofeedback.report.chart import Chart, Mark, NoiseBand, Point, Series
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.phrase import Phrase
    from biofeedback.session.training_trends import (
        Kind,
        TrainingPoint,
        TrainingTrend,
    )

SIDE_MARKS = {Sides.LEFT: Mark.LEFT, Sides.RIGHT: Mark.RIGHT, Sides.BOTH: Mark.BOTH}
SIDE_WORDS = {
    Sides.LEFT: phrase("left"),
    Sides.RIGHT: phrase("right"),
    Sides.BOTH: phrase("both sides"),
}
FEEDBACK_WORDS = {
    "full": phrase("force seen"),
    "only outside the band": phrase("force seen only outside the band"),
    "unseen": phrase("force unseen"),
}


def kind_words(kind: Kind) -> Phrase:
    """Task, sides and feedback, as a title."""
    return phrase(
        "{task}, {side}, {feedback}",
        task=kind.task,
        side=SIDE_WORDS[kind.sides],
        feedback=FEEDBACK_WORDS.get(kind.feedback, kind.feedback),
    )


def training_charts(trend: TrainingTrend) -> tuple[Chart, ...]:
    """All charts of one kind of work, most wanted first."""
    return (
        _held(trend),
        _single(
            trend,
            "in_band_pct",
            title=phrase("Time in the band, of the time of the reps"),
            unit="%",
            high=100.0,
        ),
        _single(
            trend,
            "cv_pct",
            title=phrase("Unsteadiness: CV without slow drift, median of the reps"),
            unit="%",
            decimals=1,
        ),
        _dose(trend),
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
    mark = SIDE_MARKS[trend.kind.sides]
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
            phrase("The band was changed within sets {number} times.", number=nudges)
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
    )  # fmt: skip


def _single(
    trend: TrainingTrend,
    of: str,
    *,
    title: Phrase,
    unit: str,
    decimals: int = 0,
    high: float | None = None,
) -> Chart:
    """One number over the visits, with the noise about its first visit."""
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
        top = first + noise.mdc95
        bands = (
            NoiseBand(
                first - noise.mdc95 if of != "in_band_pct" else max(
                    0.0, first - noise.mdc95
                ),
                top if high is None else min(top, high),
                words,
                first_day=points[0].day,
            ),
        )  # fmt: skip
    elif points:
        remarks = (_cannot_tell(trend.points),)
    return Chart(
        title=title,
        unit=unit,
        series=(
            Series(SIDE_WORDS[trend.kind.sides], SIDE_MARKS[trend.kind.sides], points),
        ),
        noise=bands,
        remarks=remarks,
        decimals=decimals,
        high=high,
    )


def _dose(trend: TrainingTrend) -> Chart:
    """Sums of each visit; a day without a visit has no point."""
    return Chart(
        title=phrase("Dose of each visit"),
        unit="%·s",
        series=(
            Series(
                SIDE_WORDS[trend.kind.sides],
                SIDE_MARKS[trend.kind.sides],
                _points(trend, "dose_pct_s"),
            ),
        ),
        remarks=(
            phrase(
                "What was done, not what it did: no noise of it is told. A day "
                "without a visit is no zero, it has no point."
            ),
        ),
        low=0.0,
    )


def _cannot_tell(points: Iterable[TrainingPoint]) -> Phrase:
    return phrase(
        "Cannot tell yet what is noise: it takes five visits with different results, "
        "there are {visits}.",
        visits=len(tuple(points)),
    )


def failure_words(trend: TrainingTrend) -> Phrase:
    """Critical force, or why there is none."""
    found = trend.failure
    if found is None:
        return phrase(
            "Critical force: cannot be told. It takes three holds to failure of 60 s "
            "or more, the longest at least twice the shortest; there are {holds}.",
            holds=trend.holds_to_failure,
        )
    return phrase(
        "Critical force {force_n:.0f} N (standard error {error_n:.0f} N), reserve "
        "above it {reserve_ns:.0f} N·s (± {reserve_error_ns:.0f}), from {holds} holds "
        "that were let go early after 60 s or more, taken as holds to failure. It "
        "promises nothing beyond the longest of them.",
        force_n=found.force_n,
        error_n=found.force_error_n,
        reserve_ns=found.reserve_ns,
        reserve_error_ns=found.reserve_error_ns,
        holds=found.holds,
    )
