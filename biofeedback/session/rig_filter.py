"""The filter of a rig: changed with who and why, kept, and put back.

A change is made first and kept second, so that a window can say what would become of
it. Only what is on disk is handed on as the rig's new profile.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from biofeedback.conditioning.filter_facts import facts
from biofeedback.errors import UserError
from biofeedback.logbook.filter_log import SAME_RATE, FilterEntry
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from biofeedback.conditioning.profile import FilterChoice, RigProfile
    from biofeedback.logbook.filter_log import FilterLog


@dataclass(frozen=True, slots=True, kw_only=True)
class Grounds:
    """What a choice rests on.

    Attributes:
        rate_hz: of the recordings.
        recordings: keys of their sets.
        rule: what was asked of the filter, in words.
        figures: what was measured, as plain JSON values.
    """

    rate_hz: float
    recordings: tuple[str, ...]
    rule: str
    figures: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class FilterChange:
    """What would be kept, and the profile that comes of it."""

    entry: FilterEntry
    profile: RigProfile


def _utc() -> datetime:
    return datetime.now(tz=UTC)


class RigFilters:
    """Changes the filters of rigs.

    Args:
        log: where they are kept.
        clock: the time of day.
    """

    def __init__(self, log: FilterLog, *, clock: Callable[[], datetime] = _utc) -> None:
        self._log = log
        self._clock = clock

    @property
    def place(self) -> str:
        """Name of the file in which they are kept."""
        return self._log.path.name

    def can_undo(self, profile: RigProfile) -> bool:
        """Whether there is a choice that can be taken back.

        Raises:
            FileError: the history cannot be read.
        """
        return self._before(profile) is not None

    def change(
        self, profile: RigProfile, new: FilterChoice, *, by: str, grounds: Grounds
    ) -> FilterChange:
        """Another filter; nothing is kept yet.

        Raises:
            FieldError: nobody is named, or the board has no serial number.
            UserError: it is the filter in use, or the grounds are of another rate.
        """
        if abs(grounds.rate_hz / profile.rate_hz - 1.0) > SAME_RATE:
            raise UserError(
                phrase(
                    "The recordings have {there:g} samples a second and the rig "
                    "{here:g}: settings belong to one rate.",
                    there=grounds.rate_hz,
                    here=profile.rate_hz,
                )
            )
        entry = replace(
            self._entry(profile, new, by=by),
            recordings=grounds.recordings,
            rule=grounds.rule,
            figures=grounds.figures,
        )
        return FilterChange(entry, replace(profile, filter=new))

    def undo(self, profile: RigProfile, *, by: str) -> FilterChange:
        """The filter before the choice that stands; nothing is kept yet.

        Raises:
            FieldError: nobody is named.
            UserError: there is no choice to be taken back.
            FileError: the history cannot be read.
        """
        before = self._before(profile)
        if before is None:
            raise UserError(phrase("No filter was chosen for this rig before."))
        entry = replace(self._entry(profile, before.old, by=by), put_back=True)
        return FilterChange(entry, replace(profile, filter=before.old))

    def keep(self, change: FilterChange) -> RigProfile:
        """Puts a change on disk; the rig's profile from now on.

        Raises:
            FileError: it cannot be written; nothing has changed then.
        """
        self._log.add(change.entry)
        return change.profile

    def _before(self, profile: RigProfile) -> FilterEntry | None:
        if not profile.serial_number:
            return None
        return self._log.before(profile.serial_number, profile.rate_hz)

    def _entry(self, profile: RigProfile, new: FilterChoice, *, by: str) -> FilterEntry:
        if new == profile.filter:
            raise UserError(phrase("The rig has this filter already."))
        return FilterEntry(
            at_utc=self._clock().isoformat(timespec="seconds"),
            by=by,
            serial_number=profile.serial_number,
            rate_hz=profile.rate_hz,
            old=profile.filter,
            new=new,
            old_delay_s=facts(profile.filter, profile.rate_hz).delay_s,
            new_delay_s=facts(new, profile.rate_hz).delay_s,
        )
