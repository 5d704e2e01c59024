"""The serial source on real pseudo-terminals with the real pyserial."""

from __future__ import annotations

import os
import select
import time
import tty
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError, RigError
from biofeedback.rig.serial_source import SerialSource, ports
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    Damage,
    Frame,
    Identify,
    Identity,
    Samples,
    Start,
    Status,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

pytestmark = pytest.mark.skipif(
    not hasattr(os, "openpty"), reason="this system has no pseudo-terminals"
)

DEADLINE_S = 10.0


class Terminal:
    """Both ends of a pseudo-terminal; the test plays the board."""

    def __init__(self) -> None:
        self.board, self._port = os.openpty()
        tty.setraw(self._port)
        self.path = os.ttyname(self._port)

    def heard(self) -> bytes:
        """What the host has sent; waits for the first byte."""
        ready, _, _ = select.select([self.board], [], [], DEADLINE_S)
        return os.read(self.board, 4096) if ready else b""

    def unplug(self) -> None:
        for fd in (self.board, self._port):
            if fd >= 0:
                os.close(fd)
        self.board = self._port = -1


@pytest.fixture
def terminal() -> Iterator[Terminal]:
    made = Terminal()
    yield made
    made.unplug()


def read_until(source: SerialSource, wanted: int) -> bytes:
    """Reads until so many bytes have come."""
    data = b""
    end_s = time.monotonic() + DEADLINE_S
    while len(data) < wanted and time.monotonic() < end_s:
        data += source.read()
    return data


def read_all(source: SerialSource, before: Callable[[], object] = bool) -> None:
    """Reads until something is raised."""
    end_s = time.monotonic() + DEADLINE_S
    while time.monotonic() < end_s:
        before()
        source.read()


def frames_of(data: bytes) -> list[Frame | Damage]:
    return Decoder().push(data)


def identity_bytes(**changes: object) -> bytes:
    return SimulatedRig(RigSettings(**changes)).advance(0)  # type: ignore[arg-type]  # settings by name


def test_asks_until_the_board_says_who_it_is(terminal: Terminal) -> None:
    source = SerialSource(terminal.path)
    source.open()
    try:
        asked: list[Frame | Damage] = []
        end_s = time.monotonic() + DEADLINE_S
        decoder = Decoder()
        while len(asked) < 2 and time.monotonic() < end_s:
            assert source.read() == b""
            if select.select([terminal.board], [], [], 0)[0]:
                asked += decoder.push(terminal.heard())
        assert [type(frame) for frame in asked] == [Identify, Identify]
        assert source.found == ""
        sent = identity_bytes()
        os.write(terminal.board, sent)
        assert read_until(source, len(sent)) == sent
        assert source.found == "simulated board SIM-0001, firmware 1.0.0, gain 128"
        # From now on whatever comes is passed on at once.
        os.write(terminal.board, b"abc")
        assert read_until(source, 3) == b"abc"
        source.write(encode(Start(token=9)))
        assert Start(token=9) in decoder.push(terminal.heard())
    finally:
        source.close()


def test_what_came_before_the_identity_is_not_lost(terminal: Terminal) -> None:
    rig = SimulatedRig(RigSettings(numbered=True))
    rig.receive(encode(Start(token=1)))
    rig.receive(encode(Identify(token=2)))
    status_first = rig.advance(100_000)
    half, rest = status_first[:5], status_first[5:]
    source = SerialSource(terminal.path)
    source.open()
    try:
        os.write(terminal.board, half)
        assert source.read() == b""
        os.write(terminal.board, rest)
        assert read_until(source, len(status_first)) == status_first
    finally:
        source.close()


def test_board_that_streams_but_does_not_introduce_itself(terminal: Terminal) -> None:
    rig = SimulatedRig(RigSettings(numbered=True))
    rig.advance(0)
    rig.receive(encode(Start(token=1)))
    sent = rig.advance(500_000)
    source = SerialSource(terminal.path, ask_s=0.1)
    source.open()
    try:
        os.write(terminal.board, sent)
        assert read_until(source, len(sent)) == sent
        assert "does not say who it is" in source.found
    finally:
        source.close()


def test_plain_board_is_read_as_frames(terminal: Terminal) -> None:
    number = 0  # of the next line; the clock goes with the lines, at 80 Hz
    source = SerialSource(
        terminal.path, ask_s=0.5, clock=lambda: round(number * 12.5e6)
    )
    source.open()
    try:
        decoder = Decoder()
        frames: list[Frame | Damage] = []
        os.write(terminal.board, b"Board ready\r\n")
        while number < 400:
            line = f"{number * 12500},{1.5 * number:.2f},{-number:.2f}\r\n"
            number += 1
            os.write(terminal.board, line.encode())
            frames += decoder.push(source.read())
        first, *rest = frames
        assert isinstance(first, Identity)
        assert first.stream_channels == (2,)
        assert first.rate_hz == pytest.approx(80, rel=0.01)
        assert first.adc == "text lines, 1/100"
        counts = [
            row
            for frame in rest
            if isinstance(frame, Samples)
            for row in frame.counts.tolist()
        ]
        # The lines from before it was known what they are stand first.
        assert counts == [[150 * n, -100 * n] for n in range(len(counts))]
        assert len(counts) >= 390
        assert "plain board" in source.found
        source.write(encode(Start(token=1)))
        while select.select([terminal.board], [], [], 0)[0]:
            heard = decoder.push(terminal.heard())
            assert all(isinstance(frame, Identify) for frame in heard)
    finally:
        source.close()


def test_wrong_baud_rate_is_told(terminal: Terminal) -> None:
    source = SerialSource(terminal.path, baud=115_200, ask_s=0.2)
    source.open()
    try:
        with pytest.raises(RigError, match=r"115200 baud.*Set the baud rate"):
            read_all(source, lambda: os.write(terminal.board, bytes(range(128, 256))))
    finally:
        source.close()


def test_nobody_there_is_told(terminal: Terminal) -> None:
    source = SerialSource(terminal.path, ask_s=0.1)
    source.open()
    try:
        with pytest.raises(RigError, match="No board answers on"):
            read_all(source)
    finally:
        source.close()


def test_unplugged_is_told(terminal: Terminal) -> None:
    source = SerialSource(terminal.path)
    source.open()
    try:
        sent = identity_bytes()
        os.write(terminal.board, sent)
        read_until(source, len(sent))
        terminal.unplug()
        with pytest.raises(RigError, match=f"The port {terminal.path} is gone"):
            read_all(source)
        with pytest.raises(RigError, match="is gone"):
            source.write(b"x")
    finally:
        source.close()
    source.close()  # twice is safe
    with pytest.raises(RigError, match="not open"):
        source.read()


def test_port_that_is_not_there_is_told(tmp_path: Path) -> None:
    """The window says the same, so it is in words and names no command."""
    with pytest.raises(RigError, match=r"There is no port .*Plug the board in") as told:
        SerialSource(str(tmp_path / "ttyNONE")).open()
    assert "`" not in str(told.value)


def test_port_in_use_is_told(terminal: Terminal) -> None:
    first, second = SerialSource(terminal.path), SerialSource(terminal.path)
    first.open()
    try:
        with pytest.raises(RigError, match="in use by another program"):
            second.open()
    finally:
        first.close()


def test_unknown_kind_of_url_is_the_users_to_mend() -> None:
    with pytest.raises(FieldError, match="port"):
        SerialSource("pigeon://loft").open()


def test_a_read_waits_20_ms_at_most(terminal: Terminal) -> None:
    source = SerialSource(terminal.path, ask_s=60)
    source.open()
    try:
        begin_s = time.monotonic()
        for _ in range(10):
            source.read()
        # Ten waits; the rest is room for a busy machine.
        assert 0.15 < time.monotonic() - begin_s < 2.0
    finally:
        source.close()


def test_loop_url_gives_back_what_was_written() -> None:
    source = SerialSource("loop://")
    source.open()
    try:
        sent = identity_bytes()
        source.write(sent)
        # Its own questions come back too; a host's frames are no identity.
        data = read_until(source, len(sent))
        assert sent in data
    finally:
        source.close()


def test_boot_text_before_frames_does_not_make_a_plain_board(
    terminal: Terminal,
) -> None:
    source = SerialSource(terminal.path, ask_s=5)
    source.open()
    try:
        os.write(terminal.board, b"1,2\r\n" * 100)
        for _ in range(3):
            assert source.read() == b""
        sent = identity_bytes()
        os.write(terminal.board, sent)
        data = read_until(source, 500 + len(sent))
        assert data.endswith(sent)
        assert any(isinstance(frame, Identity) for frame in frames_of(data))
        assert not any(isinstance(frame, Status) for frame in frames_of(data))
    finally:
        source.close()


def test_lists_ports_without_fail() -> None:
    for port in ports():
        assert port.device
        assert port.hint
