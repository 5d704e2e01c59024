"""What the logbook asks of an athlete before one is entered or changed.

Rules that hold here:

* A code is one person's, whatever its capitals: on most systems file names differ in
  capitals only by accident, and so do codes that are typed.
* A code stays once recordings stand under it.
"""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import rows, schema
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.training.athlete import AthleteDetails

NAME_MAX = 200


def columns(details: AthleteDetails) -> dict[str, object]:
    """The columns of an athlete.

    Raises:
        FieldError: a value does not fit.
    """
    check_birth_year(details)
    check_name(details)
    return {
        "code": rows.check_code(details.code),
        "name": details.name.strip() or None,
        "birth_year": details.birth_year,
        "dominant": details.dominant.value if details.dominant else None,
        "injured": details.injured.value if details.injured else None,
        "notes": details.notes or None,
        "consent": details.consent or None,
    }


def check_birth_year(details: AthleteDetails) -> None:
    """A year that is not over may be one of birth; one to come is none."""
    year = details.birth_year
    if year is not None and year > datetime.now(tz=UTC).year:
        raise FieldError(
            "athlete.birth_year",
            phrase("{year} is still to come.", year=year),
            phrase("Type the year of birth."),
        )


def check_name(details: AthleteDetails) -> None:
    """A name may be empty, and not of any length."""
    if len(details.name.strip()) > NAME_MAX:
        raise FieldError(
            "athlete.name",
            phrase("is longer than {name_max} characters.", name_max=NAME_MAX),
        )


def check_code(connection: sa.Connection, code: str, *, key: str) -> None:
    """Whether an athlete can have this code.

    Args:
        key: of the athlete; empty for a new one.

    Raises:
        FieldError: the code could not stand in a file name, another athlete has it,
            or recordings stand under the code that the athlete has.
    """
    code = rows.check_code(code)
    table = schema.athletes
    old = connection.scalar(sa.select(table.c.code).where(table.c.id == key))
    if old == code:
        return  # even where a recording from elsewhere brought one so alike
    if old is not None and _has_sets(connection, key):
        raise FieldError(
            "athlete.code",
            phrase("must stay {old}: recordings were made under it.", old=old),
        )
    other = connection.execute(
        sa.select(table.c.code, table.c.archived_utc)
        .where(sa.func.lower(table.c.code) == code.lower(), table.c.id != key)
        .limit(1)
    ).one_or_none()
    if other is None:
        return
    words = phrase("{code} is in use already", code=code)
    if other.code != code:
        words = phrase(
            "{code} is in use already, as {other}", code=code, other=other.code
        )
    if other.archived_utc is None:
        raise FieldError(
            "athlete.code",
            phrase("{words}.", words=words),
            phrase("Choose another code."),
        )
    # Who is archived is on no list, and has the code all the same.
    raise FieldError(
        "athlete.code",
        phrase("{words}, by an athlete who is archived.", words=words),
        phrase("Choose another code, or put that athlete back."),
    )


def check_date(text: str) -> None:
    """Whether a body mass can be of this date.

    Raises:
        FieldError: it is no ISO date, or still to come.
    """
    how = phrase("Type it as year-month-day, such as 2026-01-31.")
    try:
        day = date.fromisoformat(text)
    except ValueError:
        day = None
    if day is None or day.isoformat() != text:
        words = (
            phrase("“{text}” is no date.", text=text)
            if text
            else phrase("a date is missing.")
        )
        raise FieldError("athlete.mass_date", words, how)
    # The latest mass is the one in use, and a mass is never taken back: a date that
    # was mistyped into the future would stand before all others for years.
    if day > datetime.now(tz=UTC).astimezone().date():
        raise FieldError(
            "athlete.mass_date", phrase("{text} is still to come.", text=text), how
        )


def _has_sets(connection: sa.Connection, key: str) -> bool:
    sets, sessions = schema.sets, schema.sessions
    query = (
        sa.select(sets.c.id)
        .join(sessions, sessions.c.id == sets.c.session_id)
        .where(sessions.c.athlete_id == key)
        .limit(1)
    )
    return connection.scalar(query) is not None
