"""Uncertainty, against the examples of the GUM and an independent simulation."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest
from conditioning.calibration_examples import cell

from biofeedback.conditioning.calibration_fit import fit_points
from biofeedback.conditioning.calibration_points import (
    CalibrationPoint,
    counts,
    forces,
)
from biofeedback.errors import FieldError
from biofeedback.measures.force_budget import Deviations, force_budget
from biofeedback.measures.uncertainty import (
    Component,
    combine,
    coverage_factor,
    effective_df,
    expand,
    read_force,
    reliability_df,
    two_cells,
)

if TYPE_CHECKING:
    import numpy.typing as npt


def test_gum_g_4_1() -> None:
    """JCGM 100:2008, G.4.1: 1.03 %, ν 19, t 2.09, U95 2.2 %."""
    combined = combine(
        [
            Component("p", 0.25, 9),
            Component("q", 0.57, 4),
            Component("r", 0.82, 14),
        ]
    )
    assert combined.u == pytest.approx(1.02947, abs=6e-6)
    assert combined.df == pytest.approx(18.9987, abs=6e-5)
    # The printed 19.0 is rounded; truncating 18.9987 would give 18.
    exact = expand(combined, truncate=False)
    assert exact.k == pytest.approx(2.093, abs=2e-4)
    assert exact.expanded == pytest.approx(2.1547, abs=2e-4)
    assert expand(combined).df == 18


def test_gum_h_1_end_gauge() -> None:
    """JCGM 100:2008, H.1: u 32 nm, ν 16, t99 2.92, U99 93 nm."""
    difference = combine(
        [
            Component("comparator", 13 / math.sqrt(5), 24),
            Component("random", 10 / coverage_factor(5), 5),
            Component("systematic", 20 / 3, 8),
        ]
    )
    assert difference.u == pytest.approx(9.66322, abs=6e-6)
    assert difference.df == pytest.approx(25.621, abs=6e-4)
    expansion = Component.rectangular("δα", 1e-6, reliable_to=0.1)
    temperature = Component.rectangular("δθ", 0.05, reliable_to=0.5)
    combined = combine(
        [
            Component("standard", 25, 18),
            Component("difference", 9.7, 25.6),
            Component("δα", expansion.u, expansion.df, 0.05e9 * 0.1),
            Component("δθ", temperature.u, temperature.df, 0.05e9 * 11.5e-6),
        ]
    )
    assert combined.u**2 == pytest.approx(1002, abs=1)
    assert combined.u == pytest.approx(31.658, abs=0.02)
    assert combined.df == pytest.approx(16.74, abs=0.03)
    expanded = expand(combined, level=0.99)
    assert expanded.df == 16
    assert expanded.k == pytest.approx(2.92078, abs=6e-6)
    assert expanded.expanded == pytest.approx(92.466, abs=0.06)


WORKED = [
    Component.rectangular("mass", 0.0098120),
    Component.rectangular("gravity", 0.0100),
    Component("air", 0.001700),
    Component.repeated("repeatability", 0.12, n=10),
    Component.resolution("resolution", 0.1),
    Component.rectangular("non-linearity", 0.5, reliable_to=0.25),
    Component.rectangular("creep", 0.3, reliable_to=0.25),
    Component.rectangular("zero drift", 0.2, reliable_to=0.5),
]


def test_worked_force_budget() -> None:
    """Invented but fixed inputs for 20 kg at 52°, worked out independently."""
    table = [
        (0.005665, math.inf),
        (0.005774, math.inf),
        (0.001700, math.inf),
        (0.037947, 9),
        (0.028868, math.inf),
        (0.288675, 8),
        (0.173205, 8),
        (0.115470, 2),
    ]
    assert [c.u for c in WORKED] == pytest.approx([u for u, _ in table], abs=6e-7)
    assert [c.df for c in WORKED] == pytest.approx([df for _, df in table])
    combined = combine(WORKED)
    assert combined.u == pytest.approx(0.359177, abs=6e-7)
    assert combined.df == pytest.approx(15.559, abs=6e-4)
    expanded = expand(combined)
    assert expanded.df == 15
    assert expanded.k == pytest.approx(2.13145, abs=6e-6)
    assert expanded.expanded == pytest.approx(0.76557, abs=6e-6)
    exact = expand(combined, truncate=False)
    assert exact.k == pytest.approx(2.12480, abs=6e-6)
    assert exact.expanded == pytest.approx(0.7632, abs=6e-5)
    assert 2 * combined.u == pytest.approx(0.71835, abs=6e-6)


def test_judged_uncertainties_and_their_degrees_of_freedom() -> None:
    """GUM G.4.2, 4.3.7 and 4.3.9."""
    assert [reliability_df(r) for r in (0.1, 0.25, 0.5, 0)] == pytest.approx(
        [50, 8, 2, math.inf]
    )
    assert Component.rectangular("a", 1).u == pytest.approx(1 / math.sqrt(3))
    assert Component.triangular("a", 1).u == pytest.approx(1 / math.sqrt(6))
    assert Component.u_shaped("a", 1).u == pytest.approx(1 / math.sqrt(2))
    assert Component.resolution("a", 1).u == pytest.approx(1 / math.sqrt(12))


# JCGM 100:2008, Table G.2: 68.27, 90, 95, 95.45, 99 and 99.73 %.
@pytest.mark.parametrize(
    ("df", "row"),
    [
        (1, (1.84, 6.31, 12.71, 13.97, 63.66, None)),
        (2, (1.32, 2.92, 4.30, 4.53, 9.92, 19.21)),
        (5, (1.11, 2.02, 2.57, 2.65, 4.03, 5.51)),
        (10, (1.05, 1.81, 2.23, 2.28, 3.17, 3.96)),
        (50, (1.01, 1.68, 2.01, 2.05, 2.68, 3.16)),
        (math.inf, (1.0, 1.645, 1.960, 2.0, 2.576, 3.0)),
    ],
)
def test_coverage_factors(df: float, row: tuple[float | None, ...]) -> None:
    levels = (0.6827, 0.90, 0.95, 0.9545, 0.99, 0.9973)
    for level, expected in zip(levels, row, strict=True):
        if expected is not None:
            assert coverage_factor(df, level=level) == pytest.approx(expected, abs=6e-3)


def test_correlation_adds_in_a_sum_and_cancels_in_a_difference() -> None:
    """Two cells, 0.5 N each, of which 0.3 N is common: 0.824621 and 0.565685 N."""
    r = 0.3**2 / 0.5**2
    left, right = Component("left", 0.5), Component("right", 0.5)
    minus = Component("right", 0.5, sensitivity=-1.0)
    together = combine([left, right], {("left", "right"): r})
    apart = combine([left, minus], {("left", "right"): r})
    assert together.u == pytest.approx(0.824621, abs=6e-7)
    assert apart.u == pytest.approx(0.565685, abs=6e-7)
    closed = two_cells(left_n=0.4, right_n=0.4, common_n=0.3)
    assert closed.sum_n == pytest.approx(together.u, rel=1e-12)
    assert closed.difference_n == pytest.approx(apart.u, rel=1e-12)
    assert combine([left, right]).u == pytest.approx(0.70711, abs=6e-6)


def test_gum_resistors_fully_correlated() -> None:
    """JCGM 100:2008, 5.2.2: ten resistors of 100 mΩ add up to 1 Ω, not 0.32 Ω."""
    ten = [Component(f"R{i}", 0.1) for i in range(10)]
    pairs = {(f"R{i}", f"R{j}"): 1.0 for i in range(10) for j in range(i)}
    assert combine(ten, pairs).u == pytest.approx(1.0, rel=1e-12)
    assert combine(ten).u == pytest.approx(0.316, abs=5e-4)


def test_degrees_of_freedom_stay_on_the_safe_side_under_correlation() -> None:
    parts = [Component("a", 1.0, 4), Component("b", 1.0, 9)]
    assert combine(parts, {("a", "b"): 0.5}).df == 4
    assert 4 < effective_df(parts) <= 13


def test_correlations_that_cannot_be_are_refused() -> None:
    a, b, c = (Component(name, 1.0) for name in "abc")
    for wrong in ({("a", "x"): 0.5}, {("a", "a"): 1.0}, {("a", "b"): 1.5}):
        with pytest.raises(FieldError):
            combine([a, b, c], wrong)
    contradiction = {("a", "b"): 1.0, ("b", "c"): 1.0, ("a", "c"): -1.0}
    with pytest.raises(FieldError, match="contradict"):
        combine([a, b, c], contradiction)
    with pytest.raises(FieldError, match="same name"):
        combine([a, a], {("a", "b"): 0.1})
    with pytest.raises(FieldError):
        Component("negative", -1.0)
    with pytest.raises(FieldError):
        Component("no freedom", 1.0, 0)


def test_an_exact_budget_has_infinite_freedom() -> None:
    combined = combine([Component("a", 3.0), Component("b", 4.0)])
    assert combined.u == pytest.approx(5.0)
    assert math.isinf(combined.df)
    assert expand(combined).k == pytest.approx(1.959964, abs=1e-6)


@pytest.mark.parametrize("degree", [1, 2])
@pytest.mark.parametrize("net", [False, True])
def test_force_read_from_a_fit_against_simulation(degree: int, net: bool) -> None:
    """Recalibrate 4000 times with fresh noise and read the same force: the spread
    is what the covariance says, without a line of its algebra."""
    bend = 0.01 if degree == 2 else 0.0
    points = cell(noise=0.0, bend=bend, runs=1)
    x = forces(points)
    clean = counts(points)
    true = fit_points(points, degree=degree)
    force_n, zero, sd = 130.0, 84_213.0, 400.0
    reading = float(true.indication(force_n))
    noises = np.random.default_rng(11)
    noisy_counts = clean[:, None] + noises.normal(0, sd, (len(clean), 4000))
    coefficients = np.polyfit(x / 200, noisy_counts, degree)
    at = _roots(coefficients, reading + noises.normal(0, sd, 4000))
    empty = _roots(coefficients, zero + noises.normal(0, sd, 4000))
    read = 200 * (at - empty if net else at)
    # A fit with the true sd in place of the one estimated from its residuals.
    noisy = fit_points(cell(noise=sd, bend=bend, runs=1, seed=3), degree=degree)
    factor = sd / noisy.residual_sd_counts
    found = read_force(
        noisy,
        float(noisy.indication(force_n)),
        u_counts=sd,
        zero_counts=float(noisy.indication(0.0)) if net else None,
        u_zero_counts=sd if net else 0.0,
    )
    u_n = math.hypot(found.from_fit_n * factor, found.from_readings_n)
    assert found.force_n == pytest.approx(force_n, rel=1e-9)
    # The spread of 4000 is known to 1.1 %, one standard deviation.
    assert u_n == pytest.approx(float(read.std(ddof=1)), rel=0.045)
    assert found.df == len(points) - degree - 1


def _roots(
    coefficients: npt.NDArray[np.float64], values: npt.NDArray[np.float64]
) -> npt.NDArray[np.float64]:
    """Where each polynomial takes its value, by Newton's method."""
    x = np.full(values.shape, 0.3)
    powers = np.arange(len(coefficients) - 1, 0, -1)[:, None]
    for _ in range(8):
        slope = np.polyval(coefficients[:-1] * powers, x)
        x = x - (np.polyval(coefficients, x) - values) / slope
    return x


def test_gum_h_3_thermometer_line() -> None:
    """JCGM 100:2008, H.3: prediction at 30 °C, −0.1494(41) °C with 9 freedoms.

    Corrections b = y1 + y2 (t − 20) from Table H.6; y1 −0.1712(29), y2
    0.00218(67), correlation −0.930, s 0.0035.
    """
    degrees = (
        "21.521 22.012 22.512 23.003 23.507 23.999 24.513 25.002 25.503 26.010 26.511"
    )
    corrections = (
        "-0.171 -0.169 -0.166 -0.159 -0.164 -0.165 -0.156 -0.157 -0.159 -0.161 -0.160"
    )
    t = [float(text) for text in degrees.split()]
    b = [float(text) for text in corrections.split()]
    fit = fit_points(
        [CalibrationPoint(x - 20, y) for x, y in zip(t, b, strict=True)], degree=1
    )
    assert fit.coefficients == pytest.approx((-0.1712, 0.00218), abs=6e-5)
    assert fit.standard_deviations == pytest.approx((0.0029, 0.00067), abs=6e-5)
    assert fit.residual_sd_counts == pytest.approx(0.0035, abs=6e-5)
    first, second = fit.standard_deviations
    assert fit.covariance[0][1] / (first * second) == pytest.approx(-0.930, abs=6e-4)
    indicated = float(fit.indication(10.0))
    assert indicated == pytest.approx(-0.1494, abs=6e-5)
    read = read_force(fit, indicated, u_counts=0.0)
    # In degrees of correction: the doubt in t times the slope.
    assert read.from_fit_n * fit.coefficients[1] == pytest.approx(0.0041, abs=6e-5)
    assert read.df == 9


def test_a_net_reading_is_surer_near_zero() -> None:
    """What the zero takes away, the doubt in b0, is gone from small forces."""
    fit = fit_points(cell(noise=200.0), degree=1)
    near = float(fit.indication(2.0))
    gross = read_force(fit, near, u_counts=0.0)
    net = read_force(fit, near, u_counts=0.0, zero_counts=float(fit.indication(0.0)))
    assert net.from_fit_n < gross.from_fit_n / 20
    assert net.force_n == pytest.approx(2.0)


def test_budget_of_a_shown_force() -> None:
    fit = fit_points(cell(), degree=1)
    reading = read_force(fit, float(fit.indication(150.0)), u_counts=30.0)
    combined = force_budget(
        reading, Deviations(mass_share=0.02, gravity_share=5e-5, hysteresis_n=0.2)
    )
    names = [component.name for component in combined.components]
    assert names[0] == "masses"
    assert "creep" not in names
    by_name = {component.name: component.u for component in combined.components}
    # Gym plates of ±2 % rule all else: 3 N / √3.
    assert by_name["masses"] == pytest.approx(3 / math.sqrt(3), rel=1e-6)
    assert by_name["hysteresis"] == pytest.approx(0.1 / math.sqrt(3))
    assert combined.u == pytest.approx(by_name["masses"], rel=0.01)
    parts = [component.u for component in combined.components]
    assert combined.u == pytest.approx(math.hypot(*parts))
