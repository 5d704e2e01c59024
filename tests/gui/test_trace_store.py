from __future__ import annotations

import math

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.gui.trace_store import (
    TraceStore,
    line_points,
    point_lists,
    values_at,
)


def _push(store: TraceStore, first: int, count: int, *, gap: bool = False) -> None:
    numbers = np.arange(first, first + count, dtype=np.float64)
    store.push(numbers / 10.0, numbers[:, None], after_gap=gap)


@given(st.lists(st.integers(1, 40), min_size=1, max_size=60))
def test_the_newest_samples_are_kept_whole_and_in_order(cuts: list[int]) -> None:
    store = TraceStore(lines=1, capacity=50)
    number = 0
    for count in cuts:
        _push(store, number, count)
        number += count
    times_s, forces_n = store.since(-1.0)
    kept = min(number, 50)
    # The samples carry their numbers: none may be lost, doubled or moved.
    assert forces_n[:, 0].tolist() == list(range(number - kept, number))
    assert np.array_equal(times_s, forces_n[:, 0] / 10.0)
    assert store.newest_s == (number - 1) / 10.0


def test_more_than_the_capacity_at_once() -> None:
    store = TraceStore(lines=1, capacity=16)
    _push(store, 0, 1000)
    assert store.since(-1.0)[1][:, 0].tolist() == list(range(984, 1000))


def test_a_gap_is_kept_as_a_break() -> None:
    store = TraceStore(lines=1, capacity=50)
    _push(store, 0, 3, gap=True)  # nothing before it: no gap to draw
    _push(store, 10, 3, gap=True)
    forces_n = store.since(-1.0)[1][:, 0]
    assert np.isnan(forces_n).tolist() == [False] * 3 + [True] + [False] * 3


def test_since_reaches_a_little_further_back() -> None:
    store = TraceStore(lines=1, capacity=100)
    _push(store, 0, 100)
    assert store.since(5.0, before=3)[1][0, 0] == 47


def test_lowest_and_highest_of_each_column_survive() -> None:
    times_s = np.arange(1000) / 1000.0
    force_n = np.sin(times_s * 40) * 50
    force_n[503] = 400.0  # one sample long
    x, y = line_points(times_s, force_n, columns_per_s=50.0, dense=True)
    assert len(x) == 100
    assert np.all(np.diff(x) > 0)
    assert y.max() == 400.0
    columns = np.floor(times_s * 50)
    for column in range(50):
        inside = force_n[columns == column]
        drawn = y[np.floor(x) == column]
        assert drawn.min() == inside.min()
        assert drawn.max() == inside.max()
        # In the order in which the force went through them.
        assert (drawn[0] < drawn[1]) == (inside[0] < inside[-1])


def test_a_break_within_a_column_is_not_drawn_over() -> None:
    times_s = np.arange(100) / 1000.0
    force_n = np.full(100, 7.0)
    force_n[25] = np.nan
    _, y = line_points(times_s, force_n, columns_per_s=50.0, dense=True)
    assert np.isnan(y).sum() == 1


def test_few_samples_are_drawn_as_they_are() -> None:
    times_s = np.array([0.0, 0.1, 0.2])
    force_n = np.array([1.0, np.nan, 3.0])
    x, y = line_points(times_s, force_n, columns_per_s=50.0, dense=False)
    assert x.tolist() == [0.0, 5.0, 10.0]
    assert np.array_equal(y, force_n, equal_nan=True)


# Few samples are gone through without arrays, and give the very same.

_FORCES = st.lists(
    st.one_of(st.floats(-10, 300), st.sampled_from([0.0, 1.0, math.nan])),
    min_size=1,
    max_size=200,
)


@given(
    _FORCES,
    st.floats(0.0005, 0.02) | st.just(0.005),  # which falls on edges of columns
    st.floats(0.0, 5.0) | st.just(0.0),
    st.floats(0.0, 1.0),
)
def test_few_samples_have_the_points_of_many(
    forces_n: list[float], step_s: float, first_s: float, flat_n: float
) -> None:
    times_s = np.array([first_s + step_s * i for i in range(len(forces_n))])
    by_arrays, by_lists = (
        point_lists(times, forces, columns_per_s=50.0, dense=True, flat_n=flat_n)
        for times, forces in (
            (times_s, np.array(forces_n)),
            (times_s.tolist(), forces_n),
        )
    )
    assert by_lists[0] == by_arrays[0]
    assert np.array_equal(by_lists[1], by_arrays[1], equal_nan=True)


@given(_FORCES, st.lists(st.floats(-1.0, 3.0), min_size=1, max_size=20))
def test_few_samples_have_the_values_of_many(
    forces_n: list[float], at_s: list[float]
) -> None:
    times_s = np.array([0.01 * i for i in range(len(forces_n))])
    at_s += times_s[:3].tolist()
    by_arrays = values_at(at_s, times_s, np.array(forces_n))
    by_lists = values_at(at_s, times_s.tolist(), forces_n)
    assert np.allclose(by_lists, by_arrays, rtol=1e-12, atol=1e-12, equal_nan=True)
