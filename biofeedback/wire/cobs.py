"""COBS: bytes without zeros, so that a zero can end a frame.

After S. Cheshire and M. Baker, "Consistent Overhead Byte Stuffing", IEEE/ACM
Transactions on Networking 7 (2), 1999. A run of 254 bytes that are not zero is
written without the optional ``01`` after it where it ends the data; both forms
are read.

Nothing here loops over single bytes: encoding goes from zero to zero, decoding
from block to block.
"""

from __future__ import annotations

RUN_MAX = 254
"""Most bytes that are not zero in one block."""
_LONG = 0xFF  # code of a block of 254 bytes with no zero after it


def encoded_max(raw_bytes: int) -> int:
    """Most bytes that `raw_bytes` bytes can become, without the delimiter."""
    return raw_bytes + raw_bytes // RUN_MAX + 1


def encode(raw: bytes) -> bytes:
    """Encodes `raw`; the delimiter is not part of the result."""
    runs = raw.split(b"\0")
    last = runs.pop()
    parts = []
    for run in runs:
        if len(run) < RUN_MAX:
            parts.append(b"%c%b" % (len(run) + 1, run))
        else:
            parts.append(_long_run(run, ends=False))
    parts.append(
        b"%c%b" % (len(last) + 1, last)
        if len(last) < RUN_MAX
        else _long_run(last, ends=True)
    )
    return b"".join(parts)


def _long_run(run: bytes, *, ends: bool) -> bytes:
    """Encodes a run of 254 bytes or more; `ends` where no zero follows it."""
    whole = len(run) // RUN_MAX * RUN_MAX
    blocks = b"".join(
        b"\xff" + run[start : start + RUN_MAX] for start in range(0, whole, RUN_MAX)
    )
    rest = run[whole:]
    if ends and not rest:
        return blocks
    return blocks + b"%c%b" % (len(rest) + 1, rest)


def decode(encoded: bytes) -> bytes | None:
    """Decodes what stood between two delimiters, or None where it is no COBS.

    Args:
        encoded: at least the one code byte of an empty block, without delimiter.
    """
    size = len(encoded)
    if not size or 0 in encoded:
        return None
    # As long as no block is of the long kind, each code byte but the first
    # stands exactly where a zero belongs.
    raw = bytearray(encoded)
    place = encoded[0]
    if place == _LONG:
        return _decode_blocks(encoded)
    while place < size:
        code = encoded[place]
        if code == _LONG:
            return _decode_blocks(encoded)
        raw[place] = 0
        place += code
    return bytes(raw[1:]) if place == size else None


def _decode_blocks(encoded: bytes) -> bytes | None:
    """Decodes block by block, with long blocks among them."""
    size = len(encoded)
    parts = []
    place = 0
    while place < size:
        code = encoded[place]
        end = place + code
        if end > size:
            return None
        parts.append(encoded[place + 1 : end])
        if code != _LONG and end < size:
            parts.append(b"\0")
        place = end
    return b"".join(parts)
