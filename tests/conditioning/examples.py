"""What the tests of this package share: an invented rig, and frames for it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    FilterChoice,
    FilterKind,
    RigProfile,
    Side,
    Zero,
)
from biofeedback.wire.frames import SEQUENCE_MODULUS, Samples

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy.typing as npt

    from biofeedback.conditioning.block import Block

RATE_HZ = 80.0
STEP_US = 12_500
VECTORS = Path(__file__).parents[1] / "vectors"

EACH_KIND = [
    FilterChoice(kind=FilterKind.NONE),
    *(FilterChoice(order=order, cutoff_hz=10.0) for order in range(1, 9)),
    *(
        FilterChoice(kind=FilterKind.CRITICALLY_DAMPED, passes=passes, cutoff_hz=6.0)
        for passes in range(1, 5)
    ),
    *(
        FilterChoice(kind=FilterKind.MOVING_AVERAGE, samples=samples)
        for samples in (1, 2, 8, 33)
    ),
    FilterChoice(kind=FilterKind.EXPONENTIAL, time_constant_s=0.1),
    FilterChoice(kind=FilterKind.ONE_EURO),
    FilterChoice(notch_hz=16.0),
    FilterChoice(kind=FilterKind.NONE, notch_hz=16.0),
    FilterChoice(kind=FilterKind.ONE_EURO, notch_hz=16.0),
    FilterChoice(kind=FilterKind.MOVING_AVERAGE, notch_hz=16.0),
]


def name_of(choice: FilterChoice) -> str:
    """Short name of a choice, to tell tests apart."""
    return (
        f"{choice.kind.value}-{choice.order}-{choice.passes}-{choice.samples}"
        f"-{choice.notch_hz}-{choice.despike}"
    )


def rig(
    *sides: Side,
    choice: FilterChoice | None = None,
    coefficients: tuple[float, ...] = (0.0, 1.0),
    rate_hz: float = RATE_HZ,
) -> RigProfile:
    """An invented rig, by default with 1 N a count and no filter."""
    channels = tuple(
        Channel(f"cell {index}", side, Calibration(coefficients), rated_n=1000.0)
        for index, side in enumerate(sides or (Side.SINGLE,))
    )
    return RigProfile(
        name="bench",
        channels=channels,
        rate_hz=rate_hz,
        zero=Zero.none(len(channels)),
        filter=choice or FilterChoice(kind=FilterKind.NONE),
    )


def frame(
    counts: npt.ArrayLike,
    *,
    sequence: int = 0,
    saturated: npt.ArrayLike = False,
    settling: npt.ArrayLike = False,
    stream: int = 0,
) -> Samples:
    """A frame of samples, 12.5 ms apart; counts of shape (n,) are one channel."""
    values = np.array(counts, np.int32)
    if values.ndim == 1:
        values = values[:, np.newaxis]
    return Samples(
        sequence=sequence % SEQUENCE_MODULUS,
        stream=stream,
        time_us=sequence * STEP_US % SEQUENCE_MODULUS,
        step_us=STEP_US if len(values) > 1 else 0,
        counts=values,
        saturated=np.broadcast_to(np.array(saturated, bool), values.shape).copy(),
        settling=np.broadcast_to(np.array(settling, bool), values.shape[:1]).copy(),
    )


def part(whole: Samples, start: int, stop: int) -> Samples:
    """Samples `start` to `stop` of a frame, as a frame of their own."""
    return frame(
        whole.counts[start:stop],
        sequence=whole.sequence + start,
        saturated=whole.saturated[start:stop],
        settling=whole.settling[start:stop],
    )


def joined(blocks: Iterable[Block], field: str) -> npt.NDArray[np.float64]:
    """One field of many blocks, end to end."""
    arrays: npt.NDArray[np.float64] = np.concatenate(
        [getattr(block, field) for block in blocks]
    )
    return arrays


def table(name: str) -> npt.NDArray[np.void]:
    """A table from tests/vectors, columns by name."""
    rows: npt.NDArray[np.void] = np.genfromtxt(
        VECTORS / name, delimiter=",", names=True, skip_header=2, encoding="ascii"
    )
    return rows
