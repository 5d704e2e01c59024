from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wire.frame_examples import EXAMPLES

from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Close, Damage, Event, Header
from biofeedback.wire.limits import ENCODED_MAX
from biofeedback.wire.splitter import Splitter

WIRES = [encode(frame) for frame in EXAMPLES.values()]
ALL = b"".join(WIRES)


def test_whole_frames_are_passed_on_and_the_rest_is_held() -> None:
    splitter = Splitter()
    first, second = WIRES[0], WIRES[1]
    assert splitter.push(first + second[:5]) == first
    assert splitter.held_bytes == 5
    assert splitter.push(second[5:-1]) == b""
    assert splitter.push(b"\0") == second
    assert splitter.held_bytes == 0


@given(
    st.lists(
        st.one_of(st.binary(max_size=20), st.sampled_from(WIRES)), max_size=15
    ).map(b"".join),
    st.lists(st.integers(0, 3000), max_size=10),
)
def test_any_cuts_give_the_same_and_end_at_a_border(
    data: bytes, places: list[int]
) -> None:
    edges = [0, *sorted(min(place, len(data)) for place in places), len(data)]
    splitter = Splitter()
    passed = b""
    for start, end in itertools.pairwise(edges):
        piece = splitter.push(data[start:end])
        assert not piece or piece.endswith(b"\0")
        passed += piece
    assert passed == data[: data.rfind(b"\0") + 1]
    assert splitter.held_bytes == len(data) - len(passed)


@settings(max_examples=30)
@given(
    st.integers(ENCODED_MAX - 1, ENCODED_MAX + 3),
    st.lists(st.integers(0, ENCODED_MAX + 500), max_size=6),
    st.booleans(),
)
def test_too_long_a_run_ends_in_a_border_however_it_is_cut(
    length: int, places: list[int], ended: bool
) -> None:
    good = WIRES[0]
    data = good + b"\x05" * length + (b"\0" + good if ended else b"")
    whole = Splitter()
    expected = whole.push(data)
    edges = [0, *sorted(min(place, len(data)) for place in places), len(data)]
    splitter = Splitter()
    passed = b""
    for start, end in itertools.pairwise(edges):
        passed += splitter.push(data[start:end])
        assert splitter.held_bytes <= ENCODED_MAX
    assert passed == expected
    assert splitter.dropped_bytes == whole.dropped_bytes
    found = Decoder().push(passed)
    if length > ENCODED_MAX:
        kept = ENCODED_MAX + 1
        assert found[:2] == [EXAMPLES["identify"], Damage(kept, "too long")]
        assert len(passed) + splitter.dropped_bytes == len(data) + 1
    if ended:
        assert found[-1] == EXAMPLES["identify"]


def test_what_follows_too_long_a_run_is_dropped_up_to_the_next_border() -> None:
    splitter = Splitter()
    passed = b"".join(splitter.push(b"\x05" * 1000) for _ in range(100))
    assert Decoder().push(passed) == [Damage(ENCODED_MAX + 1, "too long")]
    assert splitter.push(b"\x05\x05\0" + WIRES[0]) == WIRES[0]
    assert splitter.dropped_bytes == 100_003 - (ENCODED_MAX + 1)


def test_a_frame_put_in_between_is_always_read() -> None:
    """The very reason for the splitter: borders hold, whatever came before."""
    for end in range(0, len(ALL), 7):
        splitter = Splitter()
        recording = splitter.push(ALL[:end]) + encode(Event({"put": "in"}))
        found = Decoder().push(recording + splitter.push(ALL[end:]))
        assert Event({"put": "in"}) in found
        assert len(found) == len(EXAMPLES) + 1


@pytest.mark.parametrize("byte_by_byte", [True, False])
def test_a_board_may_not_write_into_a_recording(byte_by_byte: bool) -> None:
    splitter = Splitter(from_board=True)
    pieces = [ALL[i : i + 1] for i in range(len(ALL))] if byte_by_byte else [ALL]
    found = Decoder().push(b"".join(splitter.push(piece) for piece in pieces))
    assert len(found) == len(EXAMPLES) - 3
    assert not any(isinstance(frame, Header | Event | Close) for frame in found)
    assert splitter.refused == 3
