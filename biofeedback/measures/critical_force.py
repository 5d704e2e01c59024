"""Critical force: the force that could be held on and on, from holds to failure.

Of holds until the force could be held no longer, impulse rises with time along a line:
impulse = CF · t + W′ (Monod and Scherrer, Ergonomics 8 (1965) 329). Its slope is the
critical force, its intercept what can be spent above it. Rules:

* three holds are the least, and the longest must last at least twice as long as the
  shortest: a line through a cluster says nothing;
* holds of equal impulses have no r², and their slope is zero: no critical force;
* time stands on both sides of the equation, so r² is high of almost any data; how sure
  CF is, is told by its standard error;
* it is a line through what was measured. It promises nothing beyond the longest hold.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

LEAST_HOLDS = 3
LEAST_RATIO = 2.0


@dataclass(frozen=True, slots=True)
class HoldToFailure:
    """One hold until it could be held no longer.

    Raises:
        FieldError: a time or an impulse that is not above zero.
    """

    time_s: float
    impulse_ns: float

    def __post_init__(self) -> None:
        for name in ("time_s", "impulse_ns"):
            value = getattr(self, name)
            if not 0 < value < math.inf:
                raise FieldError(name, phrase("of a hold must be above zero."))


@dataclass(frozen=True, slots=True)
class CriticalForce:
    """The line.

    Attributes:
        force_n: CF.
        force_error_n: its standard error.
        reserve_ns: W′.
        reserve_error_ns: its standard error.
        r_squared: of the line; see the head of this module.
        holds: how many.
    """

    force_n: float
    force_error_n: float
    reserve_ns: float
    reserve_error_ns: float
    r_squared: float
    holds: int


def critical_force(holds: Sequence[HoldToFailure]) -> CriticalForce | None:
    """The critical force.

    None where there are too few holds or too alike ones, and where impulse does not
    rise with time: such a line says that no force could be held.
    """
    if len(holds) < LEAST_HOLDS:
        return None
    time_s = np.array([one.time_s for one in holds])
    impulse_ns = np.array([one.impulse_ns for one in holds])
    if time_s.max() < LEAST_RATIO * time_s.min():
        return None
    apart_s = time_s - time_s.mean()
    spread = float(apart_s @ apart_s)
    force_n = float(apart_s @ (impulse_ns - impulse_ns.mean())) / spread
    reserve_ns = float(impulse_ns.mean() - force_n * time_s.mean())
    left_ns = impulse_ns - reserve_ns - force_n * time_s
    around = impulse_ns - impulse_ns.mean()
    whole = float(around @ around)
    if force_n <= 0 or whole == 0:
        return None
    variance = float(left_ns @ left_ns) / (len(holds) - 2)
    return CriticalForce(
        force_n=force_n,
        force_error_n=math.sqrt(variance / spread),
        reserve_ns=reserve_ns,
        reserve_error_ns=math.sqrt(
            variance * (1 / len(holds) + float(time_s.mean()) ** 2 / spread)
        ),
        r_squared=1 - float(left_ns @ left_ns) / whole,
        holds=len(holds),
    )
