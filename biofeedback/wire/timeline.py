"""The timeline: where a frame's samples stand in index and time.

The wire counts samples and microseconds in 32 bits. Here both are unwrapped, in
whole numbers, and turned into an index from 0 and seconds from 0. Neither
depends on how the bytes were cut or the samples grouped into frames.

Each stream has its own index. Time is one for all: 0 is the first sample that
was placed at all, since all streams are stamped by the board's one counter; the
first sample of another stream may so stand a little before 0.

Four things can happen between two frames of a stream:

* **Next.** The sequence goes on; nothing is lost.
* **Gap.** The sequence jumps forward; the jump is how many samples are lost.
  Time is unwrapped to the reading nearest to what so many samples take, so an
  outage longer than one turn of the counter (71.6 min) is placed right too.
* **Again.** The frame, or the beginning of it, was there before. Those samples
  are left out and counted.
* **Restart.** The sequence goes back and the frame is none of the last few; or
  time stands or goes back (a pause without loss of more than half a turn, 35.8
  min, cannot be told from that); or so many samples cannot have been lost in the
  time that has passed, or would have taken more than a day. The length of the
  gap is not known then. The index goes on by 1 and time by `RESTART_S`, so that
  both still grow, and `restarted` is set. Nothing may be computed across it.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from biofeedback.wire.frames import SEQUENCE_MODULUS
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    import numpy.typing as npt

    from biofeedback.wire.frames import Samples

RESTART_S = 1.0
"""Stands for a gap of unknown length: longer than any grace time."""
PAUSE_S = 0.5
"""A step in time longer than this, and than four periods, is a gap as well."""
GAP_MAX_S = 24 * 3600.0
"""A rig that was away for longer than a day has been started anew."""
FEW = 32
"""So many frames at once are placed one by one: arrays would take longer."""
REMEMBERED = 64
"""Frames a repetition is looked for in: 0.25 s at the fastest, one stuck read."""
_IMPOSSIBLE = 16  # lost samples need time: faster than any change of rate explains

_HALF = SEQUENCE_MODULUS // 2
_S_TO_US = 1_000_000


class Placed(NamedTuple):
    """Where the samples of a frame stand.

    Attributes:
        first_index: of the first sample kept, in its stream; lost ones counted.
        lost: samples lost just before it; 1 after a restart, where the true
            number is not known.
        time_s: shape (samples kept,), device time from the origin, read-only.
        skip: samples at the beginning of the frame that were there before and
            are not kept; use ``samples.counts[placed.skip:]``.
        gap: True where these samples do not follow the ones before directly:
            after a loss, a restart or a pause. Filters start anew.
        restarted: True after a gap of unknown length.
    """

    first_index: int
    lost: int
    time_s: npt.NDArray[np.float64]
    skip: int = 0
    gap: bool = False
    restarted: bool = False


@dataclass(slots=True)
class _Stream:
    """Where one stream stands, in unwrapped whole numbers."""

    next_sequence: int  # as on the wire
    next_index: int
    last_us: int  # of the last sample, unwrapped, from the origin
    last_wire_us: int  # the same as on the wire
    period_us: int = 0  # 0 until it is known
    recent: deque[tuple[int, int, bytes]] = field(
        default_factory=lambda: deque(maxlen=REMEMBERED)
    )  # number, time and counts of the last frames


class Timeline:
    """Places the samples of all streams of one board.

    Attributes:
        lost: samples lost since the beginning, in all streams.
        repeated: samples that came again and were left out.
        restarts: gaps of unknown length.
    """

    def __init__(self) -> None:
        self.lost = 0
        self.repeated = 0
        self.restarts = 0
        self._streams: dict[int, _Stream] = {}

    def place(self, samples: Samples) -> Placed:
        """Index and time of the samples of the next frame."""
        stream = self._streams.get(samples.stream)
        if stream is None:
            return self._begin(samples)
        ahead = _signed(samples.sequence - stream.next_sequence)
        if not ahead and (placed := self._follow(stream, samples)):
            return placed
        if ahead < 0:
            skip = _seen_before(stream, samples, behind=-ahead)
            return (
                self._repeat(stream, samples, skip)
                if skip
                else self._restart(stream, samples)
            )
        periods = [step for step in (stream.period_us, samples.step_us) if step]
        expected_us = (ahead + 1) * min(periods, default=0)
        elapsed_us = _elapsed(stream, samples, ahead, expected_us=expected_us)
        if elapsed_us is None:
            return self._restart(stream, samples)
        paused = elapsed_us > max(4 * expected_us, PAUSE_S * _S_TO_US)
        if not ahead:
            stream.period_us = _learned(stream.period_us, elapsed_us, paused=paused)
        self.lost += ahead
        first_us = stream.last_us + elapsed_us
        placed = Placed(
            stream.next_index + ahead,
            ahead,
            _times(samples, first_us),
            gap=ahead > 0 or paused,
        )
        _advance(stream, samples, placed.first_index, first_us)
        return placed

    def _follow(self, stream: _Stream, samples: Samples) -> Placed | None:
        """The next frame in time, as nearly always; None, and nothing done, if not."""
        elapsed_us = (samples.time_us - stream.last_wire_us) % SEQUENCE_MODULUS
        if not 0 < elapsed_us <= _no_pause_us(stream.period_us, samples.step_us):
            return None
        stream.period_us = elapsed_us  # of a single sample; else its step
        first_us = stream.last_us + elapsed_us
        placed = Placed(stream.next_index, 0, _times(samples, first_us))
        _advance(stream, samples, placed.first_index, first_us)
        return placed

    def place_all(
        self, samples: Samples | Run
    ) -> Iterable[tuple[Placed, Samples | Run]]:
        """Where the samples of one frame or more stand, in as large pieces as can be.

        As by `place` of each frame, and quicker where they follow each other evenly.
        """
        if isinstance(samples, Run):
            return self._place_run(samples)
        return ((self.place(samples), samples),)

    def _place_run(self, run: Run) -> Iterator[tuple[Placed, Samples | Run]]:
        if len(run) <= FEW:
            placed = self._place_few(run)
            if placed is not None:
                yield placed, run
                return
        for begin, end in pairwise(_even_cuts(run)):
            part = run.part(begin, end)
            placed = self._place_even(part)
            if placed is None:  # the first does not follow, the others do
                first = next(part.part(0, 1).frames())
                yield self.place(first), first
                part = part.part(1, len(part))
                placed = self._place_even(part)
            if placed is not None:
                yield placed, part
                continue
            for samples in part.frames():
                yield self.place(samples), samples

    def _place_few(self, run: Run) -> Placed | None:
        """As `_place_even`, frame by frame: quicker for a few, and for single samples.

        Returns:
            None, and nothing is taken, where not each is the next of its stream.
        """
        stream = self._streams.get(run.stream)
        if stream is None:
            return None
        sequence, wire_us = stream.next_sequence, stream.last_wire_us
        end_us, period_us = stream.last_us, stream.period_us
        each, firsts_us = run.each, []
        steps_us = run.step_us.tolist()
        heads = zip(run.sequence.tolist(), run.time_us.tolist(), steps_us, strict=True)
        for number, time_us, step_us in heads:
            elapsed_us = (time_us - wire_us) % SEQUENCE_MODULUS
            longest_us = _no_pause_us(period_us, step_us)
            if number != sequence or not 0 < elapsed_us <= longest_us:
                return None
            firsts_us.append(end_us + elapsed_us)
            end_us = firsts_us[-1] + (each - 1) * step_us
            wire_us = (time_us + (each - 1) * step_us) % SEQUENCE_MODULUS
            sequence = (number + each) % SEQUENCE_MODULUS
            period_us = step_us or elapsed_us
        within = range(each)
        times_s = [
            (first_us + index * step_us) / _S_TO_US
            for first_us, step_us in zip(firsts_us, steps_us, strict=True)
            for index in within
        ]
        placed = Placed(stream.next_index, 0, np.array(times_s))
        placed.time_s.setflags(write=False)
        stream.period_us = period_us
        self._remember(stream, run, firsts_us[-1])
        return placed

    def _place_even(self, run: Run) -> Placed | None:
        """Where the samples of frames stand that follow each other evenly.

        Returns:
            None, and nothing is taken, where the first is any other than the next of
            its stream, or the frames hold one sample only, or there is no frame.
        """
        stream = self._streams.get(run.stream)
        if stream is None or run.each == 1 or not len(run):
            return None
        next_one = int(run.sequence[0]) == stream.next_sequence
        elapsed_us = (int(run.time_us[0]) - stream.last_wire_us) % SEQUENCE_MODULUS
        step_us = int(run.step_us[0])
        in_time = 0 < elapsed_us <= _no_pause_us(stream.period_us, step_us)
        if not (next_one and in_time):
            return None
        wire_us = run.time_us - run.time_us[0]
        first_us = stream.last_us + elapsed_us + _unwrapped(wire_us)
        within = np.arange(run.each, dtype=np.int64)
        time_us = first_us[:, None] + run.step_us[:, None] * within
        placed = Placed(stream.next_index, 0, time_us.reshape(-1) / _S_TO_US)
        placed.time_s.setflags(write=False)
        self._remember(stream, run, int(first_us[-1]))
        return placed

    def _remember(self, stream: _Stream, run: Run, first_us: int) -> None:
        """Moves the stream behind frames, of which the last begins at `first_us`."""
        recent = run
        if len(run) > REMEMBERED:
            recent = run.part(len(run) - REMEMBERED, len(run))
        counts, size = recent.counts.tobytes(), run.each * run.counts[:1].nbytes
        sequences, times_us = recent.sequence.tolist(), recent.time_us.tolist()
        heads = zip(sequences, times_us, strict=True)
        for number, (sequence, time_us) in enumerate(heads):
            content = counts[number * size : (number + 1) * size]
            stream.recent.append((sequence, time_us, content))
        _move(
            stream,
            sequences[-1],
            times_us[-1],
            int(run.step_us[-1]),
            run.each,
            first_index=stream.next_index + run.each * (len(run) - 1),
            first_us=first_us,
        )

    def _begin(self, samples: Samples) -> Placed:
        """The first frame of a stream."""
        first_us = 0
        if self._streams:
            # Other streams may have run on for hours: stand beside the newest.
            other = max(self._streams.values(), key=lambda stream: stream.last_us)
            first_us = other.last_us + _signed(samples.time_us - other.last_wire_us)
        stream = _Stream(samples.sequence, 0, first_us, samples.time_us)
        self._streams[samples.stream] = stream
        _advance(stream, samples, 0, first_us)
        return Placed(0, 0, _times(samples, first_us))

    def _repeat(self, stream: _Stream, samples: Samples, skip: int) -> Placed:
        """A frame whose first `skip` samples were there before."""
        self.repeated += skip
        first_us = stream.last_us + _signed(samples.time_us - stream.last_wire_us)
        placed = Placed(stream.next_index, 0, _times(samples, first_us, skip), skip)
        if skip < len(samples.counts):
            _advance(stream, samples, stream.next_index - skip, first_us)
        return placed

    def _restart(self, stream: _Stream, samples: Samples) -> Placed:
        """A frame after a gap of unknown length."""
        self.restarts += 1
        self.lost += 1
        first_us = stream.last_us + int(RESTART_S * _S_TO_US)
        stream.period_us = 0
        stream.recent.clear()
        placed = Placed(
            stream.next_index + 1,
            1,
            _times(samples, first_us),
            gap=True,
            restarted=True,
        )
        _advance(stream, samples, placed.first_index, first_us)
        return placed


def _even_cuts(run: Run) -> list[int]:
    """The places between which frames of a run follow each other evenly."""
    due = (run.sequence[:-1] + run.each) % SEQUENCE_MODULUS
    span_us = run.step_us * (run.each - 1)
    elapsed_us = (run.time_us[1:] - run.time_us[:-1] - span_us[:-1]) % SEQUENCE_MODULUS
    usual_us = np.minimum(run.step_us[:-1], run.step_us[1:])
    follows = (run.sequence[1:] == due) & (elapsed_us > 0)
    longest_us = np.maximum(4 * usual_us, PAUSE_S * _S_TO_US)
    follows &= elapsed_us <= np.minimum(longest_us, _HALF - 1)
    return [0, *(np.flatnonzero(~follows) + 1).tolist(), len(run)]


def _no_pause_us(period_us: int, step_us: int) -> float:
    """The longest step in time that is surely neither a pause nor a restart.

    Args:
        period_us: of the stream; 0 where it is not known.
        step_us: of the frame; 0 where it is a single sample.
    """
    usual_us = min(period_us or step_us, step_us or period_us)
    return min(max(4 * usual_us, PAUSE_S * _S_TO_US), _HALF - 1)


def _unwrapped(wire_us: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
    """Times that only grow, of readings of 32 bits from 0 on."""
    steps_us = np.diff(wire_us, prepend=0) % SEQUENCE_MODULUS
    return np.cumsum(steps_us)


def _learned(period_us: int, elapsed_us: int, *, paused: bool) -> int:
    """The period after a step of `elapsed_us`: a pause is no period, at first.

    A board that really has become slow is followed within a few samples.
    """
    return min(elapsed_us, 2 * period_us) if paused and period_us else elapsed_us


def _signed(difference: int) -> int:
    """A difference of two 32-bit readings, as the nearer of its two meanings."""
    return (difference + _HALF) % SEQUENCE_MODULUS - _HALF


def _elapsed(
    stream: _Stream, samples: Samples, ahead: int, *, expected_us: int
) -> int | None:
    """Time from the last sample to this frame, or None where none makes sense.

    Args:
        stream: where the stream stands.
        samples: the frame.
        ahead: samples lost between.
        expected_us: what `ahead` + 1 samples take; 0 where that is not known.
    """
    read_us = (samples.time_us - stream.last_wire_us) % SEQUENCE_MODULUS
    turns = max(0, round((expected_us - read_us) / SEQUENCE_MODULUS))
    elapsed_us = read_us + turns * SEQUENCE_MODULUS
    went_back = read_us >= _HALF and expected_us < _HALF
    too_soon = ahead > 0 and elapsed_us * _IMPOSSIBLE < expected_us
    too_long = expected_us > GAP_MAX_S * _S_TO_US
    if elapsed_us == 0 or went_back or too_soon or too_long:
        return None
    return elapsed_us


def _seen_before(stream: _Stream, samples: Samples, *, behind: int) -> int:
    """How many of the first samples were there before; 0 for a restart."""
    count = len(samples.counts)
    if (samples.sequence, samples.time_us, samples.counts.tobytes()) in stream.recent:
        return count
    if behind >= count:
        return 0
    # The frame reaches beyond what is known. It overlaps if its sample of the
    # last known number also has that one's time.
    apart_us = _signed(
        samples.time_us + (behind - 1) * samples.step_us - stream.last_wire_us
    )
    return behind if 2 * abs(apart_us) <= samples.step_us else 0


def _times(samples: Samples, first_us: int, skip: int = 0) -> npt.NDArray[np.float64]:
    """Seconds from the origin, exact to the last bit of a microsecond."""
    steps = range(skip, len(samples.counts))
    step_us = samples.step_us
    time_s = np.array([(first_us + step_us * step) / _S_TO_US for step in steps])
    time_s.setflags(write=False)
    return time_s


def _advance(
    stream: _Stream, samples: Samples, first_index: int, first_us: int
) -> None:
    """Moves the stream behind this frame."""
    head = samples.sequence, samples.time_us, samples.step_us, len(samples.counts)
    _move(stream, *head, first_index=first_index, first_us=first_us)
    stream.recent.append((samples.sequence, samples.time_us, samples.counts.tobytes()))


def _move(
    stream: _Stream,
    sequence: int,
    time_us: int,
    step_us: int,
    count: int,
    *,
    first_index: int,
    first_us: int,
) -> None:
    """Where a stream stands after a frame that begins at this index and time."""
    span_us = step_us * (count - 1)
    stream.next_sequence = (sequence + count) % SEQUENCE_MODULUS
    stream.next_index = first_index + count
    stream.last_us = first_us + span_us
    stream.last_wire_us = (time_us + span_us) % SEQUENCE_MODULUS
    stream.period_us = step_us or stream.period_us
