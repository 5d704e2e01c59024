"""Shares over the sessions: of the other side, and of the force before the injury.

Only like is divided by like: one task, one definition, positions that are not known to
differ, and for the other side two tests of one visit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.measures.share import share_of_pct, share_sd
from biofeedback.session.report_facts import SharePoint, ShareTrend
from biofeedback.session.visit_pairs import paired
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from biofeedback.session.report_facts import SideTrend


def share_trends(
    trends: Sequence[SideTrend], *, injured: Sides | None = None
) -> tuple[ShareTrend, ...]:
    """The shares of all tasks.

    Args:
        injured: this side is told in % of the other one; left where it is not known.
    """
    weaker = injured if injured in {Sides.LEFT, Sides.RIGHT} else Sides.LEFT
    return tuple(
        one for one in (*_of_other(trends, weaker), *_of_before(trends)) if one.points
    )


def _of_other(trends: Sequence[SideTrend], weaker: Sides) -> Iterable[ShareTrend]:
    for key in dict.fromkeys(one.key for one in trends):
        sides = {one.sides: one for one in trends if one.key == key}
        own, other = sides.get(weaker), sides.get(weaker.other)
        if own is None or other is None:
            continue
        points = []
        for first, second in paired(own, other):
            share = share_of_pct(first.force_n, second.force_n)
            if share is not None:
                points.append(SharePoint(first.day, share))
        errors = [one.noise.typical_error_pct for one in (own, other) if one.noise]
        yield ShareTrend(
            task=own.task,
            key=key,
            sides=own.sides,
            of_before=False,
            definition=own.definition,
            points=tuple(points),
            errors_pct=tuple(errors),
            sd=share_sd(*errors) if len(errors) == 2 else None,
        )


def _of_before(trends: Sequence[SideTrend]) -> Iterable[ShareTrend]:
    for one in trends:
        before_n = one.before_injury_n
        if before_n is None:
            continue
        points = [
            SharePoint(at.day, share)
            for at in one.results
            if (share := share_of_pct(at.force_n, before_n)) is not None
        ]
        errors = () if one.noise is None else (one.noise.typical_error_pct,)
        yield ShareTrend(
            task=one.task,
            key=one.key,
            sides=one.sides,
            of_before=True,
            definition=one.definition,
            points=tuple(points),
            errors_pct=errors,
            sd=share_sd(*errors) if errors else None,
            before_on=one.before_injury_on,
        )
