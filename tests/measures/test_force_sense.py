"""Errors of unseen efforts, against errors worked out by hand."""

from __future__ import annotations

import pytest

from biofeedback.measures.force_sense import Matched, force_sense


def test_ten_efforts_worked_out_by_hand() -> None:
    """E² = CE² + VE² with the denominator n: Henry, J Mot Behav 6 (1974) 149."""
    errors_n = (3.0, -1.0, 4.0, 0.0, -2.0, 5.0, 1.0, -3.0, 2.0, 6.0)
    found = force_sense([Matched(200.0 + error_n, 200.0) for error_n in errors_n])
    assert found is not None
    assert found.efforts == 10
    error = found.error
    assert (error.ce_n, error.ae_n) == pytest.approx((1.5, 2.7))
    assert error.ve_n == pytest.approx(2.872281, abs=5e-7)
    assert error.ce_n**2 + error.ve_n**2 == pytest.approx(10.5)
    # Half a per cent for each newton, as the target is 200 N.
    assert (found.ce_pct, found.ae_pct) == pytest.approx((0.75, 1.35))
    assert found.ve_pct == pytest.approx(2.872281 / 2, abs=5e-7)
    assert found.target_n == (200.0, 200.0)


def test_each_effort_is_judged_by_its_own_target() -> None:
    """10 % over 100 N and 10 % under 200 N: no bias in %, one of −5 N in newtons."""
    found = force_sense([Matched(110.0, 100.0), Matched(180.0, 200.0)])
    assert found is not None
    assert found.ce_pct == pytest.approx(0.0)
    assert found.ve_pct == found.ae_pct == pytest.approx(10.0)
    assert found.error.ce_n == pytest.approx(-5.0)
    assert found.target_n == (100.0, 200.0)


def test_nothing_is_told_of_no_effort() -> None:
    assert force_sense([]) is None
