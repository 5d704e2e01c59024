"""The start check on rigs that are wired, calibrated or plugged in wrongly.

The board and its line are the product's; what is wrong stands between the pull and the
cells, or in the calibration. Nobody tells the check which fault it is.
"""

from __future__ import annotations

import os
import time
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from rig.test_check import Bench, bad, checked, verdict
from rig.test_serve import Serving

from biofeedback.conditioning.profile import Calibration, RigProfile, ZeroKind
from biofeedback.errors import FieldError
from biofeedback.rig.check import Check, HealthReport, Step
from biofeedback.rig.commands import TakeZero
from biofeedback.rig.nominal import nominal_profile
from biofeedback.rig.press import Answer
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import TerminalLine
from biofeedback.rig.simulated_adc import calibration
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.verdict import State
from biofeedback.rig.weigh import FAULTS, Hung, known_mass_kg, unit_words
from biofeedback.rig.worker import Worker

if TYPE_CHECKING:
    import numpy.typing as npt

G = 9.80665
MASS_KG = 10.0
RIGHT_WAY = ((1.0, 0.0), (0.0, 1.0))


@dataclass
class Hand:
    """Presses and hangs what the check asks for, through wires that may be wrong.

    Attributes:
        wires: what each cell's channel gets of a pull on the left and the right cell.
        pull_n: on the left and the right cell now.
    """

    wires: tuple[tuple[float, float], tuple[float, float]] = RIGHT_WAY
    pull_n: tuple[float, float] = (0.0, 0.0)

    def forces_n(self, times_us: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
        felt_n = np.array(self.wires) @ np.array(self.pull_n)
        return np.tile(felt_n, (len(times_us), 1))

    def follow(self, prompt: str) -> None:
        """Does what stands there."""
        force_n = 60.0 if prompt.startswith("Press") else MASS_KG * G
        if prompt.startswith(("Press", "Hang")):
            left = " left " in prompt or " the cell" in prompt
            self.pull_n = (force_n, 0.0) if left else (0.0, force_n)
        else:
            self.pull_n = (0.0, 0.0)


def in_unit(times: float) -> RigProfile:
    """The simulated rig's profile, with newtons that are so many times too large."""
    channels = tuple(
        replace(
            one,
            calibration=Calibration(
                tuple(times * c for c in calibration(i, gain=128).coefficients),
                label="made by hand",
                date="2026-11-20",
            ),
        )
        for i, one in enumerate(_profile().channels)
    )
    return replace(_profile(), channels=channels)


def _profile() -> RigProfile:
    return nominal_profile(SimulatedRig()._identity())


def told(hand: Hand, profile: RigProfile | None = None) -> HealthReport:
    """The report of a check in which somebody does all that is asked."""
    check = Check(seconds=2.0, mass_kg=MASS_KG)
    bench = Bench(SimulatedRig(RigSettings(), seed=5, force=hand), check)
    if profile is not None:
        bench.worker = Worker(bench.worker._source, profile, clock=lambda: bench.now_ns)
    for _ in range(20_000):
        if check.done:
            break
        hand.follow(check.prompt)
        bench.step()
    bench.worker.stop()
    assert check.done
    return check.report()


def test_a_rig_that_is_right_is_good_in_all_steps() -> None:
    report = told(Hand())
    assert report.good
    for side in ("left", "right"):
        assert verdict(report, f"press: {side}").state is State.GOOD
        one = verdict(report, f"mass: {side}")
        assert one.numbers["answer"] == "right"
        assert one.numbers["ratio"] == pytest.approx(1.0, abs=0.005)
        assert "10 kg weigh 98.1 N" in one.found


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (1 / G, "kilograms"),
        (G, "gravity once too often"),
        (1 / 4.4482, "pounds that are"),
        (4.4482, "taken for pounds"),
        (0.001, "kilonewtons that are"),
        (1000.0, "taken for kilonewtons"),
        (1000 / G, "grams that are"),
        (2.0, "counts twice"),
    ],
)
def test_a_wrong_unit_is_named_from_the_ratio(times: float, words: str) -> None:
    report = told(Hand(), in_unit(times))
    one = verdict(report, "mass: left")
    assert one.state is State.LOOK
    assert words in one.found
    assert one.numbers["ratio"] == pytest.approx(times, rel=0.01)
    assert "Calibrate" in one.advice


def test_counts_without_a_calibration_are_named() -> None:
    slope = 1 / calibration(0, gain=128).coefficients[1]
    one = verdict(told(Hand(), in_unit(slope)), "mass: left")
    assert "counts without a calibration" in one.found


def test_a_scale_that_is_off_by_five_percent_is_no_unit() -> None:
    one = verdict(told(Hand(), in_unit(1.05)), "mass: right")
    assert one.state is State.LOOK
    assert "No usual fault of a unit" in one.found
    assert verdict(told(Hand(), in_unit(1.02)), "mass: right").state is State.GOOD


def test_a_wrong_sign_is_caught_by_press_and_mass() -> None:
    report = told(Hand(wires=((-1.0, 0.0), (0.0, 1.0))))
    assert bad(report) == {"press: left", "mass: left"}
    assert verdict(report, "press: left").numbers["answer"] is Answer.REVERSED.value
    assert verdict(report, "mass: left").numbers["answer"] == Hung.REVERSED.value


def test_swapped_channels_are_caught_by_press_and_mass() -> None:
    report = told(Hand(wires=((0.0, 1.0), (1.0, 0.0))))
    assert bad(report) == {"press: left", "press: right", "mass: left", "mass: right"}
    assert "swapped" in verdict(report, "press: left").found
    assert "The right cell answered instead." in verdict(report, "mass: left").found


def test_both_channels_on_one_cell_are_caught() -> None:
    report = told(Hand(wires=((1.0, 0.0), (1.0, 0.0))))
    assert verdict(report, "press: left").numbers["answer"] == Answer.SHARED.value
    assert "wired to one cell" in verdict(report, "press: left").advice
    assert verdict(report, "press: right").numbers["answer"] == Answer.NONE.value
    assert verdict(report, "mass: left").numbers["answer"] == Hung.SHARED.value
    assert verdict(report, "mass: right").numbers["answer"] == Hung.NONE.value


def test_a_dead_cell_is_caught() -> None:
    report = told(Hand(wires=((1.0, 0.0), (0.0, 0.0))))
    assert bad(report) == {"press: right", "mass: right"}


def test_a_mass_can_be_left_out_and_is_asked_for_no_longer_than_a_minute() -> None:
    bench = Bench(
        SimulatedRig(seed=5), Check(seconds=2.0, presses=False, mass_kg=MASS_KG)
    )
    while bench.check.step is not Step.MASS:
        bench.step()
    bench.check.skip(now_ns=bench.now_ns)
    begun_ns = bench.now_ns
    report = bench.run()
    assert verdict(report, "mass: left").state is State.NOT_JUDGED
    assert verdict(report, "mass: right").numbers["answer"] == Hung.NONE.value
    assert bench.now_ns - begun_ns < 95e9


def test_zero_of_an_empty_rig_is_held_against_what_it_shows() -> None:
    hand = Hand()
    bench = Bench(SimulatedRig(seed=5, force=hand), Check(seconds=2.0, presses=False))
    while bench.check.step is Step.SIGNAL:
        bench.step()
    bench.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
    for _ in range(60):
        bench.step()
    bench.check = Check(seconds=2.0, presses=False)
    hand.pull_n = (4.0, 0.0)  # something was left on it
    report = bench.run()
    assert bad(report) == {"zero"}
    assert "left +4.0 N" in verdict(report, "zero").found
    assert verdict(checked(), "zero").state is State.NOT_JUDGED


@pytest.mark.parametrize("mass_kg", [0.0, -5.0, 0.1, 501.0, float("nan")])
def test_a_mass_that_cannot_be_used_is_refused(mass_kg: float) -> None:
    with pytest.raises(FieldError):
        known_mass_kg(mass_kg)


def test_each_unit_is_nearest_to_itself() -> None:
    for ratio, words in FAULTS:
        for off in (0.95, 1.0, 1.05):
            assert unit_words(ratio * off) == words
            assert unit_words(-ratio * off) == words


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
def test_on_a_terminal_kilograms_a_wrong_sign_and_swapped_plugs_at_once() -> None:
    hand = Hand(wires=((0.0, -1.0), (1.0, 0.0)))
    line = TerminalLine()
    check = Check(seconds=2.0, mass_kg=MASS_KG)
    with Serving(SimulatedRig(RigSettings(), seed=5, force=hand), line):
        worker = Worker(SerialSource(line.name), in_unit(1 / G))
        worker.start()
        begun_s = time.monotonic()
        while not check.done and time.monotonic() - begun_s < 60:
            time.sleep(0.02)
            check.push(worker.handoff.take(), now_ns=time.monotonic_ns())
            hand.follow(check.prompt)
        worker.stop()
    report = check.report()
    left, right = verdict(report, "mass: left"), verdict(report, "mass: right")
    assert "The right cell answered instead." in left.found
    assert "kilograms" in left.found
    assert "The left cell answered instead." in right.found
    assert right.numbers["ratio"] == pytest.approx(-1 / G, rel=0.02)
