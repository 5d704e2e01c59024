"""The task and the reference: what is compared, and which force is 100 %."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.training.band import FORCE_MAX_N

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

REFERENCE_LEAST_N = 0.1
"""Under it a percentage says nothing, and at 0 N there is none."""


class TaskKind(Enum):
    """What the athlete does."""

    HOLD = "hold"
    LOWERING = "lowering"
    MAXIMAL = "maximal"


class Sides(Enum):
    """Which sides work in a task."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


class Origin(Enum):
    """Where a reference comes from."""

    OWN_SIDE = "own side's best"
    OTHER_SIDE = "other side's best"
    OTHER_TASK = "best of another task"
    TYPED = "typed number"


class Definition(Enum):
    """Which number of a maximal trial is the 100 %."""

    PEAK = "peak"
    BEST_1_S_MEAN = "best 1 s mean"


@dataclass(frozen=True, slots=True)
class Task:
    """A set-up in which forces may be compared."""

    name: str
    kind: TaskKind = TaskKind.HOLD
    sides: Sides = Sides.BOTH

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "name": self.name,
            "kind": self.kind.value,
            "sides": self.sides.value,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Task:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.text("name", longest=200),
            fields.choice("kind", TaskKind),
            fields.choice("sides", Sides),
        )


@dataclass(frozen=True, slots=True)
class Reference:
    """The force that is 100 %, always dated.

    Attributes:
        date: ISO date on which it was measured or typed.

    Raises:
        FieldError: it is no force, or has no date.
    """

    force_n: float
    origin: Origin
    definition: Definition
    date: str

    def __post_init__(self) -> None:
        if not REFERENCE_LEAST_N <= self.force_n <= FORCE_MAX_N:
            raise FieldError(
                "reference.force_n",
                f"is {self.force_n:g} N; it must be {REFERENCE_LEAST_N:g} N to "
                f"{FORCE_MAX_N:g} N.",
            )
        if not self.date.strip():
            raise FieldError("reference.date", "must not be empty.")

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "force_n": self.force_n,
            "origin": self.origin.value,
            "definition": self.definition.value,
            "date": self.date,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Reference:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.number("force_n", least=REFERENCE_LEAST_N, most=FORCE_MAX_N),
            fields.choice("origin", Origin),
            fields.choice("definition", Definition),
            fields.text("date", longest=40),
        )
