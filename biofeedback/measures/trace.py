"""The trace: force over time, put together from blocks for measuring."""

from __future__ import annotations

import math
from collections import deque
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.block import Block


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """Force over time, put together from blocks.

    Attributes:
        time_s: shape (n,).
        force_n: shape (n, channels), not filtered; NaN where not good.
        shown_n: shape (n, channels), after the live filter; NaN likewise.
        gap: shape (n,); whether something is missing just before each.
        lost: shape (n,); samples lost just before each.
        saturated: shape (n,); whether a channel was at its stop.
    """

    time_s: npt.NDArray[np.float64]
    force_n: npt.NDArray[np.float64]
    shown_n: npt.NDArray[np.float64]
    good: npt.NDArray[np.bool_]
    gap: npt.NDArray[np.bool_]
    lost: npt.NDArray[np.int64]
    saturated: npt.NDArray[np.bool_]

    @property
    def joined(self) -> npt.NDArray[np.bool_]:
        """Shape (n − 1,); neighbours that are both good, nothing lost between."""
        return self.good[:-1] & self.good[1:] & ~self.gap[1:]

    def peak(
        self, force_n: npt.NDArray[np.float64], *, start_s: float, end_s: float
    ) -> int | None:
        """Number of the highest good sample of `force_n`; None where there is none.

        Args:
            force_n: shape (n,), worked out from the forces of this trace.
            start_s: of the window, included.
            end_s: likewise.
        """
        window = self.good & (self.time_s >= start_s) & (self.time_s <= end_s)
        inside = np.flatnonzero(window)
        if not len(inside):
            return None
        return int(inside[np.argmax(force_n[inside])])

    @classmethod
    def of(cls, blocks: Sequence[Block]) -> Trace:
        """Puts consecutive blocks together; how they were cut does not matter."""
        time_s = np.concatenate([block.time_s for block in blocks])
        lost = np.zeros(len(time_s), dtype=np.int64)
        gap = np.zeros(len(time_s), dtype=np.bool_)
        at = 0
        for block in blocks:
            lost[at], gap[at] = block.lost, block.gap
            at += len(block)
        return cls(
            time_s=time_s,
            force_n=np.concatenate([block.force_n for block in blocks]),
            shown_n=np.concatenate([block.shown_n for block in blocks]),
            good=np.concatenate([block.good for block in blocks]),
            gap=gap,
            lost=lost,
            saturated=np.concatenate([block.saturated.any(axis=1) for block in blocks]),
        )

    def part(self, samples: slice) -> Trace:
        """These samples, as they lie here."""
        return Trace(*(getattr(self, part.name)[samples] for part in fields(self)))

    @classmethod
    def joining(cls, traces: Sequence[Trace]) -> Trace:
        """Consecutive traces as one."""
        return cls(
            *(
                np.concatenate([getattr(trace, part.name) for trace in traces])
                for part in fields(cls)
            )
        )


PIECE_BLOCKS = 256
"""A block of its own costs some 1,000 bytes beside its samples."""
PIECE_SAMPLES = 4096
"""A replay's blocks are long: what a rep needs no more must not be carried along."""


class TraceStore:
    """Keeps the newest blocks, in little memory, until they are asked for."""

    def __init__(self) -> None:
        self._pieces: deque[Trace] = deque()
        self._blocks: list[Block] = []
        self._samples = 0  # in these

    def push(self, block: Block) -> None:
        """Keeps the next block."""
        self._blocks.append(block)
        self._samples += len(block)
        if len(self._blocks) == PIECE_BLOCKS or self._samples >= PIECE_SAMPLES:
            self._pieces.append(Trace.of(self._blocks))
            self._blocks, self._samples = [], 0

    def forget(self, *, before_s: float) -> None:
        """Lets go of what is older, as far as whole pieces are."""
        while self._pieces and self._pieces[0].time_s[-1] < before_s:
            self._pieces.popleft()

    def trace(self, *, from_s: float = -math.inf, to_s: float = math.inf) -> Trace:
        """What is kept of this time, and one sample before and after it."""
        newest = [Trace.of(self._blocks)] if self._blocks else []
        kept = [*self._pieces, *newest]
        while len(kept) > 1 and kept[1].time_s[0] < from_s:
            del kept[0]
        while len(kept) > 1 and kept[-2].time_s[-1] > to_s:
            del kept[-1]
        first = int(np.searchsorted(kept[0].time_s, from_s)) - 1
        kept[0] = kept[0].part(slice(max(0, first), None))
        last = int(np.searchsorted(kept[-1].time_s, to_s, side="right"))
        kept[-1] = kept[-1].part(slice(last + 1))
        return kept[0] if len(kept) == 1 else Trace.joining(kept)
