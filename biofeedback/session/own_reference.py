"""The newest maximal test of the very task and side that stand at the desk."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.session.day_facts import measured_of
from biofeedback.training.reference_choice import newest_own
from biofeedback.training.reference_facts import Facts

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task


def own_reference(
    logbook: Logbook,
    athlete_code: str,
    task: Task,
    *,
    now: datetime,
    each_side: bool = False,
) -> Reference | None:
    """What the newest test gives as the 100 % of a set; None without a test.

    Args:
        task: with the sides that work in the set.
        now: with its time zone.
        each_side: whether two sides work together and the band is for each.

    Raises:
        FileError: the logbook cannot be read.
    """
    athlete = logbook.athlete_by_code(athlete_code)
    if athlete is None:
        return None
    tests = logbook.maxima.tests(athlete.id, task, task.sides)
    return newest_own(
        task,
        Facts(tuple(measured_of(test, now) for test in tests)),
        today=now.date(),
        each_side=each_side,
    )
