"""A run: frames of samples of one layout that follow each other, as arrays.

A recording is read in large pieces, and nearly all of it are frames of samples that
look alike. What is done once for a thousand of them costs little more than for one, and
an object for each frame would cost more than all the rest.

A live line brings a few at once, too few to be worth arrays of bytes: each is looked at
by itself, and the samples of all of them are read together (`together`).

Whatever is not plainly a good frame of samples is left to the decoder, which takes it
alone: nothing here decides that something is damaged. So both ways give the same.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass
from functools import cache
from itertools import groupby, pairwise
from operator import attrgetter
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
from biofeedback.wire.samples_payload import Packed, read_rows, unpacked

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    import numpy.typing as npt

    Bytes = npt.NDArray[np.uint8]
    Bits = npt.NDArray[np.bool_]
    Places = npt.NDArray[np.intp]
    Whole = npt.NDArray[np.int64]

LEAST = 16
"""Fewer frames of a size are decoded one by one in less time."""
_STREAM_AT, _CHANNELS_AT, _COUNT_AT = range(HEAD_BYTES, HEAD_BYTES + 3)
_TIME_AT, _STEP_AT, _SAMPLES_AT = (_COUNT_AT + 1 + 4 * number for number in range(3))
_SETTLING = 0x10
_layout = attrgetter("stream", "channels", "each")


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """Frames of one stream and layout, in the order in which they came.

    Attributes:
        stream: which stream, counted from 0.
        sequence: shape (frames,), as `Samples.sequence` of each.
        time_us: shape (frames,), likewise.
        step_us: shape (frames,), likewise.
        each: how many samples a frame has.
        counts: shape (frames × each, channels), int32, of all frames.
        saturated: shape (frames × each, channels), bool, likewise.
        settling: shape (frames × each,), bool, likewise.
    """

    stream: int
    sequence: Whole
    time_us: Whole
    step_us: Whole
    each: int
    counts: npt.NDArray[np.int32]
    saturated: Bits
    settling: Bits

    def __len__(self) -> int:
        """How many frames there are."""
        return len(self.sequence)

    def part(self, begin: int, end: int) -> Run:
        """Some of the frames."""
        these = slice(begin, end)
        samples = slice(begin * self.each, end * self.each)
        return Run(
            self.stream,
            self.sequence[these],
            self.time_us[these],
            self.step_us[these],
            self.each,
            self.counts[samples],
            self.saturated[samples],
            self.settling[samples],
        )

    def frames(self) -> Iterator[Samples]:
        """Each by itself."""
        by_frame = (len(self), self.each, self.counts.shape[1])
        heads = zip(
            self.sequence.tolist(),
            self.time_us.tolist(),
            self.step_us.tolist(),
            self.counts.reshape(by_frame),
            self.saturated.reshape(by_frame),
            self.settling.reshape(by_frame[:2]),
            strict=True,
        )
        for sequence, time_us, step_us, *arrays in heads:
            yield Samples(sequence, self.stream, time_us, step_us, *arrays)


def together(frames: Iterable[Packed]) -> list[Run | Samples]:
    """Frames that follow each other; those of one layout are read at once."""
    return [_alike(list(some)) for _, some in groupby(frames, key=_layout)]


def _alike(frames: Sequence[Packed]) -> Run | Samples:
    """Frames of one layout, at least one."""
    if len(frames) == 1:
        return unpacked(frames[0])
    first = frames[0]
    heads = [(one.sequence, one.time_us, one.step_us) for one in frames]
    sequence, time_us, step_us = np.array(heads, np.int64).T
    return Run(
        first.stream,
        sequence,
        time_us,
        step_us,
        first.each,
        *read_rows(b"".join([one.rows for one in frames]), first.channels),
    )


def find_runs(data: Bytes, starts: Places, sizes: Places) -> dict[int, Run | Samples]:
    """Good frames of samples among what stands between delimiters.

    Args:
        data: with the delimiters.
        starts: where each piece begins.
        sizes: of each, without its delimiter; there is no 00 in it.

    Returns:
        By the number of the first piece of each run, which is of as many pieces as it
        has frames, and of each frame that stands alone; all others are to be decoded
        one by one.
    """
    found: dict[int, Run | Samples] = {}
    often = np.bincount(sizes[sizes <= LINE_RAW_MAX]) >= LEAST
    for size in np.flatnonzero(often).tolist():
        if size <= 1 + _SAMPLES_AT + CRC_BYTES:
            continue
        pieces = np.flatnonzero(sizes == size)
        raw, good = _without_cobs(_side_by_side(data, starts[pieces], size))
        good &= raw[0] == FrameType.SAMPLES
        good &= _crcs(raw[:-CRC_BYTES]) == _number(raw[-CRC_BYTES:])
        for layout, numbers in _layouts(raw, pieces, good):
            found.update(_runs(layout, numbers))
    return found


def _side_by_side(data: Bytes, starts: Places, size: int) -> Bytes:
    """Pieces of one size as columns, shape (size, pieces)."""
    first, last = int(starts[0]), int(starts[-1])
    if last - first == (len(starts) - 1) * (size + 1):  # each follows the one before
        rows = data[first : last + size + 1].reshape(len(starts), size + 1)[:, :size]
    else:
        rows = data[starts[:, None] + np.arange(size)]
    return np.array(rows.T, order="C")


def _without_cobs(encoded: Bytes) -> tuple[Bytes, Bits]:
    """COBS undone in all columns at once, byte by byte.

    A place beyond 255 turns over to one that lies before the byte at which it was
    reached, so it is never met again and never the end.

    Args:
        encoded: written over.

    Returns:
        The raw bytes, and in which columns they are good: those with a long block, for
        which this way is none, are not.
    """
    size, pieces = encoded.shape
    following = encoded[0].copy()  # where the next code byte stands
    is_code = np.empty(pieces, np.bool_)
    as_number = is_code.view(np.uint8)
    code = np.empty(pieces, np.uint8)
    for place, column in enumerate(encoded[1:], start=1):
        np.equal(following, place, out=is_code)
        np.multiply(column, as_number, out=code)
        np.add(following, code, out=following)
        np.subtract(column, code, out=column)  # a code byte stands for a zero
    return encoded[1:], following == size


@cache
def _shares(size: int) -> tuple[npt.NDArray[np.uint32], int]:
    """What each byte of a message adds to its CRC, by place and value.

    A CRC is linear: that of a message is that of as many zeros, with the share of
    each byte added by exclusive or; see `zlib.crc32`, of which this is made.
    """
    zeros = zlib.crc32(bytes(size))
    last = [zlib.crc32(bytes((value,))) ^ zlib.crc32(b"\0") for value in range(256)]
    step = np.array(last, np.uint32)
    shares = np.empty((size, 256), np.uint32)
    share = step
    for place in reversed(range(size)):
        shares[place] = share
        share = step[share & 0xFF] ^ (share >> np.uint32(8))
    shares.setflags(write=False)
    return shares, zeros


def _crcs(raw: Bytes) -> npt.NDArray[np.uint32]:
    """CRC of each column."""
    shares, zeros = _shares(len(raw))
    first = raw[:, 0]
    # Most bytes of a head, and quality, are the same in all frames.
    differs = np.logical_or.reduce(raw != first[:, None], axis=1)
    same = np.flatnonzero(~differs)
    crcs = np.full(raw.shape[1], zeros, np.uint32)
    crcs ^= np.bitwise_xor.reduce(shares[same, first[same]])
    share = np.empty(raw.shape[1], np.uint32)
    for place in np.flatnonzero(differs).tolist():
        shares[place].take(raw[place], out=share, mode="clip")
        np.bitwise_xor(crcs, share, out=crcs)
    return crcs


def _number(raw: Bytes) -> npt.NDArray[np.uint32]:
    """A number of 32 bits in each column."""
    numbers: npt.NDArray[np.uint32] = np.array(raw.T, order="C").view("<u4")[:, 0]
    return numbers


def _layouts(raw: Bytes, pieces: Places, good: Bits) -> Iterator[tuple[Bytes, Places]]:
    """Good columns and their pieces by stream, channels and number of samples."""
    if not good.all():
        raw, pieces = raw[:, good], pieces[good]
    told = raw[_STREAM_AT : _COUNT_AT + 1]
    if (told == told[:, :1]).all():
        yield raw, pieces
        return
    _, which = np.unique(told, axis=1, return_inverse=True)
    for layout in range(int(which.max()) + 1):
        yield raw[:, which == layout], pieces[which == layout]


def _runs(raw: Bytes, pieces: Places) -> Mapping[int, Run | Samples]:
    """Frames of one layout, cut where another piece lies between two of them."""
    if not len(pieces):
        return {}
    stream, channels, count = raw[_STREAM_AT : _COUNT_AT + 1, 0].tolist()
    width = 1 + 3 * channels
    if not (
        1 <= channels <= CHANNELS_MAX
        and count >= 1
        and stream < STREAMS_MAX
        and len(raw) == _SAMPLES_AT + count * width + CRC_BYTES
    ):
        return {}
    step_us = _number(raw[_STEP_AT:_SAMPLES_AT]).astype(np.int64)
    span_us = (count - 1) * step_us
    even = (span_us > 0) & (span_us <= SPAN_MAX_US) if count > 1 else step_us == 0
    if not even.all():
        raw, pieces, step_us = raw[:, even], pieces[even], step_us[even]
    whole = Run(
        stream,
        _number(raw[_STREAM_AT - 4 : _STREAM_AT]).astype(np.int64),
        _number(raw[_TIME_AT:_STEP_AT]).astype(np.int64),
        step_us,
        count,
        *_read(raw[_SAMPLES_AT:-CRC_BYTES].reshape(count, width, len(pieces))),
    )
    if not len(pieces):
        return {}
    cuts = [0, *(np.flatnonzero(np.diff(pieces) != 1) + 1).tolist(), len(pieces)]
    if len(cuts) > len(pieces) // 2:  # such as two streams that take turns
        return dict(zip(pieces.tolist(), whole.frames(), strict=True))
    return {int(pieces[begin]): whole.part(begin, end) for begin, end in pairwise(cuts)}


def _read(table: Bytes) -> tuple[npt.NDArray[np.int32], Bits, Bits]:
    """Counts, saturated and settling; `table` is (samples, 1 + 3 channels, frames)."""
    samples, width, frames = table.shape
    channels = width // 3
    # As the upper three bytes of 32 bits; the shift extends the sign.
    wide = np.zeros((samples, channels, frames, 4), np.uint8)
    bytes_of = table[:, 1:].reshape(samples, channels, 3, frames)
    for place in range(3):
        wide[..., 1 + place] = bytes_of[:, :, place]
    counts = (wide.view("<i4")[..., 0] >> 8).transpose(2, 0, 1).reshape(-1, channels)
    quality = table[:, 0].T.reshape(-1)
    bits = np.left_shift(1, np.arange(channels, dtype=np.uint8), dtype=np.uint8)
    saturated = (counts == COUNTS_MAX) | (counts == COUNTS_MIN)
    if quality.any():
        saturated |= (quality[:, None] & bits) != 0
    settling = (quality & _SETTLING) != 0
    for array in (counts, saturated, settling):
        array.setflags(write=False)
    return counts, saturated, settling
