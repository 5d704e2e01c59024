"""The payload of `samples` frames, which is nearly all that is ever sent.

One view and one shift for a frame, and nothing per sample. What stands in a frame is
told by its head alone; so frames of one layout that come at once are read at once
(`wire/run.py`).
"""

from __future__ import annotations

import struct
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN, Samples
from biofeedback.wire.limits import (
    CHANNELS_MAX,
    CRC_BYTES,
    HEAD_BYTES,
    SPAN_MAX_US,
    STREAMS_MAX,
    MisfitError,
)

if TYPE_CHECKING:
    import numpy.typing as npt

_SAMPLES = struct.Struct("<BBBII")  # stream, channels, n, time, step
_SAMPLES_AT = HEAD_BYTES + _SAMPLES.size
_SETTLING = 0x10
_TOP = COUNTS_MAX.to_bytes(3, "little")
_BOTTOM = COUNTS_MIN.to_bytes(3, "little", signed=True)
_CHANNEL_BITS = [
    np.left_shift(1, np.arange(channels, dtype=np.uint8), dtype=np.uint8)
    for channels in range(CHANNELS_MAX + 1)
]


def encode_samples(frame: Samples) -> bytes:
    """The payload; `ValueError` where the samples do not fit it."""
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


class Packed(NamedTuple):
    """A good frame of samples that have not been read yet.

    Attributes:
        sequence: as `Samples.sequence`; so are `stream`, `time_us` and `step_us`.
        channels: how many there are.
        each: how many samples.
        rows: the samples, `each` rows of quality and `channels` values.
    """

    sequence: int
    stream: int
    channels: int
    each: int
    time_us: int
    step_us: int
    rows: bytes


def decode_head(sequence: int, inner: bytes) -> Packed:
    """Reads the head of the samples in `inner`, whose CRC has been found right.

    Raises:
        MisfitError: it does not tell of what stands there.
    """
    if len(inner) < _SAMPLES_AT + CRC_BYTES:
        raise MisfitError
    stream, channels, count, time_us, step_us = _SAMPLES.unpack_from(inner, HEAD_BYTES)
    if (
        not 1 <= channels <= CHANNELS_MAX
        or count < 1
        or stream >= STREAMS_MAX
        or len(inner) != _SAMPLES_AT + count * (1 + 3 * channels) + CRC_BYTES
        or not _is_evenly_spaced(count, step_us)
    ):
        raise MisfitError
    rows = inner[_SAMPLES_AT:-CRC_BYTES]
    return Packed(sequence, stream, channels, count, time_us, step_us, rows)


def unpacked(packed: Packed) -> Samples:
    """The frame with its samples."""
    arrays = read_rows(packed.rows, packed.channels)
    return Samples(
        packed.sequence, packed.stream, packed.time_us, packed.step_us, *arrays
    )


def read_rows(
    rows: bytes, channels: int
) -> tuple[npt.NDArray[np.int32], npt.NDArray[np.bool_], npt.NDArray[np.bool_]]:
    """Counts, saturated and settling of any number of samples."""
    row = 1 + 3 * channels
    count = len(rows) // row
    # A 24-bit value is read as the upper part of the 32-bit one that starts a
    # byte earlier; that byte is there, and the shift takes it out again and
    # extends the sign.
    wide: np.ndarray[tuple[int, int], np.dtype[np.int32]] = np.ndarray(
        (count, channels), "<i4", rows, 0, (row, 3)
    )
    counts = (wide >> 8).astype(np.int32, copy=False)
    quality = rows[::row]
    if quality.strip(b"\0") or _TOP in rows or _BOTTOM in rows:
        flags = np.frombuffer(quality, np.uint8)
        saturated = (flags[:, None] & _CHANNEL_BITS[channels]) != 0
        # A code at the end of the scale is no force, whatever the board says of it.
        saturated |= counts == COUNTS_MAX
        saturated |= counts == COUNTS_MIN
        settling = (flags & _SETTLING) != 0
    else:
        saturated = np.zeros((count, channels), np.bool_)
        settling = np.zeros(count, np.bool_)
    counts.setflags(write=False)
    saturated.setflags(write=False)
    settling.setflags(write=False)
    return counts, saturated, settling
