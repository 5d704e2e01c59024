"""Another calibration in place of the one a profile has.

Zero is kept in newtons of the calibration that was in force when it was taken. So
when the calibration changes, zero is turned back into counts and from there into
the newtons of the new one: the same reading of the cell stays the zero.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import Zero, ZeroKind
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.profile import Calibration, Channel, RigProfile


def force_of(calibration: Calibration, counts: float) -> float:
    """Newtons of a reading, before any zero."""
    force_n = 0.0
    for coefficient in calibration.coefficients[::-1]:
        force_n = force_n * counts + coefficient
    return force_n


def counts_of(calibration: Calibration, force_n: float) -> float:
    """The reading that gives this force: the inverse, exactly.

    Of the two roots of a quadratic it is the one near the line; the form
    2d / (c1 ± √(c1² + 4·c2·d)) has no cancellation.

    Raises:
        FieldError: no reading gives it.
    """
    c0, c1 = calibration.coefficients[:2]
    c2 = calibration.coefficients[2] if len(calibration.coefficients) > 2 else 0.0
    above = force_n - c0
    under_root = c1 * c1 + 4 * c2 * above
    if under_root < 0 or (c1 == 0 and c2 == 0):
        raise FieldError(
            "calibration",
            phrase(
                "no reading of the cell gives {force_n:.4g} N by it.", force_n=force_n
            ),
        )
    below = c1 + math.copysign(math.sqrt(under_root), c1)
    return 2 * above / below if below else 0.0


def slope_of(calibration: Calibration, counts: float) -> float:
    """Newtons per count at a reading."""
    c1 = calibration.coefficients[1]
    c2 = calibration.coefficients[2] if len(calibration.coefficients) > 2 else 0.0
    return c1 + 2 * c2 * counts


def rezeroed(zero: Zero, old: Sequence[Channel], new: Sequence[Channel]) -> Zero:
    """The same zero in the newtons of other calibrations.

    Args:
        old: channels with the calibrations that were in force when it was taken.
        new: the same channels with the other ones.

    Raises:
        FieldError: it does not lie on an old curve.
    """
    if zero.kind is ZeroKind.NONE:
        return zero
    offsets_n, spreads_n = [], []
    for index, (before, after) in enumerate(zip(old, new, strict=True)):
        offset_n, spread_n = zero.offsets_n[index], zero.spreads_n[index]
        if before.calibration.coefficients != after.calibration.coefficients:
            counts = counts_of(before.calibration, offset_n)
            was = slope_of(before.calibration, counts)
            spread_n *= abs(slope_of(after.calibration, counts) / was)
            offset_n = force_of(after.calibration, counts)
        offsets_n.append(offset_n)
        spreads_n.append(spread_n)
    return replace(zero, offsets_n=tuple(offsets_n), spreads_n=tuple(spreads_n))


def recalibrated(
    profile: RigProfile, calibrations: Sequence[Calibration | None]
) -> RigProfile:
    """The profile with other calibrations; None keeps that channel's own."""
    channels = tuple(
        channel if found is None else replace(channel, calibration=found)
        for channel, found in zip(profile.channels, calibrations, strict=True)
    )
    return replace(
        profile,
        channels=channels,
        zero=rezeroed(profile.zero, profile.channels, channels),
    )
