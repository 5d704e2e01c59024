"""Planned prescriptions and the rule of their 100 %: checks, sides, newtons."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest

from biofeedback.errors import FieldError
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.training.planned import (
    PlannedPrescription,
    ReferenceRule,
    SideOrder,
)
from biofeedback.training.planned_words import lines, rule, short
from biofeedback.training.prescription import (
    BandOn,
    ClockRule,
    FeedbackMode,
    StartBy,
)
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides, Task, TaskKind
from biofeedback.wire.fields import Fields

LEFT, RIGHT, BOTH = Sides.LEFT, Sides.RIGHT, Sides.BOTH
REFERENCE = Reference(240.0, Origin.OTHER_SIDE, Definition.PEAK, "2026-01-12")
SEVENTY = Intensity.around(70, 5, ToleranceOf.CENTRE)
ASKED = PlannedPrescription(
    Task("Seated calf"),
    SEVENTY,
    hold_s=10.0,
    reps=5,
    sets=3,
    rest_s=60.0,
    ceiling_pct=80.0,
    balance_tolerance_points=5.0,
    key="p",
)
LOWERING = PlannedPrescription(
    Task("Slow lowering", TaskKind.LOWERING),
    Intensity.at_least(80),
    hold_s=4.0,
    clock=ClockRule.RUNNING,
)


# Sides.


@pytest.mark.parametrize(
    ("order", "injured_left", "injured_right"),
    [
        (SideOrder.TOGETHER, [BOTH], [BOTH]),
        (SideOrder.LEFT, [LEFT], [LEFT]),
        (SideOrder.RIGHT, [RIGHT], [RIGHT]),
        (SideOrder.LEFT_FIRST, [LEFT, RIGHT], [LEFT, RIGHT]),
        (SideOrder.RIGHT_FIRST, [RIGHT, LEFT], [RIGHT, LEFT]),
        (SideOrder.INJURED, [LEFT], [RIGHT]),
        (SideOrder.INJURED_FIRST, [LEFT, RIGHT], [RIGHT, LEFT]),
        (SideOrder.INJURED_LAST, [RIGHT, LEFT], [LEFT, RIGHT]),
    ],
)
def test_sides_in_their_order(
    order: SideOrder, injured_left: list[Sides], injured_right: list[Sides]
) -> None:
    assert list(order.sides(LEFT)) == injured_left
    assert list(order.sides(RIGHT)) == injured_right
    for unknown in (None, BOTH):
        if injured_left != injured_right:
            with pytest.raises(FieldError, match="no one injured side"):
                order.sides(unknown)
        else:
            assert list(order.sides(unknown)) == injured_left


@pytest.mark.parametrize(
    ("sides", "more", "single", "band_on"),
    [
        (LEFT, {}, False, BandOn.LEFT),
        (RIGHT, {}, False, BandOn.RIGHT),
        (RIGHT, {}, True, BandOn.TOTAL),
        (BOTH, {}, False, BandOn.TOTAL),
        (BOTH, {"each_side": True}, False, BandOn.EACH_SIDE),
    ],
)
def test_which_force_the_band_is_for(
    sides: Sides, more: dict[str, Any], single: bool, band_on: BandOn
) -> None:
    planned = replace(ASKED, **more)
    found = planned.on(sides, REFERENCE, single_cell=single)
    assert found.band_on is band_on
    assert found.task.sides is sides


def test_one_set_has_the_newtons_of_its_side() -> None:
    """70 % ± 5 % of 240 N: 159.6 to 176.4 N, never above 80 %, which is 192 N."""
    found = ASKED.on(RIGHT, REFERENCE)
    assert (found.band.lower_n, found.band.upper_n) == pytest.approx((159.6, 176.4))
    assert found.ceiling_n == pytest.approx(192.0)
    left = ASKED.on(LEFT, replace(REFERENCE, force_n=180.0))
    assert (left.band.lower_n, left.band.upper_n) == pytest.approx((119.7, 132.3))
    assert left.ceiling_n == pytest.approx(144.0)


# What does not fit.


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"ceiling_pct": 73.0}, "ceiling_pct", "which reaches to 73.5 %"),
        ({"ceiling_pct": 1001.0}, "ceiling_pct", "at most 1000 %"),
        (
            # Somewhere in the range the band ends at 40 %, though it begins lower.
            {"intensity": Intensity.in_range(25, 40, tolerance=10), "ceiling_pct": 35},
            "ceiling_pct",
            "is 35 %; it must lie above the band, which reaches to 40 %",
        ),
        ({"ceiling_n": 190.0}, "ceiling", "one is enough"),
        (
            {"intensity": Intensity.at_least(80, unit=Unit.NEWTONS)},
            "ceiling_pct",
            "needs an intensity in % too",
        ),
        (
            {
                "intensity": Intensity.in_range(60, 96, unit=Unit.NEWTONS),
                "ceiling_pct": None,
                "ceiling_n": 90.0,
            },
            "ceiling_n",
            "above the band, which reaches to 96 N",
        ),
        ({"hold_s": 0.0}, "hold_s", "0.001 s to 3600 s"),
        ({"hold_s": 3601.0}, "hold_s", "0.001 s to 3600 s"),
        ({"reps": 0}, "reps", "1 to 1000"),
        ({"sets": 0}, "sets", "1 to 100"),
        ({"rest_s": -1.0}, "rest_s", "0 s to 3600 s"),
        ({"grace_s": 61.0}, "grace_s", "0 s to 60 s"),
        ({"balance_tolerance_points": 51.0}, "balance_tolerance_points", "0 to 50"),
        (
            {"balance_tolerance_points": None, "balance_required": True},
            "balance_required",
            "needs a tolerance",
        ),
        ({"task": Task(" ")}, "task.name", "must not be empty"),
        ({"note": "x" * 2001}, "note", "longer than 2000"),
    ],
)
def test_what_does_not_fit_is_named(
    changes: dict[str, Any], field: str, words: str
) -> None:
    with pytest.raises(FieldError, match=words) as caught:
        replace(ASKED, **changes)
    assert caught.value.field == field


def test_a_ceiling_in_newtons_waits_for_the_reference() -> None:
    planned = replace(ASKED, ceiling_pct=None, ceiling_n=150.0)
    assert planned.on(LEFT, replace(REFERENCE, force_n=180.0)).ceiling_n == 150.0
    with pytest.raises(FieldError, match=r"above the band, which reaches to 176\.4 N"):
        planned.on(RIGHT, REFERENCE)


def test_no_rest_is_allowed_here_and_asked_about_where_it_is_typed() -> None:
    assert replace(ASKED, rest_s=0.0).rest_s == 0.0


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"intensity": Intensity.in_range(60, 80)}, "intensity.upper"),
        ({"clock": ClockRule.BANKED}, "clock"),
    ],
)
def test_a_lowering_has_a_floor_and_a_clock_that_runs(
    changes: dict[str, Any], field: str
) -> None:
    LOWERING.check_kind()
    ASKED.check_kind()
    with pytest.raises(FieldError) as caught:
        replace(LOWERING, **changes).check_kind()
    assert caught.value.field == field


@pytest.mark.parametrize(
    ("values", "field", "words"),
    [
        ({"within_weeks": 0}, "within_weeks", "1 to 520 weeks"),
        ({"origin": Origin.OTHER_TASK}, "other_task", "Name the task"),
        ({"origin": Origin.BODY_MASS}, "body_mass_factor", "Type 1 for the whole"),
        ({"body_mass_factor": 0.01}, "body_mass_factor", "0.05 to 10"),
        ({"body_mass_factor": 70.0}, "body_mass_factor", "Type 0.7 for 70 % of it"),
        ({"body_mass_factor": 70_000.0}, "body_mass_factor", "0.05 to 10"),
        ({"typed_n": 0.0}, "typed_n", "is 0 N; it must be 0.1 N to 50000 N"),
        ({"typed_n": -5.0}, "typed_n", "is -5 N"),
        ({"typed_n": 60_000.0}, "typed_n", "0.1 N to 50000 N"),
    ],
)
def test_rules_that_do_not_fit(values: dict[str, Any], field: str, words: str) -> None:
    with pytest.raises(FieldError, match=words) as caught:
        ReferenceRule(**values)
    assert caught.value.field == f"reference.{field}"


@pytest.mark.parametrize(
    "planned",
    [
        ASKED,
        LOWERING,
        replace(
            ASKED,
            ceiling_pct=None,
            ceiling_n=190.25,
            feedback=FeedbackMode.ALTERNATE,
            start=StartBy.KEY,
            each_side=True,
            balance_required=True,
            side_order=SideOrder.INJURED_LAST,
            reference=ReferenceRule(
                Origin.TYPED, Definition.PEAK, typed_n=240.5, typed_on="2026-01-12"
            ),
            note="Slowly.",
        ),
    ],
)
def test_what_is_written_is_read(planned: PlannedPrescription) -> None:
    kept = json.loads(json.dumps(planned.to_json()))
    assert PlannedPrescription.from_json(Fields(kept, "p")) == planned


# In words.


def test_all_that_is_asked_is_in_the_words() -> None:
    assert lines(ASKED) == (
        "70 % ± 5 % of the centre (± 3.5 points of the reference); never above 80 %",
        "3 sets of 5 × 10 s (clock: unbroken), 60 s rest; both together",
        "100 % is own side's best (best 1 s mean, within the last 4 weeks)",
        "balance ± 5 points",
    )
    more = replace(
        ASKED,
        intensity=Intensity.in_range(
            25, 40, tolerance=2.5, tolerance_of=ToleranceOf.REFERENCE
        ),
        sets=1,
        each_side=True,
        balance_required=True,
        feedback=FeedbackMode.UNSEEN,
        start=StartBy.KEY,
        grace_s=0.5,
    )
    assert lines(more)[0] == (
        "within 25 to 40 %, a band of ± 2.5 points of the reference; never above 80 %"
    )
    assert lines(more)[1].startswith("1 set of 5")
    assert lines(more)[-1] == (
        "the band is for each side; balance ± 5 points, required; force shown: unseen; "
        "each rep starts by key; excursions up to 0.5 s are no lapses"
    )


def test_a_lowering_is_told_by_floor_and_tempo() -> None:
    assert short(LOWERING) == "Slow lowering: floor 80 %, 1 × 1 × 4 s"
    assert "1 × 4 s tempo (clock: running)" in lines(LOWERING)[1]


def test_newtons_need_no_reference_in_words() -> None:
    fixed = replace(
        ASKED, intensity=Intensity.at_least(80, unit=Unit.NEWTONS), ceiling_pct=None
    )
    assert (
        lines(replace(fixed, ceiling_n=120.0))[0] == "at least 80 N; never above 120 N"
    )
    assert not any("100 %" in line for line in lines(fixed))


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (ReferenceRule(Origin.OTHER_SIDE, within_weeks=1),
         "other side's best (best 1 s mean, within the last week)"),
        (ReferenceRule(Origin.BEFORE_INJURY), "the force from before the injury"),
        (ReferenceRule(Origin.OTHER_TASK, Definition.PEAK, other_task="Knee"),
         "the best of “Knee” (peak, within the last 4 weeks)"),
        (ReferenceRule(Origin.BODY_MASS, body_mass_factor=0.7),
         "0.7 × the weight of the body"),
        (ReferenceRule(Origin.TYPED, typed_n=240.0, typed_on="2026-01-12"),
         "240 N (typed, 2026-01-12)"),
        (ReferenceRule(Origin.TYPED), "the number typed for the side"),
    ],
)  # fmt: skip
def test_what_100_percent_is(asked: ReferenceRule, words: str) -> None:
    assert rule(asked) == f"100 % is {words}"
