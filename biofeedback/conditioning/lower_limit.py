"""The lower limit factor: below which force a rig tells too little.

In the manner of ASTM E74-18, never "certified": the standard asks for thirty force
applications at ten levels and for traceable forces.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from biofeedback.conditioning.calibration_fit import CalibrationFit

LLF_FACTOR = 2.4
CLASS_A_FACTOR = 400.0
CLASS_AA_FACTOR = 2000.0
"""ASTM E74-18, 8.5 (lower limit factor 2.4·s, about 99 %) and 7.1.2, as cited by a
calibration laboratory."""


@dataclass(frozen=True, slots=True)
class LowerLimit:
    """Lower limit factor in the manner of ASTM E74-18.

    Attributes:
        factor_counts: 2.4 · s.
        factor_n: the same in newtons, by the mean ratio of force to deflection,
            and not below the resolution.
        class_a_from_n: lowest force of class A (0.25 %), not below the lowest
            load; None where it lies above the largest.
        class_aa_from_n: the same of class AA (0.05 %).
    """

    factor_counts: float
    factor_n: float
    class_a_from_n: float | None
    class_aa_from_n: float | None


def lower_limit(
    fit: CalibrationFit, *, zero: float, resolution_n: float = 0.0
) -> LowerLimit:
    """Lower limit factor of a fit.

    Args:
        zero: counts of the empty rig; deflections are net of it.
        resolution_n: smallest change that can be told apart.
    """
    loaded = [point for point in fit.fitted_points if point.force_n != 0]
    ratio = float(np.mean([p.force_n / (p.counts - zero) for p in loaded]))
    factor_counts = LLF_FACTOR * fit.residual_sd_counts
    factor_n = max(abs(ratio) * factor_counts, resolution_n)
    lowest = min(point.force_n for point in loaded)

    def first(multiple: float) -> float | None:
        from_n = max(multiple * factor_n, lowest)
        return from_n if from_n <= fit.to_n else None

    return LowerLimit(
        factor_counts, factor_n, first(CLASS_A_FACTOR), first(CLASS_AA_FACTOR)
    )
