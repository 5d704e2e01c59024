"""Data-sheet terms, creep and classes, on the worked example."""

from __future__ import annotations

import math

import numpy as np
import pytest
from conditioning.calibration_examples import PONTIUS, WORKED, cell
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from biofeedback.conditioning.calibration_fit import fit_points
from biofeedback.conditioning.calibration_points import CalibrationPoint, Direction
from biofeedback.conditioning.calibration_quality import (
    ReferenceLine,
    cycle_qualities,
    repeatability,
)
from biofeedback.conditioning.creep import (
    CellClass,
    CreepReadings,
    judge_creep,
    permitted_error_v,
)
from biofeedback.conditioning.force_classes import (
    force_figures,
    iso_376_ranges,
    iso_7500_ranges,
)
from biofeedback.conditioning.lower_limit import lower_limit
from biofeedback.errors import FieldError, UserError

FIRST_RUN = [point for point in WORKED if point.run == 1]
TABLE = 6e-5
"""Half a unit of the last digit of the worked table, and a little."""


def test_nonlinearity_under_each_name() -> None:
    """Definitions of two manufacturers' glossaries and OIML R 60-1, 3.7."""
    found = cycle_qualities(FIRST_RUN)
    assert found.rated_output_counts == pytest.approx(2.0, abs=1e-12)
    sizes = {line: abs(value.pct) for line, value in found.nonlinearity.items()}
    assert sizes[ReferenceLine.TERMINAL] == pytest.approx(0.0400, abs=TABLE)
    assert sizes[ReferenceLine.LEAST_SQUARES] == pytest.approx(0.0217, abs=TABLE)
    assert sizes[ReferenceLine.LEAST_SQUARES_THROUGH_ZERO] == pytest.approx(
        0.0295, abs=TABLE
    )
    assert sizes[ReferenceLine.MINIMAX] == pytest.approx(0.0200, abs=TABLE)
    assert found.nonlinearity[ReferenceLine.TERMINAL].pct > 0
    assert found.nonlinearity[ReferenceLine.TERMINAL].force_n in {400, 600}


def test_hysteresis_zero_return_and_combined_error() -> None:
    found = cycle_qualities(FIRST_RUN)
    assert found.hysteresis is not None
    assert found.hysteresis.pct == pytest.approx(0.0450, abs=TABLE)
    assert found.hysteresis.force_n == 400
    assert found.zero_return is not None
    assert found.zero_return.pct == pytest.approx(0.0100, abs=TABLE)
    assert found.combined_error.pct == pytest.approx(0.0850, abs=TABLE)
    assert found.combined_error.force_n == 400


def test_repeatability_net_and_gross() -> None:
    found = repeatability(WORKED)
    assert found is not None
    assert found.net.pct == pytest.approx(0.0100, abs=TABLE)
    assert found.gross.pct == pytest.approx(0.0200, abs=TABLE)
    assert found.runs == 3
    assert repeatability(FIRST_RUN) is None


def test_the_root_of_squares_is_smaller_than_the_combined_error() -> None:
    """0.0610 % against 0.0850 %: never substitute one for the other."""
    found, repeated = cycle_qualities(FIRST_RUN), repeatability(WORKED)
    assert found.hysteresis is not None
    assert repeated is not None
    parts = (
        found.nonlinearity[ReferenceLine.TERMINAL].pct,
        found.hysteresis.pct,
        repeated.net.pct,
    )
    assert math.hypot(*parts) == pytest.approx(0.0610, abs=TABLE)


def test_a_run_without_falling_has_no_hysteresis() -> None:
    found = cycle_qualities([p for p in WORKED if p.run == 2])
    assert found.hysteresis is None
    assert found.zero_return is None


def test_a_reversed_cell_has_the_same_qualities() -> None:
    mirrored = [
        CalibrationPoint(p.force_n, -p.counts, p.direction, p.run) for p in WORKED
    ]
    here = cycle_qualities(FIRST_RUN)
    there = cycle_qualities([p for p in mirrored if p.run == 1])
    assert there.combined_error.pct == pytest.approx(here.combined_error.pct)
    assert there.hysteresis is not None
    assert there.hysteresis.pct == pytest.approx(0.0450, abs=TABLE)
    repeated = repeatability(mirrored)
    assert repeated is not None
    assert repeated.gross.pct == pytest.approx(0.0200, abs=TABLE)


def test_too_little_for_a_curve() -> None:
    with pytest.raises(UserError, match="do not show a curve"):
        cycle_qualities(FIRST_RUN[:2])
    flat = [CalibrationPoint(float(x), 1.0) for x in range(4)]
    with pytest.raises(UserError, match="equals"):
        cycle_qualities(flat)


@given(st.lists(st.floats(-50, 50), min_size=3, max_size=9))
def test_minimax_is_what_linear_programming_finds(wiggle: list[float]) -> None:
    loads = np.arange(len(wiggle)) * 10.0
    readings = 1000 * loads + np.array(wiggle)
    points = [
        CalibrationPoint(float(x), float(y))
        for x, y in zip(loads, readings, strict=True)
    ]
    found = cycle_qualities(points).nonlinearity[ReferenceLine.MINIMAX]
    output = float(readings[-1] - readings[0])
    ones = np.ones_like(loads)
    # Smallest t with |y − a − b·x| ≤ t, y less the known slope.
    best = linprog(
        [0, 0, 1],
        A_ub=np.vstack(
            (
                np.column_stack((ones, loads / 100, -ones)),
                np.column_stack((-ones, -loads / 100, -ones)),
            )
        ),
        b_ub=np.concatenate((wiggle, np.negative(wiggle))),
        bounds=[(None, None), (None, None), (0, None)],
    )
    assert abs(found.pct) * output / 100 == pytest.approx(best.fun, abs=1e-5)


# OIML R 60-1 (2021), 5.5, worked for a cell of class C3 and 1000 N.
CREEP = CreepReadings(
    rated_output=2.0,
    zero_before=0.01200,
    first=2.01200,
    after_20_min=2.01248,
    after_30_min=2.01254,
    zero_after=0.01236,
)


def test_creep_verdict_of_the_worked_cell() -> None:
    verdict = judge_creep(CREEP, cell_class=CellClass.C, intervals=3000)
    assert verdict.creep.v == pytest.approx(0.81, abs=1e-9)
    assert verdict.creep.pct == pytest.approx(0.027, abs=1e-9)
    assert verdict.creep.limit_v == pytest.approx(0.735)
    assert not verdict.creep.passed
    assert verdict.late_creep.v == pytest.approx(0.09, abs=1e-9)
    assert verdict.late_creep.limit_v == pytest.approx(0.1575)
    assert verdict.late_creep.passed
    assert verdict.zero_return.v == pytest.approx(0.54, abs=1e-9)
    assert not verdict.zero_return.passed
    assert not verdict.passed


def test_a_good_cell_passes() -> None:
    good = CreepReadings(2.0, 0.012, 2.012, 2.0122, 2.0123, 0.0121)
    assert judge_creep(good, cell_class=CellClass.C, intervals=3000).passed


@pytest.mark.parametrize(
    ("load_v", "permitted"),
    [(0, 0.35), (500, 0.35), (501, 0.70), (2000, 0.70), (2001, 1.05)],
)
def test_permitted_error_steps_up_behind_inclusive_limits(
    load_v: float, permitted: float
) -> None:
    """OIML R 60-1 Table 4, class C."""
    assert permitted_error_v(load_v, CellClass.C) == pytest.approx(permitted)


@pytest.mark.parametrize(
    ("cell_class", "edges"),
    [
        (CellClass.A, (50_000, 200_000)),
        (CellClass.B, (5_000, 20_000, 100_000)),
        (CellClass.C, (500, 2_000, 10_000)),
        (CellClass.D, (50, 200, 1_000)),
    ],
)
def test_permitted_error_of_each_class(
    cell_class: CellClass, edges: tuple[float, ...]
) -> None:
    for edge, factor in zip(edges, (0.5, 1.0, 1.5), strict=False):
        assert permitted_error_v(edge, cell_class, p_lc=1) == factor
    if len(edges) == 3:
        with pytest.raises(FieldError):
            permitted_error_v(edges[-1] + 1, cell_class)
    with pytest.raises(FieldError):
        permitted_error_v(-1, cell_class)


def test_a_class_that_cannot_have_so_many_intervals() -> None:
    with pytest.raises(FieldError, match="intervals"):
        judge_creep(CREEP, cell_class=CellClass.D, intervals=3000)


def _clean(errors_pct: dict[float, float]) -> list[CalibrationPoint]:
    """A line of 100 counts/N, off by so many % at each load, 3 runs up and down."""
    return [
        CalibrationPoint(load, 5000 + 100 * load * (1 + error / 100), direction, run)
        for run in (1, 2, 3)
        for direction in Direction
        for load, error in {0.0: 0.0, **errors_pct}.items()
    ]


LINE = fit_points(_clean(dict.fromkeys((50.0, 100.0, 150.0), 0.0)), degree=1)


@pytest.mark.parametrize(
    ("error_pct", "expected"),
    [
        (0.49, {"0.5": 40, "1": 40, "2": 40, "3": 40}),
        (0.9, {"0.5": 80, "1": 40, "2": 40, "3": 40}),
        (2.9, {"0.5": 80, "1": 80, "2": 80, "3": 40}),
        (3.1, {"0.5": 80, "1": 80, "2": 80, "3": 80}),
    ],
)
def test_iso_7500_range_begins_above_the_last_load_outside(
    error_pct: float, expected: dict[str, float]
) -> None:
    """Class limits q of ISO 7500-1:2018, as printed: 0.5, 1, 2, 3 %."""
    points = _clean({40.0: error_pct, 80.0: 0.1, 120.0: -0.2, 160.0: 0, 200.0: 0.1})
    ranges = iso_7500_ranges(
        force_figures(points, LINE), applied_pct=0.01, resolution_n=0.05
    )
    assert {found.name: found.from_n for found in ranges} == expected
    for found in ranges:
        assert found.to_n == 200
        assert "in the manner of ISO 7500-1" in found.words
        assert "not a certificate" in found.words


@pytest.mark.parametrize(
    ("error_pct", "expected"),
    [
        (0.02, {"00": 40, "0.5": 40, "1": 40, "2": 40}),
        (0.04, {"00": 80, "0.5": 40, "1": 40, "2": 40}),
        (0.15, {"00": 80, "0.5": 80, "1": 80, "2": 40}),
    ],
)
def test_iso_376_range_by_interpolation_error(
    error_pct: float, expected: dict[str, float]
) -> None:
    """Class limits f_c of ISO 376:2011, as printed: 0.025, 0.05, 0.1, 0.2 %."""
    points = _clean({40.0: error_pct, 80.0: 0, 120.0: 0, 160.0: 0, 200.0: 0})
    ranges = iso_376_ranges(force_figures(points, LINE), applied_pct=0.005)
    assert {found.name: found.from_n for found in ranges} == expected


def _reached(
    points: list[CalibrationPoint],
    *,
    applied_pct: float = 0.001,
    resolution_n: float = 1e-3,
) -> tuple[list[str], list[str]]:
    figures = force_figures(points, LINE)
    fine = iso_376_ranges(figures, applied_pct=applied_pct)
    machine = iso_7500_ranges(
        figures, applied_pct=applied_pct, resolution_n=resolution_n
    )
    return (
        [found.name for found in fine if found.from_n is not None],
        [found.name for found in machine if found.from_n is not None],
    )


PERFECT = dict.fromkeys((40.0, 80.0, 120.0, 160.0, 200.0), 0.0)
ALL_376, ALL_7500 = ["00", "0.5", "1", "2"], ["0.5", "1", "2", "3"]


def _changed(
    change_pct: float, direction: Direction, run: int, *, load: float = 200.0
) -> list[CalibrationPoint]:
    """A perfect rig but for one reading."""
    return [
        CalibrationPoint(p.force_n, p.counts + change_pct * load, p.direction, p.run)
        if (p.force_n, p.direction, p.run) == (load, direction, run)
        else p
        for p in _clean(PERFECT)
    ]


def test_a_perfect_rig_reaches_each_class() -> None:
    assert _reached(_clean(PERFECT)) == (ALL_376, ALL_7500)


def test_the_masses_limit_the_class() -> None:
    """ISO 376 table: U ≤ 0.01, 0.02, 0.05, 0.1 %; a third of q for ISO 7500-1."""
    assert _reached(_clean(PERFECT), applied_pct=0.05) == (["1", "2"], ALL_7500)
    assert _reached(_clean(PERFECT), applied_pct=0.4) == ([], ["2", "3"])
    gym_plates = force_figures(_clean(PERFECT), LINE)
    for found in (
        *iso_376_ranges(gym_plates, applied_pct=2.3),
        *iso_7500_ranges(gym_plates, applied_pct=2.3, resolution_n=0.1),
    ):
        assert found.from_n is None
        assert "known forces are uncertain by 2.3 %" in found.words


def test_spread_limits_the_class() -> None:
    # A third run that is 0.15 % high: b = 0.15 %, mean error 0.05 %.
    assert _reached(_changed(0.15, Direction.UP, 3)) == (["1", "2"], ALL_7500)
    # A second run that is 0.15 % high: b′ as well, of which class 1 allows 0.1 %.
    assert _reached(_changed(0.15, Direction.UP, 2)) == (["2"], ALL_7500)
    assert _reached(_changed(0.8, Direction.UP, 2)) == ([], ["1", "2", "3"])


def test_reversibility_limits_the_class() -> None:
    """v: 0.07, 0.15, 0.3, 0.5 % and 0.75, 1.5, 3, 4.5 %."""
    assert _reached(_changed(0.2, Direction.DOWN, 1)) == (["1", "2"], ALL_7500)
    assert _reached(_changed(-1.0, Direction.DOWN, 1)) == ([], ["1", "2", "3"])


def test_return_to_zero_limits_the_class() -> None:
    """f_0 of the largest force: 0.012 … 0.1 % and 0.05 … 0.3 %."""
    moved = [
        CalibrationPoint(0.0, p.counts + 0.0006 * 100 * 200, p.direction, p.run)
        if p.force_n == 0 and p.direction is Direction.DOWN and p.run == 2
        else p
        for p in _clean(PERFECT)
    ]
    # Off by 0.06 % of 200 N. The fit's own largest force is what it refers to.
    fit = fit_points(_clean(PERFECT), degree=1)
    figures = force_figures(moved, fit)
    assert figures.zero_pct == pytest.approx(0.06)
    names = [
        found.name
        for found in (
            *iso_376_ranges(figures, applied_pct=0.001),
            *iso_7500_ranges(figures, applied_pct=0.001, resolution_n=1e-3),
        )
        if found.from_n is not None
    ]
    assert names == ["2", "1", "2", "3"]


def test_each_run_is_judged_net_of_its_own_zero() -> None:
    """A zero that walks from run to run is taken away in use, and here."""
    walking = [
        CalibrationPoint(p.force_n, p.counts + 3000 * p.run, p.direction, p.run)
        for p in _clean(PERFECT)
    ]
    assert _reached(walking) == (ALL_376, ALL_7500)


def test_resolution_limits_the_range() -> None:
    """a = 100·r/F ≤ 0.25, 0.5, 1, 1.5 %."""
    ranges = iso_7500_ranges(
        force_figures(_clean(PERFECT), LINE), applied_pct=0.01, resolution_n=0.3
    )
    assert [found.from_n for found in ranges] == [120, 80, 40, 40]


def test_two_runs_or_no_return_are_not_judged() -> None:
    two = [p for p in _clean(PERFECT) if p.run < 3]
    rising_only = [p for p in _clean(PERFECT) if p.direction is Direction.UP]
    assert _reached(two) == ([], [])
    assert _reached(rising_only) == ([], [])
    words = iso_376_ranges(force_figures(rising_only, LINE), applied_pct=0)[0].words
    assert "neither falling readings nor creep" in words
    words = iso_7500_ranges(force_figures(two, LINE), applied_pct=0, resolution_n=0)[
        0
    ].words
    assert "fewer than 3 rising runs" in words


def test_creep_stands_in_for_reversibility() -> None:
    """ISO 376 asks for one of the two; c: 0.025, 0.05, 0.1, 0.2 %."""
    up_and_empty = [
        p for p in _clean(PERFECT) if p.direction is Direction.UP or p.force_n == 0
    ]
    figures = force_figures(up_and_empty, LINE)
    ranges = iso_376_ranges(figures, applied_pct=0.001, creep_pct=0.08)
    assert [found.from_n for found in ranges] == [None, None, 40, 40]
    assert "creep is 0.08 %" in ranges[0].words


def test_a_sound_cell_is_judged_as_it_was_made() -> None:
    """4295 counts/N, noise of 20 counts: 0.005 N, far inside class 0.5 from 40 N."""
    points = cell(loop=500.0)
    fit = fit_points(points, degree=1)
    ranges = iso_7500_ranges(
        force_figures(points, fit), applied_pct=0.02, resolution_n=0.05
    )
    assert [found.from_n for found in ranges] == [40, 40, 40, 40]


def test_lower_limit_of_pontius() -> None:
    """ASTM E74-18, 2.4·s and 400 or 2000 times it, on the NIST data."""
    limit = lower_limit(fit_points(PONTIUS, degree=2), zero=0.0)
    assert limit.factor_counts == pytest.approx(4.92425818e-4, rel=2e-9)
    assert limit.factor_n == pytest.approx(676.549, abs=6e-4)
    assert limit.class_a_from_n == pytest.approx(270619.6, abs=0.06)
    assert limit.class_aa_from_n == pytest.approx(1353098.0, abs=0.06)


def test_lower_limit_takes_deflections_net_of_zero() -> None:
    """2.4·s over 4295 counts/N, whatever the counts of the empty rig."""
    fit = fit_points(cell(), degree=1)
    limit = lower_limit(fit, zero=84_213.0)
    assert limit.factor_n == pytest.approx(
        2.4 * fit.residual_sd_counts / 4295, rel=1e-3
    )


def test_lower_limit_is_not_below_resolution_or_lowest_load() -> None:
    fit = fit_points(cell(noise=0.5), degree=1)
    limit = lower_limit(fit, zero=84_213.0)
    assert limit.class_a_from_n == 40
    coarse = lower_limit(fit, zero=84_213.0, resolution_n=0.2)
    assert coarse.factor_n == 0.2
    assert coarse.class_a_from_n == 80
    assert coarse.class_aa_from_n is None
