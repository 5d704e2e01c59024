"""Which band was in force when."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.training.events import RepRecord


def in_force(rep: RepRecord, time_s: npt.NDArray[np.float64]) -> npt.NDArray[np.intp]:
    """Index into `rep.bands` of the band in force at each time.

    Each band is in force from the moment at which it took effect on; before the first
    of them the first is.
    """
    starts_s = [start_s for start_s, _ in rep.bands]
    found = np.searchsorted(starts_s, time_s, side="right") - 1
    return np.maximum(found, 0)
