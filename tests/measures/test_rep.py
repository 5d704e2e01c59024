"""All numbers of a rep, on reps whose numbers can be checked on paper."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from training.drawn import Drawn, sets
from training.scripted import ONE_CELL, TWO_CELLS, Script, asked, conduct, reps, rig

from biofeedback.measures.rep import measure
from biofeedback.measures.trace import Trace
from biofeedback.training.band import Band
from biofeedback.training.conductor import Conductor
from biofeedback.training.prescription import BandOn, FeedbackMode, Prescription
from biofeedback.training.reference import Definition, Origin, Reference

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.measures.rep import RepMeasures

REFERENCE = Reference(200.0, Origin.OWN_SIDE, Definition.PEAK, "2026-01-31")
PROMISED = (
    "start_s", "end_s", "outcome", "below_s", "inside_s", "above_s", "lapses",
    "peak_n", "mean_n", "cv_pct", "rmse_n", "impulse_ns", "left_share_pct",
)  # fmt: skip
# 0 to 100 N in one second; band 80 to 120 N: onset at 0.08 s, entry at 0.8 s.
UP = ((0.0, 0.0), (1.0, 100.0))
EASY = asked(80, 120, 2.0)


def measured(
    script: Script, prescription: Prescription, cuts: Iterable[int] = ()
) -> RepMeasures:
    sides = ONE_CELL if script.force_n.shape[1] == 1 else TWO_CELLS
    (rep,) = reps(conduct(script, prescription))
    judged = Conductor(prescription, rig(sides)).judged
    return measure(rep, Trace.of(script.blocks(cuts)), judged, prescription)


def test_a_plain_hold() -> None:
    """From 0.08 s to 1 s it is 50 (1² − 0.08²) N·s, then 1.8 s of 100 N."""
    script = Script.lines(*UP, (4, 100), (4.5, 300), (5, 0), (6, 0))
    found = measured(script, replace(EASY, reference=REFERENCE))
    assert found.outcome == "complete"
    assert found.feedback == "full"
    assert found.times.asked_hold_s == EASY.hold_s
    assert (found.band_lower_n, found.band_upper_n) == (80, 120)
    assert found.times.start_s == pytest.approx(0.08)
    assert found.times.time_to_enter_s == pytest.approx(0.72)
    assert found.times.hold_end_s == pytest.approx(2.8)
    # The release, with its 300 N, belongs to nothing.
    assert found.work.peak_n == 100.0
    assert found.work.impulse_ns == pytest.approx(49.68 + 180.0)
    assert found.work.dose_pct_s == pytest.approx((49.68 + 180.0) / 2)
    assert found.work.overshoot_n == 0.0
    assert found.shares is None
    assert (found.signal.gaps, found.signal.lost, found.signal.saturated) == (0, 0, 0)
    assert found.signal.samples == 273  # 0.08 s to 2.80 s at 100 Hz


def test_mean_and_errors_are_of_the_plateau() -> None:
    """Plateau 0.8 to 2.8 s: 80, 81 … 99 N, then 181 samples of 100 N."""
    found = measured(Script.lines(*UP, (4, 100)), EASY)
    plateau_n = np.array([*range(80, 100), *[100] * 181], dtype=float)
    assert found.steadiness is not None
    assert found.error is not None
    assert found.steadiness.mean_n == pytest.approx(plateau_n.mean())
    assert found.steadiness.cv_pct == pytest.approx(
        100 * plateau_n.std(ddof=1) / plateau_n.mean()
    )
    assert found.error.ce_n == pytest.approx(plateau_n.mean() - 100)
    assert found.error.rmse_n == pytest.approx(np.sqrt(np.mean((plateau_n - 100) ** 2)))


def test_a_rep_that_never_entered_has_its_hold_part_as_plateau() -> None:
    script = Script.lines((0, 0), (1, 50), (2, 50), (3, 0), (4, 0), rate_hz=10)
    found = measured(script, replace(EASY, reference=REFERENCE))
    assert found.outcome == "short"
    assert found.times.entry_s is None
    assert found.times.time_to_enter_s is None
    assert found.work.overshoot_n is None
    assert found.steadiness is not None
    # Onset 8 N at 0.16 s, end 4 N at 2.92 s; samples 0.2 s to 2.9 s.
    force_n = [10, 15, 20, 25, 30, 35, 40, 45, *[50] * 11, *range(45, 0, -5)]
    assert found.steadiness.mean_n == pytest.approx(np.mean(force_n))


def test_after_a_nudge_each_sample_has_the_centre_of_its_band() -> None:
    """100 N under 80–120 N, then 140 N under 120–160 N: no error but on the way."""
    script = Script.lines(
        (0, 100), (2, 100), (3, 140), (5, 140), bands=((2.0, Band(120, 160)),)
    )
    found = measured(script, replace(EASY, hold_s=60.0))
    assert (found.band_lower_n, found.band_upper_n) == (120, 160)
    target_n = np.where(np.arange(501) < 200, 100.0, 140.0)
    error_n = np.interp(np.arange(501) / 100, [2, 3], [100, 140]) - target_n
    assert found.error is not None
    assert found.error.ce_n == pytest.approx(error_n.mean())
    assert found.error.rmse_n == pytest.approx(np.sqrt(np.mean(error_n**2)))


def test_overshoot_is_the_most_above_the_edge_within_a_second() -> None:
    quick = Script.lines((0, 0), (1, 150), (1.2, 100), (3, 100), (3.5, 200), (9, 100))
    assert measured(quick, replace(EASY, hold_s=6.0)).work.overshoot_n == 30.0


def test_two_sides_share_the_impulse_of_the_plateau() -> None:
    """60 N left, 40 N right: (40 − 60)/100 is −20 %."""
    script = Script.lines((0, 0, 100), (0.01, 60, 40), (5, 60, 40))
    shares = measured(script, replace(EASY, hold_s=4.0)).shares
    assert shares is not None
    # One line of 10 ms of another share, in 4 s.
    assert shares.left_share_pct == pytest.approx(60.0, abs=0.1)
    assert shares.right_share_pct == pytest.approx(40.0, abs=0.1)
    assert shares.symmetry_index_pct == pytest.approx(-20.0, abs=0.2)
    assert shares.symmetry_formula == "100 (R − L)/(R + L)"


def test_each_side_is_measured_against_its_own_band() -> None:
    """Band 40–60 N on each side, left 55 N, right 45 N: errors +5 and −5 N."""
    script = Script.lines((0, 55, 45), (5, 55, 45))
    wanted = replace(asked(40, 60, 4.0), band_on=BandOn.EACH_SIDE)
    found = measured(script, wanted)
    assert found.error is not None
    assert found.error.ce_n == pytest.approx(0.0)
    assert found.error.rmse_n == pytest.approx(5.0)
    assert found.steadiness is not None
    assert found.steadiness.mean_n == pytest.approx(100.0)


def test_one_working_side_is_measured_alone() -> None:
    script = Script.lines((0, 100, 30), (5, 100, 30))
    found = measured(script, replace(EASY, hold_s=4.0, band_on=BandOn.LEFT))
    assert found.work.peak_n == 100.0
    assert found.work.impulse_ns == pytest.approx(400.0)
    assert found.error is not None
    assert found.error.rmse_n == 0.0


@pytest.mark.parametrize("kind", ["lost", "saturated"])
def test_a_gap_is_not_bridged(kind: str) -> None:
    """100 N from 0 to 6 s, of which 2 to 3 s is missing: 4 s held, 1 s paused."""
    script = Script.lines((0, 100), (6, 100))
    if kind == "lost":
        found = measured(script.without(2.0, 3.0), replace(EASY, hold_s=4.0))
        assert (found.signal.lost, found.signal.saturated) == (99, 0)
    else:
        broken = script.saturated_between(2.0, 3.0)
        found = measured(broken, replace(EASY, hold_s=4.0))
        assert (found.signal.lost, found.signal.saturated) == (0, 99)
    assert found.times.hold_end_s == pytest.approx(5.0)
    assert found.times.paused_s == pytest.approx(1.0)
    assert found.work.impulse_ns == pytest.approx(400.0)
    assert found.signal.gaps == 1
    assert found.signal.samples == 402


def test_an_open_band_has_no_centre_and_no_overshoot() -> None:
    script = Script.lines((0, 0), (1, 200), (5, 200))
    found = measured(script, replace(EASY, band=Band.at_least(80)))
    assert found.error is None
    assert found.band_upper_n is None
    assert found.work.overshoot_n is None
    assert found.to_json()["rmse_n"] is None


def test_without_a_reference_there_is_no_dose() -> None:
    assert measured(Script.lines(*UP, (4, 100)), EASY).work.dose_pct_s is None


def test_the_json_is_flat_and_keeps_its_promises() -> None:
    unseen = replace(EASY, feedback=FeedbackMode.UNSEEN)
    values = measured(Script.lines((0, 50, 50), (4, 50, 50)), unseen).to_json()
    read = json.loads(json.dumps(values, allow_nan=False))
    assert set(PROMISED) <= set(read)
    assert read["outcome"] == "complete"
    assert read["feedback"] == "unseen"
    assert read["lapses"] == 0
    assert read["lapse_times_s"] == []
    assert read["left_share_pct"] == pytest.approx(50.0)
    assert all(not isinstance(value, dict) for value in read.values())


def test_the_json_of_one_cell_has_the_same_names() -> None:
    one = measured(Script.lines((0, 100), (4, 100)), EASY).to_json()
    two = measured(Script.lines((0, 50, 50), (4, 50, 50)), EASY).to_json()
    assert list(one) == list(two)
    assert one["left_share_pct"] is None


def test_lapses_are_listed_with_their_times() -> None:
    script = Script.lines(
        (0, 100), (2, 100), (2.01, 60), (3, 60), (3.01, 100), (9, 100)
    )
    times = measured(script, replace(EASY, hold_s=4.0)).times
    assert times.lapses == 1
    (lapse,) = times.lapse_times_s
    assert lapse == pytest.approx((2.005, 3.005))


@given(drawn=sets(), data=st.data())
@settings(max_examples=40)
def test_measures_do_not_depend_on_the_cuts(drawn: Drawn, data: st.DataObject) -> None:
    count = len(drawn.samples)
    cuts = data.draw(st.sets(st.integers(1, count)))
    judged = Conductor(drawn.prescription, rig(drawn.sides)).judged
    whole = Trace.of(drawn.script.blocks())
    cut = Trace.of(drawn.script.blocks(cuts))
    for rep in reps(conduct(drawn.script, drawn.prescription, sides=drawn.sides)):
        one = measure(rep, whole, judged, drawn.prescription)
        assert measure(rep, cut, judged, drawn.prescription) == one
        json.dumps(one.to_json(), allow_nan=False)


@pytest.mark.parametrize(("number", "seen"), [(1, "full"), (2, "unseen"), (3, "full")])
def test_each_rep_says_what_was_seen_in_it(number: int, seen: str) -> None:
    script, alternate = Script.lines(*UP, (4, 100)), FeedbackMode.ALTERNATE
    (rep,) = reps(conduct(script, EASY))
    found = measure(
        replace(rep, number=number),
        Trace.of(script.blocks()),
        Conductor(EASY, rig(ONE_CELL)).judged,
        replace(EASY, feedback=alternate),
    )
    assert found.feedback == seen
