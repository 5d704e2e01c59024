"""How much of its force an injured side has regained, against what it is held.

Only like is held against like: two forces of the same task by the same definition, and
where both positions are known, in the same one. A test without a partner of its own
definition says nothing. Nor do practice, and a test that pain has held back: of the
other side it would make the share too high. Where the injured side's own latest test
hurt, nothing can be told, and no older one is taken in its place.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase
from biofeedback.training.criteria import Against
from biofeedback.training.intensity_words import rounded_down
from biofeedback.training.reference import (
    PAINFUL_FROM,
    REFERENCE_LEAST_N,
    Definition,
    Origin,
)
from biofeedback.training.task import moved, same_task

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.training.reference_facts import Facts, Measured
    from biofeedback.training.task import Sides, Task


@dataclass(frozen=True, slots=True)
class Regaining:
    """Two forces of one task by one definition: the injured side's, and another.

    Attributes:
        own_date, other_date: ISO dates.
    """

    task: str
    against: Against
    own_n: float
    other_n: float
    own_date: str = ""
    other_date: str = ""

    @property
    def reached_pct(self) -> float:
        """The share reached."""
        return 100 * self.own_n / self.other_n

    @property
    def words(self) -> str:
        """Both forces with their dates, and the share."""
        own, other = (
            phrase("{force_n:.4g} N", force_n=force_n)
            + (phrase(" ({date})", date=date[:10]) if date else "")
            for force_n, date in (
                (self.own_n, self.own_date),
                (self.other_n, self.other_date),
            )
        )
        return phrase(
            "{own} of {other}, {reached_pct} %.",
            own=own,
            other=other,
            reached_pct=rounded_down(self.reached_pct),
        )


def regaining(
    task: Task, against: Against, injured: Sides, facts: Facts
) -> Regaining | None:
    """The latest test of the injured side beside what it is held against.

    Returns:
        None where one of the two is not known.
    """
    own = next(_tests(task, injured, facts), None)
    if own is None or _hurt(own):
        return None
    if against is Against.OTHER_SIDE:
        found = _other_side(task, injured, facts, own)
    else:
        found = _before(task, injured, facts, own.chosen)
    if found is None or found[0] < REFERENCE_LEAST_N:
        return None
    own_n = own.forces_n[own.chosen]
    return Regaining(task.name, against, own_n, found[0], own.date, found[1])


def _tests(task: Task, side: Sides, facts: Facts) -> Iterator[Measured]:
    """Newest first."""
    of_side = [
        one
        for one in facts.measured
        if same_task(one.task, task)
        and one.task.sides is side
        and one.chosen in one.forces_n
        and not one.practice
    ]
    yield from sorted(of_side, key=lambda one: (one.date, one.key), reverse=True)


def _hurt(test: Measured) -> bool:
    return test.pain is not None and test.pain >= PAINFUL_FROM


def _other_side(
    task: Task, injured: Sides, facts: Facts, own: Measured
) -> tuple[float, str] | None:
    for one in _tests(task, injured.other, facts):
        force_n = one.forces_n.get(own.chosen)
        placed_alike = not moved(own.task.setup, one.task.setup)
        if force_n is not None and placed_alike and not _hurt(one):
            return force_n, one.date
    return None


def _before(
    task: Task, injured: Sides, facts: Facts, definition: Definition
) -> tuple[float, str] | None:
    """Stated from before the injury; one without a definition is taken as it is."""
    found = [
        one
        for one in facts.stated
        if one.origin is Origin.BEFORE_INJURY
        and same_task(one.task, task)
        and one.task.sides is injured
        and one.definition in {definition, Definition.STATED}
    ]
    if not found:
        return None
    newest = max(found, key=lambda one: (one.date, one.key))
    return newest.force_n, newest.date
