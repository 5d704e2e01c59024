"""Isometric against eccentric: the numbers, all readings, and no decision."""

from __future__ import annotations

import json

import pytest

from biofeedback.errors import FieldError
from biofeedback.measures.change import Whose, typical_error
from biofeedback.measures.eccentric_check import (
    COMMON_PRACTICE,
    STARTING_LINES,
    CheckSettings,
    LineOn,
    MassLine,
    Part,
    Peaks,
    Reading,
    difference_noise_n,
    eccentric_check,
)
from biofeedback.training.athlete import BodyMass
from biofeedback.wire.fields import Fields

ISOMETRIC = Peaks(800.0, 380.0, 420.0)
ECCENTRIC = Peaks(880.0, 440.0, 440.0)
MASS = BodyMass(80.0, "2026-03-01")


def test_the_numbers_are_told_for_the_total_and_each_side() -> None:
    found = eccentric_check(ISOMETRIC, ECCENTRIC, days_apart=0, mass=MASS)
    assert [check.part for check in found.parts] == [Part.TOTAL, Part.LEFT, Part.RIGHT]
    total, left, right = found.parts
    assert (total.difference_n, total.difference_pct) == (80.0, 10.0)
    assert left.difference_n == 60.0
    assert left.difference_pct == pytest.approx(100 * 60 / 380)
    assert right.difference_pct == pytest.approx(100 * 20 / 420)
    # 400 N at 80 kg are 5.0 N/kg.
    assert total.isometric_n_per_kg == 10.0
    assert total.eccentric_n_per_kg == 11.0
    assert found.readings == ()
    assert found.not_above == ()
    assert found.mass is MASS


def test_a_lowering_below_the_isometric_peak_has_three_readings() -> None:
    # Means of 22 athletes, worked back from the differences in Nishida et al., PLoS
    # ONE 17 (2022) e0264465: 372 N isometric, 280 N eccentric.
    found = eccentric_check(Peaks(372.0), Peaks(280.0), days_apart=0)
    (check,) = found.parts
    assert check.difference_n == pytest.approx(-92.0)
    assert check.difference_pct == pytest.approx(-24.73, abs=0.005)
    assert not check.above
    assert check.isometric_n_per_kg is None
    assert found.readings == (
        Reading.NOT_AS_MEANT,
        Reading.STRENGTH,
        Reading.BODY_MASS,
    )


def test_one_side_that_is_not_above_is_named() -> None:
    found = eccentric_check(ISOMETRIC, Peaks(850.0, 470.0, 380.0), days_apart=0)
    assert found.not_above == (Part.RIGHT,)
    assert found.readings == tuple(Reading)


def test_as_high_is_not_above() -> None:
    found = eccentric_check(Peaks(400.0), Peaks(400.0), days_apart=0)
    assert found.readings == tuple(Reading)
    assert found.parts[0].difference_pct == 0.0


def test_all_readings_are_told_or_none_whatever_the_numbers() -> None:
    # A reading that the numbers picked would be a decision.
    for isometric_n in (100.0, 419.0, 531.0, 2000.0):
        for share in (0.2, 0.95, 1.0):
            found = eccentric_check(
                Peaks(isometric_n), Peaks(isometric_n * share), days_apart=0
            )
            assert found.readings == tuple(Reading)


def test_too_many_days_apart_nothing_is_read_into_the_numbers() -> None:
    low = Peaks(500.0)
    found = eccentric_check(ISOMETRIC, low, days_apart=1)
    assert found.too_far_apart
    assert found.readings == ()
    assert found.parts[0].difference_n == -300.0
    for days, too_far in ((1, False), (7, False), (8, True)):
        found = eccentric_check(
            ISOMETRIC, low, days_apart=days, settings=CheckSettings(within_days=7)
        )
        assert found.too_far_apart is too_far
        assert bool(found.readings) is not too_far


def test_the_noise_of_two_equal_tests_is_their_minimal_detectable_change() -> None:
    # Opar et al., J. Orthop. Sports Phys. Ther. 43 (2013): typical errors of 21.7 and
    # 27.5 N, minimal detectable changes of 60.1 and 76.2 N.
    for error_n, detectable_n in ((21.7, 60.1), (27.5, 76.2)):
        spread_n = error_n * 2**0.5  # between two results of one person
        noise = typical_error(
            [[300.0, 300.0 + spread_n], [400.0, 400.0 - spread_n]] * 3,
            whose=Whose.CLUB,
        )
        assert noise is not None
        assert noise.typical_error_n == pytest.approx(error_n)
        found = difference_noise_n(noise, noise)
        assert found == pytest.approx(noise.mdc95_n)
        assert found == pytest.approx(detectable_n, abs=0.06)
        assert difference_noise_n(None, noise) is None
        assert difference_noise_n(noise, None) is None


def test_the_noise_is_told_beside_the_difference() -> None:
    found = eccentric_check(
        ISOMETRIC, ECCENTRIC, days_apart=0, noise_n={Part.TOTAL: 80.0, Part.LEFT: 59.9}
    )
    total, left, right = found.parts
    assert total.within_noise is True  # the edge counts as within
    assert left.within_noise is False
    assert right.within_noise is None
    (less,) = eccentric_check(
        Peaks(400.0), Peaks(300.0), days_apart=0, noise_n={Part.TOTAL: 99.0}
    ).parts
    assert less.within_noise is False


def test_the_lines_start_at_530_and_420_newtons_with_no_published_source() -> None:
    assert [line.force_n for line in STARTING_LINES] == [530.0, 420.0]
    assert all(line.source == COMMON_PRACTICE for line in STARTING_LINES)
    found = eccentric_check(Peaks(950.0, 430.0, 520.0), Peaks(1000.0), days_apart=0)
    told = [(one.line.name, one.part, one.reached) for one in found.lines]
    assert told == [
        ("men", Part.LEFT, False),
        ("men", Part.RIGHT, False),
        ("women", Part.LEFT, True),
        ("women", Part.RIGHT, True),
    ]


def test_the_lines_can_be_set_and_at_the_line_is_reached() -> None:
    settings = CheckSettings(lines=(MassLine("ours", 800.0),), line_on=LineOn.TOTAL)
    (found,) = eccentric_check(
        ISOMETRIC, ECCENTRIC, days_apart=0, settings=settings
    ).lines
    assert found.part is Part.TOTAL
    assert found.reached
    again = json.loads(json.dumps(settings.to_json()))
    assert CheckSettings.from_json(Fields(again)) == settings


@pytest.mark.parametrize(
    ("peaks", "line_on", "parts"),
    [
        (Peaks(400.0, one_side=True), LineOn.EACH_SIDE, [Part.TOTAL]),
        (Peaks(400.0, one_side=True), LineOn.TOTAL, []),
        (Peaks(800.0), LineOn.EACH_SIDE, []),  # one cell: no side is known
        (Peaks(800.0), LineOn.TOTAL, [Part.TOTAL]),
    ],
)
def test_a_line_is_held_against_what_it_is_for(
    peaks: Peaks, line_on: LineOn, parts: list[Part]
) -> None:
    settings = CheckSettings(lines=(MassLine("ours", 500.0),), line_on=line_on)
    found = eccentric_check(peaks, peaks, days_apart=0, settings=settings)
    assert [one.part for one in found.lines] == parts


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"within_days": -1}, "within_days"),
        ({"within_days": 61}, "within_days"),
        ({"lines": (MassLine("a", 1.0),) * 7}, "lines"),
    ],
)
def test_settings_that_do_not_fit_are_refused(
    change: dict[str, object], field: str
) -> None:
    with pytest.raises(FieldError) as refused:
        CheckSettings(**change)  # type: ignore[arg-type]
    assert refused.value.field == field


def test_other_values_that_do_not_fit_are_refused() -> None:
    with pytest.raises(FieldError, match="force_n"):
        MassLine("x", 0.0)
    with pytest.raises(FieldError, match="name"):
        MassLine(" ", 500.0)
    with pytest.raises(FieldError, match="peak_n"):
        Peaks(0.0)
    with pytest.raises(FieldError, match="sides"):
        eccentric_check(ISOMETRIC, Peaks(400.0, one_side=True), days_apart=0)
