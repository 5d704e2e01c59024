"""What is said of a lowering rep; its partner; the tempo that guides it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from training.scripted import ONE_CELL, Script, conduct, reps, rig

from biofeedback.errors import FieldError
from biofeedback.training.conductor import Conductor
from biofeedback.training.events import CeilingCrossed, Outcome
from biofeedback.training.feedback import Cue, Stretch, ahead, cue
from biofeedback.training.lowering import (
    LoweringRep,
    Sign,
    SignLimits,
    Told,
    lowering_prescription,
    rep_line,
    signs,
)
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.task import Task, TaskKind
from biofeedback.training.tempo import guides, tempo_guide
from biofeedback.wire.fields import Fields

TASK = Task("Slow hamstring lowering (invented)", TaskKind.LOWERING)

KEPT = LoweringRep(
    floor_n=200.0,
    tempo_s=4.0,
    peak_n=400.0,
    peak_after_s=3.0,
    above_s=4.1,
    above_ns=500.0,
    entry_after_s=0.4,
    break_after_s=4.4,
    break_force_n=390.0,
    fall_n_per_s=900.0,
)
DROPPED = replace(
    KEPT, peak_after_s=0.4, above_s=0.5, break_after_s=0.4, break_force_n=395.0
)


# Recognising a fall under gravity alone -------------------------------------------


def test_three_signs_together_are_a_fall_under_gravity() -> None:
    assert signs(DROPPED) == (Sign.EARLY, Sign.STEEP, Sign.BRIEF)
    assert rep_line(DROPPED).told is Told.DROPPED


@pytest.mark.parametrize(
    ("change", "missing"),
    [
        ({"peak_after_s": 1.5}, Sign.EARLY),
        ({"fall_n_per_s": 300.0}, Sign.STEEP),
        ({"above_s": 1.5}, Sign.BRIEF),
        ({"peak_after_s": None}, Sign.EARLY),
        ({"fall_n_per_s": None, "break_force_n": None}, Sign.STEEP),
    ],
)
def test_two_signs_are_none(change: dict[str, float | None], missing: Sign) -> None:
    rep = replace(DROPPED, **change)  # type: ignore[arg-type]
    assert set(signs(rep)) == set(Sign) - {missing}
    assert rep_line(rep).told is not Told.DROPPED


def test_the_limits_are_settable_and_their_edges_are_known() -> None:
    limits = SignLimits(
        early_pct=50, steep_pct_per_s=100, brief_pct=40.0, kept_pct=80.0
    )
    at_edge = replace(DROPPED, peak_after_s=2.0, fall_n_per_s=395.0, above_s=1.6 - 1e-9)
    assert signs(at_edge, limits) == tuple(Sign)
    assert signs(at_edge) == ()
    assert signs(replace(at_edge, above_s=1.6), limits) == (Sign.EARLY, Sign.STEEP)
    assert rep_line(replace(KEPT, above_s=3.2), limits).told is Told.KEPT
    assert rep_line(replace(KEPT, above_s=3.2)).told is not Told.KEPT


@pytest.mark.parametrize(
    "wrong",
    [
        {"early_pct": 0.0},
        {"brief_pct": 101.0},
        {"kept_pct": -1.0},
        {"steep_pct_per_s": 0.0},
        {"brief_pct": 90.0, "kept_pct": 80.0},
    ],
)
def test_limits_that_are_none_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(FieldError):
        SignLimits(**wrong)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({}, Told.KEPT),
        ({"above_s": 3.8}, Told.KEPT),  # 95 % of the tempo
        ({"above_s": 3.79}, Told.PARTLY),  # under the floor in between
        ({"above_s": 2.0, "break_after_s": 2.4}, Told.BROKE),
        ({"above_s": 2.0, "break_after_s": None}, Told.PARTLY),
        ({"above_s": 0.0, "above_ns": 0.0, "entry_after_s": None}, Told.UNDER),
        ({"above_s": 2.0, "stopped": True}, Told.STOPPED),
        ({"above_s": 4.1, "stopped": True}, Told.KEPT),
        ({"above_s": 2.0, "gaps": 1}, Told.MISSING),
        ({"above_s": 4.1, "gaps": 1}, Told.KEPT),
        ({"above_s": 0.0, "peak_n": None}, Told.MISSING),
    ],
)
def test_one_thing_is_said_of_each_rep(change: dict[str, object], told: Told) -> None:
    rep = replace(KEPT, **change)  # type: ignore[arg-type]
    line = rep_line(rep)
    assert line.told is told
    assert line.rep is rep


def test_what_is_missing_or_stopped_is_never_called_a_drop() -> None:
    assert rep_line(replace(DROPPED, gaps=1)).told is Told.MISSING
    assert rep_line(replace(DROPPED, stopped=True)).told is Told.STOPPED


# The set ------------------------------------------------------------------------


def test_a_lowering_set_is_an_ordinary_set_with_an_open_band() -> None:
    asked = lowering_prescription(TASK, floor_n=200.0, tempo_s=3.0, reps=2)
    assert asked.band.open_above
    assert (asked.band.lower_n, asked.hold_s) == (200.0, 3.0)
    assert asked.clock is ClockRule.RUNNING
    with pytest.raises(FieldError, match="lowering"):
        lowering_prescription(Task("A hold"), floor_n=200.0)


def test_above_the_ceiling_the_clock_runs_on_and_the_ceiling_warns() -> None:
    asked = lowering_prescription(TASK, floor_n=100.0, tempo_s=3.0, ceiling_n=300.0)
    script = Script.lines(
        (0, 0), (1, 200), (1.5, 200), (1.6, 350), (3, 350), (3.1, 200), (5, 200), (6, 0)
    )
    events = conduct(script, replace(asked, reps=1))
    (rep,) = reps(events)
    assert rep.outcome is Outcome.COMPLETE
    assert rep.hold_end_s == pytest.approx(0.5 + 3.0)
    assert rep.above_s == 0.0  # inside: the band is open
    assert sum(isinstance(event, CeilingCrossed) for event in events) == 1


def test_a_drop_is_short_by_the_ordinary_rules() -> None:
    asked = lowering_prescription(TASK, floor_n=200.0, reps=1)
    script = Script.lines((0, 0), (0.4, 390), (0.6, 30), (1.0, 0), (2, 0))
    (rep,) = reps(conduct(script, asked))
    assert rep.outcome is Outcome.SHORT


# Its partner ---------------------------------------------------------------------


def test_the_partner_is_kept_and_older_tasks_have_none() -> None:
    task = replace(TASK, pair="0190-hold")
    kept = task.to_json()
    assert Task.from_json(Fields(kept, "task")) == task
    del kept["pair"]
    assert Task.from_json(Fields(kept, "task")) == TASK
    asked = lowering_prescription(task, floor_n=80, band_on=BandOn.EACH_SIDE)
    again = Prescription.from_json(Fields(asked.to_json(), "prescription"))
    assert again.task.pair == "0190-hold"


# The tempo -------------------------------------------------------------------------


def test_the_guide_of_a_rep_to_come_leads_in_and_then_evenly_down() -> None:
    guide = tempo_guide(
        Stretch(2.0, 6.0, entry=True), floor_n=200.0, tempo_s=4.0, ramp_s=0.7
    )
    assert guide.way_in == ((1.3, 0.0), (2.0, 200.0))
    assert guide.floor == ((2.0, 200.0), (6.0, 200.0))
    assert guide.way_down == ((2.0, 0.0), (6.0, 1.0))
    assert [(beat.at_s, beat.number) for beat in guide.beats] == [
        (3.0, 1),
        (4.0, 2),
        (5.0, 3),
        (6.0, 4),
    ]


def test_the_guide_of_a_rep_under_way_goes_on_where_the_clock_is() -> None:
    guide = tempo_guide(
        Stretch(0.0, 1.5, entry=False), floor_n=200.0, tempo_s=4.0, ramp_s=0.7
    )
    assert guide.way_in == ()
    assert guide.way_down == ((0.0, 2.5 / 4), (1.5, 1.0))
    assert [(beat.at_s, beat.number) for beat in guide.beats] == [(0.5, 3), (1.5, 4)]


def test_a_stretch_without_an_end_is_a_whole_tempo() -> None:
    endless, whole = (
        tempo_guide(
            Stretch(0.8, end_s, entry=True), floor_n=200.0, tempo_s=4.0, ramp_s=0.7
        )
        for end_s in (math.inf, 4.8)
    )
    assert endless == whole


def test_a_tempo_of_part_seconds_ends_with_a_beat_of_its_own() -> None:
    guide = tempo_guide(
        Stretch(0.0, 2.5, entry=False), floor_n=1.0, tempo_s=2.5, ramp_s=0.5
    )
    assert [(beat.at_s, beat.number) for beat in guide.beats] == [
        (1.0, 1),
        (2.0, 2),
        (2.5, 3),
    ]


@given(
    tempo_s=st.floats(0.5, 8),
    gone=st.floats(0, 1),
)
def test_the_way_down_is_one_and_the_same_line_at_each_moment(
    tempo_s: float, gone: float
) -> None:
    left_s = tempo_s * (1 - gone)
    guide = tempo_guide(
        Stretch(0.0, left_s, entry=False), floor_n=1.0, tempo_s=tempo_s, ramp_s=0.5
    )
    (now_s, share), (end_s, whole) = guide.way_down
    assert (now_s, end_s, whole) == (0.0, left_s, 1.0)
    assert share == pytest.approx(gone, abs=1e-9)
    times = [beat.at_s for beat in guide.beats]
    assert times == sorted(times)
    assert all(0 <= at_s <= left_s for at_s in times)
    whole_left = [beat for beat in guide.beats if beat.at_s < left_s]
    for beat in whole_left:
        assert beat.number == pytest.approx(gone * tempo_s + beat.at_s, abs=1e-9)


def test_all_lowerings_to_come_have_a_guide() -> None:

    asked = lowering_prescription(TASK, floor_n=100.0, tempo_s=2.0, reps=3, rest_s=1.0)
    conductor = Conductor(asked, rig(ONE_CELL))
    assert guides(None, rest_s=1.0, span_s=9.0, ramp_s=0.7) == ()
    script = Script.lines((0, 0), (1, 200), (2, 200))
    for block in script.blocks():
        conductor.push(block)
    state = conductor.state
    assert cue(state, live=True) is Cue.STAY
    found = guides(state, rest_s=1.0, span_s=9.0, ramp_s=0.7)
    assert len(found) == len(ahead(state, rest_s=1.0, span_s=9.0)) == 3
    # The floor was passed at 0.5 s, so 1.5 s of 2 are over.
    assert found[0].way_down[0][1] == pytest.approx(0.75)
    assert found[1].way_down[0][1] == 0.0
    assert all(guide.floor[0][1] == 100.0 for guide in found)
