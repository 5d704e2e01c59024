"""Data-sheet terms of a cell or rig, in % of rated output.

Definitions as in manufacturers' glossaries and OIML R 60-1 (2021), 3.7. "Rated
output" is the reading at the largest load less the reading at no load.

* Non-linearity means nothing without its reference line: on the same readings it
  is 0.040 % from the terminal line and 0.020 % from the minimax line. All four are
  given, each under its name.
* The combined error is read from the points. The root of the squared parts is
  smaller than it and no substitute.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.conditioning.calibration_points import (
    Direction,
    readings,
    runs,
    zero_counts,
)
from biofeedback.errors import UserError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.calibration_points import CalibrationPoint

    Floats: TypeAlias = npt.NDArray[np.float64]


class ReferenceLine(Enum):
    """The straight line that non-linearity is measured from."""

    TERMINAL = phrase("terminal line, no load to largest load")
    LEAST_SQUARES = phrase("least-squares line")
    LEAST_SQUARES_THROUGH_ZERO = phrase(
        "least-squares line through the no-load reading"
    )
    MINIMAX = phrase("line with the smallest largest deviation")


@dataclass(frozen=True, slots=True)
class Deviation:
    """A largest deviation and where it was.

    Attributes:
        pct: of rated output; signed where a sign means something.
        force_n: the load.
    """

    pct: float
    force_n: float


@dataclass(frozen=True, slots=True)
class CycleQualities:
    """One run: rising, and falling where it was taken.

    Attributes:
        rated_output_counts: reading at the largest load less that at no load.
        nonlinearity: rising readings, from each reference line.
        hysteresis: falling less rising at the same load, or None.
        zero_return: empty rig afterwards less before, or None.
        combined_error: rising and falling readings from the terminal line.
    """

    rated_output_counts: float
    nonlinearity: dict[ReferenceLine, Deviation]
    hysteresis: Deviation | None
    zero_return: Deviation | None
    combined_error: Deviation


@dataclass(frozen=True, slots=True)
class Repeatability:
    """Largest range of rising readings at one load, over the runs.

    Attributes:
        net: each run net of its own zero, as the rig is used.
        gross: readings as they came.
        runs: how many were compared.
    """

    net: Deviation
    gross: Deviation
    runs: int


def cycle_qualities(run: Sequence[CalibrationPoint]) -> CycleQualities:
    """Non-linearity, hysteresis, zero return and combined error of one run.

    Args:
        run: points of one series; the smallest load, normally the empty rig, is
            its no-load point.

    Raises:
        UserError: fewer than three rising loads, or no answer to load.
    """
    up = readings(run, Direction.UP)
    down = readings(run, Direction.DOWN)
    load = np.array(list(up))
    reading = np.array(list(up.values()))
    if len(load) < 3:
        raise UserError(
            phrase("{load} rising loads do not show a curve.", load=len(load)),
            phrase("Take three or more."),
        )
    output = float(reading[-1] - reading[0])
    if output == 0:
        raise UserError(
            phrase("The reading at the largest load equals that at no load.")
        )
    terminal = np.array([output / (load[-1] - load[0]), 0.0])
    terminal[1] = reading[0] - terminal[0] * load[0]
    nonlinearity = {
        name: _largest(load, reading - slope * load - intercept, output)
        for name, (slope, intercept) in _lines(load, reading, terminal).items()
    }
    shared = [force for force in up if force in down]
    loop = [down[force] - up[force] for force in shared]
    all_loads = np.array([*up, *down])
    all_readings = np.array([*up.values(), *down.values()])
    return CycleQualities(
        rated_output_counts=output,
        nonlinearity=nonlinearity,
        hysteresis=_largest(np.array(shared), np.array(loop), output)
        if shared
        else None,
        zero_return=Deviation(100 * (down[load[0]] - reading[0]) / output, load[0])
        if load[0] in down
        else None,
        combined_error=_largest(
            all_loads, all_readings - terminal[0] * all_loads - terminal[1], output
        ),
    )


def repeatability(points: Sequence[CalibrationPoint]) -> Repeatability | None:
    """Range of rising readings over the runs; None with fewer than two runs.

    Only loads that every run has are compared; rated output is the first run's.
    """
    series = list(runs(points).values())
    rising = [readings(run, Direction.UP) for run in series]
    shared = sorted(set.intersection(*(set(up) for up in rising))) if rising else []
    if len(series) < 2 or len(shared) < 2:
        return None
    table = np.array([[up[load] for load in shared] for up in rising])
    zeros = np.array([zero_counts(run) for run in series], dtype=np.float64)
    if np.isnan(zeros).any():
        zeros = table[:, 0]
    output = float(table[0, -1] - table[0, 0])
    loads = np.array(shared)
    return Repeatability(
        net=_largest(loads, np.ptp(table - zeros[:, None], axis=0), abs(output)),
        gross=_largest(loads, np.ptp(table, axis=0), abs(output)),
        runs=len(series),
    )


def _largest(load: Floats, deviation: Floats, output: float) -> Deviation:
    at = int(np.argmax(np.abs(deviation)))
    return Deviation(100 * float(deviation[at]) / output, float(load[at]))


def _lines(
    load: Floats, reading: Floats, terminal: Floats
) -> dict[ReferenceLine, Floats]:
    """(slope, intercept) of each reference line."""
    above, risen = load - load[0], reading - reading[0]
    slope = float(above @ risen / (above @ above))
    centred = load - load.mean()
    least = float(centred @ reading / (centred @ centred))
    return {
        ReferenceLine.TERMINAL: terminal,
        ReferenceLine.LEAST_SQUARES: np.array(
            [least, reading.mean() - least * load.mean()]
        ),
        ReferenceLine.LEAST_SQUARES_THROUGH_ZERO: np.array(
            [slope, reading[0] - slope * load[0]]
        ),
        ReferenceLine.MINIMAX: _minimax(load, reading),
    }


def _minimax(load: Floats, reading: Floats) -> Floats:
    """The line with the smallest largest deviation, exactly.

    The range of what a slope leaves over is convex and piecewise linear in the
    slope, with corners at the edges of the convex hull; so one of those is best.
    """
    slopes = np.array(_edge_slopes(load, reading) + _edge_slopes(load, -reading, -1.0))
    left = reading - slopes[:, None] * load
    best = int(np.argmin(np.ptp(left, axis=1)))
    return np.array([slopes[best], (left[best].max() + left[best].min()) / 2])


def _edge_slopes(load: Floats, reading: Floats, sign: float = 1.0) -> list[float]:
    """Slopes along the upper hull, by Andrew's monotone chain; loads rising."""
    chain: list[tuple[float, float]] = []
    slopes: list[float] = []
    for x, y in zip(load.tolist(), reading.tolist(), strict=True):
        while slopes and (y - chain[-1][1]) / (x - chain[-1][0]) >= slopes[-1]:
            chain.pop()
            slopes.pop()
        if chain:
            slopes.append((y - chain[-1][1]) / (x - chain[-1][0]))
        chain.append((x, y))
    return [sign * slope for slope in slopes]
