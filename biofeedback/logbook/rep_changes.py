"""What was changed on saved reps by hand: markers that were moved, and voids.

Nothing here changes a row. A marker stands where the newest move that was not taken
back put it; taking a move back is a row of its own. The times that the rules found stay
in the rep, and beside each move.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, schema, voids
from biofeedback.logbook.door import Door
from biofeedback.logbook.moments import now_utc
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

BY_MAX = 100
REASON_MAX = 2000


@dataclass(frozen=True, slots=True)
class MarkerMove:
    """One move of a marker by hand; all times since the start of the set.

    Attributes:
        automatic_s: where the rules found it; None where they found none.
        before_s: where it stood before.
        to_s: where it was put; None: back to where the rules found it.
        undoes_id: the move that this one takes back, or None.
        moved_by: who, as typed.
    """

    id: str
    marker: str
    automatic_s: float | None
    before_s: float | None
    to_s: float | None
    undoes_id: str | None
    moved_by: str
    moved_utc: datetime


class RepChanges(Door):
    """Changes by hand; got from `Logbook.rep_changes`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def move(
        self,
        rep_id: str,
        marker: str,
        *,
        automatic_s: float | None,
        before_s: float | None,
        to_s: float | None,
        by: str = "",
    ) -> str:
        """Enters a move of a marker and returns its key.

        Raises:
            FieldError: there is no such rep.
        """
        with self._write() as connection:
            _check_rep(connection, rep_id)
            return entries.insert(
                connection,
                schema.marker_moves,
                rep_id=rep_id,
                marker=marker,
                automatic_s=automatic_s,
                before_s=before_s,
                to_s=to_s,
                moved_by=by.strip()[:BY_MAX] or None,
                moved_utc=_now(),
            )

    def moves(self, rep_id: str) -> tuple[MarkerMove, ...]:
        """All moves of a rep, also those that were taken back, oldest first."""
        with self._read() as connection:
            return _moves(connection, rep_id)

    def undo(self, rep_id: str, *, by: str = "") -> MarkerMove | None:
        """Takes back the newest move that stands; None where there is none."""
        with self._write() as connection:
            moves = standing_moves(_moves(connection, rep_id))
            if not moves:
                return None
            last = moves[-1]
            entries.insert(
                connection,
                schema.marker_moves,
                rep_id=rep_id,
                marker=last.marker,
                automatic_s=last.automatic_s,
                before_s=last.to_s if last.to_s is not None else last.automatic_s,
                to_s=last.before_s,
                undoes_id=last.id,
                moved_by=by.strip()[:BY_MAX] or None,
                moved_utc=_now(),
            )
            return last

    def void(self, rep_id: str, reason: str, *, by: str = "") -> None:
        """Says that a rep does not count; the rep itself stays.

        Raises:
            FieldError: the rep is unknown, or no reason is given.
        """
        reason = _reason(reason, phrase("must say why the rep does not count."))
        with self._write() as connection:
            _check_rep(connection, rep_id)
            entries.insert(
                connection,
                schema.voids,
                rep_id=rep_id,
                reason=reason,
                voided_by=by.strip()[:BY_MAX] or None,
                voided_utc=_now(),
            )

    def withdraw_void(self, rep_id: str, reason: str, *, by: str = "") -> None:
        """Says that a void rep counts after all; what was said before stays.

        Raises:
            FieldError: the rep is not void, or no reason is given.
        """
        reason = _reason(reason, phrase("must say why the rep counts after all."))
        held = schema.voids
        query = sa.select(held.c.id).where(held.c.rep_id == rep_id, voids.standing())
        with self._write() as connection:
            keys = connection.scalars(query).all()
            if not keys:
                raise FieldError("void.rep_id", phrase("this rep is not void."))
            for key in keys:
                entries.insert(
                    connection,
                    schema.void_withdrawals,
                    void_id=key,
                    reason=reason,
                    withdrawn_by=by.strip()[:BY_MAX] or None,
                    withdrawn_utc=_now(),
                )


def standing_moves(moves: tuple[MarkerMove, ...]) -> tuple[MarkerMove, ...]:
    """Those that were not taken back, and are no taking back themselves."""
    gone = {move.undoes_id for move in moves}
    return tuple(
        move for move in moves if move.id not in gone and move.undoes_id is None
    )


def placed(moves: tuple[MarkerMove, ...]) -> Mapping[str, float]:
    """Where each marker stands that is not where the rules found it."""
    last = {move.marker: move.to_s for move in standing_moves(moves)}
    return {marker: to_s for marker, to_s in last.items() if to_s is not None}


def _moves(connection: sa.Connection, rep_id: str) -> tuple[MarkerMove, ...]:
    table = schema.marker_moves
    query = (
        sa.select(table)
        .where(table.c.rep_id == rep_id)
        .order_by(table.c.moved_utc, table.c.id)
    )
    return tuple(
        MarkerMove(
            row["id"],
            row["marker"],
            row["automatic_s"],
            row["before_s"],
            row["to_s"],
            row["undoes_id"],
            row["moved_by"] or "",
            row["moved_utc"],
        )
        for row in connection.execute(query).mappings()
    )


def _check_rep(connection: sa.Connection, rep_id: str) -> None:
    if not entries.known(connection, schema.reps, rep_id):
        raise FieldError(
            "void.rep_id", phrase("there is no rep {rep_id}.", rep_id=rep_id)
        )


def _reason(text: str, wrong: Phrase) -> str:
    text = text.strip()[:REASON_MAX]
    if not text:
        raise FieldError("void.reason", wrong)
    return text


def _now() -> datetime:
    return now_utc()
