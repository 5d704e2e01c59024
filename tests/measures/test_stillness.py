"""Stuck channels: told when chance cannot explain them, and only then."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from biofeedback.measures.stillness import (
    CHANCE,
    LEAST_S,
    Stillness,
    Stuck,
    run_allowed,
)

RATE_HZ = 80.0


def noise(
    seed: int, *, seconds: float, sigma: float = 40.0, channels: int = 2
) -> np.ndarray[tuple[int, int], np.dtype[np.int32]]:
    random = np.random.default_rng(seed)
    values = random.normal(0, sigma, (round(seconds * RATE_HZ), channels))
    return np.rint(values).astype(np.int32)


def pushed(
    counts: np.ndarray[tuple[int, int], np.dtype[np.int32]], *cuts: int
) -> list[Stuck]:
    still = Stillness(counts.shape[1])
    time_s = np.arange(len(counts)) / RATE_HZ
    edges = [0, *sorted(cut for cut in cuts if 0 < cut < len(counts)), len(counts)]
    for start, end in pairwise(edges):
        still.push(time_s[start:end], counts[start:end], after_gap=False)
    return still.found


def test_a_channel_that_freezes_is_told_after_half_a_second_and_its_end_known() -> None:
    counts = noise(1, seconds=10)
    counts[400:600, 1] = counts[399, 1]
    (stuck,) = pushed(counts)
    assert stuck.channel == 1
    assert stuck.since_s == pytest.approx(399 / RATE_HZ)
    assert stuck.time_s == pytest.approx(399 / RATE_HZ + 0.5, abs=1 / RATE_HZ)
    assert stuck.until_s == 600 / RATE_HZ


def test_frozen_from_the_start_is_judged_by_the_other_channel() -> None:
    counts = noise(2, seconds=2)
    counts[:, 0] = 77
    (stuck,) = pushed(counts)
    assert (stuck.channel, stuck.until_s) == (0, math.inf)
    assert pushed(counts[:, :1]) == []  # alone, nothing is known of its noise


@given(
    seed=st.integers(0, 10_000), sigma=st.sampled_from([0.0, 0.1, 0.5, 1.0, 3.0, 40.0])
)
def test_noise_alone_is_never_stuck(seed: int, sigma: float) -> None:
    assert pushed(noise(seed, seconds=60, sigma=sigma)) == []


def test_samples_sent_several_times_over_are_not_stuck() -> None:
    assert pushed(np.repeat(noise(3, seconds=10), 8, axis=0)) == []


def test_a_force_that_moves_does_not_pass_for_noise() -> None:
    """Noise of 2 counts on a swing of 5000: 1 s of silence is not chance."""
    counts = noise(4, seconds=20, sigma=2.0, channels=1)
    swing = 5000 * np.sin(2 * np.pi * np.arange(len(counts)) / RATE_HZ / 4)
    counts[:, 0] += swing.astype(np.int32)
    counts[1000:1080] = counts[999]
    (stuck,) = pushed(counts)
    assert stuck.since_s == pytest.approx(999 / RATE_HZ)


@given(
    seed=st.integers(0, 100),
    frozen=st.integers(100, 400),
    length=st.integers(20, 120),
    cuts=st.sets(st.integers(1, 799)),
)
def test_how_the_stream_is_cut_does_not_matter(
    seed: int, frozen: int, length: int, cuts: set[int]
) -> None:
    counts = noise(seed, seconds=10)
    counts[frozen : frozen + length, 0] = counts[frozen - 1, 0]
    assert pushed(counts, *cuts) == pushed(counts)
    assert pushed(counts, *range(800)) == pushed(counts)


def test_a_gap_begins_a_new_run() -> None:
    still = Stillness(1)
    counts = noise(5, seconds=1, channels=1)
    still.push(np.arange(80) / RATE_HZ, counts, after_gap=False)
    for part in range(5):  # 0.4 s of one number, again and again after a gap
        same = np.full((32, 1), 5, np.int32)
        time_s = 10 * (part + 1) + np.arange(32) / RATE_HZ
        assert still.push(time_s, same, after_gap=True) == []


@pytest.mark.parametrize("sigma", [1.0, 2.0, 10.0, 40.0])
def test_allowed_run_is_what_chance_allows(sigma: float) -> None:
    """The likeliest code is the one in the middle; scipy has its probability."""
    often = stats.norm.cdf(0.5 / sigma) - stats.norm.cdf(-0.5 / sigma)
    allowed = run_allowed(sigma)
    assert often ** (allowed - 1) <= CHANCE < often ** (allowed - 2)


def test_below_one_count_of_noise_nothing_is_said() -> None:
    assert math.isinf(run_allowed(0.99))
    assert math.isinf(run_allowed(math.inf))
    assert run_allowed(1.0) == 30
    assert run_allowed(40.0) == 7


@pytest.mark.parametrize("at_once", [1, 7, 10_000])
def test_one_sample_fewer_than_chance_allows_is_not_told(at_once: int) -> None:
    rate_hz = 30.0
    learned = noise(6, seconds=20, sigma=2.0, channels=1)
    still = Stillness(1)
    time_s = np.arange(2000) / rate_hz
    still.push(time_s[: len(learned)], learned, after_gap=False)
    allowed = int(run_allowed(float(still.noise[0])))
    assert allowed / rate_hz > LEAST_S
    for run, told in ((allowed - 1, 0), (allowed, 1)):
        tail = np.vstack([learned[:40], np.full((run, 1), 999), learned[:40]])
        fresh = Stillness(1)
        fresh.noise[:] = still.noise
        counts = tail.astype(np.int32)
        for start in range(0, len(counts), at_once):
            part = slice(start, start + at_once)
            fresh.push(time_s[: len(counts)][part], counts[part], after_gap=False)
        assert len(fresh.found) == told
