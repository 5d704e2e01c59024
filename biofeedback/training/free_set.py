"""A set without a plan: what the desk asks for, as a plan would hold it."""

from __future__ import annotations

from biofeedback.errors import FieldError
from biofeedback.training.intensity import Intensity, Unit
from biofeedback.training.planned import (
    PlannedPrescription,
    ReferenceRule,
    SideOrder,
)
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides

_ORDERS = {
    Sides.BOTH: SideOrder.TOGETHER,
    Sides.LEFT: SideOrder.LEFT,
    Sides.RIGHT: SideOrder.RIGHT,
}
_SIDES = {BandOn.LEFT: Sides.LEFT, BandOn.RIGHT: Sides.RIGHT}
_LOOKED_FOR = {Origin.OWN_SIDE, Origin.OTHER_SIDE, Origin.BEFORE_INJURY}
"""Origins that can be looked for again with nothing more than the task."""


def free_set(asked: Prescription) -> PlannedPrescription:
    """The same as a plan would hold it: in % where there is a reference.

    The reference is looked for again by its origin and definition, so that the best of
    today is found; a number that was typed stays as it was typed.
    """
    reference = asked.reference
    intensity = _in_percent(asked, reference) if reference else None
    if intensity is None or reference is None:
        intensity, reference = _in_newtons(asked), None
    return PlannedPrescription(
        asked.task,
        intensity,
        asked.hold_s,
        reps=asked.reps,
        sets=asked.sets,
        rest_s=asked.rest_s,
        side_order=_ORDERS[_SIDES.get(asked.band_on, asked.task.sides)],
        reference=_rule(reference) if reference else ReferenceRule(),
        clock=asked.clock,
        grace_s=asked.grace_s,
        each_side=asked.band_on is BandOn.EACH_SIDE,
        balance_tolerance_points=asked.balance_tolerance_points,
        balance_required=asked.balance_required,
        ceiling_n=asked.ceiling_n,
        feedback=asked.feedback,
    )


def _in_newtons(asked: Prescription) -> Intensity:
    band = asked.band
    lower_n = band.lower_n or 0.1  # an intensity of nothing is none
    if band.open_above:
        return Intensity.at_least(lower_n, unit=Unit.NEWTONS)
    return _range(lower_n, band.upper_n, Unit.NEWTONS)


def _in_percent(asked: Prescription, reference: Reference) -> Intensity | None:
    """In % of the reference; None where that is no percentage a plan can hold."""
    band, scale = asked.band, 100 / reference.force_n
    try:
        if band.open_above:
            return Intensity.at_least(_pct(band.lower_n * scale))
        return _range(_pct(band.lower_n * scale), _pct(band.upper_n * scale))
    except FieldError:
        return None


def _range(lower: float, upper: float, unit: Unit = Unit.PERCENT) -> Intensity:
    """The band as it is: the day moves nothing in it."""
    return Intensity.in_range(lower, upper, unit=unit)


def _pct(value: float) -> float:
    """To six decimals: 70 % of a force and back is 70 % again."""
    return round(value, 6)


def _rule(reference: Reference) -> ReferenceRule:
    looked_for = reference.origin in _LOOKED_FOR
    stated = reference.definition is Definition.STATED
    return ReferenceRule(
        reference.origin if looked_for else Origin.TYPED,
        Definition.BEST_1_S_MEAN if looked_for and stated else reference.definition,
        # Offered where nothing is found.
        typed_n=reference.force_n,
        typed_on=reference.date,
    )
