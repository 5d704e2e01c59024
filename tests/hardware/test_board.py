"""The firmware itself, run to the cycle: what the chips gave arrives exactly.

Each profile numbers the conversions in their counts, so nothing can be lost,
doubled, moved or mixed up unseen.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hardware.board import Column

from biofeedback.wire.codec import encode
from biofeedback.wire.frames import (
    COUNTS_MAX,
    COUNTS_MIN,
    Gain,
    Rate,
    Result,
    Start,
    Stop,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from hardware.board import Board, Truth

pytestmark = pytest.mark.timeout(120)

JITTER_US = 16
"""The longest that another interrupt keeps a data-ready edge waiting."""
STACK_MIN = 819
"""Variables take 60 % of the 2048 bytes of RAM at most; the rest is the stack's."""
PRIMES = (7919, 104_729)


def numbered(rows: int) -> list[tuple[int, int]]:
    """Counts that are all different, over nearly the whole range, both stops in it."""
    width = COUNTS_MAX - COUNTS_MIN - 1
    table = [
        (
            COUNTS_MIN + 1 + row * PRIMES[0] % width,
            COUNTS_MAX - 1 - row * PRIMES[1] % width,
        )
        for row in range(rows)
    ]
    for row in range(500, rows, 1000):
        table[row] = (COUNTS_MAX, COUNTS_MIN)
    return table


def check_exact(column: Column, truth: Truth, channel: int = 0) -> slice:
    """All that came is what the chip gave, in order, from the first one on.

    Returns:
        Where it stands in the truth.
    """
    shift = truth.time_us[None, :] - column.time_us[:1, None]
    first = int(np.argmin(np.abs(shift[0] - 300)))  # the timer starts some 300 us late
    place = slice(first, first + len(column.number))
    np.testing.assert_array_equal(column.counts[:, channel], truth.counts[place])
    late_us = column.time_us - truth.time_us[place]
    assert late_us.max() - late_us.min() <= JITTER_US
    at_stop = np.isin(truth.counts[place], (COUNTS_MAX, COUNTS_MIN))
    np.testing.assert_array_equal(column.saturated[:, channel], at_stop)
    # Flagged whenever it was not settled; from the fifth conversion on as it was.
    assert column.settling[~truth.settled[place]].all()
    return place


def check_well(board: Board, stats: dict[str, float]) -> None:
    """Nothing went wrong on either side."""
    status = board.heard.statuses[-1]
    assert (status.adc_lost, status.transmit_drops, status.crc_errors) == (0, 0, 0)
    assert board.heard.damages == []
    assert (stats["collisions"], stats["misread"], stats["dropped"]) == (0, 0, 0)


def test_two_hx711_for_60_s_arrive_exactly(
    start: Callable[..., Board], note: Callable[[str], None]
) -> None:
    board = start("hx711", profile=numbered(5000))
    board.open()
    board.ask(Start(token=1))
    board.run(60.0)
    board.ask(Stop(token=2))
    stats = board.finish()
    check_well(board, stats)
    assert stats["unread"] == 0
    assert stats["sck_high_max_us"] < 1.0
    for stream in (0, 1):
        column = Column.of(board.heard.samples(stream))
        assert column.number.tolist() == list(range(len(column.number)))
        assert 4798 <= len(column.number) <= 4802
        check_exact(column, board.truth(stream))
        assert column.saturated.sum() >= 4
    note(f"hx711 at 80 Hz: processor busy {stats['busy']:.0%} of the time")


@pytest.mark.parametrize("rate_hz", [1000.0, 2000.0, 4000.0])
def test_spi_adc_arrives_exactly(
    start: Callable[..., Board], note: Callable[[str], None], rate_hz: float
) -> None:
    duration_s = 4.0
    board = start("spi", profile=numbered(round(rate_hz * duration_s) + 2000))
    board.open()
    assert board.ask(Rate(token=1, rate_hz=rate_hz)).result is Result.DONE
    board.ask(Start(token=2))
    board.run(duration_s)
    board.ask(Stop(token=3))
    stats = board.finish()
    check_well(board, stats)
    column = Column.of(board.heard.samples())
    assert column.number.tolist() == list(range(len(column.number)))
    assert len(column.number) == pytest.approx(rate_hz * duration_s, abs=rate_hz / 25)
    for cell in (0, 1):
        check_exact(column, board.truth(cell), channel=cell)
    # Time is captured by hardware: no jitter but the timer's own step and rounding,
    # the latter of each frame's step to whole microseconds.
    assert np.ptp(np.diff(column.time_us)) <= 3
    note(f"spi at {rate_hz:.0f} Hz: processor busy {stats['busy']:.0%} of the time")


def test_oscillators_that_drift_apart_lose_nothing(start: Callable[..., Board]) -> None:
    board = start("hx711", profile=numbered(10_000), ppm0=500, ppm1=-500)
    board.open()
    board.ask(Start(token=1))
    board.run(60.0)
    board.ask(Stop(token=2))
    stats = board.finish()
    check_well(board, stats)
    periods_us = []
    for stream in (0, 1):
        column = Column.of(board.heard.samples(stream))
        assert column.number.tolist() == list(range(len(column.number)))
        check_exact(column, board.truth(stream))
        periods_us.append(np.diff(column.time_us).mean())
    assert periods_us[0] / periods_us[1] == pytest.approx(1 - 1e-3, abs=2e-6)


@pytest.mark.parametrize(
    "fault", [{"flip": 1e-4}, {"flip": 1e-3}, {"lose": 1e-3}], ids=str
)
def test_line_faults_lose_only_what_the_sequence_says(
    start: Callable[..., Board], fault: dict[str, float]
) -> None:
    board = start("hx711", profile=numbered(5000), seed=3, **fault)
    board.open()
    for token in range(1, 9):  # a command may be damaged too
        board.source.write(_start(token))
        board.run(0.3)
        if board.heard.samples():
            break
    board.run(40.0)
    stats = board.finish()
    assert stats["flipped"] + stats["lost"] > 10
    lost = 0
    for stream in (0, 1):
        truth = board.truth(stream)
        column = Column.of(board.heard.samples(stream))
        # Numbers on the wire and numbers of the chip differ by one constant.
        first = np.flatnonzero(truth.counts == column.counts[0, 0])
        assert len(first) == 1
        place = column.number - column.number[0] + first[0]
        np.testing.assert_array_equal(column.counts[:, 0], truth.counts[place])
        assert (np.diff(column.number) > 0).all()
        lost += int((np.diff(column.number) - 1).sum())
    # A fault costs the frame it falls into, and of a delimiter two.
    assert 0 < lost <= 2 * (stats["flipped"] + stats["lost"])
    assert len(board.heard.damages) > 0


def _start(token: int) -> bytes:
    return b"\0" + encode(Start(token=token))


def test_rate_change_is_flagged_until_it_has_settled(
    start: Callable[..., Board],
) -> None:
    board = start("hx711", profile=numbered(2000))
    board.open()
    board.ask(Start(token=1))
    board.run(1.0)
    asked_us = board.now_s * 1e6
    assert board.ask(Rate(token=2, rate_hz=10.0)).result is Result.DONE
    assert board.heard.identity.rate_hz == 10.0
    board.run(1.5)
    board.finish()
    for stream in (0, 1):
        column = Column.of(board.heard.samples(stream))
        after = column.time_us > asked_us
        flags = column.settling[after]
        assert flags.tolist() == [True] * 4 + [False] * (len(flags) - 4)
        assert len(flags) > 6
        settled_us = column.time_us[after][4] - asked_us
        # The data sheet: 400 ms at 10 SPS; then one conversion to give the number.
        assert 400e3 < settled_us < 530e3
        # Every conversion that was wrong is flagged, and none is after that.
        truth = board.truth(stream)
        place = check_exact(column, truth)
        np.testing.assert_array_equal(
            column.settling[after], ~truth.settled[place][after]
        )


def test_gain_change_is_flagged_and_told(start: Callable[..., Board]) -> None:
    board = start("hx711", profile="mode step\n0 400000 -200000\n")
    board.open()
    board.ask(Start(token=1))
    board.run(0.5)
    asked_us = board.now_s * 1e6
    assert board.ask(Gain(token=2, gain=64)).result is Result.DONE
    assert board.heard.identity.gains[board.heard.identity.gain_index] == 64
    board.run(0.5)
    for stream, counts in ((0, 400_000), (1, -200_000)):
        column = Column.of(board.heard.samples(stream))
        after = column.time_us > asked_us
        # The one under way still has the old gain, then four are not settled.
        flags = column.settling[after]
        assert flags.tolist() == [True] * 5 + [False] * (len(flags) - 5)
        assert (column.counts[after][5:, 0] == counts // 2).all()
    assert board.ask(Gain(token=3, gain=32)).result is Result.BAD_VALUE


def test_spi_rate_change_is_flagged(start: Callable[..., Board]) -> None:
    board = start("spi", profile=numbered(6000))
    board.open()
    board.ask(Start(token=1))
    board.run(0.2)
    board.ask(Rate(token=2, rate_hz=4000.0))
    board.run(0.3)
    board.finish()
    column = Column.of(board.heard.samples())
    truth = board.truth()
    steps_us = np.diff(column.time_us)
    changed = int(np.argmax(steps_us < 500))  # the first at the new rate
    flags = column.settling[changed - 2 : changed + 6]
    assert flags.sum() == 3
    wrong = {int(count) for count in truth.counts[~truth.settled]}
    unflagged = {int(count) for count in column.counts[~column.settling, 0]}
    assert not wrong & unflagged


def test_a_board_that_is_deaf_at_first_is_found(start: Callable[..., Board]) -> None:
    """A boot loader keeps the port for 2 s: the identity is asked for again."""
    board = start("hx711", boot_ms=2000)
    board.source.open()
    asked = 0
    while not board.source.found and board.now_s < 3.0:
        board.step(0.02)
        board.listen()
    assert board.source.found.startswith("HX711 board")
    assert 2.0 < board.now_s < 2.5
    asked = board.source.written_bytes // 14
    assert asked >= 8


def test_it_streams_again_after_the_host_has_been_away(
    start: Callable[..., Board],
) -> None:
    board = start("hx711", profile=numbered(2000))
    board.open()
    board.ask(Start(token=1))
    board.run(0.5)
    board.source.close()
    board.step(0.1)
    board.open()
    board.run(0.3)
    jumps = np.diff(Column.of(board.heard.samples(0)).number)
    assert (jumps > 0).all()
    assert 7 <= jumps.max() <= 10  # what was sent while nobody listened
    assert (jumps != 1).sum() == 1


def test_stack_leaves_room(
    start: Callable[..., Board], note: Callable[[str], None]
) -> None:
    for adc, rate_hz in (("hx711", 10.0), ("spi", 4000.0)):
        board = start(adc)
        board.open()
        board.ask(Start(token=1))
        board.ask(Rate(token=2, rate_hz=rate_hz))
        board.run(2.2)
        board.ask(Stop(token=3))
        used = board.finish()["stack_bytes"]
        note(f"{adc}: deepest stack {used:.0f} B")
        assert used < STACK_MIN / 2


def test_a_chip_that_lost_its_power_is_told_its_gain_and_rate_again(
    start: Callable[..., Board],
) -> None:
    """Begun anew it has gain 1 and 4 kHz: sound counts of another force."""
    profile = "mode step\n0 400000 -200000\n"
    board = start("spi", profile=profile, brownout=0.5)
    board.open()
    board.ask(Start(token=1))
    board.ask(Rate(token=2, rate_hz=2000.0))
    board.ask(Gain(token=3, gain=64))
    board.run(0.1)
    asked_us = board.now_s * 1e6
    board.run(0.9)
    board.finish()
    column = Column.of(board.heard.samples())
    after = column.time_us > asked_us
    assert (column.counts[after] == [200_000, -100_000]).all()
    assert not column.settling[after].any()
    jumps = np.diff(column.number[after])
    assert (jumps > 1).sum() == 1
    assert 3 < jumps.max() < 15  # what could not be used is lost, and counted
    assert column.time_us[-1] > 0.9e6
    assert np.median(np.diff(column.time_us[-100:])) == 500
