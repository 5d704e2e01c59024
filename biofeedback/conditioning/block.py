"""The block: consecutive conditioned samples, the unit that travels.

A block never spans a gap. Samples that are saturated or settling stay in it, so
that time goes on, but their force is NaN: never a number.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """Consecutive samples after conditioning. Arrays are read-only.

    Attributes:
        first_index: number of the first sample since the start of the stream;
            lost samples are counted.
        lost: samples lost just before this block.
        time_s: shape (n,), sample time from the device clock; the first sample
            of the stream is at 0.
        counts: shape (n, channels), int32, as the ADC gave them.
        force_n: shape (n, channels), calibrated and zeroed, not filtered; NaN
            where a sample is not to be used.
        shown_n: shape (n, channels), `force_n` after the live filter.
        good: shape (n,), bool; False where a sample is saturated or settling.
        saturated: shape (n, channels), bool.
        gap: True where these samples do not follow the ones before directly:
            after a loss, a restart of the board or a pause.
        restarted: True after a gap of unknown length; `lost` counts 1 for it.
    """

    first_index: int
    lost: int
    time_s: npt.NDArray[np.float64]
    counts: npt.NDArray[np.int32]
    force_n: npt.NDArray[np.float64]
    shown_n: npt.NDArray[np.float64]
    good: npt.NDArray[np.bool_]
    saturated: npt.NDArray[np.bool_]
    gap: bool = False
    restarted: bool = False

    def __len__(self) -> int:
        return len(self.time_s)


# A dozen flags are a dozen bytes. To reduce an array takes ten times as long, and a
# hundred times as long where the thread has just slept.


def any_set(flags: npt.NDArray[np.bool_]) -> bool:
    """Whether one of them is."""
    return b"\1" in flags.tobytes()


def all_set(flags: npt.NDArray[np.bool_]) -> bool:
    """Whether each is."""
    return b"\0" not in flags.tobytes()
