"""The history of one athlete: all of a period, with one question for each table.

Rules that hold here: a period is two moments, the first in it and the second not; what
was said not to count is left out, but for reps, which say so themselves; oldest first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from biofeedback.conditioning.profile import SIMULATED, SIMULATED_ADC
from biofeedback.logbook import schema
from biofeedback.logbook.done_reps import DoneRep, done_reps
from biofeedback.logbook.door import Door
from biofeedback.logbook.listing import sets_oldest_first
from biofeedback.logbook.maxima_rows import (
    MaximalTestRow,
    StatedForceRow,
    stated_of,
    test_of,
)
from biofeedback.logbook.session_notes import SessionNote
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping
    from datetime import datetime

    from biofeedback.logbook.rows import SetRow

KEYS_MOST = 500
"""In one question; SQLite takes 999 at least."""


@dataclass(frozen=True, slots=True)
class Period:
    """From a moment on, up to another."""

    since_utc: datetime
    until_utc: datetime

    def holds(self, column: sa.Column[Any]) -> sa.ColumnElement[bool]:
        """Whether a time lies in it."""
        return sa.and_(column >= self.since_utc, column < self.until_utc)


@dataclass(frozen=True, slots=True)
class Source:
    """What a 100 % was taken from: a test or a stated force.

    Attributes:
        own: whether it is of the athlete who was asked for.
    """

    own: bool
    task_id: str | None
    task: str
    sides: Sides


@dataclass(frozen=True, slots=True)
class PainTold:
    """Pain as it was reported before a visit; None where it was not asked."""

    reported_utc: datetime
    now: int
    night: int | None
    morning: int | None


class History(Door):
    """What was done and told; got from `Logbook.history`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def first_utc(self, athlete_id: str) -> datetime | None:
        """When anything of an athlete was kept first; None where nothing was."""
        found = []
        with self._read() as connection:
            for column, of in (
                (schema.sessions.c.started_utc, schema.sessions.c.athlete_id),
                (schema.maximal_tests.c.tested_utc, schema.maximal_tests.c.athlete_id),
                (schema.day_reports.c.reported_utc, schema.day_reports.c.athlete_id),
            ):
                query = sa.select(sa.func.min(column)).where(of == athlete_id)
                found.append(connection.scalar(query))
        return min((at for at in found if at is not None), default=None)

    def sets(self, athlete_id: str, period: Period) -> list[SetRow]:
        """The sets, without the profiles of their rigs."""
        wanted = sa.and_(
            schema.sessions.c.athlete_id == athlete_id,
            period.holds(schema.sets.c.started_utc),
        )
        with self._read() as connection:
            return sets_oldest_first(connection, wanted, profiles=False)

    def profile(self, set_id: str) -> Mapping[str, object]:
        """The profile of the rig of a set; empty where there is no such set."""
        query = sa.select(schema.sets.c.profile).where(schema.sets.c.id == set_id)
        with self._read() as connection:
            return connection.scalar(query) or {}

    def simulated_sets(self, athlete_id: str, period: Period) -> int:
        """How many of the sets were done on the simulated rig."""
        sets = schema.sets
        first = sets.c.profile["channels"][0]["calibration"]["label"].as_string()
        query = (
            sa.select(sa.func.count())
            .select_from(sets.join(schema.sessions))
            .where(
                schema.sessions.c.athlete_id == athlete_id,
                period.holds(sets.c.started_utc),
                sa.or_(
                    sets.c.profile["adc"].as_string() == SIMULATED_ADC,
                    first == SIMULATED,
                ),
            )
        )
        with self._read() as connection:
            return connection.scalar(query) or 0

    def reps(self, athlete_id: str, period: Period) -> tuple[DoneRep, ...]:
        """The reps, as light rows; those that are void say so."""
        with self._read() as connection:
            return done_reps(
                connection,
                athlete_id,
                since_utc=period.since_utc,
                until_utc=period.until_utc,
            )

    def notes(
        self, athlete_id: str, period: Period, *kinds: str
    ) -> tuple[tuple[str, SessionNote], ...]:
        """Notes of these kinds, each with the key of its session."""
        table, sessions = schema.notes, schema.sessions
        query = (
            sa.select(table)
            .join(sessions, sessions.c.id == table.c.session_id)
            .where(
                sessions.c.athlete_id == athlete_id,
                table.c.kind.in_(kinds),
                period.holds(table.c.at_utc),
            )
            .order_by(table.c.at_utc, table.c.id)
        )
        with self._read() as connection:
            return tuple(
                (
                    row["session_id"],
                    SessionNote(
                        row["kind"], row["content"], row["at_utc"], row["set_id"]
                    ),
                )
                for row in connection.execute(query).mappings()
            )

    def pain(self, athlete_id: str, period: Period) -> tuple[PainTold, ...]:
        """Pain as it was reported before visits."""
        table = schema.day_reports
        query = (
            sa.select(
                table.c.reported_utc,
                table.c.pain_now,
                table.c.pain_night,
                table.c.pain_morning,
            )
            .where(table.c.athlete_id == athlete_id, period.holds(table.c.reported_utc))
            .order_by(table.c.reported_utc, table.c.id)
        )
        with self._read() as connection:
            return tuple(PainTold(*row) for row in connection.execute(query))

    def tests(self, athlete_id: str, period: Period) -> tuple[MaximalTestRow, ...]:
        """Maximal tests of all tasks."""
        table = schema.maximal_tests
        query = (
            sa.select(table)
            .where(
                table.c.athlete_id == athlete_id,
                table.c.voided_utc.is_(None),
                period.holds(table.c.tested_utc),
            )
            .order_by(table.c.tested_utc, table.c.id)
        )
        with self._read() as connection:
            return tuple(test_of(row) for row in connection.execute(query).mappings())

    def stated(self, athlete_id: str) -> tuple[StatedForceRow, ...]:
        """Forces that were not measured here, of whatever date."""
        table = schema.stated_forces
        query = (
            sa.select(table)
            .where(table.c.athlete_id == athlete_id, table.c.voided_utc.is_(None))
            .order_by(table.c.date, table.c.stored_utc, table.c.id)
        )
        with self._read() as connection:
            return tuple(stated_of(row) for row in connection.execute(query).mappings())

    def sources(self, athlete_id: str, keys: Collection[str]) -> dict[str, Source]:
        """Tests and stated forces by their key, whoever they are of, void or not."""
        found: dict[str, Source] = {}
        wanted = sorted(keys)
        with self._read() as connection:
            for table in (schema.maximal_tests, schema.stated_forces):
                c = table.c
                query = sa.select(c.id, c.athlete_id, c.task_id, c.task, c.sides)
                for at in range(0, len(wanted), KEYS_MOST):
                    some = wanted[at : at + KEYS_MOST]
                    for row in connection.execute(query.where(c.id.in_(some))):
                        key, whose, task_id, task, sides = row
                        own = whose == athlete_id
                        found[key] = Source(own, task_id, task, Sides(sides))
        return found
