"""Tests of both sides that belong together, where one side at a time was tested."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from biofeedback.training.task import moved

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.session.report_facts import Result, SideTrend


def paired(own: SideTrend, other: SideTrend) -> Iterator[tuple[Result, Result]]:
    """Results of one visit, of one definition and one position.

    Two visits of one day are kept apart. Where a side was tested in a visit of its own,
    the two go together only if the day has no other result that is left over.
    """
    if own.definition is not other.definition or moved(own.setup, other.setup):
        return
    by_visit = {one.visit: one for one in other.results}
    same = {one.visit for one in own.results} & by_visit.keys()
    left = Counter(one.day for one in own.results if one.visit not in same)
    right = Counter(one.day for one in other.results if one.visit not in same)
    by_day = {one.day: one for one in other.results if one.visit not in same}
    for one in own.results:
        if one.visit in same:
            yield one, by_visit[one.visit]
        elif left[one.day] == right[one.day] == 1:
            yield one, by_day[one.day]
