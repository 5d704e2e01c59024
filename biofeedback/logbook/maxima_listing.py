"""The questions put to the tables of maximal tests.

Each runs in the transaction it is given.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import schema
from biofeedback.logbook.maxima_rows import MaximalTestRow, test_of
from biofeedback.training.reference import Definition
from biofeedback.training.task import Setup, Task, TaskKind
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.training.task import Sides

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


def comparable_by_athlete(
    connection: sa.Connection,
    wanted: list[sa.ColumnElement[bool]],
    definition: Definition,
    setup: Setup | None,
) -> dict[str, tuple[float, ...]]:
    """The best of each visit, oldest visit first, by the key of the athlete.

    It reads no more than it needs: of a large club these are thousands of tests, and
    somebody waits at the desk.
    """
    table = schema.maximal_tests
    own = (table.c.athlete_id, table.c.session_id, table.c.tested_utc)
    force_n = force_by(definition)
    query = (
        sa.select(*own, force_n, *(() if setup is None else (table.c.setup,)))
        .where(*wanted, force_n.is_not(None))
        .order_by(table.c.tested_utc, table.c.id)
    )
    same = SameSetup(setup)
    best: dict[str, dict[str, float]] = {}
    for athlete_id, session_id, tested_utc, n, *position in connection.execute(query):
        if position and not same.as_in(position[0]):
            continue
        visits = best.setdefault(athlete_id, {})
        visit = session_id or tested_utc.astimezone().date().isoformat()
        visits[visit] = max(visits.get(visit, 0.0), n)
    return {athlete: tuple(visits.values()) for athlete, visits in best.items()}


_FORCES = {
    Definition.PEAK: "peak_n",
    Definition.BEST_HALF_S_MEAN: "half_s_n",
    Definition.BEST_1_S_MEAN: "one_s_n",
}
"""Columns of what a test gives by a definition that is not its own."""


def force_by(definition: Definition) -> sa.Case[float]:
    """What a test gives by a definition, as a column; null where it gives none."""
    table = schema.maximal_tests
    by_definition = _FORCES.get(definition)
    other = sa.null() if by_definition is None else table.c[by_definition]
    return sa.case(
        (table.c.definition == definition.value, table.c.force_n), else_=other
    )


class SameSetup:
    """Whether a test was done in this position; each position is read once.

    Where it is not known which position is meant, each is.
    """

    def __init__(self, setup: Setup | None) -> None:
        self._setup = setup
        self._known: dict[str, bool] = {}

    def as_in(self, content: object) -> bool:
        """A position that was not written down may be the same."""
        if self._setup is None or not isinstance(content, Mapping):
            return True
        key = repr(content)
        if key not in self._known:
            found = Setup.from_json(Fields(content, "setup"))
            self._known[key] = found == self._setup
        return self._known[key]


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
