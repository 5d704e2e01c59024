"""Force sense: how near unseen efforts come to a force that is known by feel alone.

The target is shown, the trace of the force is not. One number is taken of each effort,
the *matched force*: the median of its plateau, which neither the way up nor letting go
moves. Its distance from the centre of the band is the error of that effort, and of
several efforts there are

* CE, the constant error: the mean error, with its sign; a bias;
* VE, the variable error: the SD of the errors about their own mean, with n;
* AE, the absolute error: the mean without the signs, in which the two are mixed;
* E, the root of the mean squared error: E² = CE² + VE² exactly, with n.

After Schmidt and Lee, *Motor Control and Learning*, and Henry, J Mot Behav 6 (1974)
149. Efforts that were seen have no place in it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.steadiness import TargetError, target_error

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Matched:
    """One unseen effort.

    Attributes:
        matched_n: median of its plateau.
        target_n: centre of the band; above zero.
    """

    matched_n: float
    target_n: float


@dataclass(frozen=True, slots=True)
class ForceSense:
    """Errors over several unseen efforts; n is `efforts`.

    Attributes:
        efforts: how many; with one of them VE is zero and tells nothing.
        error: in newtons.
        ce_pct, ve_pct, ae_pct: the same of errors in % of each effort's own target.
        target_n: lowest and highest of the targets.
    """

    efforts: int
    error: TargetError
    ce_pct: float
    ve_pct: float
    ae_pct: float
    target_n: tuple[float, float]


def force_sense(efforts: Sequence[Matched]) -> ForceSense | None:
    """Errors of unseen efforts; None where there is none."""
    matched_n = np.array([one.matched_n for one in efforts], dtype=np.float64)
    target_n = np.array([one.target_n for one in efforts], dtype=np.float64)
    error = target_error(matched_n, target_n)
    share = target_error(100 * matched_n / target_n, 100.0)
    if error is None or share is None:
        return None
    return ForceSense(
        efforts=len(efforts),
        error=error,
        ce_pct=share.ce_n,  # of shares, so in %
        ve_pct=share.ve_n,
        ae_pct=share.ae_n,
        target_n=(float(target_n.min()), float(target_n.max())),
    )
