"""Maximal tests and stated forces: the forces that may be somebody's 100 %.

Rules that hold here:

* A test is never changed. One that does not count is voided, with a reason, and no
  list gives it unless it is asked for.
* A test belongs to an athlete, a task and the sides that worked. A task is known by
  its key; tests from before it had one, or of another station, by its name.
* A stated force is one that was not measured here: the value from before an injury,
  or a number that somebody typed. It carries the date it is of.
* What is compared is one result a visit, by one definition, from one position: the
  best of that visit. Practice scores and voided tests are not compared.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, rows, schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.maxima_listing import (
    LIST_MAX,
    SET_ID,
    comparable_by_athlete,
    is_of,
    newest_tests,
    of_task,
    sets_without_test,
)
from biofeedback.logbook.maxima_rows import (
    MaximalTestRow,
    NewMaximalTest,
    StatedForceRow,
    check_date,
    check_force,
    stated_of,
)
from biofeedback.logbook.moments import now_utc
from biofeedback.phrase import phrase
from biofeedback.training.reference import Definition

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.training.reference import Origin
    from biofeedback.training.task import Setup, Sides, Task


REASON_MAX = 2000
__all__ = ["SET_ID", "Maxima", "MaximalTestRow", "NewMaximalTest", "StatedForceRow"]


class Maxima(Door):
    """What is kept of maximal tests; got from `Logbook.maxima`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.

    Wherever a task is asked for, it may be given as a `Task`, or as its key or name.
    """

    # Tests --------------------------------------------------------------------

    def add(self, new: NewMaximalTest) -> str:
        """Keeps a test and returns its key.

        Raises:
            FieldError: the athlete is unknown, or a value does not fit.
        """
        check_force("test.force_n", new.force_n)
        setup = new.task.setup
        with self._write() as connection:
            _check_athlete(connection, new.athlete_id)
            return entries.insert(
                connection,
                schema.maximal_tests,
                athlete_id=new.athlete_id,
                session_id=new.session_id or None,
                **of_task(new.task),
                tested_utc=new.tested_utc,
                definition=new.definition.value,
                force_n=new.force_n,
                peak_n=new.peak_n,
                half_s_n=new.half_s_n,
                one_s_n=new.one_s_n,
                left_n=new.left_n,
                right_n=new.right_n,
                trials=new.trials,
                differ_pct=new.differ_pct,
                practice=new.practice,
                pain=new.pain,
                zero_kind=new.zero_kind or None,
                setup=sa.null() if setup is None else setup.to_json(),
                content=rows.plain(new.content),
                stored_utc=now_utc(),
            )

    def void(self, key: str, reason: str) -> None:
        """Says that a test does not count; the first reason stands.

        Raises:
            FieldError: the test is unknown, or no reason is given.
        """
        self._void(schema.maximal_tests, key, reason)

    def test(self, key: str) -> MaximalTestRow | None:
        """The test with this key, or None."""
        with self._read() as connection:
            found = newest_tests(connection, [schema.maximal_tests.c.id == key])
        return found[0] if found else None

    def tests(
        self,
        athlete_id: str,
        task: Task | str,
        sides: Sides | None = None,
        *,
        since: datetime | None = None,
        with_void: bool = False,
    ) -> tuple[MaximalTestRow, ...]:
        """The athlete's tests of a task, newest first.

        Args:
            sides: None for those of all sides.
            since: only tests from this time on.
        """
        table = schema.maximal_tests
        wanted = [table.c.athlete_id == athlete_id, *is_of(table, task, sides)]
        if since is not None:
            wanted.append(table.c.tested_utc >= since)
        if not with_void:
            wanted.append(table.c.voided_utc.is_(None))
        with self._read() as connection:
            return newest_tests(connection, wanted)

    def newest(self, athlete_id: str) -> MaximalTestRow | None:
        """The athlete's newest test of any task; None without one."""
        table = schema.maximal_tests
        wanted = [table.c.athlete_id == athlete_id, table.c.voided_utc.is_(None)]
        with self._read() as connection:
            found = newest_tests(connection, wanted, limit=1)
        return found[0] if found else None

    def first_ever(
        self,
        athlete_id: str,
        task: Task | str,
        sides: Sides | None = None,
        *,
        session_id: str = "",
    ) -> bool:
        """Whether the athlete has no test of this task from an earlier session.

        Args:
            session_id: the session that is on; its own tests make nobody practised.
        """
        return not any(
            not session_id or row.session_id != session_id
            for row in self.tests(athlete_id, task, sides)
        )

    def results(
        self,
        athlete_id: str,
        task: Task | str,
        sides: Sides,
        definition: Definition,
        *,
        setup: Setup | None = None,
        without: str = "",
    ) -> tuple[float, ...]:
        """Results that may be compared, one a visit, oldest first, in newtons.

        Args:
            setup: leaves out tests that are known to be from another position.
            without: key of a test, or of a session, that is left out.
        """
        own = schema.maximal_tests.c.athlete_id == athlete_id
        found = self._comparable(task, sides, definition, setup, without, own)
        return found.get(athlete_id, ())

    def club(
        self,
        task: Task | str,
        sides: Sides,
        definition: Definition,
        *,
        setup: Setup | None = None,
        without: str = "",
    ) -> dict[str, tuple[float, ...]]:
        """The same of every athlete, by the key of the athlete."""
        return self._comparable(task, sides, definition, setup, without)

    def sets_not_kept(self, athlete_id: str, *, since: datetime) -> tuple[str, ...]:
        """Keys of sets with maximal trials of which no test was kept, newest first.

        Those of a program that was cut off, once recovery has closed them.
        """
        with self._read() as connection:
            return sets_without_test(connection, athlete_id, since)

    def _comparable(
        self,
        task: Task | str,
        sides: Sides,
        definition: Definition,
        setup: Setup | None,
        without: str,
        *more: sa.ColumnElement[bool],
    ) -> dict[str, tuple[float, ...]]:
        table = schema.maximal_tests
        wanted = [
            *is_of(table, task, sides),
            table.c.voided_utc.is_(None),
            table.c.practice.is_(False),
            *more,
        ]
        if without:
            of_visit = sa.func.coalesce(table.c.session_id, "")
            wanted += [table.c.id != without, of_visit != without]
        with self._read() as connection:
            return comparable_by_athlete(connection, wanted, definition, setup)

    # Stated forces ------------------------------------------------------------

    def add_stated(
        self,
        athlete_id: str,
        task: Task,
        force_n: float,
        *,
        origin: Origin,
        on_date: str,
        definition: Definition = Definition.STATED,
        note: str = "",
    ) -> str:
        """Keeps a force that was not measured here and returns its key.

        Args:
            task: with the sides that it is of.
            on_date: ISO date that it is of, not that of typing.

        Raises:
            FieldError: the athlete is unknown, or a value does not fit.
        """
        check_force("stated.force_n", force_n)
        check_date("stated.date", on_date)
        if len(note) > REASON_MAX:
            raise FieldError(
                "stated.note",
                phrase(
                    "must be at most {reason_max} characters.", reason_max=REASON_MAX
                ),
            )
        with self._write() as connection:
            _check_athlete(connection, athlete_id)
            return entries.insert(
                connection,
                schema.stated_forces,
                athlete_id=athlete_id,
                **of_task(task),
                origin=origin.value,
                definition=definition.value,
                force_n=force_n,
                date=on_date,
                note=note.strip() or None,
                stored_utc=now_utc(),
            )

    def void_stated(self, key: str, reason: str) -> None:
        """Says that a stated force does not count; the first reason stands.

        Raises:
            FieldError: it is unknown, or no reason is given.
        """
        self._void(schema.stated_forces, key, reason)

    def stated(
        self,
        athlete_id: str,
        task: Task | str,
        sides: Sides | None = None,
        *,
        origin: Origin | None = None,
        with_void: bool = False,
    ) -> tuple[StatedForceRow, ...]:
        """The athlete's stated forces for a task, the latest date first."""
        table = schema.stated_forces
        wanted = [table.c.athlete_id == athlete_id, *is_of(table, task, sides)]
        if origin is not None:
            wanted.append(table.c.origin == origin.value)
        if not with_void:
            wanted.append(table.c.voided_utc.is_(None))
        query = (
            sa.select(table)
            .where(*wanted)
            .order_by(table.c.date.desc(), table.c.stored_utc.desc(), table.c.id.desc())
            .limit(LIST_MAX)
        )
        with self._read() as connection:
            found = connection.execute(query).mappings().all()
        return tuple(stated_of(row) for row in found)

    def _void(self, table: sa.Table, key: str, reason: str) -> None:
        reason = reason.strip()
        if not reason:
            raise FieldError("void.reason", phrase("must say why it does not count."))
        if len(reason) > REASON_MAX:
            raise FieldError(
                "void.reason",
                phrase(
                    "must be at most {reason_max} characters.", reason_max=REASON_MAX
                ),
            )
        change = (
            sa.update(table)
            .where(table.c.id == key, table.c.voided_utc.is_(None))
            .values(voided_utc=now_utc(), void_reason=reason)
        )
        with self._write() as connection:
            if not entries.known(connection, table, key):
                raise FieldError("void.id", phrase("there is no entry {key}.", key=key))
            connection.execute(change)


def _check_athlete(connection: sa.Connection, athlete_id: str) -> None:
    if not entries.known(connection, schema.athletes, athlete_id):
        raise FieldError(
            "athlete_id",
            phrase("there is no athlete {athlete_id}.", athlete_id=athlete_id),
        )
