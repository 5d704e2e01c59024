"""What was planned and done in a period, visit by visit and in sum.

A week in which nothing was recorded is not in it: it is not known, and no zero.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.session.report_facts import Week
from biofeedback.session.visit_sets import VisitSets, orders_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from datetime import date, datetime

    from biofeedback.logbook.done_reps import DoneRep
    from biofeedback.logbook.rows import SetRow
    from biofeedback.logbook.session_notes import SessionNote
    from biofeedback.session.task_keys import TaskKeys
    from biofeedback.session.visit_facts import TaskLine
    from biofeedback.training.task import Sides


class DoneWork:
    """What was planned and done.

    Args:
        sets: oldest first.
        notes: of the running orders, each with the key of its session.
        tasks: tells which entries are of one task.

    Attributes:
        warm_ups: keys of the sets that were a warm-up of their running order.
        by_order: whether there was a running order at all.
    """

    def __init__(
        self,
        sets: Sequence[SetRow],
        notes: Sequence[tuple[str, SessionNote]],
        reps: Iterable[DoneRep],
        tasks: TaskKeys,
    ) -> None:
        self._tasks = tasks
        self._sets: dict[str, list[SetRow]] = {}
        for row in sets:
            self._sets.setdefault(row.session_id, []).append(row)
        by_visit_notes: dict[str, list[SessionNote]] = {}
        for session_id, note in notes:
            by_visit_notes.setdefault(session_id, []).append(note)
        session_of = {row.id: row.session_id for row in sets}
        by_visit: dict[str, list[DoneRep]] = {}
        for rep in reps:
            if rep.set_id in session_of:
                by_visit.setdefault(session_of[rep.set_id], []).append(rep)
        wanted = {tasks.key(row.task_id, row.task) for row in sets}
        orders = {
            session_id: orders_of(by_visit_notes.get(session_id, ()), session_id)
            for session_id in self._sets
        }
        self.by_order = any(orders.values())
        self.warm_ups = frozenset(
            set_id
            for own in orders.values()
            for order in own
            for set_id in order.warm_ups
        )
        self._lines = {
            session_id: tuple(
                line
                for line in VisitSets(
                    rows, orders[session_id], by_visit.get(session_id, ())
                ).lines
                if self._key(line) in wanted
            )
            for session_id, rows in self._sets.items()
        }

    def _key(self, line: TaskLine) -> str:
        return self._tasks.key(line.task_key, line.task)

    @property
    def lines(self) -> tuple[TaskLine, ...]:
        """Of each task and its sides, over all visits."""
        found: dict[tuple[str, Sides, bool], TaskLine] = {}
        for lines in self._lines.values():
            for line in lines:
                key = (self._key(line), line.sides, line.warm_up)
                earlier = found.get(key)
                found[key] = line if earlier is None else _sum(earlier, line)
        return tuple(
            replace(line, task=self._tasks.name(key)) if line.task_key else line
            for (key, _, _), line in found.items()
        )

    def weeks(self, day_of: Callable[[datetime], date]) -> tuple[Week, ...]:
        """Planned beside done in each week with a visit, without the warm-up."""
        found: dict[date, Week] = {}
        for session_id, lines in self._lines.items():
            day = day_of(self._sets[session_id][0].started_utc)
            monday = day - timedelta(days=day.weekday())
            week = found.get(monday) or Week(monday)
            for line in lines:
                if not line.warm_up:
                    week = Week(
                        monday, week.planned + line.planned, week.done + line.done
                    )
            found[monday] = week
        return tuple(week for _, week in sorted(found.items()))


def _sum(one: TaskLine, other: TaskLine) -> TaskLine:
    return replace(
        one,
        task_key=one.task_key or other.task_key,
        planned=one.planned + other.planned,
        done=one.done + other.done,
        not_complete=one.not_complete + other.not_complete,
        void=one.void + other.void,
        part_sets=one.part_sets + other.part_sets,
        begun_anew=one.begun_anew + other.begun_anew,
        sense=None,  # errors of unseen reps do not add up over visits
    )
