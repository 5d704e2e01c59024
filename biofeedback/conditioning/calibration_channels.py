"""Which cell answered: whether the load hung where the plan says.

While one cell is loaded the counts of all are looked at. A load on the wrong cell
is the one mistake that no residual shows: both cells then fit beautifully, each
under the other's name.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.calibration_findings import (
    Finding,
    FindingKind,
    Severity,
)
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

SWAPPED_RATIO = 5.0
"""Another cell that answers five times as much as the loaded one has the load."""
SHARED_REFUSED = 0.5
SHARED_WARNED = 0.05
"""Another cell's answer against the loaded one's. A stiff frame leaks some percent
(common practice, no source); half means that the load hangs between the two."""
ANSWER_P = 0.01
"""An answer that chance gives more often than this is none."""


def answers_counts(
    force_n: npt.ArrayLike, counts: npt.ArrayLike
) -> tuple[float, float]:
    """How much a cell moved with the load, over the span of the loads.

    Returns:
        Slope times span in counts, signed, and the chance of as much by noise.
    """
    force = np.asarray(force_n, dtype=np.float64)
    reading = np.asarray(counts, dtype=np.float64)
    if len(force) < 3 or np.ptp(force) == 0:
        return 0.0, 1.0
    if np.ptp(reading) == 0:
        return 0.0, 1.0
    from scipy import stats  # noqa: PLC0415  half a second, and only a calibration asks

    line = stats.linregress(force, reading)
    return float(line.slope * np.ptp(force)), float(line.pvalue)


def check_loaded_channel(
    force_n: npt.ArrayLike,
    counts: npt.ArrayLike,
    *,
    loaded: int,
    names: Sequence[str],
) -> tuple[Finding, ...]:
    """Whether the loaded cell is the one that answered.

    Counts of all channels are compared as they are, so the cells and gains should
    be of about the same kind.

    Args:
        force_n: shape (n,), known forces on the loaded cell.
        counts: shape (n, channels), readings of all cells meanwhile.
        loaded: index of the channel that the plan says is loaded.
        names: of the channels, for the words.
    """
    columns = np.asarray(counts, dtype=np.float64).T
    answers = [answers_counts(force_n, column) for column in columns]
    sizes = [abs(size) if p < ANSWER_P else 0.0 for size, p in answers]
    own = sizes[loaded]
    others = [(size, i) for i, size in enumerate(sizes) if i != loaded]
    other, index = max(others, default=(0.0, loaded))
    if other > SWAPPED_RATIO * own:
        return (_swapped(names[loaded], names[index]),)
    if own == 0:
        return (_silent(names[loaded]),)
    if other > SHARED_WARNED * own:
        return (_shared(names[loaded], names[index], other / own),)
    return ()


def _swapped(loaded: str, answered: str) -> Finding:
    return Finding(
        FindingKind.SWAPPED_CHANNELS,
        Severity.REFUSED,
        phrase(
            "The load should hang on the {loaded} cell, but the "
            "{answered} cell answered.",
            loaded=loaded,
            answered=answered,
        ),
        phrase("Hang it on the other cell, or swap the two plugs."),
    )


def _silent(loaded: str) -> Finding:
    return Finding(
        FindingKind.NO_ANSWER,
        Severity.REFUSED,
        phrase("The {loaded} cell did not answer to the load.", loaded=loaded),
        phrase(
            "Check that the load hangs freely on it and that the cell is connected."
        ),
    )


def _shared(loaded: str, answered: str, share: float) -> Finding:
    refused = share > SHARED_REFUSED
    return Finding(
        FindingKind.LOAD_SHARED,
        Severity.REFUSED if refused else Severity.WARNING,
        phrase(
            "The {answered} cell moved too, {share_pct:.0f} % of the {loaded} cell.",
            answered=answered,
            share_pct=100 * share,
            loaded=loaded,
        ),
        phrase("Let the load hang freely on one cell alone.")
        if refused
        else phrase("Check that nothing joins the two cells but the frame."),
    )
