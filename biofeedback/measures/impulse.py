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
    from_s = np.maximum(time_s[:-1], start_s)
    to_s = np.minimum(time_s[1:], end_s)
    length_s = to_s - from_s
    used = joined & (length_s > 0)
    if not used.any():
        return 0.0
    step_s = np.diff(time_s)[used]
    rise = np.diff(force_n)[used] / step_s
    middle_s = (from_s[used] + to_s[used]) / 2 - time_s[:-1][used]
    return float(np.sum(length_s[used] * (force_n[:-1][used] + rise * middle_s)))
