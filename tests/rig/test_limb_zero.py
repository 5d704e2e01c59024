"""Without the limb the zero of the empty rig holds again, where it is still that."""

from __future__ import annotations

from dataclasses import replace

import pytest

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.conditioning.recalibration import recalibrated
from biofeedback.rig.limb_zero import LimbZero

EMPTY = Zero(ZeroKind.EMPTY_RIG, (3.0,), (0.1,), "2026-05-04T10:00:00Z")
LIMB = Zero(ZeroKind.LIMB_RESTING, (23.0,), (0.2,), "2026-05-04T10:05:00Z")
RIG = RigProfile(
    "bench",
    (Channel("cell", Side.SINGLE, Calibration((0.0, 0.001)), 1000.0),),
    80.0,
    EMPTY,
    serial_number="S1",
)
WITH_LIMB = RIG.with_zero(LIMB)


def test_the_zero_of_the_empty_rig_comes_back_through_a_second_limb() -> None:
    limb = LimbZero()
    limb.taken(RIG)
    limb.taken(WITH_LIMB)
    assert limb.ended(WITH_LIMB) == EMPTY


def test_after_a_calibration_the_same_reading_of_the_cell_is_zero() -> None:
    limb = LimbZero()
    limb.taken(RIG)
    # 3 N were 3000 counts, and 3000 counts are 5 N + 3000 × 0.004 N now.
    now = recalibrated(WITH_LIMB, [Calibration((5.0, 0.004))])
    assert limb.ended(now).offsets_n == pytest.approx((17.0,))


@pytest.mark.parametrize("board", [{"serial_number": "S2"}, {"gain": 64}])
def test_the_zero_of_another_board_never_comes_back(board: dict[str, object]) -> None:
    limb = LimbZero()
    limb.taken(RIG)
    other = replace(WITH_LIMB, **board)  # type: ignore[arg-type]  # of several types
    assert limb.ended(other).kind is ZeroKind.NONE


def test_a_zero_from_before_a_rig_without_one_is_forgotten() -> None:
    limb = LimbZero()
    limb.taken(RIG)
    limb.taken(RIG.with_zero(Zero.none(1)))
    assert limb.ended(WITH_LIMB).kind is ZeroKind.NONE
