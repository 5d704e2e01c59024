"""Rows of maximal tests and stated forces, as they go in and come out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import FORCE_MAX_N
from biofeedback.training.reference import (
    REFERENCE_LEAST_N,
    Definition,
    Origin,
    Reference,
)
from biofeedback.training.task import Setup, Sides, Task
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    import sqlalchemy as sa


@dataclass(frozen=True, slots=True)
class NewMaximalTest:
    """A test to be kept.

    Attributes:
        task: with the sides that worked.
        definition: which number is the 100 %.
        force_n: that number.
        left_n, right_n: of both sides together, at the chosen number.
        trials: how many count.
        differ_pct: the two best from each other.
        practice: whether it is of the athlete's first session with this task.
        pain: the highest during it, 0 to 10; None where it was not asked.
        zero_kind: how zero had been taken.
        content: every trial, and under `SET_ID` the set.
    """

    athlete_id: str
    task: Task
    tested_utc: datetime
    definition: Definition
    force_n: float
    trials: int
    session_id: str = ""
    peak_n: float | None = None
    half_s_n: float | None = None
    one_s_n: float | None = None
    left_n: float | None = None
    right_n: float | None = None
    differ_pct: float | None = None
    practice: bool = False
    pain: int | None = None
    zero_kind: str = ""
    content: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class MaximalTestRow:
    """A test that was kept; the attributes are those of `NewMaximalTest`.

    Attributes:
        task: its name; `task_id` its key, or None.
        setup: the position in which it was done, or None.
        void_reason: why it does not count, or None where it counts.
    """

    id: str
    athlete_id: str
    session_id: str | None
    task_id: str | None
    task: str
    sides: Sides
    tested_utc: datetime
    definition: Definition
    force_n: float
    peak_n: float | None
    half_s_n: float | None
    one_s_n: float | None
    left_n: float | None
    right_n: float | None
    trials: int
    differ_pct: float | None
    practice: bool
    pain: int | None
    zero_kind: str | None
    setup: Setup | None
    content: Mapping[str, object]
    stored_utc: datetime
    voided_utc: datetime | None
    void_reason: str | None

    def force_by(self, definition: Definition) -> float | None:
        """What the test would give by this definition; None where it has no such."""
        by = {
            Definition.PEAK: self.peak_n,
            Definition.BEST_HALF_S_MEAN: self.half_s_n,
            Definition.BEST_1_S_MEAN: self.one_s_n,
        }
        if definition is self.definition:
            return self.force_n
        return by.get(definition)

    def reference(self, origin: Origin = Origin.OWN_SIDE) -> Reference:
        """The test as the 100 % of a prescription."""
        return Reference(
            self.force_n,
            origin,
            self.definition,
            self.tested_utc.astimezone().date().isoformat(),
            practice=self.practice,
            pain=self.pain,
            setup=self.setup,
            source=self.id,
            task=Task(self.task, sides=self.sides, key=self.task_id or ""),
        )


@dataclass(frozen=True, slots=True)
class StatedForceRow:
    """A force that was not measured here.

    Attributes:
        origin: before the injury, or a typed number.
        date: ISO date that the force is of.
        void_reason: why it does not count, or None where it counts.
    """

    id: str
    athlete_id: str
    task_id: str | None
    task: str
    sides: Sides
    origin: Origin
    definition: Definition
    force_n: float
    date: str
    note: str
    stored_utc: datetime
    voided_utc: datetime | None
    void_reason: str | None

    def reference(self) -> Reference:
        """The force as the 100 % of a prescription."""
        return Reference(
            self.force_n,
            self.origin,
            self.definition,
            self.date,
            source=self.id,
            task=Task(self.task, sides=self.sides, key=self.task_id or ""),
        )


def test_of(row: sa.RowMapping) -> MaximalTestRow:
    """A test from its columns."""
    values = dict(row)
    values["sides"] = Sides(values["sides"])
    values["definition"] = Definition(values["definition"])
    setup = values["setup"]
    values["setup"] = (
        Setup.from_json(Fields(setup, "setup")) if isinstance(setup, Mapping) else None
    )
    return MaximalTestRow(**values)


def stated_of(row: sa.RowMapping) -> StatedForceRow:
    """A stated force from its columns."""
    values = dict(row)
    values["sides"] = Sides(values["sides"])
    values["origin"] = Origin(values["origin"])
    values["definition"] = Definition(values["definition"])
    values["note"] = values["note"] or ""
    return StatedForceRow(**values)


def check_force(name: str, force_n: float) -> None:
    """Refuses what is no force, under the name of its field."""
    if not REFERENCE_LEAST_N <= force_n <= FORCE_MAX_N:
        raise FieldError(
            name,
            phrase(
                "is {force_n:g} N; it must be {reference_least_n:g} N to "
                "{force_max_n:g} N.",
                force_n=force_n,
                reference_least_n=REFERENCE_LEAST_N,
                force_max_n=FORCE_MAX_N,
            ),
        )


def check_date(name: str, text: str) -> None:
    """Refuses what is no ISO date, under the name of its field."""
    try:
        date.fromisoformat(text)
    except ValueError:
        raise FieldError(
            name,
            phrase("“{text}” is no date.", text=text),
            phrase("Write year, month and day: 2026-03-09."),
        ) from None
