"""Planning: plans, stages and criteria for the page that shows and edits them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback.logbook import plan_file
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.plans import (
    StoredPlan,  # for the window
)
from biofeedback.training.criteria import Against, Judged, Regained, StageFacts
from biofeedback.training.example_plans import EXAMPLE_PLANS
from biofeedback.training.reference import Origin
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.people import Person
    from biofeedback.logbook.plans import (
        Move,  # for the window
    )
    from biofeedback.training.plan import Plan, Stage
    from biofeedback.training.planned import ReferenceRule
    from biofeedback.training.task import Task


__all__ = ["Planning", "SideForces", "StoredPlan", "fresh_key"]


@dataclass(frozen=True, slots=True)
class SideForces:
    """What is known of an athlete in a task, N; None where there is nothing.

    Attributes:
        left_n, right_n, both_n: the latest best force of each side.
        weight_n: of the body.
    """

    left_n: float | None = None
    right_n: float | None = None
    both_n: float | None = None
    weight_n: float | None = None

    def reference_n(self, rule: ReferenceRule, side: Sides) -> float | None:
        """What would be 100 % for a side today, as far as it can be told at once."""
        match rule.origin:
            case Origin.OWN_SIDE:
                return self.of(side)
            case Origin.OTHER_SIDE:
                return self.of(side.other)
            case Origin.TYPED:
                return rule.typed_n
            case Origin.BODY_MASS if self.weight_n and rule.body_mass_factor:
                return self.weight_n * rule.body_mass_factor
            case _:
                return None

    def of(self, side: Sides) -> float | None:
        """Of one side, or of both together."""
        return {
            Sides.LEFT: self.left_n,
            Sides.RIGHT: self.right_n,
            Sides.BOTH: self.both_n,
        }[side]


class Planning:
    """Plans of one logbook.

    Raises (every method): `FileError` where logbook or file do not do what is asked.
    """

    def __init__(self, logbook: Logbook) -> None:
        self._logbook = logbook

    def athlete(self, code: str) -> Person | None:
        """Who the plans are for."""
        return self._logbook.people.by_code(code)

    def athletes(self) -> tuple[Person, ...]:
        """Whom a plan can be copied to."""
        return self._logbook.people.search()

    def tasks(self) -> tuple[Task, ...]:
        """The tasks there are."""
        self._logbook.tasks.start()
        return tuple(stored.task for stored in self._logbook.tasks.search())

    @property
    def examples(self) -> tuple[Plan, ...]:
        """Invented plans to begin from."""
        return EXAMPLE_PLANS

    def plans(
        self, athlete_id: str, *, archived: bool = False
    ) -> tuple[StoredPlan, ...]:
        """The athlete's plans, newest first; the first is the one that is followed."""
        return self._logbook.plans.of_athlete(athlete_id, archived=archived)

    def plan(self, key: str) -> StoredPlan | None:
        """One plan, or None."""
        return self._logbook.plans.get(key)

    # Changes.

    def save(self, key: str, athlete_id: str, plan: Plan) -> str:
        """Keeps a plan as a whole; an empty key begins a new one.

        A task that the list knows by its name is the list's, position and all, so
        that its tests and sets are found and are of the same position.
        """
        plan = self._with_known_tasks(plan)
        if key:
            self._logbook.plans.change(key, plan)
            return key
        return self._logbook.plans.add(athlete_id, plan)

    def copy(self, key: str, athlete_id: str) -> str:
        """Begins the same plan for another athlete."""
        return self._logbook.plans.copy(key, athlete_id)

    def archive(self, key: str) -> None:
        """Takes a plan off the list."""
        self._logbook.plans.archive(key)

    def restore(self, key: str) -> None:
        """Puts it back."""
        self._logbook.plans.restore(key)

    def move(self, key: str, to_stage: int, reason: str) -> None:
        """Moves the stage, by the practitioner's decision."""
        self._logbook.plans.move(key, to_stage, reason)

    def moves(self, key: str) -> tuple[Move, ...]:
        """All moves so far."""
        return self._logbook.plans.moves(key)

    def say(self, key: str, stage: int, criterion: str, *, met: bool) -> None:
        """The practitioner's word on a criterion."""
        self._logbook.plans.say(key, stage, criterion, met=met)

    # Files.

    def save_file(self, plan: Plan, path: Path) -> None:
        """Writes a plan; keys of this logbook's tasks stay at home."""
        plan_file.save(_without_keys(plan), path)

    def load_file(self, path: Path) -> Plan:
        """Reads a plan."""
        return self._with_known_tasks(plan_file.load(path))

    # What is known.

    def judged(self, stored: StoredPlan, stage: int) -> tuple[Judged, ...]:
        """How each criterion of a stage stands."""
        wanted = stored.plan.stages[stage]
        plans = self._logbook.plans
        facts = StageFacts(
            plans.sessions(stored.id, stage),
            self._regained(stored.athlete_id, wanted),
            plans.said(stored.id, stage),
        )
        return wanted.judged(facts)

    def forces(self, athlete_id: str, task: Task) -> SideForces:
        """The latest tests of each side in a task, for newtons beside percentages."""
        mass = self._logbook.people.mass(athlete_id)
        left_n, right_n, both_n = (
            self._newest(athlete_id, task.name, side)
            for side in (Sides.LEFT, Sides.RIGHT, Sides.BOTH)
        )
        return SideForces(left_n, right_n, both_n, mass.weight_n if mass else None)

    def _newest(self, athlete_id: str, task: str, side: Sides) -> float | None:
        found = self._logbook.maxima.tests(athlete_id, task, side)
        return found[0].force_n if found else None

    def _regained(
        self, athlete_id: str, stage: Stage
    ) -> tuple[tuple[str, Against, float], ...]:
        person = self._logbook.people.get(athlete_id)
        injured = person.details.injured if person else None
        if injured is None or injured is Sides.BOTH:
            return ()
        found = []
        for criterion in stage.criteria:
            if not isinstance(criterion, Regained):
                continue
            own_n = self._newest(athlete_id, criterion.task, injured)
            against_n = self._against_n(athlete_id, criterion, injured)
            if own_n is not None and against_n:
                share_pct = 100 * own_n / against_n
                found.append((criterion.task, criterion.against, share_pct))
        return tuple(found)

    def _against_n(
        self, athlete_id: str, criterion: Regained, injured: Sides
    ) -> float | None:
        if criterion.against is Against.OTHER_SIDE:
            return self._newest(athlete_id, criterion.task, injured.other)
        stated = self._logbook.maxima.stated(
            athlete_id, criterion.task, injured, origin=Origin.BEFORE_INJURY
        )
        return stated[0].force_n if stated else None

    def _with_known_tasks(self, plan: Plan) -> Plan:
        known = {task.name: task for task in self.tasks()}

        def named(task: Task) -> Task:
            found = known.get(task.name)
            if found is None:
                return replace(task, key="")
            return replace(found, sides=task.sides)

        return _with_tasks(plan, named)


def fresh_key() -> str:
    """A key for a new prescription or criterion."""
    return new_key()


def _without_keys(plan: Plan) -> Plan:
    return _with_tasks(plan, lambda task: replace(task, key=""))


def _with_tasks(plan: Plan, change: Callable[[Task], Task]) -> Plan:
    return replace(
        plan,
        stages=tuple(
            replace(
                stage,
                prescriptions=tuple(
                    replace(one, task=change(one.task)) for one in stage.prescriptions
                ),
            )
            for stage in plan.stages
        ),
    )
