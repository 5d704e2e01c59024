"""Front, rule and the check on recordings that were not used for choosing."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from biofeedback.conditioning.profile import FilterChoice
from biofeedback.tuning.bench import Done, scores
from biofeedback.tuning.candidates import candidates, name_of
from biofeedback.tuning.choice import Rule, Score, best, front, recommend, score
from biofeedback.tuning.trial_run import Figures


def scored(age_s: float, noise_n: float, cutoff_hz: float = 10.0) -> Score:
    return Score(
        choice=FilterChoice(cutoff_hz=cutoff_hz),
        delay_s=age_s,
        lag_ramp_s=None,
        lag_hold_s=None,
        age_s=age_s,
        noise_n=noise_n,
        noise_pct=None,
        error_n=noise_n,
        overshoot_n=1.0,
        spikes_passed=0,
        spikes=0,
        false_exits_per_min=0.0,
        missed_exits_per_min=0.0,
        inside_change_s=0.0,
        completed_change=0,
        recordings=1,
    )


def test_the_front_is_what_nothing_beats() -> None:
    draw = np.random.default_rng(8)
    for _ in range(100):
        all_of = [scored(*pair) for pair in draw.integers(1, 9, (12, 2)).tolist()]
        pairs = {(each.age_s, each.noise_n) for each in all_of}
        unbeaten = {
            (age, noise)
            for age, noise in pairs
            if not any(
                a <= age and n <= noise and (a, n) != (age, noise) for a, n in pairs
            )
        }
        found = front(all_of)
        assert [(each.age_s, each.noise_n) for each in found] == sorted(unbeaten)


def test_the_least_noise_under_the_limit_is_recommended_and_checked() -> None:
    here = [scored(0.03, 0.5, 20), scored(0.05, 0.2, 8), scored(0.06, 0.1, 6)]
    there = {each.choice: each for each in here}
    found = recommend(here, there, Rule())
    assert found.chosen is here[1]  # 60 ms is not under 60 ms
    assert "under 60 ms" in found.reason
    assert "Of 3 candidates 2 comply" in found.reason
    assert "the best again" in found.reason
    there[here[0].choice] = replace(here[0], noise_n=0.01)
    assert "the best there is Butterworth order 2, 20 Hz" in (
        recommend(here, there, Rule()).reason
    )
    there[here[1].choice] = replace(here[1], age_s=0.07)
    assert "does not comply: 70 ms" in recommend(here, there, Rule()).reason
    assert "Not cross-checked" in recommend(here, {}, Rule()).reason


def test_where_nothing_complies_the_youngest_is_told() -> None:
    found = recommend([scored(0.08, 1.0), scored(0.07, 2.0, 12)], {}, Rule())
    assert found.chosen is None
    assert "youngest is Butterworth order 2, 12 Hz, 70 ms" in found.reason
    assert best([scored(0.03, 1.0)], Rule(overshoot_most_n=0.5)) is None


def test_figures_are_added_up_by_their_weight() -> None:
    one = Figures(
        delay_s=0.02,
        lag_ramp_s=0.03,
        lag_hold_s=None,
        noise_n2=4.0 * 100,
        error_n2=9.0 * 100,
        noise_share2=0.01 * 100,
        noise_samples=100,
        overshoots_n=(1.0, 2.0),
        spikes_passed=1,
        spikes=2,
        false_exits=3,
        missed_exits=1,
        inside_s=0.5,
        completed=-1,
        hold_s=20.0,
    )
    two = replace(
        one, noise_n2=0.0, noise_samples=300, overshoots_n=(6.0,), hold_s=40.0
    )
    found = score(FilterChoice(), [one, two], [100.0, 80.0])
    assert found.noise_n == pytest.approx(1.0)  # √(400/400)
    assert found.noise_pct == pytest.approx(100 * np.sqrt(2.0 / 400))
    assert found.error_n == pytest.approx(np.sqrt(1800 / 400))
    assert found.overshoot_n == pytest.approx(3.0)
    assert found.false_exits_per_min == pytest.approx(6.0)
    assert found.missed_exits_per_min == pytest.approx(2.0)
    assert found.age_s == pytest.approx(0.03 + 1 / 80 + 1 / 120)
    assert (found.spikes_passed, found.spikes, found.completed_change) == (2, 4, -2)
    open_band = replace(two, noise_share2=None)
    assert score(FilterChoice(), [one, open_band], [80.0, 80.0]).noise_pct is None


@pytest.mark.parametrize("rate_hz", [40.0, 80.0, 1000.0])
def test_candidates_have_names_of_their_own(rate_hz: float) -> None:
    grid = candidates(rate_hz=rate_hz, mains_hz=50.0)
    assert len(grid) >= 60
    assert len({name_of(choice) for choice in grid}) == len(grid)


def test_what_one_recording_does_not_allow_is_not_scored() -> None:
    figures = Figures(0.0, None, None, 1.0, 1.0, 1.0, 1, (), 0, 0, 0, 0, 0.0, 0, 1.0)
    slow, quick = FilterChoice(cutoff_hz=5.0), FilterChoice(cutoff_hz=50.0)
    both = Done(Path("a"), 80.0, ((slow, figures), (quick, figures)))
    one = Done(Path("b"), 80.0, ((slow, figures),), ((quick, "too high"),))
    assert set(scores([both, Done(Path("c"), why="cut off")])) == {slow, quick}
    assert set(scores([both, one])) == {slow}
