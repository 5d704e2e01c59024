"""Lending: the program lets go of the logbook's file for a while, and takes it back.

Whoever erases or looks at the bytes of the file must be the only one who has it open.
On most systems a program that opens and closes such a file beside SQLite takes away all
locks that SQLite holds on it in that program. So, while the file is lent:

* no connection of this program is open, and none is opened by who asks for one;
* who asks is told so at once and may ask again later, as when a disk does not answer;
* what is under way is waited for, and nothing is cut off.
"""

from __future__ import annotations

import contextlib
import threading
from typing import TYPE_CHECKING

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import engine as engines
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator

    import sqlalchemy as sa

WAIT_S = 5.0
"""For what is under way; a transaction of this program takes milliseconds."""


class Lending:
    """Counts who uses a logbook, and keeps all away while it is lent.

    Args:
        place: the file, for people.
    """

    def __init__(self, place: str) -> None:
        self._place = place
        self._changed = threading.Condition()
        self._users = 0
        self._lent = False

    @contextlib.contextmanager
    def transaction(self, engine: sa.Engine) -> Iterator[sa.Connection]:
        """One use: a transaction.

        Raises:
            FileError: the file is lent, or as `engine.transaction`.
        """
        with self._changed:
            if self._lent:
                raise FileError(
                    self._place,
                    phrase("an athlete is being erased from the logbook just now."),
                    next_step=phrase("Try again when that is done."),
                )
            self._users += 1
        try:
            with engines.transaction(engine, self._place) as connection:
                yield connection
        finally:
            with self._changed:
                self._users -= 1
                self._changed.notify_all()

    @contextlib.contextmanager
    def lent(self, engine: sa.Engine) -> Iterator[None]:
        """No connection of this engine is open meanwhile, and none is opened.

        Raises:
            UserError: it is lent already, or somebody does not come to an end.
        """
        with self._changed:
            if self._lent:
                raise _busy()
            self._lent = True  # whoever comes from now on is refused
            if not self._changed.wait_for(lambda: not self._users, WAIT_S):
                self._lent = False
                raise _busy()
        try:
            engine.dispose()  # and makes new ones when it is asked again
            yield
        finally:
            with self._changed:
                self._lent = False


def _busy() -> UserError:
    return UserError(
        phrase("The logbook is in use just now."), phrase("Try again in a moment.")
    )
