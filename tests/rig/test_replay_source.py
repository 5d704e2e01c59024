"""A recording as a source: the same frames, at the same pace."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FileError
from biofeedback.rig.replay_source import ReplaySource
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.source import SourceEnded
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Close, Event, Header, Samples, Start

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def device_bytes() -> bytes:
    """3 s of a board, whole frames, without empty ones."""
    rig = SimulatedRig(RigSettings(numbered=True))
    rig.receive(encode(Start(token=1)))
    return rig.advance(3_000_000).lstrip(b"\0")


@pytest.fixture
def recording(tmp_path: Path, device_bytes: bytes) -> Path:
    """The same with the program's own frames between them."""
    pieces = [piece + b"\0" for piece in device_bytes.split(b"\0")[:-1]]
    pieces.insert(100, encode(Event({"kind": "note"})))
    path = tmp_path / "set.bin"
    path.write_bytes(encode(Header({})) + b"".join(pieces) + encode(Close({})))
    return path


def read_all(source: ReplaySource) -> bytes:
    data = b""
    while True:
        try:
            data += source.read()
        except SourceEnded:
            return data


def test_gives_the_boards_frames_and_nothing_else(
    recording: Path, device_bytes: bytes
) -> None:
    source = ReplaySource(recording, speed=None)
    assert source.name == "set.bin"
    for _ in range(2):  # a second time from the beginning
        source.open()
        source.write(b"ignored")
        assert read_all(source) == device_bytes
        assert source.found == "recorded from simulated board SIM-0001"
    source.close()
    source.close()


@pytest.mark.parametrize("speed", [1.0, 4.0])
def test_keeps_the_pace_of_the_device_clock(recording: Path, speed: float) -> None:
    now_ns = 0
    source = ReplaySource(recording, speed=speed, clock=lambda: now_ns)
    source.open()
    decoder = Decoder()
    due_s: list[float] = []
    given_s: list[float] = []
    try:
        while True:
            source.cancel()  # no waiting on a clock that does not go by itself
            for frame in decoder.push(source.read()):
                if isinstance(frame, Samples):
                    due_s.append((frame.time_us - 12_500) / 1e6 / speed)
                    given_s.append(now_ns / 1e9)
            now_ns += 50_000_000
    except SourceEnded:
        source.close()
    assert len(due_s) == 240
    for due, given in zip(due_s, given_s, strict=True):
        assert due - 1e-9 <= given < due + 0.05


def test_cut_off_recording_plays_to_the_cut(
    recording: Path, device_bytes: bytes
) -> None:
    recording.write_bytes(recording.read_bytes()[:4000])
    source = ReplaySource(recording, speed=None)
    source.open()
    data = read_all(source)
    assert len(data) > 3000
    assert device_bytes.startswith(data)
    source.close()


@pytest.mark.parametrize("content", [None, b""])
def test_file_that_cannot_be_replayed_is_told(
    tmp_path: Path, content: bytes | None
) -> None:
    path = tmp_path / "none.bin"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(FileError, match=r"none\.bin"):
        ReplaySource(path).open()


def test_closed_source_has_come_to_its_end(recording: Path) -> None:
    source = ReplaySource(recording, speed=None)
    with pytest.raises(SourceEnded):
        source.read()
