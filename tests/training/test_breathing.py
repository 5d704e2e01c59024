"""The breathing reminder: for long or hard holds, some seconds each time."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from biofeedback.training.band import Band
from biofeedback.training.breathing import (
    EVERY_S,
    FIRST_AFTER_S,
    SHOWN_S,
    breathing_cue,
    wants_breathing_cue,
)
from biofeedback.training.events import Phase, Position, SetState
from biofeedback.training.prescription import Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Task, TaskKind

REFERENCE = Reference(200.0, Origin.TYPED, Definition.STATED, "2026-01-12")


def asked(
    pct: float, hold_s: float, *, kind: TaskKind = TaskKind.HOLD, known: bool = True
) -> Prescription:
    return Prescription(
        Task("Invented hold", kind),
        Band.from_percent_of_centre(pct, 10, reference_n=200.0),
        hold_s,
        reference=REFERENCE if known else None,
    )


@pytest.mark.parametrize(
    ("what", "wanted"),
    [
        (asked(10, 14.9), False),
        (asked(10, 15), True),  # long, however light
        (asked(39, 10), False),
        (asked(40, 10), True),  # hard
        (asked(40, 6), True),
        (asked(90, 5.9), False),  # hard and short
        (asked(90, 10, known=False), False),  # how hard it is, is not known
        (asked(10, 60, known=False), True),
        (asked(90, 60, kind=TaskKind.MAXIMAL), False),
        (asked(60, 6, kind=TaskKind.LOWERING), True),
    ],
)
def test_long_or_hard_holds_want_it(what: Prescription, wanted: bool) -> None:
    assert wants_breathing_cue(what) is wanted


def test_an_open_band_is_as_hard_as_its_lower_edge() -> None:
    floor = replace(asked(50, 8), band=Band.at_least(81.0))
    assert wants_breathing_cue(floor)
    assert not wants_breathing_cue(replace(floor, band=Band.at_least(79.0)))


def state(time_s: float, phase: Phase = Phase.REP) -> SetState:
    return SetState(
        time_s=time_s,
        phase=phase,
        position=Position.INSIDE,
        clock_s=0.0,
        running=True,
        hold_s=45.0,
        rep_start_s=20.0 if phase in {Phase.REP, Phase.RELEASE} else None,
        lapse_clock_s=(),
        rep_number=1,
        reps=1,
        outcomes=(),
        rest_left_s=0.0,
        over_ceiling=False,
        band=Band(0, 1),
    )


def test_it_comes_and_goes_through_the_hold() -> None:
    hold = asked(70, 45)
    times_s = np.arange(0.0, 45.0, 0.1)
    shown = np.array([breathing_cue(state(20.0 + t), hold) for t in times_s])
    assert not shown[times_s < FIRST_AFTER_S - 0.05].any()
    begins = times_s[1:][shown[1:] & ~shown[:-1]]
    assert begins == pytest.approx([3, 13, 23, 33, 43], abs=0.11)
    # Of a whole turn it is there for its own share only.
    turn = shown[(times_s >= 13) & (times_s < 13 + EVERY_S)]
    assert turn.mean() == pytest.approx(SHOWN_S / EVERY_S, abs=0.02)


@pytest.mark.parametrize(
    "phase", [Phase.WAITING, Phase.REST, Phase.RELEASE, Phase.DONE, Phase.HELD_BACK]
)
def test_nothing_is_said_outside_of_a_rep(phase: Phase) -> None:
    assert not breathing_cue(state(24.0, phase), asked(70, 45))
    assert not breathing_cue(None, asked(70, 45))
