"""Pain of a period, day by day, as it was told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.session.report_facts import PainDay

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from datetime import date, datetime

    from biofeedback.logbook.history import PainTold
    from biofeedback.logbook.session_notes import PainMark


def pain_days(
    told: Iterable[PainTold],
    marks: Iterable[PainMark],
    in_tests: Iterable[tuple[date, int | None]],
    day_of: Callable[[datetime], date],
) -> tuple[PainDay, ...]:
    """The latest report of each day, and the highest level in its sets.

    Args:
        told: before visits.
        marks: in visits; those that were taken back are left out.
        in_tests: the highest of each maximal test, which is no note.
        day_of: the day of a moment, where the athlete is.
    """
    before = {day_of(one.reported_utc): one for one in told}
    most: dict[date, int] = {}
    first: dict[date, int] = {}
    for mark in marks:
        if mark.taken_back:
            continue
        day = day_of(mark.note.at_utc)
        if mark.note.content.get("when") == "before":
            first.setdefault(day, mark.level)
        else:
            most[day] = max(mark.level, most.get(day, 0))
    for day, felt in in_tests:
        if felt is not None:
            most[day] = max(felt, most.get(day, 0))
    found = []
    for day in sorted(before.keys() | most.keys() | first.keys()):
        report = before.get(day)
        found.append(
            PainDay(
                day,
                report.now if report else first.get(day),
                report.night if report else None,
                report.morning if report else None,
                most.get(day),
            )
        )
    return tuple(found)
