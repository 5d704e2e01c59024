"""The simulated rig served on a pseudo-terminal and on a socket."""

from __future__ import annotations

import contextlib
import os
import select
import socket
import threading
import time
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FileError, RigError
from biofeedback.rig.effort import Effort
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import RigServer, SocketLine, TerminalLine
from biofeedback.rig.simulated_athlete import Doing, SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.worker import Worker
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage, Frame, Identity, Samples, Start

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.rig.serve import Line

DEADLINE_S = 20.0

on_terminals = pytest.mark.skipif(
    not hasattr(os, "openpty"), reason="this system has no pseudo-terminals"
)


class Serving:
    """A server in a thread, ended with the block."""

    def __init__(self, rig: SimulatedRig, line: Line, **options: object) -> None:
        self.server = RigServer(rig, line, **options)  # type: ignore[arg-type]  # options by name
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self.server.run, args=(self._stop,))

    def __enter__(self) -> RigServer:
        self._thread.start()
        return self.server

    def __exit__(self, *_: object) -> None:
        self._stop.set()
        self._thread.join(DEADLINE_S)
        assert not self._thread.is_alive()


@pytest.fixture(params=["terminal", "socket"])
def line(request: pytest.FixtureRequest) -> Iterator[Line]:
    if request.param == "socket":
        made: Line = SocketLine()
    elif hasattr(os, "openpty"):
        made = TerminalLine()
    else:
        pytest.skip("this system has no pseudo-terminals")
    yield made
    made.close()  # a second time, which is safe


def test_numbered_samples_arrive_exactly(line: Line) -> None:
    # 5 s of device time at 1 kHz, as fast as the line takes them: lossless.
    rig = SimulatedRig(RigSettings(numbered=True, rate_hz=1000.0))
    numbers: list[int] = []
    with Serving(rig, line, lossless=True):
        worker = Worker(SerialSource(line.name))
        worker.start()
        end_s = time.monotonic() + DEADLINE_S
        ticker = threading.Event()
        while len(numbers) < 5000 and time.monotonic() < end_s:
            ticker.wait(0.005)
            for block in worker.handoff.take().blocks:
                numbers.extend(block.counts[:, 0].tolist())
        worker.stop()
    health = worker.handoff.take().health
    assert len(numbers) >= 5000
    assert numbers == list(range(len(numbers)))
    assert health.damaged == health.lost == 0


def test_keeps_real_time_without_drift(line: Line) -> None:
    rig = SimulatedRig(RigSettings(numbered=True, rate_hz=320.0))
    source = SerialSource(line.name)
    decoder = Decoder()
    frames: list[Frame | Damage] = []
    with Serving(rig, line):
        source.open()
        source.write(encode(Start(token=1)))
        begin_s = first_s = time.monotonic()
        while time.monotonic() - begin_s < 1.5:
            new = [f for f in decoder.push(source.read()) if isinstance(f, Samples)]
            if new and not frames:
                first_s = time.monotonic()
            frames += new
        taken_s = time.monotonic() - first_s
        source.close()
    samples = [frame for frame in frames if isinstance(frame, Samples)]
    device_s = (samples[-1].time_us - samples[0].time_us) / 1e6
    # A busy machine may be late by a read or two at either end.
    assert device_s == pytest.approx(taken_s, abs=0.2)
    for before, after in pairwise(samples):
        assert after.sequence == before.sequence + len(before.counts)


@on_terminals
def test_nobody_reading_costs_samples_and_not_time() -> None:
    rig = SimulatedRig(RigSettings(numbered=True, rate_hz=2000.0))
    line = TerminalLine()
    now_ns = 0
    server = RigServer(rig, line, clock=lambda: now_ns)
    rig.receive(encode(Start(token=1)))
    for _ in range(75):
        now_ns += 40_000_000
        server.step()
    # 3 s at 2 kHz are some 60 kB, and a terminal holds less than 20.
    assert rig.now_us == 3_000_000
    assert server.dropped_bytes > 20_000
    line.close()


@on_terminals
@pytest.mark.parametrize("rate_hz", [80.0, 1000.0])
def test_a_frame_is_sent_when_its_last_sample_is_there(rate_hz: float) -> None:
    """Never sooner, though it is made before, and at the first turn after it."""
    now_ns, turn_us = 0, 500
    rig, line = SimulatedRig(RigSettings(rate_hz=rate_hz)), TerminalLine()
    server = RigServer(rig, line, clock=lambda: now_ns)
    port = os.open(line.name, os.O_RDWR | os.O_NOCTTY | os.O_NONBLOCK)
    decoder, sent = Decoder(), list[Samples]()
    os.write(port, encode(Start(token=1)))
    for _ in range(200):
        now_ns += 1000 * turn_us
        server.step()
        with contextlib.suppress(BlockingIOError):
            found = decoder.push(os.read(port, 4096))
            for frame in [one for one in found if isinstance(one, Samples)]:
                sent.append(frame)
                last_us = frame.time_us + frame.step_us * (len(frame.counts) - 1)
                assert last_us <= now_ns / 1000 < last_us + turn_us
    assert len(sent) > 5
    os.close(port)
    line.close()


@on_terminals
def test_lossless_time_waits_for_the_reader() -> None:
    rig = SimulatedRig(RigSettings(numbered=True, rate_hz=2000.0))
    line = TerminalLine()
    server = RigServer(rig, line, lossless=True)
    rig.receive(encode(Start(token=1)))
    reached_us, stood = 0, 0
    while stood < 5 and rig.now_us < 3_000_000:
        server.step()
        stood = stood + 1 if rig.now_us == reached_us else 0
        reached_us = rig.now_us
    # A terminal holds some 17 kB, less than a second at 2 kHz.
    assert 0 < reached_us < 1_500_000
    assert server.dropped_bytes == 0
    line.close()


@on_terminals
def test_reader_may_come_and_go() -> None:
    line = TerminalLine()
    with Serving(SimulatedRig(), line):
        for _ in range(3):
            source = SerialSource(line.name)
            source.open()
            identity = first_identity(source)
            source.close()
            assert identity.serial_number == "SIM-0001"


def test_socket_reader_may_come_and_go() -> None:
    line = SocketLine()
    with Serving(SimulatedRig(), line):
        for _ in range(2):
            source = SerialSource(line.name)
            source.open()
            identity = first_identity(source)
            source.close()
            assert identity.serial_number == "SIM-0001"


def first_identity(source: SerialSource) -> Identity:
    decoder = Decoder()
    end_s = time.monotonic() + DEADLINE_S
    while time.monotonic() < end_s:
        for frame in decoder.push(source.read()):
            if isinstance(frame, Identity):
                return frame
    raise AssertionError("no identity")


@on_terminals
def test_link_is_made_replaced_and_removed(tmp_path: Path) -> None:
    link = tmp_path / "rig"
    link.symlink_to(tmp_path / "gone")
    line = TerminalLine(link=link)
    assert os.readlink(link) == line.name  # noqa: PTH115  as it was written
    assert line.taken_from is None
    line.close()
    assert not link.is_symlink()
    link.write_text("mine")
    with pytest.raises(FileError, match="cannot be made"):
        TerminalLine(link=link)
    assert link.read_text() == "mine"


def test_a_link_that_leads_to_another_rig_is_taken_and_told(tmp_path: Path) -> None:
    link = tmp_path / "rig"
    first = TerminalLine(link=link)
    second = TerminalLine(link=link)
    try:
        assert str(second.taken_from) == first.name
        first.close()
        assert os.readlink(link) == second.name  # noqa: PTH115  as it was written
    finally:
        first.close()
        second.close()
    assert not link.is_symlink()


def test_socket_in_use_is_told() -> None:
    line = SocketLine()
    port = int(line.name.rpartition(":")[2])
    with pytest.raises(RigError, match=f"Socket {port} cannot be served"):
        SocketLine(port=port)
    line.close()


def test_socket_serves_this_computer_only() -> None:
    line = SocketLine()
    assert line.name.startswith("socket://127.0.0.1:")
    line.close()
    host, _, port = line.name.removeprefix("socket://").partition(":")
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection((host, int(port)))


@on_terminals
def test_athlete_begins_when_the_board_is_started() -> None:
    athlete = SimulatedAthlete(1)
    rig = SimulatedRig(force=athlete)
    line = TerminalLine()
    now_ns = 0
    effort = Effort(centre_n=60, half_width_n=6, hold_s=2, reps=1)
    server = RigServer(
        rig,
        line,
        athlete=athlete,
        effort=effort,
        lead_in_s=2.0,
        clock=lambda: now_ns,
    )
    host = os.open(line.name, os.O_RDWR | os.O_NOCTTY)
    doing = []
    for turn in range(200):
        now_ns += 50_000_000
        if turn == 20:
            os.write(host, encode(Start(token=1)))
            assert select.select([line], [], [], DEADLINE_S)[0]
        server.step()
        if select.select([host], [], [], 0)[0]:
            os.read(host, 65536)
        doing.append(athlete.doing)
    os.close(host)
    line.close()
    assert set(doing[:20]) == {Doing.IDLE}
    began_s = doing.index(Doing.PULLING) * 0.05
    # Started at 1 s, 2 s to take zero, and a moment to get ready.
    assert 1 + 2 + 0.7 <= began_s <= 1 + 2 + 1.75
    assert Doing.DONE in doing
