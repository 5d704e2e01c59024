"""What is told of a computer's clock that cannot be right, or was set back.

Nothing in a set depends on that clock. The order of entries, what is newest and what
day it is do, so whoever is at the desk is told.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING, FileError
from biofeedback.logbook.moments import MOMENTS, now_utc
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from datetime import datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.moments import Moments

TOLD_FROM_S = 30.0
"""The network corrects a clock by less, time and again."""
STATIONS_APART = timedelta(minutes=5)
"""Two computers on one logbook are seldom set alike."""


class SetBack:
    """Tells once of each time the clock is set back."""

    def __init__(self, moments: Moments = MOMENTS) -> None:
        self._moments = moments
        self._told_s = 0.0

    def news(self) -> Phrase:
        """Words where the clock was set back since the last time; else empty."""
        behind_s = self._moments.set_back_s
        more = behind_s - self._told_s >= TOLD_FROM_S
        self._told_s = behind_s if more else min(self._told_s, behind_s)
        if not more:
            return NOTHING
        return phrase(
            "The clock of this computer was set back by {amount}. Entries keep their "
            "order and go on by the time before. If that time was wrong, close the "
            "program after the set and open it again.",
            amount=_amount(behind_s),
        )


def behind_words(logbook: Logbook, *, now: datetime | None = None) -> Phrase:
    """Words where this computer's clock lies behind the newest visit in the logbook."""
    now = now or now_utc()
    try:
        # A visit has the time of its first set, a rep that of its own.
        moments = [row.started_utc for row in logbook.sessions(limit=1)]
        moments += [row.started_utc for row in logbook.reps(limit=1)]
    except FileError:
        return NOTHING  # whoever reads the logbook next is told of that
    newest = max(moments, default=now)
    if newest - now < STATIONS_APART:
        return NOTHING
    here = newest.astimezone()
    return phrase(
        "The newest visit in the logbook is of {day}, {time}: later than the clock of "
        "this computer. Set the clock right, or what is newest cannot be told.",
        day=here.date().isoformat(),
        time=here.strftime("%H:%M"),
    )


def _amount(behind_s: float) -> Phrase:
    if behind_s < 120:
        return phrase("{seconds:.0f} s", seconds=behind_s)
    if behind_s < 2 * 3600:
        return phrase("{minutes:.0f} min", minutes=behind_s / 60)
    if behind_s < 2 * 86400:
        return phrase("{hours:.0f} h", hours=behind_s / 3600)
    return phrase("{days:.0f} days", days=behind_s / 86400)
