"""Calibration points: a known force and the counts that answered to it.

A run is one series: empty rig, each load rising, each load falling, empty rig.
The first reading of a run without a load is that run's own zero. Loads are the
same load where their forces are equal to the last digit, which holds for masses
hung up twice, and not for forces read from a reference cell.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt


class Direction(Enum):
    """How the load was reached."""

    UP = phrase("up")
    DOWN = phrase("down")


@dataclass(frozen=True, slots=True)
class CalibrationPoint:
    """One reading under a known force.

    Attributes:
        force_n: known force; 0 is the empty rig.
        counts: mean of the counts while the reading was steady. Any other
            indication works as well, mV/V for example; it need not be whole.
        direction: whether the load was reached rising or falling.
        run: number of the series, 1 and up.
    """

    force_n: float
    counts: float
    direction: Direction = Direction.UP
    run: int = 1

    def __post_init__(self) -> None:
        if not math.isfinite(self.force_n):
            raise FieldError("force_n", phrase("must be a number."))
        if not math.isfinite(self.counts):
            raise FieldError("counts", phrase("must be a number."))
        if self.run < 1:
            raise FieldError(
                "run", phrase("is {run}; runs are numbered from 1.", run=self.run)
            )


def forces(points: Sequence[CalibrationPoint]) -> npt.NDArray[np.float64]:
    """Known forces, shape (n,)."""
    return np.array([point.force_n for point in points], dtype=np.float64)


def counts(points: Sequence[CalibrationPoint]) -> npt.NDArray[np.float64]:
    """Counts, shape (n,)."""
    return np.array([point.counts for point in points], dtype=np.float64)


def rising(points: Sequence[CalibrationPoint]) -> tuple[CalibrationPoint, ...]:
    """Those reached rising."""
    return tuple(point for point in points if point.direction is Direction.UP)


def runs(
    points: Sequence[CalibrationPoint],
) -> dict[int, tuple[CalibrationPoint, ...]]:
    """The series in order of their numbers."""
    numbers = sorted({point.run for point in points})
    return {
        number: tuple(point for point in points if point.run == number)
        for number in numbers
    }


def zero_counts(run: Sequence[CalibrationPoint]) -> float | None:
    """The first reading of the empty rig in a run, rising before falling."""
    empty = [point for point in run if point.force_n == 0]
    empty.sort(key=lambda point: point.direction is Direction.DOWN)
    return empty[0].counts if empty else None


def readings(
    run: Sequence[CalibrationPoint], direction: Direction
) -> dict[float, float]:
    """Mean counts of a run at each load in one direction, loads rising."""
    wanted = [point for point in run if point.direction is direction]
    loads = sorted({point.force_n for point in wanted})
    return {
        load: float(
            np.mean([point.counts for point in wanted if point.force_n == load])
        )
        for load in loads
    }
