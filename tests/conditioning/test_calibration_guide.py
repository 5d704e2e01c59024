"""The guide through a calibration, fed by hand."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.conditioning.block import Block
from biofeedback.conditioning.calibration_guide import (
    CalibrationGuide,
    Plan,
    step_words,
)
from biofeedback.conditioning.calibration_points import Direction
from biofeedback.conditioning.gravity import Gravity
from biofeedback.conditioning.known_load import (
    KnownLoad,
    loads_of_forces,
    loads_of_masses,
)
from biofeedback.conditioning.masses import MassClass
from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
)
from biofeedback.errors import FieldError

RATE_HZ = 80.0
N_PER_COUNT = 0.001
PROFILE = RigProfile(
    "bench",
    tuple(
        Channel(side.value, side, Calibration((0.0, N_PER_COUNT)), rated_n=1000.0)
        for side in (Side.LEFT, Side.RIGHT)
    ),
    RATE_HZ,
    Zero.none(2),
)
LIMIT_COUNTS = 500.0  # 0.05 % of 1000 N at 0.001 N a count


class Feed:
    """Blocks that follow each other."""

    def __init__(self, guide: CalibrationGuide) -> None:
        self.guide = guide
        self.index = 0
        self.noise = np.random.default_rng(5)

    def push(
        self,
        left: float,
        *,
        right: float = 0.0,
        spread: float = 20.0,
        samples: int = 80,
        lost: int = 0,
        saturated: bool = False,
        good: bool = True,
    ) -> None:
        self.index += lost
        wanted = np.tile([left, right], (samples, 1))
        counts = np.rint(wanted + self.noise.normal(0, spread, (samples, 2)))
        index = np.arange(self.index, self.index + samples)
        self.index += samples
        self.guide.push(
            Block(
                int(index[0]),
                lost,
                index / RATE_HZ,
                counts.astype(np.int32),
                counts * N_PER_COUNT,
                counts * N_PER_COUNT,
                np.full(samples, good),
                np.full((samples, 2), saturated),
                gap=lost > 0,
            )
        )


def guide(*, channel: int = 0, runs: int = 2, falling: bool = True) -> CalibrationGuide:
    loads = loads_of_masses("10 5 20", Gravity.standard(), tolerance_pct=1.0)
    return CalibrationGuide(Plan(channel, loads, runs=runs, falling=falling), PROFILE)


def still(under_way: CalibrationGuide) -> bool:
    return under_way.stillness.still


def test_order_of_a_run() -> None:
    steps = guide(runs=1).plan.steps()
    assert [(step.load.mass_kg, step.direction.value) for step in steps] == [
        (0.0, "up"),
        (5.0, "up"),
        (10.0, "up"),
        (20.0, "up"),
        (10.0, "down"),
        (5.0, "down"),
        (0.0, "down"),
    ]
    rising = guide(runs=2, falling=False).plan.steps()
    assert [step.load.mass_kg for step in rising] == [0, 5, 10, 20, 0] * 2
    assert [step.run for step in rising] == [1] * 5 + [2] * 5


def test_a_whole_calibration_gives_readings_for_a_fit() -> None:
    under_way = guide(channel=1)
    feed = Feed(under_way)
    while (step := under_way.step) is not None:
        feed.push(3.0, right=7000 + 100 * step.load.force_n)
        assert under_way.take() == ""
    readings = under_way.readings
    assert len(readings) == under_way.count == 14
    for reading in readings:
        assert reading.counts == pytest.approx(
            7000 + 100 * reading.load.force_n, abs=4 * 20 / 80**0.5
        )
        assert reading.spread_counts == pytest.approx(20, rel=0.5)
        assert reading.others_counts == pytest.approx((3.0,), abs=10)
    assert [reading.run for reading in readings] == [1] * 7 + [2] * 7
    assert readings[-1].direction is Direction.DOWN
    assert readings[1].time_s == pytest.approx(159 / RATE_HZ)
    assert under_way.take() == "All points are taken."


def test_a_point_needs_a_whole_second_that_is_still() -> None:
    under_way = guide()
    assert under_way.take() == "No samples have come yet."
    feed = Feed(under_way)
    feed.push(0.0, samples=79)
    assert under_way.take().startswith("Wait until one second")
    assert not still(under_way)
    feed.push(0.0, samples=1)
    assert still(under_way)
    assert under_way.take() == ""
    feed.push(5000.0, samples=40)  # half of the second is from before
    assert "Not still yet" in under_way.take()
    feed.push(5000.0, samples=40)
    assert under_way.take() == ""


def test_the_limit_is_a_share_of_the_rated_load() -> None:
    under_way = guide()
    feed = Feed(under_way)
    feed.push(0.0, spread=0.8 * LIMIT_COUNTS)
    assert under_way.stillness.limit_counts == pytest.approx(LIMIT_COUNTS)
    assert still(under_way)
    feed.push(0.0, spread=1.3 * LIMIT_COUNTS)
    assert not still(under_way)
    assert "500 is allowed" in under_way.take()


def test_a_load_that_was_not_changed_is_noticed() -> None:
    under_way = guide()
    feed = Feed(under_way)
    feed.push(0.0)
    assert under_way.take() == ""
    feed.push(0.0)
    assert under_way.take().startswith("The counts have not moved")
    feed.push(-5000.0)  # reversed polarity is an answer; the fit will say so
    assert under_way.take() == ""


def test_the_empty_rig_of_two_runs_need_not_move() -> None:
    under_way = guide(falling=False)
    feed = Feed(under_way)
    for counts in (0, 5000, 10000, 20000, 0):
        feed.push(counts)
        assert under_way.take() == ""
    assert under_way.step is not None
    assert (under_way.step.run, under_way.step.load.force_n) == (2, 0)
    feed.push(0)
    assert under_way.take() == ""


@pytest.mark.parametrize(
    ("fault", "words"),
    [({"saturated": True}, "at its stop"), ({"good": False}, "settling")],
)
def test_a_bad_signal_begins_the_second_anew(
    fault: dict[str, bool], words: str
) -> None:
    under_way = guide()
    feed = Feed(under_way)
    feed.push(0.0)
    feed.push(0.0, samples=1, **fault)
    assert words in under_way.take()
    feed.push(0.0, samples=79)
    assert under_way.take().startswith("Wait")
    feed.push(0.0, samples=1)
    assert under_way.take() == ""


def test_a_gap_begins_the_second_anew() -> None:
    under_way = guide()
    feed = Feed(under_way)
    feed.push(0.0)
    feed.push(0.0, samples=10, lost=3)
    assert under_way.stillness.share == pytest.approx(10 / 80)
    feed.index += (
        5  # blocks that were dropped on the way leave no mark but their number
    )
    feed.push(0.0, samples=10)
    assert under_way.stillness.share == pytest.approx(10 / 80)
    under_way.lose("The cable is out.")
    assert under_way.take() == "The cable is out."


def test_a_point_taken_back_is_next_again() -> None:
    under_way = guide()
    feed = Feed(under_way)
    assert under_way.take_back() is None
    for counts in (0, 5000):
        feed.push(counts)
        assert under_way.take() == ""
    back = under_way.take_back()
    assert back is not None
    assert back.load.mass_kg == 5
    assert under_way.step is not None
    assert under_way.step.load.mass_kg == 5
    assert len(under_way.readings) == 1


def test_a_reference_cell_gives_the_force_at_each_point() -> None:
    plan = Plan(0, loads_of_forces("100;50 100"), runs=1, reference=True)
    assert [load.force_n for load in plan.loads] == [50, 100]
    under_way = CalibrationGuide(plan, PROFILE)
    feed = Feed(under_way)
    feed.push(0.0)
    assert under_way.take() == ""
    feed.push(51_000.0)
    assert under_way.take(KnownLoad(50.9, 0.1)) == ""
    assert under_way.readings[1].load == KnownLoad(50.9, 0.1)


def test_words_of_the_steps() -> None:
    steps = guide().plan.steps()
    told = [step_words(step, cell="left cell", runs=2) for step in steps[:7]]
    assert told[0] == "Run 1 of 2. Leave the left cell empty."
    assert told[2] == "Run 1 of 2. Hang 10 kg on the left cell."
    assert told[4] == "Run 1 of 2. Go back to 10 kg on the left cell."
    assert told[6] == "Run 1 of 2. Take everything off the left cell."
    plan = Plan(0, loads_of_forces("50"), runs=1, reference=True)
    (_, step, _) = plan.steps()
    told_n = step_words(step, cell="cell", runs=1, reference=True)
    assert told_n == "Run 1 of 1. Load the cell to about 50 N."


def test_loads_as_people_type_them() -> None:
    gravity = Gravity.standard()
    loads = loads_of_masses("20 5+2,5  10;0 10", gravity)
    assert [load.mass_kg for load in loads] == [7.5, 10, 20]
    assert loads[0].words == "±2 % assumed"
    (m1,) = loads_of_masses("5", gravity, mass_class=MassClass.M1)
    assert m1.tolerance_n == pytest.approx(250e-6 * 9.80665 * 0.99985)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "loads: are missing"),
        ("0", "loads: are missing"),
        ("5 x", "“x” is no mass"),
        ("5 nan", "“nan” is no mass"),
        ("-5", "mass: is -5 kg"),
        ("6000", "must be 0 to 5000 kg"),
        ("1 " * 31, "more than 30"),
        ("+".join(["1"] * 21), "more than 20 weights"),
    ],
)
def test_loads_that_do_not_fit(text: str, words: str) -> None:
    with pytest.raises(FieldError, match=words):
        loads_of_masses(text, Gravity.standard())


@pytest.mark.parametrize("text", ["", "0", "-5", "x", "nan"])
def test_forces_that_do_not_fit(text: str) -> None:
    with pytest.raises(FieldError, match="loads"):
        loads_of_forces(text)


def test_plans_that_do_not_fit() -> None:
    loads = loads_of_forces("50")
    with pytest.raises(FieldError, match="runs"):
        Plan(0, loads, runs=0)
    with pytest.raises(FieldError, match="channel"):
        CalibrationGuide(Plan(2, loads), PROFILE)
