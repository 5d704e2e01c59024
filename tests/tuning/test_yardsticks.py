"""Signals of which the truth is known: lag, noise, exits, spikes, overshoot."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING

import numpy as np
import pytest
from conditioning.examples import EACH_KIND, name_of

from biofeedback.conditioning.filter_facts import facts
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.tuning import yardsticks
from biofeedback.tuning.shown import filtered

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

RATE_HZ = 80.0
LINEAR = [choice for choice in EACH_KIND if choice.kind is not FilterKind.ONE_EURO]


def shown(force_n: Floats, choice: FilterChoice) -> Floats:
    return filtered(force_n[:, np.newaxis], choice, rate_hz=RATE_HZ)[:, 0]


@pytest.mark.parametrize("choice", LINEAR, ids=name_of)
def test_the_lag_behind_a_ramp_is_the_delay_at_dc(choice: FilterChoice) -> None:
    noise_n = np.random.default_rng(4).normal(0.0, 0.2, 1200)
    ramp_n: Floats = np.arange(1200.0) * 0.5
    found = yardsticks.lag_samples(
        shown(ramp_n + noise_n, choice),
        ramp_n,
        [slice(400, 700), slice(800, 1100)],
        most=80,
    )
    # Closed form: group delay at DC, in samples.
    expected = facts(choice, RATE_HZ).delay_s * RATE_HZ
    assert found == pytest.approx(expected, abs=0.2)


@pytest.mark.parametrize("late", [0.0, 0.3, 1.0, 7.5, 31.25])
def test_a_known_shift_of_a_held_force_is_found(late: float) -> None:
    at = np.arange(4000.0)

    def held(at: Floats) -> Floats:
        slow_n = 3 * np.sin(2 * np.pi * at / 190) + 2 * np.sin(2 * np.pi * at / 77)
        return np.asarray(100 + slow_n)

    spans = [slice(300, 1500), slice(2000, 3500)]
    found = yardsticks.lag_samples(held(at - late), held(at), spans, most=60)
    assert found == pytest.approx(late, abs=0.05)


def test_a_stretch_without_change_tells_no_lag() -> None:
    even_n = np.full(500, 80.0)
    spans = [slice(100, 400)]
    assert yardsticks.lag_samples(even_n, even_n, spans, most=40) is None
    broken_n = np.where(np.arange(500) == 200, np.nan, np.arange(500.0))
    assert yardsticks.lag_samples(broken_n, broken_n, spans, most=40) is None


@pytest.mark.parametrize("choice", LINEAR, ids=name_of)
def test_noise_left_is_the_noise_gain(choice: FilterChoice) -> None:
    sigma_n, samples = 0.7, 400_000
    noise_n = np.random.default_rng(11).normal(0.0, sigma_n, samples)
    true_n = np.full(samples, 60.0)
    squares, number = yardsticks.squares_off(
        shown(true_n + noise_n, choice), shown(true_n, choice), [slice(1000, samples)]
    )
    expected_n = sigma_n * np.sqrt(facts(choice, RATE_HZ).noise_gain)
    assert number == samples - 1000
    assert np.sqrt(squares / number) == pytest.approx(expected_n, rel=0.02)


def test_exits_of_a_sine_are_where_arithmetic_says() -> None:
    """Above an edge at half its height from 30° to 150°, so it leaves at each 30°."""
    at = np.arange(1000)
    force_n = 50 + 10 * np.sin(2 * np.pi * at / 100)
    lower_n, upper_n = np.zeros(1000), np.full(1000, 55.0)
    found = yardsticks.exits(force_n, lower_n, upper_n, [slice(0, 1000)])
    crossing = np.arange(0, 1000, 100) + 100 / 12
    assert found.tolist() == np.ceil(crossing).astype(int).tolist()
    held = yardsticks.exits(force_n, lower_n, upper_n, [slice(100, 300)])
    assert held.tolist() == found[1:3].tolist()
    force_n[found] = np.nan  # the signal breaks just there
    assert not len(yardsticks.exits(force_n, lower_n, upper_n, [slice(0, 1000)]))


def most_pairs(
    shown_at: list[int], true_at: list[int], late: float, near: float
) -> int:
    """By trying everything."""
    if not shown_at or not true_at:
        return 0
    rest = most_pairs(shown_at[1:], true_at, late, near)
    for j, true in enumerate(true_at):
        if abs(shown_at[0] - late - true) <= near:
            left = true_at[:j] + true_at[j + 1 :]
            rest = max(rest, 1 + most_pairs(shown_at[1:], left, late, near))
    return rest


def test_exits_are_paired_as_well_as_can_be() -> None:
    draw = np.random.default_rng(2)
    for _ in range(200):
        shown_at, true_at = (
            np.sort(draw.choice(60, draw.integers(0, 6), replace=False))
            for _ in range(2)
        )
        pairs = most_pairs(shown_at.tolist(), true_at.tolist(), 3.0, 6.0)
        found = yardsticks.unmatched(shown_at, true_at, delay=3.0, within=6.0)
        assert found == (len(shown_at) - pairs, len(true_at) - pairs)


@pytest.mark.parametrize(
    ("choice", "seen"),
    [
        (FilterChoice(FilterKind.NONE), 2),
        (FilterChoice(FilterKind.MOVING_AVERAGE, samples=3), 2),  # a third of it
        (FilterChoice(FilterKind.MOVING_AVERAGE, samples=5), 0),  # a fifth
        (FilterChoice(cutoff_hz=20.0), 2),
        (FilterChoice(cutoff_hz=3.0), 0),
    ],
    ids=["none", "3", "5", "20 Hz", "3 Hz"],
)
def test_a_spike_is_passed_by_what_shows_a_quarter_of_it(
    choice: FilterChoice, seen: int
) -> None:
    true_n = np.full(600, 40.0)
    heights_n = np.zeros(600)
    heights_n[[200, 400]] = 30.0, -25.0
    found = yardsticks.spikes_passed(
        shown(true_n + heights_n, choice), true_n, heights_n, within=40
    )
    assert found == (seen, 2)


def test_overshoot_of_a_step_is_that_of_the_facts() -> None:
    step_n = np.where(np.arange(400) < 100, 0.0, 50.0)
    for order, cutoff_hz in product((2, 4, 8), (3.0, 6.0)):
        choice = replace(FilterChoice(), order=order, cutoff_hz=cutoff_hz)
        found = yardsticks.overshoot_n(shown(step_n, choice), step_n, [100], within=200)
        expected = facts(choice, RATE_HZ).overshoot_pct / 100 * 50.0
        assert found == pytest.approx([expected], abs=1e-6)
    choice = FilterChoice(FilterKind.MOVING_AVERAGE)
    found = yardsticks.overshoot_n(shown(step_n, choice), step_n, [100], within=200)
    assert found == pytest.approx([0.0], abs=1e-9)
