"""Plans of athletes, where in them they are, and what speaks for moving on.

Rules that hold here:

* A plan is changed as a whole or not at all, and archived but never deleted.
* The stage under way stands in the plan; each move is added to `plan_moves`, with the
  reason, and each word of the practitioner to `plan_words`.
* At most one plan of an athlete is followed: the newest that is not archived.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import entries, plan_facts, schema
from biofeedback.training.plan import Plan
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from biofeedback.training.criteria import SessionFacts

    Transaction = Callable[[], AbstractContextManager[sa.Connection]]

REASON_MAX = 2000


@dataclass(frozen=True, slots=True)
class StoredPlan:
    """A plan as the logbook has it.

    Attributes:
        stage: index of the stage under way.
        stage_since_utc: when it began.
    """

    id: str
    athlete_id: str
    plan: Plan
    stage: int
    stage_since_utc: datetime
    added_utc: datetime
    archived_utc: datetime | None
    copied_from: str | None


@dataclass(frozen=True, slots=True)
class Move:
    """One move between stages; `from_stage` is None where the plan began."""

    from_stage: int | None
    to_stage: int
    reason: str
    at_utc: datetime


class Plans:
    """The plans; got from `Logbook.plans`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def __init__(self, read: Transaction, write: Transaction) -> None:
        self._read = read
        self._write = write

    def add(self, athlete_id: str, plan: Plan, *, copied_from: str = "") -> str:
        """Begins a plan at its first stage and returns the key.

        Raises:
            FieldError: there is no such athlete.
        """
        with self._write() as connection:
            if not entries.known(connection, schema.athletes, athlete_id):
                raise FieldError(
                    "plan.athlete_id", f"there is no athlete {athlete_id}."
                )
            key = entries.insert(
                connection,
                schema.plans,
                athlete_id=athlete_id,
                name=plan.name.strip(),
                content=plan.to_json(),
                stage=0,
                copied_from=copied_from or None,
                added_utc=_now(),
            )
            _enter_move(connection, key, None, 0, "")
        return key

    def change(self, key: str, plan: Plan) -> None:
        """Puts another plan in the place of one; the stage stays where it can.

        Raises:
            FieldError: there is no such plan.
        """
        with self._write() as connection:
            stage = _stage(connection, key)
            last = len(plan.stages) - 1
            if stage > last:
                _enter_move(connection, key, stage, last, "The plan was shortened.")
            connection.execute(
                sa.update(schema.plans)
                .where(schema.plans.c.id == key)
                .values(
                    name=plan.name.strip(),
                    content=plan.to_json(),
                    stage=min(stage, last),
                    changed_utc=_now(),
                )
            )

    def copy(self, key: str, athlete_id: str) -> str:
        """Begins the same plan for another athlete and returns the new key.

        Raises:
            FieldError: there is no such plan or athlete.
        """
        stored = self.get(key)
        if stored is None:
            raise FieldError("plan", f"there is no plan {key}.")
        return self.add(athlete_id, stored.plan, copied_from=key)

    def archive(self, key: str) -> None:
        """Takes a plan off the list; nothing is lost."""
        self._set_archived(key, _now())

    def restore(self, key: str) -> None:
        """Puts an archived plan back."""
        self._set_archived(key, None)

    def get(self, key: str) -> StoredPlan | None:
        """The plan with this key, archived or not; None where there is none."""
        found = self._stored(schema.plans.c.id == key)
        return found[0] if found else None

    def of_athlete(
        self, athlete_id: str, *, archived: bool = False
    ) -> tuple[StoredPlan, ...]:
        """The plans of an athlete, newest first."""
        gone = schema.plans.c.archived_utc
        return self._stored(
            sa.and_(
                schema.plans.c.athlete_id == athlete_id,
                gone.is_not(None) if archived else gone.is_(None),
            )
        )

    def followed(self, athlete_id: str) -> StoredPlan | None:
        """The plan that an athlete follows, or None."""
        found = self.of_athlete(athlete_id)
        return found[0] if found else None

    # Stages.

    def move(self, key: str, to_stage: int, reason: str = "") -> None:
        """Moves to another stage, by the practitioner's decision.

        Raises:
            FieldError: there is no such plan or stage.
        """
        if len(reason) > REASON_MAX:
            raise FieldError("move.reason", f"is longer than {REASON_MAX} characters.")
        stored = self.get(key)
        if stored is None:
            raise FieldError("plan", f"there is no plan {key}.")
        if not 0 <= to_stage < len(stored.plan.stages):
            raise FieldError("move.to_stage", "there is no such stage.")
        with self._write() as connection:
            _enter_move(connection, key, stored.stage, to_stage, reason.strip())
            connection.execute(
                sa.update(schema.plans)
                .where(schema.plans.c.id == key)
                .values(stage=to_stage)
            )

    def moves(self, key: str) -> tuple[Move, ...]:
        """All moves, oldest first."""
        table = schema.plan_moves
        query = (
            sa.select(table)
            .where(table.c.plan_id == key)
            .order_by(table.c.at_utc, table.c.id)
        )
        with self._read() as connection:
            return tuple(
                Move(row["from_stage"], row["to_stage"], row["reason"], row["at_utc"])
                for row in connection.execute(query).mappings()
            )

    def say(
        self, key: str, stage: int, criterion: str, *, met: bool, note: str = ""
    ) -> None:
        """The practitioner's word on a criterion; the newest counts.

        Raises:
            FieldError: there is no such plan.
        """
        with self._write() as connection:
            _stage(connection, key)
            entries.insert(
                connection,
                schema.plan_words,
                plan_id=key,
                stage=stage,
                criterion=criterion,
                met=met,
                note=note.strip() or None,
                at_utc=_now(),
            )

    def said(self, key: str, stage: int) -> tuple[tuple[str, bool], ...]:
        """The newest word on each criterion of a stage."""
        table = schema.plan_words
        query = (
            sa.select(table.c.criterion, table.c.met)
            .where(table.c.plan_id == key, table.c.stage == stage)
            .order_by(table.c.at_utc, table.c.id)
        )
        with self._read() as connection:
            newest = {name: bool(met) for name, met in connection.execute(query)}
        return tuple(newest.items())

    def sessions(self, key: str, stage: int) -> tuple[SessionFacts, ...]:
        """What was done in a stage, session by session, newest first."""
        with self._read() as connection:
            return plan_facts.sessions(connection, key, stage)

    # Inside.

    def _set_archived(self, key: str, at_utc: datetime | None) -> None:
        with self._write() as connection:
            connection.execute(
                sa.update(schema.plans)
                .where(schema.plans.c.id == key)
                .values(archived_utc=at_utc)
            )

    def _stored(self, wanted: sa.ColumnElement[bool]) -> tuple[StoredPlan, ...]:
        plans, moves = schema.plans, schema.plan_moves
        since = (
            sa.select(sa.func.max(moves.c.at_utc))
            .where(moves.c.plan_id == plans.c.id)
            .scalar_subquery()
        )
        query = (
            sa.select(plans, sa.type_coerce(since, schema.UtcTime).label("since"))
            .where(wanted)
            .order_by(plans.c.added_utc.desc(), plans.c.id.desc())
        )
        with self._read() as connection:
            return tuple(
                StoredPlan(
                    row["id"],
                    row["athlete_id"],
                    Plan.from_json(Fields(row["content"], "plan")),
                    row["stage"],
                    row["since"] or row["added_utc"],
                    row["added_utc"],
                    row["archived_utc"],
                    row["copied_from"],
                )
                for row in connection.execute(query).mappings()
            )


def _stage(connection: sa.Connection, key: str) -> int:
    stage = connection.scalar(
        sa.select(schema.plans.c.stage).where(schema.plans.c.id == key)
    )
    if stage is None:
        raise FieldError("plan", f"there is no plan {key}.")
    return int(stage)


def _enter_move(
    connection: sa.Connection, key: str, old: int | None, new: int, reason: str
) -> None:
    entries.insert(
        connection,
        schema.plan_moves,
        plan_id=key,
        from_stage=old,
        to_stage=new,
        reason=reason or None,
        at_utc=_now(),
    )


def _now() -> datetime:
    return datetime.now(tz=UTC)
