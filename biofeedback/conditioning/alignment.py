"""Alignment: two converters on clocks of their own, on one time base.

Each chip of such a board converts when its own oscillator says so, and the board
sends each as a stream of its own, stamped on its one counter. Here the second is
put on the sample times of the first, by a straight line between the two samples
around each of them. What comes out are samples of two channels.

The error of that: none where force runs along a straight line, beyond half a
count of rounding; where it bends, h²/8 · |F″| at most, with h the second chip's
sample period (the error of linear interpolation, for example Stoer and Bulirsch,
Introduction to Numerical Analysis, section 2.1.4). At 80 Hz a tremor of 10 Hz and
1 N peak comes out wrong by 0.08 N at most, a hold that drifts by 10 N/s² by
0.0002 N. Noise of the second channel gets smaller by up to a factor of √2, and
beats with the drift of the oscillators. The price in time: a sample waits for the
next one of the other chip, one period at most.

Rules:

* What comes out does not depend on how the streams are cut into frames.
* Nothing is filled in. There is a line only between two samples of the second
  chip that follow each other; what of the first stream lies elsewhere is lost.
* A sample is saturated, or settling, where any of those it was made of is.
* Only differences of the board's counter are used, so drift does not add up, and
  neither a wrap nor a reset can shift one stream against the other.
* The first sample that has both channels is number 0 at time 0.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from biofeedback.conditioning.despike import Despike
from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN, SEQUENCE_MODULUS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    import numpy.typing as npt

    from biofeedback.wire.frames import Samples
    from biofeedback.wire.timeline import Placed

WAIT_S = 1.0
"""A chip that is behind by so much is not waited for: twice what `silent` means."""
SPAN_PERIODS = 2.0
"""Neighbours are no farther apart: more than oscillators differ, less than what a
chip that paused leaves behind."""

_HALF = SEQUENCE_MODULUS // 2
_US = 1_000_000


class Stretch(NamedTuple):
    """Consecutive samples of all channels, without a gap among them.

    Attributes:
        first_index: of the first sample; lost ones are counted.
        lost: samples lost just before it.
        gap: whether it does not follow what was before directly.
        restarted: whether it comes after a gap of unknown length.
        time_s: shape (n,).
        counts: shape (n, channels), int32.
        clean: the same without spikes, where that was asked for.
        saturated: shape (n, channels), bool.
        settling: shape (n,), bool.
    """

    first_index: int
    lost: int
    gap: bool
    restarted: bool
    time_s: npt.NDArray[np.float64]
    counts: npt.NDArray[np.int32]
    clean: npt.NDArray[np.int32]
    saturated: npt.NDArray[np.bool_]
    settling: npt.NDArray[np.bool_]


def joined(stretches: Sequence[Stretch]) -> Stretch:
    """Stretches that follow each other without a gap, as one."""
    first = stretches[0]
    if len(stretches) == 1:
        return first
    return Stretch(
        first.first_index,
        first.lost,
        first.gap,
        first.restarted,
        *(
            np.concatenate([getattr(each, name) for each in stretches])
            for name in ("time_s", "counts", "clean", "saturated", "settling")
        ),
    )


_ROW = np.dtype(
    [
        ("index", np.int64),  # number in the stream
        ("timeline_us", np.int64),  # where the timeline placed it
        ("board_us", np.int64),  # on the board's counter, unwrapped
        ("gap", np.bool_),  # does not follow the one before
        ("counts", np.int32),
        ("clean", np.int32),
        ("saturated", np.bool_),
        ("settling", np.bool_),
    ]
)
"""A sample of one stream."""


class _Lane:
    """One stream: takes spikes out of it and keeps what is still needed."""

    def __init__(self, *, despike: bool) -> None:
        self._despike = Despike() if despike else None
        self.kept: npt.NDArray[np.void] = np.empty(0, _ROW)
        self.last_us: int | None = None

    def clear(self) -> None:
        self.kept = np.empty(0, _ROW)
        self.last_us = None

    def push(self, samples: Samples, placed: Placed, *, first_us: int) -> None:
        """Takes a frame; `first_us` is its first kept sample on the counter."""
        steps = np.arange(len(placed.time_s))
        rows = np.empty(len(steps), _ROW)
        rows["index"] = placed.first_index + steps
        rows["timeline_us"] = np.rint(placed.time_s * _US)
        rows["board_us"] = first_us + samples.step_us * steps
        rows["gap"] = False
        rows["gap"][0] = placed.gap
        counts = samples.counts[placed.skip :, 0]
        rows["counts"] = counts
        rows["saturated"] = (
            samples.saturated[placed.skip :, 0]
            | (counts >= COUNTS_MAX)
            | (counts <= COUNTS_MIN)
        )
        rows["settling"] = samples.settling[placed.skip :]
        good = ~rows["saturated"] & ~rows["settling"]
        rows["clean"] = self._without_spikes(counts, rows["gap"], good)
        self.kept = np.concatenate((self.kept, rows)) if len(self.kept) else rows
        self.last_us = int(rows["board_us"][-1])

    def forget(self, wait_us: int) -> None:
        """Waits no longer for a chip that is far behind."""
        if self.last_us is not None:
            late = np.searchsorted(self.kept["board_us"], self.last_us - wait_us)
            self.kept = self.kept[late:]

    def _without_spikes(
        self,
        counts: npt.NDArray[np.int32],
        gap: npt.NDArray[np.bool_],
        good: npt.NDArray[np.bool_],
    ) -> npt.NDArray[np.int32]:
        """Primed afresh after a gap and after a sample that is not good."""
        if self._despike is None:
            return counts
        clean = counts.copy()
        for row in range(len(counts)):
            if gap[row] or not good[row]:
                self._despike.reset()
            if good[row]:
                clean[row] = self._despike.push(counts[row : row + 1, None])[0, 0]
        return clean


class Aligner:
    """Two streams of one channel in, samples of two channels out.

    Args:
        rate_hz: nominal sample rate of both chips.
        despike: take single wrong readings out of each stream first, since a line
            through one would spread it over two samples.
    """

    def __init__(self, *, rate_hz: float, despike: bool = False) -> None:
        self._span_us = SPAN_PERIODS * _US / rate_hz
        self._wait_us = round(max(WAIT_S, 2 * SPAN_PERIODS / rate_hz) * _US)
        self._lanes = _Lane(despike=despike), _Lane(despike=despike)
        self._newest: tuple[int, int] | None = None  # on the wire, unwrapped
        self._origin: tuple[int, int] | None = None  # number and time of the first
        self._next_index = 0
        self._restarted = False  # since the last sample

    def push(self, samples: Samples, placed: Placed) -> list[Stretch]:
        """Takes the next frame of either stream, as the timeline placed it.

        Args:
            samples: of one channel; its stream is the channel.
            placed: with at least one sample.

        Returns:
            What can be said by now, in order.
        """
        lane = self._lanes[samples.stream]
        first_us = self._unwrapped(samples, placed)
        moved_us = 1 if lane.last_us is None else first_us - lane.last_us
        if placed.restarted or not 0 < moved_us <= self._wait_us:
            for each in self._lanes:
                each.clear()
        self._restarted = self._restarted or placed.restarted
        lane.push(samples, placed, first_us=first_us)
        stretches = self._join()
        for each in self._lanes:
            each.forget(self._wait_us)
        return stretches

    def _unwrapped(self, samples: Samples, placed: Placed) -> int:
        """The frame's first kept sample on the counter, beside the newest reading."""
        wire_us = samples.time_us + placed.skip * samples.step_us
        here_us = wire_us
        if self._newest is not None:
            newest_wire_us, newest_us = self._newest
            apart_us = (wire_us - newest_wire_us + _HALF) % SEQUENCE_MODULUS - _HALF
            here_us = newest_us + apart_us
        self._newest = wire_us, here_us
        return here_us

    def _join(self) -> list[Stretch]:
        """All samples of the first stream that the second has reached."""
        first, second = (lane.kept for lane in self._lanes)
        if not len(first) or not len(second):
            return []
        to_us, from_us = first["board_us"], second["board_us"]
        ready = int(np.searchsorted(to_us, from_us[-1], "right"))
        if not ready:
            return []
        rows, to_us = first[:ready], to_us[:ready]
        after = np.searchsorted(from_us, to_us, "left")
        before = np.maximum(after - 1, 0)
        meets = from_us[after] == to_us
        short = from_us[after] - from_us[before] <= self._span_us
        usable = meets | ((after > 0) & ~second["gap"][after] & short)
        joined = _joined(rows, second, np.where(meets, after, before), after)
        self._lanes[0].kept = first[ready:]
        # The last that is not newer stays, for the next line to begin at.
        passed = int(np.searchsorted(from_us, to_us[-1], "right")) - 1
        self._lanes[1].kept = second[max(0, passed) :]
        return [
            self._stretch(joined, rows, run) for run in _unbroken(usable, rows["gap"])
        ]

    def _stretch(
        self, joined: Stretch, rows: npt.NDArray[np.void], run: slice
    ) -> Stretch:
        index, us = int(rows["index"][run.start]), int(rows["timeline_us"][run.start])
        begins = self._origin is None
        if self._origin is None:
            self._origin = index, us
        origin_index, origin_us = self._origin
        lost = index - origin_index - self._next_index
        first_index = self._next_index + lost
        self._next_index = first_index + (run.stop - run.start)
        restarted = self._restarted and lost > 0
        self._restarted = self._restarted and not restarted
        return Stretch(
            restarted=restarted,
            first_index=first_index,
            lost=lost,
            gap=not begins and (lost > 0 or bool(rows["gap"][run.start])),
            time_s=(rows["timeline_us"][run] - origin_us) / _US,
            counts=joined.counts[run],
            clean=joined.clean[run],
            saturated=joined.saturated[run],
            settling=joined.settling[run],
        )


def _joined(
    first: npt.NDArray[np.void],
    second: npt.NDArray[np.void],
    before: npt.NDArray[np.intp],
    after: npt.NDArray[np.intp],
) -> Stretch:
    """Both channels at the times of the first; index and time are not filled in."""
    span_us = np.maximum(second["board_us"][after] - second["board_us"][before], 1)
    share = (first["board_us"] - second["board_us"][before]) / span_us

    def between(values: npt.NDArray[np.int32]) -> npt.NDArray[np.int32]:
        start = values[before].astype(np.float64)
        line = start + share * (values[after] - start)
        whole: npt.NDArray[np.int32] = np.rint(line).astype(np.int32)
        return whole

    return Stretch(
        first_index=0,
        lost=0,
        gap=False,
        restarted=False,
        time_s=np.zeros(0),
        counts=np.stack((first["counts"], between(second["counts"])), axis=1),
        clean=np.stack((first["clean"], between(second["clean"])), axis=1),
        saturated=np.stack(
            (
                first["saturated"],
                second["saturated"][before] | second["saturated"][after],
            ),
            axis=1,
        ),
        settling=first["settling"]
        | second["settling"][before]
        | second["settling"][after],
    )


def _unbroken(
    usable: npt.NDArray[np.bool_], gap: npt.NDArray[np.bool_]
) -> Iterator[slice]:
    """Runs of usable samples, none of which but the first comes after a gap."""
    start: int | None = None
    for row in range(len(usable)):
        if start is not None and (gap[row] or not usable[row]):
            yield slice(start, row)
            start = None
        if start is None and usable[row]:
            start = row
    if start is not None:
        yield slice(start, len(usable))
