"""Which sets an export is of: by athlete, task and day.

Days are local ones, as the person who asks means them, from the beginning of the
first to the end of the last. Codes and tasks that are not in the logbook are refused:
a typing slip must not give an empty export.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import schema
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import datetime as dt

TASKS_TOLD = 20
"""So many tasks are named where one was not found."""


@dataclass(frozen=True, slots=True)
class Filters:
    """What to take; an empty one takes all.

    Attributes:
        codes: of athletes.
        tasks: names of tasks; capitals do not matter.
        first_day, last_day: local days, both included.

    Raises:
        FieldError: the last day is before the first.
    """

    codes: tuple[str, ...] = ()
    tasks: tuple[str, ...] = ()
    first_day: dt.date | None = None
    last_day: dt.date | None = None

    def __post_init__(self) -> None:
        if self.first_day and self.last_day and self.last_day < self.first_day:
            raise FieldError(
                "to",
                phrase(
                    "{last_day} is before {first_day}.",
                    last_day=self.last_day,
                    first_day=self.first_day,
                ),
                phrase("Swap the days."),
            )

    @property
    def from_utc(self) -> datetime | None:
        """The beginning of the first day."""
        return None if self.first_day is None else _midnight(self.first_day)

    @property
    def before_utc(self) -> datetime | None:
        """The end of the last day."""
        if self.last_day is None:
            return None
        return _midnight(self.last_day, days_on=1)


@dataclass(frozen=True, slots=True)
class ChosenSet:
    """A set to be exported."""

    set_id: str
    session_utc: datetime


def _midnight(day: dt.date, *, days_on: int = 0) -> datetime:
    """Where this machine is, with its summer time."""
    try:
        begins = datetime.combine(day + timedelta(days=days_on), time.min)
        return begins.astimezone(UTC)
    except (OverflowError, ValueError, OSError) as error:
        raise FieldError("day", phrase("{day} is too far away.", day=day)) from error


def choose(connection: sa.Connection, filters: Filters) -> list[ChosenSet]:
    """The sets that are wanted, oldest first.

    Raises:
        FieldError: a code or a task is not in the logbook.
    """
    sets, sessions, athletes = schema.sets, schema.sessions, schema.athletes
    wanted: list[sa.ColumnElement[bool]] = []
    if filters.codes:
        _check_codes(connection, filters.codes)
        wanted.append(athletes.c.code.in_(filters.codes))
    if filters.tasks:
        wanted.append(sets.c.task.in_(_tasks(connection, filters.tasks)))
    if filters.from_utc is not None:
        wanted.append(sets.c.started_utc >= filters.from_utc)
    if filters.before_utc is not None:
        wanted.append(sets.c.started_utc < filters.before_utc)
    query = (
        sa.select(sets.c.id, sessions.c.started_utc)
        .join(sessions, sessions.c.id == sets.c.session_id)
        .join(athletes, athletes.c.id == sessions.c.athlete_id)
        .where(*wanted)
        .order_by(sets.c.started_utc, sets.c.id)
    )
    return [ChosenSet(*row) for row in connection.execute(query)]


def _check_codes(connection: sa.Connection, codes: tuple[str, ...]) -> None:
    column = schema.athletes.c.code
    known = set(connection.scalars(sa.select(column).where(column.in_(codes))))
    for code in codes:
        if code not in known:
            raise FieldError(
                "athlete",
                phrase("there is no athlete “{code}” in the logbook.", code=code),
            )


def _tasks(connection: sa.Connection, asked: tuple[str, ...]) -> set[str]:
    """Names as they stand in the logbook."""
    there = set(connection.scalars(sa.select(schema.sets.c.task).distinct()))
    found: set[str] = set()
    for name in asked:
        same = {task for task in there if _folded(task) == _folded(name)}
        if not same:
            told = ", ".join(f"“{task}”" for task in sorted(there)[:TASKS_TOLD])
            more = ", …" if len(there) > TASKS_TOLD else ""
            raise FieldError(
                "task",
                phrase("there is no set of a task “{name}”.", name=name),
                phrase("There are: {told}.", told=f"{told}{more}")
                if told
                else phrase("The logbook has no set yet."),
            )
        found |= same
    return found


def _folded(text: str) -> str:
    return unicodedata.normalize("NFKC", " ".join(text.split())).casefold()
