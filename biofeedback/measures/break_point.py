"""The break: where a force begins to fall for good, and how fast it then falls.

In words: lay a straight line from the highest force down to the end of the rep; the
break is the moment at which the force stands highest above that line. In a formula,
with M(t) the mean force over the 0.1 s around t, p the moment of its maximum and e
0.05 s after the end of the rep:

    break = argmax over p ≤ t ≤ e of M(t) − [M(p) + (M(e) − M(p)) (t − p)/(e − p)]

(The end of a rep is known a quarter of a second later, so that much force is there; a
sudden loss has nothing but the end to be seen by. Where nothing follows, e is 0.05 s
before the end.)

The same moment is found by the triangle method for the corner of a curve (Zack, Rogers
and Latt, J. Histochem. Cytochem. 25 (1977) 741-753, from memory, who used it on
histograms).

* No level has to be chosen, so a force that sags slowly and is then let go breaks at
  the letting go; one that falls from its very peak breaks at the peak.
* Force is calibrated and zeroed but not filtered. The mean over 0.1 s has no delay and
  takes out one period of tremor (8 to 12 Hz) and most of the noise; it is exact for
  straight lines between samples, however they are spaced.
* Limits: a sharp corner is dated up to 0.05 s early. Where the force falls from a late
  peak in one straight line there is no corner, and noise may move the break into the
  fall. Of two steps down it is the one with more fall behind it.
* There is no break where the force did not come down to half of its maximum (the rep
  was stopped under load), and none is told where something is missing between the
  maximum and the end: it may lie in the gap.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.measures.impulse import impulse_ns
from biofeedback.measures.maximal import best_mean

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats: TypeAlias = npt.NDArray[np.float64]

STEADY_S = 0.1
"""One period of physiological tremor, 8 to 12 Hz."""


@dataclass(frozen=True, slots=True)
class Break:
    """Where a force broke.

    Attributes:
        break_s: the moment.
        force_n: mean force over the 0.1 s around it.
        fall_n_per_s: how fast it fell from there to half of that force, more than 0.
            A sudden loss cannot look faster than to half within 0.05 s.
    """

    break_s: float
    force_n: float
    fall_n_per_s: float


def break_point(
    time_s: Floats,
    force_n: Floats,
    joined: npt.NDArray[np.bool_],
    *,
    start_s: float,
    end_s: float,
) -> Break | None:
    """The break of a rep from `start_s` to `end_s`; None where none can be told.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,).
        joined: shape (n − 1,); whether sample i and i + 1 are both good with nothing
            lost between them.
    """
    top = best_mean(
        time_s, force_n, joined, start_s=start_s, end_s=end_s, width_s=STEADY_S
    )
    until_s = end_s + STEADY_S
    if time_s[-1] < until_s or not _whole(time_s, joined, end_s, until_s):
        until_s = end_s
    last_s = until_s - STEADY_S
    if top is None or top[0] >= last_s or not _whole(time_s, joined, top[0], until_s):
        return None
    last_n = impulse_ns(time_s, force_n, joined, start_s=last_s, end_s=until_s)
    last_n /= STEADY_S
    if last_n > top[1] / 2 or top[1] <= 0:
        return None
    # What the line loses is added to the force: then the highest mean is the corner.
    slope = (top[1] - last_n) / (last_s - top[0])
    tilted_n = force_n + slope * (time_s - top[0])
    corner = best_mean(
        time_s, tilted_n, joined, start_s=top[0], end_s=until_s, width_s=STEADY_S
    )
    if corner is None:  # there is one at the maximum; rounding may take its window
        return None
    break_s = corner[0] + STEADY_S / 2
    level_n = corner[1] - slope * (break_s - top[0])
    half_s = _down_to(time_s, force_n, level_n / 2, from_s=break_s)
    took_s = max(half_s - break_s, STEADY_S / 2)
    return Break(break_s, level_n, level_n / 2 / took_s)


def _whole(
    time_s: Floats, joined: npt.NDArray[np.bool_], from_s: float, to_s: float
) -> bool:
    """Whether nothing is missing between two moments."""
    lines = (time_s[1:] > from_s) & (time_s[:-1] < to_s)
    return bool(joined[lines].all())


def _down_to(
    time_s: Floats, force_n: Floats, level_n: float, *, from_s: float
) -> float:
    """The first moment from `from_s` on at which the force is at or below a level."""
    after = np.flatnonzero((time_s > from_s) & (force_n <= level_n))
    if not len(after):
        return float(time_s[-1])
    tail = int(after[0])
    head = tail - 1
    if head < 0 or force_n[head] <= level_n:
        return float(max(time_s[max(head, 0)], from_s))
    share = (force_n[head] - level_n) / (force_n[head] - force_n[tail])
    crossed_s = time_s[head] + share * (time_s[tail] - time_s[head])
    return float(max(crossed_s, from_s))
