"""The task list: set-ups in which forces are compared, each of them editable.

Rules that hold here:

* A set keeps the task as it was, position and all, in its prescription. Editing a
  task here changes no saved set.
* Names are unique among the tasks that are not archived: a plan from elsewhere finds
  a task by its name.
* A logbook that never had a task is given the starter list once.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.letters import folded
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.people import refusals
from biofeedback.phrase import phrase
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import NAME_MAX, TEXT_MAX, Setup, Task
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime


@dataclass(frozen=True, slots=True)
class StoredTask:
    """A task as the logbook has it; its `task.key` is the key."""

    task: Task
    added_utc: datetime
    archived_utc: datetime | None


class TaskList(Door):
    """The tasks; got from `Logbook.tasks`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def add(self, task: Task) -> Task:
        """Enters a task and returns it with its key.

        Raises:
            FieldError: the name is empty, too long or in use, or another text is
                too long.
        """
        _check_texts(task)
        with self._write() as connection:
            _check_name(connection, task.name, but="")
            return _insert(connection, task)

    def change(self, task: Task) -> None:
        """Puts another task in the place of the one with its key.

        Where its name is another one now, the lowerings that are held against it go
        by its key from here on: it is found under the new name and the old.

        Raises:
            FieldError: there is no such task, or a text does not fit.
        """
        table = schema.tasks
        _check_texts(task)
        with self._write() as connection:
            before = connection.scalar(
                sa.select(table.c.name).where(table.c.id == task.key)
            )
            if before is None:
                raise FieldError(
                    "task", phrase("there is no task {key}.", key=task.key)
                )
            _check_name(connection, task.name, but=task.key)
            if before != task.name.strip():
                _pair_by_key(connection, before, task.key)
            connection.execute(
                sa.update(table)
                .where(table.c.id == task.key)
                .values(changed_utc=_now(), **_values(task))
            )

    def archive(self, key: str) -> None:
        """Takes a task off the list; sets of it stay.

        Raises:
            FieldError: there is no such task.
        """
        with self._write() as connection:
            _set_archived(connection, key, _now())

    def restore(self, key: str) -> None:
        """Puts an archived task back on the list.

        Raises:
            FieldError: there is no such task, or another one has its name now.
        """
        table = schema.tasks
        with self._write() as connection:
            name = connection.scalar(sa.select(table.c.name).where(table.c.id == key))
            if name is not None:
                _check_name(connection, name, but=key)
            _set_archived(connection, key, None)

    def wrong_with(self, task: Task) -> tuple[FieldError, ...]:
        """All that would keep a task from being saved; without a key it is new."""

        def check_name() -> None:
            with self._read() as connection:
                _check_name(connection, task.name, but=task.key)

        return refusals((check_name, *_text_checks(task)))

    def get(self, key: str) -> Task | None:
        """The task with this key, archived or not; None where there is none."""
        table = schema.tasks
        with self._read() as connection:
            row = (
                connection.execute(sa.select(table).where(table.c.id == key))
                .mappings()
                .one_or_none()
            )
        return None if row is None else _stored(row).task

    def by_name(self, name: str) -> Task | None:
        """The task of this name that is not archived, whatever its capitals."""
        wanted = folded(name)
        for stored in self.search():
            if folded(stored.task.name) == wanted:
                return stored.task
        return None

    def search(
        self, words: str = "", *, archived: bool = False
    ) -> tuple[StoredTask, ...]:
        """Tasks whose name, joint, movement or posture holds every word, by name."""
        table = schema.tasks
        gone = table.c.archived_utc
        query = (
            sa.select(table)
            .where(gone.is_not(None) if archived else gone.is_(None))
            .order_by(sa.func.lower(table.c.name), table.c.id)
        )
        wanted = folded(words).split()
        with self._read() as connection:
            found = [_stored(row) for row in connection.execute(query).mappings()]
        return tuple(
            stored for stored in found if all(w in _told(stored.task) for w in wanted)
        )

    def start(self) -> None:
        """Gives the starter list to a logbook that never had a task."""
        # Looked at before it is written: a list is shown even while another program
        # writes, and in a logbook that may only be read.
        with self._read() as connection:
            if _has_tasks(connection):
                return
        with self._write() as connection:
            if not _has_tasks(connection):  # nor got any from another program since
                for task in STARTER_TASKS:
                    _insert(connection, task)


def _has_tasks(connection: sa.Connection) -> bool:
    return connection.scalar(sa.select(schema.tasks.c.id).limit(1)) is not None


def _set_archived(connection: sa.Connection, key: str, at_utc: datetime | None) -> None:
    table = schema.tasks
    done = connection.execute(
        sa.update(table).where(table.c.id == key).values(archived_utc=at_utc)
    )
    if not done.rowcount:
        raise FieldError("task", phrase("this task is not in the logbook any more."))


def _told(task: Task) -> str:
    setup = task.setup
    more = f"{setup.joint.value} {setup.movement} {setup.posture}" if setup else ""
    return folded(f"{task.name} {task.kind.value} {more}")


def _insert(connection: sa.Connection, task: Task) -> Task:
    key = entries.insert(
        connection, schema.tasks, id=task.key, added_utc=_now(), **_values(task)
    )
    return replace(task, key=key)


def _values(task: Task) -> dict[str, object]:
    task = replace(task, name=task.name.strip(), key="")
    return {
        "name": task.name,
        "kind": task.kind.value,
        "sides": task.sides.value,
        "content": task.to_json(),
    }


def _stored(row: sa.RowMapping) -> StoredTask:
    task = Task.from_json(Fields(row["content"], "task"))
    return StoredTask(
        replace(task, key=row["id"]), row["added_utc"], row["archived_utc"]
    )


def _check_name(connection: sa.Connection, name: str, *, but: str) -> None:
    name = name.strip()
    if not name:
        raise FieldError("task.name", phrase("must not be empty."))
    if len(name) > NAME_MAX:
        raise FieldError(
            "task.name",
            phrase("is longer than {name_max} characters.", name_max=NAME_MAX),
        )
    table = schema.tasks
    others = connection.execute(
        sa.select(table.c.name).where(table.c.archived_utc.is_(None), table.c.id != but)
    )
    if folded(name) in {folded(other) for (other,) in others}:
        raise FieldError(
            "task.name",
            phrase("“{name}” is in the list already.", name=name),
            phrase("Choose another name."),
        )


def _check_texts(task: Task) -> None:
    for check in _text_checks(task):
        check()


def _text_checks(task: Task) -> list[Callable[[], None]]:
    """What is longer than this could be written but never be read again."""
    setup = task.setup or Setup()
    return [
        partial(_check_length, field, text, most)
        for field, text, most in (
            ("setup.movement", setup.movement, TEXT_MAX),
            ("setup.site", setup.site, TEXT_MAX),
            ("setup.posture", setup.posture, TEXT_MAX),
            ("task.pair", task.pair, NAME_MAX),
        )
    ]


def _check_length(field: str, text: str, most: int) -> None:
    if len(text) > most:
        raise FieldError(field, phrase("is longer than {most} characters.", most=most))


def _pair_by_key(connection: sa.Connection, name: str, key: str) -> None:
    """Other tasks that are held against this name have the key in its place."""
    table = schema.tasks
    found = connection.execute(sa.select(table).where(table.c.id != key)).mappings()
    for stored in [_stored(row).task for row in found]:
        if stored.pair == name:
            connection.execute(
                sa.update(table)
                .where(table.c.id == stored.key)
                .values(changed_utc=_now(), **_values(replace(stored, pair=key)))
            )


def _now() -> datetime:
    return now_utc()
