"""What the desk has to do with the plan that its athlete follows.

* Whoever follows a plan is offered a set of its stage, never the last set that was
  done: that one may be of another stage, or beyond what this one prescribes.
* Before pain was asked the offer lies at the low end of the range.
* What stands at the desk beyond the plan (another task, outside the range, above the
  ceiling) is said before the start; it is never refused.
* The range is held against the 100 % that the plan's rule finds today, or against the
  one that was decided on for this very set. A number typed at the desk moves no limit.
* A longer hold, more reps or more sets than planned are beyond the plan; less is not.
* That nobody asked about pain is said before the first set of the day.

The program advises; the practitioner decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.logbook.letters import folded
from biofeedback.logbook.plan_rows import StoredPlan
from biofeedback.phrase import phrase, sentences
from biofeedback.session.day_facts import midnight
from biofeedback.session.opening import PLAIN
from biofeedback.session.pain_told import is_test
from biofeedback.training.intensity_words import newtons, number
from biofeedback.training.running_order import NEAR_N, lies_within
from biofeedback.training.task import same_task

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.session.today import DayView
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task


@dataclass(frozen=True, slots=True)
class Offer:
    """What the desk starts with for somebody who follows a plan.

    Attributes:
        asked: the set at the desk; a plain one where the plan's cannot be had.
        chosen: the set of the plan, or None.
        waits: why the plan's set waits on the page of today; empty where it does not.
        pain_asked: whether the place in the range comes of today's answers.
    """

    asked: Prescription
    chosen: SetOfDay | None = None
    waits: str = ""
    pain_asked: bool = False


def offer_of(view: DayView) -> Offer | None:
    """The first set of today's plan that can be done; None without a plan.

    Args:
        view: the day of the athlete, without sets beside the plan.
    """
    if view.plan is None:
        waits = sentences(*view.problems)
        return Offer(PLAIN, waits=waits) if waits else None
    possible = [one for one in view.sets if not one.problem]
    if possible:
        asked = view.report is not None
        return Offer(possible[0].asked(), possible[0], pain_asked=asked)
    nothing = phrase("this stage of the plan has no set.")
    why = (*(one.problem for one in view.sets), *view.problems, nothing)
    return Offer(PLAIN, waits=why[0])


def beyond_plan(
    view: DayView, asked: Prescription, *, decided: Reference | None = None
) -> tuple[str, ...]:
    """What of a set goes beyond the plan; empty where nothing does, or without a plan.

    Args:
        view: the day of the athlete, without sets beside the plan.
        decided: the 100 % that was decided on for this set, where one was.
    """
    if view.plan is None:
        return view.problems  # a plan is followed that cannot be read
    of_task = [one for one in view.sets if same_task(one.planned.task, asked.task)]
    if not of_task:
        words = phrase(
            "“{task}” is not in the stage that the plan is at.", task=asked.task.name
        )
        return (words, *view.problems)
    same = [one for one in of_task if one.sides is asked.task.sides]
    if not same:
        words = phrase(
            "The plan does not ask for “{task}” with these sides ({sides}).",
            task=asked.task.name,
            sides=asked.task.sides.value,
        )
        return (words,)
    # The same task may be planned twice; what fits one of them is planned.
    return min((_beyond(one, asked, decided) for one in same), key=len)


def _beyond(
    one: SetOfDay, asked: Prescription, decided: Reference | None
) -> tuple[str, ...]:
    for candidate in one.choice.all:
        if decided is not None and candidate.reference == decided == asked.reference:
            one = one.with_reference(candidate)
    if one.problem:
        why = one.problem
        return (phrase("The band cannot be held against the plan: {why}", why=why),)
    planned, reference = one.asked(), one.reference
    most = one.planned.intensity.whole_range(
        reference.reference.force_n if reference else None
    )
    band, found = asked.band, list[str]()
    if not lies_within(band, most):
        words = phrase(
            "The band, {band}, is outside what the plan prescribes, {range}.",
            band=newtons(band),
            range=newtons(most),
        )
        found.append(words)
    if asked.band_on is not planned.band_on:
        words = phrase(
            "The band is on {here}; in the plan it is on {there}.",
            here=asked.band_on.value,
            there=planned.band_on.value,
        )
        found.append(words)
    return (*found, *_above_ceiling(planned.ceiling_n, asked), *_more(planned, asked))


def _more(planned: Prescription, asked: Prescription) -> tuple[str, ...]:
    """Longer holds, more reps or more sets than are planned; fewer say nothing."""
    found: list[str] = []
    if asked.hold_s > planned.hold_s:
        words = phrase(
            "The hold of {hold_s:g} s is longer than the plan's {planned_s:g} s.",
            hold_s=asked.hold_s,
            planned_s=planned.hold_s,
        )
        found.append(words)
    if asked.reps > planned.reps:
        words = phrase(
            "Reps at the desk: {reps}; in the plan: {planned}.",
            reps=asked.reps,
            planned=planned.reps,
        )
        found.append(words)
    if asked.sets > planned.sets:
        words = phrase(
            "Sets at the desk: {sets}; in the plan: {planned}.",
            sets=asked.sets,
            planned=planned.sets,
        )
        found.append(words)
    return tuple(found)


def _above_ceiling(ceiling_n: float | None, asked: Prescription) -> tuple[str, ...]:
    if ceiling_n is None:
        return ()
    band = asked.band
    highest_n = band.lower_n if band.open_above else band.upper_n
    if highest_n > ceiling_n + NEAR_N:
        words = phrase(
            "The band reaches above the plan's ceiling of {ceiling} N.",
            ceiling=number(ceiling_n),
        )
        return (words,)
    if asked.ceiling_n is None or asked.ceiling_n > ceiling_n + NEAR_N:
        words = phrase(
            "The plan's ceiling of {ceiling} N is not set at the desk.",
            ceiling=number(ceiling_n),
        )
        return (words,)
    return ()


def planned_task(logbook: Logbook, athlete_code: str, name: str) -> Task | None:
    """The task of this name in the plan that an athlete follows, in any stage.

    It may be off the task list, or called otherwise there by now.

    Raises:
        FileError: the logbook cannot be read.
    """
    athlete = logbook.athlete_by_code(athlete_code)
    followed = logbook.plans.followed(athlete.id) if athlete else None
    if not isinstance(followed, StoredPlan):
        return None
    tasks = (one.task for stage in followed.plan.stages for one in stage.prescriptions)
    return next((one for one in tasks if folded(one.name) == folded(name)), None)


def pain_unasked(
    logbook: Logbook, athlete_code: str, view: DayView, now: datetime
) -> tuple[str, ...]:
    """That nobody asked about pain before the first set of a plan's day; else empty.

    Args:
        now: the time here, with its zone.

    Raises:
        FileError: the logbook cannot be read.
    """
    if view.plan is None or view.report is not None:
        return ()
    since = midnight(now)
    for row in logbook.sessions(athlete_code=athlete_code):
        if row.started_utc < since - timedelta(1):
            break  # one that began before midnight may still be today's
        told = (m for m in logbook.session_notes.pain(row.id) if not m.taken_back)
        if any(mark.note.at_utc >= since for mark in told):
            return ()
        begun = (one for one in logbook.sets(row.id) if not is_test(one))
        if any(one.started_utc >= since for one in begun):
            return ()
    return (phrase("Today's questions about pain are not answered yet."),)
