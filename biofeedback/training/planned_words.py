"""A planned prescription in words: all that is asked for, line by line.

For paper and lists. A tolerance is always told with what it is a share of, and a
percentage with what is 100 %.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import joined, phrase
from biofeedback.training.counting import counted
from biofeedback.training.intensity import Unit
from biofeedback.training.intensity_words import (
    in_words,
    number,
    range_in_words,
    tolerance_in_words,
)
from biofeedback.training.prescription import FeedbackMode, StartBy
from biofeedback.training.reference import Origin
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from biofeedback.training.planned import PlannedPrescription, ReferenceRule

USUAL_GRACE_S = 0.3


def lines(planned: PlannedPrescription) -> tuple[str, ...]:
    """How hard, how long, what is 100 %, and what else there is to it."""
    found = [hard(planned) + ceiling(planned), dose(planned)]
    if planned.intensity.wants_reference:
        found.append(rule(planned.reference))
    more = _more(planned)
    return (*found, more) if more else tuple(found)


def short(planned: PlannedPrescription) -> str:
    """One line for a list."""
    sets = phrase(
        "{sets} × {reps} × {hold_s:g} s",
        sets=planned.sets,
        reps=planned.reps,
        hold_s=planned.hold_s,
    )
    return phrase(
        "{name}: {hard}, {sets}", name=planned.task.name, hard=hard(planned), sets=sets
    )


def hard(planned: PlannedPrescription) -> str:
    """The intensity; of a lowering the floor, of a range the band within it too."""
    intensity = planned.intensity
    if planned.task.kind is TaskKind.LOWERING and intensity.upper is None:
        unit = "%" if intensity.unit is Unit.PERCENT else "N"
        return phrase("floor {lower} {unit}", lower=number(intensity.lower), unit=unit)
    within = range_in_words(intensity)
    if not within:
        return in_words(intensity)
    # The band at the low end; how wide in the other spelling depends on the place.
    band = tolerance_in_words(intensity)
    return phrase("within {within}, a band of ± {band}", within=within, band=band)


def ceiling(planned: PlannedPrescription) -> str:
    """What must not be passed; empty where there is no such force."""
    if planned.ceiling_pct is not None:
        return phrase(
            "; never above {ceiling_pct} %", ceiling_pct=number(planned.ceiling_pct)
        )
    if planned.ceiling_n is not None:
        return phrase(
            "; never above {ceiling_n} N", ceiling_n=number(planned.ceiling_n)
        )
    return ""


def dose(planned: PlannedPrescription) -> str:
    """Sets, reps, time, clock, rest and sides."""
    sets = counted(planned.sets, "set")
    lowering = planned.task.kind is TaskKind.LOWERING
    time = phrase("{hold_s:g} s", hold_s=planned.hold_s) + (
        phrase(" tempo") if lowering else ""
    )
    return phrase(
        "{sets} of {reps} × {time} (clock: {clock}), {rest_s:g} s rest; {side_order}",
        sets=sets,
        reps=planned.reps,
        time=time,
        clock=planned.clock.value,
        rest_s=planned.rest_s,
        side_order=planned.side_order.value,
    )


def rule(asked: ReferenceRule) -> str:
    """What 100 % is."""
    by = asked.definition.value
    weeks = (
        phrase("week")
        if asked.within_weeks == 1
        else phrase("{within_weeks} weeks", within_weeks=asked.within_weeks)
    )
    looked_for = phrase("{by}, within the last {weeks}", by=by, weeks=weeks)
    match asked.origin:
        case Origin.BODY_MASS:
            return phrase(
                "100 % is {factor:g} × the weight of the body",
                factor=asked.body_mass_factor or 1,
            )
        case Origin.TYPED if asked.typed_n is not None:
            date = (
                phrase(", {typed_on}", typed_on=asked.typed_on[:10])
                if asked.typed_on
                else ""
            )
            return phrase(
                "100 % is {typed_n} N (typed{date})",
                typed_n=number(asked.typed_n),
                date=date,
            )
        case Origin.TYPED:
            return phrase("100 % is the number typed for the side")
        case Origin.OTHER_TASK:
            return phrase(
                "100 % is the best of “{other_task}” ({looked_for})",
                other_task=asked.other_task,
                looked_for=looked_for,
            )
        case Origin.BEFORE_INJURY:
            return phrase("100 % is the force from before the injury")
        case _:
            return phrase(
                "100 % is {origin} ({looked_for})",
                origin=asked.origin.value,
                looked_for=looked_for,
            )


def _more(planned: PlannedPrescription) -> str:
    parts = []
    if planned.each_side:
        parts.append(phrase("the band is for each side"))
    points = planned.balance_tolerance_points
    if points is not None:
        needed = phrase(", required") if planned.balance_required else ""
        parts.append(
            phrase(
                "balance ± {points} points{needed}",
                points=number(points),
                needed=needed,
            )
        )
    if planned.feedback is not FeedbackMode.FULL:
        parts.append(phrase("force shown: {feedback}", feedback=planned.feedback.value))
    if planned.start is StartBy.KEY:
        parts.append(phrase("each rep starts by key"))
    if planned.grace_s != USUAL_GRACE_S:
        parts.append(
            phrase(
                "excursions up to {grace_s:g} s are no lapses", grace_s=planned.grace_s
            )
        )
    return joined("; ", parts)
