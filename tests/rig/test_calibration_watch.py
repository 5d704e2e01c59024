"""Which calibration a board gets, and what is told of it."""

from __future__ import annotations

import time
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import pytest
from rig.identities import USUAL

from biofeedback.conditioning.profile import Calibration, Zero, ZeroKind
from biofeedback.errors import FileError
from biofeedback.phrase import phrase
from biofeedback.rig.calibration_watch import (
    CalibrationLimits,
    calibration_warnings,
    zero_warnings,
)
from biofeedback.rig.check import Check
from biofeedback.rig.commands import BeginSet, ChangeProfile, TakeZero
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.handoff import SetBegun, Warned, ZeroTaken
from biofeedback.rig.nominal import fitted, nominal_profile
from biofeedback.rig.profile_choice import KnownBoards, ProfileChoice
from biofeedback.rig.simulated_rig import SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.rig.verdict import State
from biofeedback.rig.worker import Worker
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.rig.calibration_watch import CalibrationsFor
    from biofeedback.rig.handoff import SessionEvent

TODAY = date(2026, 11, 30)
MAY = Calibration((0.0, 0.001), "May", "2026-05-04", gain=128)


def records(**known: Calibration) -> CalibrationsFor:
    """Calibrations by names such as `A1_0`."""

    def calibrations_for(
        serial_number: str, channel: int, _gain: int | None, /
    ) -> Calibration | None:
        return known.get(f"{serial_number}_{channel}".replace("-", "_"))

    return calibrations_for


class Bench:
    """A worker on the simulated rig, stepped by hand."""

    def __init__(
        self,
        calibrations_for: CalibrationsFor | None,
        *,
        limits: CalibrationLimits | None = None,
        force: ForceProfile | None = None,
    ) -> None:
        rig = SimulatedRig(force=force or ForceProfile(((0.0, 0.0, 0.0),)))
        self.worker = Worker(
            SimulatedSource(rig, step_us=20_000),
            known=KnownBoards(calibrations_for, limits or CalibrationLimits()),
        )
        self.events: list[SessionEvent] = []

    def run(self, turns: int = 60) -> None:
        for _ in range(turns):
            self.worker.step()
        update = self.worker.handoff.take()
        self.profile = update.profile
        self.blocks = update.blocks
        self.events += update.events

    @property
    def warned(self) -> list[str]:
        return [event.message for event in self.events if isinstance(event, Warned)]


# Which one is in use.


def test_records_replace_what_is_nominal_when_the_board_is_met() -> None:
    bench = Bench(records(SIM_0001_1=MAY))
    bench.run()
    left, right = bench.profile.channels
    assert left.calibration.label == "simulated rig"
    assert right.calibration == MAY
    bench.worker.stop()


def test_the_force_is_that_of_the_record() -> None:
    bench = Bench(
        records(SIM_0001_0=Calibration((7.0, 0.0), "flat", "2026-05-04", gain=128))
    )
    bench.run()
    force = bench.blocks[-1].force_n
    assert force[-1, 0] == pytest.approx(7.0)
    assert abs(force[-1, 1]) < 1.0
    bench.worker.stop()


def test_a_set_is_recorded_with_the_record() -> None:
    bench = Bench(records(SIM_0001_0=MAY, SIM_0001_1=MAY))
    bench.run()
    asked = Prescription(task=Task("push"), band=Band(50, 70), hold_s=3.0, reps=1)
    bench.worker.send(BeginSet(asked))
    bench.run()
    (begun,) = (event for event in bench.events if isinstance(event, SetBegun))
    assert [c.calibration.label for c in begun.profile.channels] == ["May", "May"]
    bench.worker.stop()


def test_a_record_of_another_board_is_not_taken() -> None:
    bench = Bench(records(B2_0=MAY))
    bench.run()
    assert bench.profile.channels[0].calibration.label == "simulated rig"
    bench.worker.stop()


def test_a_record_made_at_another_gain_is_not_used_and_that_is_told() -> None:
    other = replace(MAY, gain=64, adc="HX711")
    bench = Bench(records(SIM_0001_0=other, SIM_0001_1=replace(MAY, gain=None)))
    bench.run()
    assert [c.calibration.label for c in bench.profile.channels] == [
        "simulated rig"
    ] * 2
    left, right = (words for words in bench.warned if "not used" in words)
    assert left == (
        "The calibration of the left cell (May) is not used: it was made with gain 64 "
        "of HX711, and these counts come with gain 128 of a simulated rig. "
        "Set the board as it was, or calibrate again."
    )
    assert right.startswith("The calibration of the right cell (May) is not used")
    bench.worker.stop()


def test_a_health_check_tells_of_a_record_that_is_not_used() -> None:
    bench = Bench(records(SIM_0001_0=replace(MAY, gain=64), SIM_0001_1=MAY))
    check = Check(seconds=2.0, presses=False)
    now_ns = 0
    while not check.done:
        now_ns += 20_000_000
        bench.worker.step()
        check.push(bench.worker.handoff.take(), now_ns=now_ns)
    bench.worker.stop()
    report = check.report()
    (found,) = (one for one in report.verdicts if one.name == "calibration")
    assert (found.state, report.good) == (State.LOOK, False)
    assert found.found.startswith(
        "In use: left: simulated rig; right: May 2026-05-04. The calibration of the "
        "left cell (May) is not used: it was made with gain 64"
    )


def test_a_record_is_asked_for_at_the_gain_of_the_board() -> None:
    asked = []

    def newest(serial: str, channel: int, gain: int | None, /) -> Calibration | None:
        asked.append((serial, channel, gain))
        return None

    bench = Bench(newest)
    bench.run()
    assert set(asked) == {("SIM-0001", 0, 128), ("SIM-0001", 1, 128)}
    bench.worker.stop()


def test_records_that_cannot_be_read_are_told_and_the_signal_goes_on() -> None:
    def broken(_serial: str, _channel: int, _gain: int | None, /) -> Calibration | None:
        raise FileError("logbook.db", phrase("the logbook is damaged."))

    bench = Bench(broken)
    bench.run()
    assert bench.blocks
    assert bench.warned == [
        "The calibrations could not be looked up: logbook.db: the logbook is damaged."
    ]
    bench.worker.stop()


def test_a_profile_that_was_asked_for_is_not_overruled() -> None:
    bench = Bench(records(SIM_0001_0=MAY))
    bench.run()
    own = Calibration((0.0, 0.002), "mine", "2026-11-01")
    channels = tuple(replace(c, calibration=own) for c in bench.profile.channels)
    bench.worker.send(ChangeProfile(replace(bench.profile, channels=channels)))
    bench.run()
    assert [c.calibration for c in bench.profile.channels] == [own, own]
    acquisition = bench.worker._acquisition
    assert acquisition._board.identity is not None
    acquisition.frame(acquisition._board.identity, b"")  # the port was lost and is back
    bench.run()
    assert [c.calibration for c in bench.profile.channels] == [own, own]
    bench.worker.stop()


def test_a_record_that_comes_within_a_set_waits_for_its_end() -> None:
    known: dict[int, Calibration] = {}
    bench = Bench(lambda _serial, channel, _gain, /: known.get(channel))
    bench.run()
    acquisition = bench.worker._acquisition
    identity = acquisition._board.identity
    assert identity is not None
    asked = Prescription(task=Task("push"), band=Band(50, 70), hold_s=3.0, reps=1)
    bench.worker.send(BeginSet(asked))
    bench.run()
    known[0] = MAY  # kept at another desk meanwhile
    acquisition.frame(identity, b"")  # the port was lost and is back
    bench.run()
    assert acquisition.set_open
    assert bench.profile.channels[0].calibration.label == "simulated rig"
    acquisition.end_set("stop")
    acquisition.frame(identity, b"")
    bench.run()
    assert bench.profile.channels[0].calibration == MAY
    bench.worker.stop()


def test_the_calibration_of_one_board_is_not_used_on_another() -> None:
    mine = nominal_profile(USUAL)
    mine = replace(
        mine, channels=tuple(replace(c, calibration=MAY) for c in mine.channels)
    )
    assert fitted(mine, USUAL).channels == mine.channels
    other = fitted(mine, replace(USUAL, serial_number="B2"))
    assert [c.calibration.label for c in other.channels] == ["nominal", "nominal"]
    # A board that does not say who it is keeps what it is given.
    silent = fitted(mine, replace(USUAL, serial_number=""))
    assert silent.channels == mine.channels


# What is told.


def aged(day: str) -> RigProfile:
    old = Calibration((0.0, 0.001), "last year", day, gain=128)
    profile = nominal_profile(USUAL)
    channels = tuple(replace(c, calibration=old) for c in profile.channels)
    return replace(profile, channels=channels)


def test_age_is_told_beyond_the_limit_only() -> None:
    limits = CalibrationLimits()
    assert calibration_warnings(aged("2025-11-30"), today=TODAY, limits=limits) == []
    told = calibration_warnings(aged("2025-11-29"), today=TODAY, limits=limits)
    assert len(told) == 2
    assert told[0].startswith(
        "The calibration of the left cell (last year) is 366 days old"
    )
    short = CalibrationLimits(age_days=30)
    assert calibration_warnings(aged("2026-10-31"), today=TODAY, limits=short) == []
    assert calibration_warnings(aged("2026-10-30"), today=TODAY, limits=short)


@pytest.mark.parametrize(
    ("utc", "told"),
    [
        # In Tokyo it is nine hours later: the day of its limit is over there already.
        ("2026-11-30T14:59:00.000+00:00", 0),
        ("2026-11-30T15:01:00.000+00:00", 2),
    ],
)
@pytest.mark.skipif(not hasattr(time, "tzset"), reason="no zone can be set here")
def test_age_is_counted_by_the_days_of_this_place(
    monkeypatch: pytest.MonkeyPatch, utc: str, told: int
) -> None:
    warned: list[str] = []
    with monkeypatch.context() as elsewhere:
        elsewhere.setenv("TZ", "Asia/Tokyo")
        time.tzset()
        profile = aged("2025-11-30")
        choice = ProfileChoice(
            profile, warn=warned.append, utc=lambda: utc, known=KnownBoards()
        )
        choice.warn_of_calibration(profile, USUAL)
    time.tzset()
    assert len(warned) == told


def test_a_cell_that_is_still_nominal_is_named() -> None:
    profile = nominal_profile(USUAL)
    left, right = profile.channels
    half = replace(profile, channels=(replace(left, calibration=MAY), right))
    (told,) = calibration_warnings(half, today=TODAY, limits=CalibrationLimits())
    assert told.startswith("Nominal calibration for the right cell of HX711 A1: ")
    (told,) = calibration_warnings(profile, today=TODAY, limits=CalibrationLimits())
    assert told.startswith("Nominal calibration for HX711 A1: forces")


def test_an_old_calibration_is_warned_of_on_the_desk_once() -> None:
    old = Calibration((0.0, 0.001), "long ago", "2020-02-02", gain=128)
    bench = Bench(records(SIM_0001_0=old, SIM_0001_1=old))
    bench.run(200)
    assert len(bench.warned) == 2
    assert "the left cell (long ago)" in bench.warned[0]
    bench.worker.stop()


def zero(*offsets_n: float, kind: ZeroKind = ZeroKind.EMPTY_RIG) -> Zero:
    return Zero(kind, offsets_n, (0.0, 0.0))


@pytest.mark.parametrize(
    ("calibrated", "last", "new", "since"),
    [
        (True, Zero.none(2), zero(9.9, 0.0), ""),
        (True, Zero.none(2), zero(10.1, 0.0), "since its calibration"),
        (True, Zero.none(2), zero(-10.1, 0.0), "since its calibration"),
        (False, Zero.none(2), zero(200.0, 0.0), ""),  # the bridge's own offset
        (False, zero(200.0, 0.0), zero(209.0, 0.0), ""),
        (False, zero(200.0, 0.0), zero(211.0, 0.0), "since the last zero"),
        (True, zero(3.0, 0.0), zero(14.0, 0.0), "since the last zero"),
        (True, zero(9.0, 0.0), zero(11.0, 0.0), "since its calibration"),
        (True, zero(0.0, 0.0), zero(90.0, 0.0, kind=ZeroKind.LIMB_RESTING), ""),
    ],
)
def test_zero_that_walked(
    *, calibrated: bool, last: Zero, new: Zero, since: str
) -> None:
    profile = nominal_profile(USUAL)
    if calibrated:
        channels = tuple(replace(c, calibration=MAY) for c in profile.channels)
        profile = replace(profile, channels=channels)
    told = zero_warnings(profile.with_zero(last), new, limits=CalibrationLimits())
    if not since:
        assert told == []
    else:
        assert len(told) == 1
        assert since in told[0]
        assert "the left cell" in told[0]


def test_a_zero_far_from_the_calibration_is_warned_of_on_the_desk() -> None:
    # The record says 0 N where the empty simulated cell gives 12000 counts less.
    shifted = Calibration((12.0, 0.001), "May", "2026-05-04", gain=128)
    bench = Bench(records(SIM_0001_0=shifted), limits=CalibrationLimits(age_days=1e5))
    bench.run()
    assert bench.warned == []
    bench.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
    bench.run(120)
    assert any(isinstance(event, ZeroTaken) for event in bench.events)
    (told,) = bench.warned
    assert told.startswith("The zero of the left cell has walked by +24.")
    bench.worker.stop()
