"""Time surely inside: the rules' own time where nothing is in doubt, else less."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from training.drawn import Drawn, sets
from training.scripted import ONE_CELL, TWO_CELLS, Script, asked, conduct, reps, rig

from biofeedback.measures.rep import measure
from biofeedback.measures.sure_time import surely_inside_s
from biofeedback.measures.trace import Trace
from biofeedback.training.band import Band
from biofeedback.training.conductor import Conductor
from biofeedback.training.prescription import BandOn, ClockRule, Prescription


def sure_s(script: Script, prescription: Prescription, u_n: float) -> float:
    sides = ONE_CELL if script.force_n.shape[1] == 1 else TWO_CELLS
    (rep,) = reps(conduct(script, prescription))
    judged = Conductor(prescription, rig(sides)).judged
    trace = Trace.of(script.blocks())
    return surely_inside_s(rep, trace, judged, prescription, u_n=u_n)


def test_a_slow_climb_through_the_band_of_the_worked_table() -> None:
    """190 to 210 N and u = 1.5 N leave 193 to 207 N: 14 N of 20 N, at 10 N/s."""
    climb = Script.lines((0, 180), (4, 220), (9, 220))
    wanted = replace(asked(190, 210, 3.0), clock=ClockRule.BANKED)
    assert sure_s(climb, wanted, 0.0) == pytest.approx(2.0)
    assert sure_s(climb, wanted, 1.5) == pytest.approx(1.4)
    assert sure_s(climb, wanted, 5.0) == 0.0  # nothing is left of the band


@pytest.mark.parametrize(
    ("force_n", "sure"), [(191, 0.0), (193, 2.0), (200, 2.0), (207, 2.0), (209, 0.0)]
)
def test_decisions_of_the_worked_table(force_n: float, sure: float) -> None:
    """JCGM 106:2012, guarded acceptance; edges inclusive. All are simply inside."""
    held = Script.lines((0, force_n), (5, force_n))
    assert sure_s(held, asked(190, 210, 2.0), 1.5) == pytest.approx(sure)


def test_both_sides_must_be_surely_inside_at_once() -> None:
    # Left leaves its guarded band (44 to 56 N) at 1 s, right enters it at 0.5 s.
    script = Script.lines(
        (0, 50, 42), (0.5, 53, 44), (1, 56, 46), (2, 58, 50), (3, 58, 50)
    )
    wanted = replace(asked(40, 60, 2.0), band_on=BandOn.EACH_SIDE)
    assert sure_s(script, wanted, 2.0) == pytest.approx(0.5)


def test_an_open_band_is_guarded_below_only() -> None:
    script = Script.lines((0, 100), (2, 120), (4, 1000))
    assert sure_s(script, replace(asked(1, 2, 3.0), band=Band.at_least(80)), 15) == (
        pytest.approx(2.0)
    )


@given(drawn=sets())
@settings(max_examples=150)
def test_without_doubt_it_is_the_time_inside_of_the_rules(drawn: Drawn) -> None:
    judged = Conductor(drawn.prescription, rig(drawn.sides)).judged
    trace = Trace.of(drawn.script.blocks())
    for rep in reps(conduct(drawn.script, drawn.prescription, sides=drawn.sides)):
        found_s = surely_inside_s(rep, trace, judged, drawn.prescription, u_n=0.0)
        assert found_s == pytest.approx(rep.inside_s, abs=1e-6)


@given(drawn=sets(), u_n=st.floats(0.01, 20))
@settings(max_examples=60)
def test_doubt_only_ever_takes_away(drawn: Drawn, u_n: float) -> None:
    judged = Conductor(drawn.prescription, rig(drawn.sides)).judged
    trace = Trace.of(drawn.script.blocks())
    for rep in reps(conduct(drawn.script, drawn.prescription, sides=drawn.sides)):
        found = [
            surely_inside_s(rep, trace, judged, drawn.prescription, u_n=each)
            for each in (u_n, 2 * u_n)
        ]
        assert rep.inside_s + 1e-6 >= found[0] >= found[1] >= 0


def test_it_stands_beside_the_time_inside_where_the_uncertainty_is_known() -> None:
    script = Script.lines((0, 0), (1, 200), (5, 200))
    wanted = asked(190, 210, 2.0)
    (rep,) = reps(conduct(script, wanted))
    judged = Conductor(wanted, rig(ONE_CELL)).judged
    trace = Trace.of(script.blocks())
    known = measure(rep, trace, judged, wanted, uncertainty_n=1.5).to_json()
    # 190 to 193 N at 200 N/s is 15 ms.
    assert known["inside_s"] == pytest.approx(2.0)
    assert known["surely_inside_s"] == pytest.approx(2.0 - 0.015)
    assert measure(rep, trace, judged, wanted).to_json()["surely_inside_s"] is None
