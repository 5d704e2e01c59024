"""Frames that firmware and program are both tested with.

`PYTHONPATH=.:tests python -m wire.frame_examples` writes `tests/vectors/frames.csv`
and `refused.csv` anew; `test_vectors.py` checks them against slow code of its own.
"""

from __future__ import annotations

import csv
import struct
import zlib
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.wire import cobs
from biofeedback.wire.codec import encode, encode_inner
from biofeedback.wire.frames import (
    Close,
    Event,
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

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from biofeedback.wire.frames import Frame

VECTORS = Path(__file__).parents[1] / "vectors"


def samples(
    counts: Sequence[Sequence[int]],
    *,
    sequence: int = 0,
    stream: int = 0,
    time_us: int = 0,
    step_us: int | None = None,
    saturated: Sequence[Sequence[bool]] | None = None,
    settling: Sequence[bool] | None = None,
) -> Samples:
    """A frame of samples; 12.5 ms apart where there are several."""
    table = np.array(counts, np.int32)
    if step_us is None:
        step_us = 12_500 if len(table) > 1 else 0
    return Samples(
        sequence % 2**32,
        stream,
        time_us % 2**32,
        step_us,
        table,
        np.zeros(table.shape, np.bool_)
        if saturated is None
        else np.array(saturated, np.bool_),
        np.zeros(len(table), np.bool_)
        if settling is None
        else np.array(settling, np.bool_),
    )


IDENTITY = Identity(
    0,
    (1, 0),
    (1, 2, 3),
    (2,),
    (10.0, 80.0),
    1,
    (128, 64),
    0,
    24,
    "HX711",
    "A1B2",
)

EXAMPLES: dict[str, Frame] = {
    "identify": Identify(7),
    "identity": IDENTITY,
    "identity of two streams without gains": Identity(
        4_294_967_295,
        (1, 7),
        (0, 0, 1),
        (1, 1),
        (10.0, 80.0, 92.5),
        2,
        (),
        0,
        20,
        "",
        "",
    ),
    "identity at its longest": Identity(
        0,
        (1, 0),
        (255, 255, 255),
        (4, 4, 4, 4),
        tuple(1000.0 * rate for rate in range(1, 17)),
        15,
        tuple(range(1, 17)),
        15,
        24,
        "x" * 32,
        "~" * 32,
    ),
    "one sample of two channels": samples(
        [[84213, -1]], sequence=1000, time_us=12_500_000
    ),
    "two samples saturated and settling": samples(
        [[513710, -8388608], [1, -74566]],
        sequence=1001,
        time_us=12_512_500,
        saturated=[[False, True], [False, False]],
        settling=[True, False],
    ),
    "one sample of one channel": samples([[-65536]], sequence=2, time_us=2),
    "eight samples of two channels at 2 kHz": samples(
        [[1000 + i, -1000 - i] for i in range(8)],
        sequence=4_294_967_292,
        time_us=4_294_966_000,
        step_us=500,
    ),
    "second stream": samples([[1193046]], sequence=17, stream=1, time_us=50_000),
    "four channels": samples(
        [[8388606, -8388607, 0, 1]],
        time_us=1,
        saturated=[[True, False, True, False]],
    ),
    "most samples of one channel": samples(
        [[i * 65793] for i in range(58)], step_us=250
    ),
    "status": Status(
        1003,
        12530,
        0,
        2,
        1,
        streaming=True,
        silent=(False,),
        next_sequences=(1003,),
    ),
    "status of two streams with one silent": Status(
        9,
        4_294_967_295,
        1,
        2,
        3,
        streaming=False,
        silent=(False, True),
        next_sequences=(9, 4_294_967_295),
    ),
    "reply bad value": Reply(1003, 9, FrameType.RATE, Result.BAD_VALUE),
    "reply done": Reply(0, 255, FrameType.IDENTIFY, Result.DONE),
    "start": Start(8),
    "stop": Stop(10),
    "rate": Rate(9, 80.0),
    "gain": Gain(11, 64),
    "header": Header({"format": "1.0", "athlete": "Å-17", "limits": [1.5, None]}),
    "event": Event({"kind": "note"}, 1003),
    "close": Close({"samples": 1003, "lost": 0}, 1003),
}


def sealed(body: bytes) -> bytes:
    """A whole frame on the wire around type, flags, sequence and payload."""
    return cobs.encode(body + struct.pack("<I", zlib.crc32(body))) + b"\0"


def head(kind: int, flags: int = 0, sequence: int = 0) -> bytes:
    """Type, flags and sequence."""
    return struct.pack("<BBI", kind, flags, sequence)


def _sample_body(  # the fields of a samples frame, right or wrong
    *, stream: int = 0, channels: int = 1, count: int = 1, step_us: int = 0, size: int
) -> bytes:
    payload = struct.pack("<BBBII", stream, channels, count, 0, step_us)
    return head(2) + payload + bytes(range(1, size + 1))


def _identity_body(**changes: int) -> bytes:
    fields = {
        "streams": 1,
        "channels": 1,
        "rates": 1,
        "rate_mhz": 80_000,
        "rate_index": 0,
        "gain_index": 0,
        "bits": 24,
        "letter": 0x41,
    } | changes
    return head(1) + struct.pack(
        "<5B2BBIBBBBBBB",
        *(1, 0, 0, 0, 0),
        fields["streams"],
        fields["channels"],
        fields["rates"],
        fields["rate_mhz"],
        fields["rate_index"],
        0,
        fields["gain_index"],
        fields["bits"],
        1,
        fields["letter"],
        0,
    )


_GOOD = encode(EXAMPLES["one sample of two channels"])

REFUSED: dict[str, tuple[bytes, str]] = {
    "all zero inside": (cobs.encode(bytes(16)) + b"\0", "crc"),
    "code byte past the end": (b"\x05\x11\x22\0", "framing"),
    "too short for head and crc": (cobs.encode(bytes(range(1, 10))) + b"\0", "framing"),
    "one bit of the counts": (
        bytes((*_GOOD[:20], _GOOD[20] ^ 4, *_GOOD[21:])),
        "crc",
    ),
    "last byte missing": (_GOOD[:-2] + b"\0", "framing"),
    "crc in the other byte order": (
        cobs.encode(head(0x42) + b"\x08" + struct.pack(">I", 0x402333_1C)) + b"\0",
        "crc",
    ),
    "board frame of 255 bytes": (sealed(head(3) + bytes(245)), "too long"),
    "no samples": (sealed(_sample_body(count=0, size=0)), "content"),
    "no channels": (sealed(_sample_body(channels=0, size=1)), "content"),
    "five channels": (sealed(_sample_body(channels=5, size=16)), "content"),
    "stream 4": (sealed(_sample_body(stream=4, size=4)), "content"),
    "a byte too many": (sealed(_sample_body(size=5)), "content"),
    "a byte too few": (sealed(_sample_body(size=3)), "content"),
    "one sample with a step": (sealed(_sample_body(step_us=1, size=4)), "content"),
    "two samples without a step": (sealed(_sample_body(count=2, size=8)), "content"),
    "a span of half a turn": (
        sealed(_sample_body(count=2, step_us=2**31, size=8)),
        "content",
    ),
    "samples cut in their head": (sealed(head(2) + bytes(10)), "content"),
    "no streams": (sealed(_identity_body(streams=0)), "content"),
    "identity with five channels": (sealed(_identity_body(channels=5)), "content"),
    "identity with rate 0": (sealed(_identity_body(rate_mhz=0)), "content"),
    "identity with rate index 1 of 1": (
        sealed(_identity_body(rate_index=1)),
        "content",
    ),
    "identity with gain index 1 of 0": (
        sealed(_identity_body(gain_index=1)),
        "content",
    ),
    "identity with 25 bits": (sealed(_identity_body(bits=25)), "content"),
    "identity with a control character": (
        sealed(_identity_body(letter=0x0A)),
        "content",
    ),
    "identity cut short": (sealed(_identity_body()[:-1]), "content"),
    "status without streams": (sealed(head(3) + bytes(19)), "content"),
    "status with five streams": (
        sealed(head(3) + bytes(18) + b"\5" + bytes(20)),
        "content",
    ),
    "status cut short": (sealed(head(3) + bytes(18) + b"\1" + bytes(3)), "content"),
    "reply to an unknown command": (sealed(head(4) + b"\1\x60\1"), "content"),
    "reply with an unknown result": (sealed(head(4) + b"\1\x42\4"), "content"),
    "start without token": (sealed(head(0x42)), "content"),
    "rate cut short": (sealed(head(0x44) + b"\1\2\3\4"), "content"),
    "json that is a list": (sealed(head(0x82) + b"[1]"), "content"),
    "json with NaN": (sealed(head(0x82) + b'{"a":NaN}'), "content"),
    "json with infinity": (sealed(head(0x82) + b'{"a":-Infinity}'), "content"),
    "json beyond 64-bit floats": (sealed(head(0x82) + b'{"a":1e999}'), "content"),
    "json beyond 64-bit integers": (
        sealed(head(0x82) + b'{"a":9223372036854775808}'),
        "content",
    ),
    "json that is not utf-8": (sealed(head(0x82) + b'{"a":"\xff"}'), "content"),
    "json with half a surrogate pair": (
        sealed(head(0x82) + b'{"a":"\\ud800"}'),
        "content",
    ),
    "json nested 33 deep": (
        sealed(head(0x82) + b'{"a":' + b"[" * 32 + b"]" * 32 + b"}"),
        "content",
    ),
    "json cut short": (sealed(head(0x82) + b'{"a":1'), "content"),
    "empty json": (sealed(head(0x83)), "content"),
}


def frame_rows() -> list[tuple[str, str, str]]:
    """The rows of `frames.csv`: name, inner, wire."""
    return [
        (name, encode_inner(frame).hex(), encode(frame).hex())
        for name, frame in EXAMPLES.items()
    ]


def refused_rows() -> list[tuple[str, str, str]]:
    """The rows of `refused.csv`: name, wire, reason."""
    return [(name, wire.hex(), reason) for name, (wire, reason) in REFUSED.items()]


def _write(name: str, heading: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    with (VECTORS / name).open("w", newline="", encoding="ascii") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(heading)
        writer.writerows(rows)


if __name__ == "__main__":
    _write("frames.csv", ("name", "inner_hex", "wire_hex"), frame_rows())
    _write("refused.csv", ("name", "wire_hex", "reason"), refused_rows())
