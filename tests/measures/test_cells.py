"""How the cells fared: rest before and after, load, stuck channels."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from training.drawn import Drawn, sets
from training.scripted import TWO_CELLS, Script, asked, conduct, rig

from biofeedback.measures.cells import Cells, cells
from biofeedback.measures.stillness import Stuck
from biofeedback.measures.trace import Trace
from biofeedback.training.events import RepEnded, TrainingEvent

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import RigProfile

PROFILE = replace(rig(TWO_CELLS), rate_hz=100.0)
EASY = asked(80, 120, 2.0)
# Rests at 0.5 and −0.2 N, holds 100 N, rests at 0.9 and −0.3 N.
REP = Script.lines(
    (0, 0.5, -0.2),
    (3, 0.5, -0.2),
    (4, 50, 50),
    (7, 50, 50),
    (7.2, 0.9, -0.3),
    (9, 0.9, -0.3),
)


def ended(events: list[TrainingEvent]) -> RepEnded:
    (end,) = (event for event in events if isinstance(event, RepEnded))
    return end


def fared(
    script: Script, profile: RigProfile = PROFILE, *stuck: Stuck, stop: bool = False
) -> Cells:
    end = ended(conduct(script, EASY, stop=stop))
    trace = Trace.of(script.blocks())
    return cells(end.rep, trace, profile, told_s=end.time_s, stuck=stuck)


def test_rest_before_and_after_and_what_lies_between() -> None:
    found = fared(REP)
    assert found.rest_before_n == pytest.approx((0.5, -0.2))
    assert found.rest_after_n == pytest.approx((0.9, -0.3))
    assert found.zero_drift_n == pytest.approx(0.4)
    assert found.rated_peak_pct == pytest.approx(2.5)  # 50 N of 2000 N
    assert found.near_rated == found.stuck == ()


def test_drift_has_the_sign_of_the_cell_that_walked_most() -> None:
    script = Script.lines(
        (0, 0, 0), (3, 0, 0), (4, 50, 50), (7, 50, 50), (7.2, 1, -2), (9, 1, -2)
    )
    assert fared(script).zero_drift_n == pytest.approx(-2.0)


def test_no_rest_no_number() -> None:
    at_once = Script.lines((0, 50, 50), (3, 50, 50), (3.2, 0, 0), (5, 0, 0))
    found = fared(at_once)
    assert found.rest_before_n is None
    assert found.zero_drift_n is None
    assert found.rest_after_n == pytest.approx((0, 0))


def test_a_limb_that_moves_is_no_rest() -> None:
    """A sway of ±6 N is far over 0.1 % of a cell of 2 kN, and no onset."""
    time_s = np.arange(900) / 100
    sway_n = 6 * np.sin(2 * np.pi * 1.5 * time_s)
    force_n = REP.force_n[:900].copy()
    force_n[:300, 0] = sway_n[:300]
    assert fared(Script.of(time_s, force_n)).rest_before_n is None


def test_the_quietest_half_second_is_taken() -> None:
    """Unrest from 1.2 s to 1.9 s; before and after it the cell is still."""
    force_n = REP.force_n.copy()
    force_n[120:190, 0] += np.tile([4.0, -4.0], 35)
    assert fared(Script.of(REP.time_s, force_n)).rest_before_n == pytest.approx(
        (0.5, -0.2)
    )


def test_a_gap_in_the_rest_is_not_bridged() -> None:
    """1.4 s to 2.6 s is lost: what is left on either side is no half second."""
    found = fared(REP.without(1.3, 2.6))
    assert found.rest_before_n is None
    assert found.rest_after_n is not None


def test_stopped_with_the_force_on_there_is_no_rest_after() -> None:
    script = Script.lines((0, 0, 0), (3, 0, 0), (4, 50, 50), (5, 50, 50))
    found = fared(script, stop=True)
    assert found.rest_before_n == pytest.approx((0, 0))
    assert found.rest_after_n is None


def test_a_cell_near_its_rated_load_is_named() -> None:
    left, right = PROFILE.channels
    small = replace(PROFILE, channels=(left, replace(right, rated_n=55.0)))
    found = fared(REP, small)
    assert found.near_rated == ("right",)
    assert found.rated_peak_pct == pytest.approx(100 * 50 / 55)
    assert fared(REP, replace(small, near_rated_pct=91.0)).near_rated == ()


def test_stuck_in_this_rep_and_not_in_another() -> None:
    during = Stuck(0, since_s=4.5, time_s=5.0)
    long_over = Stuck(1, since_s=0.0, time_s=0.5, until_s=1.0)
    later = Stuck(1, since_s=7.0, time_s=8.9)
    assert fared(REP, PROFILE, during, long_over, later).stuck == ("left",)


@given(drawn=sets(), data=st.data())
@settings(max_examples=40)
def test_cells_do_not_depend_on_the_cuts(drawn: Drawn, data: st.DataObject) -> None:
    cuts = data.draw(st.sets(st.integers(1, len(drawn.samples))))
    profile = replace(rig(drawn.sides), rate_hz=20.0)
    whole, cut = (Trace.of(drawn.script.blocks(each)) for each in ((), cuts))
    for event in conduct(drawn.script, drawn.prescription, sides=drawn.sides):
        if isinstance(event, RepEnded):
            one = cells(event.rep, whole, profile, told_s=event.time_s)
            assert cells(event.rep, cut, profile, told_s=event.time_s) == one
