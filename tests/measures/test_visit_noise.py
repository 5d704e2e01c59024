"""Noise between neighbouring visits: by hand, and of drawn values with a slow rise."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.measures.visit_noise import visit_noise


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
