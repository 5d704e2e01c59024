"""What time it is here, and on which day a moment of long ago was.

A day is told with the offset from UTC that held on that day, not with today's: a visit
late in the evening in summer is of that day, also when it is read in winter.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from biofeedback.logbook.history import Period

if TYPE_CHECKING:
    from collections.abc import Callable


def here() -> datetime:
    """Now, by the clock and the zone of this machine."""
    return datetime.now(tz=UTC).astimezone()


class LocalTime:
    """The time where the athlete is.

    Args:
        clock: the time with its zone. The zone of `here` is that of the machine, whose
            rules are asked for each moment anew; that of another clock is the one that
            its time carries.
    """

    def __init__(self, clock: Callable[[], datetime] = here) -> None:
        self._clock = clock

    @property
    def now(self) -> datetime:
        """The time, with its zone."""
        return self._clock()

    @property
    def today(self) -> date:
        """The day it is."""
        return self._clock().date()

    def day(self, at: datetime) -> date:
        """The day of a moment, by the offset of that day."""
        zone = None if self._clock is here else self._clock().tzinfo
        return at.astimezone(zone).date()

    def midnight(self, day: date) -> datetime:
        """When a day began, as UTC."""
        zone = None if self._clock is here else self._clock().tzinfo
        # Without a zone it is taken for a time of this machine, of that day.
        return datetime.combine(day, time(tzinfo=zone)).astimezone(UTC)

    def period(self, first: date, last: date) -> Period:
        """From the begin of one day to the end of another."""
        return Period(self.midnight(first), self.midnight(last + timedelta(days=1)))
