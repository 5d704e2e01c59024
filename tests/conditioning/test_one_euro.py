"""One-euro against the authors' ground truth and a table computed apart."""

from __future__ import annotations

import numpy as np
from conditioning.examples import table

from biofeedback.conditioning.filters import design
from biofeedback.conditioning.profile import FilterChoice, FilterKind


def test_authors_ground_truth() -> None:
    """Casiez, Roussel & Vogel, CHI 2012: agreement to 1e-4 is what they ask for."""
    rows = table("one_euro_published.csv")
    choice = FilterChoice(
        FilterKind.ONE_EURO, cutoff_min_hz=1.0, beta_per_n=0.1, cutoff_derivative_hz=1.0
    )
    smooth = design(choice, rate_hz=120.0, channels=1)
    shown = smooth.push(rows["noisy"][:, np.newaxis])[:, 0]
    assert len(rows) == 60
    np.testing.assert_allclose(shown, rows["filtered"], rtol=0, atol=1e-4)


def test_step_computed_apart() -> None:
    rows = table("one_euro_step.csv")
    choice = FilterChoice(
        FilterKind.ONE_EURO,
        cutoff_min_hz=1.0,
        beta_per_n=0.02,
        cutoff_derivative_hz=1.0,
    )
    smooth = design(choice, rate_hz=80.0, channels=1)
    shown = smooth.push(rows["x"][:, np.newaxis])[:, 0]
    np.testing.assert_allclose(shown, rows["x_hat"], rtol=0, atol=1e-9)


def test_quick_change_is_followed_more_closely_than_at_rest() -> None:
    step = np.concatenate((np.zeros((5, 1)), np.full((8, 1), 100.0)))
    quick = design(
        FilterChoice(FilterKind.ONE_EURO, beta_per_n=0.02), rate_hz=80.0, channels=1
    )
    slow = design(
        FilterChoice(FilterKind.ONE_EURO, beta_per_n=0.0), rate_hz=80.0, channels=1
    )
    assert quick.push(step)[-1, 0] > 90.0
    assert slow.push(step)[-1, 0] < 50.0
