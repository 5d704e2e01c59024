"""The tables of the logbook.

Rules that hold here:

* Facts are only ever added. A rep that does not count keeps its row; a row in
  `voids` says so, with reason and time, until one in `void_withdrawals` takes it
  back. A time of a rep that was moved by hand is a row in `marker_moves` beside the
  one that the rules found. What is written later is written once, from
  nothing to a value: the end of a set (`closed_utc`, `recovered`, `totals`), and
  that a maximal test or a stated force does not count (`voided_utc`, `void_reason`).
* What people type about persons, tasks and plans can be edited; `changed_utc` says
  when. It is never deleted but archived (`archived_utc`), which can be undone.
* Names of people stand in `athletes.name` and nowhere else.
* What is told of a person in words stands in a column of type `Sealed…`: it is sealed
  where the logbook is, and SQL can neither search it nor order by it.
* A calibration is numbered for its rig and channel, from 1, and never changed;
  a newer one has the next number.
* Keys are UUIDv7 as text; times are UTC; units are in the column names.
* Numbers that the review lists are columns; all measures of a rep are in
  `reps.measures` as JSON, as they stand in the recording.

A change here needs a migration beside it, and a test compares the two.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook.sealed.columns import SealedJson, SealedText, SealedWhole

if TYPE_CHECKING:
    from sqlalchemy.engine import Dialect

SCHEMA_REVISION = "0005"
"""The migration that makes these tables."""

CODE_LENGTH = 32
KEY_LENGTH = 36


class UtcTime(sa.TypeDecorator[datetime]):
    """A time in UTC. SQLite has no time zones; others get theirs back as UTC."""

    impl = sa.DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(
        self,
        value: datetime | None,
        dialect: Dialect,  # noqa: ARG002  fixed by the base class
    ) -> datetime | None:
        """Takes aware times only, so that no local time can slip in."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a time without a time zone")
        return value.astimezone(UTC)

    def process_result_value(
        self,
        value: datetime | None,
        dialect: Dialect,  # noqa: ARG002  fixed by the base class
    ) -> datetime | None:
        """Gives aware times in UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value


def _key() -> sa.Column[str]:
    return sa.Column("id", sa.String(KEY_LENGTH), primary_key=True)


def _to(table: str, *, nullable: bool = False, index: bool = True) -> sa.Column[str]:
    """A foreign key; `index` is False where a wider index begins with it."""
    name = f"{table.removesuffix('s')}_id"
    return sa.Column(
        name,
        sa.String(KEY_LENGTH),
        sa.ForeignKey(f"{table}.id"),
        nullable=nullable,
        index=index,
    )


# Named by rule, so that a later migration can name a constraint on any database.
metadata = sa.MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

athletes = sa.Table(
    "athletes",
    metadata,
    _key(),
    sa.Column("code", sa.String(CODE_LENGTH), nullable=False, unique=True),
    sa.Column("name", SealedText("athletes.name", 200)),
    sa.Column("added_utc", UtcTime, nullable=False),
    sa.Column("birth_year", SealedWhole("athletes.birth_year")),
    # left, right, both
    sa.Column("dominant", SealedText("athletes.dominant", 10)),
    sa.Column("injured", SealedText("athletes.injured", 10)),
    sa.Column("notes", SealedText("athletes.notes", 2000)),
    sa.Column("consent", SealedText("athletes.consent", 2000)),
    sa.Column("changed_utc", UtcTime),
    sa.Column("archived_utc", UtcTime),
)

body_masses = sa.Table(
    "body_masses",
    metadata,
    _key(),
    _to("athletes", index=False),
    sa.Column("mass_kg", sa.Float, nullable=False),
    sa.Column("date", sa.String(10), nullable=False),  # of weighing, ISO
    sa.Column("stored_utc", UtcTime, nullable=False),
    # The latest of each athlete, for the list of all.
    sa.Index(None, "athlete_id", "date", "stored_utc", "id"),
)

tasks = sa.Table(
    "tasks",
    metadata,
    _key(),
    sa.Column("name", sa.String(200), nullable=False),
    sa.Column("kind", sa.String(40), nullable=False),
    sa.Column("sides", sa.String(40), nullable=False),
    sa.Column("content", sa.JSON, nullable=False),  # the whole task
    sa.Column("added_utc", UtcTime, nullable=False),
    sa.Column("changed_utc", UtcTime),
    sa.Column("archived_utc", UtcTime),
)

sessions = sa.Table(
    "sessions",
    metadata,
    _key(),
    _to("athletes", index=False),
    sa.Column("started_utc", UtcTime, nullable=False),
    # The latest of each athlete, for the list of all.
    sa.Index(None, "athlete_id", "started_utc"),
)

sets = sa.Table(
    "sets",
    metadata,
    _key(),
    _to("sessions"),
    sa.Column("task", sa.String(200), nullable=False),
    sa.Column("prescription", sa.JSON, nullable=False),
    sa.Column("profile", sa.JSON, nullable=False),
    # Relative to the folder of recordings, so that the folder can be moved.
    sa.Column("recording", sa.String(255), nullable=False),
    sa.Column("started_utc", UtcTime, nullable=False),
    sa.Column("closed_utc", UtcTime),
    sa.Column("recovered", sa.Boolean(create_constraint=False), nullable=False),
    sa.Column("totals", sa.JSON),
    # As the recording says, which may come from another station: no foreign keys.
    sa.Column("task_id", sa.String(KEY_LENGTH), index=True),
    sa.Column("sides", sa.String(10)),
    sa.Column("plan_id", sa.String(KEY_LENGTH), index=True),
    sa.Column("stage", sa.Integer),  # of the plan, from 0
    sa.Column("planned_key", sa.String(KEY_LENGTH)),
    # Pages of reps walk the sets from the newest; at the start it is asked which
    # recordings are known and closed. Both without reading the sets themselves.
    sa.Index(None, "started_utc", "id"),
    sa.Index(None, "closed_utc", "recording"),
)

reps = sa.Table(
    "reps",
    metadata,
    _key(),
    _to("sets"),
    sa.Column("number", sa.Integer, nullable=False),
    sa.Column("outcome", sa.String(20), nullable=False),
    sa.Column("feedback", sa.String(40), nullable=False),
    sa.Column("start_s", sa.Float, nullable=False),
    sa.Column("end_s", sa.Float, nullable=False),
    sa.Column("below_s", sa.Float),
    sa.Column("inside_s", sa.Float),
    sa.Column("above_s", sa.Float),
    sa.Column("lapses", sa.Integer),
    sa.Column("peak_n", sa.Float),
    sa.Column("mean_n", sa.Float),
    sa.Column("cv_pct", sa.Float),
    sa.Column("rmse_n", sa.Float),
    sa.Column("impulse_ns", sa.Float),
    sa.Column("left_share_pct", sa.Float),
    sa.Column("measures", sa.JSON, nullable=False),
    sa.Column("stored_utc", UtcTime, nullable=False),
    # Recovery writes a rep again that may be there already: it must not double.
    sa.UniqueConstraint("set_id", "number"),
)

voids = sa.Table(
    "voids",
    metadata,
    _key(),
    _to("reps"),
    sa.Column("reason", SealedText("voids.reason", 2000), nullable=False),
    sa.Column("voided_utc", UtcTime, nullable=False),
    sa.Column("voided_by", sa.String(100)),  # as typed: initials, a desk
)

void_withdrawals = sa.Table(
    "void_withdrawals",
    metadata,
    _key(),
    _to("voids"),
    sa.Column("reason", SealedText("void_withdrawals.reason", 2000), nullable=False),
    sa.Column("withdrawn_by", sa.String(100)),
    sa.Column("withdrawn_utc", UtcTime, nullable=False),
)

marker_moves = sa.Table(
    "marker_moves",
    metadata,
    _key(),
    _to("reps"),
    sa.Column("marker", sa.String(20), nullable=False),  # onset, entry, hold end
    # All since the start of the set, as the times of the rep.
    sa.Column("automatic_s", sa.Float),  # as the rules found it; none without entry
    sa.Column("before_s", sa.Float),  # where it stood
    sa.Column("to_s", sa.Float),  # none: where the rules found it
    # Of a move that takes back another one: which. Both stay.
    sa.Column("undoes_id", sa.String(KEY_LENGTH)),
    sa.Column("moved_by", sa.String(100)),
    sa.Column("moved_utc", UtcTime, nullable=False),
)

notes = sa.Table(
    "notes",
    metadata,
    _key(),
    _to("sessions"),
    _to("sets", nullable=True),
    sa.Column("kind", sa.String(40), nullable=False),
    # The level of pain is asked for in SQL, beside the reps.
    sa.Column("content", SealedJson("notes.content", "level"), nullable=False),
    sa.Column("at_utc", UtcTime, nullable=False),
)

calibrations = sa.Table(
    "calibrations",
    metadata,
    _key(),
    sa.Column("serial_number", sa.String(100), nullable=False),
    sa.Column("channel", sa.Integer, nullable=False),  # from 0, as on the wire
    sa.Column("number", sa.Integer, nullable=False),
    sa.Column("label", sa.String(100), nullable=False),
    sa.Column("date", sa.String(10), nullable=False),  # of the readings, ISO
    sa.Column("adc", sa.String(100), nullable=False),  # as the board calls it
    sa.Column("gain", sa.Integer),  # none where the ADC has none
    sa.Column("coefficients", sa.JSON, nullable=False),
    sa.Column("from_n", sa.Float, nullable=False),
    sa.Column("to_n", sa.Float, nullable=False),
    # All figures that were found, as the command line gives them.
    sa.Column("report", sa.JSON, nullable=False),
    sa.Column("stored_utc", UtcTime, nullable=False),
    sa.UniqueConstraint("serial_number", "channel", "number"),
)

calibration_points = sa.Table(
    "calibration_points",
    metadata,
    _key(),
    _to("calibrations"),
    sa.Column("number", sa.Integer, nullable=False),
    sa.Column("force_n", sa.Float, nullable=False),
    sa.Column("counts", sa.Float, nullable=False),
    sa.Column("direction", sa.String(10), nullable=False),
    sa.Column("run", sa.Integer, nullable=False),
    sa.Column("content", sa.JSON, nullable=False),  # mass, tolerance, spread, time
    sa.UniqueConstraint("calibration_id", "number"),
)

maximal_tests = sa.Table(
    "maximal_tests",
    metadata,
    _key(),
    _to("athletes"),
    _to("sessions", nullable=True),
    sa.Column("task_id", sa.String(KEY_LENGTH), index=True),
    sa.Column("task", sa.String(200), nullable=False),
    sa.Column("sides", sa.String(10), nullable=False),
    sa.Column("tested_utc", UtcTime, nullable=False),
    sa.Column("definition", sa.String(40), nullable=False),
    # The 100 % that was chosen, and what else it could have been.
    sa.Column("force_n", sa.Float, nullable=False),
    sa.Column("peak_n", sa.Float),
    sa.Column("half_s_n", sa.Float),
    sa.Column("one_s_n", sa.Float),
    sa.Column("left_n", sa.Float),  # of both sides together, at the chosen number
    sa.Column("right_n", sa.Float),
    sa.Column("trials", sa.Integer, nullable=False),
    sa.Column("differ_pct", sa.Float),  # the two best from each other
    sa.Column("practice", sa.Boolean(create_constraint=False), nullable=False),
    sa.Column("pain", sa.Integer),
    sa.Column("zero_kind", sa.String(40)),
    sa.Column("setup", sa.JSON),
    sa.Column("content", sa.JSON, nullable=False),  # every trial, with its set
    sa.Column("stored_utc", UtcTime, nullable=False),
    sa.Column("voided_utc", UtcTime),
    sa.Column("void_reason", SealedText("maximal_tests.void_reason", 2000)),
)

stated_forces = sa.Table(
    "stated_forces",
    metadata,
    _key(),
    _to("athletes"),
    sa.Column("task_id", sa.String(KEY_LENGTH), index=True),
    sa.Column("task", sa.String(200), nullable=False),
    sa.Column("sides", sa.String(10), nullable=False),
    sa.Column("origin", sa.String(40), nullable=False),
    sa.Column("definition", sa.String(40), nullable=False),
    sa.Column("force_n", sa.Float, nullable=False),
    sa.Column("date", sa.String(10), nullable=False),  # it is of, ISO
    sa.Column("note", SealedText("stated_forces.note", 2000)),
    sa.Column("stored_utc", UtcTime, nullable=False),
    sa.Column("voided_utc", UtcTime),
    sa.Column("void_reason", SealedText("stated_forces.void_reason", 2000)),
)

plans = sa.Table(
    "plans",
    metadata,
    _key(),
    _to("athletes"),
    sa.Column("name", SealedText("plans.name", 200), nullable=False),
    sa.Column("content", SealedJson("plans.content"), nullable=False),
    sa.Column("stage", sa.Integer, nullable=False),  # under way, from 0
    sa.Column("copied_from", sa.String(KEY_LENGTH)),
    sa.Column("added_utc", UtcTime, nullable=False),
    sa.Column("changed_utc", UtcTime),
    sa.Column("archived_utc", UtcTime),
)

plan_moves = sa.Table(
    "plan_moves",
    metadata,
    _key(),
    _to("plans"),
    sa.Column("from_stage", sa.Integer),  # none where the plan began
    sa.Column("to_stage", sa.Integer, nullable=False),
    # Of the stage that was entered: its index changes where others are taken out.
    sa.Column("stage_key", sa.String(KEY_LENGTH)),
    sa.Column("reason", SealedText("plan_moves.reason", 2000)),
    sa.Column("at_utc", UtcTime, nullable=False),
)

plan_words = sa.Table(
    "plan_words",
    metadata,
    _key(),
    _to("plans"),
    sa.Column("stage", sa.Integer, nullable=False),
    sa.Column("criterion", sa.String(KEY_LENGTH), nullable=False),
    sa.Column("met", sa.Boolean(create_constraint=False), nullable=False),
    sa.Column("note", SealedText("plan_words.note", 2000)),
    sa.Column("at_utc", UtcTime, nullable=False),
)

day_reports = sa.Table(
    "day_reports",
    metadata,
    _key(),
    _to("athletes"),
    _to("sessions", nullable=True),
    sa.Column("pain_now", sa.Integer, nullable=False),  # 0 to 10, as all pain
    sa.Column("pain_night", sa.Integer),
    sa.Column("pain_morning", sa.Integer),  # the morning after the last session
    sa.Column("sleep_h", sa.Float),
    sa.Column("soreness", sa.Integer),  # 0 to 10
    sa.Column("reported_utc", UtcTime, nullable=False),
)

day_choices = sa.Table(
    "day_choices",
    metadata,
    _key(),
    _to("day_reports"),
    sa.Column("plan_id", sa.String(KEY_LENGTH), index=True),
    sa.Column("planned_key", sa.String(KEY_LENGTH)),
    sa.Column("task_id", sa.String(KEY_LENGTH)),
    sa.Column("sides", sa.String(10), nullable=False),
    sa.Column("proposed", sa.JSON, nullable=False),
    sa.Column("accepted", sa.JSON, nullable=False),
    sa.Column("at_utc", UtcTime, nullable=False),
)

settings = sa.Table(
    "settings",
    metadata,
    sa.Column("key", sa.String(100), primary_key=True),
    sa.Column("content", sa.JSON, nullable=False),
    sa.Column("changed_utc", UtcTime, nullable=False),
)

audit = sa.Table(
    "audit",
    metadata,
    _key(),
    sa.Column("action", sa.String(100), nullable=False),
    sa.Column("count", sa.Integer, nullable=False),
    sa.Column("at_utc", UtcTime, nullable=False),
    # Whose data it was. Erasing empties it: who was erased must not be found here.
    sa.Column("code", sa.String(CODE_LENGTH)),
    sa.Column("by_user", sa.String(100)),  # of the system
    sa.Column("practitioner", sa.String(100)),  # the name set for that user
    sa.Column("place", sa.String(1000)),  # where a file or folder went
)
