"""Moments of entries: UTC by this computer's clock, never back within a program.

Rules that hold here:

* The order of entries is the order of their moments, and then of their keys: which set
  is the newest, which decision holds, whether pain was told since the last set. A clock
  that is set back, by hand or by the network, must not change that in the middle of a
  visit. So time goes on from the latest moment by the monotonic clock, until the wall
  clock has caught up; keys do the same by themselves (RFC 9562, section 6.2).
* A clock that is set forward is believed at once: nothing loses its place by it.
* The next program believes its clock; `session/clock_words.py` tells where that lies
  behind the logbook.
* No hold, rest or age of a sample is measured by it: those are device time, or the
  monotonic clock.
"""

from __future__ import annotations

import threading
import time
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


class Moments:
    """Moments in their order; safe from any thread.

    Args:
        wall_ns: the clock that people set, nanoseconds since 1970.
        monotonic_ns: one that nobody sets.
    """

    def __init__(
        self,
        wall_ns: Callable[[], int] = time.time_ns,
        monotonic_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self._wall_ns, self._monotonic_ns = wall_ns, monotonic_ns
        self._lock = threading.Lock()
        # How far the wall clock was ahead of the other one, at most.
        self._ahead_ns = wall_ns() - monotonic_ns()

    def now(self) -> datetime:
        """This moment, in UTC, to the microsecond."""
        return _EPOCH + timedelta(microseconds=self._now_ns() // 1000)

    @property
    def set_back_s(self) -> float:
        """How far the wall clock now lies behind the moments; 0 where it does not."""
        return max(0, self._now_ns() - self._wall_ns()) / 1e9

    def _now_ns(self) -> int:
        with self._lock:
            monotonic_ns = self._monotonic_ns()
            ahead_ns = self._wall_ns() - monotonic_ns
            self._ahead_ns = max(self._ahead_ns, ahead_ns)
            return monotonic_ns + self._ahead_ns


MOMENTS = Moments()
"""Of this program: all that is entered anywhere shares one order."""


def now_utc() -> datetime:
    """This moment as entries are stamped with it."""
    return MOMENTS.now()
