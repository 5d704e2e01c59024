"""Ways of doing the same piece of work, run in turns, and how they compare.

A machine is never as quick twice. So the ways take turns, call by call, and what is
told is the ratio within a turn: its median, and the range in which half of the turns
lie. A second one of the same way takes its turn too; how far that pair differs (A/A)
is what the machine adds by itself, and no ratio nearer to 1 than that says anything.
"""

from __future__ import annotations

import statistics
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table.

    Attributes:
        spread: lower and upper quartile of the same, where there is one.
        most: what is wanted: the value is to be at most this.
        least: what is wanted: the value is to be at least this.
    """

    part: str
    what: str
    value: float
    unit: str
    spread: tuple[float, float] | None = None
    most: float | None = None
    least: float | None = None
    note: str = ""

    @property
    def reached(self) -> bool | None:
        """Whether what is wanted is reached; None where nothing is."""
        if self.most is not None:
            return self.value <= self.most
        if self.least is not None:
            return self.value >= self.least
        return None


@dataclass(frozen=True, slots=True)
class Turns:
    """Seconds of each way in each turn."""

    seconds: Mapping[str, Sequence[float]]

    def ms(self, way: str) -> float:
        """Median of a way."""
        return 1000 * statistics.median(self.seconds[way])

    def ratio(self, way: str, to: str) -> tuple[float, tuple[float, float]]:
        """How many times as long `way` takes as `to`: median, and quartiles."""
        pairs = zip(self.seconds[way], self.seconds[to], strict=True)
        return middle([a / b for a, b in pairs])


def middle(values: Sequence[float]) -> tuple[float, tuple[float, float]]:
    """Median and quartiles."""
    if len(values) < 4:
        return statistics.median(values), (min(values), max(values))
    low, half, high = statistics.quantiles(values, n=4)
    return half, (low, high)


def in_turns(
    ways: Mapping[str, Callable[[], object]],
    turns: int,
    *,
    before: Callable[[], object] | None = None,
    clock: Callable[[], float] = time.perf_counter,
) -> Turns:
    """Runs each way once a turn, the order turned round in every second turn.

    Args:
        before: each turn; it is not measured.
    """
    seconds: dict[str, list[float]] = {name: [] for name in ways}
    for turn in range(turns):
        if before is not None:
            before()
        for name in reversed(list(ways)) if turn % 2 else ways:
            begun = clock()
            ways[name]()
            seconds[name].append(clock() - begun)
    return Turns(seconds)


def percentile(values: Sequence[float], percent: float) -> float:
    """By the nearest rank."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(percent / 100 * len(ordered)))]
