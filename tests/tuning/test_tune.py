"""`biofeedback tune`, on demo recordings, on force of known noise, on real force."""

from __future__ import annotations

import json
import math
import os
import shutil
import signal as signal_numbers
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PySide6.QtGui import QImage
from scipy import signal

from biofeedback import cli
from biofeedback.conditioning.filter_facts import facts
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.training.band import Band
from biofeedback.tuning import bench
from biofeedback.tuning.shown import filtered

RECORDINGS = sorted(
    (Path(__file__).resolve().parents[2] / "recordings").glob("*.force")
)
FEW = (
    FilterChoice(FilterKind.NONE),
    FilterChoice(cutoff_hz=10.0),
    FilterChoice(cutoff_hz=50.0),
)


def imported(folder: Path, name: str, force_n: Any, rate_hz: float) -> Path:
    table, out = folder / f"{name}.csv", folder / f"{name}.force"
    np.savetxt(table, force_n, header="force_N", comments="", fmt="%.6f")
    words = ["import", str(table), "--rate", f"{rate_hz:g}", "--columns", "force_N"]
    assert cli.main([*words, "-o", str(out)]) == 0
    return out


def effort(rate_hz: float, *, hold_s: float, level_n: float = 100.0) -> Any:
    """Rest, a ramp of a second, a hold, and a ramp down."""
    at = np.arange(0, hold_s + 6, 1 / rate_hz)
    corners = [2.0, 3.0, 3.0 + hold_s, 4.0 + hold_s]
    return np.interp(at, corners, [0.0, level_n, level_n, 0.0])


def test_known_noise_and_lag_come_out(tmp_path: Path) -> None:
    """White noise of 1 N: what a filter F passes of it beyond what it shows of the
    reference R is the mean of |F·(1 − R)|² over all frequencies.
    """
    rate_hz = 100.0
    true_n = effort(rate_hz, hold_s=600.0)
    noisy_n = true_n + np.random.default_rng(3).normal(0.0, 1.0, len(true_n))
    path = imported(tmp_path, "known", noisy_n, rate_hz)
    choices = [
        FilterChoice(FilterKind.NONE),
        FilterChoice(cutoff_hz=20.0),
        FilterChoice(cutoff_hz=6.0),
        FilterChoice(FilterKind.EXPONENTIAL, time_constant_s=0.04),
        FilterChoice(FilterKind.MOVING_AVERAGE, samples=8),
    ]
    asked = bench.Asked(tuple(choices), rate_hz, Band(80.0, 120.0))
    done = bench.measured(path, asked)
    assert not done.why
    impulse = np.zeros((4096, 1))
    impulse[1] = 1.0
    turns = np.fft.rfftfreq(4096)
    b, a = signal.butter(2, 8.0, fs=rate_hz)
    _, once = signal.freqz(b, a, worN=2 * np.pi * turns)
    for choice, found in done.figures:
        response = np.fft.rfft(filtered(impulse, choice, rate_hz=rate_hz)[:, 0])
        power = np.abs(response * (1 - np.abs(once) ** 2)) ** 2
        expected_n = np.sqrt(np.trapezoid(power, turns) * 2)
        noise_n = np.sqrt(found.noise_n2 / found.noise_samples)
        assert noise_n == pytest.approx(expected_n, rel=0.02)
        delay_s = facts(choice, rate_hz).delay_s
        assert found.lag_ramp_s == pytest.approx(delay_s, abs=0.2 / rate_hz)
        assert found.hold_s == pytest.approx(600.0, abs=1.0)


def test_the_demo_recordings_give_a_recommendation(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert cli.main(["tune", *map(str, RECORDINGS), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert len(told["recordings"]) == len(RECORDINGS)
    chosen = told["chosen"]
    assert chosen["age_s"] < 0.060
    assert told["checked"]["recordings"] == 1
    by_name = {each["name"]: each for each in told["candidates"]}
    assert by_name["no filter"]["lag_ramp_s"] == pytest.approx(0.0, abs=0.2 / 80)
    assert by_name["no filter"]["on_front"]
    for each in told["candidates"]:
        choice = each["filter"]
        # What is slower has not settled when these short ramps end.
        if choice["kind"] != "one-euro" and each["delay_dc_s"] < 0.04:
            assert each["lag_ramp_s"] == pytest.approx(each["delay_dc_s"], abs=0.006)
    assert len(told["refused"]) == 16  # no notch of 50 Hz has room at 80 Hz
    assert all(each["filter"]["notch_hz"] == 50 for each in told["refused"])


def test_several_processes_find_the_same() -> None:
    asked = bench.Asked(FEW, 80.0)
    told: list[tuple[int, int]] = []
    alone = bench.sweep(RECORDINGS, asked, processes=1)
    together = bench.sweep(
        RECORDINGS, asked, processes=2, progress=lambda *at: told.append(at)
    )
    assert together == alone
    assert sorted(told) == told
    assert told[-1] == (3, 3)
    assert {total for _, total in told} == {3}
    assert [choice for choice, _ in alone[0].refused] == [FEW[2]]


def test_a_sweep_can_be_stopped() -> None:
    def stop(_done: int, _total: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        bench.sweep(RECORDINGS * 5, bench.Asked(FEW, 80.0), progress=stop, processes=2)


@pytest.mark.parametrize("processes", [1, 2])
def test_a_sweep_is_stopped_within_a_recording(processes: int) -> None:
    told: list[int] = []

    def stop(done: int, _total: int) -> None:
        told.append(done)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        bench.sweep(
            RECORDINGS, bench.Asked(FEW, 80.0), progress=stop, processes=processes
        )
    assert told == [0]  # nothing was done yet when it was told


def test_between_two_candidates_it_may_be_stopped() -> None:
    told: list[None] = []

    def between() -> None:
        told.append(None)
        if len(told) == 2:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        bench.measured(RECORDINGS[0], bench.Asked(FEW, 80.0), between)
    assert len(told) == 2


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals")
@pytest.mark.parametrize("after_s", [0.0, 0.1, 0.5])
def test_ctrl_c_ends_the_search_and_all_its_processes(
    tmp_path: Path, after_s: float
) -> None:
    """Whether they measure already or are being started; and none of it is told."""
    for at in range(40):
        shutil.copy(RECORDINGS[at % 3], tmp_path / f"{at}.force")
    ours, theirs = os.openpty()
    words = [sys.executable, "-m", "biofeedback", "tune", str(tmp_path)]
    with subprocess.Popen(  # noqa: S603  ourselves
        words, stdout=subprocess.PIPE, stderr=theirs, start_new_session=True
    ) as running:
        os.close(theirs)
        seen, begun_s = b"", None
        # The other processes have the same terminal: it ends when all of them have.
        while piece := _read_from(ours):
            seen += piece
            if begun_s is None and b"of 40 recordings" in seen:
                begun_s = time.monotonic()
            if begun_s is not None and time.monotonic() >= begun_s + after_s:
                # As a terminal does it: to all processes of the group.
                os.killpg(running.pid, signal_numbers.SIGINT)
                after_s = math.inf
        out = running.communicate()[0]
    os.close(ours)
    assert b"Traceback" not in seen, seen.decode()
    assert b"Error" not in seen, seen.decode()
    assert (running.returncode, out) == (130, b"")


def _read_from(terminal: int) -> bytes:
    try:
        return os.read(terminal, 1000)
    except OSError:  # so Linux tells that nobody has it open any more
        return b""


def test_what_cannot_be_used_is_named_and_the_rest_goes_on(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good = tmp_path / "a-good.force"
    shutil.copy(RECORDINGS[0], good)
    imported(tmp_path, "b-slow", effort(10.0, hold_s=5), 10.0)
    imported(tmp_path, "c-quick", effort(400.0, hold_s=5), 400.0)
    imported(tmp_path, "d-weak", effort(80.0, hold_s=5, level_n=3.0), 80.0)
    (tmp_path / "e-cut.force").write_bytes(good.read_bytes()[:100])
    (tmp_path / "f-other.force").write_bytes(b"nothing of ours")
    capsys.readouterr()
    band = ["--band", "60:140"]
    assert cli.main(["tune", str(tmp_path), *band, "--json"]) == 1
    out, err = capsys.readouterr()
    told = json.loads(out)
    assert told["recordings"] == [str(good)]
    why = {Path(each["recording"]).stem: each["why"] for each in told["left_out"]}
    assert sorted(why) == ["b-slow", "c-quick", "d-weak", "e-cut", "f-other"]
    assert "10 samples a second are too few" in why["b-slow"]
    assert "400 samples a second" in why["c-quick"]
    assert "never held in the band" in why["d-weak"]
    assert all(str(tmp_path / f"{name}.force") in err for name in why)
    assert "Not cross-checked" in told["reason"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{", "no JSON"),
        ("[]", "JSON object"),
        ('{"age": 3}', "age: is not known"),
        ('{"age_most_ms": -3}', "age_most_ms"),
    ],
)
def test_a_rule_that_is_none_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, words: str
) -> None:
    rule = tmp_path / "rule.json"
    rule.write_text(text, encoding="ascii")
    assert cli.main(["tune", str(RECORDINGS[0]), "--rule", str(rule)]) == 1
    told = capsys.readouterr().err
    assert words in told
    assert str(rule) in told


def test_a_rule_moves_the_choice(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rule = tmp_path / "rule.json"
    rule.write_text('{"age_most_ms": 35}', encoding="ascii")
    plot = tmp_path / "plot.png"
    words = ["tune", str(RECORDINGS[0]), "--rule", str(rule), "--plot", str(plot)]
    assert cli.main(words) == 0
    assert "under 35 ms" in capsys.readouterr().out
    image = QImage(str(plot))
    assert (image.width(), image.height()) == (1280, 720)
    before = plot.read_bytes()
    assert cli.main(words) == 1
    assert "is there already" in capsys.readouterr().err
    assert plot.read_bytes() == before


def test_spikes_of_a_real_dynamometer_are_kept_out_by_despiking(
    tmp_path: Path, real_force_data: Path
) -> None:
    """Tecchio et al., J. Appl. Physiol. 2024, doi 10.1152/japplphysiol.00845.2023."""
    table = real_force_data / "ankle_eccentric_torque" / "PL_0_01.csv"
    torque = np.abs(np.loadtxt(table, delimiter=",", skiprows=1, usecols=1))
    path = imported(tmp_path, "ankle", torque, 2000.0)
    lower, upper = np.percentile(torque, [60, 99])
    choices = (
        FilterChoice(FilterKind.NONE),
        FilterChoice(FilterKind.NONE, despike=True),
    )
    band = Band(round(float(lower) / 2, 1), round(float(upper) * 1.2, 1))
    done = bench.measured(path, bench.Asked(choices, 2000.0, band))
    assert not done.why
    plain, despiked = (figures for _, figures in done.figures)
    assert plain.spikes == despiked.spikes >= 1
    assert plain.spikes_passed == plain.spikes
    assert despiked.spikes_passed == 0
