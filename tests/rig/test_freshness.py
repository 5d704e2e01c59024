"""What comes in time and is not the force of this moment is never live."""

from __future__ import annotations

import os
import time
from dataclasses import replace

import numpy as np
import pytest
from rig.faulty_board import FaultyBoard, Goes
from rig.test_serve import Serving

from biofeedback.conditioning.block import Block
from biofeedback.rig.freshness import (
    BEHIND_S,
    ROUNDING_LOADED_S,
    ROUNDING_S,
    STANDS_S,
    Delay,
    StandingCounts,
)
from biofeedback.rig.handoff import Link
from biofeedback.rig.health_words import stale_words
from biofeedback.rig.nominal import NO_BOARD
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import TerminalLine
from biofeedback.rig.worker import Worker
from biofeedback.wire.frames import Samples

RATE_HZ = 80.0
NS = 1_000_000_000


def pushed(
    kept: StandingCounts, counts: np.ndarray, *, first: int, cut: int, force_n: float
) -> float | None:
    """Pushes counts in pieces; at which time a channel stood first."""
    stood_s = None
    for start in range(0, len(counts), cut):
        piece = counts[start : start + cut]
        index = first + start + np.arange(len(piece))
        force = np.full(piece.shape, force_n)
        none = np.zeros(piece.shape, np.bool_)
        block = Block(
            *(int(index[0]), 0, index / RATE_HZ, piece.astype(np.int32)),
            *(force, force, ~none[:, 0], none),
        )
        kept.push(block)
        if kept.standing and stood_s is None:
            stood_s = float(block.time_s[-1])
    return stood_s


def noise(seconds: float, sigma: float, *, seed: int = 1) -> np.ndarray:
    random = np.random.default_rng(seed)
    return np.rint(random.normal(500, sigma, (round(seconds * RATE_HZ), 2)))


@pytest.mark.parametrize("cut", [1, 3, 8])
@pytest.mark.parametrize("sigma", [1.0, 5.0, 40.0])
def test_a_frozen_converter_stands_within_half_a_second(sigma: float, cut: int) -> None:
    kept = StandingCounts()
    good = noise(600, sigma)
    assert pushed(kept, good, first=0, cut=cut, force_n=60.0) is None
    frozen = np.repeat(good[-1:], 80, axis=0)
    stood_s = pushed(kept, frozen, first=len(good), cut=cut, force_n=60.0)
    assert stood_s is not None
    assert stood_s - len(good) / RATE_HZ <= STANDS_S + cut / RATE_HZ
    # The first other number is a sign of life.
    pushed(kept, noise(1, sigma), first=len(good) + 80, cut=cut, force_n=60.0)
    assert kept.standing == ()


def test_frozen_from_the_first_sample_on_it_never_was_live_for_long() -> None:
    kept = StandingCounts()
    stood_s = pushed(kept, np.full((80, 2), 7.0), first=0, cut=8, force_n=0.0)
    assert stood_s is not None
    assert stood_s <= STANDS_S + 8 / RATE_HZ


def test_one_frozen_cell_of_two_is_enough() -> None:
    kept = StandingCounts()
    counts = noise(2, 40.0)
    counts[80:, 1] = counts[80, 1]
    pushed(kept, counts, first=0, cut=8, force_n=60.0)
    assert kept.standing == (1,)


@pytest.mark.parametrize(("force_n", "limit_s"), [(60, 5.0), (0, 30.0)])
def test_a_board_that_rounds_is_given_more_time(force_n: float, limit_s: float) -> None:
    assert limit_s in {ROUNDING_LOADED_S, ROUNDING_S}
    kept = StandingCounts()
    # Touched once after a second of rest: it moves, and stands again.
    rest = np.zeros((80, 2))
    touched = noise(1, 30.0)
    pushed(kept, np.concatenate((rest, touched)), first=0, cut=8, force_n=0.0)
    still = np.zeros((80 * 40, 2))
    stood_s = pushed(kept, still, first=160, cut=8, force_n=force_n)
    assert stood_s is not None
    assert stood_s - 2.0 == pytest.approx(limit_s, abs=0.2)


def test_a_cell_at_its_stop_is_no_frozen_one() -> None:
    kept = StandingCounts()
    counts = np.full((80, 2), 2**23 - 1)
    index = np.arange(80)
    force = np.zeros((80, 2))
    stop = np.ones((80, 2), np.bool_)
    kept.push(
        Block(0, 0, index / RATE_HZ, counts.astype(np.int32), force, force,
              ~stop[:, 0], stop)
    )  # fmt: skip
    kept.push(
        Block(80, 0, 1 + index / RATE_HZ, counts.astype(np.int32), force, force,
              ~stop[:, 0], stop)
    )  # fmt: skip
    assert kept.standing == ()


# ------------------------------------------------------------------- the clock


def sample(time_s: float, *, stream: int = 0) -> Samples:
    nothing = np.zeros((1, 1), np.bool_)
    counts = np.zeros((1, 1), np.int32)
    time_us = round(time_s * 1e6) % 2**32
    return Samples(0, stream, time_us, 0, counts, nothing, nothing[:, 0])


def heard(delay: Delay, until_s: float, board_s: float, *, rate: float = 1.0) -> None:
    """A frame each 100 ms from the time that is heard next on."""
    for tenth in range(1, round(until_s * 10) + 1):
        now_s = tenth / 10
        delay.hear(sample(board_s + rate * now_s), now_ns=round(now_s * NS))


@pytest.mark.parametrize("rate", [0.92, 1.0, 1.08])
def test_a_clock_that_is_off_or_turns_over_is_no_delay(rate: float) -> None:
    delay = Delay()
    heard(delay, 3600, 2**32 / 1e6 - 30, rate=rate)
    assert not delay.old


def test_time_that_stands_or_a_frame_that_comes_again_is_old_in_six_tenths() -> None:
    delay = Delay()
    heard(delay, 10, 0)
    for ms in range(0, 2001, 50):
        delay.hear(sample(10.0), now_ns=10 * NS + ms * 1_000_000)
        if ms <= 1000 * BEHIND_S:
            assert not delay.old
        if ms >= 600:
            assert delay.old


def test_what_is_late_stays_old_until_it_is_new_again() -> None:
    delay = Delay()
    heard(delay, 10, 0)
    for tenth in range(101, 6000):  # ten minutes, a second late
        delay.hear(sample(tenth / 10 - 1.0), now_ns=tenth * NS // 10)
        assert delay.old
    delay.hear(sample(600.05), now_ns=round(600.1 * NS))
    assert not delay.old


def test_a_second_of_frames_played_over_again_is_old() -> None:
    delay = Delay()
    for tenth in range(1, 40):
        delay.hear(sample((tenth % 10) / 10), now_ns=tenth * NS // 10)
    assert delay.old


def test_a_backlog_that_is_caught_up_is_new() -> None:
    delay = Delay()
    heard(delay, 10, 0)
    now_ns = 13 * NS  # three seconds nobody read; then all at once
    delay.hear(sample(10.1), now_ns=now_ns)
    assert delay.old
    for tenth in range(102, 131):
        delay.hear(sample(tenth / 10), now_ns=now_ns)
    assert not delay.old


@pytest.mark.parametrize("asleep", [False, True], ids=["stopped", "asleep"])
@pytest.mark.parametrize("minutes", [1, 30, 40, 76, 200])
@pytest.mark.parametrize("turns_after_s", [5.0, 60.0])
def test_after_a_long_stop_what_comes_is_new(
    minutes: float, turns_after_s: float, *, asleep: bool
) -> None:
    """The monotonic clock goes on while a program is stopped, and not in a sleep."""
    delay = Delay()
    board_s = 2**32 / 1e6 - turns_after_s

    def hear(number: int, now_s: float) -> None:
        one = sample(board_s + number / RATE_HZ)
        delay.hear(replace(one, sequence=number), now_ns=round(now_s * NS))

    for number in range(800):
        hear(number, number / RATE_HZ)
    away_s = 0.0 if asleep else minutes * 60
    for number in range(800, 1000):  # what the port had kept
        hear(number, 10.0 + away_s)
    assert delay.old is (not asleep)
    for number in range(
        800 + round(minutes * 60 * RATE_HZ), 820 + round(minutes * 4800)
    ):
        hear(number, 10.0 + away_s)
        assert not delay.old


# ------------------------------------------------------------- on a real terminal


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
@pytest.mark.parametrize("goes", [one for one in Goes if one is not Goes.LATE])
def test_each_fault_of_a_stream_is_stale_in_a_second(goes: Goes) -> None:
    line = TerminalLine()
    with Serving(FaultyBoard(goes, at_s=3.0), line) as server:
        worker = Worker(SerialSource(line.name))
        worker.start()
        begun_s = time.monotonic()
        live_s = stale_s = None
        words = ""
        while stale_s is None and time.monotonic() - begun_s < 12:
            time.sleep(0.01)  # the rate at which a window looks
            health = worker.handoff.take().health
            if health.link is Link.LIVE and live_s is None:
                live_s = time.monotonic()
            if live_s is not None and health.link is Link.STALE:
                stale_s = time.monotonic()
                words = health.message
        origin_s = server._origin_ns / 1e9  # when the board's time 0 was
        worker.stop()
    assert live_s is not None
    assert stale_s is not None
    took_s = stale_s - origin_s - 3.0
    limit_s = 1.7 if goes is Goes.LOOPED else 1.0  # one turn of the loop
    assert 0.0 < took_s < limit_s
    assert words


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
def test_a_line_that_becomes_two_seconds_late_is_never_live_again() -> None:
    line = TerminalLine()
    links: list[Link] = []
    with Serving(FaultyBoard(Goes.LATE, at_s=3.0), line) as server:
        worker = Worker(SerialSource(line.name))
        worker.start()
        begun_s = time.monotonic()
        while time.monotonic() - begun_s < 12:
            time.sleep(0.01)
            health = worker.handoff.take().health
            board_s = time.monotonic() - server._origin_ns / 1e9
            if board_s > 3.0 + 0.7:
                links.append(health.link)
            if board_s > 7.0:
                break
        worker.stop()
    # First nothing comes for two seconds, then all of it, late.
    assert Link.LIVE not in links
    assert links[-1] is Link.STALE
    assert links.count(Link.STALE) > len(links) // 4


def test_stale_words_name_the_cell() -> None:
    left, right = NO_BOARD.channels[0], NO_BOARD.channels[0]
    profile = replace(NO_BOARD, channels=(left, right))
    assert "one and the same number all the time" in stale_words((0, 1), profile)
    assert left.words in stale_words((0,), profile)
    assert "old" in stale_words((), profile)
