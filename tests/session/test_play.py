"""A recording played again: the same rules, another filter, at its own pace."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.errors import FileError
from biofeedback.rig.handoff import BandChanged, Measured, SetBegun, Update
from biofeedback.session.play import Play
from biofeedback.session.replay import OtherRules, replay

RECORDINGS = Path(__file__).parents[2] / "recordings"
ALL = sorted(RECORDINGS.glob("*.force"))
SLOW = FilterChoice(FilterKind.MOVING_AVERAGE, samples=8)


class Clock:
    def __init__(self) -> None:
        self.now_ns = 0

    def __call__(self) -> int:
        return self.now_ns


def played(path: Path, choice: FilterChoice) -> list[Update]:
    clock = Clock()
    play = Play(path, choice, clock=clock)
    updates = []
    while not play.done:
        updates.append(play.take())
        clock.now_ns += round(1e9 / 60)
    return updates


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_the_recorded_filter_plays_what_the_live_run_showed(path: Path) -> None:
    known = replay(path, keep_blocks=True)
    updates = played(path, known.profile.filter)
    events = [event for update in updates for event in update.events]
    assert isinstance(events[0], SetBegun)
    reps = [event.rep for event in events if isinstance(event, Measured)]
    assert reps == known.reps
    assert known.reps
    shown_n = np.concatenate([b.shown_n for u in updates for b in u.blocks])
    live_n = np.concatenate([block.shown_n for block in known.blocks])
    assert np.array_equal(shown_n, live_n, equal_nan=True)
    bands = [event.new for event in events if isinstance(event, BandChanged)]
    assert bands == [band for _, band in known.bands[1:]]


def test_another_filter_is_judged_as_a_replay_with_it() -> None:
    path = ALL[0]
    known = replay(path, OtherRules(filter=SLOW))
    updates = played(path, SLOW)
    events = [event for update in updates for event in update.events]
    assert [one.rep for one in events if isinstance(one, Measured)] == known.reps
    assert known.reps != replay(path).reps
    assert updates[0].profile.filter == SLOW
    # A moving average of n samples is (n − 1)/2 samples late.
    assert updates[-1].health.filter_delay_s == pytest.approx(3.5 / 80)


def test_it_keeps_the_pace_of_the_recording() -> None:
    clock = Clock()
    play = Play(ALL[0], SLOW, clock=clock)
    newest_s = 0.0
    for second in range(1, 6):
        clock.now_ns = round(second * 1e9)
        if second == 1:
            clock.now_ns = 0  # time runs from the first pull on
            play.take()
            clock.now_ns = round(1e9)
        for block in play.take().blocks:
            newest_s = float(block.time_s[-1])
        # What is due and not a frame more; the board's frames are 8 samples at most.
        assert second - 8 / 80 <= newest_s <= second
    assert not play.done


def test_a_stretch_begins_with_the_force_before_it_and_ends() -> None:
    path = RECORDINGS / "nudge-and-lapse-v1.0.force"
    known = replay(path)
    rep = known.reps[1]
    start_s = float(str(rep["start_s"]))
    clock = Clock()
    play = Play(path, SLOW, from_s=start_s, to_s=start_s + 3.0, clock=clock)
    first = play.take()
    times_s = np.concatenate([block.time_s for block in first.blocks])
    assert times_s[-1] <= start_s
    assert times_s[-1] > start_s - 0.2
    assert start_s - 15.5 < times_s[0] < max(0.1, start_s - 14.5)
    # Reps that were before are known: the row of reps is that of the live run.
    assert [type(event) for event in first.events].count(Measured) == 1
    clock.now_ns = round(10e9)
    last = play.take()
    assert play.done
    assert start_s + 2.8 < last.blocks[-1].time_s[-1] <= start_s + 3.0
    assert play.take().blocks == ()


def test_what_cannot_be_played_is_named(tmp_path: Path) -> None:
    path = tmp_path / "nothing.force"
    path.write_bytes(b"")
    with pytest.raises(FileError, match=r"nothing\.force"):
        Play(path, SLOW)


def test_what_was_long_before_is_known_where_playing_begins() -> None:
    """A nudge of which the force is not shown any more is in force all the same."""
    path = RECORDINGS / "nudge-and-lapse-v1.0.force"
    known = replay(path)
    from_s = 25.0
    old = [band for at_s, band in known.bands[1:] if at_s < from_s - 15.5]
    assert old
    first = Play(path, SLOW, from_s=from_s, clock=Clock()).take()
    assert first.blocks[0].time_s[0] > from_s - 15.5
    bands = [event.new for event in first.events if isinstance(event, BandChanged)]
    assert bands[: len(old)] == old
