"""Moves between the stages of a plan, as they are entered.

A stage is known by its key; its index is where it stood when the move was made.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from biofeedback.logbook import entries, schema
from biofeedback.logbook.moments import now_utc
from biofeedback.phrase import phrase
from biofeedback.training.plan import Plan
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from datetime import datetime

    import sqlalchemy as sa

REASON_MAX = 2000


def under_way(
    connection: sa.Connection, there: sa.Row[Any], plan: Plan, told: int | None
) -> int:
    """Index of the stage under way in the changed plan; a move is entered if it is one.

    Args:
        told: where it is, by who changed the plan.
    """
    before = Plan.from_json(Fields(there.content, "plan")).stages
    stage = before[there.stage]
    now = plan.place_of(stage.key)
    if now is not None:
        return now
    if told is not None and 0 <= told < len(plan.stages):
        earlier = told
    else:  # the nearest one before it that is still there, which asks for less
        kept = [plan.place_of(one.key) for one in before[: there.stage]]
        earlier = max((at for at in kept if at is not None), default=0)
    reason = phrase(
        "The stage “{stage_name}” was taken out of the plan.", stage_name=stage.name
    )
    enter(connection, there.id, there.stage, plan, earlier, reason[:REASON_MAX])
    return earlier


def enter(
    connection: sa.Connection,
    key: str,
    old: int | None,
    plan: Plan,
    new: int,
    reason: str = "",
    at_utc: datetime | None = None,
) -> None:
    """Enters a move to a stage, by its index and its key.

    Args:
        old: index of the stage before it; None where the plan begins.
        new: index in the plan.
        at_utc: when it was decided; now, where nothing is said.
    """
    entries.insert(
        connection,
        schema.plan_moves,
        plan_id=key,
        from_stage=old,
        to_stage=new,
        stage_key=plan.stages[new].key,
        reason=reason or None,
        at_utc=at_utc or now_utc(),
    )
