"""A set without a plan: as the desk asks for it, and back again."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.training.band import Band
from biofeedback.training.free_set import free_set
from biofeedback.training.intensity import Unit
from biofeedback.training.planned import SideOrder
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides, Task, TaskKind

REFERENCE = Reference(240, Origin.OWN_SIDE, Definition.PEAK, "2026-03-20")
ASKED = Prescription(
    Task("Leg press", TaskKind.HOLD, Sides.LEFT, key="t"),
    Band.from_percent_of_centre(70, 5, reference_n=240),
    45.0,
    ClockRule.BANKED,
    reps=5,
    sets=2,
    rest_s=120,
    band_on=BandOn.LEFT,
    reference=REFERENCE,
    ceiling_n=200,
)


def same(one: Prescription, other: Prescription) -> None:
    assert replace(one, band=other.band) == other
    assert one.band.lower_n == pytest.approx(other.band.lower_n, rel=1e-6)
    assert one.band.upper_n == pytest.approx(other.band.upper_n, rel=1e-6)


@given(st.floats(5, 280), st.floats(0.1, 40), st.sampled_from(Sides), st.booleans())
def test_it_asks_for_the_very_same_with_the_same_reference(
    centre_pct: float, tolerance: float, sides: Sides, open_above: bool
) -> None:
    band = Band.from_percent_of_centre(centre_pct, tolerance, reference_n=240)
    band = Band.at_least(band.lower_n) if open_above else band
    on = {Sides.LEFT: BandOn.LEFT, Sides.RIGHT: BandOn.RIGHT}.get(sides, BandOn.TOTAL)
    asked = replace(
        ASKED, band=band, band_on=on, task=ASKED.task.on_side(sides), ceiling_n=None
    )
    planned = free_set(asked)
    (side,) = planned.side_order.sides(None)
    same(planned.on(side, REFERENCE), asked)
    assert not planned.intensity.leaves_room


def test_the_reference_is_looked_for_again_and_the_number_is_offered() -> None:
    rule = free_set(ASKED).reference
    assert (rule.origin, rule.definition) == (Origin.OWN_SIDE, Definition.PEAK)
    assert (rule.typed_n, rule.typed_on) == (240, "2026-03-20")
    for origin in (Origin.OTHER_TASK, Origin.BODY_MASS, Origin.TYPED):
        asked = replace(ASKED, reference=replace(REFERENCE, origin=origin))
        assert free_set(asked).reference.origin is Origin.TYPED


def test_without_a_reference_newtons_stay_newtons() -> None:
    asked = replace(ASKED, reference=None, band=Band(0.0, 150.0))
    planned = free_set(asked)
    assert planned.intensity.unit is Unit.NEWTONS
    assert planned.on(Sides.LEFT, None).band.upper_n == 150
    least = free_set(replace(asked, band=Band.at_least(120), ceiling_n=None))
    assert least.on(Sides.LEFT, None).band == Band.at_least(120)


def test_what_is_no_percentage_of_a_plan_becomes_newtons() -> None:
    asked = replace(ASKED, band=Band(900, 1000), ceiling_n=None)
    assert free_set(asked).intensity.unit is Unit.NEWTONS


def test_each_side_stays_each_side() -> None:
    asked = replace(
        ASKED, band_on=BandOn.EACH_SIDE, task=ASKED.task.on_side(Sides.BOTH)
    )
    planned = free_set(asked)
    assert planned.side_order is SideOrder.TOGETHER
    same(planned.on(Sides.BOTH, REFERENCE), asked)
