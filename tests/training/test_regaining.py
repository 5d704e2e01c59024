"""A force regained: like against like, and the latest of each."""

from __future__ import annotations

from dataclasses import replace

import pytest

from biofeedback.training.criteria import Against
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.reference_facts import Facts, Measured, Stated
from biofeedback.training.regaining import Regaining, regaining
from biofeedback.training.task import Setup, Sides, Task

CALF = Task("Seated calf")
PEAK, MEAN = Definition.PEAK, Definition.BEST_1_S_MEAN


def measured(
    side: Sides, date: str, chosen: Definition = MEAN, **forces: float
) -> Measured:
    by = {"peak": PEAK, "mean": MEAN}
    return Measured(
        CALF.on_side(side),
        date,
        chosen,
        {by[name]: force_n for name, force_n in forces.items()},
        key=date,
    )


OWN = measured(Sides.LEFT, "2026-02-03", mean=207.0, peak=260.0)
OTHER = measured(Sides.RIGHT, "2026-01-12", mean=230.0, peak=250.0)


def against_other(*tests: Measured) -> Regaining | None:
    return regaining(CALF, Against.OTHER_SIDE, Sides.LEFT, Facts(tests))


def test_the_latest_of_each_side_by_the_injured_sides_definition() -> None:
    """207 N of 230 N are 90 %."""
    older = (
        measured(Sides.LEFT, "2026-01-20", mean=230.0),
        measured(Sides.RIGHT, "2025-12-01", mean=207.0),
    )
    found = against_other(older[0], OTHER, OWN, older[1])
    assert found is not None
    assert (found.own_n, found.other_n) == (207.0, 230.0)
    assert found.reached_pct == 90.0
    assert found.words == "207 N (2026-02-03) of 230 N (2026-01-12), 90 %."


def test_the_latest_that_has_the_definition_is_the_partner() -> None:
    without = measured(Sides.RIGHT, "2026-02-01", PEAK, peak=240.0)
    found = against_other(OWN, OTHER, without)
    assert found is not None
    assert found.other_date == "2026-01-12"
    assert against_other(OWN, without) is None


def test_another_position_another_task_and_both_sides_are_no_partners() -> None:
    bent, straight = Setup(angle_deg=90.0), Setup(angle_deg=0.0)
    own = replace(OWN, task=replace(OWN.task, setup=bent))
    other = replace(OTHER, task=replace(OTHER.task, setup=straight))
    assert against_other(own, other) is None
    assert against_other(own, replace(other, task=replace(other.task, setup=bent)))
    assert against_other(own, OTHER)  # where it was not written down, it may be
    knee = replace(OTHER, task=Task("Knee", sides=Sides.RIGHT))
    together = replace(OTHER, task=CALF.on_side(Sides.BOTH))
    assert against_other(OWN, knee, together) is None


def test_a_force_of_nothing_is_none() -> None:
    assert against_other(OWN, measured(Sides.RIGHT, "2026-02-01", mean=0.05)) is None


@pytest.mark.parametrize(
    ("definition", "origin", "side", "known"),
    [
        (MEAN, Origin.BEFORE_INJURY, Sides.LEFT, True),
        (Definition.STATED, Origin.BEFORE_INJURY, Sides.LEFT, True),
        (PEAK, Origin.BEFORE_INJURY, Sides.LEFT, False),
        (MEAN, Origin.TYPED, Sides.LEFT, False),
        (MEAN, Origin.BEFORE_INJURY, Sides.RIGHT, False),
    ],
)
def test_against_before_the_injury(
    definition: Definition, origin: Origin, side: Sides, known: bool
) -> None:
    stated = (
        Stated(CALF.on_side(side), "2025-11-02", origin, definition, 250.0, "a"),
        Stated(CALF.on_side(side), "2024-11-02", origin, definition, 300.0, "b"),
    )
    found = regaining(CALF, Against.BEFORE_INJURY, Sides.LEFT, Facts((OWN,), stated))
    if known:
        assert found is not None
        assert (found.own_n, found.other_n) == (207.0, 250.0)
    else:
        assert found is None
