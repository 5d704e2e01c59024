"""One recording under the loupe: forces, residuals, and noise by frequency."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.session.replay import OtherRules, replay
from biofeedback.tuning import bench
from biofeedback.tuning.choice import score
from biofeedback.tuning.look import look_at, mains_lines, spectrum_of

RECORDINGS = Path(__file__).parents[2] / "recordings"
ALL = sorted(RECORDINGS.glob("*.force"))
SLOW = FilterChoice(FilterKind.MOVING_AVERAGE, samples=8)
USUAL = FilterChoice()


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
@pytest.mark.parametrize("choice", [USUAL, SLOW], ids=["usual", "slow"])
def test_what_is_drawn_is_what_the_rules_of_the_live_run_judge(
    path: Path, choice: FilterChoice
) -> None:
    look = look_at(path, [choice])
    known = replay(path, OtherRules(filter=choice), keep_blocks=True)
    shown_n = np.concatenate([block.shown_n for block in known.blocks])
    effort_n = (
        shown_n.sum(axis=1) if known.prescription.band_on.name == "TOTAL" else None
    )
    seen = look.seen[choice]
    assert np.array_equal(
        look.time_s, np.concatenate([block.time_s for block in known.blocks])
    )
    if effort_n is not None:
        assert seen.shown_n == pytest.approx(effort_n, abs=1e-9, nan_ok=True)
    assert seen.residual_n == pytest.approx(
        seen.shown_n - look.reference_n, abs=1e-12, nan_ok=True
    )


def test_the_area_under_the_spectrum_is_the_noise_of_the_table() -> None:
    """Parseval, by the figure that the bench reports of the same recording."""
    path = RECORDINGS / "one-side-v1.0.force"
    look = look_at(path, [USUAL])
    done = bench.measured(path, bench.Asked((USUAL,), look.rate_hz))
    told = score(USUAL, [done.figures[0][1]], [done.rate_hz])
    noise = look.seen[USUAL].noise
    assert noise is not None
    step_hz = noise.at_hz[1] - noise.at_hz[0]
    rms_n = float(np.sqrt(np.sum(noise.density_n**2) * step_hz))
    # Segments and window leave the slowest noise out and weigh the rest anew.
    assert rms_n == pytest.approx(told.noise_n, rel=0.15)


def test_a_sine_is_found_at_its_frequency_with_its_power() -> None:
    rate_hz, amplitude_n = 1000.0, 0.7
    time_s = np.arange(20_000) / rate_hz
    noise_n = amplitude_n * np.sin(2 * np.pi * 50.0 * time_s)
    noise_n[10_000:10_100] = np.nan  # between the stretches
    spans = [slice(0, 10_000), slice(10_100, 20_000)]
    found = spectrum_of(noise_n, spans, rate_hz=rate_hz)
    assert found is not None
    assert found.at_hz[np.argmax(found.density_n)] == pytest.approx(50.0)
    power_n2 = float(np.sum(found.density_n**2) * (found.at_hz[1] - found.at_hz[0]))
    assert power_n2 == pytest.approx(amplitude_n**2 / 2, rel=1e-3)


def test_white_noise_has_the_same_density_everywhere() -> None:
    rate_hz, sigma_n = 500.0, 0.3
    noise_n = np.random.default_rng(4).normal(0, sigma_n, 200_000)
    found = spectrum_of(noise_n, [slice(0, 200_000)], rate_hz=rate_hz)
    assert found is not None
    level = sigma_n / np.sqrt(rate_hz / 2)
    inner = found.density_n[5:-5]
    assert inner.mean() == pytest.approx(level, rel=0.02)
    assert np.all(np.abs(inner / level - 1) < 0.35)


def test_a_hold_that_is_too_short_tells_no_spectrum() -> None:
    noise_n = np.zeros(1000)
    assert spectrum_of(noise_n, [slice(0, 199)], rate_hz=100.0) is None
    assert spectrum_of(noise_n, [], rate_hz=100.0) is None
    noise_n[50] = np.nan
    assert spectrum_of(noise_n, [slice(0, 300)], rate_hz=100.0) is None


@pytest.mark.parametrize("mains_hz", [50.0, 60.0])
@pytest.mark.parametrize("rate_hz", [80.0, 150.0, 320.0, 1000.0])
def test_mains_is_marked_where_sampling_folds_it_to(
    mains_hz: float, rate_hz: float
) -> None:
    """By sampling a sine and looking where it is found."""
    for true_hz, seen_hz in mains_lines(mains_hz, rate_hz=rate_hz):
        time_s = np.arange(4000) / rate_hz
        wave = np.cos(2 * np.pi * true_hz * time_s + 0.3)
        lines = np.abs(np.fft.rfft(wave * np.hanning(4000)))
        at_hz = np.fft.rfftfreq(4000, 1 / rate_hz)[np.argmax(lines)]
        assert seen_hz == pytest.approx(at_hz, abs=rate_hz / 4000)
