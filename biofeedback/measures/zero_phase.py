"""Zero phase: a force smoothed without being delayed, for looking and never for onset.

A Butterworth filter of order 2 is run forward and backward, so nothing is delayed, at
the price of a force that begins to move before it did. Two passes halve the power
twice: each is designed at cut-off / 0.802243, so that both together have −3 dB where it
is said (Winter, *Biomechanics and Motor Control of Human Movement*). The quotient is
one of tangents, tan(π f / rate), on which the bilinear transform lays the frequencies;
taken of the frequencies themselves, at 80 Hz a cut-off of 10 Hz would be a higher one.
A gap ends a stretch: nothing is smoothed across it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

ORDER = 2
BOTH_PASSES = 0.802243
"""(√2 − 1)^(1/4): what two passes of order 2 make of the cut-off of one."""
CUTOFF_HZ = 10.0


def zero_phase(
    time_s: Floats, force_n: Floats, *, cutoff_hz: float = CUTOFF_HZ
) -> Floats:
    """`force_n` after the filter, column by column.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,) or (n, channels); NaN ends a stretch.
        cutoff_hz: −3 dB of both passes together.

    Returns:
        The same shape. As it was where a stretch is shorter than 12 samples, or the
        rate does not allow the cut-off.
    """
    from scipy import signal  # noqa: PLC0415  no live set asks, and each start would pay

    smooth = np.array(force_n, dtype=np.float64, copy=True)
    if len(time_s) < 2:
        return smooth
    step_s = float(np.nanmedian(np.diff(time_s)))
    if cutoff_hz / BOTH_PASSES * 2 * step_s >= 1:
        return smooth
    # Of half the rate, after the warping of the bilinear transform.
    share = (
        2 / math.pi * math.atan(math.tan(math.pi * cutoff_hz * step_s) / BOTH_PASSES)
    )
    sections = signal.butter(ORDER, share, output="sos")
    known = ~np.isnan(force_n if force_n.ndim == 1 else force_n.sum(axis=1))
    edges = np.flatnonzero(np.diff(known.astype(np.int8))) + 1
    for start, end in zip([0, *edges], [*edges, len(known)], strict=True):
        if known[start] and end - start >= 12:
            piece = slice(int(start), int(end))
            smooth[piece] = signal.sosfiltfilt(
                sections, force_n[piece], axis=0, padlen=min(end - start - 1, 60)
            )
    return smooth
