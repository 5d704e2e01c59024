"""The account of the signal: what is shown when it is not live."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from biofeedback.conditioning.block import Block
from biofeedback.rig.handoff import Health, Link
from biofeedback.rig.health import Watch
from biofeedback.rig.nominal import NO_BOARD
from biofeedback.wire.frames import Damage, Samples, Status

MS = 1_000_000


def samples() -> Samples:
    nothing = np.zeros((1, 2), np.int32)
    flags = np.zeros((1, 2), np.bool_)
    return Samples(0, 0, 0, 0, nothing, flags, flags[:, 0])


def status(*, streaming: bool = True, silent: tuple[bool, ...] = (False,)) -> Status:
    return Status(0, 0, 0, 0, 0, streaming, silent, (0,) * len(silent))


def block(first: int, count: int, *, rate_hz: float = 80.0, lost: int = 0) -> Block:
    values = np.zeros((count, 2))
    counts = np.arange(first, first + count)[:, np.newaxis] + np.array([0, 7])
    return Block(
        first_index=first,
        lost=lost,
        time_s=(first + np.arange(count)) / rate_hz,
        counts=counts.astype(np.int32),
        force_n=values,
        shown_n=values,
        good=np.ones(count, np.bool_),
        saturated=np.zeros((count, 2), np.bool_),
    )


def report(watch: Watch, now_ms: int, rate_hz: float = 80.0) -> Health:
    return watch.report(
        now_ns=now_ms * MS,
        found="",
        profile=replace(NO_BOARD, rate_hz=rate_hz),
        filter_delay_s=0.02,
        recording=False,
    )


def watch() -> Watch:
    made = Watch("the port", now_ns=0, paced=True)
    made.opened(now_ns=0)
    return made


def test_live_for_half_a_second_after_a_sample_then_lost() -> None:
    kept = watch()
    assert report(kept, 0).link is Link.OPENING
    kept.samples([samples()], now_ns=1000 * MS)
    assert report(kept, 1500).link is Link.LIVE
    lost = report(kept, 1501)
    assert lost.link is Link.LOST
    assert lost.message == (
        "Nothing comes from the port any more. "
        "Look at the cable and at the board's power."
    )
    assert lost.arrived_ns == 1000 * MS


def test_an_answer_from_before_the_last_sample_is_no_sign_of_life() -> None:
    kept = watch()
    kept.frame(status(), now_ns=900 * MS)
    kept.samples([samples()], now_ns=1000 * MS)
    assert report(kept, 1501).link is Link.LOST


def test_slow_board_is_given_four_periods() -> None:
    kept = watch()
    kept.samples([samples()], now_ns=0)
    assert report(kept, 2000, rate_hz=2.0).link is Link.LIVE
    assert report(kept, 2001, rate_hz=2.0).link is Link.LOST


def test_board_that_answers_is_silent_and_stays_so_between_two_answers() -> None:
    kept = watch()
    kept.samples([samples()], now_ns=0)
    for second in (1, 2, 3):
        kept.frame(status(silent=(True,)), now_ns=second * 1000 * MS)
        for after_ms in (0, 500, 999):
            health = report(kept, second * 1000 + after_ms)
            assert health.link is Link.SILENT
            assert "its converter gives no data" in health.message
    assert report(kept, 4501).link is Link.LOST


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (status(silent=(False, True)), "converter 2 gives no data"),
        (status(silent=(True, True)), "converter 1 and 2 gives no data"),
        (status(streaming=False), "has stopped sending"),
        (status(), "no samples arrive"),
    ],
)
def test_silence_is_told_as_the_board_tells_it(said: Status, words: str) -> None:
    kept = watch()
    kept.frame(said, now_ns=0)
    assert words in report(kept, 10).message


def test_noise_is_no_silence_for_long() -> None:
    kept = watch()
    kept.damage(Damage(10, "crc"), now_ns=0)
    assert report(kept, 10).damaged == 1
    assert report(kept, 10).link is Link.SILENT
    assert report(kept, 1600).link is Link.LOST


def test_failure_is_told_in_its_own_words_until_opened_again() -> None:
    kept = watch()
    kept.samples([samples()], now_ns=0)
    kept.failed("The port is gone.")
    assert report(kept, 1).link is Link.LOST
    assert report(kept, 1).message == "The port is gone."
    kept.opened(now_ns=2 * MS)
    assert report(kept, 3).link is Link.OPENING


@pytest.mark.parametrize("rate_hz", [10.0, 80.0, 1000.0])
def test_rate_is_that_of_the_device_clock(rate_hz: float) -> None:
    kept = watch()
    kept.samples([samples()], now_ns=0)
    # The board says 80 Hz and its oscillator is off: what counts is its clock.
    for first in range(0, int(5 * rate_hz), 5):
        kept.block(block(first, 5, rate_hz=rate_hz * 1.02))
    assert report(kept, 1).rate_hz == pytest.approx(rate_hz * 1.02, rel=1e-9)
    assert report(kept, 5000).rate_hz == 0


def test_lost_samples_add_up_and_do_not_change_the_rate() -> None:
    kept = watch()
    kept.samples([samples()], now_ns=0)
    for first in range(0, 800, 80):
        kept.block(block(first + 10, 70, lost=10 if first else 0))
    assert report(kept, 1).lost == 90
    assert report(kept, 1).rate_hz == pytest.approx(80)
    kept.begin_stream()
    kept.block(block(0, 70))
    assert report(kept, 1).lost == 90


def test_gaps_of_unknown_length_are_counted_apart() -> None:
    kept = watch()
    kept.block(block(0, 8))
    kept.block(replace(block(11, 8, lost=3), gap=True))
    kept.block(replace(block(20, 8, lost=1), gap=True, restarted=True))
    told = report(kept, 1)
    assert (told.lost, told.unknown_gaps) == (4, 1)


def test_rate_is_not_measured_across_a_gap_of_unknown_length() -> None:
    kept = watch()
    kept.samples([samples()], now_ns=0)
    for first in range(0, 80, 8):
        kept.block(block(first, 8))
    # The board was started anew: one number and one second stand for the gap.
    for first in range(160, 240, 8):
        moved = block(first, 8, lost=1 if first == 160 else 0)
        kept.block(replace(moved, first_index=first - 79))
    assert report(kept, 1).rate_hz == pytest.approx(80)


@pytest.mark.parametrize(("paced", "link"), [(True, Link.STALE), (False, Link.LIVE)])
def test_what_is_stepped_or_played_is_never_late(*, paced: bool, link: Link) -> None:
    kept = Watch("a recording", now_ns=0, paced=paced)
    kept.opened(now_ns=0)
    for number in range(40):  # each 100 ms, though all are of the same moment
        kept.samples([samples()], now_ns=number * 100 * MS)
    assert report(kept, 3900).link is link
    assert not kept.comes_fresh  # nothing says that its counts stand still
    for first in (0, 80):
        still = block(first, 80)
        kept.block(replace(still, counts=np.full_like(still.counts, 7)))
    assert report(kept, 3900).link is Link.STALE
    assert kept.comes_fresh is not paced
