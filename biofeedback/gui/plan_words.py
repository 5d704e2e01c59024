"""Words of the plan page: which plan is followed, and where in it one is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.gui.field import as_sentence
from biofeedback.gui.language import filled, tr
from biofeedback.gui.plan_titles import plan_title
from biofeedback.training.counting import counted

if TYPE_CHECKING:
    from biofeedback.session.planning import Move, Planning, StoredPlan
    from biofeedback.training.plan import Plan


def plan_line(stored: StoredPlan, *, followed: bool) -> str:
    """A plan in the list: its name, and whether it is followed."""
    if stored.archived_utc is not None:
        return tr("    {name}\n      archived").format(
            name=plan_title(stored.plan.name)
        )
    text = (
        tr("▶ {name}\n      followed, now: {stage}")
        if followed
        else tr("    {name}\n      not followed, was at: {stage}")
    )
    stage = plan_title(stored.plan.stages[stored.stage].name)
    return text.format(name=plan_title(stored.plan.name), stage=stage)


def since(stored: StoredPlan | None, planning: Planning) -> tuple[str, str]:
    """Where in the plan one is and why; and all moves, line by line."""
    if stored is None:
        return tr("Begins when it is saved."), ""
    moves = planning.moves(stored.id)
    words = filled(
        tr("{weeks} into the plan; in this stage since {day}."),
        weeks=counted(planning.weeks_since(stored.begun_utc), "week"),
        day=planning.day_of(stored.stage_since_utc),
    )
    told = [
        tr("{day}: {stage}. {reason}")
        .format(
            day=planning.day_of(move.at_utc),
            stage=_stage_name(stored.plan, move),
            reason=as_sentence(move.reason),
        )
        .strip()
        for move in moves
    ]
    reason = as_sentence(moves[-1].reason) if moves else ""
    return f"{words} {reason}".strip(), "\n".join(told)


def _stage_name(plan: Plan, move: Move) -> str:
    """As it is called now, wherever it stands; by its number where it is gone."""
    index = plan.place_of(move.stage_key)
    if index is not None:
        return plan_title(plan.stages[index].name)
    gone = tr("stage {number}, taken out since")
    return gone.format(number=move.to_stage + 1)
