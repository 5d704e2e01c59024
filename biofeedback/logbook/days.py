"""Days: what athletes reported before a set, what was proposed, what was accepted.

Rules that hold here:

* A report and a choice are facts: both are only ever added. The latest report of a
  day is the one that counts; one that was taken back later in its visit does not, and
  stays (a note says that it was).
* A choice keeps what was proposed beside what was accepted, as JSON, so that it can be
  told later how often and which way people differ from the rule.
* *Last time* is the last choice that was carried out: a rep of that task and these
  sides was saved in the hours after it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, rows, schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.session_notes import ANSWERS_BACK
from biofeedback.phrase import phrase
from biofeedback.training.day import DayReport
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Mapping

CARRIED_OUT_WITHIN = timedelta(hours=12)
"""A set that begins later belongs to another visit."""
LOOKED_AT = 50
"""Choices in a row that may not have been carried out; more is nobody's habit."""
LIST_MAX = 1000


@dataclass(frozen=True, slots=True)
class ReportRow:
    """What was reported, by whom and when."""

    id: str
    athlete_id: str
    session_id: str | None
    report: DayReport
    reported_utc: datetime


@dataclass(frozen=True, slots=True)
class NewChoice:
    """A decision on one set.

    Attributes:
        report_id: of the report it was decided on.
        plan_id, planned_key: the planned prescription, or empty for a free one.
        task_id: key of the task, or empty where it has none.
        proposed, accepted: JSON objects.
    """

    report_id: str
    sides: Sides
    proposed: Mapping[str, object]
    accepted: Mapping[str, object]
    plan_id: str = ""
    planned_key: str = ""
    task_id: str = ""


@dataclass(frozen=True, slots=True)
class ChoiceRow:
    """A decision that was kept; the attributes are those of `NewChoice`."""

    id: str
    report: ReportRow
    sides: Sides
    proposed: Mapping[str, object]
    accepted: Mapping[str, object]
    plan_id: str
    planned_key: str
    task_id: str
    at_utc: datetime


class Days(Door):
    """What is kept of days; got from `Logbook.days`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def report(
        self,
        athlete_id: str,
        report: DayReport,
        *,
        session_id: str = "",
        at_utc: datetime | None = None,
    ) -> str:
        """Keeps a report and returns its key.

        Args:
            session_id: of the visit, or empty where it has not begun.
            at_utc: when it was reported; now where it is not given.

        Raises:
            FieldError: athlete or session is unknown.
        """
        with self._write() as connection:
            if not entries.known(connection, schema.athletes, athlete_id):
                raise FieldError(
                    "athlete_id",
                    phrase("there is no athlete {athlete_id}.", athlete_id=athlete_id),
                )
            if session_id and not entries.known(
                connection, schema.sessions, session_id
            ):
                raise FieldError(
                    "session_id",
                    phrase("there is no session {session_id}.", session_id=session_id),
                )
            return entries.insert(
                connection,
                schema.day_reports,
                athlete_id=athlete_id,
                session_id=session_id or None,
                pain_now=report.pain_now,
                pain_night=report.pain_night,
                pain_morning=report.pain_morning,
                sleep_h=report.sleep_h,
                soreness=report.soreness,
                reported_utc=at_utc or now_utc(),
            )

    def reports(
        self, athlete_id: str, *, session_id: str = "", limit: int = 100
    ) -> tuple[ReportRow, ...]:
        """The athlete's reports that were not taken back, newest first.

        Args:
            session_id: only those of this visit.
        """
        table = schema.day_reports
        query = (
            sa.select(table)
            .where(*_reported(athlete_id, session_id), ~_taken_back())
            .order_by(table.c.reported_utc.desc(), table.c.id.desc())
            .limit(min(limit, LIST_MAX))
        )
        with self._read() as connection:
            found = connection.execute(query).mappings().all()
        return tuple(_report_of(row) for row in found)

    def choose(self, new: NewChoice, *, at_utc: datetime | None = None) -> str:
        """Keeps a decision and returns its key.

        Raises:
            FieldError: the report is unknown.
        """
        with self._write() as connection:
            if not entries.known(connection, schema.day_reports, new.report_id):
                raise FieldError(
                    "report_id",
                    phrase("there is no report {report_id}.", report_id=new.report_id),
                )
            return entries.insert(
                connection,
                schema.day_choices,
                day_report_id=new.report_id,
                plan_id=new.plan_id or None,
                planned_key=new.planned_key or None,
                task_id=new.task_id or None,
                sides=new.sides.value,
                proposed=rows.plain(new.proposed),
                accepted=rows.plain(new.accepted),
                at_utc=at_utc or now_utc(),
            )

    def choices(
        self, athlete_id: str, *, session_id: str = "", limit: int = 100
    ) -> tuple[ChoiceRow, ...]:
        """The decisions on an athlete's sets, newest first.

        Args:
            session_id: only those on a report of this visit.
        """
        wanted = _reported(athlete_id, session_id)
        with self._read() as connection:
            return _choices(connection, wanted, min(limit, LIST_MAX))

    def last_time(
        self,
        athlete_id: str,
        sides: Sides,
        *,
        before: datetime,
        plan_id: str = "",
        planned_key: str = "",
        task_id: str = "",
    ) -> ChoiceRow | None:
        """The last decision on this set that was carried out; None without one.

        Args:
            before: decisions of this time and later are of today.
            plan_id, planned_key: the planned prescription; where there is none, a
                free one of the same task is looked for.
        """
        choices = schema.day_choices
        if not (planned_key or task_id):
            return None  # nothing says which set it is
        wanted = [
            schema.day_reports.c.athlete_id == athlete_id,
            choices.c.sides == sides.value,
            choices.c.at_utc < before,
        ]
        if planned_key:
            wanted += [
                choices.c.plan_id == plan_id,
                choices.c.planned_key == planned_key,
            ]
        else:
            wanted += [choices.c.planned_key.is_(None), choices.c.task_id == task_id]
        with self._read() as connection:
            for choice in _choices(connection, wanted, LOOKED_AT):
                if _carried_out(connection, choice):
                    return choice
        return None

    def last_visit(self, athlete_id: str, *, before: datetime) -> datetime | None:
        """Start of the last set with a rep before a time; None without one."""
        sets, sessions, reps = schema.sets, schema.sessions, schema.reps
        query = (
            sa.select(sets.c.started_utc)
            .join(sessions, sessions.c.id == sets.c.session_id)
            .where(
                sessions.c.athlete_id == athlete_id,
                sets.c.started_utc < before,
                sets.c.id.in_(sa.select(reps.c.set_id)),
            )
            .order_by(sets.c.started_utc.desc())
            .limit(1)
        )
        with self._read() as connection:
            return connection.scalar(query)


def _reported(athlete_id: str, session_id: str) -> list[sa.ColumnElement[bool]]:
    """The reports of an athlete; of one visit, where it is given."""
    table = schema.day_reports
    wanted = [table.c.athlete_id == athlete_id]
    if session_id:
        wanted.append(table.c.session_id == session_id)
    return wanted


def _taken_back() -> sa.Exists:
    """Whether a note of the same visit takes back what was reported before it."""
    table, notes = schema.day_reports, schema.notes
    return (
        sa.select(notes.c.id)
        .where(
            notes.c.session_id == table.c.session_id,
            notes.c.kind == ANSWERS_BACK,
            notes.c.at_utc >= table.c.reported_utc,
        )
        .exists()
    )


def _choices(
    connection: sa.Connection, wanted: list[sa.ColumnElement[bool]], limit: int
) -> tuple[ChoiceRow, ...]:
    choices, reports = schema.day_choices, schema.day_reports
    own = [column for column in choices.c if column.name != "id"]
    query = (
        sa.select(choices.c.id.label("choice_id"), *own, *reports.c)
        .join(reports, reports.c.id == choices.c.day_report_id)
        .where(*wanted)
        .order_by(choices.c.at_utc.desc(), choices.c.id.desc())
        .limit(limit)
    )
    return tuple(
        ChoiceRow(
            id=row["choice_id"],
            report=_report_of(row),
            sides=Sides(row["sides"]),
            proposed=row["proposed"],
            accepted=row["accepted"],
            plan_id=row["plan_id"] or "",
            planned_key=row["planned_key"] or "",
            task_id=row["task_id"] or "",
            at_utc=row["at_utc"],
        )
        for row in connection.execute(query).mappings()
    )


def _carried_out(connection: sa.Connection, choice: ChoiceRow) -> bool:
    """Whether a rep of the set was saved in the hours after the decision."""
    sets, sessions, reps = schema.sets, schema.sessions, schema.reps
    same = []  # a comparison with nothing would fit every set that has none
    if choice.planned_key:
        same.append(
            sa.and_(
                sets.c.plan_id == choice.plan_id,
                sets.c.planned_key == choice.planned_key,
            )
        )
    if choice.task_id:
        same.append(sets.c.task_id == choice.task_id)
    query = (
        sa.select(sets.c.id)
        .join(sessions, sessions.c.id == sets.c.session_id)
        .where(
            sessions.c.athlete_id == choice.report.athlete_id,
            sa.or_(*same),
            sets.c.sides == choice.sides.value,
            sets.c.started_utc >= choice.at_utc,
            sets.c.started_utc < choice.at_utc + CARRIED_OUT_WITHIN,
            sets.c.id.in_(sa.select(reps.c.set_id)),
        )
        .limit(1)
    )
    return connection.scalar(query) is not None


def _report_of(row: sa.RowMapping) -> ReportRow:
    return ReportRow(
        id=row["id"],
        athlete_id=row["athlete_id"],
        session_id=row["session_id"],
        report=DayReport(
            row["pain_now"],
            row["pain_night"],
            row["pain_morning"],
            row["sleep_h"],
            row["soreness"],
        ),
        reported_utc=row["reported_utc"],
    )
