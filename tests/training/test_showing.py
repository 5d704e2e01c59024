"""Which reps are shown, and when within them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from training.scripted import ONE_CELL, Script, asked, rig

from biofeedback.training.conductor import Conductor
from biofeedback.training.events import Phase
from biofeedback.training.prescription import FeedbackMode, Prescription
from biofeedback.training.showing import SEEN_SHARES, Showing, force_shown, showing
from biofeedback.wire.fields import Fields

ASKED = replace(asked(20, 40, 5.0), reps=8)


def seen(mode: FeedbackMode, *, faded_sessions: int = 0) -> str:
    """The first eight reps: o where the force is shown."""
    wanted = replace(ASKED, feedback=mode, faded_sessions=faded_sessions)
    return "".join(
        "o" if showing(wanted, number) is Showing.FULL else "."
        for number in range(1, 9)
    )


@pytest.mark.parametrize(
    ("mode", "faded", "wanted"),
    [
        (FeedbackMode.FULL, 0, "oooooooo"),
        (FeedbackMode.UNSEEN, 0, "........"),
        (FeedbackMode.ALTERNATE, 0, "o.o.o.o."),
        (FeedbackMode.FADING, 0, "oooooooo"),
        (FeedbackMode.FADING, 1, "ooo.ooo."),
        (FeedbackMode.FADING, 2, "o.o.o.o."),
        (FeedbackMode.FADING, 3, "o...o..."),
        (FeedbackMode.FADING, 99, "o...o..."),
    ],
)
def test_reps_that_are_shown(mode: FeedbackMode, faded: int, wanted: str) -> None:
    got = seen(mode, faded_sessions=faded)
    if mode is FeedbackMode.FADING and faded == 1:
        # Three of four; which of them is left out is not a matter of learning.
        assert (got.count("o"), got[0]) == (6, "o")
    else:
        assert got == wanted


def test_fading_shows_its_share_of_a_long_set() -> None:
    for session, share in enumerate(SEEN_SHARES):
        wanted = replace(ASKED, feedback=FeedbackMode.FADING, faded_sessions=session)
        shown = sum(showing(wanted, n) is Showing.FULL for n in range(1, 1001))
        assert shown == share * 1000


def shown_over(mode: FeedbackMode) -> list[tuple[Phase, float, bool]]:
    """0 N, then 10 N below the band, 30 N inside, 50 N above, and down again."""
    script = Script.of(
        [n / 10 for n in range(60)],
        [0.0] * 10 + [10.0] * 10 + [30.0] * 10 + [50.0] * 10 + [0.0] * 20,
    )
    wanted: Prescription = replace(ASKED, feedback=mode)
    conductor = Conductor(wanted, rig(ONE_CELL))
    found = []
    for block in script.blocks(range(60)):
        conductor.push(block)
        shown = force_shown(wanted, conductor.state)
        found.append((conductor.phase, float(block.force_n[-1, 0]), shown))
    return found


def test_outside_the_band_alone() -> None:
    for phase, force_n, shown in shown_over(FeedbackMode.OUTSIDE):
        assert shown is not (phase is Phase.REP and force_n == 30.0)


def test_an_unseen_rep_is_hidden_from_onset_to_release() -> None:
    for phase, _, shown in shown_over(FeedbackMode.UNSEEN):
        assert shown is (phase is not Phase.REP)


def test_a_recording_of_before_had_no_fading() -> None:
    kept = ASKED.to_json()
    del kept["faded_sessions"], kept["start"]
    assert Prescription.from_json(Fields(kept)) == ASKED
