"""How old the newest sample is when its frame has been painted, in the live program.

The program itself, on a display: a simulated rig in a process of its own writes to a
pseudo-terminal, as a board does to its port, and tells when its time 0 was on the
clock that both processes share. The acquisition thread reads, judges and records; the
window takes and paints. When Qt has painted and handed over, the time of the newest
sample that was taken is looked up: sample time plus the device time at which the
recording begins, which is read out of the recording afterwards.

The refresh of a real display comes on top. Also told here: how much of one core the
program takes, how many frames are late, and whether the age that the desk tells is
the true one.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QEventLoop, QTimer

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import itertools

from bench.ratios import Row, percentile

from biofeedback.gui.app import application
from biofeedback.gui.frame_timer import FRAME_NS
from biofeedback.gui.window import Window
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.rig.serial_source import SerialSource
from biofeedback.session import Session
from biofeedback.session.office import Office
from biofeedback.session.opening import PLAIN
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.session import Update

PART = "live"
SERVER = """
import sys, threading
from biofeedback.rig.effort import Effort
from biofeedback.rig.serve import RigServer, TerminalLine
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
rate_hz = float(sys.argv[1])
athlete = SimulatedAthlete(7)
rig = SimulatedRig(RigSettings(channels=2, rate_hz=rate_hz), seed=7, force=athlete)
line = TerminalLine()
effort = Effort(centre_n=60.0, half_width_n=6.0, hold_s=10.0, rest_s=5.0, reps=100)
server = RigServer(rig, line, athlete=athlete, effort=effort, lead_in_s=1.0)
print(line.name, server._origin_ns, flush=True)
server.run(threading.Event())
"""
BURN = "while True:\n    pass"


@dataclass(slots=True)
class Seen:
    """What was painted when.

    Attributes:
        frames: monotonic time of each frame's end of paint, set time of the newest
            sample, and the age that the window tells, in seconds.
        cpu_s: of the program, and `span_s` in which it was used.
    """

    frames: list[tuple[int, float, float]] = field(default_factory=list)
    cpu_s: float = 0.0
    span_s: float = 0.0
    missed: int = 0
    origin_ns: int = 0
    first_us: int = 0

    def ages_ms(self) -> list[float]:
        """True age at the end of paint."""
        zero_ns = self.origin_ns + 1000 * self.first_us
        return [(at - zero_ns) / 1e6 - 1000 * time_s for at, time_s, _ in self.frames]

    def told_ms(self) -> list[float]:
        """The age that the desk tells, which is half a frame later."""
        return [1000 * told_s - FRAME_NS / 2e6 for _, _, told_s in self.frames]

    def late_pct(self) -> float:
        """Frames later than half a period after the one before is due, in per cent."""
        times = [at for at, _, _ in self.frames]
        gaps = [b - a for a, b in itertools.pairwise(times)]
        return 100 * sum(gap > 1.5 * FRAME_NS for gap in gaps) / max(1, len(gaps))


class Watched(Window):
    """The window of the program, which notes when it has painted."""

    seen: Seen | None = None
    newest_s: float | None = None

    def _show(self, update: Update, *, now_ns: int) -> None:
        if update.blocks:
            self.newest_s = float(update.blocks[-1].time_s[-1])
        super()._show(update, now_ns=now_ns)

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() is QEvent.Type.UpdateRequest and self.seen is not None:
            self._note(self.seen)
        return done

    def _note(self, seen: Seen) -> None:
        age_s = self.drawn_age_s
        if self.newest_s is not None and age_s is not None:
            seen.frames.append((time.monotonic_ns(), self.newest_s, age_s))


@contextlib.contextmanager
def served(rate_hz: float) -> Iterator[tuple[str, int]]:
    """A rig on a pseudo-terminal: its name, and when its time 0 was."""
    with subprocess.Popen(
        [sys.executable, "-c", SERVER, f"{rate_hz:g}"],
        stdout=subprocess.PIPE,
        text=True,
    ) as server:
        assert server.stdout is not None
        name, origin = server.stdout.readline().split()
        try:
            yield name, int(origin)
        finally:
            server.kill()


@contextlib.contextmanager
def _busy(cores: int) -> Iterator[None]:
    burning = [subprocess.Popen([sys.executable, "-c", BURN]) for _ in range(cores)]
    try:
        yield
    finally:
        for one in burning:
            one.kill()
            one.wait()


def _run(seconds: float) -> None:
    loop = QEventLoop()
    QTimer.singleShot(round(1000 * seconds), loop.quit)
    loop.exec()


def idle_share(seconds: float) -> float:
    """Of one core that the window takes while its port is not there."""
    with (
        tempfile.TemporaryDirectory() as folder,
        Logbook.open(Path(folder) / "logbook.db") as logbook,
    ):
        session = Session(
            SerialSource(f"{folder}/no-such-port"),
            logbook=logbook,
            recordings=Path(folder) / "recordings",
            athlete_code="A7",
        )
        office = Office.of(logbook, Path(folder), session)
        window = Window(session, office, prescription=PLAIN)
        window.show()
        session.start()
        window.frames.start()
        _run(2.0)
        begun_s, cpu_s = time.monotonic(), time.process_time()
        _run(seconds)
        share = (time.process_time() - cpu_s) / (time.monotonic() - begun_s)
        window.close_at_once()
    return share


def live(rate_hz: float, seconds: float) -> Seen:
    """The program for some seconds, in a set that is recorded."""
    seen = Seen()
    asked = replace(PLAIN, reps=50)
    with (
        tempfile.TemporaryDirectory() as folder,
        served(rate_hz) as (port, seen.origin_ns),
        Logbook.open(Path(folder) / "logbook.db") as logbook,
    ):
        records = Path(folder) / "recordings"
        session = Session(
            SerialSource(port), logbook=logbook, recordings=records, athlete_code="A7"
        )
        window = Watched(
            session, Office.of(logbook, records, session), prescription=asked
        )
        window.show()
        session.start()
        window.frames.start()
        while window.drawn_age_s is None:
            _run(0.05)
        session.begin_set(asked)
        _run(2.0)  # the path has its scale, and all is laid out
        window.frames.missed = 0
        begun_s, cpu_s = time.monotonic(), time.process_time()
        window.seen = seen
        _run(seconds)
        window.seen = None
        seen.cpu_s = time.process_time() - cpu_s
        seen.span_s = time.monotonic() - begun_s
        seen.missed = window.frames.missed
        window.close_at_once()
        seen.first_us = _first_us(next(records.rglob("*.force")))
    return seen


def _first_us(recording: Path) -> int:
    """Device time at which a recording's samples begin."""
    found = recordings.read(recording).frames()
    return next(frame.time_us for frame in found if isinstance(frame, Samples))


def rows(*, seconds: float = 12.0, busy_s: float = 60.0) -> list[Row]:
    """The whole part."""
    application()
    where = os.environ.get("QT_QPA_PLATFORM", "xcb")
    told = []
    for rate_hz, half_ms, most_ms in ((80.0, 10.0, 17.0), (1000.0, 4.0, 8.0)):
        seen = live(rate_hz, seconds)
        ages, desk = seen.ages_ms(), seen.told_ms()
        what = f"{where}: {rate_hz:g} Hz × 2"
        middle_ms = statistics.median(ages)
        told += [
            Row(PART, f"{what}, age, median", middle_ms, "ms", most=half_ms),
            Row(PART, f"{what}, age, p99", percentile(ages, 99), "ms", most=most_ms),
            Row(
                PART,
                f"{what}, age told − true, median",
                abs(statistics.median(a - b for a, b in zip(desk, ages, strict=True))),
                "ms",
                most=2.0,
            ),
            Row(
                PART,
                f"{what}, of one core",
                100 * seen.cpu_s / seen.span_s,
                "%",
                most=20.0 if rate_hz == 1000.0 else None,
            ),
        ]
    told.append(
        Row(
            PART,
            f"{where}: no rig on the port, of one core",
            100 * idle_share(5.0),
            "%",
            most=3.0,
        )
    )
    with _busy(max(1, (multiprocessing.cpu_count() or 2) - 1)):
        seen = live(1000.0, busy_s)
    told.append(
        Row(
            PART,
            f"{where}: late frames in {busy_s:g} s, all other cores busy",
            seen.late_pct(),
            "%",
            most=0.5,
        )
    )
    return told
