"""Intensities in words: both spellings of a tolerance, % and newtons."""

from __future__ import annotations

import pytest

from biofeedback.training.band import Band
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.training.intensity_words import (
    in_words,
    newtons,
    number,
    range_in_words,
)

CENTRE, POINTS, NEWTONS = (
    ToleranceOf.CENTRE,
    ToleranceOf.REFERENCE,
    ToleranceOf.NEWTONS,
)


@pytest.mark.parametrize(
    ("intensity", "words"),
    [
        (
            Intensity.around(70, 5, CENTRE),
            "70 % ± 5 % of the centre (± 3.5 points of the reference)",
        ),
        (
            # 5 points at 20 % are 25 % of the centre: the two are never the same.
            Intensity.around(20, 5, POINTS),
            "20 % ± 5 points of the reference (± 25 % of the centre)",
        ),
        (
            Intensity.around(160, 8, NEWTONS, unit=Unit.NEWTONS),
            "160 N ± 8 N (± 5 % of the centre)",
        ),
        (
            Intensity.around(160, 5, CENTRE, unit=Unit.NEWTONS),
            "160 N ± 5 % of the centre (± 8 N)",
        ),
        (Intensity.in_range(25, 40), "25 to 40 %"),
        (Intensity.in_range(99.95, 120, unit=Unit.NEWTONS), "100 to 120 N"),
        (Intensity.at_least(110), "at least 110 %"),
    ],
)
def test_what_is_asked_for(intensity: Intensity, words: str) -> None:
    assert in_words(intensity) == words
    assert range_in_words(intensity) == ""


def test_a_range_with_a_tolerance_is_told_at_its_place() -> None:
    intensity = Intensity.in_range(25, 40, tolerance=2.5, tolerance_of=POINTS)
    assert range_in_words(intensity) == "25 to 40 %"
    for place, centre in ((0.0, "27.5"), (0.5, "32.5"), (1.0, "37.5")):
        assert in_words(intensity, place).startswith(f"{centre} % ± 2.5 points")


def test_newtons_are_to_one_decimal() -> None:
    assert newtons(Band(159.6, 176.44)) == "159.6 to 176.4 N"
    assert newtons(Band(160.04, 175.96)) == "160 to 176 N"
    assert newtons(Band.at_least(252)) == "at least 252 N"
    assert number(0.25) == "0.2"  # half to even, as Python writes it
