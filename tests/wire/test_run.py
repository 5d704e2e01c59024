"""Frames that are decoded together, against zlib and against one by one."""

from __future__ import annotations

import zlib
from itertools import chain, pairwise
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from wire.frame_examples import samples

from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage, Samples, Status
from biofeedback.wire.run import Run, _crcs

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.wire.frames import Frame

STATUS = Status(0, 1, 0, 0, 0, True, (False,), (0,))


@given(
    st.integers(1, 250).flatmap(
        lambda size: st.lists(st.binary(min_size=size, max_size=size), min_size=1)
    )
)
def test_the_check_of_many_messages_is_that_of_zlib(messages: list[bytes]) -> None:
    columns = np.array([list(one) for one in messages], np.uint8).T
    assert _crcs(columns).tolist() == [zlib.crc32(one) for one in messages]


def stream(frames: int, each: int, *, stream: int = 0, first: int = 0) -> list[Samples]:
    """Frames of two channels with both signs and zeros in their counts."""
    return [
        samples(
            [[(first + number + i) - 40, 0] for i in range(each)],
            sequence=first + number,
            stream=stream,
            time_us=1000 * (first + number),
            step_us=1000 if each > 1 else 0,
        )
        for number in range(0, frames * each, each)
    ]


def lines(frames: Iterable[Frame]) -> bytes:
    return b"".join(encode(one) for one in frames)


def told(found: Iterable[Frame | Damage]) -> list[tuple[object, ...]]:
    """What can be compared: arrays do not say whether they are equal."""
    return [
        (one.stream, one.sequence, one.time_us, one.step_us, one.counts.tolist())
        if isinstance(one, Samples)
        else (one,)
        for one in found
    ]


@pytest.mark.parametrize("each", [1, 3, 8])
def test_frames_that_look_alike_come_as_one_run(each: int) -> None:
    sent = stream(300, each)
    data = lines(sent)
    (first, run) = Decoder().push_runs(data)  # the first may go on with what is held
    assert isinstance(first, Samples)
    assert isinstance(run, Run)
    assert (len(run), run.each, run.counts.shape) == (299, each, (299 * each, 2))
    assert told([first, *run.frames()]) == told(sent)
    assert told(run.part(5, 9).frames()) == told(sent[6:10])


def test_what_comes_between_ends_a_run() -> None:
    sent: list[Frame] = [*stream(100, 3), STATUS, *stream(100, 3, first=300)]
    found = Decoder().push_runs(lines(sent))
    assert [type(one) for one in found] == [Samples, Run, Status, Run]
    assert [len(one) for one in found if isinstance(one, Run)] == [99, 100]


def test_a_damaged_frame_stands_in_its_place() -> None:
    data = bytearray(lines(stream(200, 3)))
    data[100 * len(data) // 200 + 20] ^= 0x40
    found = Decoder().push_runs(bytes(data))
    assert [type(one) for one in found] == [Samples, Run, Damage, Run]
    assert [len(one) for one in found if isinstance(one, Run)] == [99, 99]


def test_two_streams_that_take_turns_keep_their_order() -> None:
    pairs = zip(stream(200, 1), stream(200, 1, stream=1), strict=True)
    sent = list(chain.from_iterable(pairs))
    assert told(Decoder().push(lines(sent))) == told(sent)


@given(cut=st.integers(0, 20_000), again=st.integers(0, 20_000))
def test_where_the_bytes_are_cut_does_not_matter(cut: int, again: int) -> None:
    sent: list[Frame] = [*stream(150, 3), STATUS, *stream(150, 8, first=450)]
    data = lines(sent)
    places = sorted({0, cut % len(data), again % len(data), len(data)})
    decoder = Decoder()
    found = [
        one for begin, end in pairwise(places) for one in decoder.push(data[begin:end])
    ]
    assert told(found) == told(sent)


def test_a_few_frames_of_a_live_line_are_read_together() -> None:
    sent: list[Frame] = [*stream(5, 3), STATUS, *stream(2, 3, first=15), *stream(1, 8)]
    found = Decoder().push_runs(lines(sent))
    assert [type(one) for one in found] == [Run, Status, Run, Samples]
    alone = [one for frame in sent for one in Decoder().push(encode(frame))]
    assert told(Decoder().push(lines(sent))) == told(alone) == told(sent)
    first = found[0]
    assert isinstance(first, Run)
    assert first.counts.dtype == np.int32
    assert not first.counts.flags.writeable
