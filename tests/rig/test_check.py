"""The health check on the simulated rig, with each of its faults."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy import signal

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.measures.excursions import excursions
from biofeedback.rig.check import Check, HealthReport, Step
from biofeedback.rig.commands import TakeZero
from biofeedback.rig.faults import Fault, FaultKind
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.rig.verdict import State, Verdict
from biofeedback.rig.worker import Worker
from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    import numpy.typing as npt

STEP_US = 25_000
NS = 1_000_000_000
REST_S = 4.0
STALLED_NS = NS // 2
"""Longer than anything is allowed to take, and shorter than what loses the signal."""


class Bench:
    """A check on a rig that is stepped by hand, with a clock that steps along."""

    def __init__(self, rig: SimulatedRig, check: Check) -> None:
        self.now_ns = NS
        self.check = check
        self.worker = Worker(
            SimulatedSource(rig, step_us=STEP_US), clock=lambda: self.now_ns
        )
        self.prompts: list[str] = []
        self.progress: list[float] = []

    def step(self, *, stall_ns: int = 0) -> None:
        self.now_ns += 1000 * STEP_US + stall_ns
        self.worker.step()
        self.check.push(self.worker.handoff.take(), now_ns=self.now_ns)
        prompt = self.check.prompt.partition(":")[0]
        if prompt not in self.prompts[-1:]:
            self.prompts.append(prompt)
        self.progress.append(self.check.progress)

    def run(self) -> HealthReport:
        for _ in range(10_000):
            if self.check.done:
                break
            self.step()
        assert self.check.done
        self.worker.stop()
        return self.check.report()


def checked(
    rig: SimulatedRig | None = None,
    *,
    presses: bool = False,
    asked: Prescription | None = None,
    seconds: float = REST_S,
) -> HealthReport:
    check = Check(seconds=seconds, presses=presses, prescription=asked)
    return Bench(rig or SimulatedRig(seed=5), check).run()


def verdict(report: HealthReport, name: str) -> Verdict:
    (found,) = (one for one in report.verdicts if one.name == name)
    return found


def number(report: HealthReport, name: str, key: str) -> float:
    value = verdict(report, name).numbers[key]
    assert isinstance(value, float)
    return value


def bad(report: HealthReport) -> set[str]:
    return {one.name for one in report.verdicts if one.state is State.LOOK}


# A rig that is well.


@pytest.mark.parametrize("channels", [1, 2])
@pytest.mark.parametrize("rate_hz", [80.0, 1000.0])
def test_a_rig_that_is_well_is_called_so(channels: int, rate_hz: float) -> None:
    rig = SimulatedRig(RigSettings(channels=channels, rate_hz=rate_hz), seed=5)
    report = checked(rig)
    assert report.good
    assert report.summary() == "The rig is well."
    assert [one.name for one in report.verdicts] == [
        "signal", "rate", "losses", "waits", "range", "calibration", "zero", "noise",
        "band", "mains hum", "drift",
    ]  # fmt: skip
    assert {one.advice for one in report.verdicts} == {""}
    assert number(report, "rate", "rate_hz") == pytest.approx(rate_hz, rel=1e-6)
    assert number(report, "rate", "jitter_most_ms") < 0.001
    assert verdict(report, "losses").numbers["lost"] == 0
    assert verdict(report, "noise").numbers["noise_rms_n"] == pytest.approx(
        [0.03] * channels, rel=0.15
    )
    bits = verdict(report, "noise").numbers["noise_free_bits"]
    assert bits == pytest.approx([math.log2(1000 / (6.6 * 0.03))] * channels, abs=0.2)
    assert "practically never" in verdict(report, "band").found
    assert report.seconds == pytest.approx(REST_S, abs=0.1)
    json.dumps(report.to_json(), allow_nan=False)


@pytest.mark.parametrize(
    ("rate_hz", "seconds", "why"),
    [(10.0, 10.0, "from a slow change"), (80.0, 1.0, "too short")],
)
def test_why_hum_is_not_judged(rate_hz: float, seconds: float, why: str) -> None:
    rig = SimulatedRig(RigSettings(rate_hz=rate_hz), seed=5)
    report = checked(rig, seconds=seconds)
    assert verdict(report, "mains hum").state is State.NOT_JUDGED
    assert why in verdict(report, "mains hum").found
    assert report.good  # what cannot be judged is no verdict


# The stream.


def test_lost_samples_are_counted() -> None:
    fault = Fault(FaultKind.DROP, at_s=2.0, duration_s=0.1)
    report = checked(SimulatedRig(seed=5, faults=(fault,)))
    assert bad(report) == {"losses"}
    assert verdict(report, "losses").numbers["lost"] == 8
    assert (
        "8 samples lost in 1 gap, 0 damaged frames, of"
        in verdict(report, "losses").found
    )


def test_damaged_frames_are_counted_from_the_start_of_the_run() -> None:
    before = Fault(FaultKind.FLIP, at_s=0.1, duration_s=0.2)
    assert checked(SimulatedRig(seed=5, faults=(before,))).good
    during = Fault(FaultKind.FLIP, at_s=2.0, duration_s=0.1)
    report = checked(SimulatedRig(seed=5, faults=(during,)))
    damaged = verdict(report, "losses").numbers["damaged"]
    assert isinstance(damaged, int)
    assert 6 <= damaged <= 16  # a flipped delimiter costs two frames
    assert "shielded cable" in verdict(report, "losses").advice


class OffRig(SimulatedRig):
    """A board whose oscillator is off, and whose stamps scatter."""

    off = 1.0
    scatter_us = 0

    def _sample_us(self, number: int) -> int:
        true_us = self._start_us + round(number * 1e6 / self.rate_hz / self.off)
        scatter = np.random.default_rng(number).integers(-1, 2) * self.scatter_us
        return true_us + int(scatter)


def test_a_rate_that_is_off_is_told() -> None:
    class Fast(OffRig):
        off = 1.12

    report = checked(Fast(seed=5))
    assert bad(report) == {"rate"}
    assert number(report, "rate", "rate_hz") == pytest.approx(80 * 1.12, rel=1e-3)
    assert "(+12.00 %)" in verdict(report, "rate").found


def test_jitter_is_told_at_its_size() -> None:
    class Scattered(OffRig):
        scatter_us = 3000

    report = checked(Scattered(seed=5))
    # −3, 0 and +3 ms alike: rms is √(2/3) · 3 ms.
    found_ms = number(report, "rate", "jitter_rms_ms")
    assert found_ms == pytest.approx(math.sqrt(2 / 3) * 3, rel=0.1)
    assert bad(report) == {"rate"}
    assert "its own clock" in verdict(report, "rate").advice


def test_a_wait_of_this_computer_is_told_apart_from_one_of_the_board() -> None:
    bench = Bench(SimulatedRig(seed=5), Check(seconds=REST_S, presses=False))
    while bench.check.step is not Step.REST:
        bench.step()
    for _ in range(10):
        bench.step()
    bench.step(stall_ns=STALLED_NS)
    report = bench.run()
    assert bad(report) == {"waits"}
    assert number(report, "waits", "worst_arrival_ms") == pytest.approx(525, abs=15)
    assert number(report, "waits", "worst_frame_ms") == pytest.approx(12.5, abs=0.1)
    assert "Close other programs" in verdict(report, "waits").advice


def test_a_wait_before_the_run_is_not_counted() -> None:
    bench = Bench(SimulatedRig(seed=5), Check(seconds=REST_S, presses=False))
    for _ in range(20):
        bench.step()
    bench.step(stall_ns=STALLED_NS)
    assert bench.check.step is Step.SIGNAL
    assert bench.run().good


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (FaultKind.SILENT, "converter gives no data"),
        (FaultKind.VANISH, "Nothing comes"),
    ],
)
def test_a_signal_that_breaks_off_ends_the_check(kind: FaultKind, words: str) -> None:
    report = checked(SimulatedRig(seed=5, faults=(Fault(kind, at_s=2.0),)))
    assert "signal" in bad(report)
    assert verdict(report, "signal").found == "The signal broke off."
    assert words in verdict(report, "signal").advice


def test_no_signal_at_all_ends_the_check() -> None:
    report = checked(SimulatedRig(faults=(Fault(FaultKind.SILENT, at_s=0.0),)))
    assert [one.name for one in report.verdicts] == ["signal"]
    assert verdict(report, "signal").found == "No samples came."
    assert not report.good


# Range, noise, hum, drift.


def test_a_saturated_cell_is_named() -> None:
    fault = Fault(FaultKind.SATURATE, at_s=1.0, channel=1)
    report = checked(SimulatedRig(seed=5, faults=(fault,)))
    assert "range" in bad(report)
    assert verdict(report, "range").found == (
        "At the end of the converter's range: right."
    )


class FlatRig(SimulatedRig):
    """A converter whose right channel gives one number."""

    def _counts(
        self, times_us: npt.NDArray[np.int64], sequences: npt.NDArray[np.int64]
    ) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.bool_]]:
        counts, saturated = super()._counts(times_us, sequences)
        counts[:, 1] = 1234
        return counts, saturated


def test_a_stuck_channel_is_named() -> None:
    report = checked(FlatRig(seed=5))
    assert "noise" in bad(report)
    assert verdict(report, "noise").found.startswith("No noise at all from right")


def test_noise_is_held_against_the_band() -> None:
    """0.6 N of white noise in each of two cells: what it means is worked out again."""
    report = checked(SimulatedRig(RigSettings(noise_n=0.6), seed=5), seconds=30.0)
    assert bad(report) == {"noise", "band"}
    rms_n = 0.6 * math.sqrt(2)
    # The live filter, order 2 at 10 Hz and 80 SPS: variance and correlation of
    # white noise that it leaves, by its impulse response.
    sections = signal.butter(2, 10, fs=80, output="sos")
    impulse = signal.sosfilt(sections, np.eye(1, 400)[0])
    shown_n = rms_n * math.sqrt(impulse @ impulse)
    lag_one = float(impulse[1:] @ impulse[:-1] / (impulse @ impulse))
    known = excursions(
        Band(38, 42), held_n=39, rms_n=shown_n, lag_one=lag_one, rate_hz=80
    )
    found = number(report, "band", "leaves_per_min_half_way")
    assert found == pytest.approx(known.per_min, rel=0.25)


def test_under_much_noise_hum_is_not_judged() -> None:
    report = checked(SimulatedRig(RigSettings(noise_n=2.0), seed=5))
    assert bad(report) == {"noise", "band"}
    assert verdict(report, "mains hum").state is State.NOT_JUDGED


def test_the_band_of_the_prescription_is_looked_at_too() -> None:
    asked = Prescription(Task("push"), Band(20.0, 20.4), hold_s=5, band_on=BandOn.LEFT)
    report = checked(asked=asked)
    # 0.02 N of shown noise against 0.1 N half way: five standard deviations.
    own = number(report, "band", "asked_leaves_per_min_half_way")
    assert 0 < own < 1
    assert number(report, "band", "leaves_per_min_half_way") < 1e-100
    assert "In the prescription's band" in verdict(report, "band").found
    one_cell = SimulatedRig(RigSettings(channels=1), seed=5)
    assert checked(one_cell, asked=asked).good  # it has no left cell; the total stands


class Humming:
    """Nobody pulls, and the mains is in the left cell."""

    def __init__(self, size_n: float, mains_hz: float) -> None:
        self._size_n, self._mains_hz = size_n, mains_hz

    def forces_n(self, times_us: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
        swing_n = np.sin(2 * np.pi * self._mains_hz * times_us / 1e6)
        return np.column_stack((self._size_n * swing_n, np.zeros(len(times_us))))


@pytest.mark.parametrize(
    ("rate_hz", "seen"), [(80.0, ", seen at 30.0 Hz"), (320.0, "")]
)
def test_hum_is_told_with_its_alias(rate_hz: float, seen: str) -> None:
    rig = SimulatedRig(RigSettings(rate_hz=rate_hz), seed=5, force=Humming(0.2, 50.0))
    report = checked(rig)
    assert bad(report) == {"mains hum"}
    assert number(report, "mains hum", "hum_n") == pytest.approx(0.2, abs=0.02)
    assert f"at 50 Hz{seen}" in verdict(report, "mains hum").found
    assert ("alias" in verdict(report, "mains hum").found) is bool(seen)


def test_drift_is_told_in_newtons_a_minute() -> None:
    force = ForceProfile(((0.0, 0.0, 0.0), (60.0, 0.0, -2.0)))
    report = checked(SimulatedRig(seed=5, force=force))
    assert bad(report) == {"drift"}
    drift = verdict(report, "drift").numbers["drift_n_per_min"]
    assert drift == pytest.approx([0.0, -2.0], abs=0.15)


# Presses.


def pressing(*presses: tuple[float, float]) -> SimulatedRig:
    """One press after the other, each 1 s, with the forces on left and right."""
    points = [(0.0, 0.0, 0.0), (5.5, 0.0, 0.0)]
    for number, (left_n, right_n) in enumerate(presses):
        at_s = 6.0 + 3.0 * number
        points += [(at_s, left_n, right_n), (at_s + 1, left_n, right_n)]
        points += [(at_s + 1.4, 0.0, 0.0), (at_s + 2.4, 0.0, 0.0)]
    return SimulatedRig(seed=5, force=ForceProfile(tuple(points)))


def answers(report: HealthReport) -> list[object]:
    return [
        one.numbers["answer"]
        for one in report.verdicts
        if one.name.startswith("press: ")
    ]


def test_each_cell_rises_when_it_is_pressed() -> None:
    bench = Bench(pressing((60, 3), (2, 80)), Check(seconds=REST_S))
    report = bench.run()
    assert report.good
    assert answers(report) == ["right", "right"]
    assert verdict(report, "press: left").found == "It rose by 60 N, and it alone."
    assert bench.prompts == [
        "Waiting for the board.",
        "Leave the rig alone",
        "Press the left cell firmly with your hand, the way the athlete will load it.",
        "Let go.",
        "Press the right cell firmly with your hand, the way the athlete will load it.",
        "Let go.",
        "The rig is well.",
    ]
    assert bench.progress == sorted(bench.progress)
    assert bench.progress[-1] == 1.0


def test_swapped_cells_are_told() -> None:
    report = checked(pressing((3, 60), (80, 2)), presses=True)
    assert answers(report) == ["swapped", "swapped"]
    assert verdict(report, "press: left").found == (
        "The right cell answered instead, by +60 N: the two are swapped."
    )


def test_reversed_polarity_is_told() -> None:
    report = checked(pressing((60, 2), (1, -70)), presses=True)
    assert answers(report) == ["right", "reversed"]
    assert verdict(report, "press: right").found == (
        "It fell by 70 N: its polarity is reversed."
    )
    both = checked(pressing((1, -60)), presses=True)
    assert answers(both) == ["swapped", "none"]
    assert "swapped, and its polarity is reversed" in verdict(both, "press: left").found


def test_two_cells_at_once_are_no_proof() -> None:
    report = checked(pressing((60, 45), (2, 80)), presses=True)
    assert answers(report) == ["shared", "right"]
    assert "left +60 N, right +45 N" in verdict(report, "press: left").found


def test_a_faint_answer_speaks_of_the_scale_and_none_of_the_plug() -> None:
    report = checked(pressing((2, 0)), presses=True)
    assert answers(report) == ["faint", "none"]
    assert "calibrate" in verdict(report, "press: left").advice
    assert "plugged in" in verdict(report, "press: right").advice


def test_a_press_beyond_the_rated_load_is_told() -> None:
    report = checked(pressing((1200, 0), (0, 50)), presses=True)
    assert answers(report) == ["overload", "right"]


def test_a_press_may_be_left_out() -> None:
    bench = Bench(SimulatedRig(seed=5), Check(seconds=REST_S))
    while not bench.check.done:
        bench.step()
        bench.check.skip(now_ns=bench.now_ns)
    report = bench.run()
    assert answers(report) == ["skipped", "skipped"]
    assert report.good


def test_one_cell_is_pressed_once() -> None:
    force = ForceProfile(((0, 0, 0), (5.5, 0, 0), (6, 40, 0), (7, 40, 0), (7.5, 0, 0)))
    rig = SimulatedRig(RigSettings(channels=1), seed=5, force=force)
    bench = Bench(rig, Check(seconds=REST_S))
    assert answers(bench.run()) == ["right"]
    assert any(prompt.startswith("Press the cell firmly") for prompt in bench.prompts)


# What else may happen.


def test_zero_taken_meanwhile_changes_nothing() -> None:
    bench = Bench(SimulatedRig(seed=5), Check(seconds=REST_S, presses=False))
    for _ in range(30):
        bench.step()
    bench.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
    assert bench.run().good


def test_blocks_that_were_not_pulled_are_no_loss_of_the_rig() -> None:
    bench = Bench(SimulatedRig(seed=5), Check(seconds=REST_S, presses=False))
    while bench.check.step is not Step.REST:
        bench.step()
    for _ in range(20):
        bench.step()
    bench.now_ns += 1000 * STEP_US
    bench.worker.step()
    bench.worker.step()
    dropped = bench.worker.handoff.take()
    assert dropped.blocks
    report = bench.run()
    assert verdict(report, "losses").state is State.GOOD


def test_the_handoff_tells_the_longest_wait_since_the_last_pull() -> None:
    bench = Bench(SimulatedRig(seed=5), Check(seconds=60, presses=False))
    for _ in range(50):
        bench.step()
    handoff = bench.worker.handoff
    for ms in (20, 90, 30):
        bench.now_ns += ms * 1_000_000
        bench.worker.step()
    assert handoff.take().longest_wait_s == pytest.approx(0.09)
    assert handoff.take().longest_wait_s == 0.0
    bench.worker.stop()
