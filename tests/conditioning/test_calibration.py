"""A calibration put together: newtons for the profile, refusals and warnings."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

import numpy as np
import pytest
from conditioning.calibration_examples import PONTIUS, WORKED, cell
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.conditioning.calibration import calibrate, to_newtons
from biofeedback.conditioning.calibration_channels import check_loaded_channel
from biofeedback.conditioning.calibration_checks import check_extrapolation
from biofeedback.conditioning.calibration_findings import FindingKind, Severity
from biofeedback.conditioning.calibration_fit import fit_points
from biofeedback.conditioning.calibration_points import CalibrationPoint
from biofeedback.conditioning.profile import Calibration
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    import numpy.typing as npt


def _newtons(calibration: Calibration, counts: float) -> float:
    return float(np.polynomial.Polynomial(calibration.coefficients)(counts))


def _kinds(
    points: tuple[CalibrationPoint, ...], *, intended_n: float | None = None
) -> set[FindingKind]:
    outcome = calibrate(points, intended_n=intended_n)
    return {finding.kind for finding in outcome.findings}


def test_a_sound_cell_is_calibrated_without_a_word() -> None:
    outcome = calibrate(cell(), intended_n=200.0, label="7", date="2024-05-02")
    assert outcome.findings == ()
    assert not outcome.refused
    assert outcome.conversion is not None
    calibration = outcome.conversion.calibration
    assert (calibration.label, calibration.date) == ("7", "2024-05-02")
    assert _newtons(calibration, 84_213 + 4295 * 150) == pytest.approx(150, abs=0.01)
    assert outcome.conversion.largest_error_n == 0


def test_a_line_inverts_exactly() -> None:
    fit = fit_points(cell(), degree=1)
    calibration = to_newtons(fit).calibration
    for counts in (0.0, 84_213.0, 500_000.0, -1e6):
        exact = float(fit.force_n(counts))
        assert _newtons(calibration, counts) == pytest.approx(exact, abs=1e-9)


@settings(max_examples=40)
@given(
    bend=st.floats(-0.01, 0.01).filter(lambda bend: abs(bend) > 1e-6),
    per_n=st.sampled_from([4295.0, -4295.0, 40.0]),
    share=st.floats(0, 1),
)
def test_the_stored_polynomial_is_as_near_as_it_says(
    bend: float, per_n: float, share: float
) -> None:
    fit = fit_points(cell(bend=bend, per_n=per_n, noise=0.0), degree=2)
    conversion = to_newtons(fit)
    counts = float(fit.indication(share * 200.0))
    off_n = abs(_newtons(conversion.calibration, counts) - share * 200.0)
    assert off_n <= conversion.largest_error_n * 1.001 + 1e-9
    # Third term of the inverse series, spread over a Chebyshev node set: for a bend
    # b at mid scale the quadratic term is 4b of the span, and 2·(4b)²/32 is left.
    assert conversion.largest_error_n < 2.0 * 200 * 2 * (4 * bend) ** 2 / 32 + 1e-9


def test_the_stored_polynomial_of_the_nist_cell() -> None:
    """0.33 % of curvature: the polynomial is off by a hundred-thousandth."""
    outcome = calibrate(PONTIUS)
    assert outcome.conversion is not None
    assert len(outcome.conversion.calibration.coefficients) == 3
    assert outcome.conversion.largest_error_n / 3e6 < 1.2e-5
    assert _newtons(outcome.conversion.calibration, 1.0) == pytest.approx(
        1373231.90892, abs=outcome.conversion.largest_error_n
    )


def test_a_calibration_fits_into_a_profile() -> None:
    outcome = calibrate(cell(bend=0.003), label="3", date="2024-05-02")
    assert outcome.conversion is not None
    calibration = outcome.conversion.calibration
    assert Calibration.from_json(Fields(calibration.to_json())) == calibration


def test_too_few_loads_are_refused_with_words() -> None:
    outcome = calibrate(cell(loads_n=(0.0, 100.0)))
    assert outcome.refused
    assert outcome.chosen is None
    assert outcome.conversion is None
    (finding,) = outcome.findings
    assert finding.kind is FindingKind.TOO_FEW_LOADS
    assert "2 different loads are too few for a line; it needs 3" in str(finding)


def test_few_loads_and_a_missing_empty_rig_are_warned_of() -> None:
    assert _kinds(cell(loads_n=(0.0, 50.0, 100.0, 150.0))) == {FindingKind.FEW_LOADS}
    no_zero = tuple(p for p in cell() if p.force_n)
    assert _kinds(no_zero) == {FindingKind.EMPTY_RIG_MISSING}


@pytest.mark.parametrize(
    ("intended_n", "expected", "refused"),
    [
        (200.0, set(), False),
        (220.0, {FindingKind.EXTRAPOLATION}, False),
        (400.0, {FindingKind.EXTRAPOLATION, FindingKind.RANGE_NOT_COVERED}, False),
        (1200.0, {FindingKind.EXTRAPOLATION, FindingKind.RANGE_NOT_COVERED}, True),
    ],
)
def test_loads_should_reach_as_far_as_the_rig_is_used(
    intended_n: float, expected: set[FindingKind], refused: bool
) -> None:
    outcome = calibrate(cell(), degree=1, intended_n=intended_n)
    assert {finding.kind for finding in outcome.findings} == expected
    assert outcome.refused is refused
    assert (outcome.conversion is None) is refused


def test_loads_all_at_the_top_do_not_span_the_range() -> None:
    top = cell(loads_n=(150.0, 160.0, 170.0, 180.0, 200.0))
    kinds = _kinds(top, intended_n=200.0)
    assert FindingKind.RANGE_NOT_COVERED in kinds


def test_a_range_through_zero_counts_from_the_empty_rig() -> None:
    outcome = calibrate(cell(), through_zero=True, intended_n=200.0)
    assert outcome.findings == ()
    assert outcome.conversion is not None
    assert (outcome.conversion.from_n, outcome.conversion.to_n) == (0, 200)


def test_points_that_meet_a_line_exactly_are_no_fault() -> None:
    exact = tuple(CalibrationPoint(40.0 * i, 1000.0 * i) for i in range(6))
    assert calibrate(exact, degree=1).findings == ()


def test_a_curve_is_not_carried_far_beyond_its_points() -> None:
    curve = fit_points(cell(bend=0.003), degree=2)
    line = fit_points(cell(), degree=1)
    assert check_extrapolation(curve, force_n=200.0) == ()
    assert [f.severity for f in check_extrapolation(curve, force_n=240.0)] == [
        Severity.WARNING
    ]
    assert [f.severity for f in check_extrapolation(curve, force_n=260.0)] == [
        Severity.REFUSED
    ]
    assert [f.severity for f in check_extrapolation(line, force_n=260.0)] == [
        Severity.WARNING
    ]


def test_a_mass_typed_wrong_is_refused_and_named() -> None:
    points = tuple(
        dataclasses.replace(p, force_n=130.0) if p.force_n == 120 and p.run == 2 else p
        for p in cell()
    )
    outcome = calibrate(points)
    assert outcome.refused
    assert outcome.findings[0].kind is FindingKind.POOR_FIT
    assert "130 N" in outcome.findings[0].words
    assert "run 2" in outcome.findings[0].words
    assert outcome.chosen is not None


def test_the_limit_of_a_poor_fit_is_as_stated() -> None:
    """The worked example is 0.05 % off its line, of which 0.1 % is no fault."""
    assert not calibrate(WORKED, degree=1, residual_limit_pct=0.1).refused
    assert calibrate(WORKED, degree=1, residual_limit_pct=0.02).refused


def test_a_line_through_a_bent_cell_is_warned_of() -> None:
    bent = cell(bend=0.002)
    outcome = calibrate(bent, degree=1)
    (finding,) = outcome.findings
    assert finding.kind is FindingKind.LACK_OF_FIT
    assert finding.next_step == "Fit degree 2."
    assert calibrate(bent).findings == ()


def test_reversed_polarity_is_warned_of_and_the_sign_turned() -> None:
    outcome = calibrate(cell(per_n=-4295.0))
    assert [finding.kind for finding in outcome.findings] == [
        FindingKind.REVERSED_POLARITY
    ]
    assert outcome.conversion is not None
    found_n = _newtons(outcome.conversion.calibration, 84_213 - 4295 * 100)
    assert found_n == pytest.approx(100, abs=0.01)


def test_a_cell_that_only_makes_noise_is_refused() -> None:
    outcome = calibrate(cell(per_n=0.0, noise=50.0))
    assert [finding.kind for finding in outcome.findings] == [FindingKind.NO_ANSWER]
    assert outcome.refused


def test_a_curve_that_turns_back_is_refused() -> None:
    outcome = calibrate(cell(bend=0.4), residual_limit_pct=50)
    assert FindingKind.CURVE_TURNS_BACK in {f.kind for f in outcome.findings}
    assert outcome.refused


def test_an_inverse_that_no_polynomial_meets_is_warned_of() -> None:
    outcome = calibrate(cell(bend=0.05, noise=0.1))
    assert FindingKind.INVERSE_APPROXIMATE in {f.kind for f in outcome.findings}
    assert not outcome.refused


LOADS_N = np.array([0.0, 50.0, 100.0, 150.0, 200.0, 0.0])


def _two(
    left_per_n: float, right_per_n: float, noise: float = 30.0
) -> npt.NDArray[np.float64]:
    noises = np.random.default_rng(5)
    clean = np.outer(LOADS_N, (left_per_n, right_per_n)) + np.array([1000, -2000])
    counts: npt.NDArray[np.float64] = clean + noises.normal(0, noise, clean.shape)
    return counts


@pytest.mark.parametrize(
    ("left", "right", "kind", "severity"),
    [
        (4000.0, 0.0, None, None),
        (4000.0, 100.0, None, None),
        (-4000.0, 0.0, None, None),
        (0.0, 4000.0, FindingKind.SWAPPED_CHANNELS, Severity.REFUSED),
        (0.0, -4000.0, FindingKind.SWAPPED_CHANNELS, Severity.REFUSED),
        (100.0, 4000.0, FindingKind.SWAPPED_CHANNELS, Severity.REFUSED),
        (4000.0, 400.0, FindingKind.LOAD_SHARED, Severity.WARNING),
        (4000.0, 3900.0, FindingKind.LOAD_SHARED, Severity.REFUSED),
        (0.0, 0.0, FindingKind.NO_ANSWER, Severity.REFUSED),
    ],
)
def test_which_cell_answered(
    left: float, right: float, kind: FindingKind | None, severity: Severity | None
) -> None:
    """The left cell is loaded by the plan."""
    findings = check_loaded_channel(
        LOADS_N, _two(left, right), loaded=0, names=("left", "right")
    )
    if kind is None:
        assert findings == ()
        return
    (finding,) = findings
    assert finding.kind is kind
    assert finding.severity is severity
    assert "left" in finding.words


def test_both_plans_show_a_swap() -> None:
    for loaded, name in ((0, "left"), (1, "right")):
        other = (4000.0, 0.0) if loaded else (0.0, 4000.0)
        (finding,) = check_loaded_channel(
            LOADS_N, _two(*other), loaded=loaded, names=("left", "right")
        )
        assert finding.kind is FindingKind.SWAPPED_CHANNELS
        assert finding.words.startswith(f"The load should hang on the {name} cell")


def test_one_channel_has_nothing_to_be_swapped_with() -> None:
    counts = _two(4000.0, 0.0)[:, :1]
    assert check_loaded_channel(LOADS_N, counts, loaded=0, names=("single",)) == ()
    flat = np.full((6, 1), 7.0)
    (finding,) = check_loaded_channel(LOADS_N, flat, loaded=0, names=("single",))
    assert finding.kind is FindingKind.NO_ANSWER
    (early,) = check_loaded_channel(
        LOADS_N[:2], counts[:2], loaded=0, names=("single",)
    )
    assert early.kind is FindingKind.NO_ANSWER
