"""The audit: who did what with whose data, and when.

Rules that hold here:

* Rows are only ever added. One thing alone changes them: erasing an athlete empties
  the code, and the place where that code stands in it.
* It holds codes and never a name of an athlete. The practitioner's name is there only
  where somebody has set it.
* It tells honest people what happened. Who owns the file can change it: it is no proof
  against them.
"""

from __future__ import annotations

import getpass
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import entries, schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.settings import NAME_MAX

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

USER_MAX = 100
PLACE_MAX = 1000
_PRACTITIONER = "practitioner of "
"""Begins the name of the setting; the system user follows."""


class Action(Enum):
    """What was done."""

    OPENED = "opened"
    EXPORTED = "exported"
    REPORTED = "reported"
    BACKED_UP = "backed up"
    RESTORED = "restored"
    REBUILT = "rebuilt"
    ERASED = "erased"
    SEALED = "sealed"
    UNSEALED = "unsealed"


@dataclass(frozen=True, slots=True)
class AuditRow:
    """One thing that was done.

    Attributes:
        action: as `Action` has it; rows of older programs may hold other words.
        code: of the athlete; empty where it is about nobody in particular, or where
            that athlete was erased.
        count: how many sets, files or rows it was about.
        by_user: of the system; empty in rows of older programs.
        practitioner: the name that was set for that user, or empty.
        place: where a file or folder went, or empty.
    """

    at_utc: datetime
    action: str
    code: str
    count: int
    by_user: str
    practitioner: str
    place: str


class Audit(Door):
    """What was done; got from `Logbook.audit`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def add(
        self,
        action: Action,
        *,
        code: str = "",
        count: int = 1,
        place: Path | str = "",
    ) -> None:
        """Adds a row, with the system user and the practitioner's name."""
        with self._write() as connection:
            row(connection, action, code=code, count=count, place=place)

    def list(
        self, *, code: str = "", actions: tuple[Action, ...] = (), limit: int = 1000
    ) -> tuple[AuditRow, ...]:
        """What was done, newest first.

        Args:
            code: only what was about this athlete, whatever its capitals.
            actions: only these; empty for all.
        """
        table = schema.audit
        query = sa.select(table).order_by(table.c.at_utc.desc(), table.c.id.desc())
        if code:
            query = query.where(sa.func.lower(table.c.code) == code.lower())
        if actions:
            query = query.where(table.c.action.in_([one.value for one in actions]))
        with self._read() as connection:
            return tuple(map(_row, connection.execute(query.limit(limit)).mappings()))

    def practitioner(self) -> str:
        """The name set for the user of this system, or empty."""
        with self._read() as connection:
            return _practitioner(connection, system_user())

    def set_practitioner(self, name: str) -> None:
        """The name to stand beside the system user from now on; empty for none."""
        key = _setting(system_user())
        table = schema.settings
        values = {"content": name.strip()[:USER_MAX], "changed_utc": _now()}
        with self._write() as connection:
            change = sa.update(table).where(table.c.key == key).values(**values)
            if not connection.execute(change).rowcount:
                connection.execute(sa.insert(table).values(key=key, **values))


def row(
    connection: sa.Connection,
    action: Action,
    *,
    code: str = "",
    count: int = 1,
    place: Path | str = "",
) -> None:
    """Adds a row within a transaction that is under way."""
    user = system_user()
    entries.insert(
        connection,
        schema.audit,
        action=action.value,
        count=count,
        at_utc=_now(),
        code=code or None,
        by_user=user,
        practitioner=_practitioner(connection, user) or None,
        place=str(place)[:PLACE_MAX] or None,
    )


def system_user() -> str:
    """The name under which this user is known to the system; empty if it has none."""
    try:
        return getpass.getuser()[:USER_MAX]
    except (KeyError, OSError, ImportError):  # a user without an entry
        return ""


def _setting(user: str) -> str:
    return f"{_PRACTITIONER}{user}"[:NAME_MAX]


def _practitioner(connection: sa.Connection, user: str) -> str:
    table = schema.settings
    key = _setting(user)
    found = connection.scalar(sa.select(table.c.content).where(table.c.key == key))
    return found if isinstance(found, str) else ""


def _row(found: sa.RowMapping) -> AuditRow:
    return AuditRow(
        at_utc=found["at_utc"],
        action=found["action"],
        code=found["code"] or "",
        count=found["count"],
        by_user=found["by_user"] or "",
        practitioner=found["practitioner"] or "",
        place=found["place"] or "",
    )


def _now() -> datetime:
    return now_utc()
