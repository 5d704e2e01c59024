"""The uncertainty budget of a force that the rig shows.

From what a calibration leaves behind to ± newtons. Terms that were not looked at
are left out, so a budget says what is in it: show the components beside the sum.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.measures.uncertainty import Combined, Component, combine
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.measures.uncertainty import ForceReading

AIR_SHARE = 0.12 / 8000
"""±0.12 kg/m³ of air about steel: gyms from sea level to 1000 m, hot to cold."""

JUDGED_TO = 0.25
"""How far a largest deviation, seen in some runs, may itself be off: 25 %, which
gives 8 degrees of freedom (GUM G.4.2)."""
DRIFT_JUDGED_TO = 0.5
"""Drift is seen once or twice: 50 %, 2 degrees of freedom."""


@dataclass(frozen=True, slots=True)
class Deviations:
    """What a calibration found, as ± half widths in newtons; 0 where not seen.

    Attributes:
        mass_share: ± tolerance of the masses, or of the reference cell, as a share
            of each force.
        gravity_share: ± doubt in gravity as a share of each force.
        misfit_n: largest distance between curve and mean reading at a load.
        hysteresis_n: falling less rising at the same load, the whole loop.
        creep_n: change under constant load over a rep or set.
        zero_drift_n: zero after less zero before.
        resolution_n: step of the figures shown.
        reference_cell: the known forces were read from a cell and not hung: no air
            carries part of them.
    """

    mass_share: float
    gravity_share: float
    misfit_n: float = 0.0
    hysteresis_n: float = 0.0
    creep_n: float = 0.0
    zero_drift_n: float = 0.0
    resolution_n: float = 0.0
    reference_cell: bool = False


def force_budget(reading: ForceReading, found: Deviations) -> Combined:
    """Combined uncertainty of one shown force.

    The masses' tolerance is taken as the same share at each load: plates of one
    lot err alike, and then no number of loads averages it out. The curve runs
    through the middle of the hysteresis loop, so half of the loop is its width.
    """
    force_n = abs(reading.force_n)
    air_share = 0.0 if found.reference_cell else AIR_SHARE
    loads = phrase("reference cell") if found.reference_cell else phrase("masses")
    components = [
        Component.rectangular(loads, force_n * found.mass_share),
        Component.rectangular(phrase("gravity"), force_n * found.gravity_share),
        Component.rectangular(phrase("buoyancy of air"), force_n * air_share),
        *reading.components(),
        Component.rectangular(phrase("misfit"), found.misfit_n, reliable_to=JUDGED_TO),
        Component.rectangular(
            phrase("hysteresis"), abs(found.hysteresis_n) / 2, reliable_to=JUDGED_TO
        ),
        Component.rectangular(
            phrase("creep"), abs(found.creep_n), reliable_to=JUDGED_TO
        ),
        Component.rectangular(
            phrase("zero drift"), abs(found.zero_drift_n), reliable_to=DRIFT_JUDGED_TO
        ),
        Component.resolution(phrase("resolution"), found.resolution_n),
    ]
    return combine([component for component in components if component.u > 0])
