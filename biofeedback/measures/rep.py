"""All numbers of one rep.

Two windows: the *hold part* runs from onset to the end of the hold and carries
peak, impulse and dose; the *plateau* runs from the first entry into the band to
the end of the hold and carries mean, steadiness, errors and shares. A rep that
never entered the band has its hold part as plateau. Release belongs to neither.

Times come from the rules, which judged the shown force. Forces are calibrated
and zeroed but not filtered: the total, or the working side. Errors are of what
the band applied to; with a band on each side, the errors of both sides together.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.measures.bands import in_force
from biofeedback.measures.cells import Cells
from biofeedback.measures.impulse import impulse_ns
from biofeedback.measures.lowering import Lowering, lowering
from biofeedback.measures.maximal import MaximalTrial, maximal_trial
from biofeedback.measures.steadiness import (
    Steadiness,
    TargetError,
    steadiness,
    target_error,
)
from biofeedback.measures.sure_time import surely_inside_s
from biofeedback.measures.symmetry import (
    SIMULTANEOUS_FORMULA,
    share_pct,
    simultaneous_index_pct,
)
from biofeedback.training.showing import showing
from biofeedback.training.task import Sides, TaskKind

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.measures.trace import Trace
    from biofeedback.training.crossings import Judged
    from biofeedback.training.events import RepRecord
    from biofeedback.training.prescription import Prescription

OVERSHOOT_WITHIN_S = 1.0
"""How long after the first entry a force above the band still is overshoot."""


@dataclass(frozen=True, slots=True)
class Times:
    """When the rep was, and how long it was where, in seconds.

    Attributes:
        surely_inside_s: time inside the guarded band, see `sure_time`; None
            where the rig's uncertainty is not known.
        time_to_enter_s: from onset to the first entry.
        lapses: how many; `lapse_times_s` holds (left, back) of each.
        asked_hold_s: the hold that was asked for, as it stood at its end.
    """

    start_s: float
    entry_s: float | None
    hold_end_s: float
    end_s: float
    below_s: float
    inside_s: float
    surely_inside_s: float | None
    above_s: float
    unbalanced_s: float
    paused_s: float
    time_to_enter_s: float | None
    lapses: int
    lapse_times_s: tuple[tuple[float, float], ...]
    asked_hold_s: float


@dataclass(frozen=True, slots=True)
class Work:
    """How much force there was.

    Attributes:
        peak_n: highest force of the hold part.
        overshoot_n: highest force above the upper edge within 1 s of entry; None
            without entry, or for a band without an upper edge.
        impulse_ns: of the hold part.
        dose_pct_s: impulse in % of the reference, %·s.
    """

    peak_n: float | None
    overshoot_n: float | None
    impulse_ns: float
    dose_pct_s: float | None


@dataclass(frozen=True, slots=True)
class Shares:
    """How the two sides shared the impulse of the plateau.

    Attributes:
        symmetry_index_pct: by `symmetry_formula`; + is right heavier.
    """

    left_share_pct: float | None
    right_share_pct: float | None
    symmetry_index_pct: float | None
    symmetry_formula: str = SIMULTANEOUS_FORMULA


@dataclass(frozen=True, slots=True)
class Signal:
    """How good the signal of the hold part was.

    Attributes:
        samples: number of good samples.
        lost: samples lost.
        saturated: samples with a channel at its stop.
    """

    gaps: int
    samples: int
    lost: int
    saturated: int


@dataclass(frozen=True, slots=True)
class RepMeasures:
    """The numbers that are kept of a rep; None where a group cannot be had.

    Attributes:
        feedback: what was seen of the live force in this rep; reps of different
            sorts are never mixed in one trend.
        error: against the centre of the band that was in force at each sample;
            None for a band without an upper edge.
        band_lower_n, band_upper_n: at the end of the hold part; upper is None
            for a band without one.
        cells: how the cells fared; None where only the force was to be had.
        maximal: of a maximal trial only; other reps do not have its numbers at all.
        lowering: likewise, of a lowering rep only.
    """

    number: int
    outcome: str
    feedback: str
    band_lower_n: float
    band_upper_n: float | None
    times: Times
    work: Work
    steadiness: Steadiness | None
    error: TargetError | None
    shares: Shares | None
    signal: Signal
    cells: Cells | None = None
    maximal: MaximalTrial | None = None
    lowering: Lowering | None = None

    def to_json(self) -> dict[str, object]:
        """One flat JSON object; the numbers of a missing group are null."""
        values: dict[str, object] = {}
        for own in fields(self):
            group = _GROUPS.get(own.name)
            value = getattr(self, own.name)
            if group is None:
                values[own.name] = value
                continue
            if group in _OF_ONE_KIND and value is None:
                continue
            for part in fields(group):
                values[part.name] = None if value is None else getattr(value, part.name)
        values["lapse_times_s"] = [list(pair) for pair in self.times.lapse_times_s]
        # What a recording gives back is lists, and the numbers must be the same.
        return {
            key: list(value) if isinstance(value, tuple) else value
            for key, value in values.items()
        }


_Group: TypeAlias = (
    Times
    | Work
    | Steadiness
    | TargetError
    | Shares
    | Signal
    | Cells
    | MaximalTrial
    | Lowering
)
_GROUPS: dict[str, type[_Group]] = {
    "times": Times,
    "work": Work,
    "steadiness": Steadiness,
    "error": TargetError,
    "shares": Shares,
    "signal": Signal,
    "cells": Cells,
    "maximal": MaximalTrial,
    "lowering": Lowering,
}
_OF_ONE_KIND: set[type[_Group] | None] = {MaximalTrial, Lowering}
"""Left out where a rep is of another kind."""


def kept_measures() -> tuple[tuple[str, str, str], ...]:
    """All numbers that `RepMeasures.to_json` may give: (name, type, group).

    In its order. The type is as annotated; the group is empty for what every rep has.
    """
    kept: dict[str, tuple[str, str, str]] = {}
    for own in fields(RepMeasures):
        group = _GROUPS.get(own.name)
        for part in (own,) if group is None else fields(group):
            told = (part.name, str(part.type), own.name if group else "")
            kept.setdefault(part.name, told)
    return tuple(kept.values())


def measure(
    rep: RepRecord,
    trace: Trace,
    judged: Judged,
    prescription: Prescription,
    *,
    cells: Cells | None = None,
    uncertainty_n: float | None = None,
    raw: bool = False,
) -> RepMeasures:
    """All numbers of `rep`.

    Args:
        rep: what the rules saw.
        trace: must reach from the last sample before the onset to the first
            after the end of the hold.
        judged: which channels the band applied to.
        cells: how the cells fared.
        uncertainty_n: one standard uncertainty of the force, or None.
        raw: whether the rules judged the force without the live filter.
    """
    sure_s = (
        None
        if uncertainty_n is None
        else surely_inside_s(
            rep, trace, judged, prescription, u_n=uncertainty_n, raw=raw
        )
    )
    force_n = judged.effort(trace.force_n)
    plateau_s = rep.start_s if rep.entry_s is None else rep.entry_s
    window = (trace.time_s >= rep.start_s) & (trace.time_s <= rep.hold_end_s)
    held = window & trace.good
    plateau = held & (trace.time_s >= plateau_s)
    reference = prescription.reference
    impulse = impulse_ns(
        trace.time_s, force_n, trace.joined, start_s=rep.start_s, end_s=rep.hold_end_s
    )
    band = rep.bands[-1][1]
    return RepMeasures(
        number=rep.number,
        outcome=rep.outcome.value,
        feedback=showing(prescription, rep.number).value,
        band_lower_n=band.lower_n,
        band_upper_n=None if band.open_above else band.upper_n,
        times=_times(rep, sure_s),
        work=Work(
            peak_n=float(force_n[held].max()) if held.any() else None,
            overshoot_n=_overshoot_n(rep, trace, judged),
            impulse_ns=impulse,
            dose_pct_s=100 * impulse / reference.force_n if reference else None,
        ),
        steadiness=steadiness(trace.time_s[plateau], force_n[plateau]),
        error=_error(rep, trace.time_s[plateau], judged.forces(trace.force_n[plateau])),
        shares=_shares(rep, trace, judged, plateau_s),
        signal=Signal(
            gaps=rep.gaps,
            samples=int(held.sum()),
            lost=int(trace.lost[window].sum()),
            saturated=int(trace.saturated[window].sum()),
        ),
        cells=cells,
        maximal=_maximal(rep, trace, judged, prescription),
        lowering=(
            lowering(rep, trace, judged, prescription)
            if prescription.task.kind is TaskKind.LOWERING
            else None
        ),
    )


def _maximal(
    rep: RepRecord, trace: Trace, judged: Judged, prescription: Prescription
) -> MaximalTrial | None:
    if prescription.task.kind is not TaskKind.MAXIMAL:
        return None
    both = prescription.task.sides is Sides.BOTH
    return maximal_trial(trace, judged, start_s=rep.start_s, end_s=rep.end_s, both=both)


def _times(rep: RepRecord, sure_s: float | None) -> Times:
    return Times(
        start_s=rep.start_s,
        entry_s=rep.entry_s,
        hold_end_s=rep.hold_end_s,
        end_s=rep.end_s,
        below_s=rep.below_s,
        inside_s=rep.inside_s,
        surely_inside_s=sure_s,
        above_s=rep.above_s,
        unbalanced_s=rep.unbalanced_s,
        paused_s=rep.paused_s,
        time_to_enter_s=None if rep.entry_s is None else rep.entry_s - rep.start_s,
        lapses=len(rep.lapses),
        lapse_times_s=tuple((lapse.start_s, lapse.end_s) for lapse in rep.lapses),
        asked_hold_s=rep.hold_s,
    )


def _error(
    rep: RepRecord,
    time_s: npt.NDArray[np.float64],
    forces_n: list[npt.NDArray[np.float64]],
) -> TargetError | None:
    if any(band.open_above for _, band in rep.bands):
        return None
    centres_n = np.array([band.centre_n for _, band in rep.bands])
    target_n = centres_n[in_force(rep, time_s)]
    return target_error(np.concatenate(forces_n), np.tile(target_n, len(forces_n)))


def _overshoot_n(rep: RepRecord, trace: Trace, judged: Judged) -> float | None:
    if rep.entry_s is None or any(band.open_above for _, band in rep.bands):
        return None
    last_s = min(rep.entry_s + OVERSHOOT_WITHIN_S, rep.hold_end_s)
    soon = trace.good & (trace.time_s >= rep.entry_s) & (trace.time_s <= last_s)
    if not soon.any():
        return None
    upper_n = np.array([band.upper_n for _, band in rep.bands])
    edge_n = upper_n[in_force(rep, trace.time_s[soon])]
    over_n = [force_n[soon] - edge_n for force_n in judged.forces(trace.force_n)]
    return max(0.0, float(np.max(over_n)))


def _shares(
    rep: RepRecord, trace: Trace, judged: Judged, plateau_s: float
) -> Shares | None:
    if judged.sides is None:
        return None
    left, right = (
        impulse_ns(
            trace.time_s,
            trace.force_n[:, side],
            trace.joined,
            start_s=plateau_s,
            end_s=rep.hold_end_s,
        )
        for side in judged.sides
    )
    return Shares(
        left_share_pct=share_pct(left, right),
        right_share_pct=share_pct(right, left),
        symmetry_index_pct=simultaneous_index_pct(left, right),
    )
