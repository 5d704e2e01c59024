"""The example plans in newtons, on both sides, worked out by hand.

The facts they encode are common practice without a source: 25–40 % in weeks 0 to 4 by
pain and 70 % for 10 s in weeks 4 to 6 with inward rotation at 50 %; 10–20 % early, then
holds of 30 s, then at least 80 % for 10 to 20 s; daily holds at 15–20 %. The athlete is
invented: left 180 N and injured, right 240 N.
"""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING

import pytest

from biofeedback.training.example_plans import (
    DAILY,
    EXAMPLE_PLANS,
    SHOULDER,
    TENDON,
)
from biofeedback.training.intensity_words import newtons_in_range
from biofeedback.training.plan import CAUTION, Plan
from biofeedback.training.planned_words import hard
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from biofeedback.training.planned import PlannedPrescription

LEFT_N, RIGHT_N = 180.0, 240.0


def edges_n(
    planned: PlannedPrescription, reference_n: float, place: float = 0.0
) -> tuple[float, float]:
    reference = Reference(
        reference_n, Origin.OTHER_SIDE, Definition.BEST_1_S_MEAN, "2026-01-12"
    )
    (side,) = planned.side_order.sides(Sides.LEFT)
    band = planned.on(side, reference, place=place).band
    return band.lower_n, band.upper_n


def test_they_say_what_they_are() -> None:
    assert len(EXAMPLE_PLANS) == 3
    for plan in EXAMPLE_PLANS:
        assert plan.example
        assert plan.name.startswith("Example: ")
        assert CAUTION in plan.note


@pytest.mark.parametrize(
    ("place", "lower_n", "upper_n"),
    [
        # 25–40 % of 240 N is 60–96 N. A band of ±10 % of its centre that begins at
        # 60 N has its centre at 60/0.9 = 66.67 N and ends at 73.33 N; one that ends
        # at 96 N has it at 96/1.1 = 87.27 N and begins at 78.55 N.
        (0.0, 60.0, 73.3333),
        (1.0, 78.5455, 96.0),
        (0.5, 69.2727, 84.6667),
    ],
)
def test_shoulder_early_lies_in_the_range_at_every_place(
    place: float, lower_n: float, upper_n: float
) -> None:
    (planned,) = SHOULDER.stages[0].prescriptions
    assert edges_n(planned, RIGHT_N, place) == pytest.approx(
        (lower_n, upper_n), abs=1e-3
    )
    assert (SHOULDER.stages[0].from_week, SHOULDER.stages[0].to_week) == (0, 4)


def test_shoulder_early_has_a_ceiling_at_half_of_the_other_side() -> None:
    (planned,) = SHOULDER.stages[0].prescriptions
    reference = Reference(RIGHT_N, Origin.OTHER_SIDE, Definition.PEAK, "2026-01-12")
    assert planned.on(Sides.LEFT, reference).ceiling_n == 120.0


def test_shoulder_later_outward_70_inward_50() -> None:
    outward, inward = SHOULDER.stages[1].prescriptions
    # 70 % of 240 N is 168 N, ±5 % of it 8.4 N; 50 % is 120 N, ±6 N.
    assert edges_n(outward, RIGHT_N) == pytest.approx((159.6, 176.4))
    assert edges_n(inward, RIGHT_N) == pytest.approx((114.0, 126.0))
    # Were the right side injured: 126 N ± 6.3 N of the left one's 180 N.
    assert edges_n(outward, LEFT_N) == pytest.approx((119.7, 132.3))
    assert outward.hold_s == inward.hold_s == 10.0


def test_tendon_low_then_30_s_then_at_least_80() -> None:
    low, middle, high = (stage.prescriptions[0] for stage in TENDON.stages)
    # 10–20 % of 240 N is 24–48 N; ±3 points are 7.2 N either way.
    assert edges_n(low, RIGHT_N, 0.0) == pytest.approx((24.0, 38.4))
    assert edges_n(low, RIGHT_N, 1.0) == pytest.approx((33.6, 48.0))
    assert middle.hold_s == 30.0
    assert edges_n(middle, RIGHT_N) == pytest.approx((108.0, 132.0))
    assert edges_n(high, RIGHT_N) == (192.0, math.inf)
    assert edges_n(high, LEFT_N) == (144.0, math.inf)
    assert 10 <= high.hold_s <= 20


def test_daily_holds() -> None:
    (planned,) = DAILY.stages[0].prescriptions
    # Of the total of both sides, 420 N: 63–84 N.
    reference = Reference(420.0, Origin.OWN_SIDE, Definition.PEAK, "2026-01-12")
    band = planned.on(Sides.BOTH, reference).band
    assert (band.lower_n, band.upper_n) == pytest.approx((63.0, 84.0))


IN_NEWTONS = [
    # Plan, stage, place of what is asked for; % and newtons of 180 N and of 240 N.
    (SHOULDER, 0, 0, "within 25 to 40 %, a band of ± 10 % of the centre",
     # 45/0.9 = 50, so 45 to 55; 72/1.1 = 65.45, so 58.9 to 72.
     "45 to 55 N at the low end, 58.9 to 72 N at the high end",
     "60 to 73.3 N at the low end, 78.5 to 96 N at the high end"),
    (SHOULDER, 1, 0, "70 % ± 5 % of the centre (± 3.5 points of the reference)",
     "119.7 to 132.3 N", "159.6 to 176.4 N"),
    (SHOULDER, 1, 1, "50 % ± 5 % of the centre (± 2.5 points of the reference)",
     "85.5 to 94.5 N", "114 to 126 N"),
    (TENDON, 0, 0, "within 10 to 20 %, a band of ± 3 points of the reference",
     # 3 points of 180 N are 5.4 N: 18 to 28.8 N, up to 25.2 to 36 N.
     "18 to 28.8 N at the low end, 25.2 to 36 N at the high end",
     "24 to 38.4 N at the low end, 33.6 to 48 N at the high end"),
    (TENDON, 1, 0, "50 % ± 5 points of the reference (± 10 % of the centre)",
     "81 to 99 N", "108 to 132 N"),
    (TENDON, 2, 0, "at least 80 %", "at least 144 N", "at least 192 N"),
    (DAILY, 0, 0, "15 to 20 %", "27 to 36 N", "36 to 48 N"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("plan", "stage", "place", "words", "left", "right"), IN_NEWTONS
)
def test_words_and_rounded_newtons_of_both_sides(
    plan: Plan, stage: int, place: int, words: str, left: str, right: str
) -> None:
    planned = plan.stages[stage].prescriptions[place]
    assert hard(planned) == words
    assert newtons_in_range(planned.intensity, LEFT_N) == left
    assert newtons_in_range(planned.intensity, RIGHT_N) == right


def test_the_table_above_is_whole() -> None:
    asked = sum(len(stage.prescriptions) for plan in EXAMPLE_PLANS
                for stage in plan.stages)  # fmt: skip
    assert len(IN_NEWTONS) == asked


def test_each_key_is_there_once_in_a_plan() -> None:
    for plan in EXAMPLE_PLANS:
        assert plan.with_own_keys() == plan


@pytest.mark.parametrize("plan", EXAMPLE_PLANS, ids=lambda plan: plan.name)
def test_they_can_be_kept(plan: Plan) -> None:
    assert Plan.from_json(Fields(json.loads(json.dumps(plan.to_json())))) == plan
