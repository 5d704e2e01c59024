"""Another board on the same port: noticed, and not used until somebody says so."""

from __future__ import annotations

import os
import threading
import time
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from rig.identities import identity
from rig.test_serve import Serving
from rig.test_worker import MemoryRecorder

from biofeedback.conditioning.profile import Calibration, ZeroKind
from biofeedback.rig import simulated_adc
from biofeedback.rig.board_in_use import BoardInUse, same_board
from biofeedback.rig.commands import BeginSet, EndSet, TakeZero, UseBoard
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.handoff import (
    Link,
    OtherBoard,
    Refused,
    SetEnded,
    Warned,
    ZeroTaken,
)
from biofeedback.rig.profile_choice import KnownBoards
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import TerminalLine
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.worker import Worker
from biofeedback.session.replay import replay
from biofeedback.training.band import Band
from biofeedback.training.events import Phase
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.rig.handoff import SessionEvent, Update

DEADLINE_S = 20.0
FOREIGN_N = 300.0
ASKED = Prescription(task=Task("push"), band=Band(50, 70), hold_s=60.0, reps=1)

pytestmark = pytest.mark.skipif(
    not hasattr(os, "openpty"), reason="no pseudo-terminals here"
)


def board(serial_number: str, force_n: float, **more: object) -> SimulatedRig:
    """A board with a force on each cell of it, at a second of its own."""
    settings = RigSettings(serial_number=serial_number, **more)  # type: ignore[arg-type]  # settings by name
    pull = ForceProfile(((0.0, 0.0, 0.0), (1.0, force_n, force_n)))
    return SimulatedRig(settings, force=pull)


def calibration_of(
    serial_number: str, channel: int, gain: int | None, /
) -> Calibration | None:
    """Each board has its own, and they differ."""
    known = simulated_adc.calibration(channel, gain=gain or 128)
    return replace(known, label=f"of {serial_number}", gain=gain)


class Port:
    """A worker with its thread on a port, and all that it told."""

    def __init__(self, folder: Path) -> None:
        self.link = folder / "rig"
        self.recorder = MemoryRecorder()
        self.worker = Worker(
            SerialSource(str(self.link)),
            recorder=self.recorder,
            known=KnownBoards(calibration_of),
        )
        self.events: list[SessionEvent] = []
        self.counts: list[int] = []
        self.update: Update = self.worker.handoff.take()

    def look(self) -> None:
        self.update = self.worker.handoff.take()
        self.events += self.update.events
        for block in self.update.blocks:
            self.counts += block.counts[:, 0].tolist()

    def until(self, wanted: Callable[[], bool]) -> None:
        end_s, ticker = time.monotonic() + DEADLINE_S, threading.Event()
        while not wanted():
            assert time.monotonic() < end_s, (self.update.health, self.events[-3:])
            ticker.wait(0.01)
            self.look()

    def until_link(self, link: Link) -> None:
        self.until(lambda: self.update.health.link is link)

    def until_told(self, kind: type) -> SessionEvent:
        self.until(lambda: any(isinstance(one, kind) for one in self.events))
        return next(one for one in self.events if isinstance(one, kind))

    def line(self) -> TerminalLine:
        return TerminalLine(link=self.link)


@pytest.fixture
def port(tmp_path: Path) -> object:
    made = Port(tmp_path)
    made.worker.start()
    yield made
    made.worker.stop()


def test_between_sets_it_is_refused_until_confirmed(port: Port) -> None:
    with Serving(board("A-1", 0.0), port.line()):
        port.until(lambda: len(port.counts) > 20)  # it has settled
        port.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
        port.until_told(ZeroTaken)
    port.until_link(Link.LOST)
    with Serving(board("B-2", FOREIGN_N), port.line()):
        port.until_link(Link.OTHER)
        before = len(port.counts)
        health = port.update.health
        assert health.other == OtherBoard("board A-1", "board B-2")
        for word in ("board A-1", "board B-2", "No force is read", "put that one back"):
            assert word in health.message
        # Nothing of it is used, and nothing can be begun on it.
        for command in (BeginSet(ASKED), TakeZero(ZeroKind.EMPTY_RIG)):
            port.events.clear()
            port.worker.send(command)
            refused = port.until_told(Refused)
            assert isinstance(refused, Refused)
            assert "board B-2" in refused.message
        assert len(port.counts) == before
        assert port.update.profile.serial_number == "A-1"
        assert port.update.profile.zero.kind is ZeroKind.EMPTY_RIG
        # Somebody else's answer does not count.
        port.events.clear()
        port.worker.send(UseBoard(OtherBoard("board A-1", "board C-3")))
        port.until_told(Refused)
        assert port.update.health.link is Link.OTHER
        port.worker.send(UseBoard(health.other))
        port.until_link(Link.LIVE)
        port.until(lambda: len(port.counts) > before)
        profile = port.update.profile
        assert profile.serial_number == "B-2"
        assert [one.calibration.label for one in profile.channels] == ["of B-2"] * 2
        assert profile.zero.kind is ZeroKind.NONE
    # It is the board in use for this run: pulled and put back, nobody asks.
    port.until_link(Link.LOST)
    with Serving(board("B-2", FOREIGN_N), port.line()):
        port.until(lambda: port.update.health.link in {Link.LIVE, Link.OTHER})
        assert port.update.health.other is None
    port.until_link(Link.LOST)
    with Serving(board("A-1", 20.0), port.line()):
        port.until_link(Link.OTHER)
        assert port.update.health.other == OtherBoard("board B-2", "board A-1")


def test_in_a_set_it_never_takes_part_and_the_first_one_goes_on(
    tmp_path: Path,
) -> None:
    port = Port(tmp_path)
    port.worker.start()
    try:
        own = board("A-1", 30.0)
        with Serving(own, port.line()):
            port.until_link(Link.LIVE)
            port.until(lambda: bool(port.counts))
            port.worker.send(BeginSet(ASKED, {"athlete_code": "A-1"}))
            port.until(
                lambda: (
                    port.update.state is not None and port.update.state.clock_s > 0.3
                )
            )
        port.until_link(Link.LOST)
        port.look()
        assert port.update.state is not None
        clock_s, before = port.update.state.clock_s, len(port.counts)
        with Serving(board("B-2", FOREIGN_N), port.line()):
            port.until_link(Link.OTHER)
            assert port.update.health.other is not None
            assert "stop the set first" in port.update.health.message
            port.events.clear()
            port.worker.send(UseBoard(port.update.health.other))
            refused = port.until_told(Refused)
            assert isinstance(refused, Refused)
            assert "stop the set" in refused.message
            end_s = time.monotonic() + 1.0  # while it goes on sending
            port.until(lambda: time.monotonic() > end_s)
            state = port.update.state
            assert state is not None
            assert state.phase is Phase.REP
            assert state.clock_s == clock_s
            assert len(port.counts) == before
        port.until_link(Link.LOST)
        with Serving(own, port.line()):
            port.until_link(Link.LIVE)
            port.until(lambda: len(port.counts) > before + 40)
        assert port.update.profile.serial_number == "A-1"
        assert not any(isinstance(one, SetEnded) for one in port.events)
        port.worker.send(EndSet())
        port.until_told(SetEnded)
    finally:
        port.worker.stop()
    path = tmp_path / "set.force"
    path.write_bytes(bytes(port.recorder.files[-1]))
    found = replay(path, keep_blocks=True)
    assert found.agrees
    assert found.lost
    told = [one for one in found.events if one.get("kind") == "board"]
    assert [(one["serial_number"], one["used"]) for one in told] == [
        ("B-2", False),
        ("A-1", True),
    ]
    force_n = np.concatenate([block.force_n[:, 0] for block in found.blocks])
    assert np.nanmax(force_n) < 3 * np.nanmedian(force_n)  # of the other one: ten times


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"channels": 1}, "board A-1 (1 channel)"),
        ({"rate_hz": 320.0}, "board A-1 (320 Hz)"),
    ],
)
def test_other_channels_or_another_rate_count_as_another_board(
    port: Port, more: dict[str, object], words: str
) -> None:
    with Serving(board("A-1", 20.0), port.line()):
        port.until_link(Link.LIVE)
    port.until_link(Link.LOST)
    with Serving(board("A-1", 20.0, **more), port.line()):
        port.until_link(Link.OTHER)
        assert port.update.health.other is not None
        assert port.update.health.other.here == words
        port.worker.send(UseBoard(port.update.health.other))
        port.until_link(Link.LIVE)
        told = [one.message for one in port.events if isinstance(one, Warned)]
        assert any(one.startswith("In use now:") for one in told)


def test_what_tells_two_boards_apart() -> None:
    known = identity()
    assert same_board(known, identity(firmware=(2, 0, 0), sequence=7))
    for changes in (
        {"serial_number": "B-2"},
        {"serial_number": ""},
        {"adc": "ADS1220"},
        {"adc_bits": 16},
        {"stream_channels": (1, 1)},
        {"gains": (64,)},
        {"rates_hz": (10.0,)},
    ):
        assert not same_board(known, identity(**changes)), changes
    # The rate of a plain board is measured: it is never twice the same.
    plain = identity(
        adc="text lines, 1/10", serial_number="", gains=(), rates_hz=(80.1,)
    )
    assert same_board(plain, replace(plain, rates_hz=(79.8,)))
    assert not same_board(plain, replace(plain, adc="text lines, 1/100"))
    assert not same_board(plain, replace(plain, stream_channels=(1,)))


def samples(sequence: int) -> Samples:
    return Samples(
        sequence,
        stream=0,
        time_us=12_500 * sequence,
        step_us=0,
        counts=np.zeros((1, 2), np.int32),
        saturated=np.zeros((1, 2), bool),
        settling=np.zeros(1, bool),
    )


def test_after_the_port_was_away_samples_wait_for_a_name() -> None:
    known = BoardInUse()
    assert known.trusted  # nobody to be mistaken for
    assert known.meets(identity(), in_set=False)
    known.gone()
    assert known.nameless
    for sequence in range(10):
        assert not known.hold([samples(sequence)], b"s")
    assert known.meets(identity(), in_set=True)
    assert [frames[0].sequence for frames, _ in known.held()] == list(range(10))
    assert known.held() == []


def test_a_board_that_does_not_say_its_name_is_another_one() -> None:
    known = BoardInUse()
    known.meets(identity(), in_set=False)
    known.gone()
    noticed = [known.hold([samples(sequence)], b"s") for sequence in range(100)]
    assert noticed.index(True) == 40  # of 80 a second
    assert noticed.count(True) == 1  # told once
    assert known.other is not None
    assert known.other.here == "a board that does not say who it is"
    assert known.nameless  # it is still asked, and says it
    assert known.meets(identity(), in_set=True)
    assert known.held() == []  # nothing of what it sent without a name
