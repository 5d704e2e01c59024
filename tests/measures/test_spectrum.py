"""Shares of power against a known mixture and another program's periodogram."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import signal

from biofeedback.measures.spectrum import spectrum

T = np.arange(3000) / 100
KNOWN = (
    204
    + 0.2 * (T - 14.995)
    + 3 * np.sin(2 * np.pi * 2 * T)
    + np.sin(2 * np.pi * 10 * T)
)


def test_a_signal_with_known_waves() -> None:
    """Values worked out from the formula with another program, six digits."""
    found = spectrum(T, KNOWN)
    assert found is not None
    assert found.power_n2 == pytest.approx(4.999141, abs=5e-7)
    powers = (
        found.power_n2 * found.share_0_4_pct / 100,
        found.power_n2 * found.share_4_8_pct / 100,
        found.power_n2 * found.share_8_12_pct / 100,
    )
    assert powers == pytest.approx((4.499241, 0.000002, 0.499897), abs=5e-7)
    assert found.share_0_4_pct == pytest.approx(90.0003, abs=5e-5)
    assert found.share_8_12_pct == pytest.approx(9.9996, abs=5e-5)


@pytest.mark.parametrize(("rate_hz", "n"), [(50.0, 251), (80.0, 640), (1000.0, 6001)])
def test_noise_is_shared_as_scipy_shares_it(rate_hz: float, n: int) -> None:
    force_n = 100 + np.random.default_rng(5).normal(size=n).cumsum()
    time_s = 40 + np.arange(n) / rate_hz
    found = spectrum(time_s, force_n)
    assert found is not None
    hz, power = signal.periodogram(signal.detrend(force_n), rate_hz, detrend=False)
    for low, share in (
        (0, found.share_0_4_pct),
        (4, found.share_4_8_pct),
        (8, found.share_8_12_pct),
    ):
        band = (hz >= low) & (hz < low + 4)
        assert share == pytest.approx(100 * power[band].sum() / power.sum(), rel=1e-6)
    left_n = signal.detrend(force_n)
    assert found.power_n2 == pytest.approx(float(np.var(left_n)), rel=1e-9)  # Parseval


def test_too_slow_too_short_and_broken_signals_have_no_spectrum() -> None:
    assert spectrum(T[::2], KNOWN[::2]) is not None  # 50 Hz
    assert spectrum(T[::3], KNOWN[::3]) is None  # 33 Hz
    assert spectrum(T[:500], KNOWN[:500]) is not None  # 5 s
    assert spectrum(T[:498], KNOWN[:498]) is None
    lost = np.delete(np.arange(3000), 1500)
    assert spectrum(T[lost], KNOWN[lost]) is None
    assert spectrum(T, np.full(3000, 204.0)) is None
    assert spectrum(T[:1], KNOWN[:1]) is None


@pytest.mark.parametrize("begins_s", [0.0, 0.1, 40.0, 1234.567, 86_400.3])
@pytest.mark.parametrize("rate_hz", [80.0, 320.0, 1000.0])
def test_a_wave_on_an_edge_is_of_the_band_above_whenever_it_was(
    begins_s: float, rate_hz: float
) -> None:
    at_s = np.arange(round(8 * rate_hz)) / rate_hz
    for edge_hz, name in ((4, "share_4_8_pct"), (8, "share_8_12_pct")):
        force_n = 100 + np.cos(2 * np.pi * edge_hz * at_s)
        found = spectrum(begins_s + at_s, force_n)
        assert getattr(found, name) == pytest.approx(100, abs=0.1)
