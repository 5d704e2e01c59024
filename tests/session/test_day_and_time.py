"""Moments by the clock of a place."""

from __future__ import annotations

import time
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from biofeedback.session.local_time import day_and_time

MADRID = ZoneInfo("Europe/Madrid")


@pytest.mark.parametrize(
    ("moment", "told"),
    [
        ("2026-11-25T10:32:00", "2026-11-25 11:32 CET"),
        ("2026-11-25T10:32:00+00:00", "2026-11-25 11:32 CET"),
        ("2026-07-31T22:30:00Z", "2026-08-01 00:30 CEST"),  # another day, and summer
        (datetime(2026, 3, 29, 1, 0, tzinfo=UTC), "2026-03-29 03:00 CEST"),
        ("", ""),
        ("soon", ""),
    ],
)
def test_a_moment_is_told_as_the_clock_there_shows_it(
    moment: datetime | str, told: str
) -> None:
    assert day_and_time(moment, MADRID) == told


def test_to_the_second_where_that_is_wanted() -> None:
    told = day_and_time("2026-07-31T22:30:09Z", MADRID, seconds=True)
    assert told == "2026-08-01 00:30:09 CEST"


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="no zone can be set here")
def test_what_has_no_zone_is_in_utc_wherever_this_computer_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with monkeypatch.context() as elsewhere:
        elsewhere.setenv("TZ", "Asia/Tokyo")
        time.tzset()
        assert day_and_time("2026-11-25T20:32:00") == "2026-11-26 05:32 JST"
    time.tzset()
