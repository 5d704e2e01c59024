"""The decoder on whole, cut, damaged and hostile input.

Samples are numbered in their counts, so that none can be lost, doubled or moved
without being seen.
"""

from __future__ import annotations

import itertools
import struct
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wire.frame_examples import EXAMPLES, head, samples, sealed

from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN, Damage, Frame, Samples
from biofeedback.wire.limits import ENCODED_MAX

if TYPE_CHECKING:
    from collections.abc import Iterable

ALL = b"".join(encode(frame) for frame in EXAMPLES.values())


def told(frames: Iterable[Frame | Damage]) -> list[object]:
    """Frames in a form that can be compared."""
    return [
        (
            frame.sequence,
            frame.stream,
            frame.time_us,
            frame.step_us,
            frame.counts.tolist(),
            frame.saturated.tolist(),
            frame.settling.tolist(),
        )
        if isinstance(frame, Samples)
        else frame
        for frame in frames
    ]


def cut(data: bytes, places: Iterable[int]) -> list[bytes]:
    edges = [0, *sorted(place % (len(data) + 1) for place in places), len(data)]
    return [data[start:end] for start, end in itertools.pairwise(edges)]


def numbered(first: int, count: int, frames: int) -> list[Samples]:
    """Frames whose samples carry their own number in both channels."""
    return [
        samples(
            [[i, -i] for i in range(start, start + count)],
            sequence=start,
            time_us=12_500 * start,
        )
        for start in range(first, first + count * frames, count)
    ]


def check_numbers(frames: Iterable[Frame | Damage]) -> list[int]:
    """The numbers of all samples, each of which is where its frame says."""
    numbers: list[int] = []
    for frame in frames:
        if isinstance(frame, Samples):
            expected = frame.sequence + np.arange(len(frame.counts))
            assert frame.counts[:, 0].tolist() == expected.tolist()
            assert frame.counts[:, 1].tolist() == (-expected).tolist()
            assert frame.time_us == 12_500 * frame.sequence
            numbers += expected.tolist()
    return numbers


def test_whole_and_byte_by_byte_give_the_same() -> None:
    whole = told(Decoder().push(ALL))
    assert whole == told(EXAMPLES.values())
    decoder = Decoder()
    assert told(f for i in range(len(ALL)) for f in decoder.push(ALL[i : i + 1])) == (
        whole
    )
    assert decoder.held_bytes == 0


@given(st.lists(st.integers(0, len(ALL)), max_size=20))
def test_any_cuts_give_the_same(places: list[int]) -> None:
    decoder = Decoder()
    pieces = cut(ALL, places)
    assert told(f for piece in pieces for f in decoder.push(piece)) == told(
        EXAMPLES.values()
    )


@given(
    st.lists(
        st.one_of(
            st.binary(max_size=30),
            st.sampled_from([encode(frame) for frame in EXAMPLES.values()]),
            st.just(b"\0"),
        ),
        max_size=15,
    ).map(b"".join),
    st.lists(st.integers(0, 10_000), max_size=10),
)
def test_any_cuts_of_garbage_and_frames_give_the_same(
    data: bytes, places: list[int]
) -> None:
    one, many = Decoder(), Decoder()
    whole = one.push(data)
    pieces = [frame for piece in cut(data, places) for frame in many.push(piece)]
    assert told(whole) == told(pieces)
    assert one.held_bytes == many.held_bytes
    assert one.unknown == many.unknown


@settings(max_examples=100)
@given(st.lists(st.binary(max_size=300), max_size=20))
def test_garbage_never_raises_and_is_not_kept(pieces: list[bytes]) -> None:
    decoder = Decoder()
    for piece in pieces:
        decoder.push(piece)
        assert decoder.held_bytes <= ENCODED_MAX
    decoder.push(b"\0")
    good = encode(EXAMPLES["status"])
    assert decoder.push(good) == [EXAMPLES["status"]]


MANY = [
    *numbered(1, 3, 60),
    EXAMPLES["status"],
    *numbered(1000, 3, 40),
    *numbered(2000, 8, 90),
    EXAMPLES["event"],
    samples(
        [[COUNTS_MAX, COUNTS_MIN], [0, -1], [1, 0]],
        sequence=9,
        saturated=[[True, True], [False, False], [False, False]],
    ),
    *numbered(5000, 1, 40),
]


def test_many_frames_at_once_are_those_that_came_one_by_one() -> None:
    """Zeros in the counts, stops of the scale and other kinds among them.

    Of the stops the board says nothing.
    """
    data = b"".join(
        encode(
            replace(frame, saturated=np.zeros_like(frame.saturated))
            if isinstance(frame, Samples)
            else frame
        )
        for frame in MANY
    )
    assert told(Decoder().push(data)) == told(MANY)
    assert told(f for frame in MANY for f in Decoder().push(encode(frame))) == (
        told(MANY)
    )
    found = [f for f in Decoder().push(data) if isinstance(f, Samples)]
    assert not any(f.counts.flags.writeable for f in found)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 100_000), st.integers(0, 255)), max_size=40))
def test_many_damaged_frames_at_once_are_judged_as_one_by_one(
    changes: list[tuple[int, int]],
) -> None:
    data = bytearray(b"".join(encode(frame) for frame in MANY))
    for place, value in changes:
        data[place % len(data)] = value
    single = Decoder()
    one_by_one = [
        f
        for at in range(0, len(data), 9)
        for f in single.push(bytes(data[at : at + 9]))
    ]
    assert told(Decoder().push(bytes(data))) == told(one_by_one)


@pytest.mark.parametrize(
    "changed",
    [
        {"stream": 4},
        {"step_us": 0},
        {"step_us": 2**31},
        {"channels": 5},
        {"count": 4},
    ],
    ids=str,
)
def test_many_sound_frames_that_say_something_impossible(
    changed: dict[str, int],
) -> None:
    """The CRC is right, so only what they say can be the reason."""
    layout = {"stream": 0, "channels": 2, "count": 3, "time_us": 7, "step_us": 10}
    said = {**layout, **changed}
    payload = struct.pack("<BBBII", *said.values()) + bytes(range(1, 22))
    data = sealed(head(2, 5) + payload) * 40
    found = Decoder().push(data)
    assert [type(one) for one in found] == [Damage] * 40
    assert found == [f for byte in data for f in _SINGLE.push(bytes((byte,)))]


_SINGLE = Decoder()


def test_samples_that_nobody_wants_are_passed_over() -> None:
    data = b"".join(encode(frame) for frame in MANY)
    for size in (1, 50, 100_000):
        decoder = Decoder(samples=False)
        pieces = [data[at : at + size] for at in range(0, len(data), size)]
        assert [f for piece in pieces for f in decoder.push(piece)] == [
            EXAMPLES["status"],
            EXAMPLES["event"],
        ]


def test_much_random_garbage_holds_no_frame() -> None:
    garbage = np.random.default_rng(1).integers(0, 256, 1_000_000, np.uint8).tobytes()
    decoder = Decoder()
    found = decoder.push(garbage)
    assert len(found) > 3000
    assert all(isinstance(frame, Damage) for frame in found)
    assert decoder.held_bytes <= ENCODED_MAX


@pytest.mark.parametrize("chunk", [1000, 70_000, 200_000])
def test_a_line_without_delimiters_is_bounded(chunk: int) -> None:
    decoder = Decoder()
    total = 0
    while total < 200_000:
        assert decoder.push(b"\x55" * chunk) == []
        total += chunk
        assert decoder.held_bytes <= ENCODED_MAX
    assert decoder.push(b"\0") == [Damage(total, "too long")]
    assert decoder.push(encode(EXAMPLES["stop"])) == [EXAMPLES["stop"]]


def test_the_longest_run_is_still_read_as_one() -> None:
    assert Decoder().push(b"\x01" * ENCODED_MAX + b"\0") == [
        Damage(ENCODED_MAX, "too long")  # more raw bytes than type 0 may have
    ]
    assert Decoder().push(b"\x05" * ENCODED_MAX + b"\0")[0] == Damage(
        ENCODED_MAX, "too long"
    )


def test_empty_frames_are_no_damage() -> None:
    data = b"\0\0" + encode(EXAMPLES["start"]) + b"\0\0\0" + encode(EXAMPLES["stop"])
    assert Decoder().push(data) == [EXAMPLES["start"], EXAMPLES["stop"]]


@pytest.mark.parametrize("zeros", [1, 2, 65_536])
def test_a_run_of_zeros_ends_what_came_before_and_no_more(zeros: int) -> None:
    whole = encode(EXAMPLES["status"])
    decoder = Decoder()
    assert decoder.push(whole[:-1]) == []
    assert told(decoder.push(bytes(zeros))) == told([EXAMPLES["status"]])
    assert decoder.push(bytes(zeros)) == []
    assert told(decoder.push(whole)) == told([EXAMPLES["status"]])


def test_unknown_types_are_counted_and_passed_over() -> None:
    decoder = Decoder()
    data = sealed(head(0x3F) + b"new") + encode(EXAMPLES["stop"])
    assert decoder.push(data) == [EXAMPLES["stop"]]
    assert decoder.unknown == 1


def test_half_a_frame_at_the_start_costs_only_itself() -> None:
    frames = numbered(0, 4, 5)
    wire = b"".join(encode(frame) for frame in frames)
    for start in range(1, len(encode(frames[0]))):
        found = Decoder().push(wire[start:])
        assert check_numbers(found) == list(range(4, 20))


def test_a_frame_cut_at_the_end_is_not_given() -> None:
    frames = numbered(0, 4, 5)
    wire = b"".join(encode(frame) for frame in frames)
    size = len(wire)
    lengths = list(itertools.accumulate(len(encode(frame)) for frame in frames))
    for end in range(size + 1):
        whole = sum(length <= end for length in lengths)
        assert check_numbers(Decoder().push(wire[:end])) == list(range(4 * whole))


@pytest.mark.parametrize("channel_bit", range(8))
def test_a_flipped_bit_costs_one_frame(channel_bit: int) -> None:
    """Or two, where the flip takes away the delimiter between them."""
    frames = numbered(1000, 3, 6)
    wire = b"".join(encode(frame) for frame in frames)
    lengths = [0, *itertools.accumulate(len(encode(frame)) for frame in frames)]
    for place in range(len(wire)):
        flipped = bytearray(wire)
        flipped[place] ^= 1 << channel_bit
        found = Decoder().push(bytes(flipped) + encode(numbered(1018, 3, 1)[0]))
        numbers = check_numbers(found)
        hit = next(i for i in range(6) if lengths[i + 1] > place)
        gone = {hit} | ({hit + 1} if wire[place] == 0 else set())
        assert numbers == [
            1000 + 3 * i + k for i in range(7) if i not in gone for k in range(3)
        ]
        assert any(isinstance(frame, Damage) for frame in found)


@settings(max_examples=100)
@given(st.data())
def test_after_any_damage_what_is_given_is_true(data: st.DataObject) -> None:
    """Bytes changed, lost, doubled or put in: no sample invented or moved."""
    frames = numbered(0, 5, 12)
    wire = bytearray(b"".join(encode(frame) for frame in frames))
    for _ in range(data.draw(st.integers(1, 6))):
        place = data.draw(st.integers(0, len(wire) - 1))
        match data.draw(st.sampled_from(["change", "lose", "double", "put in"])):
            case "change":
                wire[place] = data.draw(st.integers(0, 255))
            case "lose":
                del wire[place : place + data.draw(st.integers(1, 40))]
            case "double":
                wire[place:place] = wire[place : place + 7]
            case _:
                wire[place:place] = data.draw(st.binary(max_size=20))
        if not wire:
            break
    last = numbered(60, 5, 1)[0]
    found = Decoder().push(bytes(wire) + b"\0" + encode(last))
    numbers = check_numbers(found)
    assert numbers == sorted(set(numbers))
    assert numbers[-5:] == list(range(60, 65))
