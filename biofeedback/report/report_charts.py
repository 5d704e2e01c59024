"""The charts of a report: tests with their noise, symmetry, pain."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.measures.change import band_around
from biofeedback.measures.symmetry import ONE_SIDE_FORMULA
from biofeedback.phrase import numbered, phrase
from biofeedback.report.chart import (
    Chart,
    Join,
    Level,
    Mark,
    Moment,
    NoiseBand,
    Point,
    Series,
)
from biofeedback.training.reference import PAIN_MOST
from biofeedback.training.task import Sides, moved

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.phrase import Phrase
    from biofeedback.session.report_facts import (
        PainDay,
        ReportFacts,
        SideTrend,
        StageMove,
        SymmetryTrend,
    )

MARKS = {Sides.LEFT: Mark.LEFT, Sides.RIGHT: Mark.RIGHT, Sides.BOTH: Mark.BOTH}
SIDES = {
    Sides.LEFT: phrase("left"),
    Sides.RIGHT: phrase("right"),
    Sides.BOTH: phrase("both sides"),
}


def test_charts(
    trends: Sequence[SideTrend], moves: Sequence[StageMove]
) -> tuple[Chart, ...]:
    """The results of one task: a chart for each definition and position.

    A peak and a best mean are two things, and so are two positions; side beside side
    stands only what is like it.

    Args:
        trends: of this task.
    """
    groups: list[list[SideTrend]] = []
    for one in trends:
        like = (
            group
            for group in groups
            if all(
                other.definition is one.definition and not moved(other.setup, one.setup)
                for other in group
            )
        )
        found = next(like, None)
        if found is None:
            groups.append([one])
        else:
            found.append(one)
    return tuple(test_chart(group, moves) for group in groups)


def test_chart(trends: Sequence[SideTrend], moves: Sequence[StageMove]) -> Chart:
    """The results of one task, sides that are alike.

    Args:
        trends: of this task, of one definition; at least one.
    """
    series, noise, levels, remarks = [], [], [], []
    for one in trends:
        side, mark = SIDES[one.sides], MARKS[one.sides]
        points = [Point(at.day, at.force_n, at.tests) for at in one.results]
        series.append(Series(side, mark, tuple(points)))
        if one.noise is not None and one.results:
            lower, upper = band_around([one.results[0].force_n], one.noise)
            noise.append(
                NoiseBand(
                    lower,
                    upper,
                    noise_words(one),
                    mark,
                    one.results[0].day,
                )
            )
        elif one.results or one.practised is None:
            remarks.append(unknown_words(one))
        if not one.results and one.practised is not None:
            remarks.append(practice_words(one))
        if one.before_injury_n is not None:
            levels.append(Level(one.before_injury_n, before_words(one)))
        elif one.before_unlike:
            remarks.append(
                phrase(
                    "{side}: the force before the injury is of another definition and "
                    "not shown.",
                    side=side,
                )
            )
    return Chart(
        title=phrase(
            "{task}: maximal test, {definition}",
            task=trends[0].task,
            definition=trends[0].definition.value,
        ),
        unit="N",
        series=tuple(series),
        levels=tuple(levels),
        noise=tuple(noise),
        moments=_moments(trends, moves),
        remarks=tuple(remarks),
        nothing=phrase("No test that counts yet."),
    )


def noise_words(trend: SideTrend) -> Phrase:
    """What the band of noise is, and what it was worked out from."""
    noise = trend.noise
    assert noise is not None  # noqa: S101  asked for with a noise only
    return phrase(
        "{side}: of changes that are noise ({whose} typical error {error:.1f} N, "
        "n = {tests} tests), 95 % lie within ± {mdc:.1f} N of the first test",
        side=SIDES[trend.sides],
        mdc=noise.mdc95_n,
        error=noise.typical_error_n,
        whose=noise.whose.value,
        tests=noise.tests,
    )


def unknown_words(trend: SideTrend) -> Phrase:
    """Why the noise cannot be told."""
    return phrase(
        "{side}: cannot tell yet what is noise; it takes three visits with a test that "
        "counts, so far {tests}.",
        side=SIDES[trend.sides],
        tests=len(trend.results),
    )


def practice_words(trend: SideTrend) -> Phrase:
    """What is kept of a side that has practice alone, and when tests count."""
    best = trend.practised
    assert best is not None  # noqa: S101  asked for with practice only
    return numbered(
        trend.practice,
        "{side}: 1 test is kept, {force_n:.1f} N on {day}. It is of the first visit "
        "with this task: practice, left out of charts and noise. A test of a later "
        "visit counts.",
        "{side}: {count} tests are kept, the best {force_n:.1f} N on {day}. They are "
        "of the first visit with this task: practice, left out of charts and noise. A "
        "test of a later visit counts.",
        side=SIDES[trend.sides],
        force_n=best.force_n,
        day=best.day.isoformat(),
    )


def before_words(trend: SideTrend) -> Phrase:
    """The force before the injury."""
    assert trend.before_injury_n is not None  # noqa: S101  asked for with one only
    return phrase(
        "{side}: {force_n:.0f} N before the injury ({day})",
        side=SIDES[trend.sides],
        force_n=trend.before_injury_n,
        day=trend.before_injury_on,
    )


def _moments(
    trends: Sequence[SideTrend], moves: Sequence[StageMove]
) -> tuple[Moment, ...]:
    """Moves between stages while there were tests."""
    days = [at.day for one in trends for at in one.results]
    return tuple(
        Moment(one.day, phrase("stage “{stage}”", stage=one.new))
        for one in moves
        if days and min(days) <= one.day <= max(days)
    )[-4:]


def symmetry_chart(trend: SymmetryTrend) -> Chart:
    """Symmetry over visits; its formula is in the title."""
    noise: tuple[NoiseBand, ...] = ()
    remarks: tuple[Phrase, ...] = ()
    if trend.formula == ONE_SIDE_FORMULA:
        series, lower = _by_weaker_side(trend), 0.0
    else:
        points = tuple(Point(at.day, at.value_pct) for at in trend.points)
        series = (Series(phrase("+ is right heavier"), Mark.BOTH, points),)
        lower = -(trend.noise_pct or 0.0)
    if trend.noise_pct is not None:
        words = phrase(
            "within {noise_pct:.1f} % one visit may be noise alone (95 %)",
            noise_pct=trend.noise_pct,
        )
        noise = (NoiseBand(lower, trend.noise_pct, words),)
    else:
        remarks = (phrase("Cannot tell yet how much of it is noise: too few visits."),)
    return Chart(
        title=phrase("{task}: symmetry", task=trend.task),
        unit="%",
        series=series,
        noise=noise,
        remarks=(_by(trend.formula), *remarks),
        decimals=1,
        low=0.0,
        levels=(Level(0.0, phrase("both sides the same")),)
        if trend.formula != ONE_SIDE_FORMULA
        else (),
    )


def _by(formula: str) -> Phrase:
    """The formula by its name, and what it is of."""
    if formula == ONE_SIDE_FORMULA:
        return phrase("By {formula}, one side at a time.", formula=formula)
    return phrase("By {formula}, both sides at once.", formula=formula)


def _by_weaker_side(trend: SymmetryTrend) -> tuple[Series, ...]:
    """A series for each side that was the weaker one; differences have no sign."""
    named = (
        (phrase("left weaker"), Mark.LEFT, Sides.LEFT),
        (phrase("right weaker"), Mark.RIGHT, Sides.RIGHT),
        (phrase("both sides the same"), Mark.BOTH, None),
    )
    made = [
        Series(
            name,
            mark,
            tuple(
                Point(at.day, at.value_pct)
                for at in trend.points
                if at.weaker is weaker
            ),
            Join.NONE,
        )
        for name, mark, weaker in named
    ]
    return tuple(one for one in made if one.points)


def pain_chart(facts: ReportFacts) -> Chart:
    """Pain as it was told."""

    def points(of: str) -> tuple[Point, ...]:
        return tuple(
            Point(one.day, float(level))
            for one in facts.pain
            if (level := getattr(one, of)) is not None
        )

    named = (
        (phrase("before the visit"), Mark.BEFORE, "before", -0.7),
        (phrase("highest in or after sets"), Mark.AFTER, "most", 0.0),
        (phrase("the morning after"), Mark.PLAIN, "morning", 0.7),
    )
    series = [
        Series(name, mark, points(of), Join.NONE, aside=aside)
        for name, mark, of, aside in named
    ]
    return Chart(
        title=phrase("Pain"),
        unit=phrase("of {most}", most=PAIN_MOST),
        series=tuple(one for one in series if one.points),
        levels=(
            Level(
                float(facts.rule.high),
                phrase(
                    "agreed cut: {cut} of {most}", cut=facts.rule.high, most=PAIN_MOST
                ),
            ),
        ),
        low=0.0,
        high=float(PAIN_MOST),
        remarks=(phrase("A change of one point on one day is not a finding."),)
        if facts.pain
        else (phrase("Pain was not told in this period."),),
    )


def pain_range(days: Sequence[PainDay]) -> tuple[int, int] | None:
    """The least and the most pain that was told."""
    told = [
        level
        for one in days
        for level in (one.before, one.night, one.morning, one.most)
        if level is not None
    ]
    return (min(told), max(told)) if told else None
