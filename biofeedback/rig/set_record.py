"""The recording of the set under way, as the acquisition thread feeds it.

Nothing here waits or raises (`rig/source.py`). A recording that fails is fed all the
same: what cannot be written now may be written later.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.wire.codec import encode
from biofeedback.wire.frames import SEQUENCE_MODULUS
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.rig.health import Watch
    from biofeedback.rig.source import Recorder
    from biofeedback.wire.frames import Identity, Samples


class SetRecord:
    """Tells the recorder of a set, from its header to its totals.

    Args:
        recorder: keeps the sets, or None.
        watch: counts what was lost and damaged.
    """

    def __init__(self, recorder: Recorder | None, watch: Watch) -> None:
        self._recorder = recorder
        self._watch = watch
        self._open = False
        self._sequence = 0  # of the next sample, as on the wire
        self._lost_before = self._damaged_before = 0

    @property
    def reaches_disk(self) -> bool:
        """Whether a recording is being written, and the disk takes it."""
        return self._open and self._recorder is not None and not self._recorder.failing

    def begin(self, header: dict[str, object], identity: Identity | None) -> None:
        """A set begins, on this board."""
        self._lost_before = self._watch.lost
        self._damaged_before = self._watch.damaged
        if self._recorder is None:
            return
        self._recorder.begin(header)
        self._open = True
        if identity is not None:
            self.put(encode(identity))

    def follow(self, frames: Sequence[Samples | Run]) -> None:
        """These were judged; what is written of an event stands after the last."""
        for samples in reversed(frames):
            if samples.stream == 0:
                if isinstance(samples, Run):
                    after = int(samples.sequence[-1]) + samples.each
                else:
                    after = samples.sequence + len(samples.counts)
                self._sequence = after % SEQUENCE_MODULUS
                return

    def put(self, data: bytes) -> None:
        """Bytes as they came."""
        if self._recorder is not None and self._open:
            self._recorder.put(data)

    def event(self, content: dict[str, object] | None) -> None:
        """Something happened; None for what is not written."""
        if content is not None and self._recorder is not None and self._open:
            self._recorder.event(content, sequence=self._sequence)

    def finish(self, reason: str, *, samples: int, reps: int) -> None:
        """The set is over."""
        if self._recorder is not None and self._open:
            self._recorder.finish(
                {
                    "reason": reason,
                    "samples": samples,
                    "lost": self._watch.lost - self._lost_before,
                    "damaged": self._watch.damaged - self._damaged_before,
                    "reps": reps,
                },
                sequence=self._sequence,
            )
        self._open = False

    def take_failure(self) -> str:
        """Words about what went wrong, or right again, since the last call."""
        return self._recorder.take_failure() if self._recorder is not None else ""
