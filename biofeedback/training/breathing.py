"""Breathing: which holds are long or hard enough for a reminder, and when it is shown.

Breath that is held in an effort raises blood pressure. In isometric quadriceps work,
being taught not to hold it brought 163/120 down to 148/112 mmHg (Phys. Ther. 69 (1989)
757). At 40 % for 30 s in a grip, holding it raised pressure above that of the effort
alone (a study of 2021, its values not used here). That is why there is a reminder; from
which hold on, and how often, no source says: those numbers are ours.

A maximal trial has none: it lasts a few seconds, and the page of the test says it
before.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.training.events import Phase
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

LONG_HOLD_S = 15.0
"""Two or three breaths at rest: whoever has not breathed by then is holding it."""
HARD_PCT = 40.0
"""Of the reference; the level of the study of 2021."""
HARD_HOLD_S = 6.0
"""A hard hold shorter than this is over before a reminder could be read and used."""
FIRST_AFTER_S = 3.0
"""The way into the band needs the eyes first."""
EVERY_S = 10.0
SHOWN_S = 4.0
"""Long enough to be read by the way, short enough not to become part of the picture."""


def wants_breathing_cue(asked: Prescription) -> bool:
    """Whether the hold is long, or hard and not short."""
    if asked.task.kind is TaskKind.MAXIMAL:
        return False
    if asked.hold_s >= LONG_HOLD_S:
        return True
    reference = asked.reference
    if reference is None or asked.hold_s < HARD_HOLD_S:
        return False
    return 100 * asked.band.centre_n / reference.force_n >= HARD_PCT


def breathing_cue(state: SetState | None, asked: Prescription) -> bool:
    """Whether the reminder is shown now: some seconds each time, within a rep only.

    Args:
        state: of the set under way, or None.
    """
    if state is None or state.phase is not Phase.REP or state.rep_start_s is None:
        return False
    if not wants_breathing_cue(asked):
        return False
    since_s = state.time_s - state.rep_start_s - FIRST_AFTER_S
    return since_s >= 0 and since_s % EVERY_S < SHOWN_S
