"""The program on the real firmware: alignment, replay, and what is told of faults."""

from __future__ import annotations

import subprocess
from typing import TYPE_CHECKING

import numpy as np
import pytest
from live_window import set_held
from rig.test_worker import MemoryRecorder

from biofeedback.errors import RigError
from biofeedback.rig.commands import BeginSet
from biofeedback.rig.handoff import (
    Health,
    Link,
    Measured,
    SessionEvent,
    SetBegun,
    SetEnded,
)
from biofeedback.rig.worker import Worker
from biofeedback.session.replay import replay
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from hardware.board import Board
    from pytestqt.qtbot import QtBot

    from biofeedback.conditioning.block import Block

pytestmark = pytest.mark.timeout(120)

COUNTS_PER_N = 2**24 * 128 * 2e-3 / 1000.0
"""Of the nominal cell: 1000 N at 2 mV/V, gain 128."""
STEP_S = 0.02
ASKED = Prescription(
    task=Task("push"), band=Band(50.0, 70.0), hold_s=1.0, reps=1, rest_s=1.0
)


def script(*rows: tuple[float, float, float]) -> str:
    """A profile of straight lines, in seconds and newtons."""
    lines = [
        f"{time_s} {round(left_n * COUNTS_PER_N)} {round(right_n * COUNTS_PER_N)}"
        for time_s, left_n, right_n in rows
    ]
    return "mode linear\n" + "\n".join(lines) + "\n"


def pushes(times: int, *, first_s: float = 1.5) -> str:
    """Nothing, half a second up to 60 N, 2 s there, down again; repeated."""
    rows = [(0.0, 0.0, 0.0)]
    for number in range(times):
        start_s = first_s + 4.0 * number
        rows += [
            (start_s, 0.0, 0.0),
            (start_s + 0.5, 32.0, 28.0),
            (start_s + 2.5, 32.0, 28.0),
            (start_s + 3.0, 0.0, 0.0),
        ]
    return script(*rows)


class Stepped:
    """The acquisition of the program on a board, both stepped by hand."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self.recorder = MemoryRecorder()
        self.worker = Worker(
            board.source, recorder=self.recorder, clock=lambda: board.now_ns
        )
        self.events: list[SessionEvent] = []
        self.blocks: list[Block] = []

    def run(self, duration_s: float, *, step_s: float = STEP_S) -> Health:
        for _ in range(round(duration_s / step_s)):
            self.board.step(step_s)
            while True:
                self.worker.step()
                if not self.board.unread:
                    break
            update = self.worker.handoff.take()
            self.events += update.events
            self.blocks += update.blocks
            self.health = update.health
        return self.health


def joined(blocks: Sequence[Block], field: str) -> np.ndarray:
    arrays: np.ndarray = np.concatenate([getattr(block, field) for block in blocks])
    return arrays


# Two converters, one time base.


def test_two_drifting_converters_show_one_pull(start: Callable[..., Board]) -> None:
    """Both cells feel the same ramp: what differs is the error of aligning."""
    ramp = script((0.0, 0.0, 0.0), (30.0, 300.0, 300.0))
    bench = Stepped(start("hx711", profile=ramp, ppm0=500, ppm1=-500))
    health = bench.run(20.0)
    assert (health.link, health.lost, health.damaged) == (Link.LIVE, 0, 0)
    force_n = joined(bench.blocks, "force_n")
    good = joined(bench.blocks, "good").astype(bool)
    assert good[6:].all()
    # 1.5 counts: half from each chip, half from rounding; the stamps are whole
    # microseconds and may be 16 late, at 10 N/s.
    apart_n = np.abs(force_n[good, 0] - force_n[good, 1])
    assert apart_n.max() < 1.5 / COUNTS_PER_N + 10.0 * 20e-6
    assert len(force_n) > 1500
    bench.worker.stop()


def test_replay_gives_the_numbers_of_the_live_run(
    start: Callable[..., Board], tmp_path: Path
) -> None:
    board = start("hx711", profile=pushes(3), ppm0=300, ppm1=-400, noise=60)
    bench = Stepped(board)
    bench.run(1.0)
    bench.worker.send(BeginSet(ASKED))
    bench.blocks.clear()
    bench.run(5.0)
    kinds = [type(event) for event in bench.events]
    begun = kinds.index(SetBegun)
    assert SetEnded in kinds[begun:]
    (measured,) = [event for event in bench.events if isinstance(event, Measured)]
    bench.worker.stop()
    path = tmp_path / "set.rec"
    path.write_bytes(bytes(bench.recorder.files[-1]))
    replayed = replay(path, keep_blocks=True)
    assert replayed.agrees is True
    assert dict(replayed.reps[0]) == dict(measured.rep)
    assert (replayed.misfits, replayed.damaged, replayed.lost) == (0, 0, 0)
    count = sum(len(block) for block in replayed.blocks)
    assert count > 200
    for field in ("time_s", "counts", "force_n", "shown_n", "good", "saturated"):
        # Live went on after the set; the set's own samples come first.
        live = joined(bench.blocks, field)
        first = int(np.argmax(joined(bench.blocks, "time_s") == 0.0))
        again = joined(replayed.blocks, field)
        assert live[first : first + count].tobytes() == again.tobytes(), field


def test_an_spi_board_needs_no_aligning(start: Callable[..., Board]) -> None:
    ramp = script((0.0, 0.0, 0.0), (30.0, 300.0, 150.0))
    bench = Stepped(start("spi", profile=ramp))
    health = bench.run(2.0)
    assert (health.link, health.lost) == (Link.LIVE, 0)
    assert health.rate_hz == pytest.approx(1000.0, rel=1e-3)
    force_n = joined(bench.blocks, "force_n")
    np.testing.assert_allclose(force_n[:, 0], 2 * force_n[:, 1], atol=0.002)
    bench.worker.stop()


# Four faults, four messages.

OVERLOAD = "mode step\n0 1000 1000\n3 9000000 1000\n"  # beyond the range
FAULTS: dict[str, tuple[dict[str, object], Link, str]] = {
    "silent chip": (
        {"dead1": 3.0},
        Link.SILENT,
        "converter 2 gives no data. Look at the wiring between the board and",
    ),
    "disconnected cell": (
        {"open1": 3.0},
        Link.LIVE,
        "The right cell is at the end of the range that no pull reaches: disconn",
    ),
    "saturated cell": (
        {"profile": OVERLOAD},
        Link.LIVE,
        "The left cell is at the end of the range. Take the load off",
    ),
    "dead link": (
        {"halt": 3.0},
        Link.LOST,
        "Nothing comes from /dev/pts/",
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_each_fault_has_its_own_message(
    start: Callable[..., Board], fault: str
) -> None:
    options, link, words = FAULTS[fault]
    steady = "mode step\n0 1000 1000\n"
    settings: dict[str, object] = {"profile": steady, "noise": 50, **options}
    board = start("hx711", **settings)
    bench = Stepped(board)
    before = bench.run(2.5)
    assert (before.link, before.message) == (Link.LIVE, "")
    after = bench.run(3.5, step_s=0.1)
    assert after.link is link
    assert words in after.message
    others = [told for name, (_, _, told) in FAULTS.items() if name != fault]
    assert not any(told in after.message for told in others)
    bench.worker.stop()


def test_a_silent_spi_converter_is_told(start: Callable[..., Board]) -> None:
    bench = Stepped(start("spi", dead0=2.0))
    bench.run(1.5)
    health = bench.run(3.0, step_s=0.1)
    assert health.link is Link.SILENT
    assert "its converter gives no data" in health.message
    bench.worker.stop()


@pytest.mark.parametrize("baud", [115_200, 460_800])
def test_a_wrong_baud_rate_is_told_in_words(
    start: Callable[..., Board], baud: int
) -> None:
    board = start("hx711", baud=baud, baud_check=True)
    board.source.open()

    def ask() -> None:
        while board.now_s < 5.0:
            board.step(0.1)
            board.listen()

    with pytest.raises(
        RigError, match=rf"cannot be understood at {baud} baud.*Set the baud rate"
    ):
        ask()
    assert 3.0 <= board.now_s < 3.5


def test_a_baud_rate_that_is_near_enough_works(start: Callable[..., Board]) -> None:
    board = start("hx711", baud=490_000, baud_check=True)
    board.open()
    assert board.heard.damages == []


# All of the program, at the pace of the clock.


@pytest.fixture
def paced(built: Path, tmp_path: Path) -> Iterator[Path]:
    """A port behind which a board runs as fast as a real one."""
    profile = tmp_path / "profile.txt"
    profile.write_text(pushes(8))
    link = tmp_path / "port"
    call = [str(built / "simulator"), "--adc", "hx711", "--speed", "1"]
    call += ["--firmware", str(built / "firmware-hx711.elf"), "--link", str(link)]
    call += ["--profile", str(profile), "--noise", "50", "--ppm0", "200"]
    call += ["--boot-ms", "600"]
    with subprocess.Popen(call, stdout=subprocess.PIPE, text=True) as process:  # noqa: S603
        assert process.stdout is not None
        assert process.stdout.readline().startswith("port ")
        yield link
        process.terminate()
        assert process.wait(10) == 0


@pytest.mark.slow
def test_a_rep_on_the_real_firmware_is_drawn_saved_and_replayed(
    qtbot: QtBot, tmp_path: Path, paced: Path
) -> None:
    folder = tmp_path / "recordings"
    with set_held(
        qtbot, paced, folder, ASKED, athlete_code="INV-1", within_s=20
    ) as library:
        (row,) = library.reps()
        assert row.outcome == "complete"
    (path,) = folder.iterdir()
    replayed = replay(path)
    assert (replayed.lost, replayed.damaged, replayed.misfits) == (0, 0, 0)
    assert dict(replayed.reps[0]) == dict(row.measures)
    assert replayed.recorded_profile.streams == 2
