"""Which marks were a slip: one that is taken back stays, and counts no more.

Each taking back is of the newest mark that still stands; where none does, it is of
nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


def slips(steps: Iterable[bool]) -> tuple[bool, ...]:
    """Of each mark whether it was taken back.

    Args:
        steps: in order of time, True for a mark and False for a taking back.
    """
    found: list[bool] = []
    standing: list[int] = []
    for is_mark in steps:
        if is_mark:
            standing.append(len(found))
            found.append(False)
        elif standing:
            found[standing.pop()] = True
    return tuple(found)
