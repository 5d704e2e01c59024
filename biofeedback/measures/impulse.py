"""Impulse: the integral of force over time, with the ends interpolated."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt


def impulse_ns(
    time_s: npt.NDArray[np.float64],
    force_n: npt.NDArray[np.float64],
    joined: npt.NDArray[np.bool_],
    *,
    start_s: float,
    end_s: float,
) -> float:
    """∫ force dt from `start_s` to `end_s` by the trapezoidal rule, in N·s.

    Force is a straight line between joined samples, and the part of a line that
    lies between `start_s` and `end_s` counts. Across a gap nothing is added.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,).
        joined: shape (n − 1,); whether sample i and i + 1 are both good with
            nothing lost between them.
    """
    first = max(0, int(np.searchsorted(time_s, start_s, side="right")) - 1)
    last = int(np.searchsorted(time_s, end_s)) + 1
    time_s, force_n = time_s[first:last], force_n[first:last]
    from_s = np.maximum(time_s[:-1], start_s)
    to_s = np.minimum(time_s[1:], end_s)
    length_s = to_s - from_s
    used = joined[first : last - 1] & (length_s > 0)
    if not used.any():
        return 0.0
    step_s, rise_n, head_n = np.diff(time_s), np.diff(force_n), force_n[:-1]
    middle_s = (from_s + to_s) / 2 - time_s[:-1]
    if not used.all():
        step_s, rise_n, head_n = step_s[used], rise_n[used], head_n[used]
        middle_s, length_s = middle_s[used], length_s[used]
    return float(np.sum(length_s * (head_n + rise_n / step_s * middle_s)))
