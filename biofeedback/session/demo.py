"""The demo: an invented athlete and what is asked of her. Nothing here is real."""

from __future__ import annotations

from dataclasses import replace

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.training import plan_names
from biofeedback.training.band import Band
from biofeedback.training.criteria import HoldsComplete, PainAtMost
from biofeedback.training.intensity import Intensity
from biofeedback.training.plan import CAUTION, Plan, Stage
from biofeedback.training.planned import PlannedPrescription
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides, Task, TaskKind
from biofeedback.training.task_names import CALF_PUSH, SEATED_CALF

ATHLETE_CODE = "DEMO-1"
ATHLETE_NAME = "Invented athlete"

REFERENCE = Reference(
    force_n=240.0,
    origin=Origin.TYPED,
    definition=Definition.BEST_1_S_MEAN,
    date="2026-01-12",
)

PRESCRIPTION = Prescription(
    task=Task(CALF_PUSH, TaskKind.HOLD, Sides.BOTH),
    band=Band.from_percent(25, 40, reference_n=REFERENCE.force_n),
    hold_s=10.0,
    clock=ClockRule.UNBROKEN,
    reps=5,
    rest_s=8.0,
    band_on=BandOn.TOTAL,
    reference=REFERENCE,
    balance_tolerance_points=5.0,
)

_FIRST = PlannedPrescription(
    Task(SEATED_CALF, TaskKind.HOLD, Sides.BOTH),
    Intensity.in_range(25, 40),
    hold_s=PRESCRIPTION.hold_s,
    reps=PRESCRIPTION.reps,
    rest_s=PRESCRIPTION.rest_s,
    clock=PRESCRIPTION.clock,
    balance_tolerance_points=PRESCRIPTION.balance_tolerance_points,
    key="first",
)

PLAN = Plan(
    plan_names.SHORT,
    (
        Stage(
            plan_names.SHORT_LOW,
            0,
            4,
            (_FIRST,),
            (
                PainAtMost(2, 4, key="first-pain"),
                HoldsComplete(80, 4, key="first-holds"),
            ),
        ),
        Stage(
            plan_names.SHORT_LONGER,
            4,
            8,
            (
                replace(
                    _FIRST, intensity=Intensity.in_range(40, 55), hold_s=20.0,
                    rest_s=20.0, key="longer",
                ),
            ),
            (PainAtMost(2, 4, key="longer-pain"),),
        ),
    ),
    note=CAUTION,
    example=True,
)  # fmt: skip
"""What the demo's athlete follows; the first set of the demo is of it."""


def source(
    *,
    seed: int = 7,
    channels: int = 2,
    rate_hz: float = 80.0,
    step_us: int | None = None,
) -> SimulatedSource:
    """The simulated rig with the invented athlete pulling on it.

    Args:
        seed: the same seed gives the same session.
        step_us: device time of each read without waiting; None for real time.

    Raises:
        FieldError: the simulated board has no such rate or number of channels.
    """
    athlete = SimulatedAthlete(seed)
    settings = RigSettings(channels=channels, rate_hz=rate_hz)
    if channels not in {1, 2}:
        raise FieldError("channels", phrase("must be 1 or 2."))
    if rate_hz not in settings.rates_hz:
        known = ", ".join(f"{rate:g}" for rate in settings.rates_hz)
        raise FieldError("rate", phrase("must be one of {known} Hz.", known=known))
    rig = SimulatedRig(settings, seed=seed, force=athlete)
    return SimulatedSource(rig, athlete=athlete, step_us=step_us)
