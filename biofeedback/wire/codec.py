"""One frame to bytes and back. `hardware/PROTOCOL.md` is the norm.

Rules that hold here:

* `encode` gives what goes on the wire, delimiter included; a value that does not
  fit is a fault of the caller and raises `ValueError` (`FieldError` for JSON).
* `decode` never raises, whatever the bytes. It gives a frame, a `Damage`, or
  None for a sound frame of a kind this version does not know.
* Fields that a later minor version adds stand at the end and are passed over;
  `samples` alone must have exactly the size that its counts say.
"""

from __future__ import annotations

import struct
import zlib
from typing import TYPE_CHECKING, TypeAlias, TypeVar, assert_never

from biofeedback.wire import cobs, content
from biofeedback.wire.device_payloads import (
    decode_identity,
    decode_reply,
    decode_status,
    encode_identity,
    encode_status,
    to_mhz,
)
from biofeedback.wire.frames import (
    Close,
    Damage,
    Event,
    FrameType,
    Gain,
    Header,
    Identify,
    Identity,
    Rate,
    Reply,
    Samples,
    Start,
    Status,
    Stop,
)
from biofeedback.wire.limits import (
    CRC_BYTES,
    HEAD_BYTES,
    LINE_RAW_MAX,
    RECORDING_RAW_MAX,
    RECORDING_TYPES_FROM,
    MisfitError,
)
from biofeedback.wire.samples_payload import (
    Packed,
    decode_head,
    encode_samples,
    unpacked,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.wire.frames import Frame

_HEAD = struct.Struct("<BBI")  # type, flags, sequence
_CRC = struct.Struct("<I")
_RAW_MIN = HEAD_BYTES + CRC_BYTES

Plain: TypeAlias = Identify | Start | Stop
Document: TypeAlias = Header | Event | Close
DocumentT = TypeVar("DocumentT", Header, Event, Close)
PlainT = TypeVar("PlainT", Identify, Start, Stop)


# ---------------------------------------------------------------- to bytes


def encode(frame: Frame) -> bytes:
    """The frame as it goes over the wire, with its delimiter.

    Raises:
        ValueError: a value does not fit its field: a bug of the caller.
        FieldError: the JSON of a recording frame does not fit.
    """
    return cobs.encode(encode_inner(frame)) + b"\0"


def encode_inner(frame: Frame) -> bytes:
    """The frame before COBS: type, flags, sequence, payload, CRC.

    Raises:
        ValueError: as `encode`.
        FieldError: as `encode`.
    """
    try:
        kind, payload = _payload(frame)
        inner = _HEAD.pack(kind, 0, frame.sequence) + payload
    except struct.error as error:
        raise ValueError(f"{type(frame).__name__}: {error}") from error
    if kind < RECORDING_TYPES_FROM and len(inner) + CRC_BYTES > LINE_RAW_MAX:
        raise ValueError(f"{type(frame).__name__} is longer than {LINE_RAW_MAX} bytes")
    return inner + _CRC.pack(zlib.crc32(inner))


def _payload(frame: Frame) -> tuple[FrameType, bytes]:  # noqa: PLR0911  one case a type
    match frame:
        case Samples():
            return FrameType.SAMPLES, encode_samples(frame)
        case Identity():
            return FrameType.IDENTITY, encode_identity(frame)
        case Status():
            return FrameType.STATUS, encode_status(frame)
        case Reply():
            answer = struct.pack("<BBB", frame.token, frame.command, frame.result)
            return FrameType.REPLY, answer
        case Identify() | Start() | Stop():
            return _PLAIN[type(frame)], struct.pack("<B", frame.token)
        case Rate():
            asked = struct.pack("<BI", frame.token, to_mhz(frame.rate_hz))
            return FrameType.RATE, asked
        case Gain():
            return FrameType.GAIN, struct.pack("<BB", frame.token, frame.gain)
        case Header() | Event() | Close():
            room = RECORDING_RAW_MAX - _RAW_MIN
            return _DOCUMENTS[type(frame)], content.write(
                frame.content, most_bytes=room
            )
        case _:
            assert_never(frame)


_PLAIN: dict[type[Plain], FrameType] = {
    Identify: FrameType.IDENTIFY,
    Start: FrameType.START,
    Stop: FrameType.STOP,
}
_DOCUMENTS: dict[type[Document], FrameType] = {
    Header: FrameType.HEADER,
    Event: FrameType.EVENT,
    Close: FrameType.CLOSE,
}


# -------------------------------------------------------------- from bytes


def decode(inner: bytes) -> Frame | Damage | None:
    """Reads a frame after COBS is undone: type, flags, sequence, payload, CRC.

    Returns:
        The frame; or a `Damage`; or None where the frame is sound and of a type
        that this version does not know, which is to be passed over.
    """
    found = decode_packed(inner)
    return unpacked(found) if isinstance(found, Packed) else found


def decode_packed(inner: bytes) -> Frame | Packed | Damage | None:
    """The same, with the samples of a frame of samples not read yet."""
    size = len(inner)
    if size < _RAW_MIN:
        return Damage(size, "framing")
    kind, _flags, sequence = _HEAD.unpack_from(inner)
    if size > (LINE_RAW_MAX if kind < RECORDING_TYPES_FROM else RECORDING_RAW_MAX):
        return Damage(size, "too long")
    (crc,) = _CRC.unpack_from(inner, size - CRC_BYTES)
    if zlib.crc32(memoryview(inner)[:-CRC_BYTES]) != crc:
        return Damage(size, "crc")
    try:
        if kind == FrameType.SAMPLES:
            return decode_head(sequence, inner)
        reader = _READERS.get(kind)
        return reader(sequence, inner[HEAD_BYTES:-CRC_BYTES]) if reader else None
    except (MisfitError, struct.error):
        return Damage(size, "content")


def _decode_rate(sequence: int, payload: bytes) -> Rate:
    token, rate_mhz = struct.unpack_from("<BI", payload)
    return Rate(token, rate_mhz / 1000.0, sequence)


def _decode_gain(sequence: int, payload: bytes) -> Gain:
    token, gain = struct.unpack_from("<BB", payload)
    return Gain(token, gain, sequence)


def _plain_reader(kind: type[PlainT]) -> Callable[[int, bytes], PlainT]:
    def read(sequence: int, payload: bytes) -> PlainT:
        return kind(struct.unpack_from("<B", payload)[0], sequence)

    return read


def _document_reader(kind: type[DocumentT]) -> Callable[[int, bytes], DocumentT]:
    def read(sequence: int, payload: bytes) -> DocumentT:
        found = content.read(payload)
        if found is None:
            raise MisfitError
        return kind(found, sequence)

    return read


_READERS: dict[int, Callable[[int, bytes], Frame]] = {
    FrameType.IDENTITY: decode_identity,
    FrameType.STATUS: decode_status,
    FrameType.REPLY: decode_reply,
    FrameType.IDENTIFY: _plain_reader(Identify),
    FrameType.START: _plain_reader(Start),
    FrameType.STOP: _plain_reader(Stop),
    FrameType.RATE: _decode_rate,
    FrameType.GAIN: _decode_gain,
    FrameType.HEADER: _document_reader(Header),
    FrameType.EVENT: _document_reader(Event),
    FrameType.CLOSE: _document_reader(Close),
}
