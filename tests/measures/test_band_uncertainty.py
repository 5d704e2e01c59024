"""Which uncertainty the guard of a band is made of."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from conditioning.examples import rig

from biofeedback.conditioning.profile import Calibration, RigProfile, Side
from biofeedback.measures.band_uncertainty import band_uncertainty_n
from biofeedback.training.band import Band
from biofeedback.training.crossings import Judged
from biofeedback.training.prescription import BandOn

LEFT = ((50.0, 0.5), (100.0, 0.7), (200.0, 1.5))
RIGHT = ((50.0, 0.4), (200.0, 1.0))


def known(
    *tables: tuple[tuple[float, float], ...], given_n: float | None = None
) -> RigProfile:
    plain = rig(Side.LEFT, Side.RIGHT)
    channels = tuple(
        replace(channel, calibration=replace(channel.calibration, uncertainty=table))
        for channel, table in zip(plain.channels, tables, strict=True)
    )
    return replace(plain, channels=channels, uncertainty_n=given_n)


def judged(band_on: BandOn) -> Judged:
    return Judged(band_on, left=0, right=1, channels=2)


@pytest.mark.parametrize(
    ("force_n", "u_n"),
    [(0, 0.5), (50, 0.5), (75, 0.6), (150, 1.1), (200, 1.5), (400, 3.0)],
)
def test_between_below_and_above_what_was_worked_out(
    force_n: float, u_n: float
) -> None:
    calibration = Calibration((0.0, 0.001), uncertainty=LEFT)
    assert calibration.u_n(force_n) == pytest.approx(u_n)
    assert Calibration((0.0, 0.001)).u_n(force_n) is None


@pytest.mark.parametrize(
    ("band_on", "u_n"),
    [
        (BandOn.LEFT, 0.7),
        (BandOn.RIGHT, 0.6),
        (BandOn.EACH_SIDE, 0.7),
        (BandOn.TOTAL, 0.9),  # at 50 N each: 0.5 + 0.4
    ],
)
def test_at_the_upper_edge_of_what_the_band_applies_to(
    band_on: BandOn, u_n: float
) -> None:
    found = band_uncertainty_n(known(LEFT, RIGHT), judged(band_on), [Band(80, 100)])
    assert found == pytest.approx(u_n)


def test_of_several_bands_the_highest_and_of_an_open_one_its_edge() -> None:
    profile, left = known(LEFT, RIGHT), judged(BandOn.LEFT)
    bands = [Band(40, 50), Band(80, 100), Band(60, 70)]
    assert band_uncertainty_n(profile, left, bands) == pytest.approx(0.7)
    assert band_uncertainty_n(profile, left, [Band(100, math.inf)]) == pytest.approx(
        0.7
    )


def test_what_a_person_gave_rules_and_without_both_there_is_none() -> None:
    band = [Band(80, 100)]
    given = known(LEFT, RIGHT, given_n=2.5)
    assert band_uncertainty_n(given, judged(BandOn.TOTAL), band) == 2.5
    half = known(LEFT, ())
    assert band_uncertainty_n(half, judged(BandOn.TOTAL), band) is None
    assert band_uncertainty_n(half, judged(BandOn.LEFT), band) == pytest.approx(0.7)
