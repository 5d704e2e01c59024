"""Published and worked readings to calibrate with."""

from __future__ import annotations

import math

import numpy as np

from biofeedback.conditioning.calibration_points import CalibrationPoint, Direction

# P. Pontius, NIST, Load Cell Calibration; NIST/ITL Statistical Reference Datasets,
# Linear Least Squares, "Pontius". Two series of twenty, loads 150000 to 3000000.
_FIRST = (
    ".11019 .21956 .32949 .43899 .54803 .65694 .76562 .87487 .98292 1.09146 "
    "1.20001 1.30822 1.41599 1.52399 1.63194 1.73947 1.84646 1.95392 2.06128 2.16844"
)
_SECOND = (
    ".11052 .22018 .32939 .43886 .54798 .65739 .76596 .87474 .98300 1.09150 "
    "1.20004 1.30818 1.41613 1.52408 1.63159 1.73965 1.84696 1.95445 2.06177 2.16829"
)
PONTIUS = tuple(
    CalibrationPoint(150_000.0 * (i + 1), float(text), run=run)
    for run, series in ((1, _FIRST), (2, _SECOND))
    for i, text in enumerate(series.split())
)

# Worked example in mV/V, invented readings, three rising runs and one falling.
_LOADS_N = (0.0, 200.0, 400.0, 600.0, 800.0, 1000.0)
_UP = (
    (0.0120, 0.4125, 0.8128, 1.2128, 1.6125, 2.0120),
    (0.0121, 0.4127, 0.8131, 1.2129, 1.6127, 2.0123),
    (0.0119, 0.4124, 0.8127, 1.2126, 1.6124, 2.0119),
)
_DOWN = (0.0122, 0.4131, 0.8137, 1.2136, 1.6131, 2.0120)
WORKED = tuple(
    CalibrationPoint(load, value, Direction.UP, run)
    for run, series in enumerate(_UP, start=1)
    for load, value in zip(_LOADS_N, series, strict=True)
) + tuple(
    CalibrationPoint(load, value, Direction.DOWN, 1)
    for load, value in zip(_LOADS_N, _DOWN, strict=True)
)


def cell(
    *,
    loads_n: tuple[float, ...] = (0.0, 40.0, 80.0, 120.0, 160.0, 200.0),
    runs: int = 3,
    zero: float = 84_213.0,
    per_n: float = 4295.0,
    bend: float = 0.0,
    noise: float = 20.0,
    loop: float = 0.0,
    seed: int = 1,
) -> tuple[CalibrationPoint, ...]:
    """Readings of an invented cell, each run rising and falling.

    Args:
        bend: departure from the end-point line at mid scale, share of the span.
        noise: standard deviation of a reading in counts.
        loop: falling less rising at mid scale, counts.
    """
    noises = np.random.default_rng(seed)
    top = max(loads_n)
    points = []
    for run in range(1, runs + 1):
        for direction in Direction:
            order = loads_n if direction is Direction.UP else loads_n[::-1]
            for load in order:
                x = load / top
                clean = zero + per_n * top * (x + 4 * bend * x * (1 - x))
                if direction is Direction.DOWN:
                    clean += loop * 4 * x * (1 - x)
                reading = clean + noises.normal(0, noise) if noise else clean
                points.append(CalibrationPoint(load, reading, direction, run))
    return tuple(points)


def digits(value: float, expected: float) -> float:
    """How many digits agree."""
    if value == expected:
        return 17.0
    return -math.log10(abs(value - expected) / abs(expected))
