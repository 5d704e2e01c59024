"""Critical force against a worked example, and against an independent line."""

from __future__ import annotations

import math

import pytest
from scipy import stats

from biofeedback.errors import FieldError
from biofeedback.measures.critical_force import HoldToFailure, critical_force

FORCES = {60.0: 184.0, 90.0: 162.0, 150.0: 139.0, 300.0: 126.0}
HOLDS = [HoldToFailure(time_s, time_s * force) for time_s, force in FORCES.items()]


def test_a_constructed_example_of_four_holds() -> None:
    """Constructed data; the line was worked out with another program, six digits."""
    found = critical_force(HOLDS)
    assert found is not None
    assert found.force_n == pytest.approx(111.157895, abs=5e-7)
    assert found.reserve_ns == pytest.approx(4393.815789, abs=5e-7)
    assert found.r_squared == pytest.approx(0.9998, abs=5e-5)
    assert found.force_error_n == pytest.approx(1.110966, abs=5e-7)
    assert found.reserve_error_ns == pytest.approx(195.763408, abs=5e-7)
    assert found.holds == 4


def test_any_three_holds_as_an_independent_line_has_it() -> None:
    found = critical_force(HOLDS[1:])
    line = stats.linregress(
        [one.time_s for one in HOLDS[1:]], [one.impulse_ns for one in HOLDS[1:]]
    )
    assert found is not None
    assert found.force_n == pytest.approx(line.slope)
    assert found.reserve_ns == pytest.approx(line.intercept)
    assert found.force_error_n == pytest.approx(line.stderr)
    assert found.reserve_error_ns == pytest.approx(line.intercept_stderr)


def test_too_few_or_too_alike_holds_say_nothing() -> None:
    assert critical_force(HOLDS[:2]) is None
    alike = [HoldToFailure(time_s, 20 * time_s) for time_s in (100.0, 130.0, 199.0)]
    assert critical_force(alike) is None


@pytest.mark.parametrize("time_s", [0.0, -1.0, math.inf, math.nan])
def test_what_is_no_hold_is_refused(time_s: float) -> None:
    with pytest.raises(FieldError, match="time_s"):
        HoldToFailure(time_s, 100.0)


def test_holds_whose_impulse_does_not_rise_have_no_critical_force() -> None:
    """Equal impulses have no r², and a falling line would be a force below nothing."""
    for impulses_ns in ((9000.0, 9000.0, 9000.0), (9000.0, 8000.0, 7000.0)):
        times_s = (60.0, 120.0, 240.0)
        holds = [
            HoldToFailure(*pair) for pair in zip(times_s, impulses_ns, strict=True)
        ]
        assert critical_force(holds) is None
