"""One-euro filters of many candidates, stepped together.

The coefficients of one-euro change with each sample, so no compiled linear filter can
run it, and the live code steps in Python, one channel after another. Here one step is
taken for all candidates and channels at once. A test holds it against the live filter.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.one_euro import check_one_euro, one_euro_alpha

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.profile import FilterChoice

    Floats = npt.NDArray[np.float64]

BLOCK = 4096
"""Samples at a time: what is worked on stays small, however long the stretch is."""


def one_euros(
    force_n: Floats, choices: Sequence[FilterChoice], *, rate_hz: float
) -> Floats:
    """What fresh live filters show of one stretch.

    With d = force − shown and q = 2π·β·speed/rate, the authors' step becomes
    q ← (1 − α)·q + 2π·β·α·d and shown ← force − d/(1 + r + |q|), where α smooths the
    speed and r is the cut-off at rest times 2π/rate.

    Args:
        force_n: shape (n, columns), all finite, n at least 1.
        choices: one-euro each, at least one; despiking and notch are left out.

    Returns:
        Shape (choices, columns, n).

    Raises:
        FieldError: the sample rate does not allow a setting.
    """
    for choice in choices:
        check_one_euro(choice, rate_hz=rate_hz)
    lanes = _Lanes(choices, columns=force_n.shape[1], rate_hz=rate_hz)
    shape = (len(choices), force_n.shape[1], len(force_n))
    shown_n = np.empty(shape)
    for first in range(0, len(force_n), BLOCK):
        some_n = np.tile(force_n[first : first + BLOCK], len(choices))
        lanes.step(some_n)
        shown_n[:, :, first : first + BLOCK] = some_n.T.reshape(*shape[:2], -1)
    return shown_n


class _Lanes:
    """A lane for each pair of a candidate and a column, with its state."""

    def __init__(
        self, choices: Sequence[FilterChoice], *, columns: int, rate_hz: float
    ) -> None:
        turn = 2.0 * math.pi / rate_hz
        each = [
            (
                one_euro_alpha(choice.cutoff_derivative_hz, rate_hz=rate_hz),
                2.0 * math.pi * choice.beta_per_n,
                1.0 + turn * choice.cutoff_min_hz,
            )
            for choice in choices
        ]
        alpha, growth, self._at_rest = np.repeat(each, columns, axis=0).T.copy()
        self._stays, self._gain = 1.0 - alpha, growth * alpha
        self._shown_n: Floats | None = None
        self._speed = np.zeros(len(alpha))

    def step(self, lanes_n: Floats) -> None:
        """Puts what is shown in the place of the force, shape (n, lanes)."""
        multiply, add, subtract = np.multiply, np.add, np.subtract
        absolute, divide = np.absolute, np.divide
        stays, gain, at_rest = self._stays, self._gain, self._at_rest
        shown_n = lanes_n[0].copy() if self._shown_n is None else self._shown_n
        speed, off_n, change = self._speed, shown_n.copy(), shown_n.copy()
        for force_n in lanes_n:
            subtract(force_n, shown_n, off_n)
            multiply(speed, stays, speed)
            multiply(off_n, gain, change)
            add(speed, change, speed)
            absolute(speed, change)
            add(change, at_rest, change)
            divide(off_n, change, off_n)
            subtract(force_n, off_n, force_n)
            shown_n = force_n
        self._shown_n = shown_n.copy()
