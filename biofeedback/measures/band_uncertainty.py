"""The uncertainty of a force that a band applies to.

* What a person gave for the rig rules. Without it, it comes from the calibrations
  in use; where one of the cells has none that says, there is none.
* It is taken at the larger edge of the band, where a shown force is least sure.
* Of a total each cell is taken to carry the same part, and their uncertainties are
  added as they stand: what rules them, the tolerance of the masses, is the same in
  all cells that were calibrated with the same masses.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.training.band import Band
    from biofeedback.training.crossings import Judged


def band_uncertainty_n(
    profile: RigProfile, judged: Judged, bands: Iterable[Band]
) -> float | None:
    """One standard uncertainty (k = 1), in newtons, or None.

    Args:
        judged: which channels the band applies to.
        bands: all that were in force in the rep.
    """
    if profile.uncertainty_n is not None:
        return profile.uncertainty_n
    edge_n = max(band.lower_n if band.open_above else band.upper_n for band in bands)
    found = [
        [
            profile.channels[channel].calibration.u_n(edge_n / len(columns))
            for channel in columns
        ]
        for columns in judged.columns
    ]
    known = [[u_n for u_n in each if u_n is not None] for each in found]
    if known != found:
        return None
    return max(sum(each) for each in known)
