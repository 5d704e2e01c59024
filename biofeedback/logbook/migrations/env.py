"""Runs the steps on a connection that is given, within its transaction.

Alembic loads this file; it is never imported.
"""

from alembic import context

from biofeedback.logbook.schema import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    transactional_ddl=True,  # true for SQLite too, as this logbook drives it
    render_as_batch=True,  # SQLite can change a table only by copying it
)
context.run_migrations()
