"""What is kept for measuring is the same however it was cut, and is let go of."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.conditioning.block import Block
from biofeedback.measures.trace import PIECE_BLOCKS, PIECE_SAMPLES, Trace, TraceStore

RATE_HZ = 100.0


def block(first: int, count: int) -> Block:
    """Samples whose force is their own number; every hundredth follows a gap."""
    index = np.arange(first, first + count)
    force_n = np.column_stack((index, -index)).astype(float)
    return Block(
        first_index=first,
        lost=0,
        time_s=index / RATE_HZ,
        counts=force_n.astype(np.int32),
        force_n=force_n,
        shown_n=force_n + 0.5,
        good=index % 7 != 0,
        saturated=np.column_stack((index % 7 == 0, np.zeros(count, bool))),
        gap=first % 100 == 0,
    )


@given(
    st.lists(st.integers(1, 5), min_size=1, max_size=3 * PIECE_BLOCKS),
)
def test_a_store_gives_back_all_it_took(sizes: list[int]) -> None:
    store, blocks, first = TraceStore(), [], 0
    for size in sizes:
        blocks.append(block(first, size))
        store.push(blocks[-1])
        first += size
    kept, plain = store.trace(), Trace.of(blocks)
    for part in fields(Trace):
        np.testing.assert_array_equal(
            getattr(kept, part.name), getattr(plain, part.name)
        )
    np.testing.assert_array_equal(kept.joined, plain.joined)


@given(
    st.lists(st.integers(PIECE_SAMPLES, 5000), min_size=1, max_size=5),
    st.data(),
)
def test_of_a_time_it_gives_one_sample_more_at_each_end(
    sizes: list[int], data: st.DataObject
) -> None:
    store, ends = TraceStore(), np.cumsum(sizes).tolist()
    for size, end in zip(sizes, ends, strict=True):
        store.push(block(end - size, size))
    count = ends[-1]
    # Wherever a piece ends, and beside it.
    edges = st.builds(int.__add__, st.sampled_from([0, *ends]), st.integers(-2, 2))
    start, until = sorted(min(max(0, data.draw(edges)), count - 1) for _ in "12")
    kept = store.trace(from_s=(start - 0.5) / RATE_HZ, to_s=(until + 0.5) / RATE_HZ)
    expected = np.arange(max(0, start - 1), min(count, until + 2))
    np.testing.assert_array_equal(kept.force_n[:, 0], expected)
    np.testing.assert_array_equal(kept.time_s, expected / RATE_HZ)
    np.testing.assert_array_equal(kept.good, expected % 7 != 0)


def test_a_store_lets_go_of_what_is_old_and_keeps_what_is_needed() -> None:
    store = TraceStore()
    for first in range(20 * PIECE_BLOCKS):
        store.push(block(first, 1))
        store.forget(before_s=(first - 300) / RATE_HZ)
    kept_s = store.trace().time_s
    last = 20 * PIECE_BLOCKS - 1
    assert kept_s[-1] == last / RATE_HZ
    assert kept_s[0] <= (last - 300) / RATE_HZ
    assert len(kept_s) <= 300 + 2 * PIECE_BLOCKS


def test_long_blocks_are_let_go_of_too() -> None:
    """As a replay hands them on: some seconds each."""
    store = TraceStore()
    for first in range(0, 400_000, 4000):
        store.push(block(first, 4000))
        store.forget(before_s=(first - 300) / RATE_HZ)
    assert len(store.trace().time_s) <= 3 * 4000
