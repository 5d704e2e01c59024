"""What is written into the logbook; each runs in the transaction it is given.

An entry that is there already is left as it is.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import listing, rows, schema
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.moments import now_utc
from biofeedback.phrase import phrase
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from datetime import datetime

NOBODY = "guest"
"""The code under which sets stand that were recorded for no athlete in particular."""


def insert(connection: sa.Connection, table: sa.Table, **values: Any) -> str:
    """Adds a row and returns its key; makes one where none is given."""
    key = str(values.pop("id", "") or new_key())
    connection.execute(sa.insert(table).values(id=key, **values))
    return key


def known(connection: sa.Connection, table: sa.Table, key: str) -> bool:
    """Whether the table has a row with this key."""
    query = sa.select(table.c.id).where(table.c.id == key)
    return connection.scalar(query) is not None


def session(
    connection: sa.Connection, athlete_id: str, session_id: str, started_utc: datetime
) -> str:
    """Enters a session, under the key given or a new one."""
    if session_id and known(connection, schema.sessions, session_id):
        return session_id
    if not known(connection, schema.athletes, athlete_id):
        raise FieldError(
            "session.athlete_id",
            phrase("there is no athlete {athlete_id}.", athlete_id=athlete_id),
        )
    return insert(
        connection,
        schema.sessions,
        id=session_id,
        athlete_id=athlete_id,
        started_utc=started_utc,
    )


def new_set(connection: sa.Connection, new: rows.NewSet) -> str:
    """Enters a set, under the key given or a new one."""
    if new.set_id and known(connection, schema.sets, new.set_id):
        return new.set_id
    if not known(connection, schema.sessions, new.session_id):
        raise FieldError(
            "set.session_id",
            phrase("there is no session {session_id}.", session_id=new.session_id),
        )
    task = Fields(_inner(new.prescription, "task"))
    plan = Fields(new.plan, "plan")
    planned = plan.has("id")
    # A warm-up is of the plan, and is none of what is asked for in it.
    asked = planned and plan.values.get("warm_up") is not True
    set_id = insert(
        connection,
        schema.sets,
        id=new.set_id,
        session_id=new.session_id,
        task=task.text("name") if task.has("name") else "",
        task_id=(task.text("key") if task.has("key") else "") or None,
        sides=task.text("sides") if task.has("sides") else None,
        plan_id=plan.text("id", longest=schema.KEY_LENGTH) if planned else None,
        stage=plan.whole("stage", least=0, most=1000) if planned else None,
        planned_key=plan.text("key", longest=schema.KEY_LENGTH) if asked else None,
        prescription=rows.plain(new.prescription),
        profile=rows.plain(new.profile),
        recording=new.recording,
        started_utc=new.started_utc,
        recovered=False,
    )
    _tie_notes(connection, new.session_id, set_id)
    return set_id


def _tie_notes(connection: sa.Connection, session_id: str, set_id: str) -> None:
    """A slow disk holds up the row of a set; what was told meanwhile is of it."""
    notes = schema.notes
    untied = sa.select(notes.c.id, notes.c.content).where(
        notes.c.session_id == session_id, notes.c.set_id.is_(None)
    )
    of_it = [
        key
        for key, content in connection.execute(untied)
        if content.get("set_id") == set_id
    ]
    if of_it:
        tie = sa.update(notes).where(notes.c.id.in_(of_it))
        connection.execute(tie.values(set_id=set_id))


def recording(
    connection: sa.Connection, header: Mapping[str, object], file_name: str
) -> str:
    """Enters the set of a recording, with its session and athlete if need be."""
    fields = Fields(header, "header")
    set_id = fields.text("set_id", longest=schema.KEY_LENGTH)
    started_utc = rows.read_time(fields, "started_utc")
    session_id = code = ""
    if fields.has("session_id"):
        session_id = fields.text("session_id", longest=schema.KEY_LENGTH)
    if fields.has("athlete_code"):
        code = fields.text("athlete_code")
    if not session_id or not known(connection, schema.sessions, session_id):
        athlete_id = _athlete(connection, rows.check_code(code or NOBODY))
        session_id = session(connection, athlete_id, session_id, started_utc)
    return new_set(
        connection,
        rows.NewSet(
            session_id=session_id,
            prescription=_inner(header, "prescription"),
            profile=_inner(header, "profile"),
            recording=file_name,
            started_utc=started_utc,
            set_id=set_id,
            plan=_inner(header, "plan"),
        ),
    )


def _athlete(connection: sa.Connection, code: str) -> str:
    there = listing.athlete_by_code(connection, code)
    if there is not None:
        return there.id
    return insert(connection, schema.athletes, code=code, added_utc=now_utc())


def _inner(header: Mapping[str, object], key: str) -> Mapping[str, object]:
    value = header.get(key)
    return value if isinstance(value, Mapping) else {}


def rep(
    connection: sa.Connection,
    set_id: str,
    content: Mapping[str, object],
    *,
    put_right: bool = False,
) -> str:
    """Enters a rep of a set that is known; puts right one that is there, if asked."""
    sets, reps = schema.sets, schema.reps
    prescription = connection.scalar(
        sa.select(sets.c.prescription).where(sets.c.id == set_id)
    )
    if prescription is None:
        raise FieldError(
            "rep.set_id", phrase("there is no set {set_id}.", set_id=set_id)
        )
    feedback = str(prescription.get("feedback", ""))
    values = rows.rep_values(content, feedback=feedback)
    there = connection.scalar(
        sa.select(reps.c.id).where(
            reps.c.set_id == set_id, reps.c.number == values["number"]
        )
    )
    if there is not None:
        if put_right:
            change = sa.update(reps).where(reps.c.id == there)
            connection.execute(change.values(**values))
        return str(there)
    return insert(connection, reps, set_id=set_id, stored_utc=now_utc(), **values)
