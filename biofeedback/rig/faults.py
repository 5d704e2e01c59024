"""Faults that the simulated rig can be asked for, each in its own time."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy.typing as npt


class FaultKind(Enum):
    """What can go wrong."""

    DROP = "drop"  # samples are converted and lost on the way
    FLIP = "flip"  # one bit of each frame arrives wrong
    SATURATE = "saturate"  # a channel is at its stop
    SILENT = "silent"  # the ADC gives no data; the board goes on
    VANISH = "vanish"  # nothing is sent and nothing is heard


@dataclass(frozen=True, slots=True)
class Fault:
    """Something goes wrong from `at_s` on, in seconds since power-up.

    Attributes:
        duration_s: how long; infinite for good.
        channel: which one saturates.
    """

    kind: FaultKind
    at_s: float
    duration_s: float = math.inf
    channel: int = 0


class Faults:
    """What goes wrong and when."""

    def __init__(self, faults: Iterable[Fault] = ()) -> None:
        self._faults = list(faults)

    def add(self, fault: Fault) -> None:
        """One more."""
        self._faults.append(fault)

    def covered(
        self,
        kind: FaultKind,
        times_us: npt.NDArray[np.int64],
        *,
        channel: int | None = None,
    ) -> npt.NDArray[np.bool_]:
        """Which of these moments lie within such a fault, of any channel or one."""
        covered = np.zeros(len(times_us), dtype=np.bool_)
        for fault in self._faults:
            if fault.kind is kind and channel in {None, fault.channel}:
                end_us = (fault.at_s + fault.duration_s) * 1e6
                covered |= (times_us >= fault.at_s * 1e6) & (times_us < end_us)
        return covered

    def covers(self, kind: FaultKind, time_us: int) -> bool:
        """Whether this moment lies within such a fault."""
        return any(
            fault.kind is kind
            and fault.at_s * 1e6 <= time_us < (fault.at_s + fault.duration_s) * 1e6
            for fault in self._faults
        )
