"""The median of three: a single spike goes, everything else stays."""

from __future__ import annotations

import csv
import os
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import signal

from biofeedback.conditioning.despike import Despike

counts = st.lists(st.integers(-(2**23), 2**23 - 1), min_size=1, max_size=40)


@given(values=counts, cuts=st.lists(st.integers(0, 40), max_size=8))
def test_is_scipys_median_one_sample_late_whatever_the_cut(
    values: list[int], cuts: list[int]
) -> None:
    column = np.array(values, np.int32)[:, np.newaxis]
    despike = Despike()
    parts = [despike.push(part) for part in np.split(column, sorted(cuts))]
    primed = np.concatenate((column[:1], column[:1], column))[:, 0]
    expected = signal.medfilt(primed.astype(float), 3)[1:-1]
    got = np.concatenate(parts)
    assert got.dtype == np.int32
    np.testing.assert_array_equal(got[:, 0], expected)


def test_single_spike_is_gone_and_a_step_is_whole_and_one_sample_late() -> None:
    force_n = np.array([5.0, 5, 900, 5, 5, 80, 80, 80])[:, np.newaxis]
    shown_n = Despike().push(force_n)[:, 0]
    assert shown_n.tolist() == [5, 5, 5, 5, 5, 5, 80, 80]


def test_channels_are_apart_and_reset_primes_afresh() -> None:
    despike = Despike()
    despike.push(np.array([[1, 10], [2, 20], [3, 30]], np.int32))
    despike.reset()
    shown = despike.push(np.array([[100, 7], [101, 999], [102, 7]], np.int32))
    assert shown.tolist() == [[100, 7], [100, 7], [101, 7]]


@pytest.mark.parametrize("trial", ["PL_0_01", "PL_100_01"])
def test_spikes_of_a_real_dynamometer_are_gone(trial: str) -> None:
    """Tecchio et al., J. Appl. Physiol. 2024, doi 10.1152/japplphysiol.00845.2023.

    Torque at 2000 Hz with spikes one sample long.
    """
    folder = os.environ.get("REAL_FORCE_DATA")
    if not folder:
        pytest.skip("REAL_FORCE_DATA does not say where the real recordings are")
    path = Path(folder) / "ankle_eccentric_torque" / f"{trial}.csv"
    with path.open(newline="", encoding="utf-8") as file:
        raw = np.array([float(row["force_Nm"]) for row in csv.DictReader(file)])
    clean = Despike().push(raw[:, np.newaxis])[:, 0]

    def spikes(torque_nm: np.ndarray) -> np.ndarray:
        there, back = np.diff(torque_nm)[:-1], np.diff(torque_nm)[1:]
        alone = (there * back < 0) & (np.minimum(abs(there), abs(back)) > 3.0)
        return np.flatnonzero(alone) + 1

    found = spikes(raw)
    assert len(found) >= 2
    assert len(spikes(clean)) == 0
    # One sample late, and elsewhere as it was to within the noise of 0.3 Nm rms.
    elsewhere = np.setdiff1d(np.arange(1, len(raw) - 1), found)
    off_nm = np.abs(clean[elsewhere + 1] - raw[elsewhere])
    assert np.mean(off_nm) < 0.3
    assert abs(clean[1:].sum() - np.delete(raw, found).sum()) < 0.01 * abs(raw).sum()
