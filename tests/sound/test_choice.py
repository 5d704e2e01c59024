"""What sounds, over sets that the rules have judged."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from training.scripted import ONE_CELL, Script, asked, rig

from biofeedback.sound.choice import Choice
from biofeedback.sound.tones import Once, Steady
from biofeedback.training.conductor import Conductor
from biofeedback.training.feedback import Cue, cue
from biofeedback.training.prescription import FeedbackMode, Prescription
from biofeedback.training.showing import force_shown

if TYPE_CHECKING:
    from collections.abc import Sequence

FRAME_S = 1 / 50
ASKED = replace(asked(20, 40, 4.0), reps=2, rest_s=5.0, ceiling_n=60.0)


def heard(
    points: Sequence[tuple[float, float]],
    wanted: Prescription = ASKED,
    *,
    stop_at_s: float | None = None,
) -> tuple[list[tuple[float, Steady | None]], list[tuple[float, Once]]]:
    """Changes of what is steady, and what sounded once, with their times."""
    script = Script.lines(*points)
    conductor, choice = Conductor(wanted, rig(ONE_CELL)), Choice()
    steady: list[tuple[float, Steady | None]] = []
    once: list[tuple[float, Once]] = []
    step = round(FRAME_S / (script.time_s[1] - script.time_s[0]))
    for block in script.blocks(range(0, len(script.time_s), step)):
        events = conductor.push(block)
        now_s = float(block.time_s[-1])
        if stop_at_s is not None and now_s >= stop_at_s and not conductor.done:
            events += conductor.stop()
        state = conductor.state
        given = cue(state, live=True, seen=force_shown(wanted, state))
        found = choice.push(given, state, events)
        if not steady or found.steady is not steady[-1][1]:
            steady.append((now_s, found.steady))
        once += [(now_s, sound) for sound in found.once]
    return steady, once


# Up through the band to 30 N within it, there for 6 s, down; again after a rest.
REP = ((0, 0), (1, 30), (7, 30), (7.5, 0))
TWO = (*REP, *((at + 15, force) for at, force in REP), (25, 0))


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
        *3 * [Once.TICK], Once.CHIME, *3 * [Once.TICK], Once.GO,
        *3 * [Once.TICK], Once.CHIME, Once.SET_DONE,
    ]  # fmt: skip
    times = [at for at, _ in once]
    assert times[1] - times[0] == pytest.approx(1.0, abs=2 * FRAME_S)
    chime_s = times[3]
    assert chime_s == pytest.approx(20 / 30 + 4.0, abs=2 * FRAME_S)
    rested_s = 7.5 - 0.5 * 2.5 / 30 + 5.0
    assert times[7] == pytest.approx(rested_s, abs=0.3)


def test_a_stopped_rep_has_a_sound_of_its_own_and_no_chime() -> None:
    _, once = heard(TWO, stop_at_s=1.5)
    assert [sound for _, sound in once] == [Once.STOPPED]


def test_an_unseen_rep_says_nothing_of_the_force() -> None:
    unseen = replace(ASKED, feedback=FeedbackMode.UNSEEN)
    points = ((0, 0), (1, 30), (2, 30), (2.1, 50), (3, 50), (3.1, 70), (4, 70), (5, 0))
    steady, _ = heard(points, unseen)
    assert {sound for _, sound in steady} == {None, Steady.CEILING}


@pytest.mark.parametrize("given", [Cue.NO_SIGNAL, Cue.STAY, Cue.BY_FEEL, Cue.REST])
def test_silence(given: Cue) -> None:
    assert Choice().push(given, None, ()).steady is None
