"""Showing: how much of the live force the athlete sees, rep by rep.

Live feedback helps at once and can hinder learning: what is always shown is leaned on
(guidance; Park, Shea and Wright, J. Mot. Behav. 32 (2000) 287–296, found force
produced with all of it shown very poor once it was taken away, and kept when shown on
every second trial). So a mode may withhold it in some reps, or inside the band, and
show the result afterwards. Cue, timer and ceiling warning are never withheld.

Which reps are shown depends on the mode and the number of the rep alone, so a replay
knows it too.
"""

from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase
from biofeedback.training.events import Phase, Position
from biofeedback.training.prescription import FeedbackMode

if TYPE_CHECKING:
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

SEEN_SHARES = (1.0, 0.75, 0.5, 0.25)
"""Share of reps that are shown in the first session of fading, the second and so on;
from the last on it stays. Winstein and Schmidt (J. Exp. Psychol. LMC 16 (1990) 677)
faded from all to a quarter (from memory)."""


class Showing(Enum):
    """What is seen of the live force in one rep."""

    FULL = phrase("full")
    OUTSIDE = phrase("only outside the band")
    UNSEEN = phrase("unseen")


_WHOLE = {
    FeedbackMode.FULL: Showing.FULL,
    FeedbackMode.OUTSIDE: Showing.OUTSIDE,
    FeedbackMode.UNSEEN: Showing.UNSEEN,
}


def showing(asked: Prescription, number: int) -> Showing:
    """What is seen in a rep of a set.

    Args:
        number: of the rep, from 1. The first of a set is seen, but in an unseen set.
    """
    whole = _WHOLE.get(asked.feedback)
    if whole is not None:
        return whole
    share = 0.5
    if asked.feedback is FeedbackMode.FADING:
        share = SEEN_SHARES[min(asked.faded_sessions, len(SEEN_SHARES) - 1)]
    # Spread as evenly as whole reps can be.
    seen = math.ceil(number * share) > math.ceil((number - 1) * share)
    return Showing.FULL if seen else Showing.UNSEEN


def force_shown(asked: Prescription, state: SetState | None) -> bool:
    """Whether the athlete may see the force of this moment."""
    if state is None or state.phase not in {Phase.REP, Phase.RELEASE}:
        return True
    shown = showing(asked, state.rep_number)
    if shown is Showing.OUTSIDE:
        inside = state.position is Position.INSIDE and not state.over_ceiling
        return state.phase is Phase.RELEASE or not inside
    return shown is Showing.FULL
