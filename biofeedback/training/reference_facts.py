"""What is known of an athlete's forces, and a force that may be the 100 % of a set."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.reference import Caution, Definition, Origin, Reference
    from biofeedback.training.task import Task


@dataclass(frozen=True, slots=True)
class Measured:
    """A maximal test, as far as it may be a reference.

    Attributes:
        date: ISO date of the day, where the athlete was.
        chosen: the definition that was chosen when it was kept.
        forces_n: the force by each definition that it has.
        left_n, right_n: of both sides together, at the chosen number.
        key: of the record.
    """

    task: Task
    date: str
    chosen: Definition
    forces_n: Mapping[Definition, float]
    left_n: float | None = None
    right_n: float | None = None
    practice: bool = False
    pain: int | None = None
    key: str = ""


@dataclass(frozen=True, slots=True)
class Stated:
    """A force that was not measured here: from before the injury, or typed."""

    task: Task
    date: str
    origin: Origin
    definition: Definition
    force_n: float
    key: str = ""


@dataclass(frozen=True, slots=True)
class Facts:
    """All that is known of an athlete's forces."""

    measured: tuple[Measured, ...] = ()
    stated: tuple[Stated, ...] = ()
    body_mass: BodyMass | None = None


@dataclass(frozen=True, slots=True)
class Candidate:
    """A force that may be the 100 %.

    Attributes:
        age_days: None where it has no date.
        cautions: what speaks against it today.
        note: what else is to be known of it, such as the name of another task.
    """

    reference: Reference
    age_days: int | None
    cautions: tuple[Caution, ...]
    note: str = ""
