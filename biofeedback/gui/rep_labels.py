"""Names of times in a figure: where each is written, so that none covers another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Label:
    """A name at a time, as wide as it is written, in seconds of the figure."""

    time_s: float
    name: str
    wide_s: float


def in_rows(
    labels: Sequence[Label], *, last_s: float
) -> tuple[tuple[Label, float, int], ...]:
    """Where each label begins, and in which row, so that none covers another.

    A label stands right of its time, or left of it where the figure ends.
    """
    ends: list[float] = []
    placed: dict[int, tuple[Label, float, int]] = {}
    begins = [
        label.time_s if label.time_s + label.wide_s <= last_s
        else label.time_s - label.wide_s
        for label in labels
    ]  # fmt: skip
    for index in sorted(range(len(labels)), key=begins.__getitem__):
        from_s, label = begins[index], labels[index]
        free = (row for row, end_s in enumerate(ends) if end_s <= from_s)
        row = next(free, len(ends))
        if row == len(ends):
            ends.append(0.0)
        ends[row] = from_s + label.wide_s
        placed[index] = (label, from_s, row)
    return tuple(placed[index] for index in range(len(labels)))
