"""One frame to bytes and back. `hardware/PROTOCOL.md` is the norm.

Rules that hold here:

* `encode` gives what goes on the wire, delimiter included; a value that does not
  fit is a fault of the caller and raises `ValueError` (`FieldError` for JSON).
* `decode` never raises, whatever the bytes. It gives a frame, a `Damage`, or
  None for a sound frame of a kind this version does not know.
* Fields that a later minor version adds stand at the end and are passed over;
  `samples` alone must have exactly the size that its counts say.

The samples path makes one view and one shift for a frame, and nothing per
sample. To go faster still, whole reads could be decoded at once: frames of the
same size and layout laid side by side in one array before `_decode_samples`.
"""

from __future__ import annotations

import struct
import zlib
from typing import TYPE_CHECKING, TypeAlias, TypeVar, assert_never

import numpy as np

from biofeedback.wire import cobs, content
from biofeedback.wire.frames import (
    COUNTS_MAX,
    COUNTS_MIN,
    PROTOCOL_MAJOR,
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
    Result,
    Samples,
    Start,
    Status,
    Stop,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.wire.frames import Frame

LINE_RAW_MAX = 254
"""Most raw bytes in a device or host frame: one COBS block, one small buffer."""
RECORDING_RAW_MAX = 65_536
"""Most raw bytes in a recording frame: a header with a long plan is some 10 kB."""
ENCODED_MAX = cobs.encoded_max(RECORDING_RAW_MAX)
"""Most bytes between two delimiters that can be a frame."""
STREAMS_MAX = 4
CHANNELS_MAX = 4
OPTIONS_MAX = 16
"""Most rates, and most gains, that a board can offer: an identity must fit."""
NAME_MAX = 32
"""Longest ADC name or serial number in an identity, in bytes."""
SPAN_MAX_US = 2**31 - 1
"""Longest time from first to last sample of a frame, so that it can be unwrapped."""

_HEAD = struct.Struct("<BBI")  # type, flags, sequence
_CRC = struct.Struct("<I")
_RAW_MIN = _HEAD.size + _CRC.size
_SAMPLES = struct.Struct("<BBBII")  # stream, channels, n, time, step
_SAMPLES_AT = _HEAD.size + _SAMPLES.size
_STATUS = struct.Struct("<IIIIBBB")
_RECORDING = 0x80
_SETTLING = 0x10
_CHANNEL_BITS = [
    np.left_shift(1, np.arange(channels, dtype=np.uint8), dtype=np.uint8)
    for channels in range(CHANNELS_MAX + 1)
]

Plain: TypeAlias = Identify | Start | Stop
Document: TypeAlias = Header | Event | Close
DocumentT = TypeVar("DocumentT", Header, Event, Close)
PlainT = TypeVar("PlainT", Identify, Start, Stop)


class _MisfitError(Exception):
    """A sound frame whose payload says something impossible."""


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
    if kind < _RECORDING and len(inner) + _CRC.size > LINE_RAW_MAX:
        raise ValueError(f"{type(frame).__name__} is longer than {LINE_RAW_MAX} bytes")
    return inner + _CRC.pack(zlib.crc32(inner))


def _payload(frame: Frame) -> tuple[FrameType, bytes]:  # noqa: PLR0911  one case a type
    match frame:
        case Samples():
            return FrameType.SAMPLES, _encode_samples(frame)
        case Identity():
            return FrameType.IDENTITY, _encode_identity(frame)
        case Status():
            return FrameType.STATUS, _encode_status(frame)
        case Reply():
            answer = struct.pack("<BBB", frame.token, frame.command, frame.result)
            return FrameType.REPLY, answer
        case Identify() | Start() | Stop():
            return _PLAIN[type(frame)], struct.pack("<B", frame.token)
        case Rate():
            asked = struct.pack("<BI", frame.token, _to_mhz(frame.rate_hz))
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


def _to_mhz(rate_hz: float) -> int:
    return round(rate_hz * 1000.0)


def _encode_samples(frame: Samples) -> bytes:
    count, channels = frame.counts.shape
    if frame.saturated.shape != (count, channels) or frame.settling.shape != (count,):
        raise ValueError("Samples: the arrays differ in shape")
    if not 1 <= channels <= CHANNELS_MAX or count < 1 or frame.stream >= STREAMS_MAX:
        raise ValueError("Samples: no samples, or too many channels or streams")
    if frame.counts.min() < COUNTS_MIN or frame.counts.max() > COUNTS_MAX:
        raise ValueError("Samples: counts beyond 24 bits")
    if not _is_evenly_spaced(count, frame.step_us):
        raise ValueError("Samples: a step that does not fit the number of samples")
    table = np.empty((count, 1 + 3 * channels), np.uint8)
    table[:, 0] = frame.saturated @ _CHANNEL_BITS[channels]
    table[:, 0] |= np.where(frame.settling, np.uint8(_SETTLING), np.uint8(0))
    counts = np.ascontiguousarray(frame.counts, "<i4").view(np.uint8)
    table[:, 1:] = counts.reshape(count, channels, 4)[:, :, :3].reshape(count, -1)
    head = _SAMPLES.pack(frame.stream, channels, count, frame.time_us, frame.step_us)
    return head + table.tobytes()


def _is_evenly_spaced(count: int, step_us: int) -> bool:
    """A single sample has no step; more have one that can be unwrapped."""
    if count == 1:
        return step_us == 0
    return 0 < (count - 1) * step_us <= SPAN_MAX_US


def _encode_identity(frame: Identity) -> bytes:
    payload = bytes((*frame.protocol, *frame.firmware))
    payload += bytes((len(frame.stream_channels), *frame.stream_channels))
    rates = [_to_mhz(rate_hz) for rate_hz in frame.rates_hz]
    payload += struct.pack(f"<B{len(rates)}IB", len(rates), *rates, frame.rate_index)
    payload += bytes((len(frame.gains), *frame.gains, frame.gain_index, frame.adc_bits))
    for name in (frame.adc, frame.serial_number):
        text = name.encode("ascii")
        payload += bytes((len(text),)) + text
    try:
        _decode_identity(frame.sequence, payload)
    except _MisfitError as error:
        raise ValueError(f"Identity: {error}") from error
    return payload


def _encode_status(frame: Status) -> bytes:
    streams = len(frame.next_sequences)
    if len(frame.silent) != streams or not 1 <= streams <= STREAMS_MAX:
        raise ValueError("Status: one silence and one sequence for each stream")
    silent = sum(1 << stream for stream in range(streams) if frame.silent[stream])
    head = _STATUS.pack(
        frame.uptime_ms,
        frame.adc_lost,
        frame.transmit_drops,
        frame.crc_errors,
        int(frame.streaming),
        silent,
        streams,
    )
    return head + struct.pack(f"<{streams}I", *frame.next_sequences)


# -------------------------------------------------------------- from bytes


def decode(inner: bytes) -> Frame | Damage | None:
    """Reads a frame after COBS is undone: type, flags, sequence, payload, CRC.

    Returns:
        The frame; or a `Damage`; or None where the frame is sound and of a type
        that this version does not know, which is to be passed over.
    """
    size = len(inner)
    if size < _RAW_MIN:
        return Damage(size, "framing")
    kind, _flags, sequence = _HEAD.unpack_from(inner)
    if size > (LINE_RAW_MAX if kind < _RECORDING else RECORDING_RAW_MAX):
        return Damage(size, "too long")
    (crc,) = _CRC.unpack_from(inner, size - _CRC.size)
    if zlib.crc32(memoryview(inner)[: -_CRC.size]) != crc:
        return Damage(size, "crc")
    try:
        if kind == FrameType.SAMPLES:
            return _decode_samples(sequence, inner)
        reader = _READERS.get(kind)
        return reader(sequence, inner[_HEAD.size : -_CRC.size]) if reader else None
    except (_MisfitError, struct.error):
        return Damage(size, "content")


def _decode_samples(sequence: int, inner: bytes) -> Samples:
    if len(inner) < _SAMPLES_AT + _CRC.size:
        raise _MisfitError
    stream, channels, count, time_us, step_us = _SAMPLES.unpack_from(inner, _HEAD.size)
    row = 1 + 3 * channels
    if (
        not 1 <= channels <= CHANNELS_MAX
        or count < 1
        or stream >= STREAMS_MAX
        or len(inner) != _SAMPLES_AT + count * row + _CRC.size
        or not _is_evenly_spaced(count, step_us)
    ):
        raise _MisfitError
    quality: np.ndarray[tuple[int], np.dtype[np.uint8]] = np.ndarray(
        (count,), np.uint8, inner, _SAMPLES_AT, (row,)
    )
    # A 24-bit value is read as the upper part of the 32-bit one that starts a
    # byte earlier; that byte is there, and the shift takes it out again and
    # extends the sign.
    wide: np.ndarray[tuple[int, int], np.dtype[np.int32]] = np.ndarray(
        (count, channels), "<i4", inner, _SAMPLES_AT, (row, 3)
    )
    counts = (wide >> 8).astype(np.int32, copy=False)
    saturated = (quality[:, None] & _CHANNEL_BITS[channels]) != 0
    # A code at the end of the scale is no force, whatever the board says of it.
    saturated |= counts == COUNTS_MAX
    saturated |= counts == COUNTS_MIN
    settling = (quality & _SETTLING) != 0
    counts.setflags(write=False)
    saturated.setflags(write=False)
    settling.setflags(write=False)
    return Samples(sequence, stream, time_us, step_us, counts, saturated, settling)


def _decode_identity(sequence: int, payload: bytes) -> Identity:
    """Reads an identity; of another major version only that version is read.

    The first two bytes keep their meaning for ever, so that a board that is too
    new or too old can be named and not only refused.
    """
    major, minor = struct.unpack_from("<BB", payload)
    if major != PROTOCOL_MAJOR:
        return Identity(
            sequence, (major, minor), (0, 0, 0), (), (0.0,), 0, (), 0, 0, "", ""
        )
    cursor = _Cursor(payload, 2)
    firmware = cursor.take("<BBB")
    channels = cursor.counted("B", least=1, most=STREAMS_MAX)
    rates = cursor.counted("I", least=1, most=OPTIONS_MAX)
    (rate_index,) = cursor.take("<B")
    gains = cursor.counted("B", least=0, most=OPTIONS_MAX)
    gain_index, adc_bits = cursor.take("<BB")
    adc = cursor.name()
    serial_number = cursor.name()
    if not all(1 <= number <= CHANNELS_MAX for number in channels) or 0 in rates:
        raise _MisfitError("a stream without channels, or a rate of 0")
    if rate_index >= len(rates) or gain_index >= max(1, len(gains)):
        raise _MisfitError("a rate or gain in force that is not on offer")
    if not 1 <= adc_bits <= 24:
        raise _MisfitError("ADC bits must be 1 to 24")
    return Identity(
        sequence,
        (major, minor),
        (firmware[0], firmware[1], firmware[2]),
        channels,
        tuple(rate / 1000.0 for rate in rates),
        rate_index,
        gains,
        gain_index,
        adc_bits,
        adc,
        serial_number,
    )


def _decode_status(sequence: int, payload: bytes) -> Status:
    uptime, lost, drops, errors, bits, silent, streams = _STATUS.unpack_from(payload)
    if not 1 <= streams <= STREAMS_MAX:
        raise _MisfitError
    return Status(
        sequence,
        uptime,
        lost,
        drops,
        errors,
        streaming=bool(bits & 1),
        silent=tuple(bool(silent >> stream & 1) for stream in range(streams)),
        next_sequences=struct.unpack_from(f"<{streams}I", payload, _STATUS.size),
    )


def _decode_reply(sequence: int, payload: bytes) -> Reply:
    token, command, result = struct.unpack_from("<BBB", payload)
    try:
        return Reply(sequence, token, FrameType(command), Result(result))
    except ValueError as error:
        raise _MisfitError from error


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
            raise _MisfitError
        return kind(found, sequence)

    return read


_READERS: dict[int, Callable[[int, bytes], Frame]] = {
    FrameType.IDENTITY: _decode_identity,
    FrameType.STATUS: _decode_status,
    FrameType.REPLY: _decode_reply,
    FrameType.IDENTIFY: _plain_reader(Identify),
    FrameType.START: _plain_reader(Start),
    FrameType.STOP: _plain_reader(Stop),
    FrameType.RATE: _decode_rate,
    FrameType.GAIN: _decode_gain,
    FrameType.HEADER: _document_reader(Header),
    FrameType.EVENT: _document_reader(Event),
    FrameType.CLOSE: _document_reader(Close),
}


class _Cursor:
    """Walks through a payload; past its end `struct.error` tells."""

    def __init__(self, payload: bytes, place: int) -> None:
        self._payload = payload
        self._place = place

    def take(self, layout: str) -> tuple[int, ...]:
        """The numbers of a struct layout."""
        numbers: tuple[int, ...] = struct.unpack_from(
            layout, self._payload, self._place
        )
        self._place += struct.calcsize(layout)
        return numbers

    def counted(self, code: str, *, least: int, most: int) -> tuple[int, ...]:
        """A number of values in one byte, then the values."""
        (count,) = self.take("<B")
        if not least <= count <= most:
            raise _MisfitError(f"a list of {count}; it must be {least} to {most}")
        return self.take(f"<{count}{code}")

    def name(self) -> str:
        """A length in one byte, then printable ASCII."""
        letters = self.counted("B", least=0, most=NAME_MAX)
        if not all(0x20 <= letter <= 0x7E for letter in letters):
            raise _MisfitError("a name that is not printable ASCII")
        return bytes(letters).decode("ascii")
