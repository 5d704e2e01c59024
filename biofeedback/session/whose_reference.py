"""Whose 100 % the sets of an athlete went by, where that is not the set's own.

A share of the best of the other side, of another task or of somebody else is another
number than one of the own best, whatever the force in newtons. What the logbook has of
the test tells first; what it does not know any more is told by the reference itself.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from biofeedback.training.reference import Origin, is_for
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.logbook.history import Source
    from biofeedback.session.task_keys import TaskKeys
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task


@dataclass(frozen=True, slots=True)
class Whose:
    """A foreign 100 %.

    Attributes:
        key: of its task; its name where it has none; empty where nobody knows it.
        sides: None where any would do, as for a number that was typed.
        somebody_else: whether it is another athlete's.
        task: its newest name, which tells nothing apart.
    """

    key: str
    sides: Sides | None
    somebody_else: bool = False
    task: str = field(default="", compare=False)


def whose_reference(
    reference: Reference | None,
    task: Task,
    tasks: TaskKeys,
    sources: Mapping[str, Source],
) -> Whose | None:
    """Whose it is; None for the set's own, or where there is none.

    Args:
        task: of the set, with its sides.
        tasks: tells which entries are of one task.
        sources: tests and stated forces by their key, as far as they are known.
    """
    if reference is None:
        return None
    source = sources.get(reference.source)
    if source is None:
        return _by_itself(reference, task, tasks)
    key = tasks.key(source.task_id, source.task)
    same = key == tasks.key(task.key, task.name) and source.sides is task.sides
    if source.own and same:
        return None
    return Whose(key, source.sides, not source.own, tasks.name(key))


def _by_itself(reference: Reference, task: Task, tasks: TaskKeys) -> Whose | None:
    """By what the reference says, where its test is not known."""
    named = reference.task
    if named is not None and not is_for(reference, task):
        key = tasks.key(named.key, named.name)
        by_hand = reference.origin in {Origin.TYPED, Origin.BODY_MASS}
        return Whose(key, None if by_hand else named.sides, task=tasks.name(key))
    if reference.origin is Origin.OTHER_SIDE and task.sides is not Sides.BOTH:
        own = tasks.key(task.key, task.name)
        return Whose(own, task.sides.other, task=tasks.name(own))
    if reference.origin is Origin.OTHER_TASK:
        return Whose("", task.sides)
    return None
