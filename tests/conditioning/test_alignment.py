"""Two converters on clocks of their own become samples of two channels."""

from __future__ import annotations

import dataclasses
import itertools
from typing import TYPE_CHECKING

import numpy as np
import pytest
from conditioning.examples import joined, rig
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.conditioning.alignment import WAIT_S
from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.conditioning.profile import FilterChoice, Side
from biofeedback.errors import RigError
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import SEQUENCE_MODULUS, Samples

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile

PERIOD_US = 12_500
COUNT = 120
ARRAYS = ("time_s", "counts", "force_n", "shown_n", "good", "saturated")


def two_cells(choice: FilterChoice | None = None) -> RigProfile:
    profile = rig(Side.LEFT, Side.RIGHT, choice=choice)
    return dataclasses.replace(profile, streams=2)


def frame(
    stream: int,
    first_us: int,
    counts: Iterable[int],
    *,
    sequence: int = 0,
    step_us: int = PERIOD_US,
    saturated: bool = False,
    settling: bool = False,
) -> Samples:
    values = np.array(list(counts), np.int32)[:, None]
    return Samples(
        sequence=sequence % SEQUENCE_MODULUS,
        stream=stream,
        time_us=first_us % SEQUENCE_MODULUS,
        step_us=step_us if len(values) > 1 else 0,
        counts=values,
        saturated=np.full(values.shape, saturated),
        settling=np.full(len(values), settling),
    )


def chip(
    stream: int,
    force: Callable[[float], float],
    *,
    count: int = COUNT,
    first_us: int = 0,
    step_us: int = PERIOD_US,
    size: int = 1,
) -> list[Samples]:
    """What a chip sends of a force that is a function of microseconds."""
    return [
        frame(
            stream,
            first_us + start * step_us,
            [
                round(force(first_us + index * step_us))
                for index in range(start, min(start + size, count))
            ],
            sequence=start,
            step_us=step_us,
        )
        for start in range(0, count, size)
    ]


def constant(counts: int) -> Callable[[float], float]:
    return lambda us: counts + 0.0 * us


def in_order(*streams: Sequence[Samples]) -> list[Samples]:
    """As the line brings them: each frame when its last sample is there."""

    def end_us(samples: Samples) -> int:
        return samples.time_us + samples.step_us * (len(samples.counts) - 1)

    return sorted((each for stream in streams for each in stream), key=end_us)


def run(frames: Iterable[Samples], pipeline: Pipeline | None = None) -> list[Block]:
    pipeline = pipeline or Pipeline(two_cells())
    return [block for samples in frames for block in pipeline.push(samples)]


def total(blocks: list[Block]) -> int:
    return sum(len(block) for block in blocks)


def both(
    left: Callable[[float], float], right: Callable[[float], float], **second: int
) -> list[Samples]:
    later = {"first_us": 5_200, "step_us": PERIOD_US, **second}
    return in_order(chip(0, left), chip(1, right, **later))


# What comes out.


def test_first_sample_with_both_channels_is_number_0_at_time_0() -> None:
    blocks = run(both(constant(100), constant(200)))
    assert blocks[0].first_index == 0
    assert blocks[0].lost == 0
    assert not blocks[0].gap
    assert blocks[0].time_s[0] == 0.0
    assert {block.counts.shape[1] for block in blocks} == {2}
    # The first sample of the first chip came before the second had any.
    assert total(blocks) == COUNT - 1
    assert not any(block.lost or block.gap for block in blocks)
    np.testing.assert_array_equal(np.diff(joined(blocks, "time_s")).round(9), 0.0125)


@pytest.mark.parametrize("step_us", [12_500, 12_494, 12_506, 12_000, 13_100])
def test_a_ramp_has_no_error_but_rounding(step_us: int) -> None:
    """Exact to a count: half from the chip, half from rounding the line."""
    blocks = run(
        both(lambda t: t * 0.07, lambda t: 900_000 - t * 0.31, step_us=step_us)
    )
    counts = joined(blocks, "counts")
    times_us = counts[:, 0] / 0.07
    expected = 900_000 - times_us * 0.31
    assert np.abs(counts[:, 1] - expected).max() <= 1.0 + 0.31 / 0.07 / 2


def test_where_force_bends_the_error_is_within_what_is_stated() -> None:
    amplitude, omega = 1e6, 2 * np.pi * 3.0  # 3 Hz

    def pull(us: float) -> float:
        return float(amplitude * np.sin(omega * us / 1e6))

    blocks = run(both(pull, pull))
    counts = joined(blocks, "counts")
    errors = np.abs(counts[:, 1] - counts[:, 0])
    bound = (PERIOD_US / 1e6) ** 2 / 8 * amplitude * omega**2
    assert errors.max() <= bound + 1.0
    assert errors.max() > 0.8 * bound  # it is not much better either


@pytest.mark.slow
def test_drift_over_an_hour_adds_nothing_up() -> None:
    """±500 ppm: after an hour the chips are 3.6 s, or 288 samples, apart."""
    hour = 288_000

    def ramp(us: float) -> float:
        return us * 1e-3

    frames = in_order(
        chip(0, ramp, count=hour, step_us=12_494, size=58),
        chip(1, ramp, count=hour, step_us=12_506, first_us=7_000, size=58),
    )
    blocks = run(frames)
    counts = joined(blocks, "counts")
    assert np.abs(counts[:, 1] - counts[:, 0]).max() <= 1
    assert not any(block.lost for block in blocks)
    assert total(blocks) >= hour - 1 - 58


def test_a_sample_waits_for_one_period_of_the_other_chip_at_most() -> None:
    pipeline = Pipeline(two_cells())
    last_us = {0: 0, 1: 0}
    behind_us = []
    for samples in both(constant(1), constant(2)):
        last_us[samples.stream] = samples.time_us
        for block in pipeline.push(samples):
            shown_us = round(block.time_s[-1] * 1e6) + PERIOD_US
            behind_us.append(max(last_us.values()) - shown_us)
    assert 0 <= max(behind_us) <= PERIOD_US


# How it is cut.


def pulls() -> tuple[np.ndarray, np.ndarray]:
    index = np.arange(COUNT)
    left = np.rint(40_000 * np.sin(index / 7.0) ** 2).astype(int) * 100 + index
    return left, 3_000_000 - left + index


def cut(whole: Samples, edges: Iterable[int]) -> list[Samples]:
    """The same samples in more frames."""
    places = [0, *sorted(set(edges)), len(whole.counts)]
    return [
        dataclasses.replace(
            whole,
            sequence=(whole.sequence + start) % SEQUENCE_MODULUS,
            time_us=(whole.time_us + start * whole.step_us) % SEQUENCE_MODULUS,
            step_us=whole.step_us if stop - start > 1 else 0,
            counts=whole.counts[start:stop],
            saturated=whole.saturated[start:stop],
            settling=whole.settling[start:stop],
        )
        for start, stop in itertools.pairwise(places)
        if stop > start
    ]


@pytest.mark.parametrize(
    "choice", [FilterChoice(), FilterChoice(despike=True)], ids=["plain", "despiked"]
)
@settings(max_examples=10, deadline=None)
@given(data=st.data())
def test_blocks_do_not_depend_on_the_cuts(
    choice: FilterChoice, data: st.DataObject
) -> None:
    first, second = pulls()
    bad = data.draw(st.sets(st.integers(0, COUNT - 1), max_size=4))
    holes = data.draw(st.tuples(*[st.integers(10, COUNT - 10)] * 2))
    pieces: list[list[Samples]] = []
    for stream, counts in enumerate((first, second)):
        values = counts.copy()
        if stream:
            values[sorted(bad)] = 2**23 - 1
        start_us, step_us = (0, PERIOD_US) if stream == 0 else (4_321, 12_511)
        hole = holes[stream]
        pieces.append(
            [
                frame(stream, start_us, values[:hole], step_us=step_us),
                frame(
                    stream,
                    start_us + (hole + 3) * step_us,
                    values[hole:],
                    sequence=hole + 3,
                    step_us=step_us,
                ),
            ]
        )
    singles = [
        [one for piece in stream for one in cut(piece, range(1, len(piece.counts)))]
        for stream in pieces
    ]
    whole = run(in_order(*singles), Pipeline(two_cells(choice)))
    edges = st.lists(st.integers(1, COUNT - 1), max_size=40)
    cuts = [
        [
            one
            for piece in stream
            for one in cut(
                piece,
                {*range(20, len(piece.counts), 20)}
                | {e for e in data.draw(edges) if e < len(piece.counts)},
            )
        ]
        for stream in pieces
    ]
    otherwise = run(in_order(*cuts), Pipeline(two_cells(choice)))
    for field in ARRAYS:
        assert joined(otherwise, field).tobytes() == joined(whole, field).tobytes()
    expected, found = [
        np.concatenate([b.first_index + np.arange(len(b)) for b in blocks])
        for blocks in (whole, otherwise)
    ]
    np.testing.assert_array_equal(found, expected)
    assert sum(b.lost for b in whole) == sum(b.lost for b in otherwise)


@settings(max_examples=6, deadline=None)
@given(sizes=st.lists(st.integers(1, 400), min_size=1, max_size=30))
def test_the_same_bytes_give_the_same_numbers_however_they_are_read(
    sizes: list[int],
) -> None:
    first, second = pulls()
    frames = both(
        lambda t: float(first[round(t / PERIOD_US)]),
        lambda t: float(second[round((t - 5_200) / PERIOD_US)]),
    )
    data = b"".join(map(encode, frames))
    expected = run(frames, Pipeline(two_cells(FilterChoice())))
    decoder, pipeline = Decoder(), Pipeline(two_cells(FilterChoice()))
    blocks: list[Block] = []
    while data:
        size = sizes[len(data) % len(sizes)]
        for found in decoder.push(data[:size]):
            assert isinstance(found, Samples)
            blocks += pipeline.push(found)
        data = data[size:]
    for field in ARRAYS:
        assert joined(blocks, field).tobytes() == joined(expected, field).tobytes()


# Gaps: nothing is filled in.


def test_a_hole_in_the_second_stream_costs_the_samples_in_it() -> None:
    frames = both(lambda t: t / 100, lambda t: t / 50)
    frames = [f for f in frames if not (f.stream == 1 and 40 <= f.sequence < 45)]
    blocks = run(frames)
    [after] = [block for block in blocks if block.lost]
    # The last neighbour before the hole is at 39, the first behind it at 45.
    assert after.lost == 6
    assert after.gap
    assert total(blocks) == COUNT - 1 - 6
    counts = joined(blocks, "counts")
    times_us = joined(blocks, "time_s") * 1e6 + PERIOD_US
    np.testing.assert_allclose(counts[:, 1], times_us / 50, atol=1.0)


def test_one_sample_lost_of_the_second_stream_is_a_hole_too() -> None:
    frames = both(lambda t: t / 100, lambda t: t / 50)
    frames = [f for f in frames if (f.stream, f.sequence) != (1, 40)]
    assert [block.lost for block in run(frames) if block.gap] == [2]


def test_a_hole_in_the_first_stream_is_a_gap() -> None:
    frames = both(lambda t: t / 100, lambda t: t / 50)
    frames = [f for f in frames if not (f.stream == 0 and 40 <= f.sequence < 45)]
    blocks = run(frames)
    [after] = [block for block in blocks if block.lost]
    assert (after.lost, after.gap) == (5, True)
    assert total(blocks) == COUNT - 1 - 5


def test_a_chip_that_pauses_without_a_jump_is_not_bridged() -> None:
    """Its numbers go on, its time does not: a line across would be invented."""
    early = chip(1, constant(100), count=40, first_us=5_200)
    late = [
        dataclasses.replace(f, sequence=f.sequence + 40, time_us=f.time_us + 900_000)
        for f in chip(1, constant(5_000), count=40, first_us=5_200)
    ]
    blocks = run(in_order(chip(0, constant(1)), early, late))
    assert set(joined(blocks, "counts")[:, 1].tolist()) == {100, 5_000}
    assert sum(block.lost for block in blocks) > 20


def test_a_saturated_neighbour_makes_the_sample_saturated() -> None:
    frames = [
        dataclasses.replace(f, saturated=np.ones((1, 1), np.bool_))
        if f.stream == 1 and f.sequence == 50
        else f
        for f in both(constant(1), constant(2))
    ]
    blocks = run(frames)
    saturated = joined(blocks, "saturated").astype(bool)
    assert not saturated[:, 0].any()
    # It is the neighbour of the sample before it and of the one after it.
    assert np.flatnonzero(saturated[:, 1]).tolist() == [49, 50]
    assert np.isnan(joined(blocks, "force_n")[49:51]).all()
    assert not np.isnan(joined(blocks, "force_n")[[48, 51]]).any()


def test_code_at_the_stop_is_never_part_of_a_number() -> None:
    frames = [
        dataclasses.replace(f, counts=np.full((1, 1), 2**23 - 1, np.int32))
        if f.stream == 1 and f.sequence == 50
        else f
        for f in both(constant(1), constant(2))
    ]
    forces = joined(run(frames), "force_n")
    assert np.isnan(forces[49:51]).all()
    assert np.nanmax(forces) == 2.0


def test_settling_of_either_chip_is_settling() -> None:
    frames = [
        dataclasses.replace(f, settling=np.ones(1, np.bool_))
        if (f.stream, f.sequence) in {(0, 30), (1, 60)}
        else f
        for f in both(constant(1), constant(2))
    ]
    good = joined(run(frames), "good").astype(bool)
    assert np.flatnonzero(~good).tolist() == [29, 59, 60]


def test_a_spike_in_the_second_stream_is_not_spread_out() -> None:
    frames = [
        dataclasses.replace(f, counts=np.full((1, 1), 900_000, np.int32))
        if f.stream == 1 and f.sequence == 50
        else f
        for f in both(constant(1), constant(2))
    ]
    choice = dataclasses.replace(rig().filter, despike=True)
    blocks = run(frames, Pipeline(two_cells(choice)))
    np.testing.assert_array_equal(joined(blocks, "force_n"), [[1.0, 2.0]] * 119)
    assert joined(blocks, "counts").max() > 100_000  # these stay as they came


# Time.


def test_the_counter_may_wrap_between_the_streams() -> None:
    start_us = 2**32 - 300_000

    def ramp(us: float) -> float:
        return (us - start_us) * 0.01

    frames = in_order(
        chip(0, ramp, first_us=start_us), chip(1, ramp, first_us=start_us + 6_000)
    )
    wrapped = sorted(frames, key=lambda f: (f.time_us - start_us) % SEQUENCE_MODULUS)
    counts = joined(run(wrapped), "counts")
    assert np.abs(counts[:, 1] - counts[:, 0]).max() <= 1
    assert len(counts) == COUNT - 1


def test_a_reset_does_not_shift_one_stream_against_the_other() -> None:
    """After it both begin again at other moments than they stopped at.

    The last samples before it wait for a second chip that never got so far.
    """
    before = both(lambda t: t * 0.01, lambda t: t * 0.01)
    before = [f for f in before if f.stream == 0 or f.sequence < COUNT - 5]
    after = in_order(
        chip(0, lambda t: 1e6 + t * 0.01, first_us=311_000),
        chip(1, lambda t: 1e6 + t * 0.01, first_us=302_000),
    )
    blocks = run([*before, *after])
    counts = joined(blocks, "counts")
    assert np.abs(counts[:, 1] - counts[:, 0]).max() <= 1
    assert total(blocks) == (COUNT - 1 - 5) + (COUNT - 2)
    assert [block.lost for block in blocks if block.gap] == [7]
    assert (np.diff(joined(blocks, "time_s")) > 0).all()


def test_a_silent_second_chip_gives_nothing_and_is_not_waited_for() -> None:
    pipeline = Pipeline(two_cells())
    frames = both(constant(1), constant(2))
    before = run(frames, pipeline)
    alone = chip(0, constant(3), count=20 * 80, first_us=COUNT * PERIOD_US)
    alone = [dataclasses.replace(f, sequence=f.sequence + COUNT) for f in alone]
    assert total(run(alone, pipeline)) == 0
    held = pipeline._aligner._lanes[0].kept  # type: ignore[union-attr]
    assert len(held) <= WAIT_S * 80 + 1
    back_us = (COUNT + 20 * 80) * PERIOD_US
    back = [
        *chip(1, constant(4), first_us=back_us + 5_000),
        *chip(0, constant(3), first_us=back_us),
    ]
    numbered = [
        dataclasses.replace(
            f, sequence=f.sequence + (COUNT + 1600 if not f.stream else COUNT)
        )
        for f in in_order(back)
    ]
    blocks = run(numbered, pipeline)
    assert blocks[0].gap
    assert blocks[0].first_index == total(before) + blocks[0].lost
    assert blocks[0].lost == pytest.approx(1600, abs=3)
    assert set(joined(blocks, "counts")[:, 1].tolist()) == {4}


# What fits.


@pytest.mark.parametrize("stream", [2, 3])
def test_a_third_stream_is_refused(stream: int) -> None:
    with pytest.raises(RigError, match=rf"stream number {stream}\. .*understood: 2"):
        Pipeline(two_cells()).push(frame(stream, 0, [1]))


def test_a_stream_of_two_channels_is_refused() -> None:
    wide = dataclasses.replace(
        frame(0, 0, [1]),
        counts=np.zeros((1, 2), np.int32),
        saturated=np.zeros((1, 2), np.bool_),
    )
    with pytest.raises(RigError, match=r"sends 4 channels and .* describes 2"):
        Pipeline(two_cells()).push(wide)


def test_blocks_are_read_only() -> None:
    block = run(both(constant(1), constant(2)))[0]
    arrays: list[npt.NDArray[np.generic]] = [getattr(block, name) for name in ARRAYS]
    assert not any(array.flags.writeable for array in arrays)


def test_a_board_that_starts_anew_is_one_gap_of_unknown_length() -> None:
    """Both chips count from 0 again; it is told once, and not at a known loss."""
    before = both(lambda t: t / 100, lambda t: t / 50)
    blocks = run([*before, *before])
    [anew] = [block for block in blocks if block.lost]
    assert (anew.gap, anew.restarted) == (True, True)
    assert sum(block.restarted for block in blocks) == 1
