"""The fit, against certified values of NIST and against its own inverse."""

from __future__ import annotations

import numpy as np
import pytest
from conditioning.calibration_examples import PONTIUS, WORKED, cell, digits
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.polynomial import Polynomial

from biofeedback.conditioning.calibration_degree import choose_fit
from biofeedback.conditioning.calibration_findings import (
    FindingKind,
    RefusedCalibrationError,
)
from biofeedback.conditioning.calibration_fit import fit_points
from biofeedback.conditioning.calibration_points import (
    CalibrationPoint,
    Direction,
    counts,
    forces,
    rising,
)
from biofeedback.errors import FieldError

NINE = 9.0
"""Digits to agree on; the certified values have 15."""


def test_pontius_quadratic_meets_each_certified_value() -> None:
    """NIST/ITL StRD, Pontius: certified coefficients, deviations and ANOVA."""
    fit = fit_points(PONTIUS, degree=2)
    certified = (0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14)
    deviations = (0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16)
    pairs = [
        *zip(fit.coefficients, certified, strict=True),
        *zip(fit.standard_deviations, deviations, strict=True),
        (fit.residual_sd_counts, 0.205177424076185e-3),
        (fit.r2, 0.999999900178537),
        (fit.regression_ss, 15.6040343244198),
        (fit.residual_ss, 0.155761768796992e-5),
        (fit.f, 185330865.995752),
    ]
    assert [digits(a, b) for a, b in pairs] == pytest.approx(
        [17.0] * len(pairs), abs=17.0 - NINE
    )
    assert fit.residual_df == 37
    worst = int(np.argmax(np.abs(fit.residuals_counts)))
    assert abs(fit.residuals_counts[worst]) == pytest.approx(4.46840e-4, abs=6e-10)
    assert fit.fitted_points[worst].force_n == 300_000


def test_pontius_line() -> None:
    """The straight line through the same data, worked out with 60 digits."""
    fit = fit_points(PONTIUS, degree=1)
    assert fit.coefficients == pytest.approx((0.00614968421, 7.22102581e-7), rel=1e-9)
    assert fit.standard_deviations == pytest.approx(
        (0.000713205167, 3.9691478e-10), rel=2e-9
    )
    assert fit.residual_sd_counts == pytest.approx(0.0021712726, rel=1e-8)
    assert fit.r2 == pytest.approx(0.999988519115, abs=6e-13)
    assert fit.residual_df == 38


def test_pontius_lack_of_fit_rejects_the_line_and_accepts_the_quadratic() -> None:
    line = fit_points(PONTIUS, degree=1).lack_of_fit
    curve = fit_points(PONTIUS, degree=2).lack_of_fit
    assert line is not None
    assert curve is not None
    assert line.f == pytest.approx(214.746924, abs=6e-7)
    assert (line.df_lack, line.df_pure) == (18, 20)
    assert curve.f == pytest.approx(0.8107239, abs=6e-8)
    assert (curve.df_lack, curve.df_pure) == (17, 20)
    assert line.pure_sd_counts == pytest.approx(0.00021472657, abs=6e-12)
    assert curve.pure_sd_counts == line.pure_sd_counts
    assert not line.accepted
    assert curve.accepted
    chosen = choose_fit(PONTIUS)
    assert chosen.fit.degree == 2
    assert "214.7" in chosen.words
    assert "repeated" in chosen.words


def test_pontius_inverse_gives_loads() -> None:
    """Root of the certified quadratic for three indications, with 60 digits."""
    loads = fit_points(PONTIUS, degree=2).force_n([0.5, 1.0, 2.0])
    expected = (684105.500649, 1373231.90892, 2764087.6157)
    assert loads == pytest.approx(expected, rel=1e-11)


def test_covariance_is_that_of_numpy() -> None:
    fit = fit_points(cell(bend=0.003), degree=2)
    force = forces(fit.fitted_points) / 200.0
    _, scaled = np.polyfit(force, counts(fit.fitted_points), 2, cov=True)
    unscale = np.array([1.0, 1 / 200, 1 / 200**2])
    expected = scaled[::-1, ::-1] * np.outer(unscale, unscale)
    assert np.array(fit.covariance) == pytest.approx(expected, rel=1e-9)


def test_a_fit_through_zero_passes_through_each_runs_own_zero() -> None:
    """Slope by the formula Σxy / Σx², each run net of its first empty reading."""
    drifting = [
        CalibrationPoint(p.force_n, p.counts + 1000 * p.run, p.direction, p.run)
        for p in cell(noise=0.0, loop=300.0)
    ]
    fit = fit_points(drifting, degree=1, through_zero=True)
    loaded = [p for p in drifting if p.force_n]
    x = forces(loaded)
    y = counts(loaded) - np.array([84_213.0 + 1000 * p.run for p in loaded])
    assert fit.coefficients[1] == pytest.approx(float(x @ y / (x @ x)), rel=1e-12)
    assert fit.coefficients[0] == pytest.approx(84_213 + 2000)
    assert fit.standard_deviations[0] == 0
    assert float(fit.force_n(84_213.0 + 2000)) == 0
    assert fit.residual_df == len(loaded) - 1
    assert len(fit.residuals_counts) == len(fit.fitted_points) == len(loaded)


def test_through_zero_without_any_empty_reading_takes_counts_of_zero() -> None:
    net = [CalibrationPoint(x, 10.0 * x) for x in (10.0, 20.0, 30.0)]
    fit = fit_points(net, degree=1, through_zero=True)
    assert fit.coefficients == pytest.approx((0.0, 10.0))


def test_through_zero_needs_an_empty_reading_in_each_run() -> None:
    points = [p for p in cell() if p.run != 2 or p.force_n]
    with pytest.raises(RefusedCalibrationError, match="Run 2") as caught:
        fit_points(points, degree=1, through_zero=True)
    assert caught.value.finding.kind is FindingKind.EMPTY_RIG_MISSING


@pytest.mark.parametrize(
    ("degree", "through_zero", "loads", "enough"),
    [
        (1, False, (0.0, 50.0), False),
        (1, False, (0.0, 50.0, 100.0), True),
        (2, False, (0.0, 50.0, 100.0), False),
        (2, False, (0.0, 50.0, 100.0, 150.0), True),
        (1, True, (0.0, 50.0), False),
        (1, True, (0.0, 50.0, 100.0), True),
        (2, True, (0.0, 50.0, 100.0), False),
        (2, True, (0.0, 50.0, 100.0, 150.0), True),
    ],
)
def test_too_few_loads_are_refused_however_often_repeated(
    degree: int, through_zero: bool, loads: tuple[float, ...], enough: bool
) -> None:
    points = cell(loads_n=loads, runs=4)
    if enough:
        fit = fit_points(points, degree=degree, through_zero=through_zero)
        assert fit.degree == degree
        return
    with pytest.raises(RefusedCalibrationError) as caught:
        fit_points(points, degree=degree, through_zero=through_zero)
    assert caught.value.finding.kind is FindingKind.TOO_FEW_LOADS
    assert caught.value.finding.refused


def test_loads_on_one_heap_give_no_slope() -> None:
    points = [CalibrationPoint(100 + 1e-7 * i, 1.0 * i) for i in range(5)]
    with pytest.raises(RefusedCalibrationError) as caught:
        fit_points(points, degree=1)
    assert caught.value.finding.kind is FindingKind.LOADS_TOO_CLOSE


def test_counts_that_never_move_are_no_answer() -> None:
    points = [CalibrationPoint(10.0 * i, 7.0) for i in range(5)]
    with pytest.raises(RefusedCalibrationError) as caught:
        choose_fit(points)
    assert caught.value.finding.kind is FindingKind.NO_ANSWER


def test_only_line_and_quadratic_are_fitted() -> None:
    for degree in (0, 3):
        with pytest.raises(FieldError, match="degree"):
            fit_points(PONTIUS, degree=degree)


def test_points_are_numbers() -> None:
    for force, reading, run in ((np.nan, 1, 1), (1, np.inf, 1), (1, 1, 0)):
        with pytest.raises(FieldError):
            CalibrationPoint(force, reading, run=run)


def test_a_straight_cell_gets_a_line_and_a_bent_one_a_quadratic() -> None:
    straight = choose_fit(cell())
    bent = choose_fit(cell(bend=0.002))
    assert straight.fit.degree == 1
    assert "enough" in straight.words
    assert bent.fit.degree == 2
    assert len(bent.fit.fitted_points) == 36


def test_without_repeats_the_residuals_judge_and_the_words_say_so() -> None:
    def once(bend: float, noise: float) -> list[CalibrationPoint]:
        return list(rising(cell(bend=bend, noise=noise, runs=1)))

    straight, bent = choose_fit(once(0, 20)), choose_fit(once(0.002, 20))
    assert (straight.fit.degree, bent.fit.degree) == (1, 2)
    for chosen in (straight, bent, choose_fit(once(0, 0)), choose_fit(once(0.002, 0))):
        assert chosen.fit.lack_of_fit is None
        assert "No load gave two different readings" in chosen.words
    assert choose_fit(once(0, 0)).fit.degree == 1
    assert choose_fit(once(0.002, 0)).fit.degree == 2


def test_three_loads_give_a_line_and_say_that_they_cannot_tell_more() -> None:
    chosen = choose_fit(cell(loads_n=(0.0, 50.0, 100.0), bend=0.01))
    assert chosen.fit.degree == 1
    assert "too few loads" in chosen.words


def test_chance_rejects_a_true_line_about_as_often_as_stated() -> None:
    """5 % of straight cells get a quadratic: the F test keeps its level."""
    rejected = sum(
        choose_fit(cell(seed=seed, runs=1)).fit.degree == 2 for seed in range(150)
    )
    # Binomial(150, 0.05): 7.5 expected, 0 or more than 18 in one of 1000 trials.
    assert 1 <= rejected <= 18


def test_scaling_does_not_lose_digits() -> None:
    """The same points in MN and in mN give the same curve."""
    here = fit_points(PONTIUS, degree=2)
    for factor in (1e-9, 1e6):
        points = [
            CalibrationPoint(p.force_n * factor, p.counts, run=p.run) for p in PONTIUS
        ]
        there = fit_points(points, degree=2)
        unscaled = [c * factor**k for k, c in enumerate(there.coefficients)]
        assert unscaled == pytest.approx(here.coefficients, rel=1e-11)


@settings(max_examples=50)
@given(
    zero=st.floats(-1e6, 1e6),
    per_n=st.floats(50, 50_000) | st.floats(-50_000, -50),
    bend=st.floats(-0.02, 0.02),
    top_n=st.floats(20, 20_000),
    share=st.floats(0, 1),
)
def test_force_to_counts_to_force(
    zero: float, per_n: float, bend: float, top_n: float, share: float
) -> None:
    loads = tuple(top_n * i / 6 for i in range(7))
    points = cell(loads_n=loads, zero=zero, per_n=per_n, bend=bend, noise=0.0, runs=1)
    fit = fit_points(points, degree=2)
    force = share * top_n
    assert float(fit.force_n(fit.indication(force))) == pytest.approx(
        force, rel=1e-9, abs=1e-8 * top_n
    )
    reference = Polynomial(fit.coefficients)
    assert float(fit.indication(force)) == pytest.approx(reference(force), rel=1e-12)
    assert float(fit.slope(force)) == pytest.approx(reference.deriv()(force), rel=1e-12)


def test_beyond_the_turning_point_there_is_no_force() -> None:
    fit = fit_points(cell(bend=0.1, noise=0.0), degree=2)
    summit = -fit.coefficients[1] / (2 * fit.coefficients[2])
    beyond = float(fit.indication(summit)) + 1000
    assert np.isnan(fit.force_n(beyond))


def test_hysteresis_is_split_by_a_fit_to_both_directions() -> None:
    both = fit_points(cell(noise=0.0, loop=400.0), degree=2)
    up = fit_points(rising(cell(noise=0.0, loop=400.0)), degree=2)
    middle = float(both.indication(100.0) - up.indication(100.0))
    assert middle == pytest.approx(200.0, rel=1e-9)
    assert {p.direction for p in up.fitted_points} == {Direction.UP}


def test_the_worked_line() -> None:
    """Least-squares slope 0.002 and intercept 0.0124333 of the first rising run."""
    fit = fit_points([p for p in rising(WORKED) if p.run == 1], degree=1)
    assert fit.coefficients == pytest.approx((0.0124333, 0.002), abs=6e-8)
