"""Intensities: what fits, and the newtons that come of it.

The newtons are worked out by hand for an invented athlete: left 180 N, right 240 N.
"""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import assume, given, reject
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.training.band import Band
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.wire.fields import Fields

CENTRE, POINTS, NEWTONS = (
    ToleranceOf.CENTRE,
    ToleranceOf.REFERENCE,
    ToleranceOf.NEWTONS,
)


@pytest.mark.parametrize(
    ("intensity", "left_n", "right_n"),
    [
        # 25 % of 180 N is 45 N, 40 % is 72 N; of 240 N 60 N and 96 N.
        (Intensity.in_range(25, 40), (45.0, 72.0), (60.0, 96.0)),
        (Intensity.in_range(10, 20), (18.0, 36.0), (24.0, 48.0)),
        (Intensity.in_range(15, 20), (27.0, 36.0), (36.0, 48.0)),
        # 70 % is 126 N and 168 N; 5 % of them 6.3 N and 8.4 N.
        (Intensity.around(70, 5, CENTRE), (119.7, 132.3), (159.6, 176.4)),
        # 5 points of 180 N are 9 N, of 240 N 12 N.
        (Intensity.around(70, 5, POINTS), (117.0, 135.0), (156.0, 180.0)),
        (Intensity.around(50, 5, CENTRE), (85.5, 94.5), (114.0, 126.0)),
        (Intensity.at_least(80), (144.0, math.inf), (192.0, math.inf)),
        # 110 %: slow lowering, above what is held.
        (Intensity.at_least(110), (198.0, math.inf), (264.0, math.inf)),
        # Newtons are newtons, whoever pulls.
        (Intensity.in_range(60, 96, unit=Unit.NEWTONS), (60.0, 96.0), (60.0, 96.0)),
        (
            Intensity.around(80, 4, NEWTONS, unit=Unit.NEWTONS),
            (76.0, 84.0),
            (76.0, 84.0),
        ),
        (
            Intensity.around(80, 5, CENTRE, unit=Unit.NEWTONS),
            (76.0, 84.0),
            (76.0, 84.0),
        ),
    ],
)
def test_newtons_of_both_sides(
    intensity: Intensity, left_n: tuple[float, float], right_n: tuple[float, float]
) -> None:
    for reference_n, wanted in ((180.0, left_n), (240.0, right_n)):
        band = intensity.band(reference_n)
        assert (band.lower_n, band.upper_n) == pytest.approx(wanted)
        assert not intensity.leaves_room


@pytest.mark.parametrize(
    ("place", "lower_n", "upper_n"),
    [
        # 25–40 % of 240 N with ± 2.5 points, which are 6 N either way: the centre
        # goes from 27.5 % (66 N) to 37.5 % (90 N).
        (0.0, 60.0, 72.0),
        (0.5, 72.0, 84.0),
        (1.0, 84.0, 96.0),
        (-1.0, 60.0, 72.0),  # no place is outside the range
        (7.0, 84.0, 96.0),
    ],
)
def test_the_place_in_a_range(place: float, lower_n: float, upper_n: float) -> None:
    intensity = Intensity.in_range(25, 40, tolerance=2.5, tolerance_of=POINTS)
    assert intensity.leaves_room
    band = intensity.band(240.0, place)
    assert (band.lower_n, band.upper_n) == pytest.approx((lower_n, upper_n))


@given(
    lower=st.floats(1, 150),
    width=st.floats(0, 150),
    tolerance=st.floats(0.1, 99),
    of=st.sampled_from([CENTRE, POINTS]),
    place=st.floats(0, 1),
    reference_n=st.floats(1, 2000),
)
def test_the_band_of_the_day_never_leaves_the_range(
    lower: float,
    width: float,
    tolerance: float,
    of: ToleranceOf,
    place: float,
    reference_n: float,
) -> None:
    upper = lower + width
    try:
        intensity = Intensity.in_range(
            lower, upper, tolerance=tolerance, tolerance_of=of
        )
    except FieldError:
        reject()  # wider than the range
    assume(upper > lower)  # else a centre, whose band is around it
    band = intensity.band(reference_n, place)
    slack_n = 1e-6 * reference_n
    assert band.lower_n >= lower * reference_n / 100 - slack_n
    assert band.upper_n <= upper * reference_n / 100 + slack_n


def test_a_band_just_as_wide_as_its_range_fits() -> None:
    """45 and 55 are 50 ± 10 %, also where 55/1.1 is 49.99999999999999."""
    intensity = Intensity.in_range(45, 55, tolerance=10)
    assert not intensity.leaves_room
    band = intensity.band(200.0)
    assert (band.lower_n, band.upper_n) == pytest.approx((90.0, 110.0))


@pytest.mark.parametrize(
    ("make", "field", "words"),
    [
        (lambda: Intensity.in_range(0.25, 40), "lower", "Type 25 for 25 %"),
        (lambda: Intensity.around(0.7, 5, CENTRE), "lower", "Type 70 for 70 %"),
        (lambda: Intensity.at_least(0), "lower", "1 % to 300 %"),
        (lambda: Intensity.at_least(-5), "lower", "1 % to 300 %"),
        (lambda: Intensity.at_least(301), "lower", "1 % to 300 %"),
        (lambda: Intensity.at_least(math.nan), "lower", "1 % to 300 %"),
        (lambda: Intensity.in_range(40, 25), "upper", "is 25; it must not be below"),
        (lambda: Intensity.in_range(40, math.inf), "upper", "1 % to 300 %"),
        (lambda: Intensity.in_range(40, 40), "tolerance", "a centre needs one"),
        (lambda: Intensity.around(70, 0, CENTRE), "tolerance", "more than 0"),
        (lambda: Intensity.around(70, math.nan, CENTRE), "tolerance", "more than 0"),
        (lambda: Intensity.around(5, 10, POINTS), "tolerance", "reaches below 0"),
        (lambda: Intensity.around(70, 5, NEWTONS), "tolerance_of", "a percentage"),
        (
            lambda: Intensity.around(80, 5, POINTS, unit=Unit.NEWTONS),
            "tolerance_of",
            "points need a reference",
        ),
        (
            lambda: Intensity.in_range(25, 30, tolerance=20),
            "tolerance",
            "wider than the range",
        ),
        (
            lambda: Intensity.in_range(25, 30, tolerance=150),
            "tolerance",
            "below 0|wider than the range",
        ),
        (lambda: Intensity(80, None, tolerance=5), "tolerance", "a minimum"),
        (
            lambda: Intensity.at_least(0, unit=Unit.NEWTONS),
            "lower",
            "more than 0 N and at most 50000 N",
        ),
        (
            lambda: Intensity.in_range(10, 60_000, unit=Unit.NEWTONS),
            "upper",
            "at most 50000 N",
        ),
    ],
)
def test_what_does_not_fit_is_named(make: object, field: str, words: str) -> None:
    with pytest.raises(FieldError, match=words) as caught:
        make()  # type: ignore[operator]  # a lambda
    assert caught.value.field == f"intensity.{field}"


def test_a_percentage_needs_a_reference_and_newtons_none() -> None:
    with pytest.raises(FieldError, match="percentages need one"):
        Intensity.at_least(80).band(None)
    assert Intensity.at_least(80, unit=Unit.NEWTONS).band(None) == Band.at_least(80)


@pytest.mark.parametrize(
    "intensity",
    [
        Intensity.in_range(25, 40),
        Intensity.in_range(25, 40, tolerance=2.25, tolerance_of=POINTS),
        Intensity.around(70, 5, CENTRE),
        Intensity.at_least(80),
        Intensity.around(80.5, 4, NEWTONS, unit=Unit.NEWTONS),
    ],
)
def test_what_is_written_is_read(intensity: Intensity) -> None:
    kept = json.loads(json.dumps(intensity.to_json()))
    assert Intensity.from_json(Fields(kept, "intensity")) == intensity
