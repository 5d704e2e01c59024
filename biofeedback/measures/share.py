"""Shares: one force in % of another, and what of such a share may be noise.

A share is a quotient, so relative uncertainties add up as squares (GUM, JCGM 100:2008,
5.1.2, equation 12). With the typical errors as SDs s of logarithms, s = ln(1 + e/100),
that of ln(share) is √(s₁² + s₂²) for independent tests. Multiplied by 1.96 it is what
one share may be off; by 1.96 √2 what two shares of different visits may be apart.

A share against one earlier force, always the same, has that force's error in each of
its values alike: it moves all of them together and is in no change between them.
"""

from __future__ import annotations

import math

from biofeedback.measures.change import Z95

SHARE_NOISE_FORMULA = "1.96 √2 √(e₁² + e₂²)"
"""Of a change between two visits, by logarithms; e are typical errors."""


def share_of_pct(force_n: float, other_n: float) -> float | None:
    """100 · force / other; None where the other one is not above zero."""
    return 100 * force_n / other_n if other_n > 0 else None


def share_sd(*errors_pct: float) -> float:
    """SD of the logarithm of a share, from the typical errors of what it is made of.

    Args:
        errors_pct: 100 (exp(s) − 1) each, as in `Noise.typical_error_pct`.
    """
    return math.hypot(*(math.log1p(error_pct / 100) for error_pct in errors_pct))


def share_change_limits_pct(first_pct: float, sd: float) -> tuple[float, float]:
    """Between which shares a second visit lies, 95 %, while nothing has changed."""
    factor = math.exp(Z95 * math.sqrt(2) * sd)
    return first_pct / factor, first_pct * factor


def share_alone_limits_pct(sd: float) -> tuple[float, float]:
    """Between which shares one visit lies, 95 %, where both forces are equal."""
    factor = math.exp(Z95 * sd)
    return 100 / factor, 100 * factor
