"""Peak and best means of a maximal trial, against closed forms and a fine grid."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.measures.maximal import MaximalTrial, best_mean, maximal_trial
from biofeedback.measures.rep import measure
from biofeedback.measures.trace import Trace
from biofeedback.training.band import Band
from biofeedback.training.crossings import Judged
from biofeedback.training.events import Outcome, RepRecord
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.task import Sides, Task, TaskKind

Floats = npt.NDArray[np.float64]


def best(
    time_s: Floats,
    force_n: Floats,
    *,
    width_s: float,
    start_s: float | None = None,
    end_s: float | None = None,
    gaps: tuple[int, ...] = (),
) -> tuple[float, float] | None:
    joined = np.ones(len(time_s) - 1, dtype=np.bool_)
    joined[list(gaps)] = False
    return best_mean(
        time_s,
        force_n,
        joined,
        start_s=float(time_s[0]) if start_s is None else start_s,
        end_s=float(time_s[-1]) if end_s is None else end_s,
        width_s=width_s,
    )


def test_of_a_triangle_the_best_mean_lies_about_its_tip() -> None:
    # Up by a N/s and down by b N/s from a tip of 300 N: both ends of the best window
    # are level, so it begins w·b/(a+b) before the tip, and the mean is
    # 300 − a·b·w/(2(a+b)).
    a, b, w = 150.0, 600.0, 0.5
    time_s = np.array([0.0, 2.0, 2.5])
    force_n = np.array([0.0, 300.0, 0.0])
    found = best(time_s, force_n, width_s=w)
    assert found is not None
    assert found[0] == pytest.approx(2.0 - w * b / (a + b), rel=1e-12)
    assert found[1] == pytest.approx(300 - a * b * w / (2 * (a + b)), rel=1e-12)


def test_of_a_sine_the_best_mean_is_the_known_one() -> None:
    # Mean of A·sin(ωt) over w about its crest: A·sin(ωw/2)/(ωw/2).
    omega, w = np.pi / 4, 1.0  # a half wave of 4 s
    time_s = np.linspace(0, 4, 4001)
    found = best(time_s, 400 * np.sin(omega * time_s), width_s=w)
    assert found is not None
    assert found[1] == pytest.approx(
        400 * np.sin(omega * w / 2) / (omega * w / 2), rel=1e-6
    )
    assert found[0] == pytest.approx(1.5, abs=1e-3)


def test_of_a_level_force_it_is_the_force_and_the_first_window() -> None:
    found = best(np.array([0.0, 3.0]), np.array([50.0, 50.0]), width_s=1.0)
    assert found is not None
    assert found[0] == 0.0
    assert found[1] == pytest.approx(50.0)


@st.composite
def lines(draw: st.DrawFn) -> tuple[Floats, Floats]:
    count = draw(st.integers(3, 25))
    step = st.floats(0.004, 0.6)
    steps = draw(st.lists(step, min_size=count, max_size=count))
    force = draw(st.lists(st.floats(-20, 500), min_size=count, max_size=count))
    return np.cumsum(steps), np.array(force)


@given(line=lines(), width_s=st.sampled_from((0.5, 1.0)), part=st.floats(0, 0.2))
def test_nothing_on_a_fine_grid_is_higher(
    line: tuple[Floats, Floats], width_s: float, part: float
) -> None:
    time_s, force_n = line
    span_s = time_s[-1] - time_s[0]
    start_s, end_s = time_s[0] + part * span_s, time_s[-1] - part * span_s
    found = best(time_s, force_n, width_s=width_s, start_s=start_s, end_s=end_s)
    if end_s - start_s < width_s:
        assert found is None
        return
    assert found is not None
    from_s, mean_n = found
    assert start_s <= from_s <= end_s - width_s + 1e-12
    # Simpson's rule is exact for lines: between the samples it needs three points.
    for at_s in np.linspace(start_s, end_s - width_s, 200):
        assert _mean(time_s, force_n, at_s, width_s) <= mean_n + 1e-7
    assert _mean(time_s, force_n, from_s, width_s) == pytest.approx(mean_n, abs=1e-7)


def _mean(time_s: Floats, force_n: Floats, from_s: float, width_s: float) -> float:
    inside = time_s[(time_s > from_s) & (time_s < from_s + width_s)]
    cuts = np.concatenate(((from_s,), inside, (from_s + width_s,)))
    levels = np.interp(cuts, time_s, force_n)
    return float(np.trapezoid(levels, cuts)) / width_s


def test_the_best_mean_does_not_reach_across_a_gap() -> None:
    time_s = np.arange(0, 4.01, 0.25)
    force_n = np.where((time_s > 1.4) & (time_s < 2.6), 400.0, 100.0)
    whole = best(time_s, force_n, width_s=1.0)
    cut = best(time_s, force_n, width_s=1.0, gaps=(8,))  # from 2.0 s to 2.25 s
    assert whole is not None
    assert cut is not None
    assert whole[1] == pytest.approx(400.0)
    from_s, mean_n = cut
    assert mean_n < 330.0
    assert from_s + 1.0 <= 2.0 + 1e-9 or from_s >= 2.25 - 1e-9
    # With a gap in each half second there is none of that length.
    assert best(time_s, force_n, width_s=1.0, gaps=(2, 5, 8, 11, 14)) is None


def trace_of(time_s: Floats, force_n: Floats) -> Trace:
    none = np.zeros(len(time_s), dtype=np.bool_)
    return Trace(
        time_s=time_s,
        force_n=force_n,
        shown_n=0.5 * force_n,  # so that a look at the wrong one is seen
        good=np.array(~np.isnan(force_n).any(axis=1)),
        gap=none,
        lost=none.astype(np.int64),
        saturated=none,
    )


BOTH = Judged(BandOn.TOTAL, left=0, right=1, channels=2)


def two_sided() -> Trace:
    """The left has its best second before the right has."""
    time_s = np.arange(0, 6.001, 0.0125)
    left = 200 * np.exp(-((time_s - 2.0) ** 2))
    right = 240 * np.exp(-((time_s - 2.6) ** 2))
    return trace_of(time_s, np.column_stack((left, right)))


def test_left_and_right_are_of_the_same_window_and_add_up() -> None:
    found = maximal_trial(two_sided(), BOTH, start_s=0.3, end_s=5.0, both=True)
    for total, left, right in (
        (found.trial_peak_n, found.left_at_peak_n, found.right_at_peak_n),
        (found.best_half_s_n, found.left_in_half_s_n, found.right_in_half_s_n),
        (found.best_1_s_n, found.left_in_1_s_n, found.right_in_1_s_n),
    ):
        assert total is not None
        assert left is not None
        assert right is not None
        assert left + right == pytest.approx(total, rel=1e-12)
    assert found.trial_peak_n is not None
    assert found.best_half_s_n is not None
    assert found.best_1_s_n is not None
    assert found.trial_peak_n > found.best_half_s_n > found.best_1_s_n
    assert found.trial_s == pytest.approx(4.7)
    # The left's own best second would be higher than its part in the total's.
    trace = two_sided()
    own = best(trace.time_s, trace.force_n[:, 0], width_s=1.0)
    assert own is not None
    assert found.left_in_1_s_n is not None
    assert own[1] > found.left_in_1_s_n + 5


def test_one_side_alone_is_told_alone() -> None:
    right = Judged(BandOn.RIGHT, left=0, right=1, channels=2)
    found = maximal_trial(two_sided(), right, start_s=0.3, end_s=5.0, both=False)
    assert found.trial_peak_n == pytest.approx(240.0, rel=1e-3)
    assert found.left_at_peak_n is found.right_in_1_s_n is None


def test_what_is_too_short_has_a_peak_and_no_mean() -> None:
    found = maximal_trial(two_sided(), BOTH, start_s=2.0, end_s=2.7, both=True)
    assert found.trial_peak_n is not None
    assert found.best_half_s_n is not None
    assert found.best_1_s_n is found.left_in_1_s_n is None


def test_the_peak_is_of_good_samples_inside_the_trial() -> None:
    time_s = np.arange(0, 4.0, 0.1)
    force_n = np.full((len(time_s), 2), 100.0)
    force_n[5] = 900.0  # before the onset
    force_n[20] = np.nan
    force_n[25, 0] = 130.0
    found = maximal_trial(
        trace_of(time_s, force_n), BOTH, start_s=1.0, end_s=3.5, both=True
    )
    assert found.trial_peak_n == 230.0
    assert found.trial_peak_at_s == pytest.approx(2.5)
    assert (found.left_at_peak_n, found.right_at_peak_n) == (130.0, 100.0)


def test_without_a_good_sample_there_is_nothing() -> None:
    time_s = np.arange(0, 2.0, 0.1)
    found = maximal_trial(
        trace_of(time_s, np.full((len(time_s), 2), np.nan)),
        BOTH,
        start_s=0.5,
        end_s=1.5,
        both=True,
    )
    nothing = MaximalTrial(1.0, *(None,) * 12)
    assert found == nothing


def test_a_maximal_rep_has_them_of_its_whole_length_and_no_other_has() -> None:
    """The best second comes after the clock is full, while it is not let go yet."""
    time_s = np.arange(0, 9.001, 0.0125)
    force_n = np.interp(time_s, [0, 1, 2, 5, 6.5, 8, 9], [0, 0, 200, 200, 300, 0, 0])
    rep = RepRecord(
        number=1,
        outcome=Outcome.COMPLETE,
        start_s=1.1,
        entry_s=1.1,
        hold_end_s=5.1,
        end_s=7.9,
        below_s=0.0,
        inside_s=4.0,
        above_s=0.0,
        paused_s=0.0,
        lapses=(),
        bands=((1.1, Band.at_least(10.0)),),
        gaps=0,
    )
    trace = trace_of(time_s, np.column_stack((force_n / 2, force_n / 2)))
    task = Task("push", TaskKind.MAXIMAL)
    asked = Prescription(task, Band.at_least(10.0), hold_s=4.0)
    told = measure(rep, trace, BOTH, asked).to_json()
    assert told["trial_peak_n"] == pytest.approx(300.0)
    assert told["peak_n"] < 210.0  # type: ignore[operator]  # of the hold part
    # A triangle over the last part: up by 200/3 N/s, down by 200 N/s, w = 1 s.
    up, down = 100 / 1.5, 200.0
    assert told["best_1_s_n"] == pytest.approx(300 - up * down / (2 * (up + down)))
    assert told["trial_s"] == pytest.approx(6.8)
    hold = replace(asked, task=Task("push", TaskKind.HOLD))
    assert set(told) - set(measure(rep, trace, BOTH, hold).to_json()) == {
        own.name for own in fields(MaximalTrial)
    }
    one_side = replace(asked, task=task.on_side(Sides.LEFT))
    assert measure(rep, trace, BOTH, one_side).to_json()["left_in_1_s_n"] is None
