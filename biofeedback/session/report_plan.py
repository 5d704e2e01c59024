"""Where in a plan an athlete was at the end of a period, and the moves within it.

A report on spring tells the stage of spring, whatever is followed today.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.logbook.plans import StoredPlan
from biofeedback.phrase import phrase
from biofeedback.session.report_facts import PlanPlace, StageMove
from biofeedback.training.plan_names import plan_words

if TYPE_CHECKING:
    from datetime import date, datetime

    from biofeedback.logbook.plan_rows import UnreadPlan
    from biofeedback.logbook.plans import Plans
    from biofeedback.session.local_time import LocalTime


def plan_place(
    plans: Plans, athlete_id: str, days: tuple[date, date], local: LocalTime
) -> tuple[PlanPlace | None, tuple[StageMove, ...]]:
    """The plan at the end of the last day, and the moves of these days.

    Raises:
        FileError: the logbook cannot be read.
    """
    until_utc = local.period(*days).until_utc
    followed = _followed(plans, athlete_id, until_utc, now=days[1] >= local.today)
    if followed is None:
        return None, ()
    if not isinstance(followed, StoredPlan):
        return PlanPlace(followed.name, problem=followed.words), ()
    stages = followed.plan.stages
    names = {stage.key: plan_words(stage.name) for stage in stages}
    place_of = {stage.key: index for index, stage in enumerate(stages)}
    moves: list[StageMove] = []
    here = PlanPlace(
        name=plan_words(followed.plan.name),
        stages=len(stages),
        since=local.day(followed.begun_utc),
        example=followed.plan.example,
    )
    before, stage, since = "", 0, here.since
    for move in plans.moves(followed.id):
        if move.at_utc >= until_utc:
            break
        name = names.get(
            move.stage_key, phrase("stage {number}", number=move.to_stage + 1)
        )
        since = local.day(move.at_utc)
        stage = place_of.get(move.stage_key, move.to_stage)
        if days[0] <= since:
            moves.append(StageMove(since, before, name, move.reason))
        before = name
    return PlanPlace(
        name=here.name,
        stage=stage + 1,
        stages=here.stages,
        stage_name=before or plan_words(stages[0].name),
        since=since,
        example=here.example,
    ), tuple(moves)


def _followed(
    plans: Plans, athlete_id: str, until_utc: datetime, *, now: bool
) -> StoredPlan | UnreadPlan | None:
    """The newest plan that had begun by then and was not put away."""
    if now:
        return plans.followed(athlete_id)
    begun = [
        one
        for archived in (False, True)
        for one in plans.of_athlete(athlete_id, archived=archived)
        if one.begun_utc < until_utc
        and (one.archived_utc is None or one.archived_utc >= until_utc)
    ]
    return max(begun, key=lambda one: (one.begun_utc, one.added_utc), default=None)
