"""How the cells fared in a rep: rest force before and after, load, stuck channels.

Forces are calibrated, zeroed and not filtered, so the rest force *is* how far the
zero has walked, or what still rests on the cell. Rest is the quietest half second
of the two seconds before the onset, and the end of the quarter of a second in
which the force stayed low after the rep; where nothing was quiet there was no
rest and no number.

What the windows hold is set by time alone, so that live and replay agree to the
last bit however the stream was cut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy.typing as npt

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.measures.stillness import Stuck
    from biofeedback.measures.trace import Trace
    from biofeedback.training.events import RepRecord

    Floats = npt.NDArray[np.float64]

BEFORE_S = 2.0
"""Rest is looked for this long before the onset."""
CLEAR_S = 0.1
"""And not in this last part: the force is on its way up."""
QUIET_S = 0.5
AFTER_S = 0.15
"""The last part of the 0.25 s for which the force stays low to end a rep."""
SPREAD_PCT = 0.1
"""Standard deviation at rest, in % of the rated load, as for taking zero; common
practice, no source."""
SAMPLES_MIN = 4


@dataclass(frozen=True, slots=True)
class Cells:
    """How the cells fared.

    Attributes:
        rest_before_n: force of each channel at rest before the rep; None where
            there was no rest.
        rest_after_n: the same after it.
        zero_drift_n: after less before, of the channel where that is most.
        rated_peak_pct: highest load of any cell in % of its rated load.
        near_rated: names of the channels at `RigProfile.near_rated_pct` or more.
        stuck: names of the channels that gave one number for too long.
    """

    rest_before_n: tuple[float, ...] | None
    rest_after_n: tuple[float, ...] | None
    zero_drift_n: float | None
    rated_peak_pct: float | None
    near_rated: tuple[str, ...]
    stuck: tuple[str, ...]


def cells(
    rep: RepRecord,
    trace: Trace,
    profile: RigProfile,
    *,
    told_s: float,
    stuck: Iterable[Stuck] = (),
) -> Cells:
    """How the cells fared in `rep`.

    Args:
        rep: what the rules saw.
        trace: from `BEFORE_S` before the onset to `told_s`.
        profile: tells rated loads and names.
        told_s: when the end of the rep was told.
        stuck: what was found stuck up to then.
    """
    names = [channel.words for channel in profile.channels]
    before_n = _before(rep, trace, profile)
    after_n = _after(rep, trace, profile, told_s=told_s)
    loads_pct = _loads_pct(rep, trace, profile, told_s=told_s)
    near_pct = profile.near_rated_pct
    # What was found later in the same block must not depend on how it was cut.
    held = {
        one.channel
        for one in stuck
        if one.time_s <= told_s and one.until_s >= rep.start_s
    }
    return Cells(
        rest_before_n=before_n,
        rest_after_n=after_n,
        zero_drift_n=_most(before_n, after_n),
        rated_peak_pct=max(loads_pct) if loads_pct else None,
        near_rated=tuple(
            name
            for name, load_pct in zip(names, loads_pct, strict=False)
            if load_pct >= near_pct
        ),
        stuck=tuple(names[channel] for channel in sorted(held)),
    )


def _before(
    rep: RepRecord, trace: Trace, profile: RigProfile
) -> tuple[float, ...] | None:
    """The quietest half second before the onset."""
    from_s, to_s = rep.start_s - BEFORE_S, rep.start_s - CLEAR_S
    window = _window(trace, from_s, to_s)
    length = max(SAMPLES_MIN, math.ceil(QUIET_S * profile.rate_hz))
    force_n, time_s = trace.force_n[window], trace.time_s[window]
    if len(force_n) < length:
        return None
    step = max(1, length // 8)
    parts = np.lib.stride_tricks.sliding_window_view(force_n, length, axis=0)[::step]
    spreads_n = parts.std(axis=2)  # NaN where a sample is not good
    ends_s, starts_s = (
        time_s[length - 1 :: step],
        time_s[: len(time_s) - length + 1 : step],
    )
    spreads_n[ends_s - starts_s > 2 * QUIET_S] = np.nan  # something is missing in it
    worst_pct = (100 * spreads_n / _rated_n(profile)).max(axis=1)
    if np.isnan(worst_pct).all():
        return None
    best = int(np.nanargmin(worst_pct))
    if worst_pct[best] > SPREAD_PCT:
        return None
    return tuple(parts[best].mean(axis=1).tolist())


def _after(
    rep: RepRecord, trace: Trace, profile: RigProfile, *, told_s: float
) -> tuple[float, ...] | None:
    """The end of the time in which the force stayed low."""
    from_s = told_s - AFTER_S
    if from_s < rep.end_s:
        return None  # stopped with the force still on
    window = _window(trace, from_s, told_s)
    force_n = trace.force_n[window]
    if len(force_n) < SAMPLES_MIN or not trace.good[window].all():
        return None
    spreads_pct = 100 * force_n.std(axis=0) / _rated_n(profile)
    if spreads_pct.max() > SPREAD_PCT:
        return None
    return tuple(force_n.mean(axis=0).tolist())


def _most(
    before_n: tuple[float, ...] | None, after_n: tuple[float, ...] | None
) -> float | None:
    if before_n is None or after_n is None:
        return None
    walks_n = [after - before for before, after in zip(before_n, after_n, strict=True)]
    return max(walks_n, key=abs)


def _loads_pct(
    rep: RepRecord, trace: Trace, profile: RigProfile, *, told_s: float
) -> list[float]:
    """Highest load of each cell in the rep, in % of its rated load."""
    window = _window(trace, rep.start_s, told_s)
    good, force_n = trace.good[window], trace.force_n[window]
    if not good.any():
        return []
    if not good.all():
        force_n = force_n[good]
    peaks_n = np.abs(force_n).max(axis=0)
    loads_pct: list[float] = (100 * peaks_n / _rated_n(profile)).tolist()
    return loads_pct


def _window(trace: Trace, from_s: float, to_s: float) -> slice:
    """The samples between two times, both included."""
    first, last = (
        np.searchsorted(trace.time_s, from_s),
        np.searchsorted(trace.time_s, to_s, side="right"),
    )
    return slice(int(first), int(last))


def _rated_n(profile: RigProfile) -> Floats:
    return np.array([channel.rated_n for channel in profile.channels])
