"""What a frame can say: plain, frozen values with no bytes in them.

Device frames come from the board, host frames go to it, and recording frames
stand between them in a file. `hardware/PROTOCOL.md` gives the bytes.

Every frame carries `sequence`: the number of the next sample of stream 0 at the
moment the frame was made; for `Samples`, the number of its own first sample in
its own stream. Numbers count samples, not frames, and wrap at 2**32.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Mapping

    import numpy as np
    import numpy.typing as npt

PROTOCOL_MAJOR = 1
PROTOCOL_MINOR = 0
SEQUENCE_MODULUS = 2**32
"""Sample numbers and device microseconds are unsigned 32-bit and wrap."""
COUNTS_MAX = 2**23 - 1
COUNTS_MIN = -(2**23)


class FrameType(IntEnum):
    """The first byte of a frame. 0x80 and above are found in recordings only."""

    IDENTITY = 0x01
    SAMPLES = 0x02
    STATUS = 0x03
    REPLY = 0x04
    IDENTIFY = 0x41
    START = 0x42
    STOP = 0x43
    RATE = 0x44
    GAIN = 0x45
    HEADER = 0x81
    EVENT = 0x82
    CLOSE = 0x83


class Result(IntEnum):
    """How the board answered a command."""

    DONE = 0
    UNKNOWN_COMMAND = 1
    BAD_VALUE = 2
    BUSY = 3


@dataclass(frozen=True, slots=True)
class Identity:
    """Who the board is and what it can do.

    Attributes:
        protocol: major and minor version of the wire it speaks.
        firmware: major, minor and patch version.
        stream_channels: number of channels in each stream; ``(2,)`` for one
            stream of two channels, ``(1, 1)`` for two chips on clocks of their own.
        rates_hz: sample rates on offer, to the millihertz.
        rate_index: which of them is in force.
        gains: amplifier gains on offer; empty where the ADC has none to choose.
        gain_index: which of them is in force.
        adc_bits: resolution of the ADC, 24 at most.
        adc: name of the ADC, ASCII.
        serial_number: of the board, ASCII.
    """

    sequence: int
    protocol: tuple[int, int]
    firmware: tuple[int, int, int]
    stream_channels: tuple[int, ...]
    rates_hz: tuple[float, ...]
    rate_index: int
    gains: tuple[int, ...]
    gain_index: int
    adc_bits: int
    adc: str
    serial_number: str

    @property
    def channels(self) -> int:
        """Number of channels in all streams together."""
        return sum(self.stream_channels)

    @property
    def gain(self) -> int | None:
        """The gain in force; None where the ADC has none to choose."""
        return self.gains[self.gain_index] if self.gains else None

    @property
    def rate_hz(self) -> float:
        """The sample rate in force."""
        return self.rates_hz[self.rate_index]


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """Consecutive samples of one stream, evenly spaced within the frame.

    Attributes:
        sequence: number of the first sample in this stream, modulo 2**32.
        stream: which stream, counted from 0.
        time_us: device time of the first sample in microseconds, modulo 2**32.
        step_us: time from one sample to the next; 0 where there is only one.
        counts: shape (samples, channels), int32, signed 24-bit values.
        saturated: shape (samples, channels), bool; the ADC was at its stop.
        settling: shape (samples,), bool; not to be trusted yet after a start,
            or a change of rate or gain.
    """

    sequence: int
    stream: int
    time_us: int
    step_us: int
    counts: npt.NDArray[np.int32]
    saturated: npt.NDArray[np.bool_]
    settling: npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Status:
    """The board's own account of itself, once a second.

    Attributes:
        uptime_ms: since reset, modulo 2**32.
        adc_lost: conversions the board could not read in time, since reset.
        transmit_drops: samples dropped because the line was full, since reset.
        crc_errors: damaged commands received, since reset.
        streaming: whether samples are being sent.
        silent: for each stream, whether its ADC has stopped giving data.
        next_sequences: for each stream, the number of its next sample.
    """

    sequence: int
    uptime_ms: int
    adc_lost: int
    transmit_drops: int
    crc_errors: int
    streaming: bool
    silent: tuple[bool, ...]
    next_sequences: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Reply:
    """The board's answer to the command with the same token."""

    sequence: int
    token: int
    command: FrameType
    result: Result


@dataclass(frozen=True, slots=True)
class Identify:
    """Asks for an `Identity`."""

    token: int
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Start:
    """Asks the board to send samples."""

    token: int
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Stop:
    """Asks the board to send no more samples."""

    token: int
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Rate:
    """Asks for another sample rate."""

    token: int
    rate_hz: float
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Gain:
    """Asks for another amplifier gain."""

    token: int
    gain: int
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Header:
    """First frame of a recording; `content` is a JSON object."""

    content: Mapping[str, object] = field(default_factory=dict)
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened while recording; `content` is a JSON object."""

    content: Mapping[str, object] = field(default_factory=dict)
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Close:
    """Last frame of a recording; `content` is a JSON object with the totals."""

    content: Mapping[str, object] = field(default_factory=dict)
    sequence: int = 0


@dataclass(frozen=True, slots=True)
class Damage:
    """Bytes that held no good frame. Nothing in them is used.

    Attributes:
        size_bytes: how many bytes were thrown away.
        reason: one of ``framing``, ``crc``, ``too long``, ``content``; of a file also
            ``left unread``.
    """

    size_bytes: int
    reason: str


DeviceFrame: TypeAlias = Identity | Samples | Status | Reply
HostFrame: TypeAlias = Identify | Start | Stop | Rate | Gain
RecordingFrame: TypeAlias = Header | Event | Close
Frame: TypeAlias = DeviceFrame | HostFrame | RecordingFrame
