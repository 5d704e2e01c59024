"""What of a calibration goes into the uncertainty of a force shown by the rig.

Creep, resolution, misfit and the rest are read from the readings themselves and
turned into newtons by the slope of the fit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.force_budget import Deviations, force_budget
from biofeedback.measures.uncertainty import expand, read_force

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_points import Direction
    from biofeedback.conditioning.calibration_quality import Deviation
    from biofeedback.measures.calibration_report import CalibrationReport
    from biofeedback.measures.uncertainty import Combined

SHOWN_SDS = 3.0
"""Single samples stay within ± this many standard deviations: half the range in
which a figure flickers, which is what resolution means (our own choice)."""
FORCES_MOST = 12
"""Rows of a table of uncertainties that a person still reads."""
CREEP_LEAST_S = 10.0
"""Two readings nearer in time tell of noise and not of creep."""
K = 2.0
"""Coverage factor of the expanded uncertainties."""


@dataclass(frozen=True, slots=True)
class CreepSeen:
    """Largest change under an unchanged load.

    Attributes:
        pct: of rated output, last reading less first, signed.
        from_s: time of the first reading.
        to_s: time of the last.
    """

    pct: float
    force_n: float
    from_s: float
    to_s: float


@dataclass(frozen=True, slots=True)
class ForceUncertainty:
    """How far a shown force may be off.

    Attributes:
        expanded_n: k · u with k = 2.
        df: effective degrees of freedom.
        k_95: coverage factor of 95 % for these degrees of freedom.
        budget: what went in.
    """

    force_n: float
    expanded_n: float
    df: float
    k_95: float
    budget: Combined


def output_counts(found: CalibrationReport) -> float:
    """Rated output of the first run that shows one; else the span of the fit."""
    for cycle in found.cycles.values():
        return cycle.rated_output_counts
    fit = found.fit
    if fit is None:
        return 0.0
    ends = fit.indication([min(0.0, fit.from_n), fit.to_n])
    return float(ends[1] - ends[0])


def creep(found: CalibrationReport) -> CreepSeen | None:
    """The largest change between readings at one load, where times are known."""
    output = output_counts(found)
    together: dict[tuple[int, Direction, float], list[tuple[float, float]]] = {}
    for reading in found.readings:
        if reading.time_s is not None and reading.load.force_n != 0:
            key = (reading.run, reading.direction, reading.load.force_n)
            together.setdefault(key, []).append((reading.time_s, reading.counts))
    seen = []
    for (_, _, force_n), timed in together.items():
        (from_s, first), (to_s, last) = min(timed), max(timed)
        if to_s - from_s >= CREEP_LEAST_S and output != 0:
            pct = 100 * (last - first) / output
            seen.append(CreepSeen(pct, force_n, from_s, to_s))
    return max(seen, key=lambda creep: abs(creep.pct), default=None)


def spread_counts(found: CalibrationReport) -> float | None:
    """Scatter of single samples, over all readings; None where not taken down."""
    spreads = [
        reading.spread_counts
        for reading in found.readings
        if reading.spread_counts is not None
    ]
    return float(np.sqrt(np.mean(np.square(spreads)))) if spreads else None


def resolution_n(found: CalibrationReport, fit: CalibrationFit) -> float | None:
    """Smallest change that can be told apart; None where nothing tells."""
    if found.asked.resolution_n is not None:
        return found.asked.resolution_n
    per_n = abs(float(fit.slope(fit.to_n)))
    spread = spread_counts(found)
    if spread is not None:
        return (SHOWN_SDS * spread + 1) / per_n
    whole = all(float(reading.counts).is_integer() for reading in found.readings)
    return 1 / per_n if whole else None


def _worst_n(
    deviations: Iterable[Deviation | None], *, output: float, per_n: float
) -> float:
    """The largest of some deviations in % of rated output, in newtons."""
    pct = max((abs(each.pct) for each in deviations if each is not None), default=0.0)
    return pct / 100 * abs(output) / per_n


def _deviations(found: CalibrationReport, fit: CalibrationFit) -> Deviations:
    per_n = abs(float(fit.slope(fit.to_n)))
    output = output_counts(found)
    loaded = [reading.load for reading in found.readings if reading.load.force_n != 0]
    misfits: dict[float, list[float]] = {}
    for point, residual in zip(fit.fitted_points, fit.residuals_counts, strict=True):
        misfits.setdefault(point.force_n, []).append(residual)
    cycles = found.cycles.values()
    return Deviations(
        mass_share=max(load.tolerance_n / abs(load.force_n) for load in loaded),
        gravity_share=max(load.gravity_n / abs(load.force_n) for load in loaded),
        misfit_n=max(abs(float(np.mean(left))) for left in misfits.values()) / per_n,
        hysteresis_n=_worst_n(
            (cycle.hysteresis for cycle in cycles), output=output, per_n=per_n
        ),
        creep_n=abs(found.creep.pct / 100 * output) / per_n if found.creep else 0.0,
        zero_drift_n=_worst_n(
            (cycle.zero_return for cycle in cycles), output=output, per_n=per_n
        ),
        resolution_n=found.resolution_n or 0.0,
        reference_cell=all(load.mass_kg is None for load in loaded),
    )


def uncertainties(
    found: CalibrationReport, fit: CalibrationFit
) -> Iterable[ForceUncertainty]:
    """How far a force may be off, at the loads that were used."""
    deviations = _deviations(found, fit)
    u_counts = spread_counts(found)
    if u_counts is None:
        test = fit.lack_of_fit
        u_counts = fit.residual_sd_counts if test is None else test.pure_sd_counts
    forces = sorted({point.force_n for point in fit.fitted_points} - {0.0})
    step = -(-len(forces) // FORCES_MOST)
    for force_n in forces[::-1][::step][::-1]:
        reading = read_force(
            fit,
            float(fit.indication(force_n)),
            u_counts=u_counts,
            zero_counts=float(fit.indication(0.0)),
            # As large as that of the reading, which errs on the safe side.
            u_zero_counts=u_counts,
        )
        budget = force_budget(reading, deviations)
        yield ForceUncertainty(
            force_n, K * budget.u, budget.df, expand(budget).k, budget
        )
