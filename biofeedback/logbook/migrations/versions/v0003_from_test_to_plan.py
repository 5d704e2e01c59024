"""Add people's details, maximal tests, stated forces, plans, days and settings.

Revision: 0003
"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

_KEY = sa.String(36)
_TIME = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Columns and tables more; what is there stays as it is."""
    _more_columns()
    _wider_indices()
    _people_and_tests()
    _plans()
    _days()


def _more_columns() -> None:
    op.add_column("athletes", sa.Column("birth_year", sa.Integer))
    op.add_column("athletes", sa.Column("dominant", sa.String(10)))
    op.add_column("athletes", sa.Column("injured", sa.String(10)))
    op.add_column("athletes", sa.Column("notes", sa.String(2000)))
    op.add_column("athletes", sa.Column("consent", sa.String(2000)))
    op.add_column("athletes", sa.Column("changed_utc", _TIME))
    op.add_column("athletes", sa.Column("archived_utc", _TIME))
    op.add_column("tasks", sa.Column("changed_utc", _TIME))
    op.add_column("tasks", sa.Column("archived_utc", _TIME))
    op.add_column("sets", sa.Column("task_id", _KEY))
    op.create_index("ix_sets_task_id", "sets", ["task_id"])
    op.add_column("sets", sa.Column("sides", sa.String(10)))
    op.add_column("sets", sa.Column("plan_id", _KEY))
    op.create_index("ix_sets_plan_id", "sets", ["plan_id"])
    op.add_column("sets", sa.Column("stage", sa.Integer))
    op.add_column("sets", sa.Column("planned_key", _KEY))


def _wider_indices() -> None:
    op.create_index(
        "ix_sessions_athlete_id_started_utc", "sessions", ["athlete_id", "started_utc"]
    )
    op.drop_index("ix_sessions_athlete_id", "sessions")
    op.create_index("ix_sets_started_utc_id", "sets", ["started_utc", "id"])
    op.drop_index("ix_sets_started_utc", "sets")
    op.create_index("ix_sets_closed_utc_recording", "sets", ["closed_utc", "recording"])


def _people_and_tests() -> None:
    op.create_table(
        "body_masses",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("athlete_id", _KEY, nullable=False),
        sa.Column("mass_kg", sa.Float, nullable=False),
        sa.Column("date", sa.String(10), nullable=False),
        sa.Column("stored_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_body_masses"),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athletes.id"], name="fk_body_masses_athlete_id"
        ),
    )
    op.create_index(
        "ix_body_masses_athlete_id_date_stored_utc_id",
        "body_masses",
        ["athlete_id", "date", "stored_utc", "id"],
    )
    op.create_table(
        "maximal_tests",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("athlete_id", _KEY, nullable=False),
        sa.Column("session_id", _KEY),
        sa.Column("task_id", _KEY),
        sa.Column("task", sa.String(200), nullable=False),
        sa.Column("sides", sa.String(10), nullable=False),
        sa.Column("tested_utc", _TIME, nullable=False),
        sa.Column("definition", sa.String(40), nullable=False),
        sa.Column("force_n", sa.Float, nullable=False),
        sa.Column("peak_n", sa.Float),
        sa.Column("half_s_n", sa.Float),
        sa.Column("one_s_n", sa.Float),
        sa.Column("left_n", sa.Float),
        sa.Column("right_n", sa.Float),
        sa.Column("trials", sa.Integer, nullable=False),
        sa.Column("differ_pct", sa.Float),
        sa.Column("practice", sa.Boolean(create_constraint=False), nullable=False),
        sa.Column("pain", sa.Integer),
        sa.Column("zero_kind", sa.String(40)),
        sa.Column("setup", sa.JSON),
        sa.Column("content", sa.JSON, nullable=False),
        sa.Column("stored_utc", _TIME, nullable=False),
        sa.Column("voided_utc", _TIME),
        sa.Column("void_reason", sa.String(2000)),
        sa.PrimaryKeyConstraint("id", name="pk_maximal_tests"),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athletes.id"], name="fk_maximal_tests_athlete_id"
        ),
        sa.ForeignKeyConstraint(
            ["session_id"], ["sessions.id"], name="fk_maximal_tests_session_id"
        ),
    )
    op.create_index("ix_maximal_tests_athlete_id", "maximal_tests", ["athlete_id"])
    op.create_index("ix_maximal_tests_session_id", "maximal_tests", ["session_id"])
    op.create_index("ix_maximal_tests_task_id", "maximal_tests", ["task_id"])
    op.create_table(
        "stated_forces",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("athlete_id", _KEY, nullable=False),
        sa.Column("task_id", _KEY),
        sa.Column("task", sa.String(200), nullable=False),
        sa.Column("sides", sa.String(10), nullable=False),
        sa.Column("origin", sa.String(40), nullable=False),
        sa.Column("definition", sa.String(40), nullable=False),
        sa.Column("force_n", sa.Float, nullable=False),
        sa.Column("date", sa.String(10), nullable=False),
        sa.Column("note", sa.String(2000)),
        sa.Column("stored_utc", _TIME, nullable=False),
        sa.Column("voided_utc", _TIME),
        sa.Column("void_reason", sa.String(2000)),
        sa.PrimaryKeyConstraint("id", name="pk_stated_forces"),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athletes.id"], name="fk_stated_forces_athlete_id"
        ),
    )
    op.create_index("ix_stated_forces_athlete_id", "stated_forces", ["athlete_id"])
    op.create_index("ix_stated_forces_task_id", "stated_forces", ["task_id"])


def _plans() -> None:
    op.create_table(
        "plans",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("athlete_id", _KEY, nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("content", sa.JSON, nullable=False),
        sa.Column("stage", sa.Integer, nullable=False),
        sa.Column("copied_from", _KEY),
        sa.Column("added_utc", _TIME, nullable=False),
        sa.Column("changed_utc", _TIME),
        sa.Column("archived_utc", _TIME),
        sa.PrimaryKeyConstraint("id", name="pk_plans"),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athletes.id"], name="fk_plans_athlete_id"
        ),
    )
    op.create_index("ix_plans_athlete_id", "plans", ["athlete_id"])
    op.create_table(
        "plan_moves",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("plan_id", _KEY, nullable=False),
        sa.Column("from_stage", sa.Integer),
        sa.Column("to_stage", sa.Integer, nullable=False),
        sa.Column("stage_key", _KEY),
        sa.Column("reason", sa.String(2000)),
        sa.Column("at_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_plan_moves"),
        sa.ForeignKeyConstraint(
            ["plan_id"], ["plans.id"], name="fk_plan_moves_plan_id"
        ),
    )
    op.create_index("ix_plan_moves_plan_id", "plan_moves", ["plan_id"])
    op.create_table(
        "plan_words",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("plan_id", _KEY, nullable=False),
        sa.Column("stage", sa.Integer, nullable=False),
        sa.Column("criterion", _KEY, nullable=False),
        sa.Column("met", sa.Boolean(create_constraint=False), nullable=False),
        sa.Column("note", sa.String(2000)),
        sa.Column("at_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_plan_words"),
        sa.ForeignKeyConstraint(
            ["plan_id"], ["plans.id"], name="fk_plan_words_plan_id"
        ),
    )
    op.create_index("ix_plan_words_plan_id", "plan_words", ["plan_id"])


def _days() -> None:
    op.create_table(
        "day_reports",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("athlete_id", _KEY, nullable=False),
        sa.Column("session_id", _KEY),
        sa.Column("pain_now", sa.Integer, nullable=False),
        sa.Column("pain_night", sa.Integer),
        sa.Column("pain_morning", sa.Integer),
        sa.Column("sleep_h", sa.Float),
        sa.Column("soreness", sa.Integer),
        sa.Column("reported_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_day_reports"),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athletes.id"], name="fk_day_reports_athlete_id"
        ),
        sa.ForeignKeyConstraint(
            ["session_id"], ["sessions.id"], name="fk_day_reports_session_id"
        ),
    )
    op.create_index("ix_day_reports_athlete_id", "day_reports", ["athlete_id"])
    op.create_index("ix_day_reports_session_id", "day_reports", ["session_id"])
    op.create_table(
        "day_choices",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("day_report_id", _KEY, nullable=False),
        sa.Column("plan_id", _KEY),
        sa.Column("planned_key", _KEY),
        sa.Column("task_id", _KEY),
        sa.Column("sides", sa.String(10), nullable=False),
        sa.Column("proposed", sa.JSON, nullable=False),
        sa.Column("accepted", sa.JSON, nullable=False),
        sa.Column("at_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_day_choices"),
        sa.ForeignKeyConstraint(
            ["day_report_id"], ["day_reports.id"], name="fk_day_choices_day_report_id"
        ),
    )
    op.create_index("ix_day_choices_day_report_id", "day_choices", ["day_report_id"])
    op.create_index("ix_day_choices_plan_id", "day_choices", ["plan_id"])
    op.create_table(
        "settings",
        sa.Column("key", sa.String(100), nullable=False),
        sa.Column("content", sa.JSON, nullable=False),
        sa.Column("changed_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_settings"),
    )
