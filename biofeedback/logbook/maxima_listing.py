"""The questions put to the tables of maximal tests.

Each runs in the transaction it is given.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import schema
from biofeedback.logbook.maxima_rows import MaximalTestRow, test_of
from biofeedback.training.task import Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from biofeedback.training.reference import Definition
    from biofeedback.training.task import Setup, Sides

LIST_MAX = 1000
"""More tests than anyone has; no slip loads more at once."""
SET_ID = "set_id"
"""Names, in the content of a test, the set in which it was done."""


def of_task(task: Task) -> dict[str, object]:
    """The columns that say which task, and which sides."""
    return {
        "task_id": task.key or None,
        "task": task.name,
        "sides": task.sides.value,
    }


def is_of(
    table: sa.Table, task: Task | str, sides: Sides | None
) -> list[sa.ColumnElement[bool]]:
    """Of the task, by its key; by its name where either has no key."""
    wanted: list[sa.ColumnElement[bool]] = []
    if isinstance(task, str):
        wanted.append(sa.or_(table.c.task_id == task, table.c.task == task))
    elif task.key:
        nameless = sa.and_(table.c.task_id.is_(None), table.c.task == task.name)
        wanted.append(sa.or_(table.c.task_id == task.key, nameless))
    else:
        wanted.append(table.c.task == task.name)
    if sides is not None:
        wanted.append(table.c.sides == sides.value)
    return wanted


def newest_tests(
    connection: sa.Connection,
    wanted: list[sa.ColumnElement[bool]],
    *,
    limit: int = LIST_MAX,
) -> tuple[MaximalTestRow, ...]:
    """The tests that are wanted."""
    table = schema.maximal_tests
    query = (
        sa.select(table)
        .where(*wanted)
        .order_by(table.c.tested_utc.desc(), table.c.id.desc())
        .limit(limit)
    )
    return tuple(test_of(row) for row in connection.execute(query).mappings())


def by_visit(
    tests: Sequence[MaximalTestRow], definition: Definition, setup: Setup | None
) -> tuple[float, ...]:
    """The best of each visit, oldest visit first."""
    best: dict[str, float] = {}
    for row in reversed(tests):  # they come newest first
        force_n = row.force_by(definition)
        moved = None not in {setup, row.setup} and setup != row.setup
        if force_n is None or moved:
            continue
        visit = row.session_id or row.tested_utc.date().isoformat()
        best[visit] = max(best.get(visit, 0.0), force_n)
    return tuple(best.values())


def sets_without_test(
    connection: sa.Connection, athlete_id: str, since: datetime
) -> tuple[str, ...]:
    """Keys of the athlete's sets with maximal trials of which no test was kept."""
    sets, sessions, tests = schema.sets, schema.sessions, schema.maximal_tests
    query = (
        sa.select(sets.c.id)
        .join(sessions, sessions.c.id == sets.c.session_id)
        .where(
            sessions.c.athlete_id == athlete_id,
            sets.c.prescription["task"]["kind"].as_string() == TaskKind.MAXIMAL.value,
            sets.c.closed_utc.is_not(None),
            sets.c.started_utc >= since,
            sets.c.id.in_(sa.select(schema.reps.c.set_id)),
        )
        .order_by(sets.c.started_utc.desc(), sets.c.id.desc())
        .limit(LIST_MAX)
    )
    kept = sa.select(tests.c.content[SET_ID].as_string()).where(
        tests.c.athlete_id == athlete_id
    )
    known = set(connection.scalars(kept))
    return tuple(key for key in connection.scalars(query) if key not in known)
