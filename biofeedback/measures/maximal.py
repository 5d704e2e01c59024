"""The numbers of a maximal trial: its peak, and its best 0.5 s and 1 s mean.

* They are taken from the whole rep, from onset to end, and not from the hold part
  alone: the best second may begin before the clock does.
* Force is calibrated and zeroed but not filtered; between samples it is a straight
  line. The best mean is exact for these lines, however the samples are spaced: it is
  looked for at every place where the mean can have its highest value.
* Across a gap there is no line, so no mean either. A trial with a gap keeps the best
  of its whole stretches.
* Left and right are those of the total's best window, so that they add up to it; each
  side's own best would be of another moment.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.measures.trace import Trace
    from biofeedback.training.crossings import Judged

    Floats: TypeAlias = npt.NDArray[np.float64]

HALF_S = 0.5
ONE_S = 1.0


@dataclass(frozen=True, slots=True)
class MaximalTrial:
    """What a maximal trial reached; None where the trial was too short for it.

    Attributes:
        trial_s: from onset to end.
        trial_peak_n: highest sample of the total, or of the working side.
        trial_peak_at_s: when it was.
        best_half_s_n, best_1_s_n: highest mean over 0.5 s and over 1 s.
        best_half_s_from_s, best_1_s_from_s: when that began.
        left_at_peak_n, right_at_peak_n: the sides at the moment of the peak; None
            where the rig has not both, or one side works alone.
        left_in_half_s_n, right_in_half_s_n: their means in the same 0.5 s.
        left_in_1_s_n, right_in_1_s_n: in the same 1 s.
    """

    trial_s: float
    trial_peak_n: float | None
    trial_peak_at_s: float | None
    best_half_s_n: float | None
    best_half_s_from_s: float | None
    best_1_s_n: float | None
    best_1_s_from_s: float | None
    left_at_peak_n: float | None
    right_at_peak_n: float | None
    left_in_half_s_n: float | None
    right_in_half_s_n: float | None
    left_in_1_s_n: float | None
    right_in_1_s_n: float | None


def maximal_trial(
    trace: Trace, judged: Judged, *, start_s: float, end_s: float, both: bool
) -> MaximalTrial:
    """The numbers of a rep from `start_s` to `end_s`.

    Args:
        trace: must reach from the last sample before the start to the first after
            the end.
        judged: which channels make up the effort.
        both: whether both sides work; else left and right are not told.
    """
    force_n = judged.effort(trace.force_n)
    sides = judged.sides if both else None
    peak = trace.peak(force_n, start_s=start_s, end_s=end_s)
    means = [
        best_mean(
            trace.time_s,
            force_n,
            trace.joined,
            start_s=start_s,
            end_s=end_s,
            width_s=width_s,
        )
        for width_s in (HALF_S, ONE_S)
    ]
    half, one = means
    sided: list[float | None] = []
    for side in sides or (None, None):
        if side is None:
            sided += [None] * 3
            continue
        own_n = trace.force_n[:, side]
        sided.append(float(own_n[peak]) if peak is not None else None)
        for found, width_s in ((half, HALF_S), (one, ONE_S)):
            sided.append(
                None if found is None else _mean(trace, own_n, found[0], width_s)
            )
    left, right = sided[:3], sided[3:]
    return MaximalTrial(
        trial_s=end_s - start_s,
        trial_peak_n=None if peak is None else float(force_n[peak]),
        trial_peak_at_s=None if peak is None else float(trace.time_s[peak]),
        best_half_s_n=half[1] if half else None,
        best_half_s_from_s=half[0] if half else None,
        best_1_s_n=one[1] if one else None,
        best_1_s_from_s=one[0] if one else None,
        left_at_peak_n=left[0],
        right_at_peak_n=right[0],
        left_in_half_s_n=left[1],
        right_in_half_s_n=right[1],
        left_in_1_s_n=left[2],
        right_in_1_s_n=right[2],
    )


def best_mean(
    time_s: Floats,
    force_n: Floats,
    joined: npt.NDArray[np.bool_],
    *,
    start_s: float,
    end_s: float,
    width_s: float,
) -> tuple[float, float] | None:
    """Start and value of the highest mean over `width_s`, the earliest of equals.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,).
        joined: shape (n − 1,); whether sample i and i + 1 are both good with nothing
            lost between them.

    Returns:
        None where no stretch without a gap is as long.
    """
    first = max(0, int(np.searchsorted(time_s, start_s, side="right")) - 1)
    last = min(len(time_s) - 1, int(np.searchsorted(time_s, end_s, side="left")))
    breaks = first + np.flatnonzero(~joined[first:last])
    heads = [first, *(int(at) + 1 for at in breaks)]
    tails = [*(int(at) for at in breaks), last]
    best: tuple[float, float] | None = None
    for head, tail in zip(heads, tails, strict=True):
        piece = slice(head, tail + 1)
        found = _best_of(
            time_s[piece],
            force_n[piece],
            from_s=max(start_s, float(time_s[head])),
            to_s=min(end_s, float(time_s[tail])),
            width_s=width_s,
        )
        if found is not None and (best is None or found[1] > best[1]):
            best = found
    return best


def _best_of(
    time_s: Floats, force_n: Floats, *, from_s: float, to_s: float, width_s: float
) -> tuple[float, float] | None:
    """The same within one stretch, on which force is a line from sample to sample."""
    latest_s = to_s - width_s
    if latest_s < from_s or len(time_s) < 2:
        return None
    # The mean's slope is (f(t + w) − f(t))/w: a line between these places, so the
    # mean is highest at one of them or where the line comes down through zero.
    places = np.concatenate((time_s, time_s - width_s, (from_s, latest_s)))
    places = np.unique(places[(places >= from_s) & (places <= latest_s)])
    rise = np.interp(places + width_s, time_s, force_n) - np.interp(
        places, time_s, force_n
    )
    tops = np.flatnonzero((rise[:-1] > 0) & (rise[1:] < 0))
    share = rise[tops] / (rise[tops] - rise[tops + 1])
    between = places[tops] + share * (places[tops + 1] - places[tops])
    places = np.sort(np.concatenate((places, between)))
    area = _Area(time_s, force_n)
    means = (area.until(places + width_s) - area.until(places)) / width_s
    at = int(np.argmax(means))
    return float(places[at]), float(means[at])


class _Area:
    """∫ force dt from the first sample on, for lines from sample to sample."""

    def __init__(self, time_s: Floats, force_n: Floats) -> None:
        self._time_s, self._force_n = time_s, force_n
        step_s = np.diff(time_s)
        pieces = step_s * (force_n[:-1] + force_n[1:]) / 2
        self._before = np.concatenate(((0.0,), np.cumsum(pieces)))
        self._slope = np.diff(force_n) / step_s

    def until(self, at_s: Floats) -> Floats:
        """Up to each of these times."""
        line = np.searchsorted(self._time_s, at_s, side="right") - 1
        line = np.clip(line, 0, len(self._slope) - 1)
        along_s = at_s - self._time_s[line]
        found: Floats = self._before[line] + along_s * (
            self._force_n[line] + self._slope[line] * along_s / 2
        )
        return found


def _mean(trace: Trace, force_n: Floats, from_s: float, width_s: float) -> float:
    """Mean of a side over a window that holds no gap."""
    first = max(0, int(np.searchsorted(trace.time_s, from_s, side="right")) - 1)
    last = int(np.searchsorted(trace.time_s, from_s + width_s, side="left"))
    piece = slice(first, last + 1)
    area = _Area(trace.time_s[piece], force_n[piece])
    whole = area.until(np.array((from_s, from_s + width_s)))
    return float(whole[1] - whole[0]) / width_s
