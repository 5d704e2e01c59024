"""A running order from the sets of today, with the decisions on them kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.phrase import phrase, sentences
from biofeedback.session.order_record import OrderRecord, new_record
from biofeedback.training.running_order import Leg, RunningOrder, legs_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.session.today import DayView, Today
    from biofeedback.training.prescription import Prescription


def order_of_day(
    today: Today,
    view: DayView,
    chosen: Sequence[SetOfDay],
    *,
    warm_up: bool = False,
    against_advice: bool = False,
    ready: Callable[[Prescription], Prescription] = lambda asked: asked,
    auto: bool = True,
) -> OrderRecord:
    """The sets of a day in their order, set by set and side by side.

    Args:
        chosen: with the places and references that are wanted; those that have a
            problem are left out.
        warm_up: put one easy rep for each side before each task.
        ready: what is still to be added to a set before it can begin.
        auto: whether a next set begins by itself.

    Raises:
        UserError: pain was not asked, stopping is advised, or nothing can be done.
        FileError: the logbook cannot be written.
    """
    legs: list[Leg] = []
    contexts: dict[str, Mapping[str, object]] = {}
    for same in _together([one for one in chosen if not one.problem]):
        asked: list[Prescription] = []
        for one in same:
            used, context = today.use(view, one, against_advice=against_advice)
            asked.append(ready(used))
            contexts[one.planned.key] = context
        legs += legs_of(same[0].planned, asked, warm_up=warm_up)
    if not legs:
        missing = [*dict.fromkeys([*view.problems, *(one.problem for one in chosen)])]
        raise UserError(
            phrase("None of today's sets can be done."),
            sentences(*missing) or phrase("See what is missing."),
        )
    return new_record(RunningOrder(legs), contexts, auto=auto)


def _together(chosen: Sequence[SetOfDay]) -> list[list[SetOfDay]]:
    """The sides of one planned prescription, one after the other."""
    groups: list[list[SetOfDay]] = []
    for one in chosen:
        if groups and groups[-1][0].key[:3] == one.key[:3]:
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups
