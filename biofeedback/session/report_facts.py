"""What a report tells of an athlete, as values."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from biofeedback.session.visit_facts import Amount
from biofeedback.training.reference_words import origin_words
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from datetime import date

    from biofeedback.measures.change import Change, Noise
    from biofeedback.session.training_trends import TrainingTrend
    from biofeedback.session.visit_facts import ChangeLine, TaskLine
    from biofeedback.training.day import PainRule
    from biofeedback.training.reference import Definition, Reference
    from biofeedback.training.task import Setup, Sides


@dataclass(frozen=True, slots=True)
class Result:
    """The best of one visit.

    Attributes:
        tests: how many tests of that visit there were.
        visit: its key; its day where it has none.
        left_n, right_n: of both sides together; None where it was one side.
    """

    day: date
    force_n: float
    tests: int = 1
    left_n: float | None = None
    right_n: float | None = None
    visit: str = ""


@dataclass(frozen=True, slots=True)
class SideTrend:
    """Results of one task and its sides that may be compared, oldest first.

    Attributes:
        noise: None where it cannot be told yet.
        change: of the newest result from the first one of the period.
        before_injury_n: force before the injury, with its date; None without one by
            this definition.
        before_unlike: whether there is one by another definition only.
        key: tells the task from others of its name.
        setup: the position of the newest test; None where it was not written down.
        practice, moved: tests left out: of a first visit, and of another position or
            definition.
        practised: the best of the newest of the practice; None without one by this
            definition.
    """

    task: str
    sides: Sides
    definition: Definition
    results: tuple[Result, ...]
    noise: Noise | None
    change: Change
    before_injury_n: float | None = None
    before_injury_on: str = ""
    before_unlike: bool = False
    key: str = ""
    setup: Setup | None = None
    practice: int = 0
    moved: int = 0
    practised: Result | None = None


@dataclass(frozen=True, slots=True)
class SymmetryPoint:
    """Symmetry of one visit.

    Attributes:
        value_pct: by the formula of its trend.
        weaker: None where both are equal.
    """

    day: date
    value_pct: float
    weaker: Sides | None


@dataclass(frozen=True, slots=True)
class SymmetryTrend:
    """Symmetry of a task over visits, by one formula.

    Attributes:
        noise_pct: below it one visit may be noise alone; None: not known yet.
        key: tells the task from others of its name.
    """

    task: str
    formula: str
    points: tuple[SymmetryPoint, ...]
    noise_pct: float | None
    key: str = ""


@dataclass(frozen=True, slots=True)
class SharePoint:
    """A share of one visit."""

    day: date
    value_pct: float


@dataclass(frozen=True, slots=True)
class ShareTrend:
    """A force in % of another over visits.

    Attributes:
        key: tells the task from others of its name.
        sides: whose force it is.
        of_before: in % of the force before the injury, else of the other side's.
        errors_pct: the typical errors that are known.
        sd: of the logarithm of a share; None where it cannot be told yet.
        before_on: date of the force before the injury.
    """

    task: str
    key: str
    sides: Sides
    of_before: bool
    definition: Definition
    points: tuple[SharePoint, ...]
    errors_pct: tuple[float, ...]
    sd: float | None
    before_on: str = ""


@dataclass(frozen=True, slots=True)
class PainDay:
    """Pain of one day, 0 to 10; None where it was not told.

    Attributes:
        before: before the visit.
        most: the highest told during or after sets.
    """

    day: date
    before: int | None = None
    night: int | None = None
    morning: int | None = None
    most: int | None = None


@dataclass(frozen=True, slots=True)
class PlanPlace:
    """Where in a plan the athlete is.

    Attributes:
        stage: number of the stage, from 1.
        problem: why the plan cannot be read; else empty.
    """

    name: str
    stage: int = 0
    stages: int = 0
    stage_name: str = ""
    since: date | None = None
    example: bool = False
    problem: str = ""


@dataclass(frozen=True, slots=True)
class StageMove:
    """A move between stages; `old` is empty where the plan began."""

    day: date
    old: str
    new: str
    reason: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One load cell of the rig and its calibration.

    Attributes:
        date: ISO date of the calibration; empty where it is nominal.
        at_n: force at which the uncertainty is told.
        expanded_n: uncertainty with k = 2 there; None where not worked out.
    """

    name: str
    label: str
    date: str
    at_n: float
    expanded_n: float | None


@dataclass(frozen=True, slots=True)
class Rig:
    """The rig of the newest set of the period."""

    name: str
    serial_number: str
    rate_hz: float
    zero: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Week:
    """Planned beside done in one week with a visit, from its Monday on."""

    monday: date
    planned: Amount = field(default_factory=Amount)
    done: Amount = field(default_factory=Amount)


@dataclass(frozen=True, slots=True)
class Whole:
    """What was 100 % in the sets of one task and its sides.

    Attributes:
        references: each once, the newest last.
        key: of the task; empty where it has none.
    """

    task: str
    sides: Sides
    references: tuple[Reference, ...]
    key: str = ""

    def origin_words(self, reference: Reference) -> str:
        """Where one of them comes from, and of which task where of another."""
        task = Task(self.task, sides=self.sides, key=self.key)
        return origin_words(reference, task)


@dataclass(frozen=True, slots=True)
class ReportFacts:
    """All of a report.

    Attributes:
        name: of the athlete; empty unless it was asked for.
        task: the only one that was asked for; empty for all.
        first, last: of the period; both are in it.
        visits: days with a set.
        lines: planned and done; warm-up lines apart.
        by_order: whether there was a running order in the period; without one nothing
            was planned, and what stands as planned is what the sets asked for.
        wholes: what the percentages and doses of `lines` are of.
        weeks: those with a visit, without the warm-up.
        not_closed: sets whose end is not in the logbook.
        training: what was asked and held in each kind of work, over the visits.
        pain_asked: days with a set on which pain was told.
        sets: how many, and `simulated` how many on the simulated rig.
        pain_back: day and level of each mark of pain that was taken back.
    """

    code: str
    name: str
    task: str
    first: date
    last: date
    made: date
    rule: PainRule
    plan: PlanPlace | None = None
    moves: tuple[StageMove, ...] = ()
    visits: int = 0
    lines: tuple[TaskLine, ...] = ()
    by_order: bool = False
    wholes: tuple[Whole, ...] = ()
    weeks: tuple[Week, ...] = ()
    trends: tuple[SideTrend, ...] = ()
    symmetry: tuple[SymmetryTrend, ...] = ()
    shares: tuple[ShareTrend, ...] = ()
    training: tuple[TrainingTrend, ...] = ()
    pain: tuple[PainDay, ...] = ()
    pain_asked: int = 0
    pain_back: tuple[tuple[date, int], ...] = ()
    sets: int = 0
    simulated: int = 0
    changes: tuple[ChangeLine, ...] = ()
    rig: Rig | None = None
    not_closed: int = 0
