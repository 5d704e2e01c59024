"""What was done in a stage of a plan, gathered from sets, reps, notes and reports.

Pain of a session is the worst of what was told before, during and after its sets and,
in the next report, of the night and the morning after it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import schema
from biofeedback.logbook.session_notes import PAIN
from biofeedback.training.criteria import SESSIONS_MOST, SessionFacts

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime


def sessions(
    connection: sa.Connection, plan_id: str, stage: int
) -> tuple[SessionFacts, ...]:
    """The latest sessions in which a set of the stage was done, newest first."""
    table, sets = schema.sessions, schema.sets
    query = (
        sa.select(table.c.id, table.c.athlete_id, table.c.started_utc)
        .join(sets, sets.c.session_id == table.c.id)
        .where(sets.c.plan_id == plan_id, sets.c.stage == stage)
        .group_by(table.c.id, table.c.athlete_id, table.c.started_utc)
        .order_by(table.c.started_utc.desc(), table.c.id.desc())
        .limit(SESSIONS_MOST)
    )
    found = connection.execute(query).all()
    if not found:
        return ()
    reps = _reps(connection, plan_id, stage)
    told = _told(connection, [key for key, _, _ in found])
    reports = _reports(connection, found[0].athlete_id)
    return tuple(
        SessionFacts(
            _worst(told.get(key, []), reports, key, started_utc),
            *reps.get(key, (0, 0)),
        )
        for key, _, started_utc in found
    )


def _reps(
    connection: sa.Connection, plan_id: str, stage: int
) -> Mapping[str, tuple[int, int]]:
    """Reps done and complete, by session; void ones left out."""
    reps, sets, voids = schema.reps, schema.sets, schema.voids
    complete = sa.func.sum(sa.case((reps.c.outcome == "complete", 1), else_=0))
    query = (
        sa.select(sets.c.session_id, sa.func.count(), complete)
        .join(sets, sets.c.id == reps.c.set_id)
        .where(
            sets.c.plan_id == plan_id,
            sets.c.stage == stage,
            ~sa.exists().where(voids.c.rep_id == reps.c.id),
        )
        .group_by(sets.c.session_id)
    )
    return {
        key: (int(done), int(whole or 0))
        for key, done, whole in connection.execute(query)
    }


def _told(connection: sa.Connection, keys: list[str]) -> Mapping[str, list[int]]:
    """Pain that was told in each session."""
    notes = schema.notes
    query = sa.select(notes.c.session_id, notes.c.content).where(
        notes.c.session_id.in_(keys), notes.c.kind == PAIN
    )
    told: dict[str, list[int]] = {}
    for key, content in connection.execute(query):
        level = content.get("level") if isinstance(content, dict) else None
        if isinstance(level, int):
            told.setdefault(key, []).append(level)
    return told


def _reports(connection: sa.Connection, athlete_id: str) -> list[sa.RowMapping]:
    """What the athlete reported on each day, oldest first."""
    table = schema.day_reports
    query = (
        sa.select(table)
        .where(table.c.athlete_id == athlete_id)
        .order_by(table.c.reported_utc, table.c.id)
    )
    return [*connection.execute(query).mappings()]


def _worst(
    told: list[int], reports: list[sa.RowMapping], key: str, started_utc: datetime
) -> int | None:
    """The worst pain of a session and of the night and morning after it."""
    levels: list[int | None] = [*told]
    levels += [row["pain_now"] for row in reports if row["session_id"] == key]
    after = [
        row
        for row in reports
        if row["session_id"] != key and row["reported_utc"] > started_utc
    ]
    for row in after[:1]:
        levels += [row[name] for name in ("pain_night", "pain_morning")]
    return max((level for level in levels if level is not None), default=None)
