"""Add calibrations with their points.

Revision: 0002
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

_KEY = sa.String(36)


def upgrade() -> None:
    """Two tables more; what is there stays as it is."""
    op.create_table(
        "calibrations",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("serial_number", sa.String(100), nullable=False),
        sa.Column("channel", sa.Integer, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("label", sa.String(100), nullable=False),
        sa.Column("date", sa.String(10), nullable=False),
        sa.Column("adc", sa.String(100), nullable=False),
        sa.Column("gain", sa.Integer),
        sa.Column("coefficients", sa.JSON, nullable=False),
        sa.Column("from_n", sa.Float, nullable=False),
        sa.Column("to_n", sa.Float, nullable=False),
        sa.Column("report", sa.JSON, nullable=False),
        sa.Column("stored_utc", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_calibrations"),
        sa.UniqueConstraint(
            "serial_number",
            "channel",
            "number",
            name="uq_calibrations_serial_number_channel_number",
        ),
    )
    op.create_table(
        "calibration_points",
        sa.Column("id", _KEY, nullable=False),
        sa.Column("calibration_id", _KEY, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("force_n", sa.Float, nullable=False),
        sa.Column("counts", sa.Float, nullable=False),
        sa.Column("direction", sa.String(10), nullable=False),
        sa.Column("run", sa.Integer, nullable=False),
        sa.Column("content", sa.JSON, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_calibration_points"),
        sa.UniqueConstraint(
            "calibration_id",
            "number",
            name="uq_calibration_points_calibration_id_number",
        ),
        sa.ForeignKeyConstraint(
            ["calibration_id"],
            ["calibrations.id"],
            name="fk_calibration_points_calibration_id",
        ),
    )
    op.create_index(
        "ix_calibration_points_calibration_id",
        "calibration_points",
        ["calibration_id"],
    )
