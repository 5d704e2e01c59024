"""When the writer may expect its reader, and the reader what it waits for."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.conditioning.block import Block
from biofeedback.rig.handoff import LOOK_MAX_NS, OVERDUE_NS, Handoff, Health, Link
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


BLOCK = Block(
    first_index=0,
    lost=0,
    time_s=np.zeros(1),
    counts=np.zeros((1, 1), np.int32),
    force_n=np.zeros((1, 1)),
    shown_n=np.zeros((1, 1)),
    good=np.ones(1, np.bool_),
    saturated=np.zeros((1, 1), np.bool_),
)


class Crossing:
    """A handoff whose writer keeps a clock of its own, in milliseconds."""

    def __init__(self) -> None:
        self.now_ms = 1000
        self.told: list[int] = []
        self.handoff = Handoff(HEALTH, NO_BOARD, clock=lambda: self.now_ms * MS)

    def put(
        self, *, blocks: int = 1, due_ms: int | None = None, for_looks: bool = False
    ) -> None:
        self.handoff.put(
            blocks=[BLOCK] * blocks,
            events=[],
            state=None,
            health=HEALTH,
            profile=NO_BOARD,
            due_ns=None if due_ms is None else due_ms * MS,
            for_looks=for_looks,
        )

    def look_at(self, look_ms: int) -> bool:
        return self.handoff.look_at(look_ms * MS, lambda: self.told.append(self.now_ms))

    def await_blocks(self) -> bool:
        return self.handoff.await_blocks(
            lambda: self.told.append(self.now_ms), within_ns=4 * MS
        )


def test_a_reader_is_expected_when_it_says() -> None:
    crossing = Crossing()
    assert crossing.handoff.looked_at_ns < crossing.now_ms * MS  # has said nothing
    crossing.handoff.look_at(1010 * MS)
    assert crossing.handoff.looked_at_ns == 1010 * MS


def test_a_reader_that_comes_late_holds_nobody_up_for_longer_than_a_frame() -> None:
    crossing = Crossing()
    crossing.handoff.look_at(6000 * MS)
    assert crossing.handoff.looked_at_ns == 1000 * MS + LOOK_MAX_NS


def test_who_waits_is_told_once_by_the_blocks_that_were_due() -> None:
    crossing = Crossing()
    crossing.put(due_ms=1003)
    crossing.now_ms = 1002
    assert crossing.await_blocks()
    assert crossing.told == []  # not by what was there before
    crossing.put(blocks=0, due_ms=1003)
    assert crossing.told == []  # nor by a turn that brought none
    crossing.now_ms = 1003
    crossing.put(due_ms=1006)
    crossing.put(due_ms=1009)
    assert crossing.told == [1003]


@pytest.mark.parametrize("due_ms", [None, 1005, 1000 - OVERDUE_NS // MS - 1])
def test_nobody_waits_for_what_is_far_off_unknown_or_stays_away(
    due_ms: int | None,
) -> None:
    crossing = Crossing()
    crossing.put(due_ms=due_ms)
    assert not crossing.await_blocks()
    crossing.put(due_ms=due_ms)
    assert crossing.told == []


def test_who_gave_up_and_does_not_ask_again_is_not_told_of_what_comes_later() -> None:
    crossing = Crossing()
    crossing.put(due_ms=1003)
    crossing.now_ms = 1002
    assert crossing.await_blocks()
    crossing.now_ms = 1100  # it has drawn without, and nothing is due any more
    assert not crossing.await_blocks()
    crossing.put(due_ms=1103)
    assert crossing.told == []


def test_nobody_waits_who_has_blocks_that_have_only_just_come() -> None:
    crossing = Crossing()
    crossing.put(due_ms=1003)
    crossing.now_ms = 1001
    assert not crossing.await_blocks()
    crossing.put(due_ms=1004)
    assert crossing.told == []
    crossing.now_ms = 1003  # by now newer ones are due
    assert crossing.await_blocks()


def test_a_reader_that_waits_is_expected_now() -> None:
    crossing = Crossing()
    crossing.put(due_ms=1003)
    crossing.now_ms = 1002
    assert crossing.await_blocks()
    crossing.handoff.look_at(1018 * MS)
    assert crossing.handoff.looked_at_ns < crossing.now_ms * MS
    crossing.now_ms = 1003
    crossing.put(due_ms=1006)
    assert crossing.handoff.looked_at_ns == 1018 * MS


def test_a_reader_that_comes_late_draws_what_came_for_its_look() -> None:
    """Else whoever brings it could not rest: it would be asked for more at any time."""
    crossing = Crossing()
    crossing.handoff.look_at(1002 * MS)
    crossing.now_ms = 1001
    crossing.put(due_ms=1004)
    crossing.now_ms = 1005
    assert not crossing.await_blocks()
    crossing.handoff.look_at(1018 * MS)
    crossing.now_ms = 1018  # none has come for this one
    crossing.put(blocks=0, due_ms=1019)
    assert crossing.await_blocks()


def test_blocks_that_come_for_a_look_tell_it() -> None:
    crossing = Crossing()
    assert not crossing.look_at(1005)  # nobody brings any
    crossing.put(for_looks=True)
    crossing.handoff.take()
    assert crossing.look_at(1010)
    assert crossing.handoff.looked_at_ns == 1010 * MS  # and whoever brings them rests
    crossing.now_ms = 1008
    crossing.put(for_looks=True)
    assert crossing.told == []  # these are too early
    crossing.now_ms = 1009
    crossing.put(blocks=0, for_looks=True)
    assert crossing.told == []
    crossing.put(for_looks=True)
    crossing.put(for_looks=True)
    assert crossing.told == [1009]


def test_nobody_is_told_of_what_is_there_already() -> None:
    crossing = Crossing()
    crossing.put(for_looks=True)
    assert not crossing.look_at(1001)
    crossing.put(for_looks=True)
    assert crossing.told == []
