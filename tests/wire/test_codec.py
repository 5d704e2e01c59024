from __future__ import annotations

import itertools
import struct
import zlib
from dataclasses import fields as dataclass_fields
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wire.frame_examples import EXAMPLES, IDENTITY, head, samples, sealed

from biofeedback.errors import FieldError
from biofeedback.wire.codec import decode, encode, encode_inner
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    Close,
    Damage,
    Event,
    Frame,
    FrameType,
    Gain,
    Header,
    Identify,
    Identity,
    Rate,
    Reply,
    Result,
    Samples,
    Start,
    Status,
    Stop,
)

U8 = st.integers(0, 255)
U32 = st.integers(0, 2**32 - 1)


def same(one: object, other: object) -> bool:
    """Equality that looks into the arrays of samples."""
    if not isinstance(one, Samples) or not isinstance(other, Samples):
        return one == other
    return all(
        np.array_equal(getattr(one, field.name), getattr(other, field.name))
        for field in dataclass_fields(Samples)
    )


@st.composite
def any_samples(draw: st.DrawFn) -> Samples:
    channels = draw(st.integers(1, 4))
    count = draw(st.integers(1, (254 - 21) // (1 + 3 * channels)))
    rng = np.random.default_rng(draw(U32))
    counts = rng.integers(-(2**23), 2**23, (count, channels)).astype(np.int32)
    saturated = rng.random(counts.shape) < 0.2
    saturated |= (counts == 2**23 - 1) | (counts == -(2**23))
    most_us = (2**31 - 1) // max(1, count - 1)
    return Samples(
        draw(U32),
        draw(st.integers(0, 3)),
        draw(U32),
        draw(st.integers(1, most_us)) if count > 1 else 0,
        counts,
        saturated,
        rng.random(count) < 0.5,
    )


@st.composite
def any_identity(draw: st.DrawFn) -> Identity:
    rates = draw(st.lists(st.integers(1, 2**32 - 1), min_size=1, max_size=16))
    gains = draw(st.lists(U8, max_size=16))
    name = st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), max_size=32)
    return Identity(
        draw(U32),
        (1, draw(U8)),
        (draw(U8), draw(U8), draw(U8)),
        tuple(draw(st.lists(st.integers(1, 4), min_size=1, max_size=4))),
        tuple(rate / 1000.0 for rate in rates),
        draw(st.integers(0, len(rates) - 1)),
        tuple(gains),
        draw(st.integers(0, max(0, len(gains) - 1))),
        draw(st.integers(1, 24)),
        draw(name),
        draw(name),
    )


@st.composite
def any_status(draw: st.DrawFn) -> Status:
    streams = draw(st.integers(1, 4))
    return Status(
        draw(U32),
        draw(U32),
        draw(U32),
        draw(U32),
        draw(U32),
        streaming=draw(st.booleans()),
        silent=tuple(draw(st.booleans()) for _ in range(streams)),
        next_sequences=tuple(draw(U32) for _ in range(streams)),
    )


JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**63) + 1, 2**63 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=["Cs"]), max_size=10),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text("abcÅ", max_size=3), inner, max_size=3)
    ),
    max_leaves=8,
)
OBJECT = st.dictionaries(st.text("xyz", max_size=3), JSON, max_size=4)


def any_frame() -> st.SearchStrategy[Frame]:
    return st.one_of(
        any_samples(),
        any_identity(),
        any_status(),
        st.builds(Reply, U32, U8, st.sampled_from(FrameType), st.sampled_from(Result)),
        st.builds(Identify, U8, U32),
        st.builds(Start, U8, U32),
        st.builds(Stop, U8, U32),
        st.builds(Rate, U8, U32.map(lambda mhz: mhz / 1000.0), U32),
        st.builds(Gain, U8, U8, U32),
        st.builds(Header, OBJECT, U32),
        st.builds(Event, OBJECT, U32),
        st.builds(Close, OBJECT, U32),
    )


@given(any_frame())
def test_every_frame_comes_back(frame: Frame) -> None:
    assert same(decode(encode_inner(frame)), frame)


@given(any_frame())
def test_frames_stay_within_their_size(frame: Frame) -> None:
    wire = encode(frame)
    assert wire[-1] == 0
    assert 0 not in wire[:-1]
    if not isinstance(frame, Header | Event | Close):
        assert len(wire) <= 256


def test_a_samples_frame_is_laid_out_as_the_protocol_says() -> None:
    """Written here with struct alone, field by field."""
    body = struct.pack("<BBI", 2, 0, 0xFFFFFFFE)
    body += struct.pack("<BBBII", 1, 2, 2, 4_000_000_000, 500)
    body += b"\x02" + b"\x56\x34\x12" + b"\xba\xdc\xfe"
    body += b"\x10" + b"\x01\x00\x80" + b"\x00\x00\xff"
    frame = decode(body + struct.pack("<I", zlib.crc32(body)))
    assert isinstance(frame, Samples)
    assert (frame.sequence, frame.stream) == (0xFFFFFFFE, 1)
    assert (frame.time_us, frame.step_us) == (4_000_000_000, 500)
    assert frame.counts.tolist() == [[1193046, -74566], [-8388607, -65536]]
    assert frame.saturated.tolist() == [[False, True], [False, False]]
    assert frame.settling.tolist() == [False, True]
    assert frame.counts.dtype == np.int32


@pytest.mark.parametrize(
    ("code", "counts", "saturated"),
    [
        ("000000", 0, False),
        ("000001", 1, False),
        ("7FFFFF", 8388607, True),
        ("800000", -8388608, True),
        ("800001", -8388607, False),
        ("FFFFFF", -1, False),
        ("123456", 1193046, False),
        ("FEDCBA", -74566, False),
        ("FF0000", -65536, False),
    ],
)
@pytest.mark.parametrize("channel", range(4))
def test_the_sign_is_extended(
    code: str, counts: int, saturated: bool, channel: int
) -> None:
    """24-bit two's complement as in the AVIA HX711 data sheet: 800000 … 7FFFFF.

    The ends of the scale are saturated whatever the board says of them.
    """
    row = bytearray(b"\x00" + b"\x5a" * 12)
    row[1 + 3 * channel : 4 + 3 * channel] = bytes.fromhex(code)[::-1]
    body = head(2) + struct.pack("<BBBII", 0, 4, 1, 0, 0) + bytes(row)
    frame = decode(body + struct.pack("<I", zlib.crc32(body)))
    assert isinstance(frame, Samples)
    assert frame.counts[0, channel] == counts
    assert frame.saturated[0].tolist() == [
        saturated and channel == other for other in range(4)
    ]


def test_decoded_samples_cannot_be_changed() -> None:
    frame = decode(encode_inner(samples([[1, 2]])))
    assert isinstance(frame, Samples)
    for array in (frame.counts, frame.saturated, frame.settling):
        with pytest.raises(ValueError, match="read-only"):
            array[0] = 0


@pytest.mark.slow
def test_every_flip_of_up_to_three_bits_is_refused() -> None:
    """A frame of 16 bytes in all: CRC-32 finds them for certain.

    P. Koopman, "32-Bit Cyclic Redundancy Codes for Internet Applications", DSN
    2002: Hamming distance 7 up to 171 data bits, and this frame has 96.
    """
    body = head(2, sequence=77) + b"\x01\x02\x03\x04\x05\x06"
    inner = int.from_bytes(body + struct.pack("<I", zlib.crc32(body)), "little")
    assert len(body) + 4 == 16
    bits = [1 << bit for bit in range(128)]
    passed = 0
    for one, first in enumerate(bits):
        flips = [first]
        flips += [first | second for second in bits[one + 1 :]]
        flips += [first | a | b for a, b in itertools.combinations(bits[one + 1 :], 2)]
        for flip in flips:
            outcome = decode((inner ^ flip).to_bytes(16, "little"))
            passed += not (isinstance(outcome, Damage) and outcome.reason != "content")
    assert passed == 0


def test_zeros_are_no_frame() -> None:
    for size in range(300):
        assert isinstance(decode(bytes(size)), Damage)


def test_flags_and_reserved_bits_are_ignored() -> None:
    body = bytearray(encode_inner(samples([[5]]))[:-4])
    body[1] = 0xFF
    body[17] |= 0xE0
    frame = decode(bytes(body) + struct.pack("<I", zlib.crc32(body)))
    assert same(frame, samples([[5]]))
    status = bytearray(encode_inner(EXAMPLES["status"])[:-4])
    status[6 + 16] |= 0xFE
    status[6 + 17] |= 0xFE
    sealed_status = bytes(status) + struct.pack("<I", zlib.crc32(status))
    assert decode(sealed_status) == EXAMPLES["status"]


@pytest.mark.parametrize(
    "name",
    [
        name
        for name, frame in EXAMPLES.items()
        if not isinstance(frame, Samples | Header | Event | Close)
        and "longest" not in name
    ],
)
def test_fields_of_a_later_minor_version_are_passed_over(name: str) -> None:
    body = encode_inner(EXAMPLES[name])[:-4] + b"later"
    assert decode(body + struct.pack("<I", zlib.crc32(body))) == EXAMPLES[name]


def test_unknown_types_are_passed_over() -> None:
    for kind in set(range(256)) - {int(known) for known in FrameType}:
        body = head(kind) + b"whatever"
        assert decode(body + struct.pack("<I", zlib.crc32(body))) is None


def test_of_another_major_version_only_the_version_is_read() -> None:
    decoder = Decoder()
    (frame,) = decoder.push(sealed(head(1) + b"\x02\x05" + b"\xff" * 20))
    assert isinstance(frame, Identity)
    assert frame.protocol == (2, 5)
    assert frame.channels == 0
    assert frame.rate_hz == 0.0


def wrong_frames() -> list[Any]:
    good = samples([[1, 2], [3, 4]])
    return [
        replace(good, counts=np.array([[1, 2], [3, 2**23]], np.int32)),
        replace(good, counts=np.array([[1, 2], [3, -(2**23) - 1]], np.int32)),
        replace(good, step_us=0),
        replace(good, time_us=-1),
        replace(good, sequence=2**32),
        replace(good, stream=4),
        replace(good, settling=np.zeros(3, np.bool_)),
        replace(good, saturated=np.zeros((2, 1), np.bool_)),
        samples([[1] * 5]),
        samples([[1]] * 59),
        samples([[1]] * 256),
        Samples(
            0,
            0,
            0,
            0,
            np.zeros((0, 1), np.int32),
            np.zeros((0, 1), np.bool_),
            np.zeros(0, np.bool_),
        ),
        replace(IDENTITY, rates_hz=()),
        replace(IDENTITY, rate_index=2),
        replace(IDENTITY, gains=(256,)),
        replace(IDENTITY, adc="Ω"),
        replace(IDENTITY, serial_number="x" * 33),
        replace(IDENTITY, stream_channels=(1,) * 5),
        Status(0, 0, 0, 0, 0, streaming=True, silent=(), next_sequences=()),
        Status(0, 0, 0, 0, 0, streaming=True, silent=(True,), next_sequences=(1, 2)),
        Identify(256),
        Rate(0, -1.0),
        Gain(0, 300),
    ]


@pytest.mark.parametrize("frame", wrong_frames(), ids=repr)
def test_what_does_not_fit_is_not_sent(frame: Frame) -> None:
    with pytest.raises(ValueError):  # noqa: PT011  each names another field
        encode(frame)


@pytest.mark.parametrize(
    "content",
    [
        {"a": float("nan")},
        {"a": float("inf")},
        {"a": 2**63},
        {"a": {1, 2}},
        {"a": "\ud800"},
        {"a": "x" * 65_536},
        {"a": eval("[" * 33 + "]" * 33)},  # noqa: S307  a literal of this test
    ],
    ids=lambda content: repr(content)[:20],
)
def test_content_that_could_not_be_read_is_not_written(
    content: dict[str, object],
) -> None:
    with pytest.raises(FieldError, match="content"):
        encode(Event(content))


def test_content_may_fill_a_frame_to_the_last_byte() -> None:
    room = 65_536 - 10 - len('{"a":""}')
    full = Event({"a": "x" * room})
    assert len(encode_inner(full)) == 65_536
    assert Decoder().push(encode(full)) == [full]
    with pytest.raises(FieldError):
        encode(Event({"a": "x" * (room + 1)}))


def test_deep_nesting_in_hostile_json_is_only_damage() -> None:
    deep = b'{"a":' + b"[" * 60_000 + b"}"
    assert Decoder().push(sealed(head(0x81) + deep)) == [
        Damage(len(sealed(head(0x81) + deep)) - 1, "content")
    ]


@settings(max_examples=300)
@given(st.sampled_from(FrameType), st.binary(max_size=240))
def test_any_payload_with_a_right_crc_is_read_or_refused(
    kind: FrameType, payload: bytes
) -> None:
    body = head(kind) + payload
    outcome = decode(body + struct.pack("<I", zlib.crc32(body)))
    if outcome is not None and not isinstance(outcome, Damage):
        if isinstance(outcome, Identity) and outcome.protocol[0] != 1:
            return
        assert same(decode(encode_inner(outcome)), outcome)
