"""Gravity: what one kilogram weighs at a place.

From latitude and altitude by the normal gravity of an ellipsoid, or the standard
value 9.80665 m/s² where no place is given. A value always travels with the words
that say which it is and with how far it may be off, because the difference
between places is up to 0.27 % and belongs in the budget.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

STANDARD_M_S2 = 9.80665
"""Standard gravity, exact: 3rd CGPM 1901; NIST SP 330."""

ANOMALY_M_S2 = 0.0005
"""Half width, rectangular, for what the ground below adds to normal gravity:
±50 mGal covers most inhabited places (common practice, no source)."""

PLACE_M_S2 = 0.0264
"""Half width for standard gravity where the place is unknown: the equator at sea
level is 0.0263 m/s² below it, the pole 0.0255 m/s² above."""

ALTITUDE_LEAST_M = -500.0
ALTITUDE_MOST_M = 9000.0
"""From the Dead Sea's shore to the highest mountain."""


@dataclass(frozen=True, slots=True)
class _Ellipsoid:
    """Somigliana's formula and the free-air term of one reference ellipsoid."""

    equator_m_s2: float
    k: float
    e2: float
    axis_m: float
    flattening: float
    m: float

    def at_sea_level(self, sin2: float) -> float:
        """γ₀ = γ_e (1 + k s²) / √(1 − e² s²), Somigliana."""
        return self.equator_m_s2 * (1 + self.k * sin2) / math.sqrt(1 - self.e2 * sin2)

    def at(self, sin2: float, altitude_m: float) -> float:
        """Second-order free air, NIMA TR8350.2 (2000), eq. 4-3.

        γ = γ₀ [1 − (2/a)(1 + f + m − 2 f s²) h + 3 h²/a²]
        """
        f = self.flattening
        h = altitude_m / self.axis_m
        factor = 1 - 2 * (1 + f + self.m - 2 * f * sin2) * h + 3 * h * h
        return self.at_sea_level(sin2) * factor


# NIMA TR8350.2, Department of Defense World Geodetic System 1984, 3rd ed. 2000.
_WGS84 = _Ellipsoid(
    9.7803253359,
    0.00193185265241,
    0.00669437999013,
    6_378_137.0,
    1 / 298.257223563,
    0.00344978650684,
)
# H. Moritz, Geodetic Reference System 1980, Geodesist's Handbook 2000.
_GRS80 = _Ellipsoid(
    9.7803267715,
    0.001931851353,
    0.0066943800229,
    6_378_137.0,
    1 / 298.257222101,
    0.00344978600308,
)


class GravityFormula(Enum):
    """Which published formula turns a place into gravity.

    They agree to within 1 µm/s² of 10 m/s² (WELMEC: 10 µm/s²), far below what the
    ground adds; the choice matters only for comparing digits.
    """

    WGS84 = "WGS 84"
    GRS80 = "GRS 80"
    WELMEC = "WELMEC"


@dataclass(frozen=True, slots=True)
class Gravity:
    """Gravity at a place.

    Attributes:
        m_s2: metres per second squared.
        half_width_m_s2: it lies within ± this, rectangular.
        words: which value this is, to be shown wherever it is used.
    """

    m_s2: float
    half_width_m_s2: float
    words: str

    @classmethod
    def standard(cls) -> Gravity:
        """Where no place is given."""
        return cls(
            STANDARD_M_S2,
            PLACE_M_S2,
            phrase(
                "standard gravity {m_s2:.5f} m/s² (no place given; off by up to "
                "{off_pct:.2f} %)",
                m_s2=STANDARD_M_S2,
                off_pct=0.27,
            ),
        )

    @classmethod
    def measured(cls, m_s2: float, *, half_width_m_s2: float) -> Gravity:
        """A value someone knows, for example from a survey.

        Raises:
            FieldError: it is not the gravity of any place on Earth.
        """
        if not 9.7 <= m_s2 <= 9.9:
            raise FieldError(
                "gravity",
                phrase("is {m_s2:g}; on Earth it is 9.76 to 9.84.", m_s2=m_s2),
            )
        return cls(
            m_s2, half_width_m_s2, phrase("gravity {m_s2:.6g} m/s² as given", m_s2=m_s2)
        )


def local_gravity(
    *,
    latitude_deg: float,
    altitude_m: float,
    formula: GravityFormula = GravityFormula.WGS84,
) -> Gravity:
    """Normal gravity at a place, without what the ground below adds.

    Args:
        latitude_deg: geodetic latitude, north or south.
        altitude_m: height above sea level.

    Raises:
        FieldError: no such place.
    """
    if not -90 <= latitude_deg <= 90:
        raise FieldError(
            "latitude",
            phrase(
                "is {latitude_deg:g}°; it must be −90 to 90.", latitude_deg=latitude_deg
            ),
        )
    if not ALTITUDE_LEAST_M <= altitude_m <= ALTITUDE_MOST_M:
        raise FieldError(
            "altitude",
            phrase(
                "is {altitude_m:g} m; it must be {altitude_least_m:g} to "
                "{altitude_most_m:g} m above sea level.",
                altitude_m=altitude_m,
                altitude_least_m=ALTITUDE_LEAST_M,
                altitude_most_m=ALTITUDE_MOST_M,
            ),
        )
    value = _normal(math.radians(latitude_deg), altitude_m, formula)
    return Gravity(
        value,
        ANOMALY_M_S2,
        phrase(
            "local gravity {m_s2:.6f} m/s² at latitude {latitude_deg:g}°, altitude "
            "{altitude_m:g} m ({formula})",
            m_s2=value,
            latitude_deg=latitude_deg,
            altitude_m=altitude_m,
            formula=formula.value,
        ),
    )


def _normal(latitude_rad: float, altitude_m: float, formula: GravityFormula) -> float:
    sin2 = math.sin(latitude_rad) ** 2
    match formula:
        case GravityFormula.WGS84:
            return _WGS84.at(sin2, altitude_m)
        case GravityFormula.GRS80:
            return _GRS80.at(sin2, altitude_m)
        case GravityFormula.WELMEC:
            # WELMEC guide on gravity zones for weighing instruments.
            double2 = math.sin(2 * latitude_rad) ** 2
            level = 9.780318 * (1 + 0.0053024 * sin2 - 0.0000058 * double2)
            return level - 0.000003085 * altitude_m
