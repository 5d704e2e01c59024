"""Known loads and the readings that answered to them.

A load is a mass that hangs, with its class or tolerance, or a force read from a
reference cell. Either way it carries how far it may be off, split in two: its own
tolerance, and what gravity adds, which is the same share of each mass at a place.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.conditioning.calibration_points import CalibrationPoint, Direction
from biofeedback.conditioning.masses import Mass, MassClass, dead_weight
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.conditioning.gravity import Gravity
    from biofeedback.wire.fields import Fields

TOLERANCE_PCT = 2.0
"""Assumed of a mass of which nothing is said: a gym plate as it is sold (common
practice, no source). Weighing the plates is better by far."""
FORCE_MOST_N = 1e7
"""A thousand tonnes: beyond is a fault of the unit."""
PARTS_MOST = 20
"""Weights in one stack."""
LOADS_MOST = 30
"""Loads in one run: an hour's work already."""


@dataclass(frozen=True, slots=True)
class KnownLoad:
    """A force that is known, and how well.

    Attributes:
        force_n: 0 is the empty rig.
        tolerance_n: ± of the mass or of the reference cell, rectangular.
        gravity_n: ± from gravity, rectangular; 0 for a reference cell.
        mass_kg: what hung there; None for a reference cell.
        words: where tolerance and gravity come from.
    """

    force_n: float
    tolerance_n: float = 0.0
    gravity_n: float = 0.0
    mass_kg: float | None = None
    words: str = ""

    def __post_init__(self) -> None:
        if not 0 <= self.force_n <= FORCE_MOST_N:
            raise FieldError(
                "force",
                phrase(
                    "is {force_n:g} N; it must be 0 to {force_most_n:g} N.",
                    force_n=self.force_n,
                    force_most_n=FORCE_MOST_N,
                ),
                phrase("Push or pull, a known force counts up from the empty rig."),
            )
        if not 0 <= self.tolerance_n <= FORCE_MOST_N:
            raise FieldError("tolerance", phrase("must be 0 or more."))

    @classmethod
    def of_mass(cls, mass: Mass, gravity: Gravity) -> KnownLoad:
        """A mass that hangs in air."""
        weight = dead_weight(mass, gravity)
        return cls(
            weight.force_n,
            weight.mass_half_width_n,
            weight.gravity_half_width_n,
            mass.kg,
            mass.words if mass.kg else "",
        )

    @property
    def standard_uncertainty_n(self) -> float:
        """One standard uncertainty: both half widths over √3."""
        return math.hypot(self.tolerance_n, self.gravity_n) / math.sqrt(3)

    @property
    def shown(self) -> str:
        """As a person would name it."""
        if self.force_n == 0:
            return phrase("empty rig")
        if self.mass_kg is not None:
            return phrase("{mass_kg:g} kg", mass_kg=self.mass_kg)
        return phrase("{force_n:g} N", force_n=self.force_n)


@dataclass(frozen=True, slots=True)
class Reading:
    """What a cell gave under a known load, while it was steady.

    Attributes:
        counts: mean of the counts.
        time_s: when, within the calibration; needed for creep only.
        spread_counts: standard deviation of single samples meanwhile.
        others_counts: means of the other cells of the rig meanwhile.
    """

    load: KnownLoad
    counts: float
    direction: Direction = Direction.UP
    run: int = 1
    time_s: float | None = None
    spread_counts: float | None = None
    others_counts: tuple[float, ...] = ()

    @property
    def point(self) -> CalibrationPoint:
        """Force and counts, as a fit takes them."""
        return CalibrationPoint(
            self.load.force_n, self.counts, self.direction, self.run
        )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "force_n": self.load.force_n,
            "tolerance_n": self.load.tolerance_n,
            "gravity_n": self.load.gravity_n,
            "mass_kg": self.load.mass_kg,
            "words": self.load.words,
            "counts": self.counts,
            "direction": self.direction.value,
            "run": self.run,
            "time_s": self.time_s,
            "spread_counts": self.spread_counts,
            "others_counts": list(self.others_counts),
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Reading:
        """Checks and reads what `to_json` wrote."""

        def optional(key: str) -> float | None:
            return fields.number(key) if fields.has(key) else None

        return cls(
            KnownLoad(
                fields.number("force_n"),
                fields.number("tolerance_n"),
                fields.number("gravity_n"),
                optional("mass_kg"),
                fields.text("words", longest=500),
            ),
            fields.number("counts"),
            fields.choice("direction", Direction),
            fields.whole("run", least=1, most=1000),
            optional("time_s"),
            optional("spread_counts"),
            fields.numbers("others_counts", most=16),
        )


_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,2})?", re.ASCII)


def plain_number(text: str) -> float:
    """A number as people write it; NaN for anything else, such as 1_000 or inf."""
    text = text.strip()
    return float(text) if _NUMBER.fullmatch(text) else math.nan


def stack(
    text: str,
    *,
    mass_class: MassClass | None = None,
    tolerance_pct: float | None = None,
) -> Mass:
    """The mass of “10” or of a stack written as “10+5+1.25”, in kilograms.

    Args:
        mass_class: OIML class of each weight in it.
        tolerance_pct: ± of the mass, where there is no class; None assumes
            `TOLERANCE_PCT`.

    Raises:
        FieldError: no mass, or no weight of that class.
    """
    parts = text.replace(",", ".").split("+")
    if len(parts) > PARTS_MOST:
        raise FieldError(
            "mass",
            phrase(
                "has more than {parts_most} weights in one stack.",
                parts_most=PARTS_MOST,
            ),
        )
    masses = [_weight(part, mass_class, tolerance_pct) for part in parts]
    whole = masses[0]
    for mass in masses[1:]:
        whole += mass
    return whole


def loads_of_masses(
    text: str,
    gravity: Gravity,
    *,
    mass_class: MassClass | None = None,
    tolerance_pct: float | None = None,
) -> tuple[KnownLoad, ...]:
    """Loads of masses in kg, typed as “5 10 15+2.5”, rising and each once.

    Raises:
        FieldError: none, too many, or no masses.
    """
    loads = {
        load.force_n: load
        for part in _parts(text)
        for load in (
            KnownLoad.of_mass(
                stack(part, mass_class=mass_class, tolerance_pct=tolerance_pct),
                gravity,
            ),
        )
        if load.force_n != 0
    }
    return _rising(loads)


def loads_of_forces(text: str) -> tuple[KnownLoad, ...]:
    """Loads to aim at with a reference cell, typed in newtons as “50 100 150”.

    Raises:
        FieldError: none, too many, or no forces.
    """
    loads = {}
    for part in _parts(text):
        force_n = plain_number(part.replace(",", "."))
        if not force_n >= 0:
            raise FieldError(
                "loads", phrase("“{part}” is no force in newtons.", part=part[:40])
            )
        if force_n != 0:
            loads[force_n] = KnownLoad(force_n)
    return _rising(loads)


def _parts(text: str) -> list[str]:
    parts = text.replace(";", " ").split()
    if len(parts) > LOADS_MOST:
        raise FieldError(
            "loads", phrase("are more than {loads_most}.", loads_most=LOADS_MOST)
        )
    return parts


def _rising(loads: dict[float, KnownLoad]) -> tuple[KnownLoad, ...]:
    if not loads:
        raise FieldError(
            "loads", phrase("are missing."), phrase("Type them with a blank between.")
        )
    return tuple(loads[force_n] for force_n in sorted(loads))


def _weight(
    text: str, mass_class: MassClass | None, tolerance_pct: float | None
) -> Mass:
    kg = plain_number(text)
    if math.isnan(kg):
        raise FieldError(
            "mass",
            phrase("“{strip}” is no mass in kilograms.", strip=text.strip()[:40]),
            phrase("Write 10 or, for a stack, 10+5."),
        )
    if kg == 0:
        return Mass(0.0, 0.0, "")
    if mass_class is not None:
        return Mass.of_class(kg, mass_class)
    if tolerance_pct is None:
        return Mass(
            kg,
            kg * TOLERANCE_PCT / 100,
            phrase("±{tolerance_pct:g} % assumed", tolerance_pct=TOLERANCE_PCT),
        )
    return Mass.with_tolerance(kg, tolerance_pct)
