"""Reps as they are counted and followed over months: light rows.

A page of years needs a few numbers of thousands of reps. The full measures of each are
two kilobytes of JSON; here the database picks the few out of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from biofeedback.logbook import schema, voids
from biofeedback.logbook.rows import number_or_none

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.logbook.rows import RepRow

_MEASURES = {
    "dose_pct_s", "median_n", "cv_detrended_pct", "slope_n_per_s", "band_lower_n",
    "band_upper_n", "unbalanced_s",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class DoneRep:
    """A rep; the numbers are those of `RepMeasures`.

    Attributes:
        void: whether it was said not to count.
    """

    set_id: str
    number: int
    outcome: str
    feedback: str
    start_s: float
    end_s: float
    below_s: float | None
    inside_s: float | None
    above_s: float | None
    mean_n: float | None
    impulse_ns: float | None
    dose_pct_s: float | None
    median_n: float | None
    cv_detrended_pct: float | None
    slope_n_per_s: float | None
    band_lower_n: float | None
    band_upper_n: float | None
    unbalanced_s: float | None = None
    void: bool = False


_COLUMNS = DoneRep.__slots__[:-1]
"""Of the table; whether a rep is void stands in another."""


def done_reps(
    connection: sa.Connection,
    athlete_id: str,
    *,
    since_utc: datetime,
    until_utc: datetime,
) -> tuple[DoneRep, ...]:
    """The athlete's reps of sets begun in a period, set by set, in their order.

    Args:
        until_utc: the first moment after the period.
    """
    reps, sets, sessions = schema.reps, schema.sets, schema.sessions
    columns: list[sa.ColumnElement[Any]] = [
        reps.c.measures[name].as_float() if name in _MEASURES else reps.c[name]
        for name in _COLUMNS
    ]
    query = (
        sa.select(*columns, voids.is_void())
        .join(sets, sets.c.id == reps.c.set_id)
        .join(sessions, sessions.c.id == sets.c.session_id)
        .where(
            sessions.c.athlete_id == athlete_id,
            sets.c.started_utc >= since_utc,
            sets.c.started_utc < until_utc,
        )
        .order_by(sets.c.started_utc, sets.c.id, reps.c.number)
    )
    return tuple(DoneRep(*tuple(row)) for row in connection.execute(query))


def done_rep(row: RepRow) -> DoneRep:
    """A saved rep as a light row."""
    kept: dict[str, Any] = {
        name: number_or_none(row.measures.get(name))
        if name in _MEASURES
        else getattr(row, name)
        for name in _COLUMNS
    }
    return DoneRep(**kept, void=row.void_reason is not None)
