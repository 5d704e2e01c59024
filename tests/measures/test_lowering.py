"""Lowering reps against closed forms, at several rates and irregular spacing."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st
from training.scripted import ONE_CELL, TWO_CELLS, Script, asked, reps, rig

from biofeedback.measures.above_floor import Lines
from biofeedback.measures.break_point import STEADY_S, break_point
from biofeedback.measures.rep import RepMeasures, measure
from biofeedback.measures.trace import Trace
from biofeedback.training.band import Band
from biofeedback.training.conductor import Conductor
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from biofeedback.measures.lowering import Lowering

Floats = npt.NDArray[np.float64]

RATES = ("80 Hz", "1 kHz", "irregular")
FLOOR_N = 200.0
CORNERS = ((0.0, 0.0), (0.5, 0.0), (1.5, 400.0), (5.0, 360.0), (5.4, 0.0), (6.5, 0.0))
"""Time and force: up in a second, sinking a little for 3.5 s, let go in 0.4 s."""
LETTING_GO_N_PER_S = 360.0 / 0.4


def spaced(how: str, corners: Sequence[tuple[float, ...]] = CORNERS) -> Floats:
    """Sample times; the corners are among them, so that lines are drawn exactly."""
    end_s = corners[-1][0]
    if how == "80 Hz":
        return np.arange(round(end_s * 80) + 1) / 80
    if how == "1 kHz":
        return np.arange(round(end_s * 1000) + 1) / 1000
    drawn = np.random.default_rng(7).uniform(0, end_s, 500)
    return np.unique(np.concatenate((drawn, [time_s for time_s, *_ in corners])))


def prescribed(**changes: object) -> Prescription:
    plain = replace(
        asked(0.0, 1.0, 4.0),
        task=Task("Lowering (invented)", TaskKind.LOWERING),
        band=Band.at_least(FLOOR_N),
        clock=ClockRule.RUNNING,
    )
    return replace(plain, **changes)  # type: ignore[arg-type]


def measured(script: Script, prescription: Prescription) -> RepMeasures:
    sides = ONE_CELL if script.force_n.shape[1] == 1 else TWO_CELLS
    conductor = Conductor(prescription, rig(sides))
    starting = {float(script.time_s[index]): band for index, band in script.bands}
    events = []
    for block in script.blocks():
        band = starting.get(float(block.time_s[0]))
        if band is not None:
            conductor.change(conductor.asked.with_band(band))
        events += conductor.push(block)
    found = reps(events + conductor.stop())
    found.sort(key=lambda rep: rep.start_s - rep.end_s)  # the longest first
    trace = Trace.of(script.blocks())
    return measure(found[0], trace, conductor.judged, prescription)


def lowered(script: Script, prescription: Prescription | None = None) -> Lowering:
    found = measured(script, prescription or prescribed()).lowering
    assert found is not None
    return found


def drawn(how: str, corners: Sequence[tuple[float, ...]] = CORNERS) -> Script:
    time_s = spaced(how, corners)
    knots = np.array(corners)
    columns = [np.interp(time_s, knots[:, 0], column) for column in knots[:, 1:].T]
    return Script.of(time_s, np.column_stack(columns))


@dataclass(frozen=True)
class Corner:
    """The closed form of the break of `CORNERS`."""

    break_s: float
    level_n: float
    half_s: float

    @classmethod
    def of(cls, *, end_s: float) -> Corner:
        up, sink, fall, w = 400.0, 40.0 / 3.5, LETTING_GO_N_PER_S, STEADY_S
        # The best mean of a tip with slopes a up and b down begins w·b/(a + b) before
        # it and is a·b·w/(2(a + b)) under it.
        top_s = 1.5 - w * sink / (up + sink)
        top_n = 400.0 - up * sink * w / (2 * (up + sink))
        last_n = (5.4 - end_s) ** 2 * fall / 2 / w  # just after the end
        slope = (top_n - last_n) / (end_s - top_s)
        a, b = slope - sink, fall - slope
        break_s = 5.0 - w * b / (a + b) + w / 2
        tilted_n = 360.0 + slope * (5.0 - top_s) - a * b * w / (2 * (a + b))
        level_n = tilted_n - slope * (break_s - top_s)
        return cls(break_s, level_n, 5.0 + (360.0 - level_n / 2) / fall)


@pytest.mark.parametrize("how", RATES)
def test_a_drawn_rep_has_the_numbers_of_its_closed_form(how: str) -> None:
    rep = measured(drawn(how), prescribed())
    found = rep.lowering
    assert found is not None
    # Onset at 20 N, half of it ends the rep, the floor is 200 N.
    onset_s = 0.5 + 20.0 / 400.0
    end_s = 5.4 - 10.0 / LETTING_GO_N_PER_S
    from_s, to_s = 1.0, 5.0 + 160.0 / LETTING_GO_N_PER_S
    assert rep.times.start_s == pytest.approx(onset_s, abs=1e-9)
    assert rep.times.end_s == pytest.approx(end_s, abs=1e-9)
    assert found.lowering_peak_n == pytest.approx(400.0, abs=1e-9)
    assert found.lowering_peak_after_s == pytest.approx(1.5 - onset_s, abs=1e-9)
    assert found.above_floor_s == pytest.approx(to_s - from_s, abs=1e-9)
    above_ns = 200 * 0.5 / 2 + (200 + 160) / 2 * 3.5 + 160 * (to_s - 5.0) / 2
    assert found.above_floor_ns == pytest.approx(above_ns, rel=1e-9)
    corner = Corner.of(end_s=end_s)
    assert abs(corner.break_s - 5.0) < STEADY_S / 2
    assert found.break_after_s == pytest.approx(corner.break_s - onset_s, abs=1e-6)
    assert found.break_force_n == pytest.approx(corner.level_n, abs=1e-4)
    fall = corner.level_n / 2 / (corner.half_s - corner.break_s)
    assert found.fall_n_per_s == pytest.approx(fall, rel=1e-4)
    # The mean: from the floor up to the tip, and down to the break.
    broke_n = 400 - 40 / 3.5 * (corner.break_s - 1.5)
    area = 300 * 0.5 + (400 + broke_n) / 2 * (corner.break_s - 1.5)
    assert found.lowering_s == pytest.approx(corner.break_s - from_s, abs=1e-6)
    assert found.lowering_mean_n == pytest.approx(area / found.lowering_s, rel=1e-6)
    assert found.above_ceiling_s is None
    assert found.left_at_peak_n is None


@pytest.mark.parametrize("how", RATES)
def test_time_over_a_ceiling_is_above_the_floor_and_told_apart(how: str) -> None:
    prescription = prescribed(ceiling_n=380.0)
    rep = measured(drawn(how), prescription)
    found = rep.lowering
    assert found is not None
    free = lowered(drawn(how))
    assert found.above_floor_s == free.above_floor_s
    over_s = 20 / 400.0 + 20 / (40.0 / 3.5)
    assert found.above_ceiling_s == pytest.approx(over_s, abs=1e-9)
    assert rep.times.inside_s == pytest.approx(4.0)  # the clock ran on over it
    assert rep.outcome == "complete"


TWO_SIDES = (
    (0.0, 0.0, 0.0),
    (0.5, 0.0, 0.0),
    (1.5, 240.0, 160.0),
    (4.0, 240.0, 160.0),
    (4.1, 40.0, 160.0),
    (5.0, 40.0, 160.0),
    (5.1, 0.0, 0.0),
    (6.0, 0.0, 0.0),
)
"""Left breaks a second before right."""


@pytest.mark.parametrize("how", RATES)
def test_each_side_is_measured_against_half_a_floor_for_both(how: str) -> None:
    found = lowered(drawn(how, TWO_SIDES))
    assert found.left_at_peak_n == pytest.approx(240.0)
    assert found.right_at_peak_n == pytest.approx(160.0)
    assert found.peak_symmetry_pct == pytest.approx(100 * (160 - 240) / 400)
    left_s = (4.0 + 0.1 * 140 / 200) - (0.5 + 100 / 240)
    right_s = (5.0 + 0.1 * 60 / 160) - (0.5 + 100 / 160)
    assert found.left_above_floor_s == pytest.approx(left_s, abs=1e-9)
    assert found.right_above_floor_s == pytest.approx(right_s, abs=1e-9)
    index_pct = 100 * (right_s - left_s) / (right_s + left_s)
    assert found.above_time_symmetry_pct == pytest.approx(index_pct)
    left_ns = 140 * ((left_s - 2.5) + 2 * 2.5) / 2
    right_ns = 60 * ((right_s - 3.5) + 2 * 3.5) / 2
    assert found.left_above_floor_ns == pytest.approx(left_ns, rel=1e-9)
    assert found.right_above_floor_ns == pytest.approx(right_ns, rel=1e-9)
    assert found.above_impulse_symmetry_pct == pytest.approx(
        100 * (right_ns - left_ns) / (right_ns + left_ns)
    )
    assert found.left_break_after_s is not None
    assert found.right_break_after_s is not None
    # Each corner is dated up to 0.05 s early.
    assert found.left_break_after_s == pytest.approx(3.45 - 0.025, abs=0.03)
    assert found.right_break_after_s == pytest.approx(4.45 - 0.025, abs=0.03)
    assert found.break_apart_s == pytest.approx(1.0, abs=0.03)
    total_n = found.lowering_mean_n
    assert found.left_lowering_mean_n is not None
    assert found.right_lowering_mean_n is not None
    assert total_n == pytest.approx(
        found.left_lowering_mean_n + found.right_lowering_mean_n
    )


def test_with_a_floor_for_each_side_both_must_be_above_it() -> None:
    prescription = prescribed(band=Band.at_least(100.0), band_on=BandOn.EACH_SIDE)
    found = lowered(drawn("1 kHz", TWO_SIDES), prescription)
    left_from_s, right_from_s = 0.5 + 100 / 240, 0.5 + 100 / 160
    left_to_s = 4.0 + 0.1 * 140 / 200
    assert right_from_s > left_from_s
    assert found.above_floor_s == pytest.approx(left_to_s - right_from_s, abs=1e-9)
    assert found.left_above_floor_ns is not None
    assert found.right_above_floor_ns is not None
    assert found.above_floor_ns == pytest.approx(
        found.left_above_floor_ns + found.right_above_floor_ns
    )


@pytest.mark.parametrize(
    "changes",
    [
        {"task": Task("One side", TaskKind.LOWERING, Sides.LEFT)},
        {"band_on": BandOn.RIGHT, "band": Band.at_least(100.0)},
    ],
)
def test_of_one_side_alone_no_sides_are_told(changes: dict[str, object]) -> None:
    found = lowered(drawn("80 Hz", TWO_SIDES), prescribed(**changes))
    assert found.left_at_peak_n is None
    assert found.right_above_floor_s is None
    assert found.peak_symmetry_pct is None
    assert found.break_apart_s is None
    assert found.lowering_peak_n is not None


def test_a_nudged_floor_counts_from_its_own_time() -> None:
    script = drawn(
        "1 kHz", ((0.0, 0.0), (1.0, 300.0), (5.0, 300.0), (5.3, 0.0), (6, 0))
    )
    at = int(np.searchsorted(script.time_s, 3.0 - 1e-9))
    moved = replace(script, bands=((at, Band.at_least(290.0)),))
    found = lowered(moved)
    from_s, to_s = 2 / 3, 5.0 + 10 / 1000
    assert found.above_floor_s == pytest.approx(to_s - from_s, abs=1e-9)
    before_ns = 100 * ((3.0 - from_s) + 2.0) / 2
    after_ns = 10 * ((to_s - 3.0) + 2.0) / 2
    assert found.above_floor_ns == pytest.approx(before_ns + after_ns, rel=1e-9)


def test_nothing_is_taken_across_a_gap() -> None:
    found = lowered(drawn("1 kHz").without(2.0, 3.0))
    whole = lowered(drawn("1 kHz"))
    assert found.above_floor_s == pytest.approx(whole.above_floor_s - 1.0, abs=1e-9)
    # Over a gap of a second at 394.3 N … 382.9 N, less the floor.
    missing_ns = 400 - 40 / 3.5 * 1.0 - 200
    assert found.above_floor_ns == pytest.approx(whole.above_floor_ns - missing_ns)
    assert found.break_after_s is None  # it might have broken in the gap
    assert found.fall_n_per_s is None


def test_a_gap_before_the_peak_leaves_the_break() -> None:
    found = lowered(drawn("1 kHz").without(1.0, 1.2))
    assert found.break_after_s == pytest.approx(lowered(drawn("1 kHz")).break_after_s)


def test_a_rep_that_is_stopped_under_load_has_no_break() -> None:
    found = lowered(drawn("80 Hz", CORNERS[:4]))
    assert found.break_after_s is None
    assert found.lowering_peak_n == pytest.approx(400.0)
    # The mean then runs to the stop.
    area = 300 * 0.5 + 380 * 3.5
    assert found.lowering_mean_n == pytest.approx(area / 4.0)


def test_a_force_that_never_reaches_the_floor_has_no_time_above_it() -> None:
    prescription = prescribed(band=Band.at_least(500.0))
    found = lowered(drawn("80 Hz"), prescription)
    assert found.above_floor_s == 0.0
    assert found.above_floor_ns == 0.0
    assert found.break_after_s is not None


def test_only_a_lowering_rep_has_these_numbers() -> None:
    hold = measured(drawn("80 Hz"), prescribed(task=Task("Hold")))
    assert hold.lowering is None
    assert "above_floor_s" not in hold.to_json()
    told = measured(drawn("80 Hz"), prescribed()).to_json()
    assert told["above_floor_s"] == pytest.approx(4.0 + 160 / 900)
    assert "left_at_peak_n" in told


# Where the force breaks ------------------------------------------------------


def broke_s(time_s: Floats, force_n: Floats) -> float:
    found = break_point(
        time_s,
        force_n,
        np.ones(len(time_s) - 1, bool),
        start_s=float(time_s[0]),
        end_s=float(time_s[-1]),
    )
    assert found is not None
    return found.break_s


def test_a_force_that_falls_from_its_peak_breaks_there() -> None:
    # A fall that grows slower: it is nowhere above the line to the end.
    time_s = np.linspace(0, 3, 3001)
    force_n = np.where(
        time_s < 0.3, 400 * time_s / 0.3, 400 * np.exp(-(time_s - 0.3) / 0.2)
    )
    assert broke_s(time_s, force_n) == pytest.approx(0.3, abs=0.03)


def test_an_early_spike_and_a_sag_do_not_hide_the_letting_go() -> None:
    corners = np.array([(0, 0), (0.3, 500), (0.5, 350), (4, 300), (4.3, 0), (4.5, 0)])
    time_s = np.linspace(0, 4.5, 4501)
    force_n = np.interp(time_s, corners[:, 0], corners[:, 1])
    assert broke_s(time_s, force_n) == pytest.approx(4.0, abs=0.05)


def test_of_two_steps_down_it_is_the_greater() -> None:
    corners = np.array([(0, 0), (0.5, 400), (2, 400), (2.2, 300), (4, 300), (4.3, 0)])
    time_s = np.linspace(0, 4.3, 4301)
    force_n = np.interp(time_s, corners[:, 0], corners[:, 1])
    assert broke_s(time_s, force_n) == pytest.approx(4.0, abs=0.05)


def smooth(time_s: Floats) -> Floats:
    """A rise, a slow sag and a letting go from 4.4 s on, all half cosines."""

    def step(from_s: float, length_s: float) -> Floats:
        part = np.clip((time_s - from_s) / length_s, 0, 1)
        return (1 - np.cos(math.pi * part)) / 2

    held: Floats = 400 * step(0.2, 0.8) - 60 * step(1.0, 3.4)
    return held * (1 - step(4.4, 0.4))


def test_the_sample_rate_does_not_move_the_break() -> None:
    found = [
        broke_s(time_s, smooth(time_s))
        for time_s in (np.linspace(0, 5, round(5 * hz) + 1) for hz in (80, 320, 4000))
    ]
    assert max(found) - min(found) < 0.01
    assert 4.4 - STEADY_S / 2 <= found[0] <= 4.4 + 0.25 * 0.4


@pytest.mark.parametrize("rate_hz", [80, 1000])
def test_noise_and_tremor_move_the_break_by_a_tenth_of_a_second_at_most(
    rate_hz: int,
) -> None:
    # 1 % of white noise and 2 % of tremor at 9 Hz, standard deviation of the force.
    time_s = np.linspace(0, 5, 5 * rate_hz + 1)
    clean_n = smooth(time_s)
    clean_s = broke_s(time_s, clean_n)
    random = np.random.default_rng(11)
    for _ in range(40):
        tremor = math.sqrt(2) * np.sin(
            2 * math.pi * (9 * time_s + random.uniform()),
        )
        noise = random.standard_normal(len(time_s))
        noisy_n = clean_n * (1 + 0.01 * noise + 0.02 * tremor)
        assert broke_s(time_s, noisy_n) == pytest.approx(clean_s, abs=0.1)


def test_a_sudden_loss_looks_no_faster_than_to_half_within_50_ms() -> None:
    time_s = np.array([0.0, 1.0, 4.0, 4.0001, 5.0])
    force_n = np.array([0.0, 400.0, 400.0, 10.0, 5.0])
    found = break_point(time_s, force_n, np.ones(4, bool), start_s=0.0, end_s=5.0)
    assert found is not None
    assert found.break_s == pytest.approx(4.0, abs=0.051)
    assert found.fall_n_per_s <= found.force_n / 2 / 0.05 + 1e-9


def test_a_loss_at_once_is_seen_by_what_follows_the_end() -> None:
    # All is gone within 10 ms: the rep ends there, and the level is what was held.
    script = drawn(
        "1 kHz", ((0.0, 0.0), (1.0, 300.0), (3.0, 300.0), (3.01, 0.0), (4.0, 0.0))
    )
    found = lowered(script)
    assert found.break_after_s == pytest.approx(3.0 - 20 / 300, abs=STEADY_S / 2)
    assert found.break_force_n == pytest.approx(300.0, abs=30.0)


def test_a_single_sample_that_drops_out_makes_no_endless_fall() -> None:
    time_s = np.linspace(0, 5, 5001)
    force_n = np.interp(time_s, [0, 1, 4, 4.1, 5], [0, 400, 400, 0, 0])
    force_n[3970] = 100.0  # right after the break, which is dated early
    found = break_point(time_s, force_n, np.ones(5000, bool), start_s=0.0, end_s=4.1)
    assert found is not None
    assert 3.95 < found.break_s < 3.97
    assert found.fall_n_per_s == pytest.approx(found.force_n / 2 / 0.05)


@pytest.mark.parametrize("end_s", [0.05, 0.15])
def test_a_rep_shorter_than_two_windows_has_no_break(end_s: float) -> None:
    time_s = np.array([0.0, 0.01, end_s])
    joined = np.ones(2, bool)
    force_n = np.array([0.0, 100.0, 0.0])
    assert break_point(time_s, force_n, joined, start_s=0.0, end_s=end_s) is None


# Time and impulse above the floor ----------------------------------------------


@st.composite
def lines(draw: st.DrawFn) -> tuple[Floats, list[Floats], npt.NDArray[np.bool_]]:
    count = draw(st.integers(2, 15))
    steps = draw(st.lists(st.floats(0.01, 0.5), min_size=count, max_size=count))
    level = st.one_of(st.floats(-50, 150), st.sampled_from([0.0, 50.0]))
    forces = [
        np.array(draw(st.lists(level, min_size=count, max_size=count)))
        for _ in range(draw(st.integers(1, 2)))
    ]
    joined = draw(st.lists(st.booleans(), min_size=count - 1, max_size=count - 1))
    return np.cumsum(steps), forces, np.array(joined, dtype=bool)


@given(drawn_lines=lines(), ends=st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_time_and_impulse_are_those_of_a_fine_grid(
    drawn_lines: tuple[Floats, list[Floats], npt.NDArray[np.bool_]],
    ends: tuple[float, float],
) -> None:
    time_s, forces_n, joined = drawn_lines
    span_s = time_s[-1] - time_s[0]
    start_s, end_s = (float(time_s[0] + span_s * part) for part in sorted(ends))
    floor_n = np.full(len(joined), 50.0)
    found = Lines(time_s, joined, start_s=start_s, end_s=end_s)
    count = 4000
    above_s, heard_s, impulses = 0.0, 0.0, np.zeros(len(forces_n))
    for i in np.flatnonzero(joined):
        step_s = (time_s[i + 1] - time_s[i]) / count
        middle_s = time_s[i] + (np.arange(count) + 0.5) * step_s
        within = (middle_s >= start_s) & (middle_s <= end_s)
        margins = [np.interp(middle_s, time_s, one) - 50.0 for one in forces_n]
        above_s += step_s * np.sum(within & np.all(np.array(margins) >= 0, axis=0))
        heard_s += step_s * np.sum(within)
        for which, margin in enumerate(margins):
            impulses[which] += step_s * np.sum(np.maximum(margin, 0)[within])
    slack_s = 4 * len(time_s) * 0.5 / count
    # A line that lies on the floor but for its rounding is above or not by chance.
    assert found.heard_s == pytest.approx(heard_s, abs=slack_s)
    assert found.time_above_s(forces_n, floor_n) == pytest.approx(above_s, abs=slack_s)
    for one, impulse in zip(forces_n, impulses, strict=True):
        assert found.impulse_above_ns(one, floor_n) == pytest.approx(
            impulse, abs=100 * slack_s
        )


# Stretches of a person ---------------------------------------------------------

LEAST_STRETCHES = 7


def test_stretches_of_a_person_give_the_numbers_of_a_plain_computation(
    real_force_data: Path,
) -> None:
    """Maximal efforts while a dynamometer stretches the muscle, 2 kHz, one person.

    Data: Tecchio et al., J. Appl. Physiol. (2024), doi
    10.1152/japplphysiol.00845.2023, Apache-2.0; not part of the project. Torque in
    N·m stands for force; the passive torque of the turned joint stays at the end.
    """
    files = sorted((real_force_data / "ankle_eccentric_torque").glob("PL_*.csv"))
    assert len(files) >= LEAST_STRETCHES
    for file in files:
        table = np.loadtxt(file, delimiter=",", skiprows=1, usecols=(0, 1))
        time_s = table[:, 0]
        force_n = table[:, 1] - np.median(table[:1000, 1])
        floor_n = 30.0
        # A spike of the idle signal may be a rep of its own.
        prescription = prescribed(band=Band.at_least(floor_n), reps=50)
        rep = measured(Script.of(time_s, force_n), prescription)
        found = rep.lowering
        assert found is not None
        own = (time_s >= rep.times.start_s) & (time_s <= rep.times.end_s)
        assert found.lowering_peak_n == force_n[own].max(), file.stem
        assert found.lowering_peak_after_s is not None
        dense_s = np.arange(rep.times.start_s, rep.times.end_s, 2e-5)
        dense_n = np.interp(dense_s, time_s, force_n)
        above_s = 2e-5 * np.sum(dense_n >= floor_n)
        assert found.above_floor_s == pytest.approx(above_s, abs=0.01), file.stem
        above_ns = 2e-5 * np.sum(np.maximum(dense_n - floor_n, 0))
        assert found.above_floor_ns == pytest.approx(above_ns, rel=1e-3), file.stem
        # Read off the curves: the effort was let go between 10.5 and 12 s, and the
        # torque before that was 35 to 40 N·m.
        assert found.break_after_s is not None
        assert 10.4 < rep.times.start_s + found.break_after_s < 12.1, file.stem
        assert found.break_force_n == pytest.approx(37.0, abs=4.0)
