"""Pain that was told since the last set began: it speaks against the next start.

Whoever marks pain tells it here, at the desk, in an order or in a maximal test; whoever
begins a set asks here. A set that begins leaves behind what was told before it; a
maximal test does not, for nothing is said before one. What was told is found again in
the logbook, after a crash or when an athlete comes back.
"""

from __future__ import annotations

import logging
from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError
from biofeedback.logbook.history import Period
from biofeedback.phrase import phrase
from biofeedback.session.day_facts import midnight
from biofeedback.training.day import PainRule
from biofeedback.training.reference import PAIN_MOST
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from datetime import datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.rows import SessionRow, SetRow

WENT_ON = "went_on"
"""In the head of a recording: what was said before the start, and passed over."""

_log = logging.getLogger(__name__)


class PainTold:
    """The pain marks of whoever is here, since the last set began.

    Args:
        rule: the agreed cuts; the usual ones where they cannot be read.

    Attributes:
        count: how often pain was told or taken back; another one asks again.
    """

    def __init__(self, rule: Callable[[], PainRule] = PainRule) -> None:
        self.count = 0
        self._agreed = rule
        self._levels: list[int] = []
        self._at_start: int | None = None  # how many were told when a start was asked

    @property
    def rule(self) -> PainRule:
        """The agreed cuts."""
        try:
            return self._agreed()
        except BiofeedbackError as error:
            _log.warning("the agreed pain rule cannot be read: %s", error)
            return PainRule()

    def tell(self, level: int) -> None:
        """Pain from 0 to 10."""
        self._levels.append(level)
        self.count += 1

    def take_back(self, level: int) -> None:
        """A level that was told was another one, or none."""
        if level in self._levels:
            if (
                self._at_start is not None
                and self._levels.index(level) < self._at_start
            ):
                self._at_start -= 1
            self._levels.remove(level)
            self.count += 1

    def ask_start(self) -> None:
        """A set is asked to begin: what was told so far was said before it."""
        self._at_start = len(self._levels)

    def begin(self) -> None:
        """A set has begun; what was told since it was asked for is of that set."""
        told = len(self._levels) if self._at_start is None else self._at_start
        del self._levels[:told]
        self._at_start = None

    def forget(self) -> None:
        """Somebody else is here."""
        self._levels.clear()
        self._at_start = None

    def recall(
        self,
        logbook: Logbook,
        athlete_code: str,
        now: datetime,
        *,
        whole_day: bool = False,
    ) -> datetime:
        """What was told today since the athlete's last set began.

        Args:
            now: the time here, with its zone.
            whole_day: also what was told before sets that were begun all the same;
                work that is planned anew is to hear of it.

        Returns:
            Since when it counts; tests that were not kept are asked for elsewhere.

        Raises:
            FileError: the logbook cannot be read.
        """
        self.forget()
        since = midnight(now)
        for row in () if whole_day else _visits(logbook, athlete_code, now):
            begun = [
                one.started_utc for one in logbook.sets(row.id) if not is_test(one)
            ]
            since = max([since, *begun])
        for _, level in told_since(logbook, athlete_code, since, now):
            self.tell(level)
        return since

    def above_cut(self, level: int) -> str:
        """Advice for a level above the agreed cut; empty for another."""
        cut = self.rule.high
        if level <= cut:
            return ""
        return phrase(
            "Pain {level} of {most} is above the agreed cut of {cut}: better stop, and "
            "ask the treating clinician before going on. You decide.",
            level=level,
            most=PAIN_MOST,
            cut=cut,
        )

    def against(self, earlier: Iterable[int] = ()) -> tuple[str, ...]:
        """What is to be said before the next set begins; empty where nothing is.

        Args:
            earlier: levels told before the last set, where they are to speak too.
        """
        advice = self.above_cut(max((*self._levels, *earlier), default=0))
        return (advice,) if advice else ()


def told_since(
    logbook: Logbook, athlete_code: str, since: datetime, now: datetime
) -> tuple[tuple[datetime, int], ...]:
    """When pain was told today since then, and how much; the oldest first.

    Args:
        now: the time here, with its zone.

    Raises:
        FileError: the logbook cannot be read.
    """
    told = [
        (mark.note.at_utc, mark.level)
        for row in _visits(logbook, athlete_code, now)
        for mark in logbook.session_notes.pain(row.id)
        if mark.note.at_utc >= since and not mark.taken_back
    ]
    # Pain of a maximal test stands in its result, and is no note.
    athlete = logbook.athlete_by_code(athlete_code)
    if athlete is not None:
        period = Period(since, now + timedelta(seconds=1))
        told += [
            (test.tested_utc, test.pain)
            for test in logbook.history.tests(athlete.id, period)
            if test.pain is not None
        ]
    return tuple(sorted(told))


def _visits(logbook: Logbook, athlete_code: str, now: datetime) -> Iterator[SessionRow]:
    """Those of today; one that began before midnight may still be of today."""
    for row in logbook.sessions(athlete_code=athlete_code):
        if row.started_utc < midnight(now) - timedelta(1):
            break
        yield row


def is_test(row: SetRow) -> bool:
    """Whether a set is a maximal test."""
    task = row.prescription.get("task")
    return isinstance(task, dict) and task.get("kind") == TaskKind.MAXIMAL.value
