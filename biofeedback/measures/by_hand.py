"""Measures of a rep whose times were moved by hand.

The same measures as ever, from other times. Where the force was between them is told by
the crossings that the rules use themselves, so with the times that the rules found the
rules' own numbers come out. The outcome stays what the rules said.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.crossings import Change, Crossings, Pause
from biofeedback.training.events import Lapse, Position

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from biofeedback.measures.trace import Trace
    from biofeedback.training.band import Band
    from biofeedback.training.crossings import Judged, Moment
    from biofeedback.training.events import RepRecord
    from biofeedback.training.levels import Levels
    from biofeedback.training.prescription import Prescription


@dataclass(frozen=True, slots=True)
class Markers:
    """The three times of a rep that can be moved, since the start of the set.

    Attributes:
        entry_s: None where the band was never entered.

    Raises:
        FieldError: they are not in their order.
    """

    onset_s: float
    entry_s: float | None
    hold_end_s: float

    def __post_init__(self) -> None:
        entry_s = self.onset_s if self.entry_s is None else self.entry_s
        if not self.onset_s <= entry_s <= self.hold_end_s:
            raise FieldError(
                "marker",
                phrase("must stay in order: onset, entry, end of the hold."),
            )


def moved(
    rep: RepRecord,
    markers: Markers,
    trace: Trace,
    judged: Judged,
    prescription: Prescription,
) -> RepRecord:
    """The rep with other times, and with what follows from them.

    Args:
        trace: must reach from before the onset to after the end of the hold.
        prescription: gives grace, balance and all but the band.
    """
    spans = tuple(_spans(_moments(rep, trace, judged, prescription)))
    onset_s, end_s = markers.onset_s, markers.hold_end_s
    total = dict.fromkeys(("below_s", "inside_s", "above_s", "unbalanced_s"), 0.0)
    paused_s = 0.0
    for from_s, to_s, levels in spans:
        length_s = min(to_s, end_s) - max(from_s, onset_s)
        if length_s <= 0:
            continue
        if levels is None:
            paused_s += length_s
        elif levels.position is not Position.INSIDE:
            total[f"{levels.position.value}_s"] += length_s
        elif prescription.balance_required and not levels.balanced:
            total["unbalanced_s"] += length_s
        else:
            total["inside_s"] += length_s
    lapses = (
        ()
        if markers.entry_s is None
        else tuple(_lapses(spans, markers.entry_s, end_s, prescription))
    )
    within = (trace.time_s > onset_s) & (trace.time_s <= end_s)
    return replace(
        rep,
        start_s=onset_s,
        entry_s=markers.entry_s,
        hold_end_s=end_s,
        paused_s=paused_s,
        lapses=lapses,
        gaps=int(np.count_nonzero(within & trace.gap)),
        below_s=total["below_s"],
        inside_s=total["inside_s"],
        above_s=total["above_s"],
        unbalanced_s=total["unbalanced_s"],
    )


def _moments(
    rep: RepRecord, trace: Trace, judged: Judged, prescription: Prescription
) -> list[Moment]:
    """What the rules would have been told of this stretch."""
    crossings = Crossings(prescription.with_band(rep.bands[0][1]), judged)
    at: dict[int, Band | None] = {0: None}
    for from_s, band in rep.bands[1:]:
        at[int(np.searchsorted(trace.time_s, from_s))] = band
    cuts = sorted({*at, *np.flatnonzero(trace.gap).tolist(), len(trace.time_s)})
    moments: list[Moment] = []
    for start, end in pairwise(cuts):
        other = at.get(start)
        if other is not None:
            crossings.change(prescription.with_band(other))
        piece = slice(start, end)
        moments += crossings.push(
            trace.time_s[piece],
            trace.shown_n[piece],
            trace.good[piece],
            after_gap=bool(trace.gap[start]),
        )
    moments.append(Pause(float(trace.time_s[-1]), float(trace.time_s[-1])))
    return moments


def _spans(moments: Sequence[Moment]) -> Iterator[tuple[float, float, Levels | None]]:
    """From when, until when, and how the force stood; None for a pause."""
    since_s, levels = 0.0, None
    for moment in moments:
        if isinstance(moment, Change):
            if levels is not None:
                yield since_s, moment.time_s, levels
            since_s, levels = moment.time_s, moment.levels
        elif isinstance(moment, Pause):
            if levels is not None:
                yield since_s, moment.from_s, levels
            yield moment.from_s, moment.to_s, None
            levels = None


def _lapses(
    spans: Sequence[tuple[float, float, Levels | None]],
    entry_s: float,
    end_s: float,
    prescription: Prescription,
) -> Iterator[Lapse]:
    """Times out of the band for longer than the grace."""
    left_s: float | None = None
    for from_s, to_s, levels in spans:
        if to_s <= entry_s or from_s >= end_s or levels is None:
            continue
        inside = levels.position is Position.INSIDE and (
            levels.balanced or not prescription.balance_required
        )
        if not inside and left_s is None:
            left_s = max(from_s, entry_s)
        elif inside and left_s is not None:
            if from_s - left_s > prescription.grace_s:
                yield Lapse(left_s, from_s)
            left_s = None
    if left_s is not None and end_s - left_s > prescription.grace_s:
        yield Lapse(left_s, end_s)
