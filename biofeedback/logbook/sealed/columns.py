"""Columns that hold what is told of a person: sealed where the logbook is.

Whoever asks the logbook gets plain values and need not know. Rules that hold here:

* In a sealed logbook nothing goes into such a column in the clear, from anywhere: it
  is the column's type that seals.
* A logbook that was opened without its key gives none of these, and takes none.
* A value that is damaged is told as such in its place and in the log; one damaged name
  does not keep the others from being read.
"""

from __future__ import annotations

import json
import logging
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

import sqlalchemy as sa

from biofeedback.errors import FileError
from biofeedback.logbook.sealed import keyring, library, texts
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from sqlalchemy.engine import Dialect
    from sqlalchemy.sql.type_api import TypeEngine

    from biofeedback.logbook.sealed.master_key import MasterKey

DAMAGED = "(sealed text, damaged)"
SEALED = "sealed"
"""Under this name stands in a JSON value what is sealed of it."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Lock:
    """How one open logbook stands.

    Attributes:
        path: of the logbook.
        key: seals what is written; None for a logbook that is not sealed.
        shut: it was opened without its key.
    """

    path: Path
    key: MasterKey | None
    shut: bool = False

    def sealed(self, column: str, text: str) -> str:
        """What is to be written.

        Raises:
            FileError: the logbook is shut.
        """
        if self.shut:
            raise self._shut()
        return text if self.key is None else texts.sealed(self.key, column, text)

    def opened(self, column: str, found: texts.SealedText) -> str:
        """What was read.

        Raises:
            FileError: the logbook is shut, or the key is not here.
        """
        if self.shut:
            raise self._shut()
        key = keyring.key_for(found.key_id, self.path)
        try:
            return found.opened(key, column)
        except library.NotAuthenticError:
            _log.warning("a sealed value of %s is damaged", column)
            return DAMAGED

    def _shut(self) -> FileError:
        return FileError(
            self.path, phrase("names and notes are sealed and were not opened.")
        )


# A type is told of no engine but by its dialect, which is that engine's alone.
_locks: WeakKeyDictionary[Dialect, Lock] = WeakKeyDictionary()


def put_lock(dialect: Dialect, lock: Lock) -> None:
    """Says how the logbook of this dialect stands, before anything is read."""
    _locks[dialect] = lock


class SealedText(sa.TypeDecorator[str]):
    """A text; sealed where the logbook is."""

    impl = sa.String
    cache_ok = True

    def __init__(self, column: str, length: int) -> None:
        super().__init__(length)
        self.column = column
        self.length = length

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        """Seals it."""
        lock = _locks.get(dialect)
        return (
            value if value is None or lock is None else lock.sealed(self.column, value)
        )

    def process_result_value(self, value: str | None, dialect: Dialect) -> str | None:
        """Opens it."""
        return _opened(value, self.column, dialect)


class SealedWhole(sa.TypeDecorator[int]):
    """A whole number; sealed where the logbook is, which SQLite keeps as text."""

    impl = sa.Integer
    cache_ok = True

    def __init__(self, column: str) -> None:
        super().__init__()
        self.column = column

    def process_bind_param(self, value: int | None, dialect: Dialect) -> Any:
        """Seals it."""
        lock = _locks.get(dialect)
        if value is None or lock is None or (lock.key is None and not lock.shut):
            return value
        return lock.sealed(self.column, str(value))

    def process_result_value(self, value: Any, dialect: Dialect) -> int | None:
        """Opens it; a damaged one is none."""
        found = texts.read(value)
        if found is None:
            return value if isinstance(value, int) else None
        told = _opened(value, self.column, dialect) or ""
        return int(told) if told.isdecimal() else None


class SealedJson(sa.TypeDecorator[Any]):
    """A JSON value; sealed where the logbook is, but for what SQL has to see.

    Args:
        column: table and column, with a point between.
        seen: names in the outermost object that stay readable.
    """

    impl = sa.JSON
    cache_ok = True

    def __init__(self, column: str, *seen: str) -> None:
        super().__init__()
        self.column = column
        self.seen = seen

    def coerce_compared_value(self, op: Any, value: Any) -> TypeEngine[Any]:
        """What stands within it is compared as JSON is."""
        return self.impl_instance.coerce_compared_value(op, value)

    def process_bind_param(self, value: Any, dialect: Dialect) -> Any:
        """Seals it."""
        lock = _locks.get(dialect)
        if value is None or lock is None or (lock.key is None and not lock.shut):
            return value
        return sealed_json(value, self.column, self.seen, lock)

    def process_result_value(self, value: Any, dialect: Dialect) -> Any:
        """Opens it."""
        text = sealed_part(value)
        if texts.read(text) is None:
            return value
        told = _opened(text, self.column, dialect)
        if told is None or told == DAMAGED:
            return {name: value[name] for name in value if name != SEALED}
        return json.loads(told)


def sealed_json(
    value: Any, column: str, seen: tuple[str, ...], lock: Lock
) -> Mapping[str, Any]:
    """What is written of a JSON value."""
    shown = {}
    if isinstance(value, dict):
        shown = {name: value[name] for name in seen if name in value}
    text = json.dumps(value, ensure_ascii=False, allow_nan=False)
    return {**shown, SEALED: lock.sealed(column, text)}


def sealed_part(value: Any) -> Any:
    """What stands for the sealed part of a JSON value; None where nothing does."""
    return value.get(SEALED) if isinstance(value, dict) else None


def _opened(value: str | None, column: str, dialect: Dialect) -> str | None:
    found = texts.read(value)
    lock = _locks.get(dialect)
    if found is None or lock is None:
        return value
    return lock.opened(column, found)


def told(cell: str, column: str, path: Path) -> str:
    """The plain text of what stands in a row of a logbook, sealed or not.

    For who reads rows by hand, as they stand in the file at `path`; of a sealed JSON
    value, its text.

    Raises:
        FileError: it is sealed, and the key is not here.
        UserError: it is sealed, and nobody can be asked for the passphrase.
    """
    found = texts.read(cell)
    if found is None and cell.startswith("{") and texts.PREFIX in cell:
        try:
            found = texts.read(sealed_part(json.loads(cell)))
        except (ValueError, RecursionError):
            return cell
    return cell if found is None else Lock(path, None).opened(column, found)
