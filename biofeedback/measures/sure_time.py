"""Time surely inside: how long the true force was inside, the rig's doubt allowed.

The hold rules take the shown force for the force (simple acceptance). Beside
their time inside stands the time inside the band that is drawn in by a guard of
w = 2u at each edge (JCGM 106:2012, guarded acceptance; see `guard_band`). It is
never the longer of the two and never decides a rep.

It judges the very lines that the rules judge: the shown force of what the band
applies to, straight between samples, with each band from the moment at which it
took effect, and with the balance where that is required. With no doubt at all it
is the rules' own time inside.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.bands import in_force
from biofeedback.measures.guard_band import GuardBand

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.measures.trace import Trace
    from biofeedback.training.band import Band
    from biofeedback.training.crossings import Judged
    from biofeedback.training.events import RepRecord
    from biofeedback.training.prescription import Prescription

    Floats = npt.NDArray[np.float64]


def surely_inside_s(
    rep: RepRecord,
    trace: Trace,
    judged: Judged,
    prescription: Prescription,
    *,
    u_n: float,
    raw: bool = False,
) -> float:
    """Seconds of the hold part in which the force was surely inside.

    Args:
        rep: what the rules saw.
        trace: as for `measures.rep.measure`.
        judged: which channels the band applied to.
        prescription: says whether the balance counts.
        u_n: one standard uncertainty of the force; 0 for no doubt.
        raw: whether the rules judged the force without the live filter.
    """
    force_n = trace.force_n if raw else trace.shown_n
    start_s, length_s = trace.time_s[:-1], np.diff(trace.time_s)
    # The part of each line that belongs to the hold, from 0 to 1 along it.
    first = np.clip((rep.start_s - start_s) / length_s, 0.0, 1.0)
    last = np.clip((rep.hold_end_s - start_s) / length_s, 0.0, 1.0)
    total_s = 0.0
    which = in_force(rep, start_s)
    for index, (_, band) in enumerate(rep.bands):
        guarded = band if u_n == 0 else GuardBand.of(band, u_n=u_n).guarded
        if guarded is None:
            continue  # nothing of this band is surely inside
        lines = trace.joined & (which == index) & (last > first)
        low, high = first[lines], last[lines]
        for room_n in _rooms_n(force_n, judged, prescription, guarded):
            low, high = narrowed(room_n[:-1][lines], room_n[1:][lines], low, high)
        total_s += float(np.sum(length_s[lines] * np.maximum(high - low, 0.0)))
    return total_s


def _rooms_n(
    force_n: Floats, judged: Judged, prescription: Prescription, band: Band
) -> list[Floats]:
    """Distances to all that must be kept; inside where none is below 0.

    Each is a straight line in the forces, and so between two samples in time.
    """
    rooms_n: list[Floats] = []
    for judged_n in judged.forces(force_n):
        rooms_n.append(judged_n - band.lower_n)
        if not band.open_above:
            rooms_n.append(band.upper_n - judged_n)
    points = prescription.balance_tolerance_points
    if prescription.balance_required and points is not None and judged.sides:
        left_n, right_n = (force_n[:, side] for side in judged.sides)
        allowed_n = points / 50.0 * (left_n + right_n)
        rooms_n += [allowed_n - (left_n - right_n), allowed_n - (right_n - left_n)]
    return rooms_n


def narrowed(
    head_n: Floats, tail_n: Floats, low: Floats, high: Floats
) -> tuple[Floats, Floats]:
    """What is left of `low` to `high` on lines where the room is not below 0."""
    fall = head_n - tail_n
    level = fall == 0
    crossing = np.divide(head_n, np.where(level, 1.0, fall))
    low = np.where(~level & (fall < 0), np.maximum(low, crossing), low)
    high = np.where(~level & (fall > 0), np.minimum(high, crossing), high)
    return low, np.where(level & (head_n < 0), low, high)
