"""People: who the athletes are, what they weighed, and when they were last here.

Rules that hold here:

* Codes are unique, whatever their capitals; names need not be: two athletes of one
  name are told, not refused.
* Nobody is deleted here. Who is archived is not listed, keeps every result, and can
  be put back. Erasing is another matter and another command.
* A body mass is a fact of its day: a new one is added, none is changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, people_checks, schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.letters import folded
from biofeedback.logbook.moments import now_utc
from biofeedback.phrase import phrase
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from datetime import datetime


LIST_MAX = 1000
"""Longest list of people; a club of more is searched."""


@dataclass(frozen=True, slots=True)
class Person:
    """One athlete as the logbook has it.

    Attributes:
        last_visit_utc: start of the newest session; None where there was none.
        mass: the latest body mass, or None.
    """

    id: str
    details: AthleteDetails
    added_utc: datetime
    archived_utc: datetime | None
    last_visit_utc: datetime | None
    mass: BodyMass | None


class People(Door):
    """Athletes and their body masses; got from `Logbook.people`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def add(self, details: AthleteDetails, mass: BodyMass | None = None) -> str:
        """Enters an athlete, with a body mass or without, and returns the key.

        Raises:
            FieldError: the code is in use, or could not stand in a file name; or
                the date of the mass is none. Nothing was entered.
        """
        values = people_checks.columns(details)
        if mass is not None:
            people_checks.check_date(mass.date)
        try:
            with self._write() as connection:
                people_checks.check_code(connection, details.code, key="")
                key = entries.insert(
                    connection, schema.athletes, added_utc=_now(), **values
                )
                if mass is not None:
                    _insert_mass(connection, key, mass)
                return key
        except sa.exc.IntegrityError as error:
            raise _in_use(details) from error

    def change(
        self, key: str, details: AthleteDetails, mass: BodyMass | None = None
    ) -> None:
        """Puts other details in the place of what was written.

        Args:
            mass: a body mass to be entered with them; None for none.

        Raises:
            FieldError: there is no such athlete, the code is in use, recordings
                stand under the code it has, which then cannot change, or the date
                of the mass is none. Nothing was changed.
        """
        table = schema.athletes
        values = people_checks.columns(details)
        if mass is not None:
            people_checks.check_date(mass.date)
        try:
            with self._write() as connection:
                if not entries.known(connection, table, key):
                    raise FieldError(
                        "athlete", phrase("there is no athlete {key}.", key=key)
                    )
                people_checks.check_code(connection, details.code, key=key)
                connection.execute(
                    sa.update(table)
                    .where(table.c.id == key)
                    .values(changed_utc=_now(), **values)
                )
                if mass is not None:
                    _insert_mass(connection, key, mass)
        except sa.exc.IntegrityError as error:
            raise _in_use(details) from error

    def wrong_with(
        self, key: str, details: AthleteDetails, *, mass_date: str | None = None
    ) -> tuple[FieldError, ...]:
        """All that would keep these details from being saved.

        Args:
            key: of the athlete; empty for a new one.
            mass_date: of a body mass that is to be entered; None for none.
        """

        def check_code() -> None:
            with self._read() as connection:
                people_checks.check_code(connection, details.code, key=key)

        checks = [
            check_code,
            lambda: people_checks.check_birth_year(details),
            lambda: people_checks.check_name(details),
        ]
        if mass_date is not None:
            checks.append(lambda: people_checks.check_date(mass_date))
        return refusals(checks)

    def archive(self, key: str) -> None:
        """Takes an athlete off the list; nothing is lost.

        Raises:
            FieldError: there is no such athlete.
        """
        self._set_archived(key, _now())

    def restore(self, key: str) -> None:
        """Puts an archived athlete back on the list.

        Raises:
            FieldError: there is no such athlete.
        """
        self._set_archived(key, None)

    def get(self, key: str) -> Person | None:
        """The athlete with this key, or None."""
        return self._one(schema.athletes.c.id == key)

    def by_code(self, code: str) -> Person | None:
        """The athlete with this code, or None."""
        return self._one(schema.athletes.c.code == code.strip())

    def of_name(self, name: str) -> tuple[Person, ...]:
        """Athletes of this very name, whatever its capitals and accents."""
        wanted = folded(name)
        if not wanted:
            return ()
        return tuple(
            person
            for person in self._all(archived=None)
            if folded(person.details.name) == wanted
        )

    def search(
        self, words: str = "", *, archived: bool = False, limit: int = LIST_MAX
    ) -> tuple[Person, ...]:
        """Athletes whose code or name holds every word, by code.

        Args:
            words: parted by blanks; capitals and accents do not matter.
            archived: search among those who are archived instead.
        """
        wanted = folded(words).split()
        found = []
        for person in self._all(archived=archived):
            told = folded(f"{person.details.code} {person.details.name}")
            if all(word in told for word in wanted):
                found.append(person)
                if len(found) == limit:
                    break
        return tuple(found)

    # Body masses.

    def add_mass(self, key: str, mass: BodyMass) -> str:
        """Enters a body mass and returns its key.

        Raises:
            FieldError: there is no such athlete, or the date is none.
        """
        people_checks.check_date(mass.date)
        with self._write() as connection:
            if not entries.known(connection, schema.athletes, key):
                raise FieldError(
                    "athlete", phrase("there is no athlete {key}.", key=key)
                )
            return _insert_mass(connection, key, mass)

    def masses(self, key: str) -> tuple[BodyMass, ...]:
        """All body masses of an athlete, newest first."""
        table = schema.body_masses
        query = (
            sa.select(table.c.mass_kg, table.c.date)
            .where(table.c.athlete_id == key)
            .order_by(table.c.date.desc(), table.c.stored_utc.desc(), table.c.id.desc())
        )
        with self._read() as connection:
            return tuple(BodyMass(kg, day) for kg, day in connection.execute(query))

    def mass(self, key: str, *, on: str = "") -> BodyMass | None:
        """The latest body mass, of the ISO date `on` or before; else None."""
        for mass in self.masses(key):
            if not on or mass.date <= on:
                return mass
        return None

    # Inside.

    def _set_archived(self, key: str, at_utc: datetime | None) -> None:
        table = schema.athletes
        with self._write() as connection:
            done = connection.execute(
                sa.update(table).where(table.c.id == key).values(archived_utc=at_utc)
            )
        if not done.rowcount:
            raise FieldError(
                "athlete", phrase("this athlete is not in the logbook any more.")
            )

    def _one(self, wanted: sa.ColumnElement[bool]) -> Person | None:
        with self._read() as connection:
            row = connection.execute(_query().where(wanted)).mappings().one_or_none()
        return None if row is None else _person(row)

    def _all(self, *, archived: bool | None) -> list[Person]:
        table = schema.athletes
        query = _query().order_by(table.c.code)
        if archived is not None:
            gone = table.c.archived_utc
            query = query.where(gone.is_not(None) if archived else gone.is_(None))
        with self._read() as connection:
            return [_person(row) for row in connection.execute(query).mappings()]


def refusals(checks: Iterable[Callable[[], None]]) -> tuple[FieldError, ...]:
    """What each check refuses, where it does."""
    found = []
    for check in checks:
        try:
            check()
        except FieldError as error:
            found.append(error)
    return tuple(found)


def _query() -> sa.Select[tuple[object, ...]]:
    """Athletes with the start of the newest session and the latest mass."""
    athletes, sessions = schema.athletes, schema.sessions
    masses = schema.body_masses
    visit = (
        sa.select(sa.func.max(sessions.c.started_utc))
        .where(sessions.c.athlete_id == athletes.c.id)
        .scalar_subquery()
    )
    weighed = masses.alias()
    newest = (
        sa.select(weighed.c.id)
        .where(weighed.c.athlete_id == athletes.c.id)
        .order_by(
            weighed.c.date.desc(), weighed.c.stored_utc.desc(), weighed.c.id.desc()
        )
        .limit(1)
        .correlate(athletes)
        .scalar_subquery()
    )
    return sa.select(
        athletes,
        sa.type_coerce(visit, schema.UtcTime).label("last_visit_utc"),
        masses.c.mass_kg,
        masses.c.date.label("mass_date"),
    ).select_from(athletes.outerjoin(masses, masses.c.id == newest))


def _person(row: sa.RowMapping) -> Person:
    mass = None
    if row["mass_kg"] is not None:
        mass = BodyMass(row["mass_kg"], row["mass_date"])
    return Person(
        id=row["id"],
        details=AthleteDetails(
            code=row["code"],
            name=row["name"] or "",
            birth_year=row["birth_year"],
            dominant=_side(row["dominant"]),
            injured=_side(row["injured"]),
            notes=row["notes"] or "",
            consent=row["consent"] or "",
        ),
        added_utc=row["added_utc"],
        archived_utc=row["archived_utc"],
        last_visit_utc=row["last_visit_utc"],
        mass=mass,
    )


def _side(value: str | None) -> Sides | None:
    return next((side for side in Sides if side.value == value), None)


def _insert_mass(connection: sa.Connection, key: str, mass: BodyMass) -> str:
    return entries.insert(
        connection,
        schema.body_masses,
        athlete_id=key,
        mass_kg=mass.mass_kg,
        date=mass.date,
        stored_utc=_now(),
    )


def _in_use(details: AthleteDetails) -> FieldError:
    """Another program entered it since it was looked for."""
    code = details.code.strip()
    return FieldError(
        "athlete.code",
        phrase("{code} is in use already.", code=code),
        phrase("Choose another code."),
    )


def _now() -> datetime:
    return now_utc()
