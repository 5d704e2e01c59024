"""The calibration in use: taken from the records, and watched.

* The records of a board replace what is nominal in its profile when it is met;
  a calibration that was handed in, or is in use already, is never replaced here.
* A record is used only at the gain at which it was made: counts at another gain
  are other counts.
* What is told is advice: an old calibration or a zero that has walked stops
  nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Protocol

from biofeedback.conditioning.profile import SIMULATED, Side, ZeroKind, adc_words
from biofeedback.conditioning.recalibration import recalibrated
from biofeedback.phrase import Phrase, listed, phrase
from biofeedback.rig.nominal import NOMINAL, is_nominal

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import (
        Calibration,
        Channel,
        RigProfile,
        Zero,
    )

AGE_DAYS = 365.0
"""A year between calibrations is common practice, no source."""
ZERO_WALK_PCT = 1.0
"""Of the rated load. Warmth and creep of a sound cell stay well below (common
practice, no source); a zero that is taken is refused only at twice as much."""


ABOUT = "The calibration of "
"""Begins what is told of one calibration."""


class CalibrationsFor(Protocol):
    """Where the records of calibrations are asked for."""

    def __call__(
        self, serial_number: str, channel: int, gain: int | None, /
    ) -> Calibration | None:
        """The newest calibration of a channel (from 0), or None.

        One at this gain goes before a newer one at another gain.
        """


@dataclass(frozen=True, slots=True)
class CalibrationLimits:
    """When to warn.

    Attributes:
        age_days: a calibration older than this is told.
        zero_walk_pct: a zero that has walked by more, in % of the rated load.
    """

    age_days: float = AGE_DAYS
    zero_walk_pct: float = ZERO_WALK_PCT


def with_records(
    profile: RigProfile, serial_number: str, calibrations_for: CalibrationsFor
) -> tuple[RigProfile, list[str]]:
    """The profile with the newest record of each channel that is nominal.

    Returns:
        The profile, and words about records that were not made with the counts
        that the board gives now and are left out.

    Raises:
        BiofeedbackError: the records cannot be read.
    """
    if not serial_number:
        return profile, []
    found: list[Calibration | None] = []
    told: list[str] = []
    for index, channel in enumerate(profile.channels):
        record = (
            calibrations_for(serial_number, index, profile.gain)
            if _is_nominal(channel)
            else None
        )
        if record is not None and not record.fits(profile.adc, profile.gain):
            told.append(
                phrase(
                    "{unfitting_words} Set the board as it was, or calibrate again.",
                    unfitting_words=unfitting_words(record, profile, index),
                )
            )
            record = None
        found.append(record)
    return (recalibrated(profile, found) if any(found) else profile), told


def unfitting_words(record: Calibration, profile: RigProfile, index: int) -> Phrase:
    """Why a record is not used."""
    made = _counts_words(record.adc, record.gain)
    given = _counts_words(profile.adc, profile.gain)
    return phrase(
        "{about}{cell} ({label}) is not used: it was made with {made}, and "
        "these counts come with {given}.",
        about=ABOUT,
        cell=_cell(profile.channels[index]),
        label=record.label,
        made=made,
        given=given,
    )


def _counts_words(adc: str, gain: int | None) -> str:
    at = phrase("no gain given") if gain is None else phrase("gain {gain}", gain=gain)
    return phrase("{at} of {adc}", at=at, adc=adc_words(adc)) if adc else at


def calibration_warnings(
    profile: RigProfile, *, today: date, limits: CalibrationLimits
) -> list[str]:
    """What should be known of the calibrations in use."""
    nominal = [
        channel for channel in profile.channels if channel.calibration.label == NOMINAL
    ]
    told: list[str] = []
    if nominal:
        of = "" if is_nominal(profile) else phrase("{cells} of ", cells=_cells(nominal))
        told.append(
            phrase(
                "Nominal calibration for {of}{name}: forces may be some "
                "percent wrong. Calibrate with known masses.",
                of=of,
                name=profile.name,
            )
        )
    return told + [
        words
        for channel in profile.channels
        if not _is_nominal(channel)
        and (words := _age_words(channel, today=today, limits=limits))
    ]


def _age_words(channel: Channel, *, today: date, limits: CalibrationLimits) -> str:
    known = channel.calibration
    try:
        age_days = (today - date.fromisoformat(known.date[:10])).days
    except ValueError:
        return ""  # no date: it was handed in by someone who knows it
    if age_days <= limits.age_days:
        return ""
    return phrase(
        "{about}{cell} ({label}) is {age_days} days old, more than "
        "{most_days:g}. Calibrate again when you can.",
        about=ABOUT,
        cell=_cell(channel),
        label=known.label,
        age_days=age_days,
        most_days=limits.age_days,
    )


def zero_warnings(
    profile: RigProfile, zero: Zero, *, limits: CalibrationLimits
) -> list[str]:
    """Whether the zero of the empty rig has walked.

    A curve that was calibrated gives no force for the empty rig, so what a zero
    takes away is what the cell has walked since; of a nominal one it is not.

    Args:
        profile: with the zero that was in force until now.
        zero: the new one.
    """
    if zero.kind is not ZeroKind.EMPTY_RIG:
        return []
    last = profile.zero if profile.zero.kind is ZeroKind.EMPTY_RIG else None
    told: list[str] = []
    for index, channel in enumerate(profile.channels):
        since_calibration_n = 0.0 if _is_nominal(channel) else zero.offsets_n[index]
        since_last_n = zero.offsets_n[index] - last.offsets_n[index] if last else 0.0
        for walked_n, since in (
            (since_last_n, phrase("the last zero")),
            (since_calibration_n, phrase("its calibration")),
        ):
            share_pct = 100 * abs(walked_n) / channel.rated_n
            if share_pct > limits.zero_walk_pct:
                told.append(
                    phrase(
                        "The zero of {cell} has walked by {walked_n:+.1f} N, "
                        "{share_pct:.1f} % of its rated load, since {since}. "
                        "Look at its mounting and cable; if it stays so, "
                        "calibrate again.",
                        cell=_cell(channel),
                        walked_n=walked_n,
                        share_pct=share_pct,
                        since=since,
                    )
                )
                break
    return told


def _is_nominal(channel: Channel) -> bool:
    return channel.calibration.label in {NOMINAL, SIMULATED}


def _cell(channel: Channel) -> Phrase:
    if channel.side is Side.SINGLE:
        return phrase("the cell “{name}”", name=channel.words)
    return phrase("the {side} cell", side=channel.side.value)


def _cells(channels: list[Channel]) -> Phrase:
    return listed(_cell(channel) for channel in channels)
