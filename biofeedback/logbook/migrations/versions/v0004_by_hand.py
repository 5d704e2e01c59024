"""Add moves of markers by hand, and the taking back of voids.

Revision: 0004
"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

_KEY = sa.String(36)
_TIME = sa.DateTime(timezone=True)


def upgrade() -> None:
    """One column and two tables more; what is there stays as it is."""
    op.add_column("voids", sa.Column("voided_by", sa.String(100)))
    op.create_table(
        "void_withdrawals",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("void_id", _KEY, nullable=False),
        sa.Column("reason", sa.String(2000), nullable=False),
        sa.Column("withdrawn_by", sa.String(100)),
        sa.Column("withdrawn_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_void_withdrawals"),
        sa.ForeignKeyConstraint(
            ["void_id"], ["voids.id"], name="fk_void_withdrawals_void_id"
        ),
    )
    op.create_index("ix_void_withdrawals_void_id", "void_withdrawals", ["void_id"])
    op.create_table(
        "marker_moves",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("rep_id", _KEY, nullable=False),
        sa.Column("marker", sa.String(20), nullable=False),
        sa.Column("automatic_s", sa.Float),
        sa.Column("before_s", sa.Float),
        sa.Column("to_s", sa.Float),
        sa.Column("undoes_id", _KEY),
        sa.Column("moved_by", sa.String(100)),
        sa.Column("moved_utc", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_marker_moves"),
        sa.ForeignKeyConstraint(["rep_id"], ["reps.id"], name="fk_marker_moves_rep_id"),
    )
    op.create_index("ix_marker_moves_rep_id", "marker_moves", ["rep_id"])
