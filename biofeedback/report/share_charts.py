"""Charts of shares: of the other side, and of the force before the injury.

Each tells which shares may be noise and by which formula, or that it cannot tell yet.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.measures.share import (
    SHARE_NOISE_FORMULA,
    share_alone_limits_pct,
    share_change_limits_pct,
)
from biofeedback.phrase import phrase
from biofeedback.report.chart import (
    SHARES_SPAN_PCT,
    Chart,
    Level,
    NoiseBand,
    Point,
    Series,
)
from biofeedback.report.report_charts import MARKS, SIDES

if TYPE_CHECKING:
    from biofeedback.phrase import Phrase
    from biofeedback.session.report_facts import ShareTrend


def share_chart(trend: ShareTrend) -> Chart:
    """A share over the visits, with the noise about its first visit.

    Args:
        trend: with at least one point.
    """
    mark = MARKS[trend.sides]
    points = tuple(Point(at.day, at.value_pct) for at in trend.points)
    noise: tuple[NoiseBand, ...] = ()
    remarks: tuple[Phrase, ...] = (_cannot_tell(trend),)
    if trend.sd is not None:
        lower, upper = share_change_limits_pct(points[0].value, trend.sd)
        words = _noise_words(trend, lower, upper)
        noise = (NoiseBand(lower, upper, words, mark, points[0].day),)
        low, high = share_alone_limits_pct(trend.sd)
        remarks = (
            phrase(
                "One visit between {low:.0f} and {high:.0f} % need not differ from "
                "100 %.",
                low=low,
                high=high,
            ),
        )
    return Chart(
        title=_title(trend),
        unit="%",
        series=(Series(SIDES[trend.sides], mark, points),),
        levels=(Level(100.0, _whole(trend)),),
        noise=noise,
        remarks=remarks,
        decimals=0,
        span=SHARES_SPAN_PCT,
    )


def share_words(trend: ShareTrend) -> Phrase:
    """First and newest share in a line, with the noise, for where there is no chart."""
    first, newest = trend.points[0], trend.points[-1]
    if trend.sd is None:
        noise = _cannot_tell(trend)
    else:
        lower, upper = share_change_limits_pct(first.value_pct, trend.sd)
        noise = phrase(
            "Since then {lower:.0f} to {upper:.0f} % may be noise.",
            lower=lower,
            upper=upper,
        )
    return phrase(
        "{title}: {first:.0f} % on {begun}, {newest:.0f} % on {day}. {noise}",
        title=_title(trend),
        first=first.value_pct,
        begun=first.day.isoformat(),
        newest=newest.value_pct,
        day=newest.day.isoformat(),
        noise=noise,
    )


def _title(trend: ShareTrend) -> Phrase:
    if trend.of_before:
        return phrase(
            "{task}: {side} in % of before the injury, {definition}",
            task=trend.task,
            side=SIDES[trend.sides],
            definition=trend.definition.value,
        )
    return phrase(
        "{task}: {side} in % of {other}, {definition}",
        task=trend.task,
        side=SIDES[trend.sides],
        other=SIDES[trend.sides.other],
        definition=trend.definition.value,
    )


def _whole(trend: ShareTrend) -> Phrase:
    if trend.of_before:
        return phrase("as before the injury ({day})", day=trend.before_on)
    return phrase("as the other side of that visit")


def _noise_words(trend: ShareTrend, lower: float, upper: float) -> Phrase:
    if trend.of_before:
        return phrase(
            "of changes that are noise, 95 % lie between {lower:.0f} and {upper:.0f} % "
            "(1.96 √2 e, by logarithms; typical error e {own:.1f} %)",
            lower=lower,
            upper=upper,
            own=trend.errors_pct[0],
        )
    return phrase(
        "of changes that are noise, 95 % lie between {lower:.0f} and {upper:.0f} % "
        "({formula}, by logarithms; typical errors {own:.1f} and {other:.1f} %)",
        lower=lower,
        upper=upper,
        formula=SHARE_NOISE_FORMULA,
        own=trend.errors_pct[0],
        other=trend.errors_pct[1],
    )


def _cannot_tell(trend: ShareTrend) -> Phrase:
    if trend.of_before:
        return phrase(
            "Cannot tell yet what is noise: it takes three visits with a test of this "
            "side."
        )
    return phrase(
        "Cannot tell yet what is noise: it takes three visits with a test of each side."
    )
