"""Health of a board whose cells have a converter each, and of cells at a stop."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from biofeedback.conditioning.block import Block
from biofeedback.conditioning.profile import Calibration, RigProfile
from biofeedback.rig.handoff import Health, Link
from biofeedback.rig.health import Watch
from biofeedback.rig.health_words import LOWER, UPPER, stop_words
from biofeedback.rig.nominal import NO_BOARD
from biofeedback.wire.frames import (
    COUNTS_MAX,
    COUNTS_MIN,
    Identity,
    Samples,
    Status,
)

MS = 1_000_000
TWO_CONVERTERS = Identity(
    *(0, (1, 0), (1, 0, 0), (1, 1), (80.0,), 0, (128,), 0, 24, "HX711", "")
)


def sample(stream: int, at_ms: int = 0) -> Samples:
    flags = np.zeros((1, 1), np.bool_)
    counts = np.zeros((1, 1), np.int32)
    return Samples(0, stream, 1000 * at_ms, 0, counts, flags, flags[:, 0])


def status(*silent: bool) -> Status:
    return Status(0, 0, 0, 0, 0, True, silent, (0,) * len(silent))


def report(watch: Watch, now_ms: int, profile: RigProfile = NO_BOARD) -> Health:
    return watch.report(
        now_ns=now_ms * MS,
        found="",
        profile=profile,
        filter_delay_s=0.02,
        recording=False,
    )


def watch() -> Watch:
    made = Watch("the port", now_ns=0, paced=True)
    made.opened(now_ns=0)
    made.frame(TWO_CONVERTERS, now_ns=0)
    return made


def test_one_silent_converter_of_two_is_told_while_the_other_goes_on() -> None:
    kept = watch()
    links = []
    for tenth in range(1, 31):
        now_ns = tenth * 100 * MS
        kept.samples([sample(0, tenth * 100)], now_ns=now_ns)
        if tenth <= 10:
            kept.samples([sample(1, tenth * 100)], now_ns=now_ns)
        if tenth % 10 == 0:
            kept.frame(status(False, tenth > 15), now_ns=now_ns)
        links.append(report(kept, tenth * 100).link)
    assert links[:15] == [Link.LIVE] * 15
    assert links[20:] == [Link.SILENT] * 10
    assert "converter 2 gives no data" in report(kept, 3000).message
    kept.samples([sample(1, 3050)], now_ns=3050 * MS)
    assert report(kept, 3060).link is Link.LIVE


def test_a_converter_that_never_came_is_silent() -> None:
    kept = watch()
    kept.samples([sample(0)], now_ns=900 * MS)
    kept.frame(status(False, True), now_ns=1000 * MS)
    assert report(kept, 1010).link is Link.SILENT
    assert report(kept, 1010).arrived_ns is None


def test_both_gone_with_the_board_is_lost() -> None:
    kept = watch()
    for stream in (0, 1):
        kept.samples([sample(stream)], now_ns=1000 * MS)
    assert report(kept, 1500).link is Link.LIVE
    assert report(kept, 1501).link is Link.LOST


def test_another_board_after_opening_again_is_judged_by_its_own_streams() -> None:
    kept = watch()
    kept.opened(now_ns=0)
    kept.samples([sample(0)], now_ns=100 * MS)
    assert report(kept, 110).link is Link.LIVE


def at_stops(*counts: int) -> Block:
    values = np.array([counts], np.int32)
    force_n = np.full(values.shape, np.nan)
    return Block(
        first_index=0,
        lost=0,
        time_s=np.zeros(1),
        counts=values,
        force_n=force_n,
        shown_n=force_n,
        good=np.zeros(1, np.bool_),
        saturated=(values >= COUNTS_MAX) | (values <= COUNTS_MIN),
    )


@pytest.mark.parametrize(
    ("counts", "words"),
    [
        (
            (COUNTS_MAX, 5),
            "The left cell is at the end of the range. Take the load off",
        ),
        ((5, COUNTS_MIN), "The right cell is at the end of the range that no pull"),
        ((COUNTS_MIN, COUNTS_MIN), "The left cell and the right cell are at the end"),
        ((5, 5), ""),
    ],
)
def test_overloaded_and_disconnected_are_told_apart(
    counts: tuple[int, int], words: str
) -> None:
    kept = watch()
    for stream in (0, 1):
        kept.samples([sample(stream)], now_ns=0)
    kept.block(at_stops(*counts))
    health = report(kept, 10)
    assert health.message.startswith(words)
    assert bool(health.message) == bool(words) == health.saturated
    assert ("disconnected" in health.message) == (COUNTS_MIN in counts)


def test_one_overloaded_and_one_disconnected_are_both_told() -> None:
    told = stop_words((UPPER, LOWER), NO_BOARD)
    assert told.startswith("The left cell is at the end of the range. Take")
    assert "The right cell is at the end of the range that no pull" in told


def test_which_stop_is_which_follows_the_calibration() -> None:
    """A cell wired the other way round has a falling line."""
    turned = replace(NO_BOARD.channels[0], calibration=Calibration((0.0, -1e-4)))
    profile = replace(NO_BOARD, channels=(turned, NO_BOARD.channels[1]))
    assert "disconnected" in stop_words((UPPER, 0), profile)
    assert "disconnected" not in stop_words((LOWER, 0), profile)
