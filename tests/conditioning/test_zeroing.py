"""Taking zero, and the refusals."""

from __future__ import annotations

import dataclasses
import itertools
from typing import TYPE_CHECKING

import numpy as np
import pytest
from conditioning.examples import RATE_HZ, frame, part, rig
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.conditioning.profile import RigProfile, Side, Zero, ZeroKind
from biofeedback.conditioning.zeroing import ZeroLimits, ZeroRefused, ZeroTaker

if TYPE_CHECKING:
    from biofeedback.wire.frames import Samples

BOTH = (Side.LEFT, Side.RIGHT)
STAMP = "2026-03-01T09:30:00Z"
COUNTS_PER_N = 1000.0


def bench(*sides: Side) -> RigProfile:
    """Cells rated 1000 N, 1000 counts a newton."""
    return rig(*sides, coefficients=(0.0, 1 / COUNTS_PER_N))


def pull(
    *means_n: float, sd_n: float = 0.01, n: int = 100, cell: int = -1
) -> np.ndarray:
    """Counts of a steady pull with noise, more of it on one cell where it says so."""
    noise = 0.01 * np.random.default_rng(4).standard_normal((n, len(means_n)))
    noise[:, cell] *= sd_n / 0.01
    return np.rint((noise + means_n) * COUNTS_PER_N).astype(int)


def take(
    profile: RigProfile,
    *frames: Samples,
    kind: ZeroKind = ZeroKind.EMPTY_RIG,
    last: Zero | None = None,
    limits: ZeroLimits | None = None,
) -> Zero | ZeroRefused | None:
    """Runs frames through a pipeline into a taker, until it has an answer."""
    pipeline = Pipeline(profile)
    taker = ZeroTaker(
        kind, profile, rate_hz=RATE_HZ, taken_utc=STAMP, last=last, limits=limits
    )
    for samples in frames:
        for block in pipeline.push(samples):
            answer = taker.push(block)
            if answer is not None:
                return answer
    return None


def refusal(answer: Zero | ZeroRefused | None) -> str:
    assert isinstance(answer, ZeroRefused)
    return answer.message


def empty_rig(*offsets_n: float) -> Zero:
    return Zero(ZeroKind.EMPTY_RIG, offsets_n, (0.0,) * len(offsets_n))


@given(cuts=st.lists(st.integers(1, 99), max_size=6))
def test_zero_is_mean_and_spread_of_one_second_whatever_the_cut(
    cuts: list[int],
) -> None:
    counts = pull(12.0, -3.0)
    whole = frame(counts)
    edges = [0, *sorted(set(cuts)), 100]
    pieces = [part(whole, a, b) for a, b in itertools.pairwise(edges)]
    zero = take(bench(*BOTH), *pieces)
    assert isinstance(zero, Zero)
    second_n = counts[:80] / COUNTS_PER_N
    np.testing.assert_allclose(zero.offsets_n, second_n.mean(axis=0), rtol=1e-12)
    np.testing.assert_allclose(zero.spreads_n, second_n.std(axis=0, ddof=1))
    assert (zero.kind, zero.taken_utc) == (ZeroKind.EMPTY_RIG, STAMP)


def test_new_zero_stands_for_itself_and_is_not_added_to_the_old_one() -> None:
    profile = bench(*BOTH).with_zero(empty_rig(10.0, 10.0))
    zero = take(profile, frame(pull(12.0, 9.0)))
    assert isinstance(zero, Zero)
    np.testing.assert_allclose(zero.offsets_n, [12.0, 9.0], atol=0.01)


def test_force_is_zero_once_it_is_set() -> None:
    profile = bench(*BOTH)
    zero = take(profile, frame(pull(12.0, -3.0)))
    assert isinstance(zero, Zero)
    [block] = Pipeline(profile.with_zero(zero)).push(frame(pull(12.0, -3.0)))
    np.testing.assert_allclose(block.force_n[:80].mean(axis=0), 0.0, atol=1e-9)


def test_waits_for_the_whole_second() -> None:
    assert take(bench(*BOTH), frame(pull(1.0, 1.0, n=79))) is None
    assert isinstance(take(bench(*BOTH), frame(pull(1.0, 1.0, n=80))), Zero)


def test_share_done_grows_to_one() -> None:
    pipeline = Pipeline(bench())
    taker = ZeroTaker(ZeroKind.EMPTY_RIG, bench(), rate_hz=RATE_HZ)
    assert taker.share_done == 0.0
    [block] = pipeline.push(frame(pull(1.0, n=20)))
    taker.push(block)
    assert taker.share_done == 0.25


def test_slow_board_takes_eight_samples_all_the_same() -> None:
    profile = rig(coefficients=(0.0, 1 / COUNTS_PER_N), rate_hz=4.0)
    taker = ZeroTaker(ZeroKind.EMPTY_RIG, profile, rate_hz=4.0)
    pipeline = Pipeline(profile)
    [seven] = pipeline.push(frame(pull(1.0, n=7)))
    assert taker.push(seven) is None
    [eighth] = pipeline.push(frame(pull(1.0, n=1), sequence=7))
    assert isinstance(taker.push(eighth), Zero)


# Refusals.


@pytest.mark.parametrize(
    ("sides", "cell", "words"),
    [
        (BOTH, 0, "on the left cell:"),
        (BOTH, 1, "on the right cell:"),
        ((Side.SINGLE,), 0, "on the cell:"),
        ((Side.LEFT, Side.LEFT), 1, "on the left cell “cell 1”:"),
    ],
)
def test_moving_cell_is_named(sides: tuple[Side, ...], cell: int, words: str) -> None:
    moving = frame(pull(*[0.0] * len(sides), sd_n=2.0, cell=cell))
    message = refusal(take(bench(*sides), moving))
    assert message.startswith(f"Something is moving {words}")
    assert "and 1.00 N is allowed" in message  # 0.1 % of 1000 N


def test_pulled_cell_is_named() -> None:
    profile = bench(*BOTH).with_zero(empty_rig(5.0, 5.0))
    message = refusal(take(profile, frame(pull(5.0, 40.0))))
    assert message.startswith("Something is pulling on the right cell:")
    assert "35.0 N above the last zero, and 20.0 N is allowed" in message
    message = refusal(take(profile, frame(pull(-40.0, 5.0))))
    assert message.startswith("Something is pulling on the left cell:")
    assert "45.0 N below the last zero" in message


def test_limb_may_weigh_what_a_leg_weighs_but_not_pull() -> None:
    profile = bench().with_zero(empty_rig(5.0))
    resting = ZeroKind.LIMB_RESTING
    assert isinstance(take(profile, frame(pull(155.0)), kind=resting), Zero)
    assert "pulling" in refusal(take(profile, frame(pull(355.0)), kind=resting))


def test_first_zero_takes_up_the_offset_of_the_bridge() -> None:
    assert isinstance(take(bench(), frame(pull(150.0))), Zero)
    assert "pulling" in refusal(take(bench(), frame(pull(350.0))))


def test_empty_rig_is_compared_with_the_last_empty_rig_where_that_is_known() -> None:
    """With a limb's zero in force, an empty rig is far from it, and rightly so."""
    limb = Zero(ZeroKind.LIMB_RESTING, (120.0,), (0.0,))
    profile = bench().with_zero(limb)
    assert isinstance(take(profile, frame(pull(6.0)), last=empty_rig(5.0)), Zero)
    still_pulled = take(profile, frame(pull(60.0)), last=empty_rig(5.0))
    assert "55.0 N above" in refusal(still_pulled)


def test_limits_can_be_set() -> None:
    profile = bench().with_zero(empty_rig(0.0))
    samples = frame(pull(30.0, sd_n=2.0))
    assert isinstance(take(profile, samples), ZeroRefused)
    wide = ZeroLimits(spread_pct=0.5, return_pct=5.0)
    assert isinstance(take(profile, samples, limits=wide), Zero)


def test_limits_follow_the_rated_load() -> None:
    profile = bench()
    small = dataclasses.replace(profile.channels[0], rated_n=100.0)
    profile = dataclasses.replace(profile, channels=(small,))
    samples = frame(pull(0.0, sd_n=0.5))
    assert isinstance(take(bench(), samples), Zero)
    assert "0.10 N is allowed" in refusal(take(profile, samples))


def test_gap_refuses() -> None:
    whole = frame(pull(1.0))
    message = refusal(take(bench(), part(whole, 0, 30), part(whole, 35, 100)))
    assert "lost" in message


def test_pause_without_loss_refuses() -> None:
    whole = frame(pull(1.0))
    rest = part(whole, 30, 100)
    late = dataclasses.replace(rest, time_us=rest.time_us + 1_000_000)
    assert "late" in refusal(take(bench(), part(whole, 0, 30), late))


def test_gap_before_the_first_sample_does_not_matter() -> None:
    whole = frame(pull(1.0, n=140))
    pipeline = Pipeline(bench())
    pipeline.push(part(whole, 0, 30))
    taker = ZeroTaker(ZeroKind.EMPTY_RIG, bench(), rate_hz=RATE_HZ)
    [block] = pipeline.push(part(whole, 35, 140))
    assert block.lost == 5
    assert isinstance(taker.push(block), Zero)


def test_cell_at_its_stop_is_named() -> None:
    counts = pull(1.0, 1.0)
    counts[50, 1] = 2**23 - 1
    message = refusal(take(bench(*BOTH), frame(counts)))
    assert message.startswith("The right cell is at its stop.")


def test_settling_refuses() -> None:
    settling = np.arange(100) < 4
    message = refusal(take(bench(), frame(pull(1.0), settling=settling)))
    assert "settling" in message


def test_what_comes_after_the_second_is_not_judged() -> None:
    counts = pull(1.0)
    counts[85] = 2**23 - 1
    assert isinstance(take(bench(), frame(counts)), Zero)


def test_too_few_samples() -> None:
    pipeline = Pipeline(bench())
    taker = ZeroTaker(ZeroKind.EMPTY_RIG, bench(), rate_hz=RATE_HZ)
    [block] = pipeline.push(frame(pull(1.0, n=12)))
    assert taker.push(block) is None
    assert "Only 12 of 80 samples came" in taker.finish().message
