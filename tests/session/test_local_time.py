"""Days and midnights where the clocks are changed: spring, autumn, and half an hour.

The rules of the zones are those of the system's zone database; what is expected here
was worked out from the published dates of the changes.
"""

from __future__ import annotations

import time
from datetime import UTC, date, datetime, timedelta, timezone
from functools import partial
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

import pytest

from biofeedback.session.day_facts import midnight
from biofeedback.session.local_time import (
    LocalTime,
    day_and_time,
    day_of,
    here,
    midnight_of,
    zone_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

pytestmark = pytest.mark.skipif(
    not hasattr(time, "tzset"), reason="no zone can be set here"
)
CHANGES = {
    # zone: day of the change, its length in hours
    ("Europe/Madrid", date(2026, 3, 29)): 23,
    ("Europe/Madrid", date(2026, 10, 25)): 25,
    ("America/New_York", date(2026, 3, 8)): 23,
    ("America/New_York", date(2026, 11, 1)): 25,
    ("Australia/Lord_Howe", date(2026, 4, 5)): 24.5,
    ("Australia/Lord_Howe", date(2026, 10, 4)): 23.5,
}


@pytest.fixture(params=CHANGES, ids=lambda one: f"{one[0]} {one[1]}")
def change(
    request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[tuple[ZoneInfo, date]]:
    zone, day = request.param
    with monkeypatch.context() as there:
        there.setenv("TZ", zone)
        time.tzset()
        yield ZoneInfo(zone), day
    time.tzset()


Change = tuple[ZoneInfo, date]


def _same(now: datetime) -> datetime:
    return now


def test_the_day_of_the_change_is_as_long_as_it_was(change: Change) -> None:
    zone, day = change
    tomorrow = day + timedelta(days=1)
    for hour in (0, 12, 23):
        local = datetime(day.year, day.month, day.day, hour, tzinfo=zone)
        now = local.astimezone(UTC).astimezone()  # as `here` gives it: no rules in it
        assert isinstance(now.tzinfo, timezone)
        assert zone_of(now) is None
        begins, ends = midnight_of(day, now), midnight_of(tomorrow, now)
        assert begins == datetime(day.year, day.month, day.day, tzinfo=zone)
        length_h = (ends - begins) / timedelta(hours=1)
        assert length_h == CHANGES[zone.key, day]
        assert midnight(now) == begins
        assert day_of(begins, now) == day
        assert day_of(begins - timedelta(seconds=1), now) == day - timedelta(days=1)
        assert day_of(ends - timedelta(seconds=1), now) == day
        assert LocalTime(partial(_same, now)).period(day, day).since_utc == begins


def test_each_quarter_of_an_hour_is_told_apart_and_in_order(change: Change) -> None:
    """The hour that comes twice carries its zone or offset with it."""
    zone, day = change
    begins = midnight_of(day, here())
    told = [
        day_and_time(begins + timedelta(minutes=15 * step)) for step in range(6 * 4)
    ]
    assert len(set(told)) == len(told)
    expected = [
        (begins + timedelta(minutes=15 * step)).astimezone(zone) for step in range(24)
    ]
    assert [one[:16] for one in told] == [f"{one:%Y-%m-%d %H:%M}" for one in expected]


def test_another_place_keeps_its_own_rules() -> None:
    fixed = datetime(2026, 7, 1, 12, tzinfo=timezone(timedelta(hours=5, minutes=45)))
    assert zone_of(fixed) is fixed.tzinfo
    madrid = datetime(2026, 12, 1, 12, tzinfo=ZoneInfo("Europe/Madrid"))
    assert day_of(datetime(2026, 7, 31, 22, 30, tzinfo=UTC), madrid) == date(2026, 8, 1)
