"""From which force on the limits of a class are met.

In the manner of ISO 376:2011 and ISO 7500-1:2018, never "certified":
the standards ask for traceable forces, rotated mounting, temperature and times
that a frame with hanging masses does not give. The class limits come from published
tables that print them; the standards' own texts were not seen.

All figures are taken from what the rig would show: force from the fit, each run
net of its own zero.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.calibration_points import (
    Direction,
    readings,
    runs,
    zero_counts,
)
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.calibration_fit import CalibrationFit
    from biofeedback.conditioning.calibration_points import CalibrationPoint

RUNS_NEEDED = 3
"""Rising runs that both standards take."""

APPLIED_SHARE = 1 / 3
"""Share of a limit that the error of the masses may use: OIML R 76-1, 3.7.1, used
here for ISO 7500-1 as well."""


@dataclass(frozen=True, slots=True)
class LevelFigures:
    """One load, over all runs, in % of the load.

    Attributes:
        mean_error_pct: f_c of ISO 376: mean of the rising runs less the load.
        worst_error_pct: q of ISO 7500-1: the reading that is furthest off, signed.
        spread_pct: b: range of all rising runs.
        repeat_pct: b′ of ISO 376: range of the first two.
        reversibility_pct: v: falling less rising, worst run; None without falling.
    """

    force_n: float
    runs: int
    mean_error_pct: float
    worst_error_pct: float
    spread_pct: float
    repeat_pct: float
    reversibility_pct: float | None


@dataclass(frozen=True, slots=True)
class ForceFigures:
    """All loads, and what belongs to the whole.

    Attributes:
        levels: loads rising, without the empty rig.
        zero_pct: f_0: zero after a run less zero before, in % of the largest
            force, worst run; None where no run came back to the empty rig.
    """

    levels: tuple[LevelFigures, ...]
    zero_pct: float | None


@dataclass(frozen=True, slots=True)
class ClassRange:
    """Where the limits of one class are met, up to the largest load.

    Attributes:
        standard: whose manner it is.
        name: of the class.
        from_n: lowest load from which on all are within the limits; None where
            the class is not reached.
        words: the range, or why there is none.
    """

    standard: str
    name: str
    from_n: float | None
    to_n: float
    words: str


def force_figures(
    points: Sequence[CalibrationPoint], fit: CalibrationFit
) -> ForceFigures:
    """Errors, spread, reversibility and zero at each load."""
    rising: dict[float, list[float]] = {}
    reversals: dict[float, list[float]] = {}
    zero_changes = []
    for run in runs(points).values():
        zero = zero_counts(run)
        zero_n = 0.0 if zero is None else float(fit.force_n(zero))
        up, down = (
            {
                load: float(fit.force_n(reading)) - zero_n
                for load, reading in readings(run, direction).items()
            }
            for direction in (Direction.UP, Direction.DOWN)
        )
        for load, shown in up.items():
            rising.setdefault(load, []).append(shown)
            if load in down and load != 0:
                change = 100 * (down[load] - shown) / load
                reversals.setdefault(load, []).append(change)
        if 0.0 in up and 0.0 in down:
            zero_changes.append(100 * (down[0.0] - up[0.0]) / fit.to_n)
    levels = tuple(
        _level(load, np.array(rising[load]), reversals.get(load, []))
        for load in sorted(rising)
        if load != 0
    )
    return ForceFigures(levels, max(zero_changes, key=abs, default=None))


def _level(
    load: float, shown: np.typing.NDArray[np.float64], reversals: list[float]
) -> LevelFigures:
    errors_pct = 100 * (shown - load) / load
    return LevelFigures(
        force_n=load,
        runs=len(shown),
        mean_error_pct=float(errors_pct.mean()),
        worst_error_pct=float(errors_pct[np.argmax(np.abs(errors_pct))]),
        spread_pct=float(np.ptp(errors_pct)),
        repeat_pct=float(np.ptp(errors_pct[:2])),
        reversibility_pct=max(reversals, key=abs, default=None),
    )


@dataclass(frozen=True, slots=True)
class _Limits376:
    name: str
    b: float
    b_prime: float
    f_c: float
    f_0: float
    v: float
    c: float
    applied: float


# ISO 376:2011 class table as printed in a published calibration program; column v
# from memory of the standard.
_ISO_376 = (
    _Limits376("00", 0.05, 0.025, 0.025, 0.012, 0.07, 0.025, 0.01),
    _Limits376("0.5", 0.10, 0.05, 0.05, 0.025, 0.15, 0.05, 0.02),
    _Limits376("1", 0.20, 0.10, 0.10, 0.050, 0.30, 0.10, 0.05),
    _Limits376("2", 0.40, 0.20, 0.20, 0.10, 0.50, 0.20, 0.10),
)


@dataclass(frozen=True, slots=True)
class _Limits7500:
    name: str
    q: float
    b: float
    v: float
    f_0: float
    a: float


# ISO 7500-1:2018 class table as printed in a published implementation.
_ISO_7500 = (
    _Limits7500("0.5", 0.5, 0.5, 0.75, 0.05, 0.25),
    _Limits7500("1", 1.0, 1.0, 1.5, 0.1, 0.5),
    _Limits7500("2", 2.0, 2.0, 3.0, 0.2, 1.0),
    _Limits7500("3", 3.0, 3.0, 4.5, 0.3, 1.5),
)


def iso_376_ranges(
    figures: ForceFigures, *, applied_pct: float, creep_pct: float | None = None
) -> tuple[ClassRange, ...]:
    """Range of each class in the manner of ISO 376:2011, finest first.

    Hanging masses do not turn the cell by 120°, so b is the spread of the rising
    runs as they were mounted.

    Args:
        applied_pct: expanded uncertainty (k = 2) of the known forces, in %.
        creep_pct: creep from second 30 to second 300; it stands in for
            reversibility where no falling readings were taken.
    """
    ranges = []
    for limits in _ISO_376:
        reason = _reason_376(figures, limits, applied_pct, creep_pct)

        def within(level: LevelFigures, limits: _Limits376 = limits) -> bool:
            return (
                level.runs >= RUNS_NEEDED
                and level.spread_pct <= limits.b
                and level.repeat_pct <= limits.b_prime
                and abs(level.mean_error_pct) <= limits.f_c
                and abs(level.reversibility_pct or 0.0) <= limits.v
            )

        kept = [within(level) for level in figures.levels]
        ranges.append(_range("ISO 376", limits.name, figures, kept, reason))
    return tuple(ranges)


def _reason_376(
    figures: ForceFigures,
    limits: _Limits376,
    applied_pct: float,
    creep_pct: float | None,
) -> str:
    """What rules out a class at every load; empty where nothing does."""
    if applied_pct > limits.applied:
        return phrase(
            "the known forces are uncertain by {applied_pct:.2g} "
            "% (k = 2), the class allows {applied:g} %",
            applied_pct=applied_pct,
            applied=limits.applied,
        )
    falling = all(level.reversibility_pct is not None for level in figures.levels)
    if not falling and creep_pct is None:
        return phrase("neither falling readings nor creep were taken")
    if creep_pct is not None and abs(creep_pct) > limits.c:
        return phrase(
            "creep is {creep_pct:.2g} %, the class allows {c:g} %",
            creep_pct=abs(creep_pct),
            c=limits.c,
        )
    return _reason_zero(figures, limits.f_0)


def _reason_zero(figures: ForceFigures, limit_pct: float) -> str:
    if figures.zero_pct is None:
        return phrase("no run came back to the empty rig")
    if abs(figures.zero_pct) > limit_pct:
        return phrase(
            "zero came back {zero_pct:.2g} % off, the class allows {limit_pct:g} %",
            zero_pct=abs(figures.zero_pct),
            limit_pct=limit_pct,
        )
    return ""


def iso_7500_ranges(
    figures: ForceFigures, *, applied_pct: float, resolution_n: float
) -> tuple[ClassRange, ...]:
    """Range of each class in the manner of ISO 7500-1:2018, finest first.

    Reversibility is judged where falling readings were taken; the standard asks
    for it on request only.

    Args:
        applied_pct: expanded uncertainty (k = 2) of the known forces, in %.
        resolution_n: smallest change that can be told apart, noise included.
    """
    ranges = []
    for limits in _ISO_7500:
        reason = _reason_zero(figures, limits.f_0)
        if applied_pct > APPLIED_SHARE * limits.q:
            reason = phrase(
                "the known forces are uncertain by {applied_pct:.2g} "
                "% (k = 2), more than a third of {q:g} %",
                applied_pct=applied_pct,
                q=limits.q,
            )

        def within(level: LevelFigures, limits: _Limits7500 = limits) -> bool:
            return (
                level.runs >= RUNS_NEEDED
                and abs(level.worst_error_pct) <= limits.q
                and level.spread_pct <= limits.b
                and abs(level.reversibility_pct or 0.0) <= limits.v
                and 100 * resolution_n / abs(level.force_n) <= limits.a
            )

        kept = [within(level) for level in figures.levels]
        ranges.append(_range("ISO 7500-1", limits.name, figures, kept, reason))
    return tuple(ranges)


def _range(
    standard: str, name: str, figures: ForceFigures, kept: list[bool], reason: str
) -> ClassRange:
    """From the largest load down to the last one before the first outside."""
    forces = [level.force_n for level in figures.levels]
    to_n = forces[-1] if forces else 0.0
    manner = phrase(
        "in the manner of {standard}, class {name} (not a certificate)",
        standard=standard,
        name=name,
    )
    if not reason and any(level.runs < RUNS_NEEDED for level in figures.levels):
        reason = phrase(
            "fewer than {runs_needed} rising runs at some load", runs_needed=RUNS_NEEDED
        )
    if not reason and not (kept and kept[-1]):
        reason = phrase("the largest load is outside the limits")
    if reason:
        return ClassRange(
            standard,
            name,
            None,
            to_n,
            phrase("not met {manner}: {reason}", manner=manner, reason=reason),
        )
    outside = [i for i, good in enumerate(kept) if not good]
    from_n = forces[outside[-1] + 1] if outside else forces[0]
    return ClassRange(
        standard,
        name,
        from_n,
        to_n,
        phrase(
            "met from {from_n:.4g} to {to_n:.4g} N, {manner}",
            from_n=from_n,
            to_n=to_n,
            manner=manner,
        ),
    )
