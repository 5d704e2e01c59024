"""Batches of samples: what the writers of samples are given, with what was in force.

A batch is some thousand consecutive rows. Samples that were lost are not in it; the
index shows the gap.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.training.band import Band

ROWS = 8192
"""Large enough that the cost of a batch does not count, small beside any memory."""


@dataclass(frozen=True, slots=True, eq=False)
class SampleBatch:
    """Consecutive rows.

    Attributes:
        index: shape (n,), number of each sample from 0, lost ones counted.
        time_s: shape (n,), device time from the first sample.
        gap: shape (n,); whether it does not follow the one before directly.
        counts: shape (n, channels).
        force_n: shape (n, channels); NaN where a sample is not usable.
        saturated: shape (n, channels).
        usable: shape (n,).
        band_lower_n, band_upper_n: shape (n,), edges in force; NaN where there is
            no band, or no upper edge.
        rep: shape (n,), number of the rep; 0 between reps.
    """

    index: npt.NDArray[np.int64]
    time_s: npt.NDArray[np.float64]
    gap: npt.NDArray[np.bool_]
    counts: npt.NDArray[np.int32]
    force_n: npt.NDArray[np.float64]
    saturated: npt.NDArray[np.bool_]
    usable: npt.NDArray[np.bool_]
    band_lower_n: npt.NDArray[np.float64]
    band_upper_n: npt.NDArray[np.float64]
    rep: npt.NDArray[np.int64]

    def __len__(self) -> int:
        return len(self.index)


@dataclass(frozen=True, slots=True)
class InForce:
    """What was asked for and done, over the time of a set.

    Attributes:
        bands: (time, band) from the start on; empty where there was none.
        reps: (start, end, number) of each rep, in order of time.
    """

    bands: Sequence[tuple[float, Band]] = ()
    reps: Sequence[tuple[float, float, int]] = ()

    def edges_n(
        self, time_s: npt.NDArray[np.float64]
    ) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
        """Lower and upper edge at each time; NaN where there is none.

        A band that was moved counts from the sample after the move, as it was judged.
        """
        if not self.bands:
            none = np.full(len(time_s), np.nan)
            return none, none
        starts_s = [start_s for start_s, _ in self.bands]
        at = np.maximum(np.searchsorted(starts_s, time_s, side="left") - 1, 0)
        lower_n = np.array([band.lower_n for _, band in self.bands])
        upper_n = np.array(
            [np.nan if band.open_above else band.upper_n for _, band in self.bands]
        )
        return lower_n[at], upper_n[at]

    def rep_at(self, time_s: npt.NDArray[np.float64]) -> npt.NDArray[np.int64]:
        """Number of the rep at each time, its start and end included; 0 for none."""
        if not self.reps:
            return np.zeros(len(time_s), np.int64)
        starts_s, ends_s, numbers = (
            np.array(part) for part in zip(*self.reps, strict=True)
        )
        at = np.searchsorted(starts_s, time_s, side="right") - 1
        within = (at >= 0) & (time_s <= ends_s[at])
        return np.where(within, numbers[at], 0).astype(np.int64)


def batches(
    blocks: Iterable[Block], in_force: InForce, *, samples: int | None = None
) -> Iterator[SampleBatch]:
    """Puts blocks together.

    Args:
        samples: take this many and no more: a recording may grow meanwhile.
    """
    held: list[Block] = []
    rows = taken = 0
    for block in blocks:
        held.append(block)
        rows += len(block)
        enough = samples is not None and taken + rows >= samples
        if rows < ROWS and not enough:
            continue
        most = rows if samples is None else min(rows, samples - taken)
        if most:
            yield _joined(held, in_force, most)
        taken += most
        held, rows = [], 0
        if enough:
            return
    if held:
        yield _joined(held, in_force, rows)


def _joined(blocks: Sequence[Block], in_force: InForce, most: int) -> SampleBatch:
    kept = slice(0, most)
    time_s = np.concatenate([block.time_s for block in blocks])[kept]
    lower_n, upper_n = in_force.edges_n(time_s)
    index = [block.first_index + np.arange(len(block)) for block in blocks]
    gap = np.zeros(sum(map(len, blocks)), np.bool_)
    gap[np.cumsum([0, *map(len, blocks[:-1])])] = [block.gap for block in blocks]
    return SampleBatch(
        index=np.concatenate(index)[kept],
        time_s=time_s,
        gap=gap[kept],
        counts=np.concatenate([block.counts for block in blocks])[kept],
        force_n=np.concatenate([block.force_n for block in blocks])[kept],
        saturated=np.concatenate([block.saturated for block in blocks])[kept],
        usable=np.concatenate([block.good for block in blocks])[kept],
        band_lower_n=lower_n,
        band_upper_n=upper_n,
        rep=in_force.rep_at(time_s),
    )
