"""What zero is in force once the limb that rested on the cells has gone.

A zero with the limb resting takes away what one athlete's limb weighs. For anybody
else it is a wrong tare, so it ends with that athlete; the zero of the empty rig before
it is of the rig, and holds again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import Zero, ZeroKind
from biofeedback.conditioning.recalibration import rezeroed
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.phrase import Phrase

NOT_OF_THIS_LIMB = phrase("Another athlete is here: take zero with this limb resting.")


class LimbZero:
    """Remembers the zero of the empty rig under one with a limb resting."""

    def __init__(self) -> None:
        self._empty: RigProfile | None = None

    def taken(self, profile: RigProfile) -> None:
        """Another zero comes into force.

        Args:
            profile: with the zero that was in force until now.
        """
        if profile.zero.kind is not ZeroKind.LIMB_RESTING:
            empty = profile.zero.kind is ZeroKind.EMPTY_RIG
            self._empty = profile if empty else None

    def ended(self, profile: RigProfile) -> Zero:
        """The zero that holds without the limb.

        Args:
            profile: as it is now; it may have been calibrated meanwhile.
        """
        empty = self._empty
        none = Zero.none(len(profile.channels))
        if empty is None or _board(empty) != _board(profile):
            return none
        try:
            return rezeroed(empty.zero, empty.channels, profile.channels)
        except FieldError:  # it does not lie on the curve of another calibration
            return none


def _board(profile: RigProfile) -> tuple[object, ...]:
    """What tells whether the same reading of the cells is the same zero."""
    return (
        *(profile.serial_number, profile.adc, profile.gain),
        len(profile.channels),
    )


def ended_words(zero: Zero) -> Phrase:
    """What became of the zero with the limb resting.

    Args:
        zero: that holds now.
    """
    if zero.kind is ZeroKind.NONE:
        return phrase(
            "Take zero anew: the one with the limb resting was of the athlete before."
        )
    return phrase(
        "The zero of the empty rig holds again: the one with the limb resting was of "
        "the athlete before."
    )
