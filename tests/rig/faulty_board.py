"""A simulated board that goes wrong in ways a stream can without falling silent.

Each is a true board up to a moment of its own time; from then on its frames of samples
are changed on their way out.
"""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage, Samples

if TYPE_CHECKING:
    from biofeedback.rig.force_input import ForceInput

LATE_US = 2_000_000


class Goes(Enum):
    """What becomes of the frames."""

    SAME_COUNTS = "the converter is frozen"
    SAME_LEFT = "one converter is frozen"
    SAME_FRAME = "the same frame is sent over and over"
    SAME_TIME = "device time stands still"
    LATE = "all comes two seconds late from now on"
    LOOPED = "a second of frames comes again and again"


class FaultyBoard(SimulatedRig):
    """Goes wrong at `at_s` of its time."""

    def __init__(
        self, goes: Goes, *, at_s: float, force: ForceInput | None = None
    ) -> None:
        super().__init__(RigSettings(), seed=3, force=force)
        self._goes, self._at_us = goes, round(at_s * 1e6)
        self._told = Decoder()
        self._waiting: list[Samples] = []
        self._last: Samples | None = None
        self._loop: list[Samples] = []
        self._step = 0

    def advance(self, duration_us: int) -> bytes:
        """What it sends, as it goes wrong."""
        sent = super().advance(duration_us)
        out = bytearray()
        for frame in self._told.push(sent):
            if isinstance(frame, Samples):
                for one in self._changed(frame):
                    out += encode(one)
            elif not isinstance(frame, Damage):
                out += encode(frame)
        return bytes(out)

    def _changed(self, frame: Samples) -> list[Samples]:
        if self.now_us < self._at_us:
            self._last = frame
            self._loop = [*self._loop, frame][-80:]
            return [frame]
        last = self._last
        assert last is not None
        if self._goes is Goes.LATE:
            return self._late(frame)
        counts, loop = frame.counts.copy(), self._loop
        self._step += 1
        left = counts.copy()
        left[:, 0] = last.counts[-1, 0]
        counts[:] = last.counts[-1]
        return [
            {
                Goes.SAME_COUNTS: replace(frame, counts=counts),
                Goes.SAME_LEFT: replace(frame, counts=left),
                Goes.SAME_FRAME: last,
                Goes.SAME_TIME: replace(frame, time_us=last.time_us),
                Goes.LOOPED: loop[self._step % len(loop)],
            }[self._goes]
        ]

    def _late(self, frame: Samples) -> list[Samples]:
        self._waiting.append(frame)
        due_us = self.now_us - LATE_US
        ready = [one for one in self._waiting if one.time_us <= due_us]
        self._waiting = self._waiting[len(ready) :]
        return ready
