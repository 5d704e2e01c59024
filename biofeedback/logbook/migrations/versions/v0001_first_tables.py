"""Make the first tables.

Revision: 0001
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_KEY = sa.String(36)
_TIME = sa.DateTime(timezone=True)


def _key(table: str) -> tuple[sa.Column[str], sa.PrimaryKeyConstraint]:
    column = sa.Column("id", _KEY, nullable=False)
    return column, sa.PrimaryKeyConstraint("id", name=f"pk_{table}")


def _reference(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint([column], [f"{to}.id"], name=f"fk_{table}_{column}")


def upgrade() -> None:
    """From nothing to the first tables."""
    _people()
    _visits()
    _results()
    _records()


def _people() -> None:
    op.create_table(
        "athletes",
        *_key("athletes"),
        sa.Column("code", sa.String(32), nullable=False),
        sa.Column("name", sa.String(200)),
        sa.Column("added_utc", _TIME, nullable=False),
        sa.UniqueConstraint("code", name="uq_athletes_code"),
    )
    op.create_table(
        "tasks",
        *_key("tasks"),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("sides", sa.String(40), nullable=False),
        sa.Column("content", sa.JSON, nullable=False),
        sa.Column("added_utc", _TIME, nullable=False),
    )


def _visits() -> None:
    op.create_table(
        "sessions",
        *_key("sessions"),
        sa.Column("athlete_id", _KEY, nullable=False),
        sa.Column("started_utc", _TIME, nullable=False),
        _reference("sessions", "athlete_id", "athletes"),
    )
    op.create_index("ix_sessions_athlete_id", "sessions", ["athlete_id"])
    op.create_table(
        "sets",
        *_key("sets"),
        sa.Column("session_id", _KEY, nullable=False),
        sa.Column("task", sa.String(200), nullable=False),
        sa.Column("prescription", sa.JSON, nullable=False),
        sa.Column("profile", sa.JSON, nullable=False),
        sa.Column("recording", sa.String(255), nullable=False),
        sa.Column("started_utc", _TIME, nullable=False),
        sa.Column("closed_utc", _TIME),
        sa.Column("recovered", sa.Boolean(create_constraint=False), nullable=False),
        sa.Column("totals", sa.JSON),
        _reference("sets", "session_id", "sessions"),
    )
    op.create_index("ix_sets_session_id", "sets", ["session_id"])
    op.create_index("ix_sets_started_utc", "sets", ["started_utc"])


def _results() -> None:
    op.create_table(
        "reps",
        *_key("reps"),
        sa.Column("set_id", _KEY, nullable=False),
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
        sa.Column("stored_utc", _TIME, nullable=False),
        sa.UniqueConstraint("set_id", "number", name="uq_reps_set_id_number"),
        _reference("reps", "set_id", "sets"),
    )
    op.create_index("ix_reps_set_id", "reps", ["set_id"])
    op.create_table(
        "voids",
        *_key("voids"),
        sa.Column("rep_id", _KEY, nullable=False),
        sa.Column("reason", sa.String(2000), nullable=False),
        sa.Column("voided_utc", _TIME, nullable=False),
        _reference("voids", "rep_id", "reps"),
    )
    op.create_index("ix_voids_rep_id", "voids", ["rep_id"])


def _records() -> None:
    op.create_table(
        "notes",
        *_key("notes"),
        sa.Column("session_id", _KEY, nullable=False),
        sa.Column("set_id", _KEY),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("content", sa.JSON, nullable=False),
        sa.Column("at_utc", _TIME, nullable=False),
        _reference("notes", "session_id", "sessions"),
        _reference("notes", "set_id", "sets"),
    )
    op.create_index("ix_notes_session_id", "notes", ["session_id"])
    op.create_index("ix_notes_set_id", "notes", ["set_id"])
    op.create_table(
        "audit",
        *_key("audit"),
        sa.Column("action", sa.String(100), nullable=False),
        sa.Column("count", sa.Integer, nullable=False),
        sa.Column("at_utc", _TIME, nullable=False),
    )
