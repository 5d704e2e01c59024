"""Noise between neighbouring visits: by hand, and of drawn values with a slow rise."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.errors import FieldError
from biofeedback.measures.change import sd_interval
from biofeedback.measures.visit_noise import own_noise, successive_df, visit_noise


def test_five_visits_worked_out_by_hand() -> None:
    """Differences 2, −4, 6, −2: Σd² = 60, so √(60/8)."""
    found = visit_noise([10.0, 12.0, 8.0, 14.0, 12.0])
    assert found is not None
    assert found.typical_error == pytest.approx(np.sqrt(7.5))
    assert found.mdc95 == pytest.approx(1.96 * np.sqrt(15))
    assert found.visits == 5


def test_a_slow_rise_is_not_taken_for_noise() -> None:
    """SD 3 about a rise of 40 over 400 visits; a plain SD would be near 12."""
    noise = np.random.default_rng(5).normal(0, 3, 400)
    values = noise + np.linspace(0, 40, 400)
    found = visit_noise(list(values))
    assert found is not None
    assert found.typical_error == pytest.approx(3.0, rel=0.1)
    assert np.std(values) > 10


def test_nothing_is_told_of_few_visits_or_of_equal_values() -> None:
    assert visit_noise([1.0, 2.0, 3.0, 2.0]) is None
    assert visit_noise([100.0] * 9) is None


@pytest.mark.parametrize("visits", [5, 8, 20])
def test_the_interval_holds_the_true_error_as_often_as_it_says(visits: int) -> None:
    """Drawn 20,000 times: mean and variance of Σd², and the cover of the interval.

    The scaled chi-square errs a little on the wide side of few visits. With n − 1
    degrees of freedom the interval of 95 % would hold it in 89 to 92 %.
    """
    drawn = np.random.default_rng(visits).normal(0, 2.0, (20_000, visits))
    squares = np.sum(np.diff(drawn, axis=1) ** 2, axis=1)
    df = successive_df(visits)
    assert 2 * squares.mean() ** 2 / squares.var() == pytest.approx(df, rel=0.05)
    errors = np.sqrt(squares / (2 * (visits - 1)))

    def covered(df: float) -> float:
        lower, upper = sd_interval(1.0, df=df)
        return float(np.mean((errors * lower <= 2.0) & (errors * upper >= 2.0)))

    assert 0.945 < covered(df) < 0.965
    assert covered(visits - 1) < 0.93


def test_the_degrees_of_freedom_are_those_of_the_matrix_of_differences() -> None:
    for visits in (5, 6, 40):
        steps = np.diff(np.eye(visits), axis=0)
        form = steps.T @ steps
        by_matrix = np.trace(form) ** 2 / np.trace(form @ form)
        assert successive_df(visits) == pytest.approx(by_matrix)


def test_the_noise_of_an_athlete_follows_neighbours_from_five_visits_on() -> None:
    """A steady gain of 10 N a visit with ±2 N is no noise of 20 N."""
    forces_n = [300 + 10 * visit + (-1) ** visit * 2.0 for visit in range(12)]
    found = own_noise(forces_n)
    assert found is not None
    by_hand = np.sqrt(np.mean(np.diff(forces_n) ** 2) / 2)
    assert found.typical_error_n == pytest.approx(by_hand)
    assert found.degrees_of_freedom == pytest.approx(2 * 11**2 / 32)
    assert found.typical_error_interval_n == pytest.approx(
        sd_interval(by_hand, df=2 * 11**2 / 32)
    )
    few = own_noise(forces_n[:4])
    assert few is not None
    assert few.typical_error_n == pytest.approx(np.std(forces_n[:4], ddof=1))
    assert own_noise(forces_n[:2]) is None


def test_a_result_that_is_no_force_is_refused_in_words() -> None:
    with pytest.raises(FieldError, match="0 N is no result"):
        own_noise([0.0, 10.0, 20.0, 30.0, 40.0])
