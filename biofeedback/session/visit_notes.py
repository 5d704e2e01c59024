"""What a visit tells the logbook, kept in order however busy the logbook is.

It is called from the frame, so it waits a moment at most and never fails: what cannot
be entered now is tried again, with the time at which it was told, and said meanwhile.
What happened in a set stands in its recording as well, whatever becomes of the notes.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError
from biofeedback.logbook.moments import now_utc
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from datetime import datetime

    from biofeedback.logbook.database import Logbook

BUSY_S = 0.05
"""How long a frame may wait for another program at the logbook: three frames."""
RETRY_S = 2.0
"""So that a busy logbook costs the picture three frames in a hundred at most."""


@dataclass(frozen=True, slots=True)
class _Told:
    kind: str
    content: Mapping[str, object]
    set_id: str
    at_utc: datetime


class VisitNotes:
    """Notes of one visit on their way to the logbook.

    Args:
        visit_id: gives the key of the visit, and enters it where it is not there yet.
        logbook: where they go; None keeps nothing.
        clock: the time, with its zone.

    Attributes:
        trouble: why the logbook did not take the last note; empty where it did.
    """

    def __init__(
        self,
        visit_id: Callable[[], str],
        logbook: Logbook | None,
        *,
        clock: Callable[[], datetime] = now_utc,
    ) -> None:
        self.trouble = ""
        self._visit_id = visit_id
        self._logbook = logbook
        self._hurried = None if logbook is None else logbook.hurried(BUSY_S)
        self._clock = clock
        self._entered = ""  # key of the visit, once it is in the logbook
        self._waiting: deque[_Told] = deque()
        self._again_at_s = 0.0

    @property
    def waiting(self) -> int:
        """How many are not in the logbook yet."""
        return len(self._waiting)

    @property
    def words(self) -> str:
        """What is to be said; empty where all is kept."""
        if not self.trouble:
            return ""
        count = (
            phrase("1 note is")
            if self.waiting == 1
            else phrase("{waiting} notes are", waiting=self.waiting)
        )
        return phrase(
            "{count} not in the logbook yet, and tried again: {trouble}",
            count=count,
            trouble=self.trouble,
        )

    def tell(self, kind: str, content: Mapping[str, object], *, set_id: str) -> None:
        """Takes a note in; `flush` brings it to the logbook.

        Args:
            set_id: of the set it belongs to, or empty. It goes into the content too:
                a set may come into the logbook after its first notes.
        """
        if self._logbook is not None:
            content = {**content, "set_id": set_id}
            self._waiting.append(_Told(kind, content, set_id, self._clock()))

    def flush(self, now_s: float, *, last: bool = False) -> None:
        """Brings what waits to the logbook, as far as that takes it.

        Args:
            now_s: of a clock that never goes back.
            last: there is no next try, and no picture waits: it is made now, and takes
                its time where the logbook is busy, as with the end of the set.
        """
        if not self._waiting or (now_s < self._again_at_s and not last):
            return
        try:
            while self._waiting:
                self._enter(self._waiting[0], self._logbook if last else self._hurried)
                self._waiting.popleft()
        except BiofeedbackError as error:
            self.trouble, self._again_at_s = error.words, now_s + RETRY_S
        else:
            self.trouble, self._again_at_s = "", 0.0

    def _enter(self, told: _Told, logbook: Logbook | None) -> None:
        if logbook is None:
            return
        if not self._entered:
            self._entered = self._visit_id()
        logbook.session_notes.add(
            self._entered,
            told.kind,
            told.content,
            set_id=told.set_id or None,
            at_utc=told.at_utc,
        )
