"""Maximal tests of a report: trends with their noise, and symmetry.

Only like is compared with like: one task, the same sides, one definition for all sides
of the task, the position of the newest test, one result a visit. Practice scores are
left out.
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
from biofeedback.session.visit_pairs import paired
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Sides, moved

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from datetime import date, datetime

    from biofeedback.logbook.maxima import Maxima, MaximalTestRow, StatedForceRow
    from biofeedback.session.task_keys import TaskKeys


def side_trends(
    tests: Iterable[MaximalTestRow],
    stated: Sequence[StatedForceRow],
    maxima: Maxima,
    tasks: TaskKeys,
    day_of: Callable[[datetime], date],
) -> tuple[SideTrend, ...]:
    """One trend for each task and its sides, the one with most tests first.

    All sides of a task are told by one definition, the newest by which each of them
    can be. Where there is none such, a side is told by its own newest.

    Args:
        tests: oldest first.
        tasks: tells which tests are of one task.
        day_of: the day of a moment, where the athlete is.
    """
    groups: dict[str, list[MaximalTestRow]] = {}
    for row in tests:
        groups.setdefault(tasks.key(row.task_id, row.task), []).append(row)
    found: list[SideTrend] = []
    size: dict[str, int] = {}
    for key, rows in groups.items():
        before = [
            one
            for one in stated
            if one.origin is Origin.BEFORE_INJURY
            and tasks.key(one.task_id, one.task) == key
        ]
        wanted = _common(rows)
        for sides in dict.fromkeys(row.sides for row in rows):
            own = [row for row in rows if row.sides is sides]
            trend = _trend(own, _definition(own, wanted), maxima, day_of)
            trend = _with_before(trend, [one for one in before if one.sides is sides])
            found.append(replace(trend, key=key, task=tasks.name(key)))
            size[key] = size.get(key, 0) + len(trend.results)
    order = list(Sides)
    return tuple(
        sorted(
            found,
            key=lambda one: (
                -size[one.key], one.task, one.key, order.index(one.sides)
            ),
        )
    )  # fmt: skip


def _common(rows: Sequence[MaximalTestRow]) -> Definition:
    """The newest definition by which all sides can be told; else that of the newest."""
    sides = dict.fromkeys(row.sides for row in rows)
    for wanted in dict.fromkeys(row.definition for row in reversed(rows)):
        if all(_told([r for r in rows if r.sides is one], wanted) for one in sides):
            return wanted
    return rows[-1].definition


def _told(rows: Sequence[MaximalTestRow], wanted: Definition) -> bool:
    """Whether a test that counts can be told by a definition."""
    return any(row.force_by(wanted) is not None for row in rows if not row.practice)


def _definition(rows: Sequence[MaximalTestRow], wanted: Definition) -> Definition:
    """That of the task, where a test of this side can tell it."""
    return wanted if _told(rows, wanted) else rows[-1].definition


def _with_before(trend: SideTrend, stated: Sequence[StatedForceRow]) -> SideTrend:
    """With the force before the injury: only one by the same definition is like it.

    A number that was typed without a definition stands for the one in use.
    """
    like = [
        one for one in stated if one.definition in {trend.definition, Definition.STATED}
    ]
    if not like:
        return replace(trend, before_unlike=bool(stated))
    return replace(
        trend, before_injury_n=like[-1].force_n, before_injury_on=like[-1].date
    )


def _trend(
    rows: Sequence[MaximalTestRow],
    definition: Definition,
    maxima: Maxima,
    day_of: Callable[[datetime], date],
) -> SideTrend:
    newest = rows[-1]
    counting = [row for row in rows if not row.practice]
    like = [
        row
        for row in counting
        if row.force_by(definition) is not None and not moved(row.setup, newest.setup)
    ]
    results = _results(like, definition, day_of)
    practised = _results((row for row in rows if row.practice), definition, day_of)
    forces = [one.force_n for one in results]
    noise = _noise(forces, newest, definition, maxima)
    change = (
        judge(forces[-1], forces[:1] if len(forces) > 1 else [], noise)
        if forces
        else judge(1.0, [], None)
    )
    return SideTrend(
        task=newest.task,
        sides=newest.sides,
        definition=definition,
        results=results,
        noise=noise,
        change=change,
        setup=newest.setup,
        practice=len(rows) - len(counting),
        moved=len(counting) - len(like),
        practised=practised[-1] if practised else None,
    )


def _results(
    rows: Iterable[MaximalTestRow],
    definition: Definition,
    day_of: Callable[[datetime], date],
) -> tuple[Result, ...]:
    """The best of each visit."""
    best: dict[str, Result] = {}
    for row in rows:
        force_n = row.force_by(definition)
        if force_n is None:
            continue
        day = day_of(row.tested_utc)
        visit = row.session_id or day.isoformat()
        shares = (row.left_n, row.right_n) if row.definition is definition else (
            None, None,
        )  # fmt: skip
        made = Result(day, force_n, 1, *shares, visit=visit)
        earlier = best.get(visit)
        if earlier is None:
            best[visit] = made
        else:
            better = made if force_n > earlier.force_n else earlier
            best[visit] = replace(better, tests=earlier.tests + 1)
    return tuple(best.values())


def _noise(
    forces_n: Sequence[float],
    newest: MaximalTestRow,
    definition: Definition,
    maxima: Maxima,
) -> Noise | None:
    """The athlete's own, else the club's."""
    own = own_noise(forces_n)
    if own is not None:
        return own
    club = maxima.club(
        newest.task_id or newest.task,
        newest.sides,
        definition,
        setup=newest.setup,
    )
    return typical_error(list(club.values()), whose=Whose.CLUB)


# Symmetry.


def symmetry_trends(trends: Sequence[SideTrend]) -> tuple[SymmetryTrend, ...]:
    """Of each task: both sides at once, and one side at a time; never mixed."""
    found = []
    for key in dict.fromkeys(one.key for one in trends):
        sides = {one.sides: one for one in trends if one.key == key}
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
    return SymmetryTrend(
        trend.task, SIMULTANEOUS_FORMULA, tuple(points), noise, trend.key
    )


def _one_by_one(left: SideTrend, right: SideTrend) -> SymmetryTrend | None:
    """Tests of both sides of one visit, by the same definition and in one position."""
    points = []
    for one, two in paired(left, right):
        difference = one_side_difference_pct(one.force_n, two.force_n)
        if difference is not None:
            points.append(_point(one.day, difference, one.force_n, two.force_n))
    if not points:
        return None
    noise = None
    if left.noise is not None and right.noise is not None:
        noise = one_side_noise_pct(
            left.noise.typical_error_pct, right.noise.typical_error_pct
        )
    return SymmetryTrend(left.task, ONE_SIDE_FORMULA, tuple(points), noise, left.key)


def _point(day: date, value_pct: float, left: float, right: float) -> SymmetryPoint:
    weaker = None
    if left != right:
        weaker = Sides.LEFT if left < right else Sides.RIGHT
    return SymmetryPoint(day, value_pct, weaker)
