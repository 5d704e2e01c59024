"""The nominal profile: what can be said of a board that nobody calibrated.

A plausible start so that a new rig shows something at once. Its newtons may be
some percent wrong and it says so; only a calibration with known masses makes them
right. The simulated rig is the exception: its calibration is known.
"""

from __future__ import annotations

import re
from dataclasses import replace

from biofeedback.conditioning.filters import design
from biofeedback.conditioning.profile import (
    SIMULATED,
    SIMULATED_ADC,
    Calibration,
    Channel,
    FilterChoice,
    FilterKind,
    RigProfile,
    Side,
    Zero,
)
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.rig import simulated_adc
from biofeedback.wire.frames import PROTOCOL_MAJOR, PROTOCOL_MINOR, Identity

RATED_N = 1000.0
SENSITIVITY_MV_PER_V = 2.0
GAIN = 128
"""A 1 kN cell of 2 mV/V on an HX711 at its usual gain: common practice, no source."""
BITS = 24
NOMINAL = phrase("nominal")

TEXT_LINES = re.compile(r"text lines, 1/(\d+)")
"""The ADC's name for a plain board that prints decimals, see `serial_source`: a
board that does so prints newtons, more often than not. Whole numbers are codes."""


def nominal_profile(identity: Identity) -> RigProfile:
    """A profile that fits the board: one single cell, or left and right first."""
    sides = (
        (Side.SINGLE,)
        if identity.channels == 1
        else (Side.LEFT, Side.RIGHT, *[Side.SINGLE] * (identity.channels - 2))
    )
    channels = tuple(
        Channel(
            name=side.value if index < 2 else f"cell {index + 1}",
            side=side,
            calibration=_calibration(identity, index),
            rated_n=RATED_N,
        )
        for index, side in enumerate(sides)
    )
    return RigProfile(
        name=f"{identity.adc} {identity.serial_number}".strip() or "board",
        channels=channels,
        rate_hz=identity.rate_hz,
        zero=Zero.none(len(channels)),
        filter=fitting_filter(FilterChoice(), rate_hz=identity.rate_hz),
        serial_number=identity.serial_number,
        # Other arrangements are refused when their samples come.
        streams=2 if identity.stream_channels == (1, 1) else 1,
        adc=identity.adc,
        gain=identity.gain,
    )


def is_plain(identity: Identity) -> bool:
    """Whether it is a board of plain lines."""
    return TEXT_LINES.fullmatch(identity.adc) is not None


def label_words(label: str) -> str:
    """The label of a calibration; one that the program gave is a phrase."""
    return next((own for own in (NOMINAL, SIMULATED) if own == label), label)


def is_nominal(profile: RigProfile) -> bool:
    """Whether nobody ever calibrated this rig."""
    return all(
        channel.calibration.label in {NOMINAL, SIMULATED}
        for channel in profile.channels
    )


def fitted(profile: RigProfile, identity: Identity) -> RigProfile:
    """The profile as it applies to this board.

    A calibrated profile of as many channels is kept, at the board's rate, unless
    it is known to be another board's, or made at another gain. A nominal one gives
    way to the nominal one of this very board, and keeps its zero where it was this
    board's already.
    """
    kept = known = nominal_profile(identity)
    if len(profile.channels) == identity.channels:
        if not (
            is_nominal(profile)
            or _of_another_board(profile, identity)
            or _of_other_counts(profile, identity)
        ):
            kept = profile
        elif (profile.channels, profile.serial_number) == (
            known.channels,
            known.serial_number,
        ):
            kept = replace(known, filter=profile.filter, zero=profile.zero)
        else:
            kept = replace(known, filter=profile.filter)
    return replace(
        kept,
        rate_hz=identity.rate_hz,
        filter=fitting_filter(kept.filter, rate_hz=identity.rate_hz),
        near_rated_pct=profile.near_rated_pct,
        uncertainty_n=(
            None if _of_another_board(profile, identity) else profile.uncertainty_n
        ),
        streams=known.streams,
        adc=known.adc,
        gain=known.gain,
    )


def _of_another_board(profile: RigProfile, identity: Identity) -> bool:
    """Whether both are known and differ: one cell's newtons are not another's."""
    known = profile.serial_number and identity.serial_number
    return bool(known) and profile.serial_number != identity.serial_number


def _of_other_counts(profile: RigProfile, identity: Identity) -> bool:
    """Whether a calibration is known not to be made with what the board now gives.

    One that was handed in and says nothing of a gain is taken at its word.
    """
    return any(
        channel.calibration.gain is not None
        and not channel.calibration.fits(identity.adc, identity.gain)
        for channel in profile.channels
    )


def fitting_filter(choice: FilterChoice, *, rate_hz: float) -> FilterChoice:
    """The filter, or none at all where the board is too slow for it."""
    try:
        design(choice, rate_hz=rate_hz, channels=1)
    except FieldError:
        return FilterChoice(kind=FilterKind.NONE)
    return choice


def _calibration(identity: Identity, channel: int) -> Calibration:
    gain = identity.gain or GAIN
    if identity.adc == SIMULATED_ADC and channel < 2:
        known = simulated_adc.calibration(channel, gain=gain)
        return replace(known, label=SIMULATED)
    decimals = TEXT_LINES.fullmatch(identity.adc)
    if decimals and int(decimals[1]) > 1:
        return Calibration((0.0, 1.0 / int(decimals[1])), label=NOMINAL)
    line = Calibration.from_rating(
        rated_n=RATED_N,
        sensitivity_mv_per_v=SENSITIVITY_MV_PER_V,
        gain=gain * 2.0 ** (identity.adc_bits - BITS),
    )
    return replace(line, label=NOMINAL)


NO_BOARD = replace(
    nominal_profile(
        Identity(
            sequence=0,
            protocol=(PROTOCOL_MAJOR, PROTOCOL_MINOR),
            firmware=(0, 0, 0),
            stream_channels=(2,),
            rates_hz=(80.0,),
            rate_index=0,
            gains=(GAIN,),
            gain_index=0,
            adc_bits=BITS,
            adc="",
            serial_number="",
        )
    ),
    name="no board yet",
)
"""Stands in until a board has said who it is."""
