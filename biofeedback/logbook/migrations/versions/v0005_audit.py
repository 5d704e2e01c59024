"""Add to the audit who it was, whose data it was, and where it went.

Revision: 0005
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Four columns more; what is there stays as it is."""
    op.add_column("audit", sa.Column("code", sa.String(32)))
    op.add_column("audit", sa.Column("by_user", sa.String(100)))
    op.add_column("audit", sa.Column("practitioner", sa.String(100)))
    op.add_column("audit", sa.Column("place", sa.String(1000)))
