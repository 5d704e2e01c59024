"""The guide through a calibration: which load is next, and when it may be read.

* A run is the empty rig, each load rising, each load falling, the empty rig.
* A point is the mean of the last second. It may be taken only while the counts
  are still: their spread over that second is held against a limit, as zeroing
  does it, and the cell must have answered to the change of load.
* Nothing is taken by itself; whoever hung the load says so.

No Qt, no clock, no file: blocks go in, and what to show comes out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.calibration_points import Direction
from biofeedback.conditioning.known_load import KnownLoad, Reading
from biofeedback.conditioning.recalibration import slope_of
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile

WINDOW_S = 1.0
"""Long enough to average the mains out and to see a mass swing, as for zero."""
SAMPLES_MIN = 8
SPREAD_PCT = 0.05
"""Largest standard deviation over the window, in % of the rated load: half of what
zeroing allows, because a mass hangs still in the end (common practice, no source)."""
MOVED_SPREADS = 3.0
"""The cell has answered to another load if its mean moved by more than this many
spreads: far less than any mass does, far more than noise of a mean."""
RUNS_MOST = 10
EMPTY = KnownLoad(0.0, mass_kg=0.0)


@dataclass(frozen=True, slots=True)
class Plan:
    """What is to be done.

    Attributes:
        channel: the cell that is loaded, from 0.
        loads: rising, without the empty rig.
        reference: forces are read from a reference cell at each point.
        spread_pct: largest spread of a point, in % of rated load.
    """

    channel: int
    loads: tuple[KnownLoad, ...]
    runs: int = 3
    falling: bool = True
    reference: bool = False
    spread_pct: float = SPREAD_PCT

    def __post_init__(self) -> None:
        if not self.loads:
            raise FieldError("loads", phrase("are missing."))
        if not 1 <= self.runs <= RUNS_MOST:
            raise FieldError(
                "runs", phrase("must be 1 to {runs_most}.", runs_most=RUNS_MOST)
            )

    def steps(self) -> tuple[Step, ...]:
        """All points in order."""
        return tuple(
            Step(load, direction, run)
            for run in range(1, self.runs + 1)
            for load, direction in self._one_run()
        )

    def _one_run(self) -> list[tuple[KnownLoad, Direction]]:
        rising = [(load, Direction.UP) for load in (EMPTY, *self.loads)]
        falling = self.loads[-2::-1] if self.falling else ()
        return [*rising, *((load, Direction.DOWN) for load in (*falling, EMPTY))]


@dataclass(frozen=True, slots=True)
class Step:
    """One point that is to be taken."""

    load: KnownLoad
    direction: Direction
    run: int


@dataclass(frozen=True, slots=True)
class Stillness:
    """The last second of the loaded cell.

    Attributes:
        counts: mean.
        spread_counts: standard deviation of single samples.
        limit_counts: a point may be taken up to this spread.
        share: of the window that is filled, 0 to 1.
        problem: why nothing can be read at all; empty where it can.
    """

    counts: float
    spread_counts: float
    limit_counts: float
    share: float
    problem: str = ""

    @property
    def still(self) -> bool:
        """Whether a point may be taken."""
        return (
            not self.problem
            and self.share >= 1
            and self.spread_counts <= self.limit_counts
        )


class CalibrationGuide:
    """One calibration under way.

    Args:
        profile: of the rig, for rated load, rate and the present calibration,
            which turns the limit into counts.
    """

    def __init__(self, plan: Plan, profile: RigProfile) -> None:
        if not 0 <= plan.channel < len(profile.channels):
            raise FieldError("channel", phrase("is no cell of this rig."))
        self.plan = plan
        self._steps = plan.steps()
        self._rated_n = profile.channels[plan.channel].rated_n
        self._calibration = profile.channels[plan.channel].calibration
        self._wanted = max(SAMPLES_MIN, math.ceil(profile.rate_hz * WINDOW_S))
        self._window: npt.NDArray[np.int32] = np.empty(
            (0, len(profile.channels)), dtype=np.int32
        )
        self._next_index = -1
        self._time_s = 0.0
        self._problem: str = phrase("No samples have come yet.")
        self._readings: list[Reading] = []

    @property
    def readings(self) -> Sequence[Reading]:
        """The points so far."""
        return tuple(self._readings)

    @property
    def step(self) -> Step | None:
        """The point that is next; None when all are taken."""
        done = len(self._readings)
        return self._steps[done] if done < len(self._steps) else None

    @property
    def count(self) -> int:
        """How many points there will be."""
        return len(self._steps)

    # The signal.

    def push(self, block: Block) -> None:
        """Takes the next block."""
        if block.gap or block.lost or block.first_index != self._next_index:
            self._window = self._window[:0]
        self._next_index = block.first_index + len(block)
        self._time_s = float(block.time_s[-1])
        self._problem = ""
        if block.saturated[:, self.plan.channel].any():
            self._problem = phrase(
                "The cell is at its stop: too much load, or its wiring."
            )
        elif not block.good.all():
            self._problem = phrase("The board is settling.")
        if self._problem:
            self._window = self._window[:0]
            return
        self._window = np.concatenate((self._window, block.counts))[-self._wanted :]

    def lose(self, problem: str) -> None:
        """No samples come at present."""
        self._problem = problem
        self._window = self._window[:0]

    @property
    def stillness(self) -> Stillness:
        """How still the loaded cell is."""
        column = self._window[:, self.plan.channel].astype(np.float64)
        count = len(column)
        mean = float(column.mean()) if count else math.nan
        per_count_n = abs(slope_of(self._calibration, mean if count else 0.0))
        return Stillness(
            mean,
            float(column.std(ddof=1)) if count > 1 else math.nan,
            self._rated_n * self.plan.spread_pct / 100 / per_count_n,
            min(1.0, count / self._wanted),
            self._problem,
        )

    # Points.

    def take(self, load: KnownLoad | None = None) -> str:
        """Takes the next point now.

        Args:
            load: what the reference cell shows; None for the planned load.

        Returns:
            Why it was not taken, in words; empty where it was.
        """
        step, now = self.step, self.stillness
        if step is None:
            return phrase("All points are taken.")
        if why := self._why_not(step, now):
            return why
        means = self._window.astype(np.float64).mean(axis=0).tolist()
        self._readings.append(
            Reading(
                step.load if load is None else load,
                means[self.plan.channel],
                step.direction,
                step.run,
                self._time_s,
                now.spread_counts,
                tuple(means[: self.plan.channel] + means[self.plan.channel + 1 :]),
            )
        )
        return ""

    def _why_not(self, step: Step, now: Stillness) -> str:
        if now.problem:
            return now.problem
        if now.share < 1:
            return phrase("Wait until one second of signal has come.")
        if now.spread_counts > now.limit_counts:
            return phrase(
                "Not still yet: the counts spread by {spread_counts:.0f}, "
                "and {limit_counts:.0f} is allowed. Let it come to rest.",
                spread_counts=now.spread_counts,
                limit_counts=now.limit_counts,
            )
        if self._readings and not self._answered(step, now, self._readings[-1]):
            return phrase(
                "The counts have not moved since the last point. See that "
                "the load was changed, and that it hangs on this cell."
            )
        return ""

    def _answered(self, step: Step, now: Stillness, last: Reading) -> bool:
        """Whether the cell moved, where the load should have changed."""
        if last.load.force_n == step.load.force_n:
            return True
        spread = max(now.spread_counts, last.spread_counts or 0.0)
        return abs(now.counts - last.counts) > MOVED_SPREADS * spread

    def take_back(self) -> Reading | None:
        """Takes the last point back and returns it; it is next again."""
        return self._readings.pop() if self._readings else None


def step_words(step: Step, *, cell: str, runs: int, reference: bool = False) -> str:
    """What to do next, in one calm sentence."""
    run = phrase("Run {run} of {runs}. ", run=step.run, runs=runs)
    if step.load.force_n == 0:
        if step.direction is Direction.UP:
            return phrase("{run}Leave the {cell} empty.", run=run, cell=cell)
        return phrase("{run}Take everything off the {cell}.", run=run, cell=cell)
    if reference:
        if step.direction is Direction.UP:
            return phrase(
                "{run}Load the {cell} to about {shown}.",
                run=run,
                cell=cell,
                shown=step.load.shown,
            )
        return phrase(
            "{run}Unload the {cell} to about {shown}.",
            run=run,
            cell=cell,
            shown=step.load.shown,
        )
    if step.direction is Direction.UP:
        return phrase(
            "{run}Hang {shown} on the {cell}.",
            run=run,
            shown=step.load.shown,
            cell=cell,
        )
    return phrase(
        "{run}Go back to {shown} on the {cell}.",
        run=run,
        shown=step.load.shown,
        cell=cell,
    )
