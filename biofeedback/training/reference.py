"""The reference: which force is 100 %, where it comes from, and how far to trust it.

A reference is always dated and says by which definition it was measured. What
speaks against it is told before a set starts; it never keeps one from starting.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import FORCE_MAX_N
from biofeedback.training.task import (
    KEY_MAX,
    NAME_MAX,
    Setup,
    Sides,
    Task,
    moved,
    same_task,
)

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

REFERENCE_LEAST_N = 0.1
"""Under it a percentage says nothing, and at 0 N there is none."""
STALE_AFTER_DAYS = 14
"""About two weeks (from memory and opinion, no published source)."""
PAIN_MOST = 10
PAINFUL_FROM = 3
"""Pain of 0 to 2 during a test counts as little (see `biofeedback.training.day`)."""


class Origin(Enum):
    """Where a reference comes from."""

    OWN_SIDE = phrase("own side's best")
    OTHER_SIDE = phrase("other side's best")
    BEFORE_INJURY = phrase("before the injury")
    OTHER_TASK = phrase("best of another task")
    BODY_MASS = phrase("multiple of body mass")
    TYPED = phrase("typed number")


class Definition(Enum):
    """Which number of a maximal trial is the 100 %."""

    PEAK = phrase("peak")
    BEST_HALF_S_MEAN = phrase("best 0.5 s mean")
    BEST_1_S_MEAN = phrase("best 1 s mean")
    STATED = phrase("as stated")  # typed by someone who did not say


class Caution(Enum):
    """What speaks against a reference."""

    NOT_ITS_TASK = phrase("of another task")
    STALE = phrase("old")
    PRACTICE = phrase("from a first test")
    PAINFUL = phrase("measured with pain")
    OTHER_POSITION = phrase("measured in another position")


@dataclass(frozen=True, slots=True)
class Reference:
    """The force that is 100 %, always dated.

    Attributes:
        date: ISO date on which it was measured or typed.
        practice: whether it is of the athlete's very first test of this task.
        pain: 0 to 10 during the test; None where it was not asked.
        setup: the position in which it was measured; None where it is not known.
        source: key of the record in the logbook it was taken from, or empty.
        task: whose 100 % it is: the task, with its sides, that it was measured, chosen
            or typed for; name, sides and key alone. None where that is not known.

    Raises:
        FieldError: it is no force, or has no date.
    """

    force_n: float
    origin: Origin
    definition: Definition
    date: str
    practice: bool = False
    pain: int | None = None
    setup: Setup | None = None
    source: str = ""
    task: Task | None = None

    def __post_init__(self) -> None:
        if self.task is not None:
            bare = Task(self.task.name, sides=self.task.sides, key=self.task.key)
            object.__setattr__(self, "task", bare)
        if not REFERENCE_LEAST_N <= self.force_n <= FORCE_MAX_N:
            raise FieldError(
                "reference.force_n",
                phrase(
                    "is {force_n:g} N; it must be {reference_least_n:g} N to "
                    "{force_max_n:g} N.",
                    force_n=self.force_n,
                    reference_least_n=REFERENCE_LEAST_N,
                    force_max_n=FORCE_MAX_N,
                ),
            )
        if not self.date.strip():
            raise FieldError("reference.date", phrase("must not be empty."))

    def age_days(self, today: dt.date) -> int | None:
        """Whole days since it was measured; None where the date is no ISO date."""
        try:
            return (today - dt.date.fromisoformat(self.date[:10])).days
        except ValueError:
            return None

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "force_n": self.force_n,
            "origin": self.origin.value,
            "definition": self.definition.value,
            "date": self.date,
            "practice": self.practice,
            "pain": self.pain,
            "setup": self.setup.to_json() if self.setup else None,
            "source": self.source,
            "task": _whose_json(self.task) if self.task else None,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Reference:
        """Checks and reads what `to_json` wrote; the later fields may be missing."""
        return cls(
            fields.number("force_n", least=REFERENCE_LEAST_N, most=FORCE_MAX_N),
            fields.choice("origin", Origin),
            fields.choice("definition", Definition),
            fields.text("date", longest=40),
            practice=fields.flag("practice") if fields.has("practice") else False,
            pain=(
                fields.whole("pain", least=0, most=PAIN_MOST)
                if fields.has("pain")
                else None
            ),
            setup=(
                Setup.from_json(fields.inner("setup")) if fields.has("setup") else None
            ),
            source=fields.text("source", longest=KEY_MAX)
            if fields.has("source")
            else "",
            task=_whose(fields.inner("task")) if fields.has("task") else None,
        )


def _whose_json(task: Task) -> dict[str, object]:
    return {"name": task.name, "sides": task.sides.value, "key": task.key}


def _whose(fields: Fields) -> Task:
    return Task(
        fields.text("name", longest=NAME_MAX),
        sides=fields.choice("sides", Sides),
        key=fields.text("key", longest=KEY_MAX),
    )


def is_for(reference: Reference, task: Task) -> bool:
    """Whether it is the 100 % of this task; so where it is not known whose it is.

    What was measured of one side is not the 100 % of the other, nor of both; a number
    that was typed or goes by the body is of whatever side is chosen beside it.
    """
    whose = reference.task
    if whose is None:
        return True
    if reference.origin in {Origin.TYPED, Origin.BODY_MASS}:
        return same_task(whose, task)
    return same_task(whose, task) and whose.sides is task.sides


def cautions(
    reference: Reference,
    task: Task,
    *,
    today: dt.date,
    stale_after_days: int = STALE_AFTER_DAYS,
) -> tuple[Caution, ...]:
    """What speaks against using `reference` for `task` today, in a fixed order.

    A value from before the injury is meant to be old; a multiple of body mass and
    a best of another task have no position of their own.
    """
    found = [] if is_for(reference, task) else [Caution.NOT_ITS_TASK]
    age = reference.age_days(today)
    dated = reference.origin is not Origin.BEFORE_INJURY
    if dated and (age is None or age > stale_after_days):
        found.append(Caution.STALE)
    if reference.practice:
        found.append(Caution.PRACTICE)
    if reference.pain is not None and reference.pain >= PAINFUL_FROM:
        found.append(Caution.PAINFUL)
    placed = reference.origin not in {Origin.OTHER_TASK, Origin.BODY_MASS}
    if placed and moved(reference.setup, task.setup):
        found.append(Caution.OTHER_POSITION)
    return tuple(found)
