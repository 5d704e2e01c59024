"""Three example plans, invented: to look at, to copy and to change.

The percentages and times are those of common practice, without a published source;
the plans, their weeks and criteria are ours. Each says that it is an example.
"""

from __future__ import annotations

from biofeedback.training import plan_names, task_names
from biofeedback.training.criteria import (
    Against,
    HoldsComplete,
    PainAtMost,
    Regained,
    Word,
)
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.plan import CAUTION, Plan, Stage
from biofeedback.training.planned import (
    PlannedPrescription,
    ReferenceRule,
    SideOrder,
)
from biofeedback.training.prescription import ClockRule
from biofeedback.training.reference import Origin
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

_OTHER = ReferenceRule(origin=Origin.OTHER_SIDE)

_EXTERNAL = Task(
    task_names.SHOULDER_OUTWARDS,
    TaskKind.HOLD,
    Sides.LEFT,
    Setup(joint=Joint.SHOULDER, movement="external rotation"),
)
_INTERNAL = Task(
    task_names.SHOULDER_INWARDS,
    TaskKind.HOLD,
    Sides.LEFT,
    Setup(joint=Joint.SHOULDER, movement="internal rotation"),
)
_KNEE = Task(
    task_names.KNEE_EXTENSION,
    TaskKind.HOLD,
    Sides.LEFT,
    Setup(joint=Joint.KNEE, movement="extension", angle_deg=60.0),
)
_CALF = Task(
    task_names.SEATED_CALF, TaskKind.HOLD, Sides.BOTH, Setup(joint=Joint.ANKLE)
)


def _injured(task: Task, intensity: Intensity, **more: object) -> PlannedPrescription:
    """The injured side, in % of the other one."""
    values: dict[str, object] = {
        "side_order": SideOrder.INJURED,
        "reference": _OTHER,
        "clock": ClockRule.BANKED,
        **more,
    }
    return PlannedPrescription(task, intensity, **values)  # type: ignore[arg-type]  # fields by name


SHOULDER = Plan(
    plan_names.SHOULDER,
    (
        Stage(
            plan_names.SHOULDER_EARLY,
            0,
            4,
            (
                _injured(
                    _EXTERNAL,
                    Intensity.in_range(25, 40, tolerance=10),
                    hold_s=10.0,
                    reps=5,
                    sets=2,
                    rest_s=30.0,
                    ceiling_pct=50.0,
                    key="early-outward",
                ),
            ),
            (
                PainAtMost(2, 3, key="early-pain"),
                HoldsComplete(90, 3, key="early-holds"),
                Word("The surgeon's limits allow more load.", key="early-surgeon"),
            ),
        ),
        Stage(
            plan_names.SHOULDER_LATER,
            4,
            6,
            (
                _injured(
                    _EXTERNAL,
                    Intensity.around(70, 5, ToleranceOf.CENTRE),
                    hold_s=10.0,
                    reps=5,
                    sets=3,
                    rest_s=60.0,
                    key="later-outward",
                ),
                _injured(
                    _INTERNAL,
                    Intensity.around(50, 5, ToleranceOf.CENTRE),
                    hold_s=10.0,
                    reps=5,
                    sets=3,
                    rest_s=60.0,
                    key="later-inward",
                ),
            ),
            (
                PainAtMost(3, 3, key="later-pain"),
                Regained(90, Against.OTHER_SIDE, _EXTERNAL.name, key="later-regained"),
            ),
        ),
    ),
    note=CAUTION,
    example=True,
)

TENDON = Plan(
    plan_names.TENDON,
    (
        Stage(
            plan_names.TENDON_CALM,
            0,
            2,
            (
                _injured(
                    _KNEE,
                    Intensity.in_range(10, 20, tolerance=3,
                                       tolerance_of=ToleranceOf.REFERENCE),
                    hold_s=45.0, reps=5, rest_s=60.0, key="low",
                ),
            ),
            (PainAtMost(3, 4, key="low-pain"),),
        ),
        Stage(
            plan_names.TENDON_HOLD,
            2,
            6,
            (
                _injured(
                    _KNEE,
                    Intensity.around(50, 5, ToleranceOf.REFERENCE),
                    hold_s=30.0, reps=4, sets=2, rest_s=60.0, key="middle",
                ),
            ),
            (
                PainAtMost(3, 4, key="middle-pain"),
                HoldsComplete(80, 4, key="middle-holds"),
            ),
        ),
        Stage(
            plan_names.TENDON_LOAD,
            6,
            12,
            (
                _injured(
                    _KNEE,
                    Intensity.at_least(80),
                    hold_s=15.0, reps=4, sets=2, rest_s=120.0, key="high",
                ),
            ),
            (
                Regained(95, Against.BEFORE_INJURY, _KNEE.name, key="high-regained"),
                Word("Jumps without a reaction the day after.", key="high-jumps"),
            ),
        ),
    ),
    note=CAUTION,
    example=True,
)  # fmt: skip

DAILY = Plan(
    plan_names.DAILY,
    (
        Stage(
            plan_names.DAILY_EACH,
            0,
            8,
            (
                PlannedPrescription(
                    _CALF,
                    Intensity.in_range(15, 20),
                    hold_s=120.0,
                    reps=4,
                    rest_s=60.0,
                    clock=ClockRule.BANKED,
                    balance_tolerance_points=5.0,
                    key="daily",
                ),
            ),
            (
                HoldsComplete(80, 10, key="daily-holds"),
                PainAtMost(2, 10, key="daily-pain"),
            ),
        ),
    ),
    note=CAUTION,
    example=True,
)

EXAMPLE_PLANS = (SHOULDER, TENDON, DAILY)
