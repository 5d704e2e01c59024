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

import itertools
import os
import statistics
import sys
import tempfile
import time
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench import live_rig
from bench.ratios import Row, percentile

from biofeedback.gui.app import application
from biofeedback.gui.frame_timer import FRAME_NS
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session.opening import PLAIN

if TYPE_CHECKING:
    from biofeedback.session import Update

PART = "live"


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


def idle_share(seconds: float) -> float:
    """Of one core that the window takes while its port is not there."""
    with (
        tempfile.TemporaryDirectory() as folder,
        Logbook.open(Path(folder) / "logbook.db") as logbook,
    ):
        session, window = live_rig.opened(
            Window,
            f"{folder}/no-such-port",
            PLAIN,
            logbook=logbook,
            records=Path(folder) / "recordings",
        )
        live_rig.show(session, window)
        live_rig.run(live_rig.SETTLED_S)
        begun_s, cpu_s = time.monotonic(), time.process_time()
        live_rig.run(seconds)
        share = (time.process_time() - cpu_s) / (time.monotonic() - begun_s)
        window.close_at_once()
    return share


def live(rate_hz: float, seconds: float) -> Seen:
    """The program for some seconds, in a set that is recorded."""
    seen = Seen()
    asked = replace(PLAIN, reps=50)
    with (
        tempfile.TemporaryDirectory() as folder,
        live_rig.served(live_rig.ATHLETE, rate_hz) as (port, seen.origin_ns),
        Logbook.open(Path(folder) / "logbook.db") as logbook,
    ):
        records = Path(folder) / "recordings"
        session, window = live_rig.opened(
            Watched, port, asked, logbook=logbook, records=records
        )
        live_rig.begin_set(session, window, asked)
        window.frames.missed = 0
        begun_s, cpu_s = time.monotonic(), time.process_time()
        window.seen = seen
        live_rig.run(seconds)
        window.seen = None
        seen.cpu_s = time.process_time() - cpu_s
        seen.span_s = time.monotonic() - begun_s
        seen.missed = window.frames.missed
        window.close_at_once()
        seen.first_us = live_rig.first_us(records)
    return seen


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
    with live_rig.busy():
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
