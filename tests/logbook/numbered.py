"""Frames whose counts are the numbers of their samples.

So no sample can be lost, doubled or moved without a test seeing it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
)
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    import numpy.typing as npt

STEP_US = 12_500  # 80 Hz
FIRST = 2**32 - 20  # the sequence wraps on the way
LINE = (0.001, 0.01)  # N, N/count

PROFILE = RigProfile(
    name="bench",
    channels=(
        Channel("left cell", Side.LEFT, Calibration(LINE), 1000.0),
        Channel("right cell", Side.RIGHT, Calibration(LINE), 1000.0),
    ),
    rate_hz=80.0,
    zero=Zero.none(2),
)
PRESCRIPTION = Prescription(task=Task("Leg press"), band=Band(60, 96), hold_s=5.0)


def numbers(first: int, count: int) -> npt.NDArray[np.int32]:
    """Shape (count, 2): the number, and its negative."""
    number = np.arange(first, first + count, dtype=np.int32)
    return np.stack([number, -number], axis=1)


def samples(first: int, count: int) -> Samples:
    """Samples number `first` and on, counted from 0."""
    return Samples(
        sequence=(FIRST + first) % 2**32,
        stream=0,
        time_us=(first * STEP_US) % 2**32,
        step_us=STEP_US if count > 1 else 0,
        counts=numbers(first, count),
        saturated=np.zeros((count, 2), np.bool_),
        settling=np.zeros(count, np.bool_),
    )


def sample_bytes(first: int, count: int) -> bytes:
    return encode(samples(first, count))


def header(**more: object) -> dict[str, object]:
    return {
        "athlete_code": "A-1",
        "profile": PROFILE.to_json(),
        "prescription": PRESCRIPTION.to_json(),
        **more,
    }


def rep_end(number: int) -> dict[str, object]:
    return {
        "kind": "rep end",
        "rep": {
            "number": number,
            "outcome": "complete",
            "start_s": 1.0 * number,
            "end_s": number + 0.5,
            "peak_n": 80.25,
            "feedback": "full",
        },
    }
