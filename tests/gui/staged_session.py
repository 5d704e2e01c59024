"""A session that is stepped by hand: any force over time, the real hold rules.

All people and forces in here are invented.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.block import Block
from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.errors import UserError
from biofeedback.phrase import phrase
from biofeedback.session import (
    BandChanged,
    GateMoved,
    Health,
    Link,
    SessionEvent,
    SetBegun,
    SetEnded,
    Update,
)
from biofeedback.training.band import Band
from biofeedback.training.conductor import Conductor
from biofeedback.training.prescription import Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from biofeedback.session import OtherBoard
    from biofeedback.session.rig_check import HealthReport
    from biofeedback.training.changes import Terms

FRAME_S = 1 / 60
RATE_HZ = 80.0


def profile_of(*sides: Side, rate_hz: float = RATE_HZ) -> RigProfile:
    channels = tuple(
        Channel(side.value, side, Calibration((0.0, 1e-3)), rated_n=1000.0)
        for side in sides
    )
    return RigProfile("invented rig", channels, rate_hz, Zero.none(len(sides)))


BOTH = profile_of(Side.LEFT, Side.RIGHT)
ONE = profile_of(Side.SINGLE)
REFERENCE = Reference(240.0, Origin.OTHER_SIDE, Definition.BEST_1_S_MEAN, "2026-11-02")
ASKED = Prescription(
    task=Task("Isometric hip hold", sides=Sides.BOTH),
    band=Band.from_percent_of_centre(50.0, 10.0, reference_n=240.0),
    hold_s=10.0,
    reps=6,
    rest_s=4.0,
    reference=REFERENCE,
    balance_tolerance_points=5.0,
    ceiling_n=190.0,
)


class StagedSession:
    """Answers `take` like a session, from a force that the test chooses.

    Args:
        force_n: force of each channel at a time, shape (channels,) or a number
            that all channels share alike.
    """

    def __init__(
        self,
        force_n: Callable[[float], float | tuple[float, ...]],
        *,
        profile: RigProfile = BOTH,
    ) -> None:
        self.profile = profile
        self.athlete_code = "A7"
        self.athlete_name = "Invented athlete"
        self.force_n = force_n
        self.now_ns = 1_000_000_000
        self.silent = False
        self.link = Link.LIVE
        self.found = ""
        self.other: OtherBoard | None = None
        self.done: list[tuple[object, ...]] = []
        self.told: list[tuple[str, dict[str, object]]] = []
        self.context: dict[str, object] = {}
        self.closed = False
        self.not_kept = ""
        self._conductor: Conductor | None = None
        self._index = 0
        self._start = 0
        self._arrived_ns: int | None = None
        self._lost = 0
        self._paused = False
        self._saturated = False
        self._pending: list[SessionEvent] = []
        self._blocks: list[Block] = []

    # What a test does.

    def advance(self, seconds: float) -> None:
        """Lets time pass, and samples come unless it is silent."""
        self.now_ns += round(seconds * 1e9)
        wanted = (self.now_ns - 1_000_000_000) * self.profile.rate_hz / 1e9
        count = math.floor(wanted + 1e-6) - self._index
        if count <= 0:
            return
        if self.silent:
            self._index += count
            self._lost += count
            return
        index = np.arange(self._index, self._index + count)
        self._index += count
        time_s = (index - self._start) / self.profile.rate_hz
        rows = [self._row(float(t)) for t in time_s]
        self._put(int(index[0]) - self._start, time_s, np.array(rows))

    def pause(self, seconds: float) -> None:
        """Lets time pass in which the board takes no sample, so that none is lost."""
        self.now_ns += round(seconds * 1e9)
        self._index += round(seconds * self.profile.rate_hz)
        self._paused = True

    def _row(self, time_s: float) -> tuple[float, ...]:
        force = self.force_n(time_s)
        if isinstance(force, tuple):
            return force
        count = len(self.profile.channels)
        return (force / count,) * count

    def _put(
        self,
        first: int,
        time_s: np.ndarray[tuple[int], np.dtype[np.float64]],
        force_n: np.ndarray[tuple[int, int], np.dtype[np.float64]],
    ) -> None:
        good = np.array(~np.isnan(force_n).any(axis=1))
        counts = np.nan_to_num(force_n * 1000).astype(np.int32)
        saturated = np.isnan(force_n)
        self._saturated = bool(saturated[-1].any())
        block = Block(
            first,
            self._lost,
            time_s,
            counts,
            force_n,
            force_n,
            good,
            saturated,
            gap=self._lost > 0 or self._paused,
        )
        self._lost, self._paused = 0, False
        self._blocks.append(block)
        self._arrived_ns = self.now_ns
        if self._conductor is not None:
            was_done = self._conductor.done
            self._pending += self._conductor.push(block)
            if self._conductor.done and not was_done:
                self.happen(SetEnded("complete"))

    def happen(self, *events: SessionEvent) -> None:
        self._pending += events

    # What the window does.

    def look_at(self, look_ns: int, told: Callable[[], None] | None = None) -> bool:
        """Nobody waits for it."""
        del look_ns, told
        return False

    def await_blocks(self, told: Callable[[], None], *, within_ns: int) -> bool:
        del told, within_ns
        return False

    def take(self) -> Update:
        update = Update(
            tuple(self._blocks),
            tuple(self._pending),
            self._conductor.state if self._conductor else None,
            Health(
                link=self.link,
                source="simulated rig",
                found=self.found,
                rate_hz=self.profile.rate_hz,
                lost=0,
                damaged=0,
                arrived_ns=self._arrived_ns,
                filter_delay_s=0.0225,
                saturated=self._saturated,
                recording=self._conductor is not None and not self._conductor.done,
                message="" if self.link is Link.LIVE else "The cable is out.",
                other=self.other,
            ),
            self.profile,
            0,
        )
        self._blocks.clear()
        self._pending.clear()
        return update

    def change_athlete(self, code: str) -> None:
        if self._conductor is not None and not self._conductor.done:
            raise UserError(phrase("A set is under way: the athlete stays."))
        self.done.append(("change_athlete", code))
        self.athlete_code, self.athlete_name = code, f"Invented {code}"

    def tell(self, kind: str, content: Mapping[str, object]) -> None:
        self.told.append((kind, dict(content)))

    needs_folder = False

    def record_in(self, folder: Path) -> None:
        self.done.append(("record_in", folder))

    def keep_check(self, report: HealthReport) -> None:
        self.done.append(("keep_check", report.good))

    def begin_set(
        self, prescription: Prescription, context: Mapping[str, object] | None = None
    ) -> None:
        self.done.append(("begin_set", prescription))
        self.context = dict(context or {})
        self._conductor = Conductor(prescription, self.profile)
        self._start = self._index
        self.happen(SetBegun(prescription, self.profile))

    def end_set(self, reason: str = "stop") -> None:
        self.done.append(("end_set", reason))
        if self._conductor is not None and not self._conductor.done:
            self._pending += self._conductor.stop()
            self.happen(SetEnded(reason))

    def change_band(self, band: Band, reason: str = "") -> None:
        self.done.append(("change_band", band, reason))
        if self._conductor is not None:
            old = self._conductor.band
            self._conductor.change(self._conductor.asked.with_band(band))
            now_s = (self._index - self._start) / self.profile.rate_hz
            self.happen(BandChanged(now_s, old, band, reason))

    def change_profile(self, profile: RigProfile) -> None:
        self.done.append(("change_profile", profile))
        self.profile = profile

    def change_terms(self, terms: Terms, reason: str = "") -> None:
        self.done.append(("change_terms", terms, reason))

    def move_gate(self, *, opened: bool, reason: str = "") -> None:
        self.done.append(("move_gate", opened, reason))
        self._pending.append(GateMoved(self._index / RATE_HZ, opened, reason))
        if self._conductor is not None:
            self._conductor.move_gate(opened=opened)

    def use_board(self, other: OtherBoard) -> None:
        self.done.append(("use_board", other))

    def take_zero(self, kind: ZeroKind) -> None:
        self.done.append(("take_zero", kind))

    def note(self, text: str) -> None:
        self.done.append(("note", text))

    def mark_pain(self, level: int) -> None:
        self.done.append(("mark_pain", level))

    def take_back_pain(self, level: int) -> None:
        self.done.append(("take_back_pain", level))

    def close(self) -> None:
        self.closed = True


def steady_pull(
    time_s: float, *, level_n: float = 120.0, hold_s: float = 10.0
) -> tuple[float, float]:
    """A rep each hold + rest, with sway and tremor, a little heavier on the right."""
    period = hold_s + 6.0
    t = time_s % period - 1.0
    rise = 1.0 / (1.0 + math.exp(-(t - 0.35) * 9.0))
    fall = 1.0 / (1.0 + math.exp((t - hold_s - 1.2) * 12.0))
    sway = 4.0 * math.sin(1.9 * t) + 2.5 * math.sin(5.3 * t + 1.0)
    tremor = 0.8 * math.sin(2 * math.pi * 9.3 * t)
    total = 2.0 + (level_n + sway + tremor) * rise * fall
    share = 0.53 + 0.02 * math.sin(0.8 * t)
    return total * (1 - share), total * share
