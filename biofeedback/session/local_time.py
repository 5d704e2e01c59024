"""What time it is here, on which day a moment of long ago was, and how one is told.

Files and the logbook keep UTC; nothing that people read does.

A day is told with the offset from UTC that held on that day, not with today's: a visit
late in the evening in summer is of that day, also when it is read in winter.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta, timezone
from typing import TYPE_CHECKING

from biofeedback.logbook.history import Period
from biofeedback.logbook.moments import now_utc

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import tzinfo


def here() -> datetime:
    """Now, by the clock and the zone of this machine."""
    return now_utc().astimezone()


def zone_of(now: datetime) -> tzinfo | None:
    """The zone by whose rules other days are told, where it is `now`.

    A time of this machine carries an offset and no rules: that of today, which was
    another one before the clocks were changed.

    Returns:
        None for that of this machine, as `datetime.astimezone` takes it.
    """
    zone = now.tzinfo
    by_offset = isinstance(zone, timezone) and zone is not UTC
    return (
        None if by_offset and now.astimezone().utcoffset() == now.utcoffset() else zone
    )


def day_of(moment: datetime, now: datetime) -> date:
    """On which day a moment was, where it is `now`."""
    return moment.astimezone(zone_of(now)).date()


def midnight_of(day: date, now: datetime) -> datetime:
    """When a day began, where it is `now`; in UTC."""
    # Without a zone it is taken for a time of this machine, of that day.
    return datetime.combine(day, time(), tzinfo=zone_of(now)).astimezone(UTC)


def day_and_time(
    moment: datetime | str, zone: tzinfo | None = None, *, seconds: bool = False
) -> str:
    """Day, time and zone, such as “2026-11-25 11:32 CET”.

    Args:
        moment: aware, or in ISO form; without a zone it is in UTC, as files have it.
        zone: another place than that of this computer.
        seconds: whether they are told too.

    Returns:
        Empty where the text is no moment.
    """
    if isinstance(moment, str):
        try:
            moment = datetime.fromisoformat(moment)
        except ValueError:
            return ""
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=UTC)
    clock = "%H:%M:%S" if seconds else "%H:%M"
    return moment.astimezone(zone).strftime(f"%Y-%m-%d {clock} %Z")


class LocalTime:
    """The time where the athlete is.

    Args:
        clock: the time with its zone.
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
        return day_of(at, self._clock())

    def midnight(self, day: date) -> datetime:
        """When a day began, as UTC."""
        return midnight_of(day, self._clock())

    def period(self, first: date, last: date) -> Period:
        """From the begin of one day to the end of another."""
        return Period(self.midnight(first), self.midnight(last + timedelta(days=1)))
