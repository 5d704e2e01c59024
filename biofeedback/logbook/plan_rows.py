"""Plans and their moves, as they are read from the logbook."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import schema
from biofeedback.phrase import Phrase, phrase
from biofeedback.training.plan import Plan
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from datetime import datetime


@dataclass(frozen=True, slots=True)
class StoredPlan:
    """A plan as the logbook has it.

    Attributes:
        stage: index of the stage under way.
        stage_since_utc: when it was entered last.
        begun_utc: when the plan began, from which its weeks count.
    """

    id: str
    athlete_id: str
    plan: Plan
    stage: int
    stage_since_utc: datetime
    added_utc: datetime
    archived_utc: datetime | None
    copied_from: str | None
    begun_utc: datetime
    changed_utc: datetime | None = None

    def is_still(self, row: sa.Row[Any]) -> bool:
        """Whether nobody has changed, moved or archived it meanwhile."""
        there = row.changed_utc, row.stage, row.archived_utc
        return there == (self.changed_utc, self.stage, self.archived_utc)


@dataclass(frozen=True, slots=True)
class UnreadPlan:
    """A plan that the logbook has and that cannot be read.

    Attributes:
        problem: which field does not fit, and why.
    """

    id: str
    name: str
    problem: Phrase
    archived_utc: datetime | None

    @property
    def words(self) -> Phrase:
        """That it cannot be read, as a sentence."""
        return phrase(
            "The plan “{name}” cannot be read: {problem}",
            name=self.name,
            problem=self.problem,
        )


@dataclass(frozen=True, slots=True)
class Move:
    """One move between stages; `from_stage` is None where the plan began.

    Attributes:
        from_stage, to_stage: indices in the plan as it was then.
        stage_key: of the stage that was entered, whatever index it has now.
    """

    from_stage: int | None
    to_stage: int
    reason: str
    at_utc: datetime
    stage_key: str = ""


def stored(
    connection: sa.Connection, wanted: sa.ColumnElement[bool]
) -> tuple[StoredPlan | UnreadPlan, ...]:
    """Plans, the newest first; one that cannot be read keeps nobody from the others."""
    plans, moves = schema.plans, schema.plan_moves

    def moved(which: sa.ColumnElement[Any], name: str) -> sa.ColumnElement[Any]:
        found = sa.select(which).where(moves.c.plan_id == plans.c.id)
        return sa.type_coerce(found.scalar_subquery(), schema.UtcTime).label(name)

    query = (
        sa.select(
            plans,
            moved(sa.func.max(moves.c.at_utc), "since"),
            moved(sa.func.min(moves.c.at_utc), "begun"),
        )
        .where(wanted)
        .order_by(plans.c.added_utc.desc(), plans.c.id.desc())
    )
    return tuple(_plan(row) for row in connection.execute(query).mappings())


def _plan(row: sa.RowMapping) -> StoredPlan | UnreadPlan:
    try:
        plan = _content(row)
    except FieldError as error:
        return UnreadPlan(row["id"], row["name"], error.words, row["archived_utc"])
    return StoredPlan(
        row["id"],
        row["athlete_id"],
        plan,
        row["stage"],
        row["since"] or row["added_utc"],
        row["added_utc"],
        row["archived_utc"],
        row["copied_from"],
        row["begun"] or row["added_utc"],
        row["changed_utc"],
    )


def _content(row: sa.RowMapping) -> Plan:
    if not isinstance(row["content"], dict):
        raise FieldError("plan", phrase("must be an object."))
    plan = Plan.from_json(Fields(row["content"], "plan"))
    if not 0 <= row["stage"] < len(plan.stages):
        raise FieldError("plan.stage", phrase("is none of its stages."))
    return plan


def moves(connection: sa.Connection, plan_id: str) -> tuple[Move, ...]:
    """All moves of a plan, oldest first."""
    table = schema.plan_moves
    query = (
        sa.select(table)
        .where(table.c.plan_id == plan_id)
        .order_by(table.c.at_utc, table.c.id)
    )
    return tuple(
        Move(
            row["from_stage"],
            row["to_stage"],
            row["reason"] or "",
            row["at_utc"],
            row["stage_key"] or "",
        )
        for row in connection.execute(query).mappings()
    )
