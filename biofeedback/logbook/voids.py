"""Voids: which reps do not count, as expressions for the questions of the logbook.

A rep is void while there is a row in `voids` for it that no row in `void_withdrawals`
takes back. The first reason that stands is the one; a station that voids the rep again
adds nothing.
"""

from __future__ import annotations

import sqlalchemy as sa

from biofeedback.logbook import schema

_reps, _voids, _withdrawals = schema.reps, schema.voids, schema.void_withdrawals


def standing() -> sa.ColumnElement[bool]:
    """Whether a row of `voids` still holds."""
    return ~sa.exists().where(_withdrawals.c.void_id == _voids.c.id)


def is_void() -> sa.ColumnElement[bool]:
    """Whether a row of `reps` does not count."""
    return sa.exists().where(_voids.c.rep_id == _reps.c.id, standing())


def reason() -> sa.ScalarSelect[str]:
    """Why a row of `reps` does not count; null where it does."""
    return (
        sa.select(_voids.c.reason)
        .where(_voids.c.rep_id == _reps.c.id, standing())
        .order_by(_voids.c.voided_utc, _voids.c.id)
        .limit(1)
        .scalar_subquery()
    )
