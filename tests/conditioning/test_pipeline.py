"""From frames of counts to blocks of newtons."""

from __future__ import annotations

import dataclasses
import math
from typing import TYPE_CHECKING

import numpy as np
import pytest
from conditioning.examples import (
    EACH_KIND,
    RATE_HZ,
    STEP_US,
    frame,
    joined,
    name_of,
    part,
    rig,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.conditioning.filter_facts import facts
from biofeedback.conditioning.filters import design
from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.conditioning.profile import (
    Calibration,
    FilterChoice,
    FilterKind,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.errors import FieldError, RigError
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Samples
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from biofeedback.conditioning.block import Block

BOTH = (Side.LEFT, Side.RIGHT)
ARRAYS = ("time_s", "counts", "force_n", "shown_n", "good", "saturated")
DESPIKED = FilterChoice(despike=True)
WITH_DESPIKING = [*EACH_KIND, DESPIKED, FilterChoice(FilterKind.ONE_EURO, despike=True)]


def signed_24(hexadecimal: str) -> int:
    return int.from_bytes(bytes.fromhex(hexadecimal), "big", signed=True)


def nominal() -> RigProfile:
    """1000 N at 2 mV/V, gain 128; zero at 84213 counts."""
    line = Calibration.from_rating(
        rated_n=1000.0, sensitivity_mv_per_v=2.0, gain=128.0, zero_counts=84213.0
    )
    return rig(coefficients=line.coefficients)


def only(blocks: list[Block]) -> Block:
    [block] = blocks
    return block


# Counts to newtons. Full scale ±0.5·AVDD/gain, two's complement: AVIA Semiconductor,
# HX711 data sheet.


def test_raw_codes_are_the_forces_they_stand_for() -> None:
    codes = ["0148F5", "07D6AE", "11AB43", "220D91", "42D22C"]
    counts = [signed_24(code) for code in codes]
    assert counts == [84213, 513710, 1157955, 2231697, 4379180]
    block = only(Pipeline(nominal()).push(frame(counts)))
    forces_n = [[0.0], [100.0], [250.0], [500.0], [1000.0]]
    np.testing.assert_allclose(block.force_n, forces_n, rtol=0, atol=2e-4)
    assert block.good.all()


@pytest.mark.parametrize("code", ["7FFFFF", "800000"])
def test_code_at_the_stop_is_overload_and_never_a_number(code: str) -> None:
    block = only(Pipeline(nominal()).push(frame([84213, signed_24(code), 84213])))
    assert block.saturated[:, 0].tolist() == [False, True, False]
    assert block.good.tolist() == [True, False, True]
    assert np.isnan(block.force_n[1])
    assert np.isnan(block.shown_n[1])


@pytest.mark.parametrize(
    ("code", "counts"), [("FFFFFF", -1), ("800001", -8388607), ("7FFFFE", 8388606)]
)
def test_other_codes_are_numbers(code: str, counts: int) -> None:
    block = only(Pipeline(rig()).push(frame([signed_24(code)])))
    assert block.force_n.tolist() == [[counts]]
    assert block.good.all()


def test_calibration_may_bend_and_differs_between_channels() -> None:
    profile = rig(*BOTH)
    curved = dataclasses.replace(
        profile.channels[1], calibration=Calibration((3.0, 0.5, 0.25))
    )
    profile = dataclasses.replace(profile, channels=(profile.channels[0], curved))
    block = only(Pipeline(profile).push(frame([[7, 4], [-7, -4]])))
    assert block.force_n.tolist() == [[7.0, 3 + 2 + 4], [-7.0, 3 - 2 + 4]]


def test_counts_stay_as_the_converter_gave_them() -> None:
    counts = [[5, -5], [900, -900], [6, -6]]
    block = only(Pipeline(rig(*BOTH, choice=DESPIKED)).push(frame(counts)))
    assert block.counts.dtype == np.int32
    assert block.counts.tolist() == counts
    assert block.force_n.max() <= 6.0


# How it is cut.


def stream() -> np.ndarray:
    """Two numbered channels: no sample can be lost, doubled or moved unseen."""
    index = np.arange(90)
    pull = np.rint(2000 * np.sin(index / 9.0) ** 2).astype(int)
    return np.stack((pull * 100 + index, 300_000 - 100 * pull + index), axis=1)


@pytest.mark.parametrize("choice", WITH_DESPIKING, ids=name_of)
@settings(max_examples=15)  # for each of twenty-odd filters
@given(
    cuts=st.lists(st.integers(1, 89), max_size=10),
    bad=st.sets(st.integers(0, 89), max_size=5),
    gap=st.integers(0, 80),
)
def test_blocks_do_not_depend_on_the_cuts(
    choice: FilterChoice, cuts: list[int], bad: set[int], gap: int
) -> None:
    counts = stream()
    counts[sorted(bad), 1] = 2**23 - 1
    head, tail = frame(counts[:gap]), frame(counts[gap:], sequence=gap + 7)
    pieces = [each for each in (head, tail) if len(each.counts)]
    whole_pipeline = Pipeline(rig(*BOTH, choice=choice))
    whole = [block for piece in pieces for block in whole_pipeline.push(piece)]
    cut_pipeline = Pipeline(rig(*BOTH, choice=choice))
    frames = []
    for piece in pieces:
        edges = [0, *sorted({c for c in cuts if c < len(piece.counts)})]
        for start, stop in zip(edges, [*edges[1:], len(piece.counts)], strict=True):
            frames.append(part(piece, start, stop))
    cut = [block for each in frames for block in cut_pipeline.push(each)]
    together = Pipeline(rig(*BOTH, choice=choice)).push_all(frames)
    for field in ARRAYS:
        assert joined(cut, field).tobytes() == joined(whole, field).tobytes(), field
        assert joined(together, field).tobytes() == joined(whole, field).tobytes()
    # In as few blocks as can be: a gap begins one, and so may nothing else.
    assert len(together) == len(pieces)
    for one, two in zip(together, whole, strict=True):
        assert (one.first_index, one.lost, one.gap) == (
            two.first_index, two.lost, two.gap,
        )  # fmt: skip
    numbered = [block.first_index + np.arange(len(block)) for block in cut]
    lost = 7 if gap else 0
    expected = np.arange(90) + np.where(np.arange(90) >= gap, lost, 0)
    np.testing.assert_array_equal(np.concatenate(numbered), expected)
    assert sum(block.lost for block in cut) == lost


@pytest.mark.parametrize("odd", ["", "lost", "again", "stop"])
@pytest.mark.parametrize("choice", [FilterChoice(), DESPIKED])
def test_frames_that_were_decoded_together_give_the_same(
    choice: FilterChoice, odd: str
) -> None:
    counts = np.tile(stream(), (4, 1))[:356]
    if odd == "stop":
        counts[100, 0] = 2**23 - 1
    cuts = range(0, len(counts), 4)
    frames = [frame(counts[at : at + 4], sequence=at) for at in cuts]
    if odd == "lost":
        del frames[40]
    elif odd == "again":
        frames.insert(40, frames[39])
    data = b"".join(encode(one) for one in frames)
    runs = [one for one in Decoder().push_runs(data) if isinstance(one, Samples | Run)]
    assert len(runs) < len(frames) / 2
    alone, together = (Pipeline(rig(*BOTH, choice=choice)) for _ in range(2))
    each = [block for one in frames for block in alone.push(one)]
    found = [block for one in runs for block in together.push(one)]
    assert len(found) <= 4
    for field in ARRAYS:
        assert joined(found, field).tobytes() == joined(each, field).tobytes(), field
    assert sum(one.lost for one in found) == sum(one.lost for one in each)
    assert sum(one.gap for one in found) == sum(one.gap for one in each)


def test_block_is_read_only_and_the_frame_stays_its_owners() -> None:
    samples = frame(stream())
    block = only(Pipeline(rig(*BOTH)).push(samples))
    assert not any(getattr(block, field).flags.writeable for field in ARRAYS)
    assert samples.counts.flags.writeable


# Gaps, stops and settling.


def primed(after: list[int], choice: FilterChoice) -> np.ndarray:
    """What a pipeline shows that starts with these counts."""
    return only(Pipeline(rig(choice=choice)).push(frame(after))).shown_n


@pytest.mark.parametrize("choice", WITH_DESPIKING, ids=name_of)
def test_gap_ends_the_block_and_primes_afresh(choice: FilterChoice) -> None:
    pipeline = Pipeline(rig(choice=choice))
    before = only(pipeline.push(frame([800] * 30)))
    after = only(pipeline.push(frame([100, 103, 101], sequence=42)))
    assert (before.first_index, before.lost) == (0, 0)
    assert (after.first_index, after.lost) == (42, 12)
    assert after.time_s[0] == pytest.approx(42 / RATE_HZ)
    np.testing.assert_array_equal(after.shown_n, primed([100, 103, 101], choice))


@pytest.mark.parametrize("choice", WITH_DESPIKING, ids=name_of)
@pytest.mark.parametrize("cut", [False, True])
def test_nothing_leaks_from_a_bad_sample(choice: FilterChoice, cut: bool) -> None:
    counts = [500] * 10 + [2**23 - 1] * 2 + [200, 204, 202]
    whole = frame(counts)
    pieces = [part(whole, i, i + 1) for i in range(15)] if cut else [whole]
    pipeline = Pipeline(rig(choice=choice))
    blocks = [block for piece in pieces for block in pipeline.push(piece)]
    good = joined(blocks, "good").astype(bool)
    assert good.tolist() == [True] * 10 + [False] * 2 + [True] * 3
    for field in ("force_n", "shown_n"):
        np.testing.assert_array_equal(np.isnan(joined(blocks, field)[:, 0]), ~good)
    np.testing.assert_array_equal(
        joined(blocks, "shown_n")[12:], primed([200, 204, 202], choice)
    )


def test_settling_samples_pass_as_time_without_force() -> None:
    settling = [True] * 4 + [False] * 2
    samples = frame([9, 9, 9, 9, 50, 50], settling=settling)
    block = only(Pipeline(rig(choice=FilterChoice())).push(samples))
    assert len(block) == 6
    assert block.good.tolist() == [False] * 4 + [True] * 2
    assert not block.saturated.any()
    np.testing.assert_allclose(block.shown_n[4:], 50.0, rtol=1e-12)


def test_one_channel_at_its_stop_makes_the_sample_not_good() -> None:
    samples = frame([[1, 2], [1, 2]], saturated=[[False, True], [False, False]])
    block = only(Pipeline(rig(*BOTH)).push(samples))
    assert block.saturated.tolist() == [[False, True], [False, False]]
    assert block.good.tolist() == [False, True]
    assert np.isnan(block.force_n[0]).all()
    assert block.force_n[1].tolist() == [1.0, 2.0]


def test_samples_that_came_before_are_left_out() -> None:
    pipeline = Pipeline(rig(choice=FilterChoice()))
    pipeline.push(frame([1, 2, 3, 4]))
    assert pipeline.push(frame([1, 2, 3, 4])) == []
    later = only(pipeline.push(frame([3, 4, 5, 6], sequence=2)))
    assert (later.first_index, later.lost) == (4, 0)
    assert later.counts[:, 0].tolist() == [5, 6]
    unbroken = only(
        Pipeline(rig(choice=FilterChoice())).push(frame([1, 2, 3, 4, 5, 6]))
    )
    np.testing.assert_array_equal(later.shown_n, unbroken.shown_n[4:])


def test_spike_is_not_seen_with_despiking() -> None:
    counts = [100] * 20 + [60_000] + [100] * 20
    with_it = only(Pipeline(rig(choice=DESPIKED)).push(frame(counts)))
    without = only(Pipeline(rig(choice=FilterChoice())).push(frame(counts)))
    np.testing.assert_allclose(with_it.shown_n, 100.0, rtol=1e-12)
    assert without.shown_n.max() > 5000.0


# Zero.


def zero(*offsets_n: float) -> Zero:
    return Zero(ZeroKind.EMPTY_RIG, offsets_n, (0.0,) * len(offsets_n))


@pytest.mark.parametrize("choice", WITH_DESPIKING, ids=name_of)
def test_new_zero_takes_effect_whole_at_the_next_sample(choice: FilterChoice) -> None:
    counts = stream()
    plain = only(Pipeline(rig(*BOTH, choice=choice)).push(frame(counts)))
    pipeline = Pipeline(rig(*BOTH, choice=choice))
    before = only(pipeline.push(part(frame(counts), 0, 40)))
    pipeline.set_zero(zero(1000.0, -250.0))
    after = only(pipeline.push(part(frame(counts), 40, 90)))
    np.testing.assert_array_equal(before.shown_n, plain.shown_n[:40])
    for field in ("force_n", "shown_n"):
        expected = getattr(plain, field)[40:] - [1000.0, -250.0]
        np.testing.assert_allclose(getattr(after, field), expected, rtol=0, atol=1e-8)
    assert pipeline.profile.zero == zero(1000.0, -250.0)


def test_zero_of_the_profile_is_in_force_from_the_start() -> None:
    profile = rig(*BOTH).with_zero(zero(10.0, 20.0))
    block = only(Pipeline(profile).push(frame([[10, 20], [15, 15]])))
    assert block.force_n.tolist() == [[0.0, 0.0], [5.0, -5.0]]


def test_zero_for_another_number_of_channels_is_refused_and_changes_nothing() -> None:
    pipeline = Pipeline(rig(*BOTH))
    with pytest.raises(FieldError, match="one value a channel"):
        pipeline.set_zero(zero(5.0))
    assert only(pipeline.push(frame([[1, 2]]))).force_n.tolist() == [[1.0, 2.0]]


# What fits and what does not.


def test_filter_and_facts_are_for_the_rate_in_force() -> None:
    choice = FilterChoice(cutoff_hz=5.0)
    pipeline = Pipeline(rig(choice=choice, rate_hz=80.0), rate_hz=320.0)
    assert pipeline.rate_hz == 320.0
    assert pipeline.facts == facts(choice, 320.0)
    block = only(pipeline.push(frame([0, *[1000] * 200])))
    direct = design(choice, rate_hz=320.0, channels=1).push(block.force_n)
    np.testing.assert_allclose(block.shown_n, direct, rtol=0, atol=1e-9)


def test_filter_too_quick_for_the_rate_is_refused_in_words() -> None:
    with pytest.raises(FieldError, match="10 Hz is too high for 10 samples a second"):
        Pipeline(rig(choice=FilterChoice(cutoff_hz=10.0)), rate_hz=10.0)


def test_channels_that_the_profile_does_not_describe_are_refused() -> None:
    pipeline = Pipeline(rig(*BOTH))
    with pytest.raises(RigError, match=r"sends 1 channel and .*“bench” describes 2"):
        pipeline.push(frame([1, 2, 3]))
    assert only(pipeline.push(frame([[1, 2]], sequence=5))).first_index == 0


def test_second_stream_is_refused() -> None:
    with pytest.raises(RigError, match=r"stream number 1\. .*understood: 1"):
        Pipeline(rig()).push(frame([1, 2], stream=1))


def test_time_is_the_devices() -> None:
    pipeline = Pipeline(rig())
    first = only(pipeline.push(frame([1, 2, 3], sequence=2**32 - 2)))
    second = only(
        pipeline.push(
            dataclasses.replace(
                frame([4], sequence=1),
                time_us=((2**32 - 2) * STEP_US + 3 * STEP_US) % 2**32,
            )
        )
    )
    assert first.time_s.tolist() == [0.0, 0.0125, 0.025]
    assert second.time_s.tolist() == [0.0375]
    assert second.first_index == 3
    assert math.isfinite(second.force_n[0, 0])


def test_a_board_that_starts_anew_leaves_a_gap_of_unknown_length() -> None:
    pipeline = Pipeline(rig(choice=FilterChoice()))
    for sequence in range(100, 112, 4):
        assert not only(pipeline.push(frame([1, 2, 3, 4], sequence=sequence))).restarted
    lost = only(pipeline.push(frame([5, 6], sequence=120)))
    assert (lost.lost, lost.restarted) == (8, False), "this length is known"
    anew = only(pipeline.push(frame([7, 8], sequence=0)))
    assert (anew.lost, anew.gap, anew.restarted) == (1, True, True)
    assert not only(pipeline.push(frame([9, 9], sequence=2))).restarted
