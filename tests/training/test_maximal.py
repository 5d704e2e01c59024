"""Which effort comes next in a maximal test, and what it gave."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.training.band import Band
from biofeedback.training.events import Outcome, Phase, Position, SetState
from biofeedback.training.feedback import Cue, cue
from biofeedback.training.maximal import (
    ANY_TRIAL,
    MaximalPlan,
    Step,
    StepKind,
    Why,
    efforts_to_come,
    expected_n,
    next_step,
    result,
)
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.reference import Definition
from biofeedback.training.task import Sides, Task, TaskKind
from biofeedback.training.trial import Force, Trial
from biofeedback.wire.fields import Fields

PLAN = MaximalPlan()


def trial(
    number: int,
    force_n: float | None,
    *,
    asked_pct: int | None = None,
    seconds: float = 5.0,
    void_reason: str = "",
    pain: int | None = None,
) -> Trial:
    """A trial whose best 1 s mean is `force_n`, a little under its peak."""
    return Trial(
        number,
        asked_pct,
        seconds,
        peak=None if force_n is None else Force(1.04 * force_n),
        half_s=None if force_n is None else Force(1.01 * force_n),
        one_s=None if force_n is None else Force(force_n),
        void_reason=void_reason,
        pain=pain,
    )


def after_practice(*forces_n: float) -> list[Trial]:
    ramps = [trial(at + 1, 100.0, asked_pct=50) for at in range(PLAN.practice)]
    return ramps + [trial(at + 4, force_n) for at, force_n in enumerate(forces_n)]


# One after the other.


def test_practice_ramps_go_up_and_come_first() -> None:
    trials: list[Trial] = []
    shares = []
    while (step := next_step(PLAN, trials)).kind is StepKind.PRACTICE:
        assert (step.number, step.of) == (len(trials) + 1, 3)
        shares.append(step.share_pct)
        trials.append(trial(step.number, 100.0, asked_pct=step.share_pct))
    assert shares == [50, 75, 90]
    assert step == Step(StepKind.TRIAL, 1, 3, Why.TRIALS_LEFT)


def test_three_that_agree_are_enough() -> None:
    step = next_step(PLAN, after_practice(200.0, 195.0, 180.0))
    assert (step.kind, step.why) == (StepKind.ENOUGH, Why.BEST_TWO_AGREE)
    assert step.number == 3
    assert step.differ_pct == pytest.approx(2.5)


def test_exactly_five_percent_agree_and_a_little_more_do_not() -> None:
    assert next_step(PLAN, after_practice(200.0, 190.0, 100.0)).kind is StepKind.ENOUGH
    step = next_step(PLAN, after_practice(200.0, 189.9, 100.0))
    assert step.differ_pct == pytest.approx(5.05)
    assert replace(step, differ_pct=None) == Step(
        StepKind.TRIAL, 4, 4, Why.BEST_TWO_DIFFER
    )


def test_at_the_limit_it_is_enough_whatever_they_were() -> None:
    rising = after_practice(100.0, 110.0, 121.0, 133.0, 146.0)
    assert next_step(PLAN, rising).why is Why.BEST_TWO_DIFFER
    rising.append(trial(9, 161.0))
    step = next_step(PLAN, rising)
    assert (step.kind, step.why, step.number) == (
        StepKind.ENOUGH,
        Why.LIMIT_REACHED,
        6,
    )
    # In a first test there may be more.
    assert next_step(PLAN.for_first_test(), rising).kind is StepKind.TRIAL


def test_the_chosen_number_decides_whether_they_agree() -> None:
    trials = after_practice(200.0, 195.0, 180.0)
    trials[-1] = replace(trials[-1], peak=Force(300.0))
    by_peak = replace(PLAN, definition=Definition.PEAK)
    assert next_step(PLAN, trials).kind is StepKind.ENOUGH
    assert next_step(by_peak, trials).why is Why.BEST_TWO_DIFFER


def test_without_practice_it_begins_with_a_trial() -> None:
    assert next_step(replace(PLAN, practice=0), ()).kind is StepKind.TRIAL


def test_a_ramp_that_is_taken_out_once_trials_have_begun_is_not_done_again() -> None:
    trials = after_practice(200.0)
    trials[1] = replace(trials[1], void_reason="strap slipped")
    assert next_step(PLAN, trials).kind is StepKind.TRIAL
    assert next_step(PLAN, trials[:3]).share_pct == 90  # before, it is


# Any order of efforts, against the rule said once more and plainly.

EFFORTS = st.lists(
    st.tuples(
        st.sampled_from((90.0, 100.0, 104.0, 120.0, None)),
        st.sampled_from((0.4, 1.0, 4.0)),
        st.booleans(),
    ),
    max_size=16,
)


@given(
    efforts=EFFORTS,
    practice=st.integers(0, 5),
    least=st.integers(2, 4),
    more=st.integers(0, 3),
)
def test_any_order_of_efforts_is_led_to_the_end(
    efforts: list[tuple[float | None, float, bool]],
    practice: int,
    least: int,
    more: int,
) -> None:
    plan = MaximalPlan(practice=practice, trials=least, most=least + more)
    trials: list[Trial] = []
    ramps = 0
    counted: list[float] = []
    for number, (force_n, seconds, void) in enumerate(efforts, start=1):
        step = next_step(plan, trials)
        assert efforts_to_come(step) >= (step.kind is not StepKind.ENOUGH)
        began = any(not one.practice and not one.touch for one in trials)
        assert (step.kind is StepKind.PRACTICE) == (ramps < practice and not began)
        two = sorted(counted)[-2:]
        agree = len(two) == 2 and (two[1] - two[0]) / two[1] <= 0.05
        enough = len(counted) >= least and (agree or len(counted) >= least + more)
        assert (step.kind is StepKind.ENOUGH) == enough
        if enough:
            # It is never more than allowed, and nothing changes by waiting.
            assert len(counted) <= least + more
            assert next_step(plan, trials) == step
            return
        trials.append(
            trial(
                number,
                force_n,
                asked_pct=step.share_pct,
                seconds=seconds,
                void_reason="slipped" if void else "",
            )
        )
        if seconds >= 1.0 and not void:
            if step.kind is StepKind.PRACTICE:
                ramps += 1
            elif force_n is not None:
                counted.append(force_n)
    found = result(plan, trials)
    assert (found.force.total_n if found else None) == max(counted, default=None)


@given(efforts=EFFORTS, number=st.integers(1, 16))
def test_taking_out_any_effort_never_makes_the_result_greater(
    efforts: list[tuple[float | None, float, bool]], number: int
) -> None:
    trials = [
        trial(at, force_n, seconds=seconds)
        for at, (force_n, seconds, _) in enumerate(efforts, start=1)
    ]
    fewer = [
        replace(one, void_reason="rig moved") if one.number == number else one
        for one in trials
    ]
    before, after = result(PLAN, trials), result(PLAN, fewer)
    if after is None:
        return
    assert before is not None
    assert after.force.total_n <= before.force.total_n
    assert after.best != number


# The result.


def test_the_result_names_its_trial_its_spread_and_the_pain() -> None:
    trials = [
        trial(1, 400.0, asked_pct=75, pain=6),
        trial(2, 190.0, pain=2),
        trial(3, 200.0, pain=1),
        trial(4, 260.0, void_reason="strap slipped"),
        trial(5, 250.0, seconds=0.9),
        trial(6, 150.0),
    ]
    found = result(PLAN, trials)
    assert found is not None
    assert (found.force.total_n, found.best, found.trials) == (200.0, 3, 3)
    assert found.differ_pct == pytest.approx(5.0)
    assert found.range_pct == pytest.approx(25.0)
    assert found.agreed
    assert found.pain == 6  # practice hurts no less
    by_peak = result(PLAN, trials, Definition.PEAK)
    assert by_peak is not None
    assert by_peak.force.total_n == pytest.approx(208.0)
    assert result(PLAN, trials[:1]) is None


def test_one_trial_has_no_spread() -> None:
    found = result(PLAN, [trial(1, 200.0)])
    assert found is not None
    assert found.differ_pct is found.range_pct is None
    assert not found.agreed


def test_what_is_expected_comes_from_what_was_reached() -> None:
    assert expected_n(()) is None
    assert expected_n((), rated_n=2000.0) == pytest.approx(600.0)
    ramps = [trial(1, 150.0, asked_pct=50), trial(2, 180.0, asked_pct=75)]
    # Peaks: 187.2 N at three quarters.
    assert expected_n(ramps, rated_n=2000.0) == pytest.approx(187.2 / 0.75)
    assert expected_n(ramps, earlier_n=300.0) == pytest.approx(300.0)
    trials = [*ramps, trial(3, 200.0)]
    assert expected_n(trials) == pytest.approx(208.0)
    assert expected_n(trials, earlier_n=150.0) == pytest.approx(208.0)


# The plan.


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"practice": 6}, "practice"),
        ({"trials": 1}, "trials"),
        ({"trials": 5, "most": 4}, "most"),
        ({"most": 11}, "most"),
        ({"agree_within_pct": 0.0}, "agree_within_pct"),
        ({"trial_s": 2.9}, "trial_s"),
        ({"trial_s": float("nan")}, "trial_s"),
        ({"rest_s": 5.0}, "rest_s"),
        ({"practice_rest_s": 91.0}, "practice_rest_s"),
        ({"definition": Definition.STATED}, "definition"),
    ],
)
def test_what_is_no_test_is_refused(values: dict[str, object], field: str) -> None:
    with pytest.raises(FieldError, match=rf"maximal\.{field}"):
        MaximalPlan(**values)  # type: ignore[arg-type]  # the names stand beside the values


def test_a_rest_after_a_ramp_that_is_too_long_is_held_against_the_other_rest() -> None:
    with pytest.raises(FieldError, match="than the rest after a trial, 10 s"):
        MaximalPlan(rest_s=10.0)


def test_a_plan_comes_back_from_json() -> None:
    plan = MaximalPlan(
        practice=0, trials=2, trial_s=5.0, definition=Definition.PEAK, ceiling_n=300.0
    )
    assert MaximalPlan.from_json(Fields(plan.to_json())) == plan
    assert MaximalPlan.from_json(Fields(PLAN.to_json())) == PLAN


def test_pain_is_from_0_to_10() -> None:
    with pytest.raises(FieldError, match="pain"):
        trial(1, 100.0, pain=11)


@pytest.mark.parametrize(
    ("sides", "single_cell", "band_on"),
    [
        (Sides.LEFT, False, BandOn.LEFT),
        (Sides.RIGHT, False, BandOn.RIGHT),
        (Sides.BOTH, False, BandOn.TOTAL),
        (Sides.RIGHT, True, BandOn.TOTAL),
    ],
)
def test_the_set_of_a_test(sides: Sides, single_cell: bool, band_on: BandOn) -> None:
    task = Task("Hip abduction", sides=sides, key="task-hip")
    asked = PLAN.prescription(task, single_cell=single_cell)
    assert asked.task.kind is TaskKind.MAXIMAL
    assert (asked.task.key, asked.task.sides) == ("task-hip", sides)
    assert asked.band == Band.at_least(10.0)
    assert asked.band_on is band_on
    assert (asked.clock, asked.hold_s) == (ClockRule.RUNNING, 4.0)
    assert asked.rest_s == 30.0  # practice comes first
    assert asked.reps >= 3 + 6
    assert Prescription.from_json(Fields(asked.to_json())) == asked


# What the athlete is told.


def state(
    phase: Phase, *, position: Position | None = Position.BELOW, reps: int = 9
) -> SetState:
    return SetState(
        time_s=5.0,
        phase=phase,
        position=position,
        clock_s=0.0,
        running=False,
        hold_s=4.0,
        rep_start_s=None,
        lapse_clock_s=(),
        rep_number=1,
        reps=reps,
        outcomes=(Outcome.COMPLETE,) * 3,
        rest_left_s=30.0,
        over_ceiling=False,
        band=Band.at_least(20.0),
    )


RAMP = next_step(PLAN, ())
ENOUGH = next_step(PLAN, after_practice(200.0, 195.0, 180.0))


@pytest.mark.parametrize(
    ("phase", "step", "told"),
    [
        (Phase.WAITING, RAMP, Cue.ABOUT_HALF),
        (Phase.REP, replace(RAMP, share_pct=75), Cue.THREE_QUARTERS),
        (Phase.REP, replace(RAMP, share_pct=90), Cue.NEARLY_ALL),
        (Phase.WAITING, ANY_TRIAL.step, Cue.ALL_OUT),
        (Phase.REP, ANY_TRIAL.step, Cue.ALL_OUT),
        (Phase.RELEASE, ANY_TRIAL.step, Cue.LET_GO),
        (Phase.REST, ANY_TRIAL.step, Cue.REST),
        (Phase.HELD_BACK, ANY_TRIAL.step, Cue.WAIT),
        (Phase.WAITING, ENOUGH, Cue.ENOUGH),
        (Phase.REST, ENOUGH, Cue.ENOUGH),
        (Phase.RELEASE, ENOUGH, Cue.LET_GO),
        (Phase.DONE, ENOUGH, Cue.TEST_DONE),
        (Phase.DONE, ANY_TRIAL.step, Cue.ENDED),
    ],
)
def test_in_a_test_nothing_is_said_of_a_band(
    phase: Phase, step: Step, told: Cue
) -> None:
    for position in (Position.BELOW, Position.INSIDE):
        assert cue(state(phase, position=position), live=True, maximal=step) is told
    assert cue(state(phase), live=False, maximal=step) is Cue.NO_SIGNAL


def test_the_ceiling_and_a_lost_signal_go_first() -> None:
    step = ANY_TRIAL.step
    over = replace(state(Phase.REP), over_ceiling=True)
    assert cue(over, live=True, maximal=step) is Cue.TOO_MUCH
    deaf = state(Phase.REP, position=None)
    assert cue(deaf, live=True, maximal=step) is Cue.NO_SIGNAL
