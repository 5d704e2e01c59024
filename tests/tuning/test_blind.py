"""Judging two filters blind: what is counted, and how likely that is by chance."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest
from scipy import stats

from biofeedback.tuning.blind import BlindTrial, Count, Judgement

FIXED = 20_261_126


def trial(seed: int = FIXED) -> BlindTrial:
    return BlindTrial(Random(seed))  # noqa: S311  an order, no secret


@pytest.mark.parametrize(("a", "b"), [(a, b) for a in range(9) for b in range(9)])
def test_the_chance_is_that_of_the_exact_binomial_test(a: int, b: int) -> None:
    known = stats.binomtest(a, a + b, 0.5).pvalue if a + b else 1.0
    assert Count(a, b, same=3).chance == pytest.approx(known, rel=1e-12)


def test_an_eye_that_always_sees_a_is_found_out() -> None:
    series = trial()
    for _ in range(10):
        series.judge(Judgement.X if series.x_is_a else Judgement.Y)
    count = series.reveal()
    assert count == Count(a=10)
    assert count.chance == pytest.approx(2 / 2**10)
    assert "A (slow) better in 10" in count.words("slow", "fast")
    assert "0.2 %" in count.words("slow", "fast")


def test_an_eye_that_always_says_x_learns_nothing() -> None:
    """The order is one of chance: each side gets about half of the judgements."""
    series = trial()
    for _ in range(1000):
        series.judge(Judgement.X)
    count = series.reveal()
    assert count.plays == 1000
    # Five standard deviations of a fair coin.
    assert abs(count.a - 500) < 5 * (1000 * 0.25) ** 0.5


def test_orders_do_not_follow_one_another() -> None:
    series, pairs, before = trial(), Counter[tuple[bool, bool]](), None
    for _ in range(2000):
        if before is not None:
            pairs[before, series.x_is_a] += 1
        before = series.x_is_a
        series.judge(Judgement.SAME)
    assert stats.chisquare([*pairs.values()]).pvalue > 1e-4
    assert len(pairs) == 4


def test_no_difference_is_counted_beside() -> None:
    series = trial()
    series.judge(Judgement.SAME)
    count = series.reveal()
    assert (count.plays, count.same, count.chance) == (1, 1, 1.0)
    assert "told no difference" in count.words("slow", "fast")
