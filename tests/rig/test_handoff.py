"""When the writer may expect its reader."""

from __future__ import annotations

from biofeedback.rig.handoff import PACE_MAX_NS, Handoff, Health, Link
from biofeedback.rig.nominal import NO_BOARD

MS = 1_000_000
HEALTH = Health(
    link=Link.OPENING,
    source="",
    found="",
    rate_hz=0.0,
    lost=0,
    damaged=0,
    arrived_ns=None,
    filter_delay_s=0.0,
    saturated=False,
    recording=False,
    message="",
)


def test_a_reader_is_expected_in_the_pace_of_its_last_two_visits() -> None:
    now = [1000 * MS]
    handoff = Handoff(HEALTH, NO_BOARD, clock=lambda: now[0])
    handoff.take()
    now[0] += 10 * MS
    handoff.take()
    assert handoff.looked_at_ns == 1020 * MS


def test_a_reader_that_stays_away_holds_nobody_up_for_longer_than_a_frame() -> None:
    now = [1000 * MS]
    handoff = Handoff(HEALTH, NO_BOARD, clock=lambda: now[0])
    assert handoff.looked_at_ns < now[0]  # none has come yet
    handoff.take()
    now[0] += 5000 * MS
    handoff.take()
    assert handoff.looked_at_ns == 6000 * MS + PACE_MAX_NS
