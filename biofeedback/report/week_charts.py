"""Charts of weeks: what was planned, or else asked for, and done, in four amounts.

A week without a visit has no point: what was done elsewhere is not known.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import phrase
from biofeedback.report.chart import Chart, Mark, Point, Series

if TYPE_CHECKING:
    from biofeedback.phrase import Phrase
    from biofeedback.session.report_facts import ReportFacts

NOT_KNOWN = phrase(
    "Each point is a week, at its Monday. A week without a visit has no point: what "
    "was done elsewhere is not known."
)
UNKNOWN_DOSE = phrase(
    "Weeks with a set without a reference have no dose in % and no point."
)


def weeks_chart(facts: ReportFacts) -> Chart:
    """Time in the band, week by week."""
    title = phrase("Time in the band by week, planned and done")
    if not facts.by_order:
        title = phrase("Time in the band by week, asked for and done")
    return _chart(facts, "inside_s", title, "s")


def adherence_charts(facts: ReportFacts) -> tuple[Chart, ...]:
    """Sets, complete reps, time in the band and dose, week by week."""
    titles = (
        phrase("Sets by week, planned and done"),
        phrase("Complete reps by week, planned and done"),
        phrase("Dose by week, planned and done"),
    )
    if not facts.by_order:
        titles = (
            phrase("Sets by week, asked for and done"),
            phrase("Complete reps by week, asked for and done"),
            phrase("Dose by week, asked for and done"),
        )
    sets, reps, dose = titles
    return (
        _chart(facts, "sets", sets, phrase("sets")),
        _chart(facts, "reps", reps, phrase("reps")),
        weeks_chart(facts),
        _chart(facts, "dose_pct_s", dose, "%·s"),
    )


def _chart(facts: ReportFacts, of: str, title: Phrase, unit: str) -> Chart:
    sums = [
        (week.monday, getattr(week.planned, of), getattr(week.done, of))
        for week in facts.weeks
    ]
    known = [
        (monday, float(planned), float(done))
        for monday, planned, done in sums
        if planned is not None and done is not None
    ]
    remarks = [NOT_KNOWN]
    if len(known) < len(sums):
        remarks.append(UNKNOWN_DOSE)
    return Chart(
        title=title,
        unit=unit,
        series=(
            Series(
                phrase("planned") if facts.by_order else phrase("asked for"),
                Mark.PLAIN,
                tuple(Point(monday, planned) for monday, planned, _ in known),
                join_within_days=7,
            ),
            Series(
                phrase("done"),
                Mark.BOTH,
                tuple(Point(monday, done) for monday, _, done in known),
                join_within_days=7,
            ),
        ),
        low=0.0,
        remarks=tuple(remarks),
    )
