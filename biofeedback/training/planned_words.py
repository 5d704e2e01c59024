"""A planned prescription in words: all that is asked for, line by line.

For paper and lists. A tolerance is always told with what it is a share of, and a
percentage with what is 100 %.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.training.counting import counted
from biofeedback.training.intensity import Unit
from biofeedback.training.intensity_words import in_words, number, range_in_words
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
    sets = f"{planned.sets} × {planned.reps} × {planned.hold_s:g} s"
    return f"{planned.task.name}: {hard(planned)}, {sets}"


def hard(planned: PlannedPrescription) -> str:
    """The intensity; of a lowering the floor, of a range the band within it too."""
    intensity = planned.intensity
    if planned.task.kind is TaskKind.LOWERING and intensity.upper is None:
        unit = "%" if intensity.unit is Unit.PERCENT else "N"
        return f"floor {number(intensity.lower)} {unit}"
    within = range_in_words(intensity)
    if not within:
        return in_words(intensity)
    # The band at the low end; how wide in the other spelling depends on the place.
    band = in_words(intensity).split("±", 1)[1].split("(", 1)[0].strip()
    return f"within {within}, a band of ± {band}"


def ceiling(planned: PlannedPrescription) -> str:
    """What must not be passed; empty where there is no such force."""
    if planned.ceiling_pct is not None:
        return f"; never above {number(planned.ceiling_pct)} %"
    if planned.ceiling_n is not None:
        return f"; never above {number(planned.ceiling_n)} N"
    return ""


def dose(planned: PlannedPrescription) -> str:
    """Sets, reps, time, clock, rest and sides."""
    sets = counted(planned.sets, "set")
    lowering = planned.task.kind is TaskKind.LOWERING
    time = f"{planned.hold_s:g} s" + (" tempo" if lowering else "")
    return (
        f"{sets} of {planned.reps} × {time} (clock: {planned.clock.value}), "
        f"{planned.rest_s:g} s rest; {planned.side_order.value}"
    )


def rule(asked: ReferenceRule) -> str:
    """What 100 % is."""
    by = asked.definition.value
    weeks = "week" if asked.within_weeks == 1 else f"{asked.within_weeks} weeks"
    looked_for = f"{by}, within the last {weeks}"
    match asked.origin:
        case Origin.BODY_MASS:
            return f"100 % is {asked.body_mass_factor or 1:g} × the weight of the body"
        case Origin.TYPED if asked.typed_n is not None:
            date = f", {asked.typed_on[:10]}" if asked.typed_on else ""
            return f"100 % is {number(asked.typed_n)} N (typed{date})"
        case Origin.TYPED:
            return "100 % is the number typed for the side"
        case Origin.OTHER_TASK:
            return f"100 % is the best of “{asked.other_task}” ({looked_for})"
        case Origin.BEFORE_INJURY:
            return "100 % is the force from before the injury"
        case _:
            return f"100 % is {asked.origin.value} ({looked_for})"


def _more(planned: PlannedPrescription) -> str:
    parts = []
    if planned.each_side:
        parts.append("the band is for each side")
    points = planned.balance_tolerance_points
    if points is not None:
        needed = ", required" if planned.balance_required else ""
        parts.append(f"balance ± {number(points)} points{needed}")
    if planned.feedback is not FeedbackMode.FULL:
        parts.append(f"force shown: {planned.feedback.value}")
    if planned.start is StartBy.KEY:
        parts.append("each rep starts by key")
    if planned.grace_s != USUAL_GRACE_S:
        parts.append(f"excursions up to {planned.grace_s:g} s are no lapses")
    return "; ".join(parts)
