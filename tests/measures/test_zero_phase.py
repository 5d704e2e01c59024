"""Two passes: −3 dB where it is said, no delay, and nothing across a gap."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.measures.zero_phase import zero_phase

T = np.arange(8000) / 1000


@pytest.mark.parametrize("rate_hz", [80, 1000])  # near the cut-off, and far from it
@pytest.mark.parametrize("cutoff_hz", [5.0, 10.0, 30.0])
def test_a_wave_at_the_cut_off_is_3_db_lower_and_not_late(
    cutoff_hz: float, rate_hz: int
) -> None:
    time_s = np.arange(8 * rate_hz) / rate_hz
    wave = np.sin(2 * np.pi * cutoff_hz * time_s)
    middle = slice(2 * rate_hz, 6 * rate_hz)
    smooth = zero_phase(time_s, wave, cutoff_hz=cutoff_hz)[middle]
    # Least squares on sine and cosine: amplitude and phase of what is left.
    of = np.column_stack((wave, np.cos(2 * np.pi * cutoff_hz * time_s)))[middle]
    in_phase, late = np.linalg.lstsq(of, smooth, rcond=None)[0]
    assert in_phase == pytest.approx(np.sqrt(0.5), rel=2e-3)
    assert late == pytest.approx(0.0, abs=1e-6)


def test_a_constant_passes_and_columns_are_apart() -> None:
    both = np.column_stack((np.full(8000, 100.0), np.sin(2 * np.pi * 3 * T)))
    smooth = zero_phase(T, both)
    assert smooth[:, 0] == pytest.approx(100.0)
    assert smooth[:, 1] == pytest.approx(zero_phase(T, both[:, 1]))


def test_a_gap_ends_a_stretch() -> None:
    force_n = np.where(T < 4, 100.0, 200.0)
    force_n[4000] = np.nan
    smooth = zero_phase(T, force_n)
    assert smooth[:4000] == pytest.approx(100.0)
    assert np.isnan(smooth[4000])
    assert smooth[4001:] == pytest.approx(200.0)


def test_what_the_rate_does_not_allow_stays_as_it_was() -> None:
    slow = T[::100]
    assert zero_phase(slow, np.arange(80.0), cutoff_hz=10.0).tolist() == list(range(80))
