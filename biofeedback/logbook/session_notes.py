"""What was told in a session, in a set or between sets: pain, effort, notes, changes.

Append-only. Marks within a set stand in its recording too, which is the truth for
what happened in it; here they can be asked for without opening recordings.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.rows import plain
from biofeedback.phrase import phrase
from biofeedback.training.slips import slips

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping
    from datetime import datetime


PAIN = "pain"
"""`level` 0 to 10, and `when`: before, during or after a set."""
PAIN_BACK = "pain taken back"
"""The last mark of pain of the visit that stood was a slip; `level` is of that mark.

The mark itself stays. `pain_marks` is how pain is read: it knows both.
"""
EFFORT = "effort"
"""`level` 0 to 10 of the set that was just done."""
NOTE = "note"
CHANGE = "change"
"""What was changed within a set, with the old, the new and the reason."""
ORDER = "order"
"""The running order of the visit as it stood then; the newest one counts."""
PAIN_CORRECTED = "pain corrected"
"""Of a maximal test that is over: `rep`, and the `old` and `new` level or null."""
ANSWERS_BACK = "answers taken back"
"""The day's answers that were kept in this visit so far are none any more."""
SUMMARY = "summary"
"""The page at the end of a visit as it was kept; the newest one counts."""


@dataclass(frozen=True, slots=True)
class SessionNote:
    """One thing that was told."""

    kind: str
    content: Mapping[str, object]
    at_utc: datetime
    set_id: str | None


@dataclass(frozen=True, slots=True)
class PainMark:
    """A mark of pain.

    Attributes:
        taken_back: whether it was said later in the visit that it was a slip.
    """

    note: SessionNote
    level: int
    taken_back: bool

    @property
    def set_id(self) -> str:
        """Of the set in or after which it was told; empty where there was none yet."""
        return str(self.note.content.get("set_id") or self.note.set_id or "")


def pain_marks(notes: Iterable[SessionNote]) -> tuple[PainMark, ...]:
    """All marks of pain of one visit, oldest first.

    Args:
        notes: of the visit, oldest first; those of other kinds are passed over.
    """
    marks: list[tuple[SessionNote, int]] = []
    steps: list[bool] = []
    for note in notes:
        level = note.content.get("level")
        if note.kind == PAIN and isinstance(level, int):
            marks.append((note, level))
            steps.append(True)
        elif note.kind == PAIN_BACK:
            steps.append(False)
    return tuple(
        PainMark(note, level, taken_back=back)
        for (note, level), back in zip(marks, slips(steps), strict=True)
    )


def pain_in(
    connection: sa.Connection, session_ids: Collection[str]
) -> dict[str, tuple[PainMark, ...]]:
    """The marks of pain of each of these sessions in which there is one."""
    table = schema.notes
    query = (
        sa.select(table)
        .where(table.c.session_id.in_(session_ids), table.c.kind.in_((PAIN, PAIN_BACK)))
        .order_by(table.c.at_utc, table.c.id)
    )
    notes: dict[str, list[SessionNote]] = {}
    for row in connection.execute(query).mappings():
        notes.setdefault(row["session_id"], []).append(_note(row))
    return {key: pain_marks(own) for key, own in notes.items()}


def taken_back_in(marks: Iterable[PainMark], set_id: str) -> tuple[bool, ...]:
    """Whether each mark that was told during a set was taken back, in order."""
    return tuple(
        mark.taken_back
        for mark in marks
        if mark.set_id == set_id and mark.note.content.get("when") == "during"
    )


class SessionNotes(Door):
    """What was told; got from `Logbook.session_notes`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def add(
        self,
        session_id: str,
        kind: str,
        content: Mapping[str, object],
        *,
        set_id: str | None = None,
        at_utc: datetime | None = None,
    ) -> str:
        """Enters a note and returns its key.

        Args:
            set_id: of the set it belongs to. One that the logbook does not know yet
                stands in the content, and the note is tied to it when it comes in.

        Raises:
            FieldError: there is no such session.
        """
        with self._write() as connection:
            if not entries.known(connection, schema.sessions, session_id):
                raise FieldError(
                    "note",
                    phrase("there is no session {session_id}.", session_id=session_id),
                )
            if set_id and not entries.known(connection, schema.sets, set_id):
                content, set_id = {**content, "set_id": set_id}, None
            return entries.insert(
                connection,
                schema.notes,
                session_id=session_id,
                set_id=set_id or None,
                kind=kind,
                content=plain(content),
                at_utc=at_utc or now_utc(),
            )

    def pain(self, session_id: str) -> tuple[PainMark, ...]:
        """The marks of pain of a session, oldest first."""
        with self._read() as connection:
            return pain_in(connection, (session_id,)).get(session_id, ())

    def list(self, session_id: str, *, kind: str = "") -> tuple[SessionNote, ...]:
        """The notes of a session, oldest first; of one kind where one is named."""
        table = schema.notes
        query = sa.select(table).where(table.c.session_id == session_id)
        if kind:
            query = query.where(table.c.kind == kind)
        query = query.order_by(table.c.at_utc, table.c.id)
        with self._read() as connection:
            return tuple(map(_note, connection.execute(query).mappings()))


def _note(row: sa.RowMapping) -> SessionNote:
    return SessionNote(row["kind"], row["content"], row["at_utc"], row["set_id"])
