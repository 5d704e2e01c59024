"""What is assumed of a board that nobody calibrated."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from rig.identities import identity

from biofeedback.conditioning.profile import (
    Calibration,
    FilterKind,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.rig.nominal import NO_BOARD, fitted, is_nominal, nominal_profile
from biofeedback.rig.simulated_adc import calibration

if TYPE_CHECKING:
    from biofeedback.wire.frames import Identity


def board(**changes: object) -> Identity:
    """One with two rates and two gains."""
    usual = {"rates_hz": (10.0, 80.0), "rate_index": 1, "gains": (128, 64)}
    return identity(**{**usual, **changes})


@pytest.mark.parametrize(
    ("streams", "sides"),
    [
        ((1,), [Side.SINGLE]),
        ((2,), [Side.LEFT, Side.RIGHT]),
        ((1, 1), [Side.LEFT, Side.RIGHT]),
        ((4,), [Side.LEFT, Side.RIGHT, Side.SINGLE, Side.SINGLE]),
    ],
)
def test_sides_by_the_number_of_cells(
    streams: tuple[int, ...], sides: list[Side]
) -> None:
    profile = nominal_profile(board(stream_channels=streams))
    assert [channel.side for channel in profile.channels] == sides
    assert is_nominal(profile)
    assert profile.rate_hz == 80


def test_line_of_a_ratiometric_bridge_adc() -> None:
    # HX711 data sheet: full scale is ±0.5·AVDD/gain. 1 kN at 2 mV/V and gain 128
    # is 0.256 of the reference, so 2^24 · 0.256 = 4,294,967.3 counts.
    (c0, c1) = nominal_profile(board()).channels[0].calibration.coefficients
    assert c0 == 0
    assert 1000 / c1 == pytest.approx(4_294_967.296)
    half = nominal_profile(board(gain_index=1)).channels[0].calibration
    assert half.coefficients[1] == pytest.approx(2 * c1)
    # A 16-bit ADC is sent as it is: 256 times fewer counts.
    coarse = nominal_profile(board(adc_bits=16)).channels[0].calibration
    assert coarse.coefficients[1] == pytest.approx(256 * c1)


def test_simulated_rig_is_known_exactly() -> None:
    profile = nominal_profile(board(adc="simulated"))
    for number, channel in enumerate(profile.channels):
        known = calibration(number, gain=128)
        assert channel.calibration.coefficients == known.coefficients


def test_plain_board_that_prints_decimals_prints_newtons() -> None:
    profile = nominal_profile(board(adc="text lines, 1/100", gains=()))
    assert profile.channels[0].calibration.coefficients == (0.0, 0.01)
    counts = nominal_profile(board(adc="text lines, 1/1", gains=()))
    assert counts.channels[0].calibration.coefficients[1] == pytest.approx(
        1000 / 2**22.034, rel=1e-3
    )


def test_filter_that_a_slow_board_cannot_bear_is_left_out() -> None:
    slow = nominal_profile(board(rate_index=0))
    assert slow.filter.kind is FilterKind.NONE
    assert nominal_profile(board()).filter.kind is FilterKind.BUTTERWORTH


def test_zero_stays_with_its_own_board() -> None:
    zero = Zero(ZeroKind.EMPTY_RIG, (1.0, 2.0), (0.1, 0.1))
    mine = fitted(NO_BOARD, board()).with_zero(zero)
    assert mine.name == "HX711 A1"
    assert fitted(mine, board()) == mine
    assert fitted(mine, board(serial_number="B2")).zero == Zero.none(2)
    assert fitted(mine, board(gain_index=1)).zero == Zero.none(2)
    assert fitted(mine, board(stream_channels=(1,))).zero == Zero.none(1)


def test_a_calibration_stays_only_at_the_gain_it_was_made_at() -> None:
    plain = fitted(NO_BOARD, board())
    assert (plain.adc, plain.gain) == ("HX711", 128)

    def calibrated(**made: object) -> RigProfile:
        known = Calibration((0.0, 0.002), "May", "2026-05-04")
        known = replace(known, **made)  # type: ignore[arg-type]  # fields by name
        left, right = plain.channels
        zero = Zero(ZeroKind.EMPTY_RIG, (1.0, 2.0), (0.1, 0.1))
        return replace(
            plain, channels=(replace(left, calibration=known), right), zero=zero
        )

    mine = calibrated(adc="HX711", gain=128)
    assert fitted(mine, board()) == mine
    other = fitted(mine, board(gain_index=1))
    assert is_nominal(other)
    assert (other.gain, other.zero) == (64, Zero.none(2))
    assert is_nominal(fitted(mine, board(adc="ADS131M02")))
    # One that was handed in and tells no gain is taken at its word.
    kept = fitted(calibrated(), board(gain_index=1))
    assert kept.channels == calibrated().channels


def test_filter_of_ones_own_is_kept() -> None:
    mine = replace(NO_BOARD, filter=replace(NO_BOARD.filter, cutoff_hz=4.0))
    assert fitted(mine, board()).filter.cutoff_hz == 4


def test_what_is_known_of_the_rig_stays_unless_it_is_another_rig() -> None:
    """Share of the rated load is a wish; an uncertainty belongs to a board."""
    wished = replace(NO_BOARD, near_rated_pct=80.0, uncertainty_n=0.7)
    found = fitted(wished, board())
    assert (found.near_rated_pct, found.uncertainty_n) == (80.0, 0.7)
    again = fitted(found, board())
    assert (again.near_rated_pct, again.uncertainty_n) == (80.0, 0.7)
    other = fitted(replace(found, serial_number="OTHER"), board())
    assert (other.near_rated_pct, other.uncertainty_n) == (80.0, None)
