"""The tables of the logbook.

Rules that hold here:

* Facts are only ever added. A rep that does not count keeps its row; a row in
  `voids` says so, with reason and time. The one thing written later is the end
  of a set (`closed_utc`, `recovered`, `totals`), once, from nothing to a value.
* Names of people stand in `athletes.name` and nowhere else.
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

if TYPE_CHECKING:
    from sqlalchemy.engine import Dialect

SCHEMA_REVISION = "0002"
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


def _to(table: str, *, nullable: bool = False) -> sa.Column[str]:
    name = f"{table.removesuffix('s')}_id"
    return sa.Column(
        name,
        sa.String(KEY_LENGTH),
        sa.ForeignKey(f"{table}.id"),
        nullable=nullable,
        index=True,
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
    sa.Column("name", sa.String(200)),
    sa.Column("added_utc", UtcTime, nullable=False),
)

tasks = sa.Table(
    "tasks",
    metadata,
    _key(),
    sa.Column("name", sa.String(200), nullable=False),
    sa.Column("kind", sa.String(40), nullable=False),
    sa.Column("sides", sa.String(40), nullable=False),
    sa.Column("content", sa.JSON, nullable=False),
    sa.Column("added_utc", UtcTime, nullable=False),
)

sessions = sa.Table(
    "sessions",
    metadata,
    _key(),
    _to("athletes"),
    sa.Column("started_utc", UtcTime, nullable=False),
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
    sa.Column("started_utc", UtcTime, nullable=False, index=True),
    sa.Column("closed_utc", UtcTime),
    sa.Column("recovered", sa.Boolean(create_constraint=False), nullable=False),
    sa.Column("totals", sa.JSON),
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
    sa.Column("reason", sa.String(2000), nullable=False),
    sa.Column("voided_utc", UtcTime, nullable=False),
)

notes = sa.Table(
    "notes",
    metadata,
    _key(),
    _to("sessions"),
    _to("sets", nullable=True),
    sa.Column("kind", sa.String(40), nullable=False),
    sa.Column("content", sa.JSON, nullable=False),
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

audit = sa.Table(
    "audit",
    metadata,
    _key(),
    sa.Column("action", sa.String(100), nullable=False),
    # A number and no more: who was erased must not be found here.
    sa.Column("count", sa.Integer, nullable=False),
    sa.Column("at_utc", UtcTime, nullable=False),
)
