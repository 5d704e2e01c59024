"""Masses: what hangs on the cell, how sure it is, and the force it makes.

* The value written on a weight, or read from a scale, is its *conventional* mass:
  what a weight of 8000 kg/m³ in air of 1.2 kg/m³ would have to be to balance it.
* The force of a hanging mass is a little less than m·g, because air carries part
  of it: 0.015 % for steel. It is taken into account always.
* Gym plates are no weights in the sense of OIML R 111. Their tolerance is a
  percentage, and it is usually the largest term of the whole budget.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.conditioning.gravity import Gravity

AIR_KG_M3 = 1.2
STEEL_KG_M3 = 8000.0
"""Reference densities of conventional mass, OIML R 111-1:2004 and D 28."""

MASS_MOST_KG = 5000.0
"""More than any frame this program is for can carry."""


class MassClass(Enum):
    """Accuracy classes of OIML R 111-1 that are met outside laboratories."""

    M1 = "M1"
    M2 = "M2"
    M3 = "M3"


# OIML R 111-1:2004, Table 1: maximum permissible errors ±δm in mg.
_PERMITTED_MG: dict[float, tuple[float, float, float]] = {
    1.0: (50, 160, 500),
    2.0: (100, 300, 1_000),
    5.0: (250, 800, 2_500),
    10.0: (500, 1_600, 5_000),
    20.0: (1_000, 3_000, 10_000),
    50.0: (2_500, 8_000, 25_000),
}


def permitted_error_kg(nominal_kg: float, mass_class: MassClass) -> float:
    """± maximum permissible error of one weight, OIML R 111-1:2004 Table 1.

    Raises:
        FieldError: R 111 has no such nominal value between 1 kg and 50 kg; give
            each weight of a stack by itself.
    """
    row = _PERMITTED_MG.get(nominal_kg)
    if row is None:
        raise FieldError(
            "mass",
            phrase(
                "{nominal_kg:g} kg is not a nominal value of OIML R 111 in "
                "this program (1, 2, 5, 10, 20, 50 kg).",
                nominal_kg=nominal_kg,
            ),
            phrase("Give a stack weight by weight, or give a tolerance in %."),
        )
    return row[list(MassClass).index(mass_class)] * 1e-6


@dataclass(frozen=True, slots=True)
class Mass:
    """One or more weights hanging together.

    Attributes:
        kg: conventional mass.
        half_width_kg: it lies within ± this, rectangular.
        words: where the tolerance comes from.
    """

    kg: float
    half_width_kg: float
    words: str

    def __post_init__(self) -> None:
        if not 0 <= self.kg <= MASS_MOST_KG:
            raise FieldError(
                "mass",
                phrase(
                    "is {kg:g} kg; it must be 0 to {mass_most_kg:g} kg.",
                    kg=self.kg,
                    mass_most_kg=MASS_MOST_KG,
                ),
            )
        if not 0 <= self.half_width_kg < math.inf:
            raise FieldError("tolerance", phrase("must be 0 or more."))

    @classmethod
    def of_class(cls, nominal_kg: float, mass_class: MassClass) -> Mass:
        """A weight of an OIML R 111 class."""
        return cls(
            nominal_kg,
            permitted_error_kg(nominal_kg, mass_class),
            phrase("OIML R 111 class {name}", name=mass_class.value),
        )

    @classmethod
    def with_tolerance(cls, kg: float, tolerance_pct: float) -> Mass:
        """A gym plate, or anything weighed: ± a percentage.

        What plates are sold to is common practice without a source; weigh them.
        """
        return cls(
            kg,
            kg * tolerance_pct / 100,
            phrase("±{tolerance_pct:g} %", tolerance_pct=tolerance_pct),
        )

    def __add__(self, other: Mass) -> Mass:
        """A stack. Tolerances add up: plates of one lot tend to err alike."""
        words = self.words
        if other.words != self.words:
            words = phrase(
                "{words} and {other_words}", words=self.words, other_words=other.words
            )
        return Mass(self.kg + other.kg, self.half_width_kg + other.half_width_kg, words)


def air_density_kg_m3(
    *, pressure_hpa: float, humidity_pct: float, temperature_c: float
) -> float:
    """Density of air, OIML R 111-1:2004 Annex E, eq. E.3-1 (±0.2 % in a gym)."""
    vapour = 0.009 * humidity_pct * math.exp(0.061 * temperature_c)
    return (0.34848 * pressure_hpa - vapour) / (273.15 + temperature_c)


def buoyancy_factor(
    *, density_kg_m3: float = STEEL_KG_M3, air_kg_m3: float = AIR_KG_M3
) -> float:
    """Share of (conventional mass · g) that pulls on the cell; 0.99985 for steel.

    (1 − 1.2/8000) · (1 − ρ_air/ρ) / (1 − 1.2/ρ): conventional mass turned into
    true mass (OIML R 111-1; JCGM 101:2008, 9.3.1), and less the air it displaces.
    In air of 1.2 kg/m³ the material does not matter, by definition.
    """
    conventional = (1 - AIR_KG_M3 / STEEL_KG_M3) / (1 - AIR_KG_M3 / density_kg_m3)
    return conventional * (1 - air_kg_m3 / density_kg_m3)


@dataclass(frozen=True, slots=True)
class DeadWeight:
    """The force of a hanging mass.

    Attributes:
        force_n: newtons.
        mass_half_width_n: ± from the tolerance of the mass, rectangular.
        gravity_half_width_n: ± from gravity, rectangular; the same share of each
            force at a place, so it does not average out.
        words: which gravity, which tolerance, which buoyancy.
    """

    force_n: float
    mass_half_width_n: float
    gravity_half_width_n: float
    words: str

    @property
    def standard_uncertainty_n(self) -> float:
        """One standard uncertainty: both half widths over √3."""
        half_n = math.hypot(self.mass_half_width_n, self.gravity_half_width_n)
        return half_n / math.sqrt(3)


def dead_weight(
    mass: Mass, gravity: Gravity, *, buoyancy: float = 0.99985
) -> DeadWeight:
    """F = conventional mass · g · buoyancy.

    Args:
        buoyancy: from `buoyancy_factor`; 0.99985 for standard air.
    """
    per_kg = gravity.m_s2 * buoyancy
    return DeadWeight(
        force_n=mass.kg * per_kg,
        mass_half_width_n=mass.half_width_kg * per_kg,
        gravity_half_width_n=mass.kg * gravity.half_width_m_s2 * buoyancy,
        words=phrase(
            "{gravity_words}; mass {mass_words}; buoyancy of air ×{buoyancy:.5f}",
            gravity_words=gravity.words,
            mass_words=mass.words,
            buoyancy=buoyancy,
        ),
    )
