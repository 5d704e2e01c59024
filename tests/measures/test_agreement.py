"""Agreement, against Bland and Altman 1986, R and simulation.

The data are peak expiratory flows of 17 people on two meters, l/min. What the paper
prints is from memory; what stands beside it was found with R from the same data.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from measures.published import scores
from scipy import stats

from biofeedback.errors import FieldError
from biofeedback.measures.agreement import agreement, repeatability
from biofeedback.measures.trial_error import typical_error_of_trials

PEFR = "bland_altman_1986_pefr.csv"


def first_readings() -> tuple[list[float], list[float]]:
    large, _, mini, _ = scores(PEFR).T.tolist()
    return large, mini


def differences() -> list[float]:
    return [one - other for one, other in zip(*first_readings(), strict=True)]


def test_bias_and_limits_of_bland_and_altman_1986() -> None:
    """Printed: −2.1 and 38.8 l/min."""
    found = agreement(differences())
    assert found.people == 17
    assert found.bias == pytest.approx(-2.117647, abs=6e-7)
    assert found.sd == pytest.approx(38.765130, abs=6e-7)
    assert found.limits == pytest.approx((-78.097302, 73.862007), abs=6e-7)
    # With the paper's factor of 2: printed −79.7 and 75.5, from a rounded SD.
    two = (found.bias - 2 * found.sd, found.bias + 2 * found.sd)
    assert two == pytest.approx((-79.7, 75.5), abs=0.1)


def test_interval_of_the_bias() -> None:
    """Printed: −22.0 to 17.8 l/min."""
    found = agreement(differences())
    assert found.bias_interval == pytest.approx((-22.048838, 17.813544), abs=6e-7)
    independent = stats.ttest_rel(*first_readings()).confidence_interval(0.95)
    assert found.bias_interval == pytest.approx((independent.low, independent.high))


def test_approximate_intervals_of_the_limits() -> None:
    """Standard error printed: 16.3 l/min; of 1999: 16.395."""
    found = agreement(differences())
    lower, upper = found.simple_intervals
    assert lower == pytest.approx((-112.619136, -43.575467), abs=6e-7)
    assert upper == pytest.approx((39.340173, 108.383842), abs=6e-7)
    t = 2.119905
    assert (upper[1] - upper[0]) / (2 * t) == pytest.approx(16.284612, abs=6e-6)
    for limit, (low, high) in zip(found.limits, found.finer_intervals, strict=True):
        assert (low + high) / 2 == pytest.approx(limit)
        assert (high - low) / (2 * t) == pytest.approx(16.395108, abs=6e-6)


def test_exact_intervals_of_the_limits() -> None:
    """Found with a normal quantile of 1.959964 where 1.96 stands here."""
    lower, upper = agreement(differences()).exact_intervals
    assert upper == pytest.approx((48.859638, 119.925505), abs=3e-3)
    assert lower == pytest.approx((-124.160799, -53.094932), abs=3e-3)


@pytest.mark.parametrize("people", [3, 10, 200, 10_000])
def test_exact_intervals_against_another_routine(people: int) -> None:
    rng = np.random.default_rng(people)
    found = agreement(rng.normal(5, 10, people), level=0.9)
    _, upper = found.exact_intervals
    t = stats.nct.ppf([0.05, 0.95], people - 1, 1.96 * math.sqrt(people))
    expected = found.bias + found.sd * t / math.sqrt(people)
    assert upper == pytest.approx(tuple(np.atleast_1d(expected).tolist()))


def test_the_exact_interval_holds_the_true_limit_and_the_simple_one_less_often() -> (
    None
):
    rng = np.random.default_rng(5)
    exact = simple = 0
    for row in rng.normal(0, 1, (2000, 6)):
        found = agreement(row)
        _, (low, high) = found.exact_intervals
        exact += low <= 1.96 <= high
        _, (low, high) = found.simple_intervals
        simple += low <= 1.96 <= high
    # 2000 draws with a chance of 0.95 each: 1862 to 1936 in all but 1 of 5000.
    assert 1862 <= exact <= 1936
    assert simple < 1862


def test_swapping_the_two_turns_everything_round() -> None:
    one, other = agreement(differences()), agreement(-np.array(differences()))
    assert one.bias == -other.bias
    for name in ("simple_intervals", "finer_intervals", "exact_intervals"):
        (a, b), (c, d) = getattr(one, name)
        (e, f), (g, h) = getattr(other, name)
        assert (a, b, c, d) == pytest.approx((-h, -g, -f, -e))


@pytest.mark.parametrize("bad", [[], [1.0, 2.0], [1.0, 2.0, math.nan], [[1.0, 2, 3]]])
def test_too_little_is_refused(bad: object) -> None:
    with pytest.raises(FieldError, match="three numbers"):
        agreement(bad)  # type: ignore[arg-type]  # wrong on purpose


# ---------------------------------------------------------------- repeatability


@pytest.mark.parametrize(
    ("columns", "within_sd", "coefficient", "printed"),
    [
        (slice(0, 2), 15.306669, 42.427922, 43.2),
        (slice(2, 4), 19.910831, 55.190007, 56.4),
    ],
)
def test_repeatability_of_both_meters(
    columns: slice, within_sd: float, coefficient: float, printed: float
) -> None:
    readings = scores(PEFR)[:, columns]
    found = repeatability(readings)
    assert found is not None
    assert found.within_sd == pytest.approx(within_sd, abs=6e-7)
    # Found with a normal quantile of 1.959964 where 1.96 stands here.
    assert found.coefficient == pytest.approx(coefficient, abs=2e-3)
    assert found.degrees_of_freedom == 17
    # The paper took twice the root mean square of the differences.
    apart = readings[:, 0] - readings[:, 1]
    assert 2 * math.sqrt(np.mean(apart**2)) == pytest.approx(printed, abs=0.1)
    assert found.coefficient * 2 / 1.96 == pytest.approx(printed, abs=0.1)


def test_a_constant_between_readings_is_part_of_repeatability_alone() -> None:
    readings = scores(PEFR)[:, :2]
    moved = readings + np.array([0, 100])
    before, after = repeatability(readings), repeatability(moved)
    assert before is not None
    assert after is not None
    assert after.coefficient > 2 * before.coefficient
    errors = [typical_error_of_trials(each) for each in (readings, moved)]
    assert errors[0] is not None
    assert errors[1] is not None
    assert errors[0].sem == pytest.approx(errors[1].sem)


def test_readings_that_are_missing() -> None:
    found = repeatability(
        [[1.0, 3.0, math.nan], [5.0, math.nan, math.nan], [2.0, 2.0, 5.0]]
    )
    assert found is not None
    assert found.degrees_of_freedom == 3
    assert found.within_sd == pytest.approx(math.sqrt((2 + 6) / 3))
    assert repeatability([[1.0, math.nan], [2.0, math.nan]]) is None
