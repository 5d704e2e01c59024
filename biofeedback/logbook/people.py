"""People: who the athletes are, what they weighed, and when they were last here.

Rules that hold here:

* Codes are unique, names need not be: two athletes of one name are told, not refused.
* Nobody is deleted here. Who is archived is not listed, keeps every result, and can
  be put back. Erasing is another matter and another command.
* A body mass is a fact of its day: a new one is added, none is changed.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, rows, schema
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    Transaction = Callable[[], AbstractContextManager[sa.Connection]]

NAME_MAX = 200
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


class People:
    """Athletes and their body masses; got from `Logbook.people`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def __init__(self, read: Transaction, write: Transaction) -> None:
        self._read = read
        self._write = write

    def add(self, details: AthleteDetails, mass: BodyMass | None = None) -> str:
        """Enters an athlete, with a body mass or without, and returns the key.

        Raises:
            FieldError: the code is in use, or could not stand in a file name; or
                the date of the mass is none. Nothing was entered.
        """
        values = _values(details)
        if mass is not None:
            _check_date(mass.date)
        try:
            with self._write() as connection:
                key = entries.insert(
                    connection, schema.athletes, added_utc=_now(), **values
                )
                if mass is not None:
                    _insert_mass(connection, key, mass)
                return key
        except sa.exc.IntegrityError as error:
            raise self._in_use(details.code) from error

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
        values = _values(details)
        if mass is not None:
            _check_date(mass.date)
        try:
            with self._write() as connection:
                old = connection.scalar(
                    sa.select(table.c.code).where(table.c.id == key)
                )
                if old is None:
                    raise FieldError("athlete", f"there is no athlete {key}.")
                if old != values["code"] and _has_sets(connection, key):
                    raise FieldError(
                        "athlete.code",
                        f"must stay {old}: recordings were made under it.",
                    )
                connection.execute(
                    sa.update(table)
                    .where(table.c.id == key)
                    .values(changed_utc=_now(), **values)
                )
                if mass is not None:
                    _insert_mass(connection, key, mass)
        except sa.exc.IntegrityError as error:
            raise self._in_use(details.code) from error

    def archive(self, key: str) -> None:
        """Takes an athlete off the list; nothing is lost."""
        self._set_archived(key, _now())

    def restore(self, key: str) -> None:
        """Puts an archived athlete back on the list."""
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
        _check_date(mass.date)
        with self._write() as connection:
            if not entries.known(connection, schema.athletes, key):
                raise FieldError("athlete", f"there is no athlete {key}.")
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

    def _in_use(self, code: str) -> FieldError:
        """Who is archived is on no list, and has the code all the same."""
        code = code.strip()
        other = self.by_code(code)
        if other is not None and other.archived_utc is not None:
            return FieldError(
                "athlete.code",
                f"{code} is in use already, by an athlete who is archived.",
                "Choose another code, or put that athlete back.",
            )
        return FieldError(
            "athlete.code", f"{code} is in use already.", "Choose another code."
        )

    def _set_archived(self, key: str, at_utc: datetime | None) -> None:
        table = schema.athletes
        with self._write() as connection:
            connection.execute(
                sa.update(table).where(table.c.id == key).values(archived_utc=at_utc)
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


def folded(text: str) -> str:
    """Without capitals and accents, for comparing."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(mark for mark in apart if not unicodedata.combining(mark)).strip()


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


def _values(details: AthleteDetails) -> dict[str, object]:
    """The columns of an athlete, after the checks that the tables ask for."""
    name, year = details.name.strip(), details.birth_year
    if year is not None and year > _now().year:
        raise FieldError(
            "athlete.birth_year", f"{year} is still to come.", "Type the year of birth."
        )
    if len(name) > NAME_MAX:
        raise FieldError("athlete.name", f"is longer than {NAME_MAX} characters.")
    return {
        "code": rows.check_code(details.code),
        "name": name or None,
        "birth_year": details.birth_year,
        "dominant": details.dominant.value if details.dominant else None,
        "injured": details.injured.value if details.injured else None,
        "notes": details.notes or None,
        "consent": details.consent or None,
    }


def _has_sets(connection: sa.Connection, key: str) -> bool:
    sets, sessions = schema.sets, schema.sessions
    query = (
        sa.select(sets.c.id)
        .join(sessions, sessions.c.id == sets.c.session_id)
        .where(sessions.c.athlete_id == key)
        .limit(1)
    )
    return connection.scalar(query) is not None


def _insert_mass(connection: sa.Connection, key: str, mass: BodyMass) -> str:
    return entries.insert(
        connection,
        schema.body_masses,
        athlete_id=key,
        mass_kg=mass.mass_kg,
        date=mass.date,
        stored_utc=_now(),
    )


def _check_date(text: str) -> None:
    how = "Type it as year-month-day, such as 2026-01-31."
    try:
        day = date.fromisoformat(text)
    except ValueError:
        day = None
    if day is None or day.isoformat() != text:
        words = f"“{text}” is no date." if text else "a date is missing."
        raise FieldError("athlete.mass_date", words, how)
    # The latest mass is the one in use, and a mass is never taken back: a date that
    # was mistyped into the future would stand before all others for years.
    if day > _now().astimezone().date():
        raise FieldError("athlete.mass_date", f"{text} is still to come.", how)


def _now() -> datetime:
    return datetime.now(tz=UTC)
