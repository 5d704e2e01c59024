"""What sounds, over sets that the rules have judged."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from training.scripted import ONE_CELL, TWO_CELLS, Script, asked, rig

from biofeedback.sound.choice import (
    SIGNAL_LOST_AFTER_FRAMES,
    Choice,
    Heard,
)
from biofeedback.sound.tones import Once, Steady
from biofeedback.training.band import Band
from biofeedback.training.conductor import Conductor
from biofeedback.training.events import CeilingCrossed, Phase
from biofeedback.training.feedback import WARNED_LEAST_S, Cue, cue
from biofeedback.training.maximal import MaximalPlan, Step, StepKind, Why
from biofeedback.training.prescription import ClockRule, FeedbackMode, Prescription
from biofeedback.training.showing import force_shown
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Sequence

FRAME_S = 1 / 50
ASKED = replace(asked(20, 40, 4.0), reps=2, rest_s=5.0, ceiling_n=60.0)


def heard(
    points: Sequence[tuple[float, ...]],
    wanted: Prescription = ASKED,
    *,
    stop_at_s: float | None = None,
    frame_s: float = FRAME_S,
    dead: tuple[float, float] = (0.0, 0.0),
    gate: Sequence[tuple[float, bool]] = (),
    pain_at_s: float = math.inf,
) -> tuple[list[tuple[float, Steady | None]], list[tuple[float, Once]]]:
    """Changes of what is steady, and what sounded once, with their times.

    Args:
        dead: from when to when the signal does not count as live.
        gate: when it is opened or shut.
        pain_at_s: when pain above the agreed cut is told.
    """
    script = Script.lines(*points)
    sides = ONE_CELL if len(points[0]) == 2 else TWO_CELLS
    conductor, choice = Conductor(wanted, rig(sides)), Choice()
    moves = list(gate)
    steady: list[tuple[float, Steady | None]] = []
    once: list[tuple[float, Once]] = []
    step = round(frame_s / (script.time_s[1] - script.time_s[0]))
    for block in script.blocks(range(0, len(script.time_s), step)):
        while moves and moves[0][0] <= float(block.time_s[0]):
            conductor.move_gate(opened=moves.pop(0)[1])
        events = conductor.push(block)
        now_s = float(block.time_s[-1])
        if stop_at_s is not None and now_s >= stop_at_s and not conductor.done:
            events += conductor.stop()
        state = conductor.state
        live = not dead[0] <= now_s < dead[1]
        given = cue(
            state,
            live=live,
            seen=force_shown(wanted, state),
            eased=now_s >= pain_at_s,
        )
        found = choice.push(given, state, events)
        if not steady or found.steady is not steady[-1][1]:
            steady.append((now_s, found.steady))
        once += [(now_s, sound) for sound in found.once]
    return steady, once


# Up through the band to 30 N within it, there for 6 s, down; again after a rest.
REP = ((0, 0), (1, 30), (7, 30), (7.5, 0))
TWO = (*REP, *((at + 15, force) for at, force in REP), (25, 0))


def test_pain_above_the_cut_is_told_once_and_then_nothing_of_the_force() -> None:
    """Silence alone would mean that all is well."""
    sinking = ((0, 0), (1, 30), (3, 30), (3.2, 15), (6, 15), (6.5, 0), (8, 0))
    steady, once = heard(sinking, pain_at_s=1.5)
    assert [(round(at, 1), sound) for at, sound in once] == [
        (0.0, Once.GO), (1.5, Once.STOPPED)
    ]  # fmt: skip
    assert max(at for at, sound in steady if sound) < 1.5, "no pulse asks for more"
    # With the signal back it is no news again; without pain there are pulses below.
    _, again = heard(sinking, pain_at_s=1.5, dead=(3.0, 4.0))
    assert again == once
    below, _ = heard(sinking)
    assert below[-2][0] > 3.0


def test_after_a_warning_of_the_ceiling_the_pain_is_told_once_more() -> None:
    over = ((0, 0), (1, 30), (3, 30), (3.2, 80), (3.5, 80), (3.7, 30), (5, 30), (8, 30))
    steady, once = heard(over, pain_at_s=1.5)
    (warned, quiet) = [one for one in steady if one[0] > 1.5]
    assert warned[1] is Steady.CEILING
    assert quiet[1] is None
    stopped = [at for at, sound in once if sound is Once.STOPPED]
    assert stopped == pytest.approx([1.5, quiet[0]], abs=FRAME_S)


def test_silent_inside_and_pulses_below_on_the_way_in() -> None:
    steady, _ = heard(TWO)
    assert [sound for _, sound in steady] == [
        None, Steady.BELOW, None, Steady.BELOW, None,
    ]  # fmt: skip
    entered_s = steady[2][0]
    assert entered_s == pytest.approx(20 / 30, abs=2 * FRAME_S)


def test_above_and_ceiling() -> None:
    points = ((0, 0), (1, 30), (2, 30), (2.1, 50), (3, 50), (3.1, 70), (4, 70), (5, 0))
    steady, _ = heard(points)
    assert [sound for _, sound in steady][:5] == [
        None, Steady.BELOW, None, Steady.ABOVE, Steady.CEILING,
    ]  # fmt: skip


def test_one_chime_a_rep_ticks_before_it_and_before_the_next() -> None:
    _, once = heard(TWO)
    sounds = [sound for _, sound in once]
    assert sounds.count(Once.CHIME) == 2
    assert sounds == [
        Once.GO, *3 * [Once.TICK], Once.CHIME, *3 * [Once.TICK], Once.GO,
        *3 * [Once.TICK], Once.CHIME, Once.SET_DONE,
    ]  # fmt: skip
    times = [at for at, _ in once]
    assert times.pop(0) == pytest.approx(0.0, abs=2 * FRAME_S)
    assert times[1] - times[0] == pytest.approx(1.0, abs=2 * FRAME_S)
    chime_s = times[3]
    assert chime_s == pytest.approx(20 / 30 + 4.0, abs=2 * FRAME_S)
    rested_s = 7.5 - 0.5 * 2.5 / 30 + 5.0
    assert times[7] == pytest.approx(rested_s, abs=0.3)


def test_a_stopped_rep_has_a_sound_of_its_own_and_no_chime() -> None:
    _, once = heard(TWO, stop_at_s=1.5)
    assert [sound for _, sound in once] == [Once.GO, Once.STOPPED]
    assert once[1][0] == pytest.approx(1.5, abs=2 * FRAME_S)


def test_an_unseen_rep_says_nothing_of_the_force() -> None:
    unseen = replace(ASKED, feedback=FeedbackMode.UNSEEN)
    points = ((0, 0), (1, 30), (2, 30), (2.1, 50), (3, 50), (3.1, 70), (4, 70), (5, 0))
    steady, _ = heard(points, unseen)
    assert {sound for _, sound in steady} == {None, Steady.CEILING}


def test_a_set_that_is_stopped_while_resting_is_told_too() -> None:
    _, once = heard(TWO, stop_at_s=9.0)
    assert once[-1][1] is Once.STOPPED
    assert once[-1][0] == pytest.approx(9.0, abs=2 * FRAME_S)
    assert Once.SET_DONE not in [sound for _, sound in once]


def test_a_clock_that_stands_and_goes_on_does_not_tick_anew() -> None:
    """In and out of the band in the third second before the end."""
    out = [(1.8 + at / 4 + more, force) for at in range(4) for more, force in DIP]
    points = ((0, 0), (0.5, 30), (1.8, 30), *out, (8, 30), (8.5, 0), (9, 0))
    for clock in (ClockRule.BANKED, ClockRule.RUNNING, ClockRule.UNBROKEN):
        _, once = heard(points, replace(ASKED, reps=1, clock=clock))
        sounds = [sound for _, sound in once]
        assert sounds.count(Once.TICK) == 3, clock
        assert sounds.count(Once.CHIME) == 1, clock


DIP = ((0.05, 15), (0.1, 15), (0.15, 30), (0.25, 30))


def test_a_clock_that_starts_again_counts_again() -> None:
    """After a lapse of an unbroken hold with 1.8 s to go."""
    points = ((0, 0), (0.5, 30), (2.5, 30), (2.6, 15), (3.2, 15), (3.3, 30), (9, 30))
    _, once = heard((*points, (9.5, 0), (10, 0)), replace(ASKED, reps=1))
    ticks = [at for at, sound in once if sound is Once.TICK]
    again_s = 3.2 + 0.1 * 5 / 15
    told = [0.5 * 20 / 30 + 1, 0.5 * 20 / 30 + 2, *(again_s + n for n in (1, 2, 3))]
    assert ticks == pytest.approx(told, abs=2 * FRAME_S)


def test_a_short_hold_is_counted_from_the_next_whole_second() -> None:
    points = ((0, 0), (0.5, 30), (6, 30), (6.5, 0), (7, 0))
    _, once = heard(points, replace(ASKED, reps=1, hold_s=2.5))
    entered_s = 0.5 * 20 / 30
    ticks = [at for at, sound in once if sound is Once.TICK]
    assert ticks == pytest.approx([entered_s + 0.5, entered_s + 1.5], abs=2 * FRAME_S)


@pytest.mark.parametrize("frame_s", [0.01, 0.2])
def test_a_ceiling_passed_for_a_moment_warns_long_enough(frame_s: float) -> None:
    """Though at the end of the frame the force was back."""
    up = ((2, 30), (2.02, 62), (2.04, 62), (2.06, 30))
    points = ((0, 0), (0.5, 30), *up, (7, 30), (7.5, 0))
    steady, once = heard(points, frame_s=frame_s)
    (start,) = [n for n, (_, sound) in enumerate(steady) if sound is Steady.CEILING]
    (on_s, _), (off_s, after) = steady[start : start + 2]
    assert 2.02 <= on_s <= 2.02 + frame_s
    assert off_s - on_s == pytest.approx(WARNED_LEAST_S, abs=1.01 * frame_s)
    assert after is None
    assert [sound for _, sound in once].count(Once.CHIME) == 1


def test_a_stop_above_the_ceiling_is_told_when_the_warning_is_over() -> None:
    points = ((0, 0), (1, 30), (2, 30), (2.1, 70), (4, 70), (4.1, 0), (6, 0))
    steady, once = heard(points, stop_at_s=3.0)
    over_s = next(at for at, sound in steady if at > 3 and sound is not Steady.CEILING)
    assert over_s > 4.0
    assert once[-1] == (over_s, Once.STOPPED)
    assert [sound for _, sound in once].count(Once.STOPPED) == 1


def test_without_a_live_signal_nothing_of_the_force() -> None:
    points = ((0, 0), (1, 10), (9, 10))
    steady, once = heard(points, dead=(3.0, 5.0))
    assert [sound for _, sound in steady] == [
        None, Steady.BELOW, None, Steady.LOST, Steady.BELOW,
    ]  # fmt: skip
    told_s = 3 + SIGNAL_LOST_AFTER_FRAMES * FRAME_S
    times = [at for at, _ in steady[2:]]
    assert times == pytest.approx([3, told_s, 5], abs=2 * FRAME_S)
    assert [sound for _, sound in once] == [Once.GO]


def test_a_signal_gone_for_a_moment_is_not_told_as_lost() -> None:
    gone_s = (SIGNAL_LOST_AFTER_FRAMES - 1) * FRAME_S
    steady, _ = heard(((0, 0), (1, 10), (9, 10)), dead=(3.0, 3.0 + gone_s))
    assert Steady.LOST not in [sound for _, sound in steady]


def test_short_gaps_do_not_add_up_to_a_lost_signal() -> None:
    state = replace(Conductor(ASKED, rig(ONE_CELL)).state, phase=Phase.REP)
    choice = Choice()
    for _ in range(5):
        for _ in range(SIGNAL_LOST_AFTER_FRAMES):
            assert choice.push(Cue.NO_SIGNAL, state).steady is None
        choice.push(Cue.STAY, state)


def test_a_lost_signal_is_told_inside_the_band_and_in_a_rest() -> None:
    """Where silence would have passed for all being well."""
    for dead in ((2.0, 4.0), (9.0, 11.0)):
        steady, _ = heard(TWO, dead=dead)
        lost = [at for at, sound in steady if sound is Steady.LOST]
        told_s = dead[0] + SIGNAL_LOST_AFTER_FRAMES * FRAME_S
        assert lost == pytest.approx([told_s], abs=2 * FRAME_S)


def test_after_the_set_a_lost_signal_is_no_news() -> None:
    steady, _ = heard(TWO, stop_at_s=9.0, dead=(9.5, 99.0))
    assert Steady.LOST not in [sound for _, sound in steady]


def test_the_end_of_a_rep_is_told_without_a_signal_too() -> None:
    _, once = heard(TWO, stop_at_s=2.0, dead=(1.5, 99.0))
    assert once[-1][1] is Once.STOPPED


def test_an_end_that_was_missed_is_no_news_later() -> None:
    """The set is stopped in a rest without a signal, which comes back."""
    _, once = heard(TWO, stop_at_s=9.0, dead=(8.5, 12.0))
    assert {sound for at, sound in once if at > 8.0} == set()


def test_a_gate_that_opens_says_go() -> None:
    steady, once = heard(
        ((0, 0), (6, 0)), gate=((0.0, False), (3.0, True), (4.0, False), (5.0, True))
    )
    assert [sound for _, sound in once] == [Once.GO, Once.GO]
    assert [at for at, _ in once] == pytest.approx([3, 5], abs=2 * FRAME_S)
    assert steady == [(steady[0][0], None)]


def test_in_the_band_with_uneven_sides() -> None:
    """Only where balance is asked for; out of the band it is more that counts."""
    wanted = replace(
        asked(20, 40, 3.0), balance_tolerance_points=10, balance_required=True
    )
    points = ((0, 0, 0), (1, 15, 15), (3, 15, 15), (3.2, 25, 5), (5, 25, 5), (6, 3, 3))
    steady, _ = heard(points, wanted)
    sounds = [sound for _, sound in steady]
    assert sounds[:4] == [None, Steady.BELOW, None, Steady.UNEVEN]
    told, _ = heard(points, replace(wanted, balance_required=False))
    assert Steady.UNEVEN not in [sound for _, sound in told]


def test_a_lowering_is_told_of_its_floor_alone() -> None:
    """However far above the floor, it is not too much."""
    wanted = replace(asked(20, 40, 2.0), band=Band.at_least(20.0))
    points = ((0, 0), (1, 90), (2, 90), (2.5, 10), (3.5, 10), (3.8, 30), (9, 30))
    steady, once = heard(points, wanted)
    assert {sound for _, sound in steady} == {None, Steady.BELOW}
    assert Once.CHIME in [sound for _, sound in once]


def test_a_maximal_test_counts_rests_and_no_effort() -> None:
    asked_for = MaximalPlan(practice=0, rest_s=10.0, practice_rest_s=0.0).prescription(
        Task("test task"), single_cell=True
    )
    script = Script.lines((0, 0), (1, 300), (6, 300), (6.3, 0), (20, 0))
    conductor, choice = Conductor(asked_for, rig(ONE_CELL)), Choice()
    once: list[Once] = []
    steady: set[Steady | None] = set()
    step = Step(StepKind.TRIAL, 1, 3, Why.TRIALS_LEFT)
    for block in script.blocks(range(0, len(script.time_s), 2)):
        events = conductor.push(block)
        if Once.GO in once[1:]:  # it was the last one after all
            step = Step(StepKind.ENOUGH, 1, 1, Why.BEST_TWO_AGREE)
        state = conductor.state
        found = choice.push(cue(state, live=True, maximal=step), state, events)
        once += found.once
        steady.add(found.steady)
    assert steady == {None}
    ends = [Once.CHIME, *3 * [Once.TICK], Once.GO, Once.SET_DONE]
    assert once == [Once.GO, *ends]


def test_another_set_begins_with_nothing_remembered() -> None:
    """Its time starts again at 0: an old warning must not sound into it."""
    conductor, choice = Conductor(ASKED, rig(ONE_CELL)), Choice()
    (block,) = Script.lines((0, 0), (5, 0)).blocks()
    conductor.push(block)
    choice.push(Cue.READY, conductor.state, (CeilingCrossed(5.0, 60.0),))
    fresh = Conductor(ASKED, rig(ONE_CELL)).state
    assert choice.push(Cue.READY, fresh, ()) == Heard(None, (Once.GO,))
    assert choice.push(Cue.READY, fresh, ()) == Heard(None)


def test_before_the_first_set_there_is_nothing() -> None:
    for given in Cue:
        assert Choice().push(given, None, ()) == Heard(None)


def test_each_cue_about_the_force_and_no_other_has_a_sound() -> None:
    """A cue that is new has to be thought of here."""
    state = replace(Conductor(ASKED, rig(ONE_CELL)).state, phase=Phase.REP)
    sounding = {one: Choice().push(one, state, ()).steady for one in Cue}
    assert {one: sound for one, sound in sounding.items() if sound} == {
        Cue.MORE: Steady.BELOW,
        Cue.LESS: Steady.ABOVE,
        Cue.MUCH_LESS: Steady.ABOVE,
        Cue.EVEN: Steady.UNEVEN,
        Cue.TOO_MUCH: Steady.CEILING,
        Cue.AT_LIMIT: Steady.CEILING,
    }
