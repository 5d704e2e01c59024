"""Units of force against their definitions."""

from __future__ import annotations

import pytest

from biofeedback.conditioning.units import NEWTONS_PER_KGF, NEWTONS_PER_LBF


def test_20_kilograms_force_in_three_units() -> None:
    in_kgf, in_lbf = 196.133 / NEWTONS_PER_KGF, 196.133 / NEWTONS_PER_LBF
    assert in_kgf == pytest.approx(20.0, rel=1e-15)
    assert in_lbf == pytest.approx(44.0924524, abs=5e-8)
    one_lbf_n = 1.0 * NEWTONS_PER_LBF
    assert one_lbf_n == pytest.approx(4.4482216152605, rel=1e-15)
