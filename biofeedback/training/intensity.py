"""The intensity: how hard, as a plan prescribes it, before it is newtons.

A range, a centre with a tolerance, or a minimum to beat; in % of a reference or in
newtons. A tolerance is a share *of the centre* or points *of the reference*, and is
never written without saying which. A range with a tolerance leaves it to the day
where in the range the band lies.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import FORCE_MAX_N, Band

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

LEAST_PCT = 1.0
"""A smaller percentage is a share typed by mistake: 0.7 where 70 was meant."""
MOST_PCT = 300.0
"""Well above what lowering reaches against isometric strength."""
_ROUNDING = 1e-9
"""A range that is just as wide as its band stays so whatever the last digit says."""


class Unit(Enum):
    """What the numbers of an intensity are."""

    PERCENT = phrase("% of the reference")
    NEWTONS = phrase("N")


class ToleranceOf(Enum):
    """What a tolerance is a share of."""

    CENTRE = phrase("% of the centre")
    REFERENCE = phrase("points of the reference")
    NEWTONS = phrase("N either way")


@dataclass(frozen=True, slots=True)
class Intensity:
    """How hard; see `in_range`, `around` and `at_least`.

    Attributes:
        lower, upper: of the range, in `unit`; equal for a centre, `upper` None for
            a minimum without an upper edge.
        tolerance: from the centre of the band to an edge; None where the band is
            the whole range.

    Raises:
        FieldError: names the field that does not fit.
    """

    lower: float
    upper: float | None
    unit: Unit = Unit.PERCENT
    tolerance: float | None = None
    tolerance_of: ToleranceOf = ToleranceOf.CENTRE

    def __post_init__(self) -> None:
        self._check_number("lower", self.lower)
        if self.upper is None:
            if self.tolerance is not None:
                raise FieldError(
                    "intensity.tolerance", phrase("has no centre: a minimum.")
                )
            return
        self._check_number("upper", self.upper)
        if self.upper < self.lower:
            raise FieldError(
                "intensity.upper",
                phrase(
                    "is {upper:g}; it must not be below the lower, {lower:g}.",
                    upper=self.upper,
                    lower=self.lower,
                ),
            )
        self._check_tolerance()

    def _check_number(self, name: str, value: float) -> None:
        field = f"intensity.{name}"
        if self.unit is Unit.NEWTONS:
            if not 0 < value <= FORCE_MAX_N:
                raise FieldError(
                    field,
                    phrase(
                        "must be more than 0 N and at most {force_max_n:g} N.",
                        force_max_n=FORCE_MAX_N,
                    ),
                )
        elif 0 < value < LEAST_PCT:
            raise FieldError(
                field,
                phrase(
                    "is {value:g} % of the reference, which is next to nothing.",
                    value=value,
                ),
                phrase("Type {value:g} for {value:g} %.", value=100 * value),
            )
        elif not LEAST_PCT <= value <= MOST_PCT:
            raise FieldError(
                field,
                phrase(
                    "must be {least_pct:g} % to {most_pct:g} %.",
                    least_pct=LEAST_PCT,
                    most_pct=MOST_PCT,
                ),
            )

    def _check_tolerance(self) -> None:
        tolerance = self.tolerance
        if tolerance is None:
            if self.upper == self.lower:
                raise FieldError("intensity.tolerance", phrase("a centre needs one."))
            return
        if not 0 < tolerance < math.inf:
            raise FieldError("intensity.tolerance", phrase("must be more than 0."))
        if self.unit is Unit.NEWTONS and self.tolerance_of is ToleranceOf.REFERENCE:
            raise FieldError(
                "intensity.tolerance_of",
                phrase("points need a reference; here are newtons."),
            )
        if self.unit is Unit.PERCENT and self.tolerance_of is ToleranceOf.NEWTONS:
            raise FieldError(
                "intensity.tolerance_of",
                phrase("must be a percentage, as the intensity is."),
            )
        lowest, highest = self._centres()
        if lowest - self._half(lowest) < 0:
            raise FieldError("intensity.tolerance", phrase("reaches below 0."))
        if self.upper != self.lower and lowest > highest:
            raise FieldError("intensity.tolerance", phrase("is wider than the range."))

    @classmethod
    def in_range(
        cls,
        lower: float,
        upper: float,
        *,
        unit: Unit = Unit.PERCENT,
        tolerance: float | None = None,
        tolerance_of: ToleranceOf = ToleranceOf.CENTRE,
    ) -> Intensity:
        """A range, for example 25 to 40 %; the band of the day lies inside it."""
        return cls(lower, upper, unit, tolerance, tolerance_of)

    @classmethod
    def around(
        cls,
        centre: float,
        tolerance: float,
        tolerance_of: ToleranceOf,
        *,
        unit: Unit = Unit.PERCENT,
    ) -> Intensity:
        """A centre with its tolerance, for example 70 % ± 5 % of the centre."""
        return cls(centre, centre, unit, tolerance, tolerance_of)

    @classmethod
    def at_least(cls, lower: float, *, unit: Unit = Unit.PERCENT) -> Intensity:
        """A minimum to beat, without an upper edge."""
        return cls(lower, None, unit)

    @property
    def wants_reference(self) -> bool:
        """Whether newtons can only be had with a reference."""
        return self.unit is Unit.PERCENT

    @property
    def leaves_room(self) -> bool:
        """Whether the day decides where in the range the band lies."""
        if self.upper is None or self.tolerance is None:
            return False
        lowest, highest = self._centres()
        return highest > lowest

    def centre(self, place: float = 0.0) -> float:
        """Centre of the band in `unit`; the lower edge of a minimum.

        Args:
            place: where in the range, from 0 (low end) to 1 (high end).
        """
        if self.upper is None:
            return self.lower
        if self.tolerance is None:
            return (self.lower + self.upper) / 2
        lowest, highest = self._centres()
        return lowest + min(1.0, max(0.0, place)) * (highest - lowest)

    def band(self, reference_n: float | None, place: float = 0.0) -> Band:
        """The band in newtons.

        Args:
            reference_n: the 100 %; not looked at where the intensity is in newtons.
            place: where in a range with a tolerance, from 0 to 1.

        Raises:
            FieldError: a percentage without a reference.
        """
        scale = 1.0
        if self.unit is Unit.PERCENT:
            if reference_n is None:
                raise FieldError(
                    "reference", phrase("is missing, and percentages need one."),
                    phrase("Test, choose or type one."),
                )  # fmt: skip
            scale = reference_n / 100
        if self.upper is None:
            return Band.at_least(self.lower * scale)
        if self.tolerance is None:
            return Band(self.lower * scale, self.upper * scale)
        centre = self.centre(place)
        half = self._half(centre)
        return Band((centre - half) * scale, (centre + half) * scale)

    def whole_range(self, reference_n: float | None) -> Band:
        """All that the bands may cover, from the low to the high end, in newtons.

        Args:
            reference_n: as in `band`.

        Raises:
            FieldError: a percentage without a reference.
        """
        low, high = (self.band(reference_n, place) for place in (0.0, 1.0))
        return Band(low.lower_n, high.upper_n)

    def _half(self, centre: float) -> float:
        """From the centre to an edge, in `unit`."""
        tolerance = self.tolerance or 0.0
        if self.tolerance_of is ToleranceOf.CENTRE:
            return centre * tolerance / 100
        return tolerance

    def _centres(self) -> tuple[float, float]:
        """Lowest and highest centre whose band lies inside the range."""
        upper = self.lower if self.upper is None else self.upper
        if upper == self.lower:
            return self.lower, self.lower
        tolerance = self.tolerance or 0.0
        if self.tolerance_of is ToleranceOf.CENTRE:
            if tolerance >= 100:
                return upper, self.lower
            lowest = self.lower / (1 - tolerance / 100)
            highest = upper / (1 + tolerance / 100)
        else:
            lowest, highest = self.lower + tolerance, upper - tolerance
        if abs(highest - lowest) <= _ROUNDING * upper:
            return highest, highest
        return lowest, highest

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "lower": self.lower,
            "upper": self.upper,
            "unit": self.unit.value,
            "tolerance": self.tolerance,
            "tolerance_of": self.tolerance_of.value,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Intensity:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.number("lower"),
            fields.number_or_none("upper"),
            fields.choice("unit", Unit),
            fields.number_or_none("tolerance"),
            fields.choice("tolerance_of", ToleranceOf),
        )
