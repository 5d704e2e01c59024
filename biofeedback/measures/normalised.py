"""Force made comparable between people and set-ups: torque, and per body mass.

* Torque is for a pull at right angles to the lever arm.
* Allometric scaling F / m^b with b = 0.67 for forces and 1 for torques: Jaric, Sports
  Med. 32 (2002) 615–631.
"""

from __future__ import annotations

from dataclasses import dataclass

FORCE_EXPONENT = 0.67


@dataclass(frozen=True, slots=True)
class Normalised:
    """One force in all the ways in which it can be said; None where one is missing.

    Attributes:
        torque_nm: N·m.
        per_kg_n: N/kg.
        torque_per_kg_nm: N·m/kg.
        allometric_n: N/kg^0.67.
    """

    force_n: float
    torque_nm: float | None = None
    per_kg_n: float | None = None
    torque_per_kg_nm: float | None = None
    allometric_n: float | None = None


def normalised(
    force_n: float, *, lever_arm_m: float | None = None, mass_kg: float | None = None
) -> Normalised:
    """A force with its torque and its shares of the body mass."""
    torque_nm = None if lever_arm_m is None else force_n * lever_arm_m
    if mass_kg is None:
        return Normalised(force_n, torque_nm)
    return Normalised(
        force_n,
        torque_nm,
        per_kg_n=force_n / mass_kg,
        torque_per_kg_nm=None if torque_nm is None else torque_nm / mass_kg,
        allometric_n=force_n / mass_kg**FORCE_EXPONENT,
    )
