"""Lowering reps that were saved: what the check against isometric peaks asks for.

A rep belongs to the athlete, the task and the sides of its set, as the recording says.
A task is known by its key, or by its name where there is none. Reps that are void, or
that have no peak, are left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import schema, voids
from biofeedback.logbook.maxima_listing import is_of
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task, TaskKind
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.logbook.door import Transaction

LIST_MAX = 5000
"""More lowering reps than anyone does of one task in years."""
GROUP_MAX = 100_000
"""The same for everybody of a club."""
PEAK, LEFT, RIGHT = "lowering_peak_n", "left_at_peak_n", "right_at_peak_n"
"""Names of the peak and its sides among the measures of a rep."""


@dataclass(frozen=True, slots=True)
class LoweringRow:
    """A saved lowering rep.

    Attributes:
        prescription: JSON object, as it stands in the recording.
        started_utc: of its set.
        left_n, right_n: at the moment of the peak; None where one side worked alone.
        measures: all of them.
    """

    id: str
    athlete_id: str
    session_id: str
    set_id: str
    number: int
    prescription: Mapping[str, object]
    started_utc: datetime
    outcome: str
    peak_n: float
    left_n: float | None
    right_n: float | None
    measures: Mapping[str, object]

    @property
    def task(self) -> Task:
        """With the sides that worked, and the partner."""
        return Task.from_json(Fields(self.prescription, "prescription").inner("task"))

    @property
    def asked(self) -> Prescription:
        """What was asked for."""
        return Prescription.from_json(Fields(self.prescription, "prescription"))


class Lowerings:
    """What is kept of lowering reps; got from `Logbook.lowerings`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def __init__(self, read: Transaction) -> None:
        self._read = read

    def reps(
        self,
        athlete_id: str,
        *,
        task: Task | None = None,
        since: datetime | None = None,
        until: datetime | None = None,
    ) -> tuple[LoweringRow, ...]:
        """The athlete's lowering reps, newest first.

        Args:
            task: with the sides that worked; None for all tasks.
            since, until: only of sets that began from then on, or before then.
        """
        wanted = [schema.sessions.c.athlete_id == athlete_id]
        if task is not None:
            wanted += is_of(schema.sets, task, task.sides)
        if since is not None:
            wanted.append(schema.sets.c.started_utc >= since)
        if until is not None:
            wanted.append(schema.sets.c.started_utc < until)
        return self._rows(wanted)

    def tasks(self) -> tuple[Task, ...]:
        """Each lowering task with the sides it was done with, as it was last set."""
        sets = schema.sets
        lowering = sets.c.prescription["task"]["kind"].as_string()
        newest = (
            sa.select(sa.func.max(sets.c.id))
            .where(lowering == TaskKind.LOWERING.value)
            .group_by(sets.c.task_id, sets.c.task, sets.c.sides)
        )
        query = sa.select(sets.c.prescription).where(sets.c.id.in_(newest))
        with self._read() as connection:
            kept = connection.execute(query).scalars().all()
        found: dict[tuple[str, str], Task] = {}
        for each in kept:
            task = Task.from_json(Fields(each, "prescription").inner("task"))
            found[task.key or task.name, task.sides.value] = task
        return tuple(sorted(found.values(), key=lambda task: task.name.casefold()))

    def of_everyone(self, task: Task) -> tuple[LoweringRow, ...]:
        """All reps of a task with its sides, newest first."""
        return self._rows(is_of(schema.sets, task, task.sides), limit=GROUP_MAX)

    def results(self, task: Task, *, athlete_id: str) -> tuple[float, ...]:
        """The highest peak of each visit, oldest first, in newtons."""
        best: dict[str, float] = {}
        for row in reversed(self.reps(athlete_id, task=task)):
            best[row.session_id] = max(best.get(row.session_id, 0.0), row.peak_n)
        return tuple(best.values())

    def _rows(
        self, wanted: list[sa.ColumnElement[bool]], *, limit: int = LIST_MAX
    ) -> tuple[LoweringRow, ...]:
        reps, sets, sessions = schema.reps, schema.sets, schema.sessions
        query = (
            sa.select(
                *(reps.c[name] for name in ("id", "set_id", "number", "outcome")),
                reps.c.measures,
                sets.c.session_id,
                sets.c.started_utc,
                sets.c.prescription,
                sessions.c.athlete_id,
            )
            .join(sets, sets.c.id == reps.c.set_id)
            .join(sessions, sessions.c.id == sets.c.session_id)
            .where(
                sets.c.prescription["task"]["kind"].as_string()
                == TaskKind.LOWERING.value,
                ~voids.is_void(),
                *wanted,
            )
            .order_by(sets.c.started_utc.desc(), sets.c.id.desc(), reps.c.number.desc())
            .limit(limit)
        )
        with self._read() as connection:
            found = connection.execute(query).mappings().all()
        rows = (_row(each) for each in found)
        return tuple(row for row in rows if row is not None)


def _row(found: sa.RowMapping) -> LoweringRow | None:
    values = dict(found)
    measures = values["measures"]
    peak_n, left_n, right_n = (_force(measures, name) for name in (PEAK, LEFT, RIGHT))
    if peak_n is None or peak_n <= 0:
        return None
    return LoweringRow(
        peak_n=peak_n,
        left_n=left_n,
        right_n=right_n,
        **values,
    )


def _force(measures: object, name: str) -> float | None:
    value = measures.get(name) if isinstance(measures, Mapping) else None
    number = isinstance(value, int | float) and not isinstance(value, bool)
    return float(value) if number and value is not None else None
