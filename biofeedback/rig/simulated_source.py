"""The simulated rig as a source, in real time or stepped by hand.

In real time it follows the monotonic clock. Stepped, each read lets a fixed time
pass and never waits, which is how tests run and pictures are made.
"""

from __future__ import annotations

import threading
import time
from typing import TYPE_CHECKING, Protocol, runtime_checkable

from biofeedback.phrase import phrase
from biofeedback.rig.effort import Effort
from biofeedback.training.changes import Terms

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.rig.simulated_athlete import SimulatedAthlete
    from biofeedback.rig.simulated_rig import SimulatedRig
    from biofeedback.training.prescription import Prescription

READ_WAIT_US = 20_000
"""A read waits no longer, so that its thread can be told things."""
CATCH_UP_US = 1_000_000
"""After a stall at most this much is made up in one read; the rest follows."""


@runtime_checkable
class Listens(Protocol):
    """A source with somebody behind it who can be told what to do."""

    def prescribe(self, prescription: Prescription | None) -> None:
        """What is asked for from now on; None when the set is over."""


class SimulatedSource:
    """A board and an athlete without either.

    Args:
        rig: the board.
        athlete: who pulls on it and is told the prescription; None where a
            script pulls.
        step_us: device time of each read; None for real time.
        clock: monotonic nanoseconds, for real time.
    """

    def __init__(
        self,
        rig: SimulatedRig,
        *,
        athlete: SimulatedAthlete | None = None,
        step_us: int | None = None,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self._rig = rig
        self._athlete = athlete
        self._step_us = step_us
        self._clock = clock
        self._origin_ns: int | None = None
        self._cancelled = threading.Event()
        self._prescription: Prescription | None = None

    @property
    def name(self) -> str:
        """For people."""
        return phrase("simulated rig")

    @property
    def found(self) -> str:
        """What there is to be found: that nobody is pulling."""
        who = (
            phrase("an invented athlete")
            if self._athlete
            else phrase("a scripted force")
        )
        return phrase("{rate_hz:g} Hz, {who}", rate_hz=self._rig.rate_hz, who=who)

    @property
    def paced(self) -> bool:
        """Whether it runs in real time."""
        return self._step_us is None

    def open(self) -> None:
        """Sets time going; a rig that was closed goes on where it was."""
        self._cancelled.clear()
        self._origin_ns = self._clock() - 1000 * self._rig.now_us

    def read(self) -> bytes:
        """What the board has sent since the last read."""
        if self._step_us is not None:
            return self._rig.advance(self._step_us)
        behind_us = self._behind_us()
        wait_us = min(self._rig.due_us - self._rig.now_us - behind_us, READ_WAIT_US)
        if wait_us > 0 and self._cancelled.wait(wait_us / 1e6):
            self._cancelled.clear()
        return self._rig.advance(min(max(0, self._behind_us()), CATCH_UP_US))

    def write(self, data: bytes) -> None:
        """Tells the board something."""
        self._rig.receive(data)

    def prescribe(self, prescription: Prescription | None) -> None:
        """Tells the athlete.

        A moved band is followed, and other times are kept to; all else is begun anew.
        """
        before, self._prescription = self._prescription, prescription
        if self._athlete is None:
            return
        now_us = self._rig.now_us
        if prescription is None:
            self._athlete.stop(now_us=now_us)
        elif before is not None and prescription.with_band(before.band) == before:
            self._athlete.shift(Effort.from_prescription(prescription), now_us=now_us)
        elif before is not None and Terms.of(before).applied_to(prescription) == before:
            self._athlete.retime(Effort.from_prescription(prescription))
        else:
            self._athlete.begin(Effort.from_prescription(prescription), now_us=now_us)

    def cancel(self) -> None:
        """Ends a waiting read at once; safe from another thread."""
        self._cancelled.set()

    def close(self) -> None:
        """Stops time."""
        self._origin_ns = None

    def _behind_us(self) -> int:
        """How far the rig is behind the clock."""
        if self._origin_ns is None:
            return 0
        return (self._clock() - self._origin_ns) // 1000 - self._rig.now_us
