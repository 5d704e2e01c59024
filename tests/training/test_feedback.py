from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.training.band import Band
from biofeedback.training.events import Outcome, Phase, Position, SetState
from biofeedback.training.feedback import (
    CUE_DWELL_S,
    ENTRY_ROOM_S,
    PAIN_CUT,
    Cue,
    SteadyCue,
    Stretch,
    ahead,
    cue,
    far_above,
    position_of,
)

BAND = Band(108, 132)


def state(
    phase: Phase = Phase.REP,
    position: Position | None = Position.INSIDE,
    **changed: Any,
) -> SetState:
    return replace(
        SetState(
            time_s=5.0,
            phase=phase,
            position=position,
            clock_s=3.0,
            running=True,
            hold_s=10.0,
            rep_start_s=1.0,
            lapse_clock_s=(),
            rep_number=1,
            reps=3,
            outcomes=(),
            rest_left_s=0.0,
            over_ceiling=False,
            band=BAND,
        ),
        **changed,
    )


def test_slightly_is_said_only_near_the_band() -> None:
    """25 % of the upper edge, or as far as the band is wide, whichever is less."""
    wide, open_up = Band(20.0, 100.0), Band.at_least(100.0)
    assert not far_above(156.0, BAND)  # 132 and a width of 24
    assert far_above(156.1, BAND)
    assert not far_above(125.0, wide)
    assert far_above(125.1, wide)
    assert not far_above(1e4, open_up)
    assert not far_above(math.nan, BAND)
    above = state(position=Position.ABOVE)
    assert cue(above, live=True, far=True) is Cue.MUCH_LESS
    assert cue(above, live=True, seen=False, far=True) is Cue.BY_FEEL
    over = state(position=Position.ABOVE, over_ceiling=True)
    assert cue(over, live=True, far=True) is Cue.TOO_MUCH
    below = state(position=Position.BELOW)  # the other side is far above
    assert cue(below, live=True, far=True) is Cue.MORE


@pytest.mark.parametrize(
    ("given_state", "wanted"),
    [
        (None, Cue.NO_SET),
        (state(Phase.WAITING, Position.BELOW), Cue.READY),
        (state(position=Position.BELOW), Cue.MORE),
        (state(position=Position.INSIDE), Cue.STAY),
        (state(position=Position.ABOVE), Cue.LESS),
        (state(position=None), Cue.NO_SIGNAL),
        (state(position=Position.ABOVE, over_ceiling=True), Cue.TOO_MUCH),
        (state(balanced=False, running=False), Cue.EVEN),
        (state(balanced=False, running=True), Cue.STAY),
        (state(Phase.RELEASE), Cue.LET_GO),
        (state(Phase.REST, Position.BELOW), Cue.REST),
        (state(Phase.DONE, outcomes=(Outcome.COMPLETE,) * 3), Cue.DONE),
        (state(Phase.DONE, outcomes=(Outcome.SHORT,) * 3), Cue.DONE),
        (state(Phase.DONE, outcomes=()), Cue.ENDED),
        (state(Phase.DONE, outcomes=(Outcome.COMPLETE,) * 2), Cue.ENDED),
        (
            state(Phase.DONE, outcomes=(*[Outcome.COMPLETE] * 2, Outcome.STOPPED)),
            Cue.ENDED,
        ),
    ],
)
def test_one_cue_for_each_moment(given_state: SetState | None, wanted: Cue) -> None:
    assert cue(given_state, live=True) is wanted
    assert cue(given_state, live=False) is Cue.NO_SIGNAL


@pytest.mark.parametrize("position", list(Position))
def test_after_pain_above_the_cut_nothing_is_asked_of_the_force(
    position: Position,
) -> None:
    for seen in (True, False):
        eased = cue(
            state(position=position), live=True, seen=seen, far=True, eased=True
        )
        assert eased is Cue.EASE_OUT
    # What warns of the force goes before, and what comes after the rep is as it was.
    over = state(position=position, over_ceiling=True)
    assert cue(over, live=True, eased=True) is Cue.TOO_MUCH
    unknown = state(position=None)
    assert cue(unknown, live=True, eased=True) is Cue.NO_SIGNAL
    assert cue(unknown, live=True, at_limit=True, eased=True) is Cue.AT_LIMIT
    for phase, wanted in (
        (Phase.RELEASE, Cue.LET_GO),
        (Phase.REST, Cue.REST),
        (Phase.HELD_BACK, Cue.WAIT),
    ):
        assert cue(state(phase, position), live=True, eased=True) is wanted


def test_it_is_told_at_once_and_not_after_the_dwell_of_a_phrase() -> None:
    steady = SteadyCue()
    assert steady.push(state(time_s=1.0), live=True) is Cue.STAY
    assert steady.push(state(time_s=1.02), live=True, eased=True) is Cue.EASE_OUT


def test_a_cell_at_its_stop_is_not_called_no_signal() -> None:
    unknown = state(position=None)
    assert cue(unknown, live=True, at_limit=True) is Cue.AT_LIMIT
    assert cue(unknown, live=True, seen=False, at_limit=True) is Cue.AT_LIMIT
    assert cue(unknown, live=False, at_limit=True) is Cue.NO_SIGNAL
    # Nothing is pulled, or it is let go as it is: that is what is to be told.
    for phase, wanted in ((Phase.REST, Cue.REST), (Phase.RELEASE, Cue.LET_GO)):
        assert cue(state(phase, None), live=True, at_limit=True) is wanted
    steady = SteadyCue()
    assert steady.push(state(time_s=1.0), live=True) is Cue.STAY
    over = state(position=None, time_s=1.01)
    assert steady.push(over, live=True, at_limit=True) is Cue.AT_LIMIT


def test_stopping_is_advised_above_the_cut_of_the_pain_monitoring_model() -> None:
    """Acceptable up to 5 of 10: Thomeé, Phys. Ther. 77 (1997) 1690."""
    assert PAIN_CUT == 5


@pytest.mark.parametrize("position", list(Position))
def test_an_unseen_rep_tells_nothing_about_the_force(position: Position) -> None:
    assert cue(state(position=position), live=True, seen=False) is Cue.BY_FEEL


def test_an_unseen_rep_still_warns_of_the_ceiling() -> None:
    over = state(position=Position.ABOVE, over_ceiling=True)
    assert cue(over, live=True, seen=False) is Cue.TOO_MUCH


def test_a_short_excursion_does_not_flicker() -> None:
    steady = SteadyCue()
    assert steady.push(state(time_s=1.0), live=True) is Cue.STAY
    for i in range(10):  # 0.15 s above
        above = state(position=Position.ABOVE, time_s=1.0 + 0.015 * (i + 1))
        assert steady.push(above, live=True) is Cue.STAY
    assert steady.push(state(time_s=1.2), live=True) is Cue.STAY
    # The next excursion is timed anew.
    above = state(position=Position.ABOVE, time_s=1.3)
    assert steady.push(above, live=True) is Cue.STAY


def test_a_lasting_change_is_told_after_the_dwell() -> None:
    steady = SteadyCue()
    steady.push(state(time_s=1.0), live=True)
    told_at_s = math.inf
    for i in range(60):
        time_s = 1.0 + i / 60
        below = state(position=Position.BELOW, time_s=time_s)
        if steady.push(below, live=True) is Cue.MORE:
            told_at_s = time_s
            break
    assert told_at_s == pytest.approx(1.0 + CUE_DWELL_S, abs=1 / 60 + 1e-9)


@pytest.mark.parametrize(
    ("after", "live", "wanted"),
    [
        (state(time_s=1.01, over_ceiling=True), True, Cue.TOO_MUCH),
        (state(Phase.RELEASE, time_s=1.01), True, Cue.LET_GO),
        (state(time_s=1.01), False, Cue.NO_SIGNAL),
        (None, True, Cue.NO_SET),
    ],
)
def test_all_else_is_told_at_once(
    after: SetState | None, live: bool, wanted: Cue
) -> None:
    steady = SteadyCue()
    steady.push(state(time_s=1.0), live=True)
    assert steady.push(after, live=live) is wanted


def test_time_that_starts_again_does_not_stop_the_cue() -> None:
    steady = SteadyCue()
    steady.push(state(time_s=1000.0), live=True)
    steady.push(state(position=Position.BELOW, time_s=1000.1), live=True)
    told = [
        steady.push(state(position=Position.BELOW, time_s=i / 60), live=True)
        for i in range(30)
    ]
    assert told[-1] is Cue.MORE


@given(st.lists(st.sampled_from(list(Position)), min_size=1, max_size=200))
def test_cues_about_the_force_never_change_faster_than_the_dwell(
    positions: list[Position],
) -> None:
    steady = SteadyCue()
    changes: list[float] = []
    before: Cue | None = None
    for i, position in enumerate(positions):
        time_s = i / 60
        now = steady.push(state(position=position, time_s=time_s), live=True)
        if before is not None and now is not before:
            changes.append(time_s)
        before = now
    for first, second in itertools.pairwise(changes):
        assert second - first >= CUE_DWELL_S - 1e-9


def test_edges_are_inside() -> None:
    assert position_of(108.0, BAND) is Position.INSIDE
    assert position_of(132.0, BAND) is Position.INSIDE
    assert position_of(107.999, BAND) is Position.BELOW
    assert position_of(132.001, BAND) is Position.ABOVE
    assert position_of(math.nan, BAND) is None
    assert position_of(1e6, Band.at_least(50)) is Position.INSIDE


def test_a_hold_under_way_ends_when_its_clock_would_be_full() -> None:
    under_way, following = ahead(state(clock_s=7.5), rest_s=1.0, span_s=5.0)
    assert under_way == Stretch(0.0, 2.5, entry=False)
    assert following.start_s == pytest.approx(2.5 + 1.0 + ENTRY_ROOM_S)


def test_after_the_last_hold_nothing_is_to_come() -> None:
    done = (Outcome.COMPLETE, Outcome.SHORT)
    assert len(ahead(state(outcomes=done), rest_s=0.0, span_s=60.0)) == 1
    assert ahead(state(Phase.DONE), rest_s=0.0, span_s=60.0) == ()
    assert ahead(None, rest_s=0.0, span_s=60.0) == ()


def test_a_rest_brings_the_next_hold_nearer() -> None:
    rest = state(Phase.REST, outcomes=(Outcome.COMPLETE,), rest_left_s=2.0)
    (hold,) = ahead(rest, rest_s=30.0, span_s=5.0)
    assert hold == Stretch(2.0 + ENTRY_ROOM_S, 12.0 + ENTRY_ROOM_S, entry=True)
    far = state(Phase.REST, outcomes=(Outcome.COMPLETE,), rest_left_s=20.0)
    assert ahead(far, rest_s=30.0, span_s=5.0) == ()


def test_a_released_hold_is_not_to_come_again() -> None:
    release = state(Phase.RELEASE, outcomes=(Outcome.COMPLETE, Outcome.COMPLETE))
    assert ahead(release, rest_s=0.0, span_s=60.0) == ()
    waiting = state(Phase.WAITING, outcomes=(Outcome.COMPLETE, Outcome.COMPLETE))
    assert len(ahead(waiting, rest_s=0.0, span_s=60.0)) == 1
