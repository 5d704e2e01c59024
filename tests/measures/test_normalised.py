"""Force per lever arm and body mass."""

from __future__ import annotations

import pytest

from biofeedback.measures.normalised import Normalised, normalised


def test_400_n_at_80_kg() -> None:
    """21.2319 N/kg^0.67 with the exponent of Jaric 2002, worked out apart."""
    found = normalised(400.0, mass_kg=80.0)
    assert found.per_kg_n == 5.0
    assert found.allometric_n == pytest.approx(21.2319, abs=5e-5)
    assert found.torque_nm is found.torque_per_kg_nm is None


def test_torque_and_its_share() -> None:
    found = normalised(400.0, lever_arm_m=0.35, mass_kg=80.0)
    assert found.torque_nm == pytest.approx(140.0)
    assert found.torque_per_kg_nm == pytest.approx(1.75)


def test_nothing_is_made_up() -> None:
    assert normalised(400.0) == Normalised(400.0)
