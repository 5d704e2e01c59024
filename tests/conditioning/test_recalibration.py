"""Another calibration on the same counts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.conditioning.recalibration import (
    counts_of,
    force_of,
    recalibrated,
    rezeroed,
)
from biofeedback.errors import FieldError


@given(
    c0=st.floats(-1e3, 1e3),
    per_count=st.floats(1e-5, 1e-2),
    sign=st.sampled_from([-1, 1]),
    bend=st.floats(-0.02, 0.02),
    counts=st.floats(-1e6, 1e6),
)
def test_the_inverse_gives_the_counts_back(
    c0: float, per_count: float, sign: int, bend: float, counts: float
) -> None:
    # bend: departure from the line at 1e6 counts, as a share.
    c1 = sign * per_count
    curve = Calibration((c0, c1, bend * c1 / 1e6))
    back = counts_of(curve, force_of(curve, counts))
    assert back == pytest.approx(counts, rel=1e-6, abs=1e-6 * 1e3 / per_count)


def test_a_force_that_no_reading_gives() -> None:
    with pytest.raises(FieldError, match="no reading of the cell gives 100 N"):
        counts_of(Calibration((0.0, 1.0, -0.01)), 100.0)


def profile(*lines: tuple[float, ...], zero: Zero) -> RigProfile:
    sides = (Side.LEFT, Side.RIGHT)
    channels = tuple(
        Channel(side.value, side, Calibration(line), 1000.0)
        for side, line in zip(sides, lines, strict=True)
    )
    return RigProfile("bench", channels, 80.0, zero)


def test_the_same_reading_stays_the_zero() -> None:
    zero = Zero(ZeroKind.EMPTY_RIG, (3.0, -2.0), (0.1, 0.2), "2026-05-04T10:00:00Z")
    before = profile((1.0, 0.001), (0.0, 0.002), zero=zero)
    after = recalibrated(before, [Calibration((5.0, 0.004), "May"), None])
    # 3 N by the old line are 2000 counts, and those are 13 N by the new one.
    assert after.zero.offsets_n == pytest.approx((13.0, -2.0))
    assert after.zero.spreads_n == pytest.approx((0.4, 0.2))
    assert (after.zero.kind, after.zero.taken_utc) == (zero.kind, zero.taken_utc)
    assert after.channels[0].calibration.label == "May"
    assert after.channels[1] == before.channels[1]


def test_no_zero_stays_no_zero() -> None:
    before = profile((1.0, 0.001), (0.0, 0.002), zero=Zero.none(2))
    after = recalibrated(before, [Calibration((5.0, 0.004)), None])
    assert after.zero == Zero.none(2)


def test_a_zero_is_moved_along_a_curve() -> None:
    zero = Zero(ZeroKind.LIMB_RESTING, (10.0, 0.0), (1.0, 0.0))
    old = profile((0.0, 0.01, 1e-7), (0.0, 1.0), zero=zero)
    new = replace(
        old,
        channels=(
            replace(old.channels[0], calibration=Calibration((0.0, 0.02))),
            old.channels[1],
        ),
    )
    moved = rezeroed(zero, old.channels, new.channels)
    # 0.01·x + 1e-7·x² = 10 → x = 990.195; slope there 0.010198.
    assert moved.offsets_n[0] == pytest.approx(0.02 * 990.1951, rel=1e-6)
    assert moved.spreads_n[0] == pytest.approx(0.02 / 0.01019804, rel=1e-6)
    assert moved.kind is ZeroKind.LIMB_RESTING
