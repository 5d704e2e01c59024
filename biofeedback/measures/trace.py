"""The trace: force over time, put together from blocks for measuring."""

from __future__ import annotations

from dataclasses import dataclass
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
        joined: shape (n − 1,); neighbours that are both good, nothing lost between.
        gap: shape (n,); whether something is missing just before each.
        lost: shape (n,); samples lost just before each.
        saturated: shape (n,); whether a channel was at its stop.
    """

    time_s: npt.NDArray[np.float64]
    force_n: npt.NDArray[np.float64]
    shown_n: npt.NDArray[np.float64]
    good: npt.NDArray[np.bool_]
    joined: npt.NDArray[np.bool_]
    gap: npt.NDArray[np.bool_]
    lost: npt.NDArray[np.int64]
    saturated: npt.NDArray[np.bool_]

    @classmethod
    def of(cls, blocks: Sequence[Block]) -> Trace:
        """Puts consecutive blocks together; how they were cut does not matter."""
        time_s = np.concatenate([block.time_s for block in blocks])
        good = np.concatenate([block.good for block in blocks])
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
            good=good,
            joined=good[:-1] & good[1:] & ~gap[1:],
            gap=gap,
            lost=lost,
            saturated=np.concatenate([block.saturated.any(axis=1) for block in blocks]),
        )
