from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wire.frame_examples import samples

from biofeedback.wire.run import Run
from biofeedback.wire.timeline import FEW, REMEMBERED, RESTART_S, Placed, Timeline

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.wire.frames import Samples

TURN = 2**32


def frame(
    first: int, count: int = 1, *, time_us: int, step_us: int = 12_500, stream: int = 0
) -> Samples:
    """Samples numbered in their counts; number and time wrap by themselves."""
    return samples(
        [[(first + i) % 8_000_000] for i in range(count)],
        sequence=first,
        stream=stream,
        time_us=time_us,
        step_us=step_us if count > 1 else 0,
    )


def run(frames: Iterable[Samples]) -> tuple[Timeline, list[Placed]]:
    timeline = Timeline()
    return timeline, [timeline.place(one) for one in frames]


@pytest.mark.parametrize("first", [0, 1000, TURN - 100])
@pytest.mark.parametrize("start_us", [0, 5_000_000, TURN - 1_000_000])
@pytest.mark.parametrize("count", [1, 3, 8])
def test_a_steady_stream_runs_from_zero_across_both_wraps(
    first: int, start_us: int, count: int
) -> None:
    total = 240
    timeline, placed = run(
        frame(first + i, count, time_us=start_us + 12_500 * i)
        for i in range(0, total, count)
    )
    time_s = np.concatenate([one.time_s for one in placed])
    assert np.array_equal(time_s, np.arange(total) * 12_500 / 1e6)
    assert [one.first_index for one in placed] == list(range(0, total, count))
    assert not any(one.gap or one.lost or one.skip for one in placed)
    assert (timeline.lost, timeline.repeated, timeline.restarts) == (0, 0, 0)


@st.composite
def nearly_even(draw: st.DrawFn) -> list[Samples]:
    """Frames of one layout that follow each other, or of which some do not quite."""
    sequence = draw(st.sampled_from([0, 5000, TURN - 40]))
    time_us = draw(st.sampled_from([0, 7_000_000, TURN - 90_000]))
    each = draw(st.integers(1, 8))
    unit_us = draw(st.sampled_from([1000, 300_000]))
    odd = st.sampled_from(["", "", "", "lost", "again", "pause", "back", "slow"])
    frames: list[Samples] = []
    for _ in range(draw(st.sampled_from([14, FEW + 20]))):
        step_us = unit_us + draw(st.sampled_from([0, 1, -1]))
        match draw(odd):
            case "lost":
                sequence, time_us = sequence + 5, time_us + 5 * unit_us
            case "again" if frames:
                frames.append(frames[-1])
                continue
            case "pause":
                time_us += 700_000
            case "back":
                time_us -= 2_000_000
            case "slow":
                time_us += 3 * step_us
            case _:
                pass
        own_step_us = step_us if each > 1 else 0
        frames.append(
            frame(sequence % TURN, each, time_us=time_us % TURN, step_us=own_step_us)
        )
        sequence += each
        time_us += step_us * each
    return frames


def run_of(frames: list[Samples]) -> Run:
    """The same frames, as they are decoded together."""
    return Run(
        frames[0].stream,
        np.array([one.sequence for one in frames]),
        np.array([one.time_us for one in frames]),
        np.array([one.step_us for one in frames]),
        len(frames[0].counts),
        np.concatenate([one.counts for one in frames]),
        np.concatenate([one.saturated for one in frames]),
        np.concatenate([one.settling for one in frames]),
    )


@given(nearly_even(), st.integers(0, 6))
def test_frames_are_placed_together_as_they_are_one_by_one(
    frames: list[Samples], before: int
) -> None:
    alone, together = Timeline(), Timeline()
    for one in frames[:before]:
        alone.place(one)
        together.place(one)
    each = [alone.place(one) for one in frames[before:]]
    found = list(together.place_all(run_of(frames[before:])))
    assert sum(len(one.counts) for _, one in found) == sum(
        len(one.counts) for one in frames[before:]
    )
    time_s = np.concatenate([placed.time_s for placed, _ in found])
    assert np.array_equal(time_s, np.concatenate([one.time_s for one in each]))
    at = {one.time_s[0]: one for one in each if len(one.time_s)}
    for placed, _ in found:  # where a piece begins it says what lies before it
        if len(placed.time_s):
            first = at[placed.time_s[0]]
            assert (placed.first_index, placed.lost, placed.gap, placed.restarted) == (
                first.first_index, first.lost, first.gap, first.restarted,
            )  # fmt: skip
    begins = {placed.time_s[0] for placed, _ in found if len(placed.time_s)}
    for alike in each:  # and what is missing is told where a piece begins
        if len(alike.time_s) and (alike.gap or alike.lost or alike.restarted):
            assert alike.time_s[0] in begins
    assert (together.lost, together.repeated, together.restarts) == (
        alone.lost, alone.repeated, alone.restarts,
    )  # fmt: skip
    # What follows is judged as after frames placed alone, repetitions too.
    for one in (*frames[before:][-2:], frame(0, 2, time_us=5, step_us=1000)):
        next_alone, next_together = alone.place(one), together.place(one)
        assert next_together.first_index == next_alone.first_index
        assert (next_together.skip, next_together.gap) == (
            next_alone.skip, next_alone.gap,
        )  # fmt: skip
        assert np.array_equal(next_together.time_s, next_alone.time_s)


def test_a_clock_that_went_back_is_a_restart_however_slow_the_board_is() -> None:
    """A step of 20 min; the wire cannot tell 40 min on from 31 min back."""
    step_us = 1_200_000_000
    frames = [
        frame(0, 2, time_us=0, step_us=step_us),
        frame(2, 2, time_us=3 * step_us, step_us=step_us),
        frame(4, 2, time_us=(6 * step_us) % TURN, step_us=step_us),
    ]
    alone, one_by_one = run(frames)
    together = Timeline()
    found = [placed for placed, _ in together.place_all(run_of(frames))]
    assert together.restarts == alone.restarts == 2
    assert [one.time_s.tolist() for one in found] == [
        one.time_s.tolist() for one in one_by_one
    ]


@pytest.mark.parametrize("number", [5, FEW + 20])
def test_even_frames_are_placed_as_one_piece(number: int) -> None:
    timeline = Timeline()
    frames = [
        frame(4 * at, 4, time_us=4000 * at, step_us=1000) for at in range(number + 1)
    ]
    timeline.place(frames[0])
    (one,) = timeline.place_all(run_of(frames[1:]))
    assert len(one[0].time_s) == 4 * number


def test_a_few_single_samples_are_placed_as_one_piece() -> None:
    timeline = Timeline()
    frames = [frame(at, 1, time_us=1000 * at, step_us=0) for at in range(16)]
    timeline.place(frames[0])
    timeline.place(frames[1])
    (one,) = timeline.place_all(run_of(frames[2:]))
    assert one[0].time_s.tolist() == [at / 1000 for at in range(2, 16)]


def test_a_few_single_samples_tell_how_slow_their_board_is() -> None:
    timeline = Timeline()
    frames = [frame(at, 1, time_us=400_000 * at, step_us=0) for at in range(6)]
    timeline.place(frames[0])
    list(timeline.place_all(run_of(frames[1:])))
    late = timeline.place(frame(6, 1, time_us=2_700_000, step_us=0))
    assert not late.gap  # 0.7 s, which would be a pause of a quick board


def test_time_is_exact_after_days() -> None:
    """Whole microseconds inside: no error adds up over turns of the counter."""
    timeline = Timeline()
    step_us = 1_800_000_000  # half an hour; the counter turns every 71.6 min
    for i in range(200):
        placed = timeline.place(frame(i, time_us=i * step_us))
        assert placed.time_s[0] == i * step_us / 1e6


def test_lost_samples_are_counted_by_their_numbers() -> None:
    timeline, placed = run(
        [
            frame(0, 8, time_us=0),
            frame(11, 8, time_us=11 * 12_500),
            frame(19, time_us=19 * 12_500),
        ]
    )
    assert [(one.first_index, one.lost, one.gap) for one in placed] == [
        (0, 0, False),
        (11, 3, True),
        (19, 0, False),
    ]
    assert placed[1].time_s[0] == 11 * 0.0125
    assert timeline.lost == 3


@pytest.mark.parametrize("hours", [0.1, 1, 1.2, 3, 10, 23])
def test_an_outage_longer_than_the_counter_is_placed_right(hours: float) -> None:
    lost = int(hours * 3600 * 80)
    _, placed = run(
        [
            frame(0, 8, time_us=TURN - 50_000),
            # The board's own rate is 0.4 % off what its step says.
            frame(8 + lost, 8, time_us=TURN - 50_000 + round((8 + lost) * 12_550)),
        ]
    )
    assert placed[1].lost == lost
    assert not placed[1].restarted
    assert placed[1].time_s[0] == round((8 + lost) * 12_550) / 1e6


def test_a_pause_without_loss_is_a_gap_of_known_length() -> None:
    """Stop and start: the numbers go on, the time has gone on."""
    timeline, placed = run(
        [
            frame(0, time_us=0),
            frame(1, time_us=12_500),
            frame(2, time_us=600_012_500),
            frame(3, time_us=600_025_000),
        ]
    )
    assert [one.gap for one in placed] == [False, False, True, False]
    assert placed[2].time_s[0] == 600.0125
    assert (timeline.lost, timeline.restarts) == (0, 0)


def test_slow_boards_are_no_row_of_gaps() -> None:
    _, placed = run(frame(i, time_us=i * 2_000_000) for i in range(10))
    assert [one.gap for one in placed] == [False, True] + [False] * 8


@pytest.mark.parametrize("count", [1, 8])
def test_frames_that_come_again_are_left_out(count: int) -> None:
    frames = [frame(i, count, time_us=12_500 * i) for i in range(0, 10 * count, count)]
    timeline, placed = run([*frames[:6], *frames[3:6], *frames[6:]])
    kept = [one for one in placed if len(one.time_s)]
    assert [one.skip for one in placed[6:9]] == [count] * 3
    assert np.array_equal(
        np.concatenate([one.time_s for one in kept]), np.arange(10 * count) / 80
    )
    assert not any(one.gap for one in placed)
    assert (timeline.repeated, timeline.lost, timeline.restarts) == (3 * count, 0, 0)


def test_a_frame_that_overlaps_gives_only_what_is_new() -> None:
    timeline, placed = run(
        [
            frame(0, 8, time_us=0),
            frame(5, 8, time_us=62_500),
            frame(13, time_us=162_500),
        ]
    )
    assert placed[1].skip == 3
    assert placed[1].first_index == 8
    assert np.array_equal(placed[1].time_s, np.arange(8, 13) / 80)
    assert (placed[2].first_index, placed[2].gap) == (13, False)
    assert timeline.repeated == 3


@pytest.mark.parametrize("sent_before", [1, 5, 100, 100_000])
def test_a_restart_comes_after_a_gap_of_unknown_length(sent_before: int) -> None:
    frames = [
        frame(sent_before + i, time_us=12_500 * (sent_before + i)) for i in range(5)
    ]
    anew = [frame(i, time_us=3_000 + 12_500 * i) for i in range(5)]
    timeline, placed = run([*frames, *anew])
    assert [one.restarted for one in placed] == [False] * 5 + [True] + [False] * 4
    assert (placed[5].lost, placed[5].gap) == (1, True)
    assert [one.first_index for one in placed] == [*range(5), *range(6, 11)]
    assert placed[5].time_s[0] == placed[4].time_s[0] + RESTART_S
    assert placed[9].time_s[0] == placed[5].time_s[0] + 0.05
    assert timeline.restarts == 1


def test_a_restart_of_a_board_near_the_end_of_its_numbers_is_no_huge_loss() -> None:
    """Back to 0 looks like a jump forward here, but one of more than a day."""
    timeline, placed = run(
        [
            frame(TURN - 7_000_000, 8, time_us=2_000_000_000),
            frame(0, 8, time_us=1_000),
        ]
    )
    assert placed[1].restarted
    assert timeline.lost == 1


@pytest.mark.parametrize("back_us", [0, 1, 500, 1_000_000])
def test_time_that_does_not_grow_is_a_restart(back_us: int) -> None:
    _, placed = run(
        [frame(0, time_us=5_000_000), frame(1, time_us=5_000_000 - back_us)]
    )
    assert placed[1].restarted
    assert placed[1].time_s[0] > placed[0].time_s[0]


def test_another_rate_is_no_gap() -> None:
    times = [*range(0, 1_000_000, 100_000), *range(1_000_000, 1_200_000, 12_500)]
    _, placed = run(frame(i, time_us=time_us) for i, time_us in enumerate(times))
    assert not any(one.gap for one in placed)
    _, placed = run(frame(i, time_us=2_000_000 - t) for i, t in enumerate(times[::-1]))
    assert not any(one.gap for one in placed)


def test_two_streams_share_one_time() -> None:
    timeline = Timeline()
    left = timeline.place(frame(500, time_us=TURN - 4_000))
    right = timeline.place(frame(70, time_us=TURN - 9_000, stream=1))
    assert (left.first_index, right.first_index) == (0, 0)
    assert (left.time_s[0], right.time_s[0]) == (0.0, -0.005)
    assert timeline.place(frame(71, time_us=3_650, stream=1)).time_s[0] == 0.00765
    late = timeline.place(frame(7, time_us=10_000, stream=2))
    assert late.time_s[0] == 0.014


def test_a_stream_that_begins_late_stands_beside_the_others() -> None:
    timeline = Timeline()
    for i in range(5):
        timeline.place(frame(i, time_us=i * 1_900_000_000))  # 2.1 h in all
    late = timeline.place(frame(0, time_us=4 * 1_900_000_000 + 5_000, stream=1))
    assert late.time_s[0] == 7600.005


def test_memory_does_not_grow() -> None:
    timeline = Timeline()
    for i in range(3 * REMEMBERED):
        timeline.place(frame(i, time_us=12_500 * i))
    assert len(timeline._streams[0].recent) == REMEMBERED


@settings(max_examples=40)
@given(st.data())
def test_the_result_does_not_depend_on_how_samples_are_framed(
    data: st.DataObject,
) -> None:
    """Gaps where they are; otherwise any grouping gives the same places."""
    first = data.draw(st.sampled_from([0, 77, TURN - 30]))
    start_us = data.draw(st.sampled_from([0, TURN - 100_000]))
    gone = set(data.draw(st.lists(st.integers(1, 59), max_size=15)))
    kept = [i for i in range(60) if i not in gone]
    groups: list[list[int]] = []
    for i in kept:
        follows = bool(groups) and groups[-1][-1] == i - 1 and len(groups[-1]) < 8
        if follows and data.draw(st.booleans()):
            groups[-1].append(i)
        else:
            groups.append([i])
    timeline, placed = run(
        frame(first + g[0], len(g), time_us=start_us + 12_500 * g[0]) for g in groups
    )
    index = [one.first_index + k for one in placed for k in range(len(one.time_s))]
    assert index == kept
    time_s = np.concatenate([one.time_s for one in placed])
    assert np.array_equal(time_s, np.array(kept) * 12_500 / 1e6)
    assert timeline.lost == kept[-1] + 1 - len(kept)
    assert timeline.restarts == 0


def test_a_loss_right_after_a_pause_is_still_counted() -> None:
    """The pause must not be taken for the period."""
    times = [0, 12_500, 600_000_000, 600_037_500]
    timeline, placed = run(
        frame(number, time_us=time_us)
        for number, time_us in zip([0, 1, 2, 5], times, strict=True)
    )
    assert [one.lost for one in placed] == [0, 0, 0, 2]
    assert timeline.restarts == 0
    assert placed[3].time_s[0] == 600.0375
