"""The payloads of `identity`, `status` and `reply` frames.

Each reader raises `MisfitError` or `struct.error` where the payload is too short or
says something impossible, and passes over bytes that follow the known fields.
"""

from __future__ import annotations

import struct

from biofeedback.wire.frames import (
    PROTOCOL_MAJOR,
    FrameType,
    Identity,
    Reply,
    Result,
    Status,
)
from biofeedback.wire.limits import (
    CHANNELS_MAX,
    NAME_MAX,
    OPTIONS_MAX,
    STREAMS_MAX,
    MisfitError,
)

_STATUS = struct.Struct("<IIIIBBB")


def to_mhz(rate_hz: float) -> int:
    """The rate in whole millihertz, as the wire carries it."""
    return round(rate_hz * 1000.0)


def encode_identity(frame: Identity) -> bytes:
    """The payload; `ValueError` where the reader would refuse it."""
    payload = bytes((*frame.protocol, *frame.firmware))
    payload += bytes((len(frame.stream_channels), *frame.stream_channels))
    rates = [to_mhz(rate_hz) for rate_hz in frame.rates_hz]
    payload += struct.pack(f"<B{len(rates)}IB", len(rates), *rates, frame.rate_index)
    payload += bytes((len(frame.gains), *frame.gains, frame.gain_index, frame.adc_bits))
    for name in (frame.adc, frame.serial_number):
        text = name.encode("ascii")
        payload += bytes((len(text),)) + text
    try:
        decode_identity(frame.sequence, payload)
    except MisfitError as error:
        raise ValueError(f"Identity: {error}") from error
    return payload


def encode_status(frame: Status) -> bytes:
    """The payload; `ValueError` where it does not fit its streams."""
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


def decode_identity(sequence: int, payload: bytes) -> Identity:
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
        raise MisfitError("a stream without channels, or a rate of 0")
    if rate_index >= len(rates) or gain_index >= max(1, len(gains)):
        raise MisfitError("a rate or gain in force that is not on offer")
    if not 1 <= adc_bits <= 24:
        raise MisfitError("ADC bits must be 1 to 24")
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


def decode_status(sequence: int, payload: bytes) -> Status:
    """Reads a status."""
    uptime, lost, drops, errors, bits, silent, streams = _STATUS.unpack_from(payload)
    if not 1 <= streams <= STREAMS_MAX:
        raise MisfitError
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


def decode_reply(sequence: int, payload: bytes) -> Reply:
    """Reads a reply to a command that this version knows."""
    token, command, result = struct.unpack_from("<BBB", payload)
    try:
        return Reply(sequence, token, FrameType(command), Result(result))
    except ValueError as error:
        raise MisfitError from error


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
            raise MisfitError(f"a list of {count}; it must be {least} to {most}")
        return self.take(f"<{count}{code}")

    def name(self) -> str:
        """A length in one byte, then printable ASCII."""
        letters = self.counted("B", least=0, most=NAME_MAX)
        if not all(0x20 <= letter <= 0x7E for letter in letters):
            raise MisfitError("a name that is not printable ASCII")
        return bytes(letters).decode("ascii")
