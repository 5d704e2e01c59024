"""What is told of a visit at its end, as values."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from biofeedback.measures.force_sense import ForceSense
    from biofeedback.session.next_time import NextTime
    from biofeedback.training.day import PainRule
    from biofeedback.training.task import Sides


@dataclass(frozen=True, slots=True)
class Amount:
    """How much there was.

    Attributes:
        dose_pct_s: None where a set has no reference.
    """

    sets: int = 0
    reps: int = 0
    inside_s: float = 0.0
    dose_pct_s: float | None = 0.0

    def __add__(self, other: Amount) -> Amount:
        doses = self.dose_pct_s, other.dose_pct_s
        known = doses[0] is not None and doses[1] is not None
        return Amount(
            self.sets + other.sets,
            self.reps + other.reps,
            self.inside_s + other.inside_s,
            (doses[0] or 0.0) + (doses[1] or 0.0) if known else None,
        )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "sets": self.sets,
            "reps": self.reps,
            "inside_s": self.inside_s,
            "dose_pct_s": self.dose_pct_s,
        }


@dataclass(frozen=True, slots=True)
class TaskLine:
    """One task with its sides: planned beside done.

    Attributes:
        planned: of sets outside a running order what they asked for at their begin.
        not_complete: reps that were let go early, or stopped.
        void: reps that do not count.
        part_sets: sets that were done with fewer complete reps than they asked for.
        begun_anew: how often a set was broken off and begun again as it was asked for;
            all its runs are one set.
        sense: errors of the unseen reps; None where there is none, or where the band
            is one for each side.
        task_key: of the task; empty where it has none.
    """

    task: str
    sides: Sides
    warm_up: bool
    planned: Amount = field(default_factory=Amount)
    done: Amount = field(default_factory=Amount)
    not_complete: int = 0
    void: int = 0
    part_sets: int = 0
    begun_anew: int = 0
    sense: ForceSense | None = None
    task_key: str = ""

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "task": self.task,
            "sides": self.sides.value,
            "warm_up": self.warm_up,
            "planned": self.planned.to_json(),
            "done": self.done.to_json(),
            "not_complete": self.not_complete,
            "void": self.void,
        }


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """Something that was changed.

    Attributes:
        set_name: of the set it was changed in, or after: its number in its line.
        set_title: the same without the number.
        time_s: in the set; None between sets.
    """

    at_utc: datetime
    set_name: str
    what: str
    old: object
    new: object
    reason: str
    time_s: float | None
    reference_n: float | None = None
    set_title: str = ""


@dataclass(frozen=True, slots=True)
class Level:
    """Pain or effort that was told, 0 to 10.

    Attributes:
        when: before, during or after; of an effort empty.
        taken_back: whether it was said later that it was a slip.
    """

    at_utc: datetime
    level: int
    when: str = ""
    set_name: str = ""
    taken_back: bool = False


@dataclass(frozen=True, slots=True)
class SignalHealth:
    """How good the signal of all reps was.

    Attributes:
        zero_drift_n: the largest of any rep, with its sign; None where none is known.
        recovered: sets whose recording was cut off.
        not_closed: sets whose end is not in the logbook yet.
    """

    reps: int = 0
    gaps: int = 0
    lost: int = 0
    saturated: int = 0
    zero_drift_n: float | None = None
    recovered: int = 0
    not_closed: int = 0


@dataclass(frozen=True, slots=True)
class VisitSummary:
    """All that the page at the end of a visit shows.

    Attributes:
        lines: the tasks in the order of the visit; warm-up lines among them.
        by_order: whether there was a running order; without one nothing was planned.
        tests: maximal tests, by name.
        kept: what was kept of this page before, newest; None where nothing was.
    """

    session_id: str
    athlete_code: str
    started_utc: datetime
    rule: PainRule
    lines: tuple[TaskLine, ...] = ()
    tests: tuple[str, ...] = ()
    changes: tuple[ChangeLine, ...] = ()
    pain: tuple[Level, ...] = ()
    effort: tuple[Level, ...] = ()
    signal: SignalHealth = field(default_factory=SignalHealth)
    notes: tuple[str, ...] = ()
    next_time: tuple[NextTime, ...] = ()
    kept: Mapping[str, object] | None = None
    by_order: bool = False

    @property
    def highest_pain(self) -> int | None:
        """The highest pain that was told in this visit."""
        levels = (one.level for one in self.pain if not one.taken_back)
        return max(levels, default=None)

    @property
    def talk_first(self) -> bool:
        """Whether pain went above the cut: the clinician is to be asked first."""
        highest = self.highest_pain
        return highest is not None and highest > self.rule.high
