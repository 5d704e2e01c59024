"""How long and by how much forces were above a floor, exact on straight lines.

Each line between two joined samples is judged by the floor that was in force where it
begins, as the rules do it. Lying on the floor is being above it. Across a gap nothing
counts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.measures.sure_time import narrowed

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    Floats: TypeAlias = npt.NDArray[np.float64]


class Lines:
    """The lines between samples that belong to a rep, whole or in part.

    Args:
        time_s: shape (n,), increasing.
        joined: shape (n − 1,); whether sample i and i + 1 are both good with nothing
            lost between them.
        start_s, end_s: of the rep.
    """

    def __init__(
        self,
        time_s: Floats,
        joined: npt.NDArray[np.bool_],
        *,
        start_s: float,
        end_s: float,
    ) -> None:
        length_s = np.diff(time_s)
        first = np.clip((start_s - time_s[:-1]) / length_s, 0.0, 1.0)
        last = np.clip((end_s - time_s[:-1]) / length_s, 0.0, 1.0)
        self._used = joined & (last > first)
        self._length_s = length_s[self._used]
        self._first, self._last = first[self._used], last[self._used]

    @property
    def heard_s(self) -> float:
        """How long the lines are together."""
        return float(np.sum(self._length_s * (self._last - self._first)))

    def time_above_s(self, forces_n: Sequence[Floats], floor_n: Floats) -> float:
        """Seconds in which all of `forces_n` are at or above the floor.

        Args:
            forces_n: each of shape (n,).
            floor_n: shape (n − 1,), the floor of each line.
        """
        low, high = self._first, self._last
        for force_n in forces_n:
            head_n, tail_n = self._margins(force_n, floor_n)
            low, high = narrowed(head_n, tail_n, low, high)
        return float(np.sum(self._length_s * np.maximum(high - low, 0.0)))

    def impulse_above_ns(self, force_n: Floats, floor_n: Floats) -> float:
        """∫ (force − floor) dt where it is above 0, in N·s."""
        head_n, tail_n = self._margins(force_n, floor_n)
        low, high = narrowed(head_n, tail_n, self._first, self._last)
        above = high > low
        middle_n = head_n + (tail_n - head_n) * (low + high) / 2
        pieces = self._length_s * (high - low) * middle_n
        return float(np.sum(pieces[above]))

    def _margins(self, force_n: Floats, floor_n: Floats) -> tuple[Floats, Floats]:
        head_n = (force_n[:-1] - floor_n)[self._used]
        tail_n = (force_n[1:] - floor_n)[self._used]
        return head_n, tail_n
