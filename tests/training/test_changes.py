"""What the practitioner changes within a set: hold, reps, rest, and who may start.

Force is written out at 100 samples a second, 30 N where the athlete holds; the
onset level is 5 N, so a rep begins a sixth of the way up a line from 0 to 30 N.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from training.scripted import ONE_CELL, Script, asked, conduct, reps, rig

from biofeedback.errors import FieldError
from biofeedback.training.band import Band
from biofeedback.training.changes import Terms
from biofeedback.training.conductor import Conductor
from biofeedback.training.events import (
    Outcome,
    Phase,
    RepCompleted,
    RepEnded,
    RepStarted,
)
from biofeedback.training.feedback import Cue, ahead, cue
from biofeedback.training.prescription import ClockRule, Prescription, StartBy
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable

    Act = Callable[[Conductor], object]

RATE_HZ = 100


def holds(*spans_s: tuple[float, float], until_s: float) -> Script:
    """30 N within each span and 0 N outside."""
    time_s = np.arange(round(until_s * RATE_HZ) + 1) / RATE_HZ
    force_n = np.zeros_like(time_s)
    for start_s, end_s in spans_s:
        force_n[(time_s >= start_s - 1e-9) & (time_s <= end_s + 1e-9)] = 30.0
    return Script.of(time_s, force_n)


def terms(**change: float) -> Act:
    return lambda conductor: conductor.change(
        Terms.from_json(Fields(change)).applied_to(conductor.asked)
    )


def gate(*, opened: bool) -> Act:
    return lambda conductor: conductor.move_gate(opened=opened)


def at(time_s: float, act: Act) -> tuple[int, Act]:
    return round(time_s * RATE_HZ), act


ASKED = replace(asked(20, 40, 5.0), reps=2, rest_s=2.0)
# In the band from two thirds of the line up to 30 N on.
IN_AT_1_S = 1 - (1 - 20 / 30) / RATE_HZ


@pytest.mark.parametrize("clock", ClockRule)
def test_a_shorter_hold_completes_where_the_clock_reaches_it(clock: ClockRule) -> None:
    script = holds((1, 9), until_s=10)
    wanted = replace(ASKED, clock=clock)
    events = conduct(script, wanted, acts=[at(3, terms(hold_s=4.0))])
    (rep,) = reps(events)
    assert rep.outcome is Outcome.COMPLETE
    assert rep.hold_end_s == pytest.approx(IN_AT_1_S + 4.0, abs=1e-12)
    assert rep.hold_s == 4.0


@pytest.mark.parametrize("clock", ClockRule)
def test_a_hold_shorter_than_the_clock_is_reached_at_the_change(
    clock: ClockRule,
) -> None:
    script = holds((1, 9), until_s=10)
    events = conduct(
        script, replace(ASKED, clock=clock), acts=[at(5, terms(hold_s=2.0))]
    )
    (rep,) = reps(events)
    assert rep.hold_end_s == 5.0
    assert rep.inside_s == pytest.approx(5 - IN_AT_1_S)


def test_a_banked_clock_that_stands_is_reached_at_the_change_too() -> None:
    """Below the band since 4 s, with 3 s in the bank."""
    script = holds((1, 4), until_s=10)
    force_n = np.where(script.time_s > 4, 10.0, script.force_n[:, 0])
    script = Script.of(script.time_s, force_n)
    wanted = replace(ASKED, clock=ClockRule.BANKED)
    (rep,) = reps(conduct(script, wanted, acts=[at(6, terms(hold_s=3.0))]))
    assert (rep.outcome, rep.hold_end_s) == (Outcome.COMPLETE, 6.0)


def test_a_longer_hold_is_asked_for_from_the_change_on() -> None:
    script = holds((1, 9.5), until_s=10)
    (rep,) = reps(conduct(script, ASKED, acts=[at(5.5, terms(hold_s=8.0))]))
    assert rep.hold_end_s == pytest.approx(IN_AT_1_S + 8.0, abs=1e-12)


def test_a_hold_that_was_reached_stays_reached() -> None:
    script = holds((1, 8), until_s=10)
    (rep,) = reps(conduct(script, ASKED, acts=[at(7, terms(hold_s=60.0))]))
    assert rep.outcome is Outcome.COMPLETE
    assert rep.hold_end_s == pytest.approx(IN_AT_1_S + 5.0, abs=1e-12)
    assert rep.hold_s == 5.0


THREE = ((1, 2), (4, 5), (7, 8))


@pytest.mark.parametrize(
    ("when_s", "reps_asked", "done"),
    [
        (3.0, 1, 1),  # between the reps: over at once
        (4.5, 1, 2),  # the one under way is kept
        (3.0, 3, 3),
        (0.5, 0, 0),
    ],
)
def test_reps_can_be_left_out_or_added(
    when_s: float, reps_asked: int, done: int
) -> None:
    wanted = replace(ASKED, hold_s=0.5)
    conductor_done: list[bool] = []
    events = conduct(
        holds(*THREE, until_s=9),
        wanted,
        acts=[
            at(when_s, terms(reps=reps_asked) if reps_asked else stop_asking),
            at(8.9, lambda conductor: conductor_done.append(conductor.done)),
        ],
    )
    assert len(reps(events)) == done
    assert conductor_done == [True]


def stop_asking(conductor: Conductor) -> None:
    """No rep at all is no prescription; skipping the last one is a stop."""
    with pytest.raises(FieldError, match="reps"):
        terms(reps=0)(conductor)
    conductor.stop()


def test_rest_counts_anew_from_the_end_of_the_last_rep() -> None:
    conductor = Conductor(replace(ASKED, hold_s=0.5, rest_s=10.0), rig(ONE_CELL))
    script = holds((1, 2), until_s=6)
    for index, block in enumerate(script.blocks(range(len(script.time_s)))):
        if index == 400:
            assert conductor.state.rest_left_s == pytest.approx(8.01, abs=0.011)
            terms(rest_s=3.0)(conductor)
            assert conductor.state.rest_left_s == pytest.approx(1.01, abs=0.011)
        conductor.push(block)
    assert conductor.phase is Phase.WAITING


def test_a_rep_that_begins_within_the_rest_tells_how_much_was_taken() -> None:
    """The force is let go at 2 and 7 s; the next pulls begin 3 and 2.5 s later."""
    script = holds((1, 2), (5, 7), (9.5, 10.5), until_s=12)
    asked = replace(ASKED, hold_s=0.5, reps=3, rest_s=3.4)
    started = [one for one in conduct(script, asked) if isinstance(one, RepStarted)]
    assert [one.cut for one in started] == [None, None, None], "short by under a second"
    asked = replace(asked, rest_s=10.0)
    events = conduct(script, asked, acts=[at(8, terms(rest_s=3.6))])
    started = [one for one in events if isinstance(one, RepStarted)]
    assert started[0].cut is None, "there was no rest before the first"
    cut, later = started[1].cut, started[2].cut
    assert cut is not None
    assert cut.asked_s == 10.0
    assert cut.taken_s == pytest.approx(3.0, abs=0.05)
    assert later is not None, "held against the rest as it was asked for then"
    assert later.asked_s == pytest.approx(3.6)
    assert later.taken_s == pytest.approx(2.5, abs=0.05)


def test_no_rep_starts_while_reps_are_held_back() -> None:
    script = holds(*THREE, until_s=9)
    shut, opened = at(3, gate(opened=False)), at(6, gate(opened=True))
    wanted = replace(ASKED, hold_s=0.5, reps=3)
    started = [
        event.time_s
        for event in conduct(script, wanted, acts=[shut, opened])
        if isinstance(event, RepStarted)
    ]
    assert started == pytest.approx([0.99 + 0.01 / 6, 6.99 + 0.01 / 6])


def test_a_rep_under_way_goes_on_behind_a_shut_gate() -> None:
    events = conduct(holds((1, 9), until_s=10), ASKED, acts=[at(2, gate(opened=False))])
    assert [rep.outcome for rep in reps(events)] == [Outcome.COMPLETE]


def test_force_that_stands_when_the_gate_opens_starts_the_rep_there() -> None:
    script = holds((1, 9), until_s=10)
    acts = [at(0, gate(opened=False)), at(3, gate(opened=True))]
    (rep,) = reps(conduct(script, ASKED, acts=acts))
    assert (rep.start_s, rep.entry_s, rep.hold_end_s) == (3.0, 3.0, 8.0)


def test_by_key_each_rep_waits_for_its_key() -> None:
    wanted = replace(ASKED, hold_s=0.5, reps=3, start=StartBy.KEY)
    acts = [at(3, gate(opened=True)), at(6, gate(opened=True))]
    events = conduct(holds(*THREE, until_s=9), wanted, acts=acts)
    assert [rep.start_s for rep in reps(events)] == pytest.approx(
        [3.99 + 0.01 / 6, 6.99 + 0.01 / 6]
    )


def test_one_key_is_for_one_rep() -> None:
    wanted = replace(ASKED, hold_s=0.5, reps=3, start=StartBy.KEY)
    events = conduct(holds(*THREE, until_s=9), wanted, acts=[at(0, gate(opened=True))])
    assert len(reps(events)) == 1


def test_phase_and_cue_while_held_back() -> None:
    conductor = Conductor(ASKED, rig(ONE_CELL))
    conductor.move_gate(opened=False)
    conductor.push(holds(until_s=1).block(0, 50))
    assert conductor.phase is Phase.HELD_BACK
    assert cue(conductor.state, live=True) is Cue.WAIT
    assert ahead(conductor.state, rest_s=2.0, span_s=10.0) == ()


def test_by_key_the_rest_is_counted_down_first() -> None:
    wanted = replace(ASKED, hold_s=0.5, rest_s=2.0, start=StartBy.KEY)
    conductor = Conductor(wanted, rig(ONE_CELL))
    conductor.move_gate(opened=True)
    phases = []
    for block in holds((1, 2), until_s=6).blocks(range(0, 600, 50)):
        conductor.push(block)
        phases.append(conductor.phase)
    assert phases[-3:] == [Phase.HELD_BACK] * 3
    assert Phase.REST in phases
    assert phases.index(Phase.HELD_BACK) > phases.index(Phase.REST)


@pytest.mark.parametrize(
    "other",
    [
        {"clock": ClockRule.BANKED},
        {"grace_s": 1.0},
        {"ceiling_n": 99.0},
        {"balance_tolerance_points": 5.0},
    ],
)
def test_what_a_set_cannot_follow_is_refused(other: dict[str, object]) -> None:
    conductor = Conductor(ASKED, rig(ONE_CELL))
    with pytest.raises(FieldError, match="only band, hold, rest and reps"):
        conductor.change(replace(ASKED, **other))  # type: ignore[arg-type]  # by name
    assert conductor.asked == ASKED


def test_terms_tell_only_what_they_change() -> None:
    new = Terms.from_json(Fields({"hold_s": 8.0, "reps": 3}))
    assert Terms.of(ASKED).only(new).to_json() == {"hold_s": 5.0, "reps": 2}
    assert Terms.from_json(Fields(new.to_json())) == new
    assert new.applied_to(ASKED) == replace(ASKED, hold_s=8.0, reps=3)


ACTS = st.one_of(
    st.sampled_from([0.3, 1.0, 2.0]).map(lambda s: terms(hold_s=s)),
    st.sampled_from([1, 2, 4]).map(lambda n: terms(reps=n)),
    st.sampled_from([0.0, 5.0]).map(lambda s: terms(rest_s=s)),
    st.booleans().map(lambda opened: gate(opened=opened)),
    st.sampled_from([Band(20, 40), Band(25, 31), Band(29, 60)]).map(
        lambda band: lambda conductor: conductor.change(conductor.asked.with_band(band))
    ),
)


@given(
    levels=st.lists(st.sampled_from([0, 0, 3, 10, 22, 30, 30, 45]), min_size=4),
    acts=st.lists(st.tuples(st.integers(0, 200), ACTS), max_size=6),
    cuts=st.sets(st.integers(1, 300), max_size=20),
    clock=st.sampled_from(ClockRule),
    start=st.sampled_from(StartBy),
)
def test_changes_do_not_depend_on_how_the_stream_is_cut(
    levels: list[int],
    acts: list[tuple[int, Act]],
    cuts: set[int],
    clock: ClockRule,
    start: StartBy,
) -> None:
    force_n = np.repeat(np.array(levels, float), 13)
    script = Script.of(np.arange(len(force_n)) / 20, force_n)
    acts = [(min(index, len(force_n) - 1), act) for index, act in acts]
    wanted: Prescription = replace(ASKED, hold_s=1.0, reps=3, clock=clock, start=start)
    whole = conduct(script, wanted, acts=acts)
    parts = conduct(
        script, wanted, acts=acts, cuts=[cut for cut in cuts if cut < len(force_n)]
    )
    assert parts == whole
    told = [e.time_s for e in whole if not isinstance(e, RepEnded)]
    assert told == sorted(told)
    for event in whole:
        if isinstance(event, RepCompleted):
            assert event.time_s <= script.time_s[-1]
    for rep in reps(whole):
        parts_s = (
            rep.below_s + rep.inside_s + rep.above_s + rep.paused_s + rep.unbalanced_s
        )
        assert parts_s == pytest.approx(rep.hold_end_s - rep.start_s, abs=1e-9)
