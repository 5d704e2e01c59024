"""The band: lower and upper edge in newtons, both inclusive.

A band can be given as newtons or as a share of a reference. A tolerance is
either a percentage *of the centre* or points *of the reference*; the two are
never the same thing and each has a constructor of its own. An upper edge of
infinity means "at least".
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

FORCE_MAX_N = 50_000.0
"""No athlete and no rig this program is for reaches it; a typing slip does."""


@dataclass(frozen=True, slots=True)
class Band:
    """Lower and upper edge in newtons, inclusive.

    Raises:
        FieldError: where an edge is not a force or the edges are crossed.
    """

    lower_n: float
    upper_n: float

    def __post_init__(self) -> None:
        if not 0 <= self.lower_n <= FORCE_MAX_N:
            raise FieldError(
                "band.lower_n",
                phrase(
                    "is {lower_n:g} N; it must be 0 N to {force_max_n:g} N.",
                    lower_n=self.lower_n,
                    force_max_n=FORCE_MAX_N,
                ),
            )
        if FORCE_MAX_N < self.upper_n < math.inf:
            raise FieldError(
                "band.upper_n",
                phrase(
                    "is {upper_n:g} N; it must be at most {force_max_n:g} N.",
                    upper_n=self.upper_n,
                    force_max_n=FORCE_MAX_N,
                ),
            )
        if not self.upper_n > self.lower_n:
            raise FieldError(
                "band.upper_n",
                phrase(
                    "is {upper_n:g} N; it must lie above the lower edge, "
                    "{lower_n:g} N.",
                    upper_n=self.upper_n,
                    lower_n=self.lower_n,
                ),
            )

    @classmethod
    def from_centre(cls, centre_n: float, width_n: float) -> Band:
        """A band around a centre; its lower part is cut off at 0 N."""
        return cls(max(0.0, centre_n - width_n / 2), centre_n + width_n / 2)

    @classmethod
    def from_percent(
        cls, lower_pct: float, upper_pct: float, *, reference_n: float
    ) -> Band:
        """A range in % of the reference, for example 25 to 40 %."""
        return cls(reference_n * lower_pct / 100, reference_n * upper_pct / 100)

    @classmethod
    def from_percent_of_centre(
        cls, centre_pct: float, tolerance_pct: float, *, reference_n: float
    ) -> Band:
        """A centre in % of the reference, ± a percentage of that centre."""
        centre_n = reference_n * centre_pct / 100
        half_n = centre_n * tolerance_pct / 100
        return cls(centre_n - half_n, centre_n + half_n)

    @classmethod
    def from_points_of_reference(
        cls, centre_pct: float, tolerance_points: float, *, reference_n: float
    ) -> Band:
        """A centre in % of the reference, ± points of the reference."""
        return cls.from_percent(
            centre_pct - tolerance_points,
            centre_pct + tolerance_points,
            reference_n=reference_n,
        )

    @classmethod
    def at_least(cls, lower_n: float) -> Band:
        """A minimum to beat: no upper edge."""
        return cls(lower_n, math.inf)

    @property
    def open_above(self) -> bool:
        """Whether the band has no upper edge."""
        return math.isinf(self.upper_n)

    @property
    def centre_n(self) -> float:
        """Half way between the edges; the lower edge of an open band."""
        if self.open_above:
            return self.lower_n
        return (self.lower_n + self.upper_n) / 2

    @property
    def width_n(self) -> float:
        """From edge to edge; infinite for an open band."""
        return self.upper_n - self.lower_n

    def moved(self, by_n: float) -> Band:
        """The same width, `by_n` newtons higher; not below 0 N."""
        by_n = max(by_n, -self.lower_n)
        return Band(self.lower_n + by_n, self.upper_n + by_n)

    def widened(self, by_n: float) -> Band:
        """`by_n` newtons wider about the same centre, but not below 0 N.

        An open band stays as it is.
        """
        if self.open_above:
            return self
        return Band(max(0.0, self.lower_n - by_n / 2), self.upper_n + by_n / 2)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values; an open upper edge is null."""
        return {
            "lower_n": self.lower_n,
            "upper_n": None if self.open_above else self.upper_n,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Band:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.number("lower_n", least=0, most=FORCE_MAX_N),
            fields.number("upper_n", least=0, most=FORCE_MAX_N)
            if fields.has("upper_n")
            else math.inf,
        )
