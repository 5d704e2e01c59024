"""Settings that belong to a logbook and not to a computer, such as the pain rule.

A setting is any JSON value under a name. Writing it again puts the new value in the
place of the old one; whoever must know which value was in force keeps it beside what
was decided by it.
"""

from __future__ import annotations

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.rows import plain
from biofeedback.phrase import phrase

NAME_MAX = 100


class Settings(Door):
    """What is set; got from `Logbook.settings`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def get(self, name: str) -> object:
        """The value; None where nothing was ever set under this name."""
        table = schema.settings
        query = sa.select(table.c.content).where(table.c.key == name)
        with self._read() as connection:
            found: object = connection.scalar(query)
        return found

    def put(self, name: str, content: object) -> None:
        """Sets a value.

        Args:
            content: JSON; None is read back as if nothing had been set.

        Raises:
            FieldError: the name is empty or too long.
        """
        if not 1 <= len(name) <= NAME_MAX:
            raise FieldError(
                "setting",
                phrase(
                    "needs a name of 1 to {name_max} characters.", name_max=NAME_MAX
                ),
            )
        table = schema.settings
        values = {"content": plain(content), "changed_utc": now_utc()}
        change = sa.update(table).where(table.c.key == name).values(**values)
        with self._write() as connection:
            if not connection.execute(change).rowcount:
                connection.execute(sa.insert(table).values(key=name, **values))
