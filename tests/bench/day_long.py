"""A day of session in quick time: is memory flat, does a late frame cost more?

    python tests/bench/day_long.py [--hours 24] [--rate 80] [--no-window]

An invented board sends from two cells as fast as it is read, through the real session:
decoder, hold rules, recorder and logbook, and the real window unless it is left out.
Each five minutes a set of twelve reps is begun; in it the band is nudged, pain is
marked and every third rep has a lapse; then comes a rest of a minute. Device time wraps
twenty times, the number of the samples once. A frame is drawn for each second.

Memory is what Linux counts as resident. What a frame costs is processor time of its
thread, which does not depend on what else the machine does, but for its caches.
"""

from __future__ import annotations

import argparse
import gc
import sqlite3
import statistics
import sys
import tempfile
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtWidgets import QApplication

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.memory_held import resident_mb
from bench.ratios import Row, percentile
from bench.side_by_side import line
from gui.staged_session import ASKED

from biofeedback.conditioning.profile import SIMULATED_ADC
from biofeedback.gui.app import application
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.phrase import phrase
from biofeedback.rig.simulated_adc import calibration
from biofeedback.session import Session
from biofeedback.session.office import Office
from biofeedback.training.band import Band
from biofeedback.training.changes import Terms
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    SEQUENCE_MODULUS,
    Damage,
    FrameType,
    Identify,
    Identity,
    Reply,
    Result,
    Samples,
    Start,
    Status,
)

if TYPE_CHECKING:
    from biofeedback.training.prescription import Prescription

PART = "day"
STEP_S = 1.0
FRAME_SAMPLES = 20
SET_EVERY_S, SET_S = 300, 240
REP_S, HOLD_S = 18.0, 10.0
GAIN = 128
GROWN_MOST_MB = 5.0
DEARER_MOST = 1.1


class QuickBoard:
    """A source that has sent another second whenever it is read."""

    def __init__(self, rate_hz: float) -> None:
        self.rate_hz = rate_hz
        self.name, self.found = phrase("invented board"), phrase("in quick time")
        self.paced = True  # by the clock of this session
        self.samples = 0
        # So that the number of the samples wraps in the first hour.
        self._first = SEQUENCE_MODULUS - round(1800 * rate_hz)
        self._out = bytearray()
        self._heard = Decoder()
        self._random = np.random.default_rng(1)
        lines = [calibration(one, gain=GAIN).coefficients[:2] for one in (0, 1)]
        self._lines = np.array(lines).T

    @property
    def now_s(self) -> float:
        """Time of the newest sample."""
        return self.samples / self.rate_hz

    def open(self) -> None:
        """Nothing is to be opened."""

    def read(self) -> bytes:
        """The next second."""
        out = self._out
        count = round(self.rate_hz * STEP_S)
        number = self.samples + np.arange(count)
        force_n = pull_n(number / self.rate_hz)
        noise_n = self._random.normal(0, 0.03, (count, 2))
        both_n = force_n[:, None] * (0.47, 0.53) + noise_n
        zero, slope = self._lines
        counts = np.rint((both_n - zero) / slope).astype(np.int32)
        step_us = round(1e6 / self.rate_hz)
        for at in range(0, count, FRAME_SAMPLES):
            piece = counts[at : at + FRAME_SAMPLES]
            out += encode(
                Samples(
                    sequence=(self._first + self.samples + at) % SEQUENCE_MODULUS,
                    stream=0,
                    time_us=(self.samples + at) * step_us % SEQUENCE_MODULUS,
                    step_us=step_us,
                    counts=piece,
                    saturated=np.zeros(piece.shape, np.bool_),
                    settling=np.zeros(len(piece), np.bool_),
                )
            )
        self.samples += count
        out += encode(self._status())
        sent = bytes(out)
        out.clear()
        return sent

    def write(self, data: bytes) -> None:
        """Answers what it is asked."""
        for frame in self._heard.push(data):
            if isinstance(frame, Damage):
                continue
            if isinstance(frame, Identify):
                self._out += encode(self._reply(frame.token, FrameType.IDENTIFY))
                self._out += encode(self._identity())
            elif isinstance(frame, Start):
                self._out += encode(self._reply(frame.token, FrameType.START))

    def cancel(self) -> None:
        """A read never waits."""

    def close(self) -> None:
        """Nothing is to be closed."""

    @property
    def _next(self) -> int:
        return (self._first + self.samples) % SEQUENCE_MODULUS

    def _reply(self, token: int, command: FrameType) -> Reply:
        return Reply(self._next, token, command, Result.DONE)

    def _status(self) -> Status:
        uptime_ms = round(1000 * self.now_s)
        return Status(
            self._next, uptime_ms, 0, 0, 0, True, (False,), (self._next,)
        )  # fmt: skip

    def _identity(self) -> Identity:
        return Identity(
            sequence=self._next,
            protocol=(1, 0),
            firmware=(1, 0, 0),
            stream_channels=(2,),
            rates_hz=(self.rate_hz,),
            rate_index=0,
            gains=(GAIN,),
            gain_index=0,
            adc_bits=24,
            adc=SIMULATED_ADC,
            serial_number="INV-0024",
        )


def pull_n(time_s: np.ndarray) -> np.ndarray:
    """A rep each 18 s with sway and tremor; every third one leaves the band for 1 s."""
    t = time_s % REP_S - 1.0
    rise = 1.0 / (1.0 + np.exp(np.clip(-(t - 0.35) * 9.0, -60, 60)))
    fall = 1.0 / (1.0 + np.exp(np.clip((t - HOLD_S - 2.4) * 12.0, -60, 60)))
    sway = 4.0 * np.sin(1.9 * t) + 2.5 * np.sin(5.3 * t + 1.0)
    lapses = (time_s // REP_S % 3 == 0) & (t > 4.0) & (t < 5.0)
    return np.asarray(2.0 + (120.0 - 40.0 * lapses + sway) * rise * fall)


class Day:
    """The session, and what happens in it."""

    def __init__(self, folder: Path, *, rate_hz: float, window: bool) -> None:
        self.board = QuickBoard(rate_hz)
        self.logbook = Logbook.open(folder / "logbook.db")
        place = folder / "recordings"
        self.session = Session(
            self.board,
            logbook=self.logbook,
            recordings=place,
            athlete_code="INV-24",
            clock=self.now_ns,
        )
        self.asked: Prescription = replace(
            ASKED, hold_s=HOLD_S, reps=12, ceiling_n=None
        )
        self.window: Window | None = None
        if window:
            office = Office.of(self.logbook, place, self.session)
            self.window = Window(
                self.session, office, prescription=self.asked, clock=self.now_ns
            )
            self.window.show()
        self.costs_ms: list[float] = []

    def now_ns(self) -> int:
        """The time of the newest sample stands for the time of day."""
        return 1_000_000_000 + round(1e9 * self.board.now_s)

    def second(self, number: int) -> None:
        """One second of the session, and one frame."""
        self._orders(number % SET_EVERY_S, number)
        begun_ns = time.thread_time_ns()
        self.session.step()
        if self.window is None:
            self.session.take()
        else:
            begun_ns = time.thread_time_ns()
            self.window.frame()
            self.window.screen_part.repaint()
            QApplication.processEvents()
        self.costs_ms.append((time.thread_time_ns() - begun_ns) / 1e6)

    def _orders(self, at_s: int, number: int) -> None:
        session, band = self.session, self.asked.band
        moved = Band(band.lower_n - 2.0, band.upper_n + 2.0)
        if number < SET_EVERY_S // 10:
            return  # the board is met first
        match at_s:
            case 30:
                session.begin_set(self.asked)
            case 80:
                session.change_band(moved, "too hard")
            case 100:
                session.mark_pain(2)
                session.note("an invented note")
            case 120:
                session.change_terms(Terms(rest_s=5.0), "tired")
            case _ if at_s == 30 + SET_S:
                session.end_set("stop")

    def close(self) -> None:
        """All is put on disk."""
        if self.window is None:
            self.session.close()
        else:
            self.window.close_at_once()
        self.logbook.close()


def rows(*, hours: int, rate_hz: float, window: bool) -> list[Row]:
    """The whole part."""
    application()
    held: list[float] = []
    cost: list[float] = []
    dear: list[float] = []
    with tempfile.TemporaryDirectory() as folder:
        day = Day(Path(folder), rate_hz=rate_hz, window=window)
        for number in range(hours * 3600):
            day.second(number)
            if (number + 1) % 3600 == 0:
                gc.collect()
                held.append(resident_mb())
                cost.append(statistics.median(day.costs_ms))
                dear.append(percentile(day.costs_ms, 99))
                day.costs_ms.clear()
                print(
                    f"hour {len(held)}: {held[-1]:.1f} MB, {cost[-1]:.3f} ms, "
                    f"99 % within {dear[-1]:.3f} ms",
                    file=sys.stderr,
                    flush=True,
                )
        day.close()
        kept = _kept(Path(folder) / "logbook.db")
    way = f"{'window' if window else 'no window'}, {rate_hz:g} Hz"
    least = f"hour 1 to {hours}"
    return [
        Row(PART, f"{way}, hour 1", held[0], "MB"),
        Row(PART, f"{way}, hour {hours}", held[-1], "MB"),
        Row(PART, f"{way}, {least}", held[-1] - held[0], "MB", most=GROWN_MOST_MB),
        Row(PART, f"{way}, a frame in hour 1", cost[0], "ms"),
        Row(PART, f"{way}, a frame in hour {hours}", cost[-1], "ms"),
        Row(PART, f"{way}, that / this", cost[-1] / cost[0], "", most=DEARER_MOST),
        Row(PART, f"{way}, the same at 99 %", dear[-1] / dear[0], "", most=DEARER_MOST),
        Row(PART, f"{way}, reps kept", kept, "", least=100.0 * hours),
    ]


def _kept(path: Path) -> int:
    with closing(sqlite3.connect(path)) as book:
        (count,) = book.execute("SELECT count(*) FROM reps").fetchone()
    return int(count)


def main() -> int:
    """Prints the figures."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--hours", type=int, default=24)
    parser.add_argument("--rate", type=float, default=80.0)
    parser.add_argument("--no-window", action="store_true")
    options = parser.parse_args()
    found = rows(
        hours=options.hours, rate_hz=options.rate, window=not options.no_window
    )
    print("\n".join(line(row) for row in found))
    return 1 if any(row.reached is False for row in found) else 0


if __name__ == "__main__":
    sys.exit(main())
