"""Moments of entries: in order, whatever is done to the clock of the computer."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.logbook.moments import Moments, now_utc

START = datetime(2026, 5, 1, 12, tzinfo=UTC)
START_NS = round(START.timestamp()) * 10**9
HOUR_S = 3600.0


class Clocks:
    """A wall clock that can be set, and one that cannot."""

    def __init__(self) -> None:
        self.wall_ns, self.monotonic_ns = START_NS, 5 * 10**9
        self.moments = Moments(lambda: self.wall_ns, lambda: self.monotonic_ns)

    def pass_s(self, seconds: float) -> None:
        self.wall_ns += round(seconds * 1e9)
        self.monotonic_ns += round(seconds * 1e9)

    def set_by(self, seconds: float) -> None:
        self.wall_ns += round(seconds * 1e9)

    @property
    def told_s(self) -> float:
        return (self.moments.now() - START).total_seconds()


def test_a_clock_set_back_keeps_the_order_until_it_has_caught_up() -> None:
    clocks = Clocks()
    clocks.pass_s(10)
    assert clocks.told_s == 10
    clocks.set_by(-HOUR_S)
    assert clocks.told_s == 10
    assert clocks.moments.set_back_s == HOUR_S
    clocks.pass_s(30)
    assert clocks.told_s == 40  # a rest between two sets is as long as it was
    clocks.set_by(HOUR_S)
    assert clocks.told_s == 40
    assert clocks.moments.set_back_s == 0


@pytest.mark.parametrize("forward_s", [HOUR_S, 365 * 86400.0])
def test_a_clock_set_forward_or_a_sleep_is_believed(forward_s: float) -> None:
    clocks = Clocks()
    clocks.set_by(forward_s)
    assert clocks.told_s == forward_s
    assert clocks.moments.set_back_s == 0
    clocks.set_by(-forward_s)  # it was a slip
    assert clocks.told_s == forward_s
    assert clocks.moments.set_back_s == forward_s


@given(
    st.lists(
        st.tuples(
            st.floats(0, 1e5, allow_nan=False), st.floats(-4e7, 4e7, allow_nan=False)
        )
    )
)
def test_no_moment_is_before_an_earlier_one_nor_before_the_clock(
    steps: list[tuple[float, float]],
) -> None:
    clocks = Clocks()
    last = clocks.moments.now()
    for passed_s, set_s in steps:
        clocks.pass_s(passed_s)
        clocks.set_by(set_s)
        moment = clocks.moments.now()
        assert moment - last >= timedelta(seconds=passed_s - 1e-5)
        assert (moment - START).total_seconds() >= (
            clocks.wall_ns - START_NS
        ) / 1e9 - 1e-6
        last = moment


def test_where_nobody_sets_the_clock_it_is_the_clock() -> None:
    assert abs(now_utc() - datetime.now(tz=UTC)) < timedelta(seconds=1)
