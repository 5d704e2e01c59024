"""The way to the database: connections, transactions, schema and faults in words.

SQLite is driven by hand, because Python's own transactions begin too late: every
transaction that writes begins with BEGIN IMMEDIATE, so that two programs wait for
each other instead of failing half way.
"""

from __future__ import annotations

import contextlib
import os
import re
import sqlite3
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import BiofeedbackError, FileError
from biofeedback.logbook import folders
from biofeedback.logbook.lost_header import was_logbook
from biofeedback.logbook.schema import SCHEMA_REVISION
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.engine.interfaces import DBAPIConnection
    from sqlalchemy.pool import ConnectionPoolEntry

BEFORE_TABLES = "before-tables-"
"""Begins the name of the folder with the copy of an older logbook."""
BUSY_S = 5.0
"""How long a write waits for another program; its writes take milliseconds."""

_USER_AND_PASSWORD = re.compile(r"(?<=://).*(?=@)")
_WORDS = {
    "SQLITE_NOTADB": phrase("this is not a logbook; it is a file of another kind."),
    "SQLITE_CORRUPT": phrase("the logbook is damaged."),
    "SQLITE_BUSY": phrase("another program keeps the logbook busy."),
    "SQLITE_LOCKED": phrase("another program keeps the logbook busy."),
    "SQLITE_FULL": phrase("the disk is full."),
    "SQLITE_READONLY": phrase("the logbook may only be read here, not written."),
    "SQLITE_CANTOPEN": phrase("the logbook cannot be opened."),
    "SQLITE_IOERR": phrase("the disk does not read or write as it should."),
}
_NEXT_STEPS = {
    "SQLITE_NOTADB": phrase("Choose another file."),
    "SQLITE_CORRUPT": phrase(
        "Put a backup back (biofeedback restore DIR), or make a new one from the "
        "recordings (biofeedback rebuild)."
    ),
    "SQLITE_BUSY": phrase("Close the other program, or try again."),
    "SQLITE_LOCKED": phrase("Close the other program, or try again."),
    "SQLITE_FULL": phrase("Make room and try again."),
    "SQLITE_READONLY": phrase("Check who may write to the file and its folder."),
    "SQLITE_CANTOPEN": phrase("Check the folder and who may read it."),
    "SQLITE_IOERR": phrase("Check the disk."),
}


@contextlib.contextmanager
def faults_in_words(place: str) -> Iterator[None]:
    """Turns faults of file, disk or server into `FileError`; bugs pass through."""
    try:
        yield
    except (sa.exc.OperationalError, sa.exc.DatabaseError) as error:
        if isinstance(error, sa.exc.IntegrityError | sa.exc.ProgrammingError):
            raise
        raise _told(place, error.orig) from error
    except sa.exc.StatementError as error:
        if isinstance(error.orig, BiofeedbackError):  # a value that may not be written
            raise error.orig from error
        raise
    except sqlite3.Error as error:  # before SQLAlchemy has its hands on it
        raise _told(place, error) from error


def _told(place: str, fault: BaseException | None) -> FileError:
    name = getattr(fault, "sqlite_errorname", "")
    if name.startswith("SQLITE_NOTADB") and was_logbook(place):
        name = "SQLITE_CORRUPT"
    for known, words in _WORDS.items():
        if name.startswith(known):
            return FileError(place, words, next_step=_NEXT_STEPS[known])
    return FileError(
        place,
        phrase("the logbook does not answer as it should ({fault}).", fault=fault),
    )


@contextlib.contextmanager
def transaction(engine: sa.Engine, place: str) -> Iterator[sa.Connection]:
    """One transaction: all of it or, after an exception, none.

    Raises:
        FileError: disk, file or server does not do what is asked.
    """
    with faults_in_words(place), engine.begin() as connection:
        yield connection


def url_of(place: str | Path) -> sa.URL:
    """The URL of a place given as a path or as a URL.

    Raises:
        FileError: the URL cannot be read.
    """
    if isinstance(place, str) and "://" in place:
        try:
            return sa.make_url(place)
        except (sa.exc.ArgumentError, ValueError):  # a port that is no number
            shown = _USER_AND_PASSWORD.sub("***", place)
            raise FileError(
                shown, phrase("this is not the URL of a database.")
            ) from None
    try:
        path = Path(place).expanduser()
    except RuntimeError as error:
        raise FileError(place, phrase("there is no user of this name here.")) from error
    return sa.URL.create("sqlite", database=str(path))


def connect(url: sa.URL) -> sa.Engine:
    """An engine for the URL; makes the file of an SQLite logbook if need be.

    Raises:
        FileError: the place cannot be used.
    """
    if url.get_backend_name() == "sqlite":
        return _sqlite_engine(url)
    try:
        return sa.create_engine(url, pool_pre_ping=True, hide_parameters=True)
    except (sa.exc.ArgumentError, ImportError) as error:
        raise FileError(
            url.render_as_string(hide_password=True),
            phrase("this database cannot be reached from here ({error}).", error=error),
            next_step=phrase("Install the driver for it, or use a file."),
        ) from error


def _sqlite_engine(url: sa.URL) -> sa.Engine:
    if not url.database or url.database == ":memory:":
        raise FileError(url, phrase("a logbook needs a file."))
    if url.drivername not in ("sqlite", "sqlite+pysqlite"):
        raise FileError(url, phrase("a logbook in a file is named by its path alone."))
    try:
        # Where a link leads: SQLite would make that file readable to others.
        path = Path(url.database).resolve()
    except (OSError, RuntimeError) as error:
        raise FileError(url.database, phrase("this link leads nowhere.")) from error
    folders.make_private(path.parent)
    try:
        # Made here and not by SQLite, which would let others read it. Its two
        # companion files take over the mode.
        os.close(folders.create_file(path))
    except FileExistsError:
        pass
    except OSError as error:
        raise FileError(
            path,
            phrase(
                "the logbook cannot be made ({reason}).", reason=folders.reason(error)
            ),
        ) from error
    # Parameters hold names of people, and a fault's words may come into a log.
    engine = sa.create_engine(
        url, connect_args={"timeout": BUSY_S}, hide_parameters=True
    )
    sa.event.listen(engine, "connect", _set_up)
    sa.event.listen(engine, "begin", _begin)
    return engine


def _set_up(connection: DBAPIConnection, _entry: ConnectionPoolEntry) -> None:
    assert isinstance(connection, sqlite3.Connection)  # noqa: S101  narrows the type
    connection.isolation_level = None  # transactions begin in `_begin` only
    connection.execute("PRAGMA foreign_keys = ON")
    # FULL: a rep that is said to be saved survives a power cut.
    connection.execute("PRAGMA synchronous = FULL")


def _begin(connection: sa.Connection) -> None:
    options = connection.get_execution_options()
    busy_ms = round(1000 * options.get("busy_s", BUSY_S))
    connection.exec_driver_sql(f"PRAGMA busy_timeout = {busy_ms}")
    writes = options.get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def bring_up_to_date(engine: sa.Engine, place: str, *, keep_copy: bool = True) -> None:
    """Makes the tables, or takes older ones to the schema of this program.

    All steps together or none, and a copy of the older one is kept in a folder beside
    it; where a step fails, each byte of the file stays. A second program that opens
    the same logbook at the same moment waits and then finds the work done.

    Args:
        keep_copy: of an older logbook; not where somebody is to be erased from it.

    Raises:
        FileError: the file is no logbook, of a newer program, or in use.
    """
    with faults_in_words(place):
        with engine.connect() as connection:
            current = _revision(connection, place) == SCHEMA_REVISION
        if not current:
            _bring_up(engine, place, keep_copy=keep_copy)
        # Last: a file that is refused, or cannot be migrated, keeps every byte.
        if engine.dialect.name == "sqlite":
            _use_wal(engine)


def _bring_up(engine: sa.Engine, place: str, *, keep_copy: bool) -> None:
    with engine.execution_options(writes=True).begin() as connection:
        found = _revision(connection, place)
        if found == SCHEMA_REVISION:
            return  # another program was first
        if found is None or not keep_copy or engine.dialect.name != "sqlite":
            _migrate(connection)
            return
        with _copy_kept(Path(str(engine.url.database)).resolve()):
            _migrate(connection)


@contextlib.contextmanager
def _copy_kept(path: Path) -> Iterator[None]:
    """A copy of an older logbook as it was, in a folder beside it.

    Nobody can write meanwhile. The copy goes again where the migration fails, for then
    the logbook itself is as it was.
    """
    stamp = datetime.now(tz=UTC).strftime("%Y%m%dT%H%M%S.%fZ")
    folder = path.parent / f"{BEFORE_TABLES}{SCHEMA_REVISION}-{stamp}"
    folders.make_private(folder)
    copy = folder / path.name
    try:
        os.close(folders.create_file(copy))
        with (
            contextlib.closing(sqlite3.connect(path)) as old,
            contextlib.closing(sqlite3.connect(copy)) as new,
        ):
            old.backup(new)
            new.execute("PRAGMA journal_mode = DELETE")  # one file
        yield
    except BaseException:
        copy.unlink(missing_ok=True)
        folder.rmdir()
        raise


def _use_wal(engine: sa.Engine) -> None:
    """Readers do not wait for the writer, nor the writer for them."""
    raw = engine.raw_connection()
    try:
        cursor = raw.cursor()
        cursor.execute("PRAGMA journal_mode")
        if cursor.fetchone() != ("wal",):
            cursor.execute("PRAGMA journal_mode = WAL")
    finally:
        raw.close()


def _revision(connection: sa.Connection, place: str) -> str | None:
    """The schema found; None for an empty database."""
    tables = sa.inspect(connection).get_table_names()
    if not tables:
        return None
    found = ""
    if "alembic_version" in tables:
        query = sa.text("SELECT version_num FROM alembic_version")
        found = str(connection.execute(query).scalar())
    if not (found.isdecimal() and len(found) == len(SCHEMA_REVISION)):
        raise FileError(
            place,
            phrase("this is the database of another program."),
            next_step=phrase("Choose another file."),
        )
    if found > SCHEMA_REVISION:
        raise FileError(
            place,
            phrase(
                "this logbook was written by a newer version of the "
                "program (its tables are of version {found}, known "
                "here is {schema_revision}).",
                found=found,
                schema_revision=SCHEMA_REVISION,
            ),
            next_step=phrase("Install the newer version; nothing was changed."),
        )
    return found


def _migrate(connection: sa.Connection) -> None:
    # Here and not above: it takes 0.2 s to load and is needed once in a logbook's
    # life, and after an update.
    from alembic import command  # noqa: PLC0415
    from alembic.config import Config  # noqa: PLC0415

    config = Config()
    config.set_main_option("script_location", "biofeedback.logbook:migrations")
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
