"""Frames of samples of one size and layout, decoded side by side in one array.

A recording is read in large pieces, and nearly all of it are frames of samples that
look alike. What is done once for a hundred of them costs little more than for one.

Whatever is not plainly a good frame of samples is left to the decoder, which takes it
alone: nothing here decides that something is damaged. So both ways give the same.
"""

from __future__ import annotations

import struct
import zlib
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN, FrameType, Samples
from biofeedback.wire.limits import (
    CHANNELS_MAX,
    CRC_BYTES,
    HEAD_BYTES,
    LINE_RAW_MAX,
    SPAN_MAX_US,
    STREAMS_MAX,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    import numpy.typing as npt

    Bytes = npt.NDArray[np.uint8]

LEAST = 16
"""With fewer frames of a size one by one is as quick."""
SAMPLES_BEGIN = bytes((FrameType.SAMPLES,))
"""Second byte of an encoded frame: the type, which is never 00, after COBS' code."""
_LONG = 0xFF
_HEAD = struct.Struct("<BBIBBBII")  # type, flags, sequence, stream, channels, n, times
_SAMPLES_AT = _HEAD.size
_FIXED = 1 + _SAMPLES_AT + CRC_BYTES  # with the first code byte of COBS
_SETTLING = 0x10


def decode_many(pieces: Sequence[bytes]) -> dict[int, Samples]:
    """Good frames of samples among what stood between delimiters.

    Args:
        pieces: without their delimiters, so that there is no 00 in them.

    Returns:
        By index in `pieces`; all others are to be decoded one by one.
    """
    by_size: dict[int, list[int]] = {}
    for index, piece in enumerate(pieces):
        if piece[1:2] == SAMPLES_BEGIN:
            by_size.setdefault(len(piece), []).append(index)
    found: dict[int, Samples] = {}
    for size, indices in by_size.items():
        if len(indices) >= LEAST and _FIXED < size <= LINE_RAW_MAX + 1:
            together = np.frombuffer(b"".join(pieces[i] for i in indices), np.uint8)
            for row, samples in _samples(together.reshape(len(indices), size)):
                found[indices[row]] = samples
    return found


def _samples(encoded: Bytes) -> Iterator[tuple[int, Samples]]:
    """Row and frame of each good one; shape (frames, bytes)."""
    raw, good = _without_cobs(encoded)
    good &= raw[:, 0] == FrameType.SAMPLES
    good &= _crcs(raw) == raw[:, -CRC_BYTES:].copy().view("<u4")[:, 0]
    # All of one size, so the layout of the first good one is that of nearly all.
    rows = np.flatnonzero(good)
    if not len(rows):
        return
    channels, count = (int(raw[rows[0], at]) for at in (HEAD_BYTES + 1, HEAD_BYTES + 2))
    width = 1 + 3 * channels
    if (
        not 1 <= channels <= CHANNELS_MAX
        or count < 1
        or raw.shape[1] != _SAMPLES_AT + count * width + CRC_BYTES
    ):
        return
    rows = rows[
        (raw[rows, HEAD_BYTES + 1] == channels) & (raw[rows, HEAD_BYTES + 2] == count)
    ]
    table = raw[rows, _SAMPLES_AT:-CRC_BYTES].reshape(len(rows), count, width)
    yield from _read(rows, raw, table, channels=channels)


def _read(
    rows: npt.NDArray[np.intp], raw: Bytes, table: Bytes, *, channels: int
) -> Iterator[tuple[int, Samples]]:
    """Frames of `table`, shape (frames, samples, 1 + 3 channels)."""
    frames, count, _ = table.shape
    # As the upper three bytes of 32 bits; the shift extends the sign.
    wide = np.zeros((frames, count, channels, 4), np.uint8)
    wide[..., 1:] = table[..., 1:].reshape(frames, count, channels, 3)
    counts = wide.view("<i4")[..., 0] >> 8
    quality = table[..., 0]
    bits = np.left_shift(1, np.arange(channels, dtype=np.uint8), dtype=np.uint8)
    saturated = (quality[..., None] & bits) != 0
    saturated |= (counts == COUNTS_MAX) | (counts == COUNTS_MIN)
    settling = (quality & _SETTLING) != 0
    for array in (counts, saturated, settling):
        array.setflags(write=False)
    heads = raw[rows, :_SAMPLES_AT].tobytes()
    parts = zip(
        rows.tolist(),
        _HEAD.iter_unpack(heads),
        counts,
        saturated,
        settling,
        strict=True,
    )
    for row, head, *arrays in parts:
        _, _, sequence, stream, _, _, time_us, step_us = head
        even = 0 < (count - 1) * step_us <= SPAN_MAX_US if count > 1 else step_us == 0
        if even and stream < STREAMS_MAX:
            yield row, Samples(sequence, stream, time_us, step_us, *arrays)


def _without_cobs(encoded: Bytes) -> tuple[Bytes, npt.NDArray[np.bool_]]:
    """COBS undone in all rows at once: from code byte to code byte.

    Returns:
        The raw bytes, and in which rows they are good; a row with a long block, for
        which this way is none, is not.
    """
    size = encoded.shape[1]
    raw = encoded.copy()
    place = encoded[:, 0].astype(np.intp)
    good = place != _LONG
    active = np.flatnonzero(good & (place < size))
    while len(active):
        here = place[active]
        code = encoded[active, here]
        raw[active, here] = 0
        good[active[code == _LONG]] = False
        here += code
        place[active] = here
        active = active[(here < size) & (code != _LONG)]
    good &= place == size
    return raw[:, 1:], good


def _crcs(raw: Bytes) -> npt.NDArray[np.uint32]:
    """CRC of each row, without its last four bytes."""
    data = memoryview(raw[:, :-CRC_BYTES].tobytes())
    size = raw.shape[1] - CRC_BYTES
    return np.array(
        [zlib.crc32(data[at : at + size]) for at in range(0, len(data), size)],
        np.uint32,
    )
