"""Scripted force for the tests: samples written out, cut into blocks, judged.

Shown force and force are the same here: no filter stands between the script and
the rules.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.block import Block
from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
)
from biofeedback.training.band import Band
from biofeedback.training.conductor import Conductor
from biofeedback.training.events import RepEnded, RepRecord
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    import numpy.typing as npt

    from biofeedback.training.events import TrainingEvent

ONE_CELL = (Side.SINGLE,)
TWO_CELLS = (Side.LEFT, Side.RIGHT)


def rig(sides: Sequence[Side]) -> RigProfile:
    """A rig with one cell for each of `sides`."""
    cell = Calibration((0.0, 1.0))
    return RigProfile(
        name="test rig",
        channels=tuple(Channel(side.value, side, cell, 2000.0) for side in sides),
        rate_hz=1000.0,
        zero=Zero.none(len(sides)),
    )


def asked(lower_n: float, upper_n: float, hold_s: float) -> Prescription:
    """A hold in a band; all else as the program has it."""
    return Prescription(
        task=Task("test task"), band=Band(lower_n, upper_n), hold_s=hold_s
    )


@dataclass(frozen=True, slots=True, eq=False)
class Script:
    """Samples, one row each.

    Attributes:
        time_s: shape (n,).
        force_n: shape (n, channels).
        good: shape (n,).
        lost: shape (n,); samples lost just before each.
        saturated: shape (n, channels).
        bands: index of a sample, and the band that takes effect there.
    """

    time_s: npt.NDArray[np.float64]
    force_n: npt.NDArray[np.float64]
    good: npt.NDArray[np.bool_]
    lost: npt.NDArray[np.int64]
    saturated: npt.NDArray[np.bool_]
    bands: tuple[tuple[int, Band], ...] = ()

    @classmethod
    def of(
        cls,
        time_s: npt.ArrayLike,
        force_n: npt.ArrayLike,
        *,
        good: npt.ArrayLike | None = None,
        lost: npt.ArrayLike | None = None,
        bands: tuple[tuple[int, Band], ...] = (),
    ) -> Script:
        """Samples as given; a flat list of forces is one cell."""
        time = np.asarray(time_s, dtype=np.float64)
        force = np.array(force_n, dtype=np.float64)
        force = force.reshape(len(time), -1)
        usable = np.ones(len(time), bool) if good is None else np.asarray(good, bool)
        force[~usable] = np.nan
        gone = np.zeros(len(time), np.int64) if lost is None else np.asarray(lost)
        stuck = np.repeat(~usable[:, None], force.shape[1], axis=1)
        return cls(time, force, usable, gone, stuck, bands)

    @classmethod
    def lines(
        cls,
        *corners: tuple[float, ...],
        rate_hz: float = 100.0,
        bands: tuple[tuple[float, Band], ...] = (),
    ) -> Script:
        """Straight lines between corners (time in s, force in N of each cell).

        Args:
            corners: the first is the first sample.
            rate_hz: of the samples.
            bands: time of a sample, and the band that takes effect there.
        """
        knots = np.asarray(corners, dtype=np.float64)
        count = round((knots[-1, 0] - knots[0, 0]) * rate_hz) + 1
        time_s = knots[0, 0] + np.arange(count) / rate_hz
        force_n = np.column_stack(
            [np.interp(time_s, knots[:, 0], column) for column in knots[:, 1:].T]
        )
        at = tuple(
            (int(np.argmin(np.abs(time_s - when_s))), band) for when_s, band in bands
        )
        return cls.of(time_s, force_n, bands=at)

    def without(self, from_s: float, to_s: float) -> Script:
        """The same with the samples strictly between two times lost."""
        kept = (self.time_s <= from_s + 1e-9) | (self.time_s >= to_s - 1e-9)
        lost = self.lost[kept].copy()
        lost[np.flatnonzero(self.time_s[kept] >= to_s - 1e-9)[0]] += np.sum(~kept)
        return Script.of(
            self.time_s[kept],
            self.force_n[kept],
            good=self.good[kept],
            lost=lost,
            bands=self.bands,
        )

    def saturated_between(self, from_s: float, to_s: float) -> Script:
        """The same with the samples strictly between two times at the stop."""
        good = (self.time_s <= from_s + 1e-9) | (self.time_s >= to_s - 1e-9)
        return replace(
            Script.of(self.time_s, self.force_n, good=good, lost=self.lost),
            bands=self.bands,
        )

    def block(self, start: int, end: int) -> Block:
        """Samples `start` to `end` as one block."""
        force_n = self.force_n[start:end]
        return Block(
            first_index=start + int(self.lost[: start + 1].sum()),
            lost=int(self.lost[start]),
            time_s=self.time_s[start:end],
            counts=np.zeros(force_n.shape, np.int32),
            force_n=force_n,
            shown_n=force_n,
            good=self.good[start:end],
            saturated=self.saturated[start:end],
            gap=bool(self.lost[start]),
        )

    def blocks(self, cuts: Iterable[int] = ()) -> list[Block]:
        """Blocks that begin at `cuts`, at gaps and where a band takes effect."""
        borders = {0, *cuts, *np.flatnonzero(self.lost).tolist()}
        borders |= {index for index, _ in self.bands}
        starts = sorted(border for border in borders if border < len(self.time_s))
        ends = [*starts[1:], len(self.time_s)]
        return [self.block(a, b) for a, b in zip(starts, ends, strict=True)]


def conduct(
    script: Script,
    prescription: Prescription,
    *,
    sides: Sequence[Side] | None = None,
    cuts: Iterable[int] = (),
    stop: bool = True,
    acts: Sequence[tuple[int, Callable[[Conductor], object]]] = (),
) -> list[TrainingEvent]:
    """Runs a set over the script; all events.

    Args:
        acts: index of a sample, and what is done to the conductor before it comes.
    """
    if sides is None:
        sides = ONE_CELL if script.force_n.shape[1] == 1 else TWO_CELLS
    conductor = Conductor(prescription, rig(sides))
    starting = {float(script.time_s[index]): band for index, band in script.bands}
    events: list[TrainingEvent] = []
    due = sorted(acts, key=lambda act: act[0])
    for block in script.blocks({*cuts, *(index for index, _ in acts)}):
        while due and script.time_s[due[0][0]] <= block.time_s[0]:
            due.pop(0)[1](conductor)
        band = starting.get(float(block.time_s[0]))
        if band is not None:
            conductor.change(conductor.asked.with_band(band))
        events += conductor.push(block)
    if stop:
        events += conductor.stop()
    return events


def reps(events: Iterable[TrainingEvent]) -> list[RepRecord]:
    """The records among `events`."""
    return [event.rep for event in events if isinstance(event, RepEnded)]
