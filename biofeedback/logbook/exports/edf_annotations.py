"""Annotations of EDF+: lists of time-stamped texts, a piece in each data record.

Each record begins with its own time (Kemp and Olivan 2003, 2.2.4). An annotation goes
into the record of its time, or into a later one where that is full.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

LEAST_BYTES = 64
TEXT_MAX = 400
"""Longest text, in characters; the rest of a longer note is cut off, and marked."""
_CONTROL = dict.fromkeys((*range(32), 127), " ")


@dataclass(frozen=True, slots=True)
class Annotation:
    """A text at a time from the first sample, with a duration or None."""

    onset_s: float
    duration_s: float | None
    text: str


def packed(
    annotations: Sequence[Annotation],
    *,
    records: int,
    duration: Decimal,
    part_of_second: Decimal,
) -> list[bytes]:
    """The annotation signal of each record, all of one even length.

    Args:
        duration: of a record.
        part_of_second: by how much the start is later than the header's full second.
    """
    times = [_stamp(part_of_second + number * duration) for number in range(records)]
    starts = [time + b"\x14\x14\x00" for time in times]
    queue = sorted(annotations, key=lambda one: one.onset_s)
    entries = [(one.onset_s, _entry(one, part_of_second)) for one in queue]
    longest = max((len(entry) for _, entry in entries), default=0)
    size = max(LEAST_BYTES, max(map(len, starts), default=0) + longest)
    size += size % 2
    while (texts := _filled(starts, entries, size, float(duration))) is None:
        size *= 2
    return texts


def _filled(
    starts: Sequence[bytes],
    entries: Sequence[tuple[float, bytes]],
    size: int,
    duration_s: float,
) -> list[bytes] | None:
    """The records filled one after the other; None where not all finds room."""
    texts: list[bytes] = []
    at = 0
    for number, start in enumerate(starts):
        text = start
        ends_s = (number + 1) * duration_s
        last = number == len(starts) - 1
        while at < len(entries) and (entries[at][0] < ends_s or last):
            if len(text) + len(entries[at][1]) > size:
                break
            text += entries[at][1]
            at += 1
        texts.append(text.ljust(size, b"\x00"))
    return texts if at == len(entries) else None


def _entry(one: Annotation, part_of_second: Decimal) -> bytes:
    text = one.text.translate(_CONTROL).strip()
    if len(text) > TEXT_MAX:
        text = f"{text[: TEXT_MAX - 1]}…"
    stamp = _stamp(part_of_second + Decimal(f"{one.onset_s:.6f}"))
    if one.duration_s is not None:
        stamp += b"\x15" + _stamp(Decimal(f"{one.duration_s:.6f}")).lstrip(b"+-")
    return stamp + b"\x14" + text.encode() + b"\x14\x00"


def _stamp(time: Decimal) -> bytes:
    text = f"{time:+f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).encode()
