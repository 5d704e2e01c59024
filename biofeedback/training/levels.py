"""Levels: what the judged force is compared with while one band is in force.

Each level is a height over which it raises a flag. Heights are straight lines in
the forces of the cells, so between two samples they are straight lines in time.
All flags of one moment make a code, and each code has its `Levels`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.training.events import Position

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.training.crossings import Judged
    from biofeedback.training.prescription import Prescription

    Floats: TypeAlias = npt.NDArray[np.float64]

ONSET_LEAST_N = 5.0
ONSET_DIVISOR = 10.0
"""A rep starts above max(5 N, a tenth of the band's lower edge)."""

_STARTED, _FALLEN, _BELOW, _ABOVE, _OVER, _UNBALANCED = 1, 2, 4, 8, 16, 32


@dataclass(frozen=True, slots=True)
class Levels:
    """How the force stands against every level between two crossings.

    Attributes:
        started: above the onset level.
        fallen: under half the onset level.
        position: with a band on each side, a side that is below goes first.
        over_ceiling: above the ceiling.
        balanced: the sides differ by no more than the tolerance.
    """

    started: bool
    fallen: bool
    position: Position
    over_ceiling: bool
    balanced: bool

    @classmethod
    def of(cls, code: int) -> Levels:
        """What a code means."""
        return _LEVELS[code]


def _levels(code: int) -> Levels:
    if code & _BELOW:
        position = Position.BELOW
    elif code & _ABOVE:
        position = Position.ABOVE
    else:
        position = Position.INSIDE
    return Levels(
        started=bool(code & _STARTED),
        fallen=bool(code & _FALLEN),
        position=position,
        over_ceiling=bool(code & _OVER),
        balanced=not code & _UNBALANCED,
    )


_LEVELS = tuple(_levels(code) for code in range(64))


class LevelTable:
    """All levels for one band.

    Args:
        prescription: gives the band in force, ceiling and balance.
        judged: which forces the band applies to.

    Attributes:
        flags: shape (levels,); the flag that each level raises. `flag_list` is
            the same for a loop.
    """

    def __init__(self, prescription: Prescription, judged: Judged) -> None:
        band = prescription.band
        self._judged = judged
        self._balance: float | None = None
        points = prescription.balance_tolerance_points
        if points is not None and judged.sides is not None:
            # |left − right| ≤ 2·points/100 · (left + right)
            self._balance = points / 50.0
        onset_n = max(ONSET_LEAST_N, band.lower_n / ONSET_DIVISOR)
        # Which force, +1 where more raises the flag, the level, the flag.
        rows = [(0, 1.0, onset_n, _STARTED), (0, -1.0, onset_n / 2, _FALLEN)]
        forces = judged.force_count
        self._shared = forces == 1  # what is judged is the effort itself
        for force in range(forces):
            row = force if self._shared else force + 1
            rows.append((row, -1.0, band.lower_n, _BELOW))
            if not band.open_above:
                rows.append((row, 1.0, band.upper_n, _ABOVE))
            if prescription.ceiling_n is not None:
                rows.append((row, 1.0, prescription.ceiling_n, _OVER))
        if self._balance is not None:
            last = max(row for row, *_ in rows)
            rows += [(last + 1, 1.0, 0.0, _UNBALANCED)]
            rows += [(last + 2, 1.0, 0.0, _UNBALANCED)]
        self._rows = np.array([row for row, *_ in rows])
        self._signs = np.array([[sign] for _, sign, _, _ in rows])
        self._levels_n = np.array([[sign * level_n] for _, sign, level_n, _ in rows])
        self._limits = [(row, sign > 0, level_n) for row, sign, level_n, _ in rows]
        self.flag_list = [flag for *_, flag in rows]
        self.flags = np.array(self.flag_list, dtype=np.uint8)

    def heights(self, force_n: Floats) -> Floats:
        """Signed distance from each level; more than 0 raises its flag.

        Args:
            force_n: shape (n, channels).

        Returns:
            Shape (levels, n).
        """
        forces_n = [self._judged.effort(force_n)]
        if not self._shared:
            forces_n += self._judged.forces(force_n)
        if self._balance is not None and self._judged.sides is not None:
            left, right = self._judged.sides
            more_n = force_n[:, left] - force_n[:, right]
            allowed_n = self._balance * (force_n[:, left] + force_n[:, right])
            forces_n += [more_n - allowed_n, -more_n - allowed_n]
        # No product of matrices: a library may spread that over all cores.
        over_n: Floats = np.array(forces_n)[self._rows]
        over_n *= self._signs
        over_n -= self._levels_n
        return over_n

    def stays(self, force_n: Floats, raised: Sequence[bool]) -> bool:
        """Whether all samples raise these flags: `heights` for a few, without arrays.

        Args:
            force_n: shape (n, channels), no NaN.
            raised: for each level.
        """
        spans = [(min(one), max(one)) for one in self._few(force_n.T.tolist())]
        for (row, rising, level_n), was_raised in zip(
            self._limits, raised, strict=True
        ):
            low_n, high_n = spans[row]
            # A difference of two floats is more than 0 where they say so themselves.
            if rising:
                stays = low_n > level_n if was_raised else high_n <= level_n
            else:
                stays = high_n < level_n if was_raised else low_n >= level_n
            if not stays:
                return False
        return True

    def _few(self, columns: list[list[float]]) -> list[list[float]]:
        """The forces of `heights`, by the same sums."""
        parts = [self._judged.effort_columns]
        if not self._shared:
            parts += self._judged.columns
        forces_n = []
        for part in parts:
            total = columns[part[0]]
            for column in part[1:]:
                total = [a + b for a, b in zip(total, columns[column], strict=True)]
            forces_n.append(total)
        if self._balance is not None and self._judged.sides is not None:
            share = self._balance
            pairs = list(
                zip(*(columns[side] for side in self._judged.sides), strict=True)
            )
            forces_n.append([(a - b) - share * (a + b) for a, b in pairs])
            forces_n.append([(b - a) - share * (a + b) for a, b in pairs])
        return forces_n

    def code_at(self, heights: Sequence[float]) -> int:
        """Flags raised at one moment."""
        code = 0
        for height, flag in zip(heights, self.flag_list, strict=True):
            if height > 0:
                code |= flag
        return code

    def codes(self, raised: npt.NDArray[np.bool_]) -> npt.NDArray[np.uint8]:
        """Flags raised in each column of (levels, n)."""
        codes: npt.NDArray[np.uint8] = np.bitwise_or.reduce(
            raised.view(np.uint8) * self.flags[:, None], axis=0
        )
        return codes
