"""All that a calibration tells, worked out from its readings once.

The command line, the page in the window and the stored record show the same
report. What was not looked at is None and is said to be missing; no figure is
filled in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback.conditioning.calibration import CalibrationOutcome, calibrate
from biofeedback.conditioning.calibration_channels import check_loaded_channel
from biofeedback.conditioning.calibration_checks import RESIDUAL_LIMIT_PCT
from biofeedback.conditioning.calibration_findings import RefusedCalibrationError
from biofeedback.conditioning.calibration_fit import fit_points
from biofeedback.conditioning.calibration_points import runs
from biofeedback.conditioning.calibration_quality import (
    cycle_qualities,
    repeatability,
)
from biofeedback.conditioning.force_classes import (
    force_figures,
    iso_376_ranges,
    iso_7500_ranges,
)
from biofeedback.conditioning.lower_limit import lower_limit
from biofeedback.errors import UserError
from biofeedback.measures import calibration_budget as budget

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_quality import (
        CycleQualities,
        Repeatability,
    )
    from biofeedback.conditioning.force_classes import ClassRange
    from biofeedback.conditioning.known_load import Reading
    from biofeedback.conditioning.lower_limit import LowerLimit
    from biofeedback.measures.calibration_budget import CreepSeen, ForceUncertainty


@dataclass(frozen=True, slots=True)
class Asked:
    """What the person wants of a calibration.

    Attributes:
        degree: 1 or 2, or None to let the points choose.
        intended_n: largest force that the rig is to show; None where unknown.
        resolution_n: smallest change that can be told apart; None to take it from
            the readings.
        gravity_words: which gravity made forces of the masses; empty for a
            reference cell.
        names: of the loaded cell and of the other ones, for the words.
        label: number or name of the record.
        date: ISO date.
    """

    degree: int | None = None
    through_zero: bool = False
    intended_n: float | None = None
    residual_limit_pct: float = RESIDUAL_LIMIT_PCT
    resolution_n: float | None = None
    gravity_words: str = ""
    names: tuple[str, ...] = ()
    label: str = ""
    date: str = ""


@dataclass(frozen=True, slots=True)
class CalibrationReport:
    """A calibration with all its figures.

    Attributes:
        line: fit of degree 1, or None where it was refused.
        curve: fit of degree 2, or None.
        cycles: data-sheet figures by run; runs too short for them are left out.
        applied_pct: expanded uncertainty (k = 2) of the known forces, in %.
        resolution_n: smallest change that can be told apart; None where unknown.
    """

    readings: tuple[Reading, ...]
    asked: Asked
    outcome: CalibrationOutcome
    line: CalibrationFit | None
    curve: CalibrationFit | None
    cycles: dict[int, CycleQualities]
    repeatability: Repeatability | None
    creep: CreepSeen | None
    applied_pct: float
    resolution_n: float | None
    lower_limit: LowerLimit | None
    classes: tuple[ClassRange, ...]
    uncertainties: tuple[ForceUncertainty, ...]

    @property
    def fit(self) -> CalibrationFit | None:
        """The fit in use."""
        return self.outcome.chosen.fit if self.outcome.chosen else None


def report(
    readings: Sequence[Reading], asked: Asked | None = None
) -> CalibrationReport:
    """Works everything out.

    Args:
        readings: of one cell.
    """
    asked = asked or Asked()
    points = [reading.point for reading in readings]
    outcome = calibrate(
        points,
        degree=asked.degree,
        through_zero=asked.through_zero,
        intended_n=asked.intended_n,
        residual_limit_pct=asked.residual_limit_pct,
        label=asked.label,
        date=asked.date,
    )
    outcome = _with_channels(outcome, readings, asked)
    bare = CalibrationReport(
        readings=tuple(readings),
        asked=asked,
        outcome=outcome,
        line=_fit(readings, 1, through_zero=asked.through_zero),
        curve=_fit(readings, 2, through_zero=asked.through_zero),
        cycles=_cycles(readings),
        repeatability=None,
        creep=None,
        applied_pct=_applied_pct(readings),
        resolution_n=asked.resolution_n,
        lower_limit=None,
        classes=(),
        uncertainties=(),
    )
    return bare if bare.fit is None else _judged(bare, bare.fit)


def _judged(bare: CalibrationReport, fit: CalibrationFit) -> CalibrationReport:
    """The report with what needs a fit."""
    points = [reading.point for reading in bare.readings]
    creep = budget.creep(bare)
    resolution_n = budget.resolution_n(bare, fit)
    figures = force_figures(points, fit)
    classes = (
        *iso_376_ranges(
            figures,
            applied_pct=bare.applied_pct,
            creep_pct=None if creep is None else creep.pct,
        ),
        *iso_7500_ranges(
            figures,
            applied_pct=bare.applied_pct,
            resolution_n=resolution_n or 0.0,
        ),
    )
    judged = replace(
        bare,
        creep=creep,
        repeatability=repeatability(points),
        resolution_n=resolution_n,
        classes=classes if figures.levels else (),
        lower_limit=_lower_limit(fit, resolution_n),
    )
    return replace(judged, uncertainties=tuple(budget.uncertainties(judged, fit)))


def _with_channels(
    outcome: CalibrationOutcome, readings: Sequence[Reading], asked: Asked
) -> CalibrationOutcome:
    """Looks at the other cells too, where their counts were taken down."""
    others = {len(reading.others_counts) for reading in readings}
    if len(others) != 1 or others == {0}:
        return outcome
    count = others.pop()
    names = asked.names or ("loaded", *(["other"] * count))
    findings = check_loaded_channel(
        [reading.load.force_n for reading in readings],
        [(reading.counts, *reading.others_counts) for reading in readings],
        loaded=0,
        names=names,
    )
    known = {finding.kind for finding in outcome.findings}
    added = [finding for finding in findings if finding.kind not in known]
    every = sorted((*added, *outcome.findings), key=lambda finding: not finding.refused)
    refused = any(finding.refused for finding in every)
    return replace(
        outcome,
        findings=tuple(every),
        conversion=None if refused else outcome.conversion,
    )


def _fit(
    readings: Sequence[Reading], degree: int, *, through_zero: bool
) -> CalibrationFit | None:
    points = [reading.point for reading in readings]
    try:
        return fit_points(points, degree=degree, through_zero=through_zero)
    except RefusedCalibrationError:
        return None


def _cycles(readings: Sequence[Reading]) -> dict[int, CycleQualities]:
    found = {}
    for number, run in runs([reading.point for reading in readings]).items():
        try:
            found[number] = cycle_qualities(run)
        except UserError:
            continue  # too few rising loads, or no answer: the findings say so
    return found


def _applied_pct(readings: Sequence[Reading]) -> float:
    shares = [
        reading.load.standard_uncertainty_n / abs(reading.load.force_n)
        for reading in readings
        if reading.load.force_n != 0
    ]
    return 100 * budget.K * max(shares, default=0.0)


def _lower_limit(fit: CalibrationFit, resolution_n: float | None) -> LowerLimit | None:
    zero = float(fit.indication(0.0))
    loaded = [point for point in fit.fitted_points if point.force_n != 0]
    if fit.through_zero or any(point.counts == zero for point in loaded):
        return None  # ASTM E74 fits deflections with a constant
    return lower_limit(fit, zero=zero, resolution_n=resolution_n or 0.0)
