"""The club's maximal tests side by side: everybody's visits of one kind of test.

Only like stands side by side, by the same rules as in `maxima`: one task, the same
sides, one definition, the position of the newest test, the best of each visit.
Practice scores and voided tests are left out, and counted.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.maxima_listing import (
    SameSetup,
    force_by,
    is_of,
    newest_tests,
)
from biofeedback.training.reference import Definition
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from datetime import datetime

KINDS_MAX = 200
"""More kinds of tests than any club has."""


@dataclass(frozen=True, slots=True)
class TestKind:
    """One kind of test that was done by more than one person.

    Attributes:
        task: with the sides that worked.
        people: who were tested so.
    """

    __test__ = False  # no test of the program, whatever pytest thinks of the name

    task: Task
    definition: Definition
    people: int


@dataclass(slots=True)
class ClubTests:
    """Results of one kind of test.

    Attributes:
        visits: by the athlete's code, oldest visit first: when, and its
            best in newtons.
        practice: tests left out, because they were the first ever of somebody.
        voided: tests left out, because they do not count.
        moved: tests left out, because they were done in another position.
        unlike: tests left out, because they have no result by this definition.
    """

    visits: dict[str, tuple[tuple[datetime, float], ...]] = field(default_factory=dict)
    practice: int = 0
    voided: int = 0
    moved: int = 0
    unlike: int = 0


class ClubTestDoor(Door):
    """What is asked of the tests of all; got from `Logbook.club_tests`."""

    def kinds(self) -> tuple[TestKind, ...]:
        """Kinds of tests of two people or more, the one of most people first."""
        table = schema.maximal_tests
        key = sa.func.coalesce(table.c.task_id, table.c.task)
        people = sa.func.count(sa.distinct(table.c.athlete_id))
        query = (
            sa.select(
                sa.func.max(table.c.task_id),
                sa.func.max(table.c.task),
                table.c.sides,
                table.c.definition,
                people,
            )
            .where(table.c.voided_utc.is_(None), table.c.practice.is_(False))
            .group_by(key, table.c.sides, table.c.definition)
            .having(people > 1)
            .order_by(people.desc(), sa.func.max(table.c.task), table.c.sides)
            .limit(KINDS_MAX)
        )
        with self._read() as connection:
            found = connection.execute(query).all()
        return tuple(
            TestKind(
                Task(name, sides=Sides(sides), key=task_id or ""),
                Definition(definition),
                count,
            )
            for task_id, name, sides, definition, count in found
        )

    def of(self, kind: TestKind) -> ClubTests:
        """Everybody's results of one kind of test."""
        table, people = schema.maximal_tests, schema.athletes
        wanted = is_of(table, kind.task, kind.task.sides)
        query = (
            sa.select(
                people.c.code,
                table.c.session_id,
                table.c.tested_utc,
                force_by(kind.definition),
                table.c.practice,
                table.c.voided_utc,
                table.c.setup,
            )
            .join(people, people.c.id == table.c.athlete_id)
            .where(*wanted)
            .order_by(people.c.code, table.c.tested_utc, table.c.id)
        )
        counting = [
            *wanted,
            table.c.voided_utc.is_(None),
            table.c.practice.is_(False),
        ]
        with self._read() as connection:
            newest = newest_tests(connection, counting, limit=1)
            rows = connection.execute(query).all()
        same = SameSetup(newest[0].setup if newest else None)
        found = ClubTests()
        best: dict[str, dict[str, tuple[datetime, float]]] = {}
        for code, session_id, tested_utc, force_n, practice, voided, setup in rows:
            if voided is not None:
                found.voided += 1
            elif practice:
                found.practice += 1
            elif not same.as_in(setup):
                found.moved += 1
            elif force_n is None:
                found.unlike += 1
            else:
                visits = best.setdefault(code, {})
                visit = session_id or tested_utc.astimezone().date().isoformat()
                at, before_n = visits.get(visit, (tested_utc, 0.0))
                visits[visit] = (at, max(before_n, force_n))
        found.visits = {code: tuple(each.values()) for code, each in best.items()}
        return found
