"""The questions put to the logbook; each runs in the transaction it is given."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from enum import Enum
from functools import lru_cache
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import schema, session_notes, voids
from biofeedback.logbook.maxima_listing import is_of
from biofeedback.logbook.rows import (
    MEASURE_COLUMNS,
    Athlete,
    RepRow,
    SessionRow,
    SetRow,
)
from biofeedback.phrase import phrase
from biofeedback.training.events import Outcome
from biofeedback.training.prescription import FeedbackMode
from biofeedback.training.showing import Showing
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime

    from biofeedback.training.task import Task

PAGE_MAX = 1000
"""Longest page, so that no slip loads years of reps at once."""

_code = schema.athletes.c.code.label("athlete_code")


def athlete_by_code(connection: sa.Connection, code: str) -> Athlete | None:
    """The athlete with this code, or None."""
    query = sa.select(schema.athletes).where(schema.athletes.c.code == code)
    row = connection.execute(query).mappings().one_or_none()
    return None if row is None else _athlete(row)


def athletes_by_code(connection: sa.Connection) -> list[Athlete]:
    """All athletes, in the order of their codes."""
    query = sa.select(schema.athletes).order_by(schema.athletes.c.code)
    return [_athlete(row) for row in connection.execute(query).mappings()]


def _athlete(row: sa.RowMapping) -> Athlete:
    return Athlete(row["id"], row["code"], row["name"] or "", row["added_utc"])


def sessions_newest_first(
    connection: sa.Connection, limit: int, *, athlete_code: str, session_id: str
) -> list[SessionRow]:
    """The latest sessions; of one athlete, or the one of a key, where it is given."""
    table = schema.sessions
    query = (
        sa.select(table, _code)
        .join(schema.athletes)
        .order_by(table.c.started_utc.desc(), table.c.id.desc())
        .limit(min(limit, PAGE_MAX))
    )
    if athlete_code:
        query = query.where(schema.athletes.c.code == athlete_code)
    if session_id:
        query = query.where(table.c.id == session_id)
    return [SessionRow(**row) for row in connection.execute(query).mappings()]


def sets_oldest_first(
    connection: sa.Connection, wanted: sa.ColumnElement[bool], *, profiles: bool = True
) -> list[SetRow]:
    """The sets that are wanted.

    Args:
        profiles: whether they have the profile of their rig, which is as large as all
            the rest; else it is empty.
    """
    table = schema.sets
    left_out = {"totals"} if profiles else {"totals", "profile"}
    left_out.add("prescription")  # as text, to be read once where it is the same
    query = (
        sa.select(
            *(column for column in table.c if column.name not in left_out),
            sa.cast(table.c.prescription, sa.Text).label("prescription"),
            _code,
        )
        .join(schema.sessions, schema.sessions.c.id == table.c.session_id)
        .join(schema.athletes)
        .where(wanted)
        .order_by(table.c.started_utc, table.c.id)
    )
    rows = connection.execute(query).mappings()
    return [
        SetRow(
            **{"profile": {}, **row, "prescription": _prescription(row["prescription"])}
        )
        for row in rows
    ]


@lru_cache(maxsize=512)
def _prescription(text: str) -> Mapping[str, object]:
    """What a set asked for; over years hundreds of sets ask for the same."""
    found: Mapping[str, object] = json.loads(text)
    return found


def recordings(connection: sa.Connection) -> dict[str, bool]:
    """The file name of each recording, and whether its set is closed."""
    table = schema.sets
    query = sa.select(table.c.recording, table.c.closed_utc.is_not(None))
    return {name: bool(closed) for name, closed in connection.execute(query)}


class RepKind(Enum):
    """What a rep is, for a list of reps."""

    TRAINING = phrase("training")
    TRIAL = phrase("trial of a test")
    LOWERING = phrase("lowering")
    UNSEEN = phrase("unseen")
    VOID = phrase("void")


@dataclass(frozen=True, slots=True)
class RepsWanted:
    """Which reps of the whole logbook; None or empty for all.

    Attributes:
        task: name of the task.
        since_utc, before_utc: start of the set.
        kind: what they are; a void rep is of no other kind but void, and an unseen
            one may be of any.
        but_tests: none of a maximal test.
    """

    task: str = ""
    since_utc: datetime | None = None
    before_utc: datetime | None = None
    kind: RepKind | None = None
    but_tests: bool = False

    def conditions(
        self,
    ) -> tuple[list[sa.ColumnElement[bool]], list[sa.ColumnElement[bool]]]:
        """On the sets, and on the reps of these."""
        reps, sets = schema.reps, schema.sets
        of_sets: list[sa.ColumnElement[bool]] = []
        of_reps: list[sa.ColumnElement[bool]] = []
        if self.task:
            of_sets.append(sets.c.task == self.task)
        if self.since_utc is not None:
            of_sets.append(sets.c.started_utc >= self.since_utc)
        if self.before_utc is not None:
            of_sets.append(sets.c.started_utc < self.before_utc)
        if self.but_tests:
            kind = sets.c.prescription["task"]["kind"].as_string()
            of_sets.append(kind.is_distinct_from(TaskKind.MAXIMAL.value))
        void = sa.or_(voids.is_void(), reps.c.outcome == Outcome.VOID.value)
        if self.kind is RepKind.VOID:
            of_reps.append(void)
        elif self.kind is RepKind.UNSEEN:
            of_reps += [~void, reps.c.feedback == Showing.UNSEEN.value]
        elif self.kind is not None:
            of_reps.append(~void)
            of_sets.append(
                sets.c.prescription["task"]["kind"].as_string()
                == _TASK_KINDS[self.kind].value
            )
        return of_sets, of_reps


_TASK_KINDS = {
    RepKind.TRAINING: TaskKind.HOLD,
    RepKind.TRIAL: TaskKind.MAXIMAL,
    RepKind.LOWERING: TaskKind.LOWERING,
}


def tasks_done(connection: sa.Connection, athlete_code: str | None) -> tuple[str, ...]:
    """Names of the tasks of all sets, or of those of one athlete."""
    sets = schema.sets
    query = sa.select(sets.c.task).distinct().order_by(sets.c.task)
    if athlete_code is not None:
        query = (
            query.join(schema.sessions, schema.sessions.c.id == sets.c.session_id)
            .join(schema.athletes)
            .where(schema.athletes.c.code == athlete_code)
        )
    return tuple(name for name in connection.scalars(query) if name)


def reps_newest_first(
    connection: sa.Connection,
    wanted: Sequence[sa.ColumnElement[bool]],
    limit: int,
    older_than: RepRow | None,
    chosen: RepsWanted | None = None,
) -> list[RepRow]:
    """A page of the reps that are wanted; by start of the set, then number.

    Args:
        wanted: says which sets; it may name athletes, sessions and sets.
        chosen: what else the reps must be.
    """
    reps, sets = schema.reps, schema.sets
    of_sets, of_reps = ([], []) if chosen is None else chosen.conditions()
    # Each set here has a rep, so that so many sets fill the page; of the set that the
    # page before ended in there may be none left. Else a database reads the measures
    # of all reps ever to put them in order.
    latest = (
        sa.select(sets.c.id)
        .join(schema.sessions, schema.sessions.c.id == sets.c.session_id)
        .join(schema.athletes)
        .where(
            *wanted, *of_sets, sa.exists().where(reps.c.set_id == sets.c.id, *of_reps)
        )
        .order_by(sets.c.started_utc.desc(), sets.c.id.desc())
        .limit(min(limit, PAGE_MAX) + 1)
    )
    if older_than is not None:
        upto = (older_than.started_utc, older_than.set_id)
        latest = latest.where(
            sa.tuple_(sets.c.started_utc, sets.c.id) <= sa.tuple_(*upto)
        )
    notes = schema.notes
    most_pain = (
        sa.select(sa.func.max(notes.c.content["level"].as_integer()))
        .where(notes.c.set_id == sets.c.id, notes.c.kind == "pain")
        .scalar_subquery()
    )
    page = (
        sa.select(reps.c.id)
        .join(sets, sets.c.id == reps.c.set_id)
        .where(sets.c.id.in_(latest.subquery().select()), *of_reps)
        .order_by(sets.c.started_utc.desc(), sets.c.id.desc(), reps.c.number.desc())
        .limit(min(limit, PAGE_MAX))
    )
    if older_than is not None:
        place = sa.tuple_(sets.c.started_utc, sets.c.id, reps.c.number)
        last = (older_than.started_utc, older_than.set_id, older_than.number)
        page = page.where(place < sa.tuple_(*last))
    own = ("id", "set_id", "number", "outcome", "feedback", "start_s", "end_s")
    # Only of the reps of the page: what the columns ask for is asked of each row.
    query = (
        sa.select(
            *(reps.c[name] for name in (*own, *MEASURE_COLUMNS, "lapses", "measures")),
            *(sets.c[name] for name in ("session_id", "task", "recording")),
            sets.c.started_utc,
            _code,
            voids.reason().label("void_reason"),
            sets.c.prescription["task"]["kind"].as_string().label("kind"),
            sets.c.sides,
            most_pain.label("pain"),
        )
        .join(sets, sets.c.id == reps.c.set_id)
        .join(schema.sessions, schema.sessions.c.id == sets.c.session_id)
        .join(schema.athletes)
        .where(reps.c.id.in_(page.subquery().select()))
        .order_by(sets.c.started_utc.desc(), sets.c.id.desc(), reps.c.number.desc())
    )
    found = [RepRow(**row) for row in connection.execute(query).mappings()]
    return _without_taken_back(connection, found)


def _without_taken_back(connection: sa.Connection, found: list[RepRow]) -> list[RepRow]:
    """The pain of reps anew where a mark of their visit was taken back: rarely."""
    notes = schema.notes
    told = {row.session_id for row in found if row.pain is not None}
    if not told:
        return found
    visits = set(
        connection.scalars(
            sa.select(notes.c.session_id).where(
                notes.c.session_id.in_(told), notes.c.kind == session_notes.PAIN_BACK
            )
        )
    )
    if not visits:
        return found
    most: dict[str | None, int] = {}
    for marks in session_notes.pain_in(connection, visits).values():
        for mark in marks:
            if not mark.taken_back:
                key = mark.note.set_id
                most[key] = max(mark.level, most.get(key, 0))
    return [
        replace(row, pain=most.get(row.set_id)) if row.session_id in visits else row
        for row in found
    ]


FADING_SETS_MAX = 200
"""Long before so many sets fading has come to its end."""


def fading_sessions(
    connection: sa.Connection, athlete_code: str, task: Task, but_session: str
) -> int:
    """In how many sessions of a task the feedback was fading so far."""
    sets, sessions = schema.sets, schema.sessions
    query = (
        sa.select(sets.c.session_id, sets.c.prescription)
        .join(sessions, sessions.c.id == sets.c.session_id)
        .join(schema.athletes)
        .where(schema.athletes.c.code == athlete_code, *is_of(sets, task, None))
        .order_by(sets.c.started_utc.desc())
        .limit(FADING_SETS_MAX)
    )
    return len(
        {
            session_id
            for session_id, asked in connection.execute(query)
            if asked.get("feedback") == FeedbackMode.FADING.value
            and session_id != but_session
        }
    )
