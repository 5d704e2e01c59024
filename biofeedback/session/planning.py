"""Planning: plans, stages and criteria for the page that shows and edits them.

Newtons are those of the day: the reference is chosen by the very rule by which the day
of an athlete chooses it, so that no page tells another force than the set will have.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import plan_file
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.letters import folded
from biofeedback.logbook.plans import Move, StoredPlan  # for the window
from biofeedback.phrase import joined, phrase
from biofeedback.session.day_facts import facts_of
from biofeedback.session.local_time import LocalTime, here
from biofeedback.training.criteria import Judged, Regained
from biofeedback.training.example_plans import EXAMPLE_PLANS
from biofeedback.training.intensity import LEAST_PCT, Intensity
from biofeedback.training.planned import PlannedPrescription
from biofeedback.training.prescription import ClockRule
from biofeedback.training.reference_choice import choose
from biofeedback.training.regaining import regaining
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.people import Person
    from biofeedback.training.plan import Plan, Stage
    from biofeedback.training.reference import Reference
    from biofeedback.training.regaining import Regaining

__all__ = [
    "Move",
    "Planning",
    "SideReference",
    "StoredPlan",
    "fresh_key",
    "write_whole",
]

write_whole = plan_file.write_whole
NAME_LEAST = 3
"""Shorter parts of a name are words as well."""


@dataclass(frozen=True, slots=True)
class SideReference:
    """What is 100 % for one side, if the set were today.

    Attributes:
        side: None where it is not known which one it is.
        reference: None where there is none.
        missing: why there is none; else empty.
    """

    side: Sides | None
    reference: Reference | None
    missing: str = ""


class Planning:
    """Plans of one logbook.

    Raises (every method): `FileError` where logbook or file do not do what is asked.

    Args:
        clock: the time here, with its zone.
    """

    def __init__(
        self,
        logbook: Logbook,
        *,
        clock: Callable[[], datetime] = here,
    ) -> None:
        self._logbook = logbook
        self._clock = clock
        self._local = LocalTime(clock)

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

    def followed(self, athlete_id: str) -> str:
        """Key of the plan that is followed, or nothing."""
        found = self._logbook.plans.followed(athlete_id)
        return found.id if found else ""

    def unread(self, athlete_id: str) -> tuple[str, ...]:
        """Which plans of the athlete cannot be read, and why, in words."""
        return tuple(one.words for one in self._logbook.plans.unread(athlete_id))

    def plan(self, key: str) -> StoredPlan | None:
        """One plan, or None."""
        return self._logbook.plans.get(key)

    def weeks_since(self, at: datetime) -> int:
        """Whole weeks from a moment to now, by the calendar of the athlete's place."""
        return max(0, (self._local.today - self._local.day(at)).days) // 7

    def day_of(self, at: datetime) -> str:
        """ISO date of a moment, where the athlete is."""
        return self._local.day(at).isoformat()

    # Changes.

    def save(
        self,
        key: str,
        athlete_id: str,
        plan: Plan,
        *,
        stage: int | None = None,
        read: StoredPlan | None = None,
    ) -> str:
        """Keeps a plan as a whole; an empty key begins a new one.

        A task that the list knows by its name is the list's, position and all, so
        that its tests and sets are found and are of the same position.

        Args:
            stage, read: see `Plans.change`.

        Raises:
            UserError: the plan was changed elsewhere meanwhile.
        """
        plan = self._with_known_tasks(plan).with_own_keys()
        if key:
            self._logbook.plans.change(key, plan, stage=stage, read=read)
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
        """Reads a plan; a task that is known here is the one of this logbook."""
        plan = plan_file.load(path)
        try:
            return self._with_known_tasks(plan)
        except FieldError as error:  # of the same name, and of another kind
            raise FileError(
                path,
                error.problem,
                place=joined("", (error.field,)),
                next_step=error.next_step,
            ) from error

    def names_athlete(self, plan: Plan, code: str) -> str:
        """A text of the plan that has the athlete's code or name in it, or nothing.

        A plan that goes to another athlete or into a file should name nobody.
        """
        person = self.athlete(code)
        names = {code}
        if person is not None:
            parts = person.details.name.split()
            names |= {person.details.name, *(one for one in parts if one[0].isupper())}
        words = [re.escape(name) for name in names if len(name) >= NAME_LEAST]
        if not words:
            return ""
        found = re.compile(rf"(?<!\w)(?:{'|'.join(words)})(?!\w)")
        return next((text for text in plan.texts if found.search(text)), "")

    # What is known.

    def judged(self, stored: StoredPlan, stage: int) -> tuple[Judged, ...]:
        """How each criterion of a stage stands."""
        wanted = stored.plan.stages[stage]
        facts = self._logbook.plans.facts(stored, stage)
        injured = self._injured(stored.athlete_id)
        return wanted.judged(
            replace(
                facts,
                regained=self._regained(stored.athlete_id, wanted, injured),
                one_sided=injured is not None,
            )
        )

    def references(
        self, athlete_id: str, planned: PlannedPrescription
    ) -> tuple[SideReference, ...]:
        """What is 100 % for each side in its order, if the set were today."""
        injured = self._injured(athlete_id)
        try:
            order = planned.side_order.sides(injured)
        except FieldError:
            return (
                SideReference(
                    None, None, phrase("It is not known which side is injured.")
                ),
            )
        now = self._clock()
        mass = self._logbook.people.mass(athlete_id, on=now.date().isoformat())
        facts = facts_of(self._logbook, athlete_id, planned, mass, now)
        found = []
        for side in order:
            choice = choose(
                planned.reference,
                planned.task.on_side(side),
                facts,
                today=now.date(),
                each_side=planned.each_side,
            )
            reference = choice.picked.reference if choice.picked else None
            found.append(SideReference(side, reference, choice.missing))
        return tuple(found)

    def _injured(self, athlete_id: str) -> Sides | None:
        """The one injured side, or None."""
        person = self._logbook.people.get(athlete_id)
        injured = person.details.injured if person else None
        return None if injured is Sides.BOTH else injured

    def _regained(
        self, athlete_id: str, stage: Stage, injured: Sides | None
    ) -> tuple[Regaining, ...]:
        if injured is None:
            return ()
        known = {task.name: task for task in self.tasks()}
        now = self._clock()
        found = []
        for criterion in stage.criteria:
            if not isinstance(criterion, Regained):
                continue
            task = known.get(criterion.task, Task(criterion.task))
            asked = _any_of(task)
            facts = facts_of(self._logbook, athlete_id, asked, None, now)
            one = regaining(task, criterion.against, injured, facts)
            if one is not None:
                found.append(one)
        return tuple(found)

    def _with_known_tasks(self, plan: Plan) -> Plan:
        """With the tasks of the list: by key, whatever it is called, else by name.

        A key that this logbook does not know is of another one and is left out.
        """
        stored = self._logbook.tasks
        stored.start()

        def named(one: PlannedPrescription) -> PlannedPrescription:
            own = stored.get(one.task.key) if one.task.key else None
            if own is not None and folded(own.name) != folded(one.task.name):
                return one  # it has another name by now
            found = own or stored.by_name(one.task.name)
            if found is None:
                return replace(one, task=replace(one.task, key=""))
            return replace(one, task=replace(found, sides=one.task.sides))

        return plan.with_each(named)


def _any_of(task: Task) -> PlannedPrescription:
    """Something asked for in a task, to look for its tests by."""
    return PlannedPrescription(
        task, Intensity.at_least(LEAST_PCT), hold_s=1.0, clock=ClockRule.RUNNING
    )


def fresh_key() -> str:
    """A key for a new prescription or criterion."""
    return new_key()


def _without_keys(plan: Plan) -> Plan:
    return plan.with_each(lambda one: replace(one, task=replace(one.task, key="")))
