"""What all doors of the logbook have in common: its transactions, and nothing else.

A door asks for a transaction as often as it needs one and knows nothing of files,
servers or retries; see `biofeedback.logbook.database.Logbook`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager
    from typing import TypeAlias

    import sqlalchemy as sa

    Transaction: TypeAlias = Callable[[], AbstractContextManager[sa.Connection]]


class Door:
    """One part of what is kept; got from a property of `Logbook`.

    Args:
        read, write: begin a transaction, to be used in a `with`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def __init__(self, read: Transaction, write: Transaction) -> None:
        self._read = read
        self._write = write
