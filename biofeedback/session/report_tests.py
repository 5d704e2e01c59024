"""Maximal tests of a report: trends with their noise, and symmetry.

Only like is compared with like: one task, the same sides, the definition and the
position of the newest test, one result a visit. Practice scores are left out.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.measures.change import Noise, Whose, judge, typical_error
from biofeedback.measures.symmetry import (
    ONE_SIDE_FORMULA,
    SIMULTANEOUS_FORMULA,
    index_noise_pct,
    one_side_difference_pct,
    one_side_noise_pct,
    simultaneous_index_pct,
)
from biofeedback.measures.visit_noise import own_noise
from biofeedback.session.report_facts import (
    Result,
    SideTrend,
    SymmetryPoint,
    SymmetryTrend,
)
from biofeedback.training.reference import Origin
from biofeedback.training.task import Sides, moved

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date, tzinfo

    from biofeedback.logbook.maxima import Maxima, MaximalTestRow, StatedForceRow


def side_trends(
    tests: Iterable[MaximalTestRow],
    stated: Sequence[StatedForceRow],
    maxima: Maxima,
    zone: tzinfo | None,
) -> tuple[SideTrend, ...]:
    """One trend for each task and its sides, the one with most tests first.

    Args:
        tests: oldest first.
        zone: of the place where days are told.
    """
    groups: dict[tuple[str, Sides], list[MaximalTestRow]] = {}
    for row in tests:
        groups.setdefault((row.task_id or row.task, row.sides), []).append(row)
    found = [_trend(rows, stated, maxima, zone) for rows in groups.values()]
    size: dict[str, int] = {}
    for one in found:
        size[one.task] = size.get(one.task, 0) + len(one.results)
    order = list(Sides)
    return tuple(
        sorted(
            found, key=lambda one: (-size[one.task], one.task, order.index(one.sides))
        )
    )


def _trend(
    rows: Sequence[MaximalTestRow],
    stated: Sequence[StatedForceRow],
    maxima: Maxima,
    zone: tzinfo | None,
) -> SideTrend:
    newest = rows[-1]
    counting = [row for row in rows if not row.practice]
    like = [
        row
        for row in counting
        if row.force_by(newest.definition) is not None
        and not moved(row.setup, newest.setup)
    ]
    results = _results(like, newest, zone)
    forces = [one.force_n for one in results]
    noise = _noise(forces, newest, maxima)
    before = [
        one
        for one in stated
        if one.origin is Origin.BEFORE_INJURY
        and (one.task, one.sides) == (newest.task, newest.sides)
    ]
    change = (
        judge(forces[-1], forces[:1] if len(forces) > 1 else [], noise)
        if (forces)
        else judge(1.0, [], None)
    )
    return SideTrend(
        task=newest.task,
        sides=newest.sides,
        definition=newest.definition,
        results=results,
        noise=noise,
        change=change,
        before_injury_n=before[-1].force_n if before else None,
        before_injury_on=before[-1].date if before else "",
        practice=len(rows) - len(counting),
        moved=len(counting) - len(like),
    )


def _results(
    rows: Iterable[MaximalTestRow], newest: MaximalTestRow, zone: tzinfo | None
) -> tuple[Result, ...]:
    """The best of each visit."""
    best: dict[str, Result] = {}
    for row in rows:
        force_n = row.force_by(newest.definition)
        if force_n is None:
            continue
        day = row.tested_utc.astimezone(zone).date()
        visit = row.session_id or day.isoformat()
        shares = (row.left_n, row.right_n) if row.definition is newest.definition else (
            None, None,
        )  # fmt: skip
        made = Result(day, force_n, 1, *shares)
        earlier = best.get(visit)
        if earlier is None:
            best[visit] = made
        else:
            better = made if force_n > earlier.force_n else earlier
            best[visit] = replace(better, tests=earlier.tests + 1)
    return tuple(best.values())


def _noise(
    forces_n: Sequence[float], newest: MaximalTestRow, maxima: Maxima
) -> Noise | None:
    """The athlete's own, else the club's."""
    own = own_noise(forces_n)
    if own is not None:
        return own
    club = maxima.club(
        newest.task_id or newest.task,
        newest.sides,
        newest.definition,
        setup=newest.setup,
    )
    return typical_error(list(club.values()), whose=Whose.CLUB)


# Symmetry.


def symmetry_trends(trends: Sequence[SideTrend]) -> tuple[SymmetryTrend, ...]:
    """Of each task: both sides at once, and one side at a time; never mixed."""
    found = []
    for task in dict.fromkeys(one.task for one in trends):
        sides = {one.sides: one for one in trends if one.task == task}
        if Sides.BOTH in sides and (at_once := _at_once(sides[Sides.BOTH])):
            found.append(at_once)
        if {Sides.LEFT, Sides.RIGHT} <= sides.keys():
            one_by_one = _one_by_one(sides[Sides.LEFT], sides[Sides.RIGHT])
            if one_by_one:
                found.append(one_by_one)
    return tuple(found)


def _at_once(trend: SideTrend) -> SymmetryTrend | None:
    points = []
    for one in trend.results:
        if one.left_n is None or one.right_n is None:
            continue
        index = simultaneous_index_pct(one.left_n, one.right_n)
        if index is not None:
            points.append(_point(one.day, index, one.left_n, one.right_n))
    if not points:
        return None
    noise = index_noise_pct([point.value_pct for point in points])
    return SymmetryTrend(trend.task, SIMULTANEOUS_FORMULA, tuple(points), noise)


def _one_by_one(left: SideTrend, right: SideTrend) -> SymmetryTrend | None:
    """Tests of both sides on one day, by the same definition."""
    if left.definition is not right.definition:
        return None
    other = {one.day: one.force_n for one in right.results}
    points = []
    for one in left.results:
        right_n = other.get(one.day)
        if right_n is None:
            continue
        difference = one_side_difference_pct(one.force_n, right_n)
        if difference is not None:
            points.append(_point(one.day, difference, one.force_n, right_n))
    if not points:
        return None
    noise = None
    if left.noise is not None and right.noise is not None:
        noise = one_side_noise_pct(
            left.noise.typical_error_pct, right.noise.typical_error_pct
        )
    return SymmetryTrend(left.task, ONE_SIDE_FORMULA, tuple(points), noise)


def _point(day: date, value_pct: float, left: float, right: float) -> SymmetryPoint:
    weaker = None
    if left != right:
        weaker = Sides.LEFT if left < right else Sides.RIGHT
    return SymmetryPoint(day, value_pct, weaker)
