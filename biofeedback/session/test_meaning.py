"""What the result of a maximal test means, against the noise of that test.

The noise is the athlete's own where there are enough earlier visits, by the same rule
as in reports and charts (`measures.visit_noise.own_noise`), else that of everybody in
this logbook who was tested more than once; with how many that was. Where neither is to
be had there is no number: published figures are of other people, other rigs and other
positions, and none is put in their place.

Only like is compared with like: the same task, sides, position and definition, one
result a visit. Practice scores and voided tests are left out, and so is this visit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.measures.change import Change, Noise, Whose, judge, typical_error
from biofeedback.measures.visit_noise import own_noise

if TYPE_CHECKING:
    from biofeedback.logbook.maxima import Maxima
    from biofeedback.training.maximal import MaximalResult
    from biofeedback.training.task import Task


@dataclass(frozen=True, slots=True)
class Meaning:
    """What may be said of a result.

    Attributes:
        noise: typical error and minimal detectable change; None where they cannot be
            told yet.
        last_n: result of the visit before; None without one.
        change: of this result from that one.
    """

    noise: Noise | None
    last_n: float | None
    change: Change


def meaning_of(
    maxima: Maxima,
    result: MaximalResult,
    *,
    athlete_id: str,
    task: Task,
    session_id: str = "",
) -> Meaning:
    """The meaning of a result.

    Args:
        task: with the sides that worked.
        session_id: of this visit, whose tests are left out.

    Raises:
        FileError: the logbook cannot be read.
    """
    own = maxima.results(
        athlete_id,
        task,
        task.sides,
        result.definition,
        setup=task.setup,
        without=session_id,
    )
    noise = own_noise(own)
    if noise is None:
        everybody = maxima.club(
            task, task.sides, result.definition, setup=task.setup, without=session_id
        )
        noise = typical_error(list(everybody.values()), whose=Whose.CLUB)
    last_n = own[-1] if own else None
    return Meaning(
        noise=noise,
        last_n=last_n,
        change=judge(result.force.total_n, own[-1:], noise),
    )
