"""The bench on force of which the truth is known, and on real force beside scipy."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from scipy import signal

from biofeedback import cli
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.training.band import Band
from biofeedback.tuning import bench, material
from biofeedback.tuning.shown import Show, filtered, shown_force, spikes_in

if TYPE_CHECKING:
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.tuning.trial_run import Figures

RATE_HZ = 100.0
BAND = Band(80.0, 120.0)
NONE = FilterChoice(FilterKind.NONE)
QUICK = FilterChoice(cutoff_hz=6.0)
SLOW = FilterChoice(FilterKind.MOVING_AVERAGE, samples=100)
ONE_EUROS = tuple(
    FilterChoice(
        FilterKind.ONE_EURO, cutoff_min_hz=hz, beta_per_n=beta, despike=despike
    )
    for hz, beta in ((0.5, 0.01), (2.0, 0.05), (1.0, 0.0))
    for despike in (False, True)
)


def imported(
    folder: Path, force_n: npt.NDArray[np.float64], *, rate_hz: float = RATE_HZ
) -> Path:
    table, out = folder / "table.csv", folder / "table.force"
    np.savetxt(table, force_n, header="force_N", comments="", fmt="%.6f")
    words = ["import", str(table), "--rate", f"{rate_hz:g}", "--columns", "force_N"]
    assert cli.main([*words, "-o", str(out)]) == 0
    return out


def figures(
    path: Path, *choices: FilterChoice, band: Band = BAND, rate_hz: float = RATE_HZ
) -> list[Figures]:
    done = bench.measured(path, bench.Asked(choices, rate_hz, band))
    assert not done.why
    return [found for _, found in done.figures]


def held(at: Any, *, until_s: float) -> Any:
    """100 N from 3 s on, after a ramp of a second, and let go at `until_s`."""
    return np.interp(at, [2.0, 3.0, until_s, until_s + 1.0], [0.0, 100.0, 100.0, 0.0])


@pytest.mark.parametrize("wave_hz", [0.3, 1.0])
def test_lag_in_a_hold_is_the_phase_delay(tmp_path: Path, wave_hz: float) -> None:
    """Of a sine: −arg H(f) / 2πf, from scipy's response of scipy's own filter."""
    at = np.arange(0, 70, 1 / RATE_HZ)
    inside = (at > 3.0) & (at < 63.0)
    force_n = held(at, until_s=63.0)
    force_n += np.where(inside, 8 * np.sin(2 * np.pi * wave_hz * (at - 3.0)), 0.0)
    path = imported(tmp_path, force_n)
    for order, cutoff_hz in ((1, 4.0), (2, 6.0), (4, 10.0)):
        choice = FilterChoice(order=order, cutoff_hz=cutoff_hz)
        (found,) = figures(path, choice)
        b, a = signal.butter(order, cutoff_hz, fs=RATE_HZ)
        _, response = signal.freqz(b, a, worN=[wave_hz], fs=RATE_HZ)
        expected_s = -np.angle(response[0]) / (2 * np.pi * wave_hz)
        assert found.lag_hold_s == pytest.approx(expected_s, abs=0.2 / RATE_HZ)


def test_exits_at_known_times_are_missed_by_what_is_slow(tmp_path: Path) -> None:
    """Eight dips to 70 N of 0.3 s: a mean of one second falls to 91 N and no lower."""
    at = np.arange(0, 40, 1 / RATE_HZ)
    force_n = held(at, until_s=33.0)
    for dip in range(8):
        begun_s = 6.0 + 3 * dip
        force_n[(at >= begun_s) & (at < begun_s + 0.3)] = 70.0
    none, quick, slow = figures(imported(tmp_path, force_n), NONE, QUICK, SLOW)
    assert (none.false_exits, none.missed_exits) == (0, 0)
    assert (quick.false_exits, quick.missed_exits) == (0, 0)
    assert (slow.false_exits, slow.missed_exits) == (0, 8)
    # Time in the band: what is missed eight times is the dip, less the way through.
    assert slow.inside_s == pytest.approx(8 * 0.3, abs=0.5)
    assert abs(none.inside_s) < 0.3


def test_short_bursts_are_false_exits_of_what_is_quick(tmp_path: Path) -> None:
    """Ten bursts of 25 N for 30 ms: the reference, 8 Hz twice, keeps under a half."""
    at = np.arange(0, 40, 1 / RATE_HZ)
    force_n = held(at, until_s=33.0)
    for burst in range(10):
        first = round((6.0 + 2 * burst) * RATE_HZ)
        force_n[first : first + 3] += 25.0
    none, quick = figures(imported(tmp_path, force_n), NONE, QUICK)
    assert (none.false_exits, none.missed_exits) == (10, 0)
    assert (quick.false_exits, quick.missed_exits) == (0, 0)


def test_candidates_stepped_together_are_each_the_live_one(tmp_path: Path) -> None:
    at = np.arange(0, 90, 1 / RATE_HZ)
    draw = np.random.default_rng(6)
    force_n = held(at, until_s=80.0) + draw.normal(0, 2, len(at))
    found = material.read(imported(tmp_path, force_n), BAND)
    half = len(at) // 2
    found = replace(found, runs=(slice(0, half), slice(half, len(at))))
    beside = replace(found, calibrated_n=found.calibrated_n * 0.5)
    show = Show(found, [beside], (*ONE_EUROS, QUICK))
    for choice in (*ONE_EUROS, QUICK, SLOW):
        shown = show.through(choice)
        (effort_n,) = shown.efforts_n
        assert shown.force_n == pytest.approx(shown_force(found, choice), abs=1e-9)
        assert effort_n == pytest.approx(shown_force(beside, choice)[:, 0], abs=1e-9)
    # What nobody said would be asked for is shown as well.
    odd = FilterChoice(FilterKind.ONE_EURO, cutoff_min_hz=3.0)
    assert show.through(odd).force_n == pytest.approx(shown_force(found, odd), abs=1e-9)


def test_repeated_stamps_and_gaps_of_a_real_cell(
    tmp_path: Path, real_force_data: Path
) -> None:
    """Each stretch begins afresh, and what scipy alone finds is found.

    The cell's table is in volts, taken for kilonewtons here.
    """
    (table,) = (real_force_data / "loadcell_noise_daq_150Hz").glob("*.csv")
    out = tmp_path / "noise.force"
    words = ["import", str(table), "--columns", "force_V", "--unit", "kN"]
    assert cli.main([*words, "-o", str(out)]) == 0
    band = Band(100.0, 230.0)
    found = material.read(out, band)
    rate_hz = found.rate_hz
    times_s = np.loadtxt(table, delimiter=",", skiprows=1, usecols=0)
    later = np.maximum.accumulate(times_s)
    kept = 1 + np.count_nonzero(times_s[1:] > later[:-1])
    assert len(found.time_s) == kept < len(times_s) - 10_000
    assert len(found.runs) > 100

    shown_n = shown_force(found, QUICK)
    sections = signal.butter(2, 6.0, fs=rate_hz, output="sos")
    once = signal.butter(2, 8.0, fs=rate_hz, output="sos")
    spikes = spikes_in(found, least_n=0.05 * 130.0)
    noise_n = np.full(len(found.time_s), np.nan)
    for run in found.runs:
        raw_n = found.calibrated_n[run, 0]
        assert shown_n[run.start, 0] == pytest.approx(raw_n[0], abs=1e-9)
        if spikes[run].any():
            clean_n = np.where(spikes[run, 0], signal.medfilt(raw_n, 3), raw_n)
        else:
            clean_n = raw_n
        pad = min(round(3 * rate_hz / 8.0), len(raw_n) - 1)
        true_n = signal.sosfiltfilt(once, clean_n, padlen=pad)
        at_rest = signal.sosfilt_zi(sections)
        both = [
            signal.sosfilt(sections, each_n, zi=at_rest * each_n[0])[0]
            for each_n in (raw_n, true_n)
        ]
        noise_n[run] = both[0] - both[1]
    (quick,) = figures(out, QUICK, band=band, rate_hz=rate_hz)
    # The one hold begins half a second after the start and lasts to the end or near.
    rms_n = np.sqrt(quick.noise_n2 / quick.noise_samples)
    used_n = noise_n[-quick.noise_samples :]
    assert rms_n == pytest.approx(np.sqrt(np.mean(used_n**2)), rel=0.001)
    assert quick.hold_s == pytest.approx(quick.noise_samples / rate_hz)


def test_a_candidate_of_the_bench_is_scipys() -> None:
    """Run by transfer function, not by sections."""
    force_n = np.random.default_rng(1).normal(100, 5, (500, 1))
    b, a = signal.butter(2, 6.0, fs=RATE_HZ)
    theirs, _ = signal.lfilter(
        b, a, force_n[:, 0], zi=signal.lfilter_zi(b, a) * force_n[0, 0]
    )
    ours = filtered(force_n, QUICK, rate_hz=RATE_HZ)[:, 0]
    assert ours == pytest.approx(theirs, abs=1e-9)
