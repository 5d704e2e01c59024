"""What was done in a stage of a plan, gathered from sets, reps, notes and reports.

Rules that hold here:

* A set belongs to a stage by the key of its planned prescription, and by having begun
  while the stage was under way: stages may be put in or taken out before it, and
  another stage may ask for the same.
* Pain of a session is the worst of what was told before, during and after its sets and
  of the nights and mornings told from then to the next session, that one's included.
  Where none of them tells of a morning, the first later report that does is taken.
* Until a morning after it is told, the pain of a session is known in part only.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import schema, session_notes, voids
from biofeedback.training.criteria import SESSIONS_MOST, SessionFacts

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence
    from datetime import datetime
    from typing import Any


@dataclass(frozen=True, slots=True)
class Stay:
    """Once in a stage.

    Attributes:
        until_utc: None while it is under way.
    """

    from_utc: datetime
    until_utc: datetime | None = None

    def holds(self, column: sa.Column[datetime]) -> sa.ColumnElement[bool]:
        """Whether a time lies in it."""
        if self.until_utc is None:
            return column >= self.from_utc
        return sa.and_(column >= self.from_utc, column < self.until_utc)


def last_stay(connection: sa.Connection, plan_id: str, stage_key: str) -> Stay | None:
    """The last time in a stage; None where it has not been under way."""
    table = schema.plan_moves
    query = (
        sa.select(table.c.stage_key, table.c.at_utc)
        .where(table.c.plan_id == plan_id)
        .order_by(table.c.at_utc, table.c.id)
    )
    stay, until = None, None
    for entered, at_utc in reversed(connection.execute(query).all()):
        if entered == stage_key:
            stay = Stay(at_utc, until)
            break
        until = at_utc
    return stay


def sessions(
    connection: sa.Connection, plan_id: str, keys: Collection[str], stay: Stay
) -> tuple[SessionFacts, ...]:
    """The latest sessions in which a set of the stage was done, newest first.

    Args:
        keys: of the planned prescriptions of the stage.
    """
    table, sets = schema.sessions, schema.sets
    of_stage = sa.and_(
        sets.c.plan_id == plan_id,
        sets.c.planned_key.in_(keys),
        stay.holds(sets.c.started_utc),
    )
    query = (
        sa.select(table.c.id, table.c.athlete_id, table.c.started_utc)
        .join(sets, sets.c.session_id == table.c.id)
        .where(of_stage)
        .group_by(table.c.id, table.c.athlete_id, table.c.started_utc)
        .order_by(table.c.started_utc.desc(), table.c.id.desc())
        .limit(SESSIONS_MOST)
    )
    found = connection.execute(query).all()
    if not found:
        return ()
    reps = _reps(connection, of_stage)
    told = _told(connection, [key for key, _, _ in found])
    reports = _reports(connection, found[0].athlete_id, found)
    return tuple(
        SessionFacts(worst, *reps.get(row.id, (0, 0)), morning_known=known)
        for row, (worst, known) in zip(found, _pains(found, told, reports), strict=True)
    )


def said(
    connection: sa.Connection, plan_id: str, stay: Stay
) -> tuple[tuple[str, bool], ...]:
    """The newest word on each criterion since the stage was entered."""
    table = schema.plan_words
    query = (
        sa.select(table.c.criterion, table.c.met)
        .where(table.c.plan_id == plan_id, stay.holds(table.c.at_utc))
        .order_by(table.c.at_utc, table.c.id)
    )
    newest = {name: bool(met) for name, met in connection.execute(query)}
    return tuple(newest.items())


def _reps(
    connection: sa.Connection, of_stage: sa.ColumnElement[bool]
) -> Mapping[str, tuple[int, int]]:
    """Reps done and complete, by session; void ones left out."""
    reps, sets = schema.reps, schema.sets
    complete = sa.func.sum(sa.case((reps.c.outcome == "complete", 1), else_=0))
    query = (
        sa.select(sets.c.session_id, sa.func.count(), complete)
        .join(sets, sets.c.id == reps.c.set_id)
        .where(
            of_stage,
            reps.c.outcome != "void",
            ~voids.is_void(),
        )
        .group_by(sets.c.session_id)
    )
    return {
        key: (int(done), int(whole or 0))
        for key, done, whole in connection.execute(query)
    }


def _told(connection: sa.Connection, keys: list[str]) -> Mapping[str, list[int]]:
    """Pain that was told in each session and not taken back."""
    return {
        key: [mark.level for mark in marks if not mark.taken_back]
        for key, marks in session_notes.pain_in(connection, keys).items()
    }


def _reports(
    connection: sa.Connection, athlete_id: str, found: Sequence[Any]
) -> list[sa.RowMapping]:
    """What the athlete reported in these sessions and since, oldest first."""
    table = schema.day_reports
    query = (
        sa.select(table)
        .where(
            table.c.athlete_id == athlete_id,
            # A report may be told before the session that it opens is entered.
            sa.or_(
                table.c.reported_utc >= found[-1].started_utc,
                table.c.session_id.in_([row.id for row in found]),
            ),
        )
        .order_by(table.c.reported_utc, table.c.id)
    )
    return [*connection.execute(query).mappings()]


def _pains(
    found: Sequence[Any],
    told: Mapping[str, list[int]],
    reports: Sequence[sa.RowMapping],
) -> list[tuple[int | None, bool]]:
    """The worst pain of each session, and whether a morning after it was told."""
    pains = []
    following: Any = None  # the session after, in the stage; they come newest first
    for row in found:
        own = [one for one in reports if one["session_id"] == row.id]
        levels: list[int | None] = [*told.get(row.id, [])]
        levels += [one["pain_now"] for one in own]
        after = _after(row, following, reports)
        for one in after:
            levels += [one["pain_night"], one["pain_morning"]]
        known = any(one["pain_morning"] is not None for one in after)
        worst = max((level for level in levels if level is not None), default=None)
        pains.append((worst, known))
        following = row
    return pains


def _after(
    row: Any, following: Any, reports: Sequence[sa.RowMapping]
) -> list[sa.RowMapping]:
    """The reports that tell of nights and mornings after a session, oldest first."""
    later = [
        one
        for one in reports
        if one["session_id"] != row.id and one["reported_utc"] > row.started_utc
    ]
    if following is None:
        return later
    until = [
        one
        for one in later
        if one["session_id"] == following.id
        or one["reported_utc"] <= following.started_utc
    ]
    if any(one["pain_morning"] is not None for one in until):
        return until
    rest = [one for one in later if one not in until]
    morning = (one for one in rest if one["pain_morning"] is not None)
    return [*until, *[one for one in [next(morning, None)] if one is not None]]
