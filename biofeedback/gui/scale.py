"""The vertical scale: newtons to pixels, fixed for a set."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from biofeedback.training.band import Band

ROOM_ABOVE = 1.4
"""Top of the scale over the highest edge: overshoot and nudges stay in view."""
ROOM_FOR_BEST = 1.25
"""The same over what a maximal trial is expected to reach: it may well be more."""
ROOM_BELOW = 0.05
"""Share of the top that is shown under 0 N, so that the line of rest is whole."""


def nice_above(value: float) -> float:
    """The smallest of 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8 · 10^k not below `value`."""
    if not math.isfinite(value) or value <= 0:
        return 1.0
    decade = 10.0 ** math.floor(math.log10(value))
    for step in (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0):
        if value <= step * decade * (1 + 1e-9):
            return step * decade
    return 10.0 * decade


@dataclass(frozen=True, slots=True)
class Scale:
    """From `bottom_n` at the foot to `top_n` at the head.

    Attributes:
        reference_n: the force that is 100 %, or None.
    """

    top_n: float
    bottom_n: float
    reference_n: float | None = None

    @classmethod
    def for_band(
        cls, band: Band, *, ceiling_n: float | None, reference_n: float | None
    ) -> Scale:
        """A scale with room above the band and the ceiling."""
        highest_n = band.lower_n * 1.5 if band.open_above else band.upper_n
        top_n = max(highest_n * ROOM_ABOVE, (ceiling_n or 0.0) * 1.15, 1.0)
        return cls(top_n, -ROOM_BELOW * top_n, reference_n)

    @classmethod
    def for_maximal(cls, expected_n: float, *, ceiling_n: float | None) -> Scale:
        """A scale with room above what a trial is expected to reach.

        Its top is a round number, so that a slightly better trial changes nothing.
        """
        top_n = nice_above(max(expected_n * ROOM_FOR_BEST, (ceiling_n or 0.0) * 1.05))
        return cls(top_n, -ROOM_BELOW * top_n)

    def has_room_for(self, force_n: float) -> bool:
        """Whether a line at this force is whole."""
        return force_n <= 0.97 * self.top_n

    def holds(self, band: Band) -> bool:
        """Whether a band, perhaps a nudged one, can still be seen with room."""
        highest_n = band.lower_n if band.open_above else band.upper_n
        return highest_n <= 0.95 * self.top_n

    def y(self, force_n: float, height: float) -> float:
        """Pixels from the head; a force off the scale stays at its end."""
        share = (force_n - self.bottom_n) / (self.top_n - self.bottom_n)
        return height * (1.0 - min(1.0, max(0.0, share)))

    def ticks(self) -> tuple[float, ...]:
        """Three to six round forces from 0 up to the top."""
        step = nice_above(self.top_n / 6)
        return tuple(step * i for i in range(int(self.top_n / step + 1e-9) + 1))

    def percent(self, force_n: float) -> float | None:
        """A force in % of the reference; None without one."""
        return 100.0 * force_n / self.reference_n if self.reference_n else None
