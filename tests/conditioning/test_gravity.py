"""Gravity, masses, and the force of a hanging mass."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.conditioning.gravity import (
    ANOMALY_M_S2,
    Gravity,
    GravityFormula,
    local_gravity,
)
from biofeedback.conditioning.masses import (
    Mass,
    MassClass,
    air_density_kg_m3,
    buoyancy_factor,
    dead_weight,
    permitted_error_kg,
)
from biofeedback.errors import FieldError

# Somigliana's formula with the constants of GRS 80 (Moritz 2000) and WGS 84
# (NIMA TR8350.2), worked out with 40 digits; both agree with an independent closed
# form to 1e-10. WELMEC: formula of the guide on gravity zones, at sea level.
NORMAL = (
    (0, 9.7803267715, 9.7803253359, 9.7803180000),
    (15, 9.7837863976, 9.7837849624, 9.7837777234),
    (30, 9.7932487036, 9.7932472692, 9.7932402452),
    (45, 9.8061992025, 9.8061977694, 9.8061908532),
    (60, 9.8191783850, 9.8191769531, 9.8191698242),
    (75, 9.8286980584, 9.8286966275, 9.8286890718),
    (90, 9.8321863685, 9.8321849379, 9.8321771582),
)


@pytest.mark.parametrize(("latitude", "grs80", "wgs84", "welmec"), NORMAL)
def test_normal_gravity_at_sea_level(
    latitude: float, grs80: float, wgs84: float, welmec: float
) -> None:
    expected = {
        GravityFormula.GRS80: grs80,
        GravityFormula.WGS84: wgs84,
        GravityFormula.WELMEC: welmec,
    }
    for formula, value in expected.items():
        here = local_gravity(latitude_deg=latitude, altitude_m=0, formula=formula)
        assert here.m_s2 == pytest.approx(value, abs=6e-11)


# WGS 84 at 45°, second-order free air (TR8350.2 eq. 4-3), and the exact field.
@pytest.mark.parametrize(
    ("altitude", "second_order", "exact"),
    [
        (100, 9.8058892217, None),
        (500, 9.8046551757, 9.8046551518),
        (1000, 9.8031129436, 9.8031128969),
    ],
)
def test_gravity_falls_with_altitude(
    altitude: float, second_order: float, exact: float | None
) -> None:
    here = local_gravity(latitude_deg=45, altitude_m=altitude)
    assert here.m_s2 == pytest.approx(second_order, abs=6e-11)
    if exact is not None:
        assert here.m_s2 == pytest.approx(exact, abs=6e-8)


@given(latitude=st.floats(-90, 90), altitude=st.floats(-500, 9000))
def test_the_published_formulas_agree_anywhere(
    latitude: float, altitude: float
) -> None:
    values = [
        local_gravity(latitude_deg=latitude, altitude_m=altitude, formula=formula).m_s2
        for formula in GravityFormula
    ]
    # WELMEC's free air is linear: 3.085e-6 per metre everywhere.
    assert max(values) - min(values) < 1.2e-5 + 3e-8 * abs(altitude)
    south = local_gravity(latitude_deg=-latitude, altitude_m=altitude)
    assert south.m_s2 == pytest.approx(values[0], abs=1e-14)


def test_a_place_that_is_none_is_refused() -> None:
    with pytest.raises(FieldError, match="latitude"):
        local_gravity(latitude_deg=91, altitude_m=0)
    with pytest.raises(FieldError, match="latitude"):
        local_gravity(latitude_deg=math.nan, altitude_m=0)
    with pytest.raises(FieldError, match="altitude"):
        local_gravity(latitude_deg=45, altitude_m=30_000)
    with pytest.raises(FieldError, match="gravity"):
        Gravity.measured(98.1, half_width_m_s2=0)


# 20 kg and 10 kg, conventional mass in standard air (×0.99985); standard gravity,
# GRS 80 at sea level, and WGS 84 at 52°, 100 m. Independent arithmetic.
@pytest.mark.parametrize(
    ("gravity", "ten_n", "twenty_n"),
    [
        (Gravity.standard(), 98.05179, 196.10358),
        (
            local_gravity(latitude_deg=0, altitude_m=0, formula=GravityFormula.GRS80),
            97.788597,
            195.577194,
        ),
        (
            local_gravity(latitude_deg=45, altitude_m=0, formula=GravityFormula.GRS80),
            98.047283,
            196.094566,
        ),
        (
            local_gravity(latitude_deg=60, altitude_m=0, formula=GravityFormula.GRS80),
            98.177055,
            196.354110,
        ),
        (local_gravity(latitude_deg=52, altitude_m=100), 98.106938, 196.213875),
    ],
)
def test_force_of_a_hanging_mass(
    gravity: Gravity, ten_n: float, twenty_n: float
) -> None:
    for kg, force_n in ((10.0, ten_n), (20.0, twenty_n)):
        weight = dead_weight(Mass.of_class(kg, MassClass.M1), gravity)
        assert weight.force_n == pytest.approx(force_n, abs=6e-7)
        assert gravity.words in weight.words


def test_a_measured_gravity_is_used_as_given() -> None:
    known = Gravity.measured(9.8123, half_width_m_s2=1e-5)
    weight = dead_weight(Mass.with_tolerance(10, 0), known)
    assert weight.force_n == pytest.approx(98.123 * 0.99985)
    assert "9.8123 m/s² as given" in weight.words


def test_the_words_say_which_gravity() -> None:
    mass = Mass.with_tolerance(20, 2)
    assert "9.80665" in dead_weight(mass, Gravity.standard()).words
    here = local_gravity(latitude_deg=52, altitude_m=100)
    words = dead_weight(mass, here).words
    assert "local gravity 9.812166" in words
    assert "52°" in words
    assert "100 m" in words
    assert "±2 %" in words
    # Standard gravity without buoyancy, 196.133 N, would be wrong by −0.0412 %.
    force_n = dead_weight(mass, here).force_n
    assert 100 * (20 * 9.80665 / force_n - 1) == pytest.approx(-0.0412, abs=6e-5)


def test_uncertainty_of_a_hanging_mass() -> None:
    """The first two terms of a worked budget: 0.005665 N and 0.005774 N."""
    here = local_gravity(latitude_deg=52, altitude_m=100)
    weight = dead_weight(Mass.of_class(20, MassClass.M1), here)
    assert weight.mass_half_width_n / math.sqrt(3) == pytest.approx(0.005665, abs=2e-6)
    assert weight.gravity_half_width_n / math.sqrt(3) == pytest.approx(
        0.005774, abs=2e-6
    )
    assert weight.standard_uncertainty_n == pytest.approx(
        math.hypot(0.005665, 0.005774), abs=2e-6
    )
    assert here.half_width_m_s2 == ANOMALY_M_S2
    assert Gravity.standard().half_width_m_s2 > 9.80665 - 9.7803267715


# OIML R 111-1:2004, Table 1, ±mg.
@pytest.mark.parametrize(
    ("nominal_kg", "m1", "m2", "m3"),
    [
        (1, 50, 160, 500),
        (2, 100, 300, 1_000),
        (5, 250, 800, 2_500),
        (10, 500, 1_600, 5_000),
        (20, 1_000, 3_000, 10_000),
        (50, 2_500, 8_000, 25_000),
    ],
)
def test_permitted_errors_of_weights(
    nominal_kg: float, m1: float, m2: float, m3: float
) -> None:
    for mass_class, milligrams in zip(MassClass, (m1, m2, m3), strict=True):
        error_kg = permitted_error_kg(nominal_kg, mass_class)
        assert error_kg == pytest.approx(milligrams * 1e-6, rel=1e-12)
    with pytest.raises(FieldError, match="nominal"):
        permitted_error_kg(nominal_kg * 1.1, MassClass.M1)


def test_a_stack_adds_masses_and_tolerances() -> None:
    stack = Mass.of_class(20, MassClass.M1) + Mass.with_tolerance(5, 2)
    assert stack.kg == 25
    assert stack.half_width_kg == pytest.approx(0.101)
    assert "M1" in stack.words
    assert "±2 %" in stack.words
    with pytest.raises(FieldError, match="mass"):
        Mass.with_tolerance(-1, 2)
    with pytest.raises(FieldError, match="tolerance"):
        Mass.with_tolerance(1, -2)


# OIML R 111-1 Annex E, eq. E.3-1, worked out by hand.
@pytest.mark.parametrize(
    ("pressure", "humidity", "temperature", "density"),
    [
        (1013.25, 50, 20, 1.1992943),
        (950, 40, 23, 1.1129216),
        (1013.25, 50, 30, 1.1555075),
    ],
)
def test_air_density(
    pressure: float, humidity: float, temperature: float, density: float
) -> None:
    found = air_density_kg_m3(
        pressure_hpa=pressure, humidity_pct=humidity, temperature_c=temperature
    )
    assert found == pytest.approx(density, abs=6e-8)


def test_buoyancy() -> None:
    assert buoyancy_factor() == pytest.approx(0.99985, abs=1e-15)
    # In air of 1.2 kg/m³ the material does not matter: that defines it.
    assert buoyancy_factor(density_kg_m3=2300) == pytest.approx(0.99985, abs=1e-15)
    # In thin air it does: true mass of cast iron less the air it displaces.
    true_kg = (1 - 1.2 / 8000) / (1 - 1.2 / 7200)
    assert buoyancy_factor(density_kg_m3=7200, air_kg_m3=1.0) == pytest.approx(
        true_kg * (1 - 1.0 / 7200), rel=1e-15
    )
