"""Names that stand more than once in a list, told apart by a number."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterable


def told_apart(names: Iterable[str]) -> tuple[str, ...]:
    """The names in their order; those of several get (1), (2) and so on."""
    names = tuple(names)
    times, seen = Counter(names), Counter[str]()
    told: list[str] = []
    for name in names:
        seen[name] += 1
        number = seen[name]
        several = times[name] > 1
        told.append(
            phrase("{name} ({number})", name=name, number=number) if several else name
        )
    return tuple(told)
