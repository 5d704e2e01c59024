"""The demo: an invented athlete and what is asked of her. Nothing here is real."""

from __future__ import annotations

from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.task import (
    Definition,
    Origin,
    Reference,
    Sides,
    Task,
    TaskKind,
)

ATHLETE_CODE = "DEMO-1"
ATHLETE_NAME = "Invented athlete"

REFERENCE = Reference(
    force_n=240.0,
    origin=Origin.TYPED,
    definition=Definition.BEST_1_S_MEAN,
    date="2026-01-12",
)

PRESCRIPTION = Prescription(
    task=Task("Seated calf push (invented)", TaskKind.HOLD, Sides.BOTH),
    band=Band.from_percent(25, 40, reference_n=REFERENCE.force_n),
    hold_s=10.0,
    clock=ClockRule.UNBROKEN,
    reps=5,
    rest_s=8.0,
    band_on=BandOn.TOTAL,
    reference=REFERENCE,
    balance_tolerance_points=5.0,
)
