"""What the logbook knows of an athlete, as the rules of the day want it.

Days are those of the place where the athlete is: a test late in the evening belongs to
that day, whatever the date in UTC.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.logbook.plan_rows import StoredPlan, UnreadPlan
from biofeedback.phrase import phrase
from biofeedback.session.local_time import day_of, midnight_of
from biofeedback.session.set_of_day import PlanPlace
from biofeedback.training.plan_names import plan_words
from biofeedback.training.reference import Definition
from biofeedback.training.reference_facts import Facts, Measured, Stated
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from datetime import date, datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.maxima import MaximalTestRow
    from biofeedback.logbook.rows import Athlete
    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.plan import Stage
    from biofeedback.training.planned import PlannedPrescription
    from biofeedback.training.task import Sides


@dataclass(frozen=True, slots=True)
class Background:
    """What is known of an athlete besides tests and reports.

    Attributes:
        injured: the one injured side, or None.
        plan: where in a plan the athlete is, or None.
        planned: what that stage asks for.
        problems: why a plan is not followed, in words.
    """

    injured: Sides | None = None
    body_mass: BodyMass | None = None
    plan: PlanPlace | None = None
    planned: tuple[PlannedPrescription, ...] = ()
    problems: tuple[str, ...] = ()


def background_of(logbook: Logbook, athlete: Athlete, now: datetime) -> Background:
    """What the logbook has of an athlete besides tests and reports."""
    person = logbook.people.get(athlete.id)
    followed = logbook.plans.followed(athlete.id)
    stored = None if isinstance(followed, UnreadPlan) else followed
    stage = stored.plan.stages[stored.stage] if stored else None
    return Background(
        injured=person.details.injured if person else None,
        body_mass=logbook.people.mass(athlete.id, on=now.date().isoformat()),
        plan=_place(stored, stage) if stored and stage else None,
        planned=stage.prescriptions if stage else (),
        problems=(followed.words,) if isinstance(followed, UnreadPlan) else (),
    )


def facts_of(
    logbook: Logbook,
    athlete_id: str,
    planned: PlannedPrescription,
    body_mass: BodyMass | None,
    now: datetime,
) -> Facts:
    """Tests and stated forces that may be the reference of a planned prescription."""
    maxima, task = logbook.maxima, planned.task
    tests = {test.id: test for test in maxima.tests(athlete_id, task)}
    for other in {planned.reference.other_task.strip(), task.pair} - {""}:
        tests |= {test.id: test for test in maxima.tests(athlete_id, other)}
    stated = tuple(
        Stated(
            Task(row.task, sides=row.sides, key=row.task_id or ""),
            row.date,
            row.origin,
            row.definition,
            row.force_n,
            row.id,
        )
        for row in maxima.stated(athlete_id, task)
    )
    measured = tuple(measured_of(row, now) for row in tests.values())
    return Facts(measured, stated, body_mass)


def last_visit(logbook: Logbook, athlete_id: str, now: datetime) -> date | None:
    """The day of the last visit before today, or None."""
    found = logbook.days.last_visit(athlete_id, before=midnight(now))
    return day_of(found, now) if found else None


def midnight(now: datetime) -> datetime:
    """When today began, where the athlete is."""
    return midnight_of(now.date(), now)


def measured_of(row: MaximalTestRow, now: datetime) -> Measured:
    """A test as the rules of the day want it."""
    by = {
        definition: force_n
        for definition in Definition
        if (force_n := row.force_by(definition)) is not None
    }
    return Measured(
        Task(row.task, sides=row.sides, setup=row.setup, key=row.task_id or ""),
        day_of(row.tested_utc, now).isoformat(),
        row.definition,
        by,
        left_n=row.left_n,
        right_n=row.right_n,
        practice=row.practice,
        pain=row.pain,
        key=row.id,
    )


def _place(stored: StoredPlan, stage: Stage) -> PlanPlace:
    """Where in a plan somebody is."""
    plan, name = plan_words(stored.plan.name), plan_words(stage.name)
    words = phrase("{plan}: {stage}", plan=plan, stage=name)
    return PlanPlace(stored.id, stored.stage, words)
