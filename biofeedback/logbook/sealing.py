"""Sealing what is kept, and opening it again: the whole place, once and for good.

Rules that hold here:

* It may be cut off anywhere and done again: what was done stays, the rest follows.
  Each recording is written beside, read back, compared, and only then takes the name.
* All values of the logbook in one transaction; then the file is written anew, so that
  nothing of what stood there is left in free pages or beside it.
* The key file comes first when sealing, and stays when it is opened again: nothing is
  ever sealed without its key on disk.
* What the program knows to be left in the clear is told; and when it is opened again,
  what is damaged stays sealed and is told, for it may be mended from a backup.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from biofeedback.errors import BiofeedbackError, FileError
from biofeedback.logbook import away, claims, folders, schema
from biofeedback.logbook import engine as engines
from biofeedback.logbook.audit import Action
from biofeedback.logbook.audit import row as audit_row
from biofeedback.logbook.clear_copies import clear_copies
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erased_rows import clear
from biofeedback.logbook.sealed import (
    columns,
    container,
    lock,
    reading,
    texts,
)
from biofeedback.logbook.sealed.columns import Lock
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from biofeedback.logbook.kept_place import KeptPlace
    from biofeedback.logbook.sealed.key_file import KeyFile
    from biofeedback.logbook.sealed.master_key import MasterKey

PIECE_BYTES = 2048
"""Of a plain recording in one chunk: 2 s of a small board, and 2 % more to keep."""
IN_THE_MAKING = ".seal-"
"""Begins the name of a recording that is not whole yet."""


@dataclass(frozen=True, slots=True)
class Sealed:
    """What was done.

    Attributes:
        values: of the logbook, sealed or opened.
        recordings: sealed or opened now; `before` were so already.
        in_use: recordings that a program was writing, left as they are.
        problems: recordings and values that could not be opened, or recordings that
            could not be brought home from another folder, in words; left as they are.
        clear: folders with copies that stand in the clear, as far as they are known.
    """

    values: int
    recordings: int
    before: int
    in_use: int
    problems: tuple[str, ...] = ()
    clear: tuple[Path, ...] = ()


def seal(
    place: KeptPlace,
    found: KeyFile,
    key: MasterKey,
    *,
    progress: Callable[[int, int], None] = lambda _done, _total: None,
) -> Sealed:
    """Seals what is kept, and whatever comes from now on.

    Args:
        found: the key file; written here.
        key: the key in it.
        progress: is told (recordings done, recordings in all) after each.

    Raises:
        UserError: a program is running.
        FileError: the key is not that of the logbook, or something cannot be read or
            written. It may be done again.
    """
    place.refuse_while_in_use()
    lock.refuse_another_key(place.logbook, found)
    if not found.path.exists() or not found.sealing:
        replace(found, sealing=True).write()
    Logbook.open(place.logbook).close()  # brings an older one up to date
    values, _ = _change_values(place.logbook, key, sealing=True)
    clear(place.logbook)
    done = _change_recordings(place, key, progress)
    return replace(done, values=values, clear=tuple(clear_copies(place)))


def unseal(
    place: KeptPlace,
    found: KeyFile,
    key: MasterKey,
    *,
    progress: Callable[[int, int], None] = lambda _done, _total: None,
) -> Sealed:
    """Opens what is kept, and seals nothing from now on.

    The key file stays, and says so: a copy that was sealed opens with it. Where
    something had to be left sealed, the logbook goes on naming its key.

    Raises:
        UserError: a program is running.
        FileError: the key is not that of the logbook, or something cannot be read or
            written. It may be done again.
    """
    place.refuse_while_in_use()
    lock.refuse_another_key(place.logbook, found)
    if found.sealing:
        replace(found, sealing=False).write()
    done = _change_recordings(place, None, progress)
    left = bool(done.problems or done.in_use)
    values, more = _change_values(place.logbook, key, sealing=False, left=left)
    clear(place.logbook)
    return replace(done, values=values, problems=(*done.problems, *more))


# The logbook ------------------------------------------------------------------


def _change_values(
    logbook: Path, key: MasterKey, *, sealing: bool, left: bool = False
) -> tuple[int, list[str]]:
    """Seals all values in the columns of `Sealed…` types, or opens them.

    Args:
        left: something else stays sealed when they are opened.

    Returns:
        How many were changed, and in words those that are damaged.
    """
    by = Lock(logbook, key)
    change = _sealed if sealing else _opened
    engine = engines.connect(engines.url_of(logbook))
    changed = 0
    problems = []
    try:
        writing = engine.execution_options(writes=True)
        with engines.transaction(writing, str(logbook)) as connection:
            connection.exec_driver_sql("PRAGMA secure_delete = ON")
            for table in schema.metadata.sorted_tables:
                for column in table.columns:
                    if isinstance(column.type, _KINDS):
                        new, kept = _change(connection, column, change, by)
                        changed += new
                        if kept and not sealing:
                            problems.append(_damaged(logbook, column, kept))
            _say(connection, key, sealed=sealing or left or bool(problems))
            if changed:
                action = Action.SEALED if sealing else Action.UNSEALED
                audit_row(connection, action, count=changed)
    finally:
        engine.dispose()
    return changed, problems


_KINDS = (columns.SealedText, columns.SealedWhole, columns.SealedJson)


def _change(
    connection: sa.Connection,
    column: sa.Column[Any],
    change: Callable[[Any, object, Lock], object],
    by: Lock,
) -> tuple[int, int]:
    """Changes the values of one column as they stand in the file.

    Returns:
        How many were changed, and how many are sealed as before.
    """
    table = column.table.name
    query = f'SELECT id, "{column.name}" FROM "{table}"'  # noqa: S608  from the schema
    put = f'UPDATE "{table}" SET "{column.name}" = ? WHERE id = ?'  # noqa: S608  likewise
    changed = kept = 0
    for row_id, value in connection.exec_driver_sql(query).all():
        new = _new_value(column, row_id, value, change, by)
        if new != value:
            connection.exec_driver_sql(put, (new, row_id))
            changed += 1
        elif value is not None:
            kept += _names_seal(column.type, value)
    return changed, kept


def _new_value(
    column: sa.Column[Any],
    row_id: object,
    value: object,
    change: Callable[[Any, object, Lock], object],
    by: Lock,
) -> object:
    try:
        return value if value is None else change(column.type, value, by)
    except (ValueError, RecursionError) as error:
        raise FileError(
            by.path,
            phrase(
                "table {table}, row {row}: what stands in {column} is no proper "
                "value ({error}).",
                table=column.table.name,
                row=row_id,
                column=column.name,
                error=error,
            ),
            next_step=phrase(
                "The logbook was left as it is. Mend this row, or put the logbook "
                "back from a backup."
            ),
        ) from error


def _names_seal(kind: Any, value: object) -> bool:
    """Whether a value is sealed, or was before it was damaged."""
    part = _part(kind, value)
    return isinstance(part, str) and part.startswith(texts.PREFIX)


def _part(kind: Any, value: object) -> object:
    """What of a value may be a sealed text."""
    if isinstance(kind, columns.SealedJson):
        return columns.sealed_part(json.loads(str(value)))
    return value


def _damaged(logbook: Path, column: sa.Column[Any], kept: int) -> str:
    fault = FileError(
        logbook,
        phrase(
            "{count} sealed values of {column} are damaged and stay as they are.",
            count=kept,
            column=column,
        ),
        next_step=phrase("Put the logbook back from a backup, or enter them again."),
    )
    return str(fault)


def _sealed(kind: Any, value: object, by: Lock) -> object:
    if texts.read(_part(kind, value)) is not None:
        return value
    if not isinstance(kind, columns.SealedJson):
        return by.sealed(kind.column, str(value))
    plain = json.loads(str(value))
    if plain is None:
        return value
    return json.dumps(columns.sealed_json(plain, kind.column, kind.seen, by))


def _opened(kind: Any, value: object, by: Lock) -> object:
    found = texts.read(_part(kind, value))
    if found is None:
        return value
    told = by.opened(kind.column, found)
    if told == columns.DAMAGED:
        return value  # it may be mended from a backup; nothing is written over it
    if isinstance(kind, columns.SealedJson):
        return json.dumps(json.loads(told))  # as the logbook writes it
    return int(told) if isinstance(kind, columns.SealedWhole) else told


def _say(connection: sa.Connection, key: MasterKey, *, sealed: bool) -> None:
    table = schema.settings
    connection.execute(sa.delete(table).where(table.c.key == lock.SETTING))
    if sealed:
        now = datetime.now(tz=UTC)
        connection.execute(
            sa.insert(table).values(
                key=lock.SETTING, content=key.key_id.hex(), changed_utc=now
            )
        )


# The recordings ---------------------------------------------------------------


def _change_recordings(
    place: KeptPlace, key: MasterKey | None, progress: Callable[[int, int], None]
) -> Sealed:
    """Seals each recording, or opens it where `key` is None."""
    problems = list(away.what_stays(place.recordings))
    paths = place.recording_files()
    _clean(place.recordings)
    changed = before = in_use = 0
    for number, path in enumerate(paths, start=1):
        try:
            if claims.is_claimed(path):
                in_use += 1
            elif reading.is_sealed(path) == (key is not None):
                before += 1
            else:
                _change_recording(path, key)
                changed += 1
        except BiofeedbackError as error:
            problems.append(str(error))
        except OSError as error:
            raise FileError(
                path,
                phrase(
                    "the recording cannot be written anew ({reason}).",
                    reason=folders.reason(error),
                ),
                next_step=phrase("Nothing is lost. Make room and do it again."),
            ) from error
        progress(number, len(paths))
    return Sealed(0, changed, before, in_use, tuple(problems))


def _clean(folder: Path) -> None:
    """What an attempt that was cut off has left."""
    if folder.is_dir():
        for path in folder.glob(f"{IN_THE_MAKING}*"):
            with contextlib.suppress(OSError):
                path.unlink()


def _change_recording(path: Path, key: MasterKey | None) -> None:
    """Writes a recording anew beside itself; it takes the name once it is right."""
    descriptor, name = tempfile.mkstemp(prefix=IN_THE_MAKING, dir=path.parent)
    new = Path(name)
    try:
        with path.open("rb") as old, os.fdopen(descriptor, "wb") as file:
            pieces = reading.pieces(old, path, PIECE_BYTES, whole=True)
            for part in _parts(pieces, key):
                file.write(part)
            file.flush()
            os.fsync(file.fileno())
        if _digest(new) != _digest(path):
            raise FileError(
                path,
                phrase("what was written is not what was read."),
                next_step=phrase("Nothing was changed. Check the disk."),
            )
        new.replace(path)
        folders.sync(path.parent)
    finally:
        new.unlink(missing_ok=True)


def _parts(pieces: Iterable[bytes], key: MasterKey | None) -> Iterator[bytes]:
    if key is None:
        yield from pieces
        return
    sealer = container.Sealer(key)
    yield sealer.beginning
    for piece in pieces:
        yield sealer.sealed(piece)


def _digest(path: Path) -> bytes:
    """Of the bytes of a recording, be it sealed or plain."""
    digest = hashlib.sha256()
    with path.open("rb") as file:
        for piece in reading.pieces(file, path, container.PLAIN_MAX):
            digest.update(piece)
    return digest.digest()
