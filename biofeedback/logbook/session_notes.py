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

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime


PAIN = "pain"
"""`level` 0 to 10, and `when`: before, during or after a set."""
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
            set_id: of the set it belongs to, where the logbook knows that one
                already; an unknown one is left out.

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
                set_id = None
            return entries.insert(
                connection,
                schema.notes,
                session_id=session_id,
                set_id=set_id or None,
                kind=kind,
                content=plain(content),
                at_utc=at_utc or now_utc(),
            )

    def list(self, session_id: str, *, kind: str = "") -> tuple[SessionNote, ...]:
        """The notes of a session, oldest first; of one kind where one is named."""
        table = schema.notes
        query = sa.select(table).where(table.c.session_id == session_id)
        if kind:
            query = query.where(table.c.kind == kind)
        query = query.order_by(table.c.at_utc, table.c.id)
        with self._read() as connection:
            return tuple(
                SessionNote(row["kind"], row["content"], row["at_utc"], row["set_id"])
                for row in connection.execute(query).mappings()
            )
