"""Which profile a board is given when it is met: its calibrations and its filter.

Rules:

* What is nominal gives way to the newest records of this very board.
* The filter is the one that was chosen for this board at its rate, or the usual one,
  never that of the board before: settings belong to a board and its rate.
* What cannot be looked up is told, and the signal goes on without it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import TYPE_CHECKING, TypeAlias

from biofeedback.conditioning.profile import SIMULATED_ADC
from biofeedback.errors import BiofeedbackError
from biofeedback.phrase import phrase
from biofeedback.rig.board_in_use import same_board
from biofeedback.rig.calibration_watch import (
    CalibrationLimits,
    calibration_warnings,
    with_records,
)
from biofeedback.rig.nominal import NO_BOARD, fitted, fitting_filter, is_nominal

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.conditioning.profile import FilterChoice, RigProfile
    from biofeedback.rig.calibration_watch import CalibrationsFor
    from biofeedback.wire.frames import Identity

    FilterFor: TypeAlias = Callable[[str, float], FilterChoice | None]


@dataclass(frozen=True, slots=True)
class KnownBoards:
    """What is kept of boards.

    Attributes:
        calibrations_for: the records of calibrations, or None.
        limits: when to warn of a calibration.
        filter_for: the filter chosen for a board (its serial number) at a sample
            rate; None for no choice.
    """

    calibrations_for: CalibrationsFor | None = None
    limits: CalibrationLimits = field(default_factory=CalibrationLimits)
    filter_for: FilterFor | None = None


NOTHING_KNOWN = KnownBoards()


class ProfileChoice:
    """Chooses profiles, and warns of what speaks against them.

    Args:
        usual: of whatever board is found first.
        warn: is told things in words, some of them again and again.
        utc: gives the time of day as ISO text.
        known: what is kept of boards.
    """

    def __init__(
        self,
        usual: RigProfile,
        *,
        warn: Callable[[str], None],
        utc: Callable[[], str],
        known: KnownBoards,
    ) -> None:
        self._usual = usual
        self._warn = warn
        self._utc = utc
        self._known = known
        self._first: Identity | None = None  # the board that `_usual` was meant for

    def found(self, identity: Identity) -> None:
        """This board is in use; the usual profile is meant for the first one."""
        self._first = self._first or identity

    def to_begin_with(self, identity: Identity | None) -> RigProfile:
        """Before anything is known of a board that takes the place of another."""
        if identity and self._first and same_board(self._first, identity):
            return self._usual
        return replace(NO_BOARD, near_rated_pct=self._usual.near_rated_pct)

    def fitted(self, profile: RigProfile, identity: Identity) -> RigProfile:
        """The profile as it is with what is known of this board."""
        profile = self._with_records(fitted(profile, identity), identity)
        return self._with_filter(profile, identity)

    def warn_of_calibration(self, profile: RigProfile, identity: Identity) -> None:
        """Says what speaks against the calibrations that are in use."""
        if identity.adc == SIMULATED_ADC and is_nominal(profile):
            return  # known exactly
        # A calibration has the date of the place where it was made.
        today = datetime.fromisoformat(self._utc()).astimezone().date()
        for words in calibration_warnings(
            profile, today=today, limits=self._known.limits
        ):
            self._warn(words)

    def _with_records(self, profile: RigProfile, identity: Identity) -> RigProfile:
        if self._known.calibrations_for is None:
            return profile
        try:
            profile, told = with_records(
                profile, identity.serial_number, self._known.calibrations_for
            )
        except BiofeedbackError as error:
            self._warn(
                phrase("The calibrations could not be looked up: {error}", error=error)
            )
            return profile
        for words in told:
            self._warn(words)
        return profile

    def _with_filter(self, profile: RigProfile, identity: Identity) -> RigProfile:
        if self._known.filter_for is None:
            return profile
        try:
            chosen = self._known.filter_for(identity.serial_number, identity.rate_hz)
        except BiofeedbackError as error:
            self._warn(
                phrase("The filter could not be looked up: {error}", error=error.words)
            )
            return profile
        fits = fitting_filter(chosen or self._usual.filter, rate_hz=identity.rate_hz)
        return replace(profile, filter=fits)
