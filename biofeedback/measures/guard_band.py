"""The guard band: inside, and surely inside.

A force shown at the edge of a band is inside it with a chance of one half. JCGM
106:2012 draws the edges in by a guard so that a force within them is inside with
a stated confidence. Simple acceptance (the shown force decides) is what the hold
rules use; the guarded band is shown beside it and never replaces it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import Band

if TYPE_CHECKING:
    import numpy.typing as npt

GUARD_FACTOR = 2.0
"""w = 2u, the default of ISO 14253-1: at the guarded edge the force is outside the
band in 2.3 % of cases at most."""

CAPABLE = 3.0
"""C_m that legal metrology asks for: U no more than a third of the tolerance."""


def conformance_probability(
    force_n: npt.ArrayLike, band: Band, *, u_n: float
) -> npt.NDArray[np.float64]:
    """How likely the true force is inside the band, JCGM 106:2012 eq. 11.

    p = Φ((upper − y)/u) − Φ((lower − y)/u), the measured value y being all that is
    known. An open band has no upper term.

    Args:
        force_n: shown forces, any shape.
        u_n: one standard uncertainty, more than 0.

    Raises:
        FieldError: an uncertainty that is not more than 0.
    """
    if not 0 < u_n < math.inf:
        raise FieldError(
            "u_n", phrase("is {u_n:g} N; it must be more than 0 N.", u_n=u_n)
        )
    force = np.asarray(force_n, dtype=np.float64)
    from scipy import special  # noqa: PLC0415  no live set asks, and each start would pay

    below = special.ndtr((band.lower_n - force) / u_n)
    above = special.ndtr((force - band.upper_n) / u_n)
    probability: npt.NDArray[np.float64] = np.clip(1 - below - above, 0.0, 1.0)
    return probability


def capability_index(band: Band, *, u_n: float) -> float:
    """C_m = width / (4u), JCGM 106:2012 eq. 12; infinite for an open band."""
    return band.width_n / (4 * u_n)


class Decision(Enum):
    """What may be said of a shown force."""

    SURELY_INSIDE = phrase("surely inside")
    INSIDE = phrase("inside")
    OUTSIDE = phrase("outside")
    SURELY_OUTSIDE = phrase("surely outside")


@dataclass(frozen=True, slots=True)
class GuardBand:
    """A band with a guard on both sides of each edge. All edges are inclusive.

    Attributes:
        guard_n: w, taken off inside for acceptance, added outside for rejection.
    """

    band: Band
    guard_n: float

    def __post_init__(self) -> None:
        if not 0 <= self.guard_n < math.inf:
            raise FieldError("guard_n", phrase("must be 0 N or more."))

    @classmethod
    def of(cls, band: Band, *, u_n: float, factor: float = GUARD_FACTOR) -> GuardBand:
        """Guard of factor · u; the factor is r·k of JCGM 106, 2 by default."""
        return cls(band, factor * u_n)

    @property
    def guarded(self) -> Band | None:
        """The band that is surely inside; None where nothing is left of it."""
        lower_n = self.band.lower_n + self.guard_n
        upper_n = self.band.upper_n - self.guard_n
        return Band(lower_n, upper_n) if lower_n < upper_n else None

    def decide(self, force_n: float) -> Decision:
        """What may be said of one shown force."""
        band, guard_n, guarded = self.band, self.guard_n, self.guarded
        if not band.lower_n - guard_n <= force_n <= band.upper_n + guard_n:
            return Decision.SURELY_OUTSIDE
        if not band.lower_n <= force_n <= band.upper_n:
            return Decision.OUTSIDE
        if guarded is not None and guarded.lower_n <= force_n <= guarded.upper_n:
            return Decision.SURELY_INSIDE
        return Decision.INSIDE

    def words(self) -> str:
        """What the guard leaves of the band, for the desk."""
        guarded = self.guarded
        if guarded is None:
            return phrase(
                "The rig is known to ±{guard_n:.3g} N; this band is "
                "too narrow to say of any force that it is surely "
                "inside.",
                guard_n=self.guard_n,
            )
        if guarded.open_above:
            return phrase(
                "Surely inside: from {lower_n:.4g} N (the rig is known to "
                "±{guard_n:.3g} N).",
                lower_n=guarded.lower_n,
                guard_n=self.guard_n,
            )
        return phrase(
            "Surely inside: from {lower_n:.4g} N to {upper_n:.4g} N (the rig is known "
            "to ±{guard_n:.3g} N).",
            lower_n=guarded.lower_n,
            upper_n=guarded.upper_n,
            guard_n=self.guard_n,
        )
