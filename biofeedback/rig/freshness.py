"""Freshness: whether what comes is the force of this moment.

Samples that come in time can still be worthless. Two things are looked at, each
whenever a frame has come, in a few comparisons:

* **One and the same count.** A load cell at a converter of 24 bits is never still:
  its noise is many counts wide. With σ of 1 count, the least at which a board does
  not round, two neighbours are equal with p = 0.38, and 30 in a row by chance once
  in 10¹² (`measures/stillness.py` has the sum). So `STANDS_SAMPLES` equal ones that
  last `STANDS_S` are no signal.
  A board that rounds (a plain one with one decimal) stands still by itself where
  nothing pulls. It is known by a run of equal counts that *ended*, and is given
  `ROUNDING_LOADED_S` under load, where a body sways by about 1 % of its force all
  the time, and `ROUNDING_S` without load. A board that prints numbers, or has few
  bits, is taken to round from its first sample on.
  A channel that has never moved while another one has is a cell that is not there or
  is dead, which the start check tells; the other one's force is live all the same.
* **The board's clock against ours.** How much later than the soonest a sample was
  read is its delay here. Where it has grown by `BEHIND_S`, what comes is old, or the
  board's time stands, or the same frame comes again and again. Clocks that differ by
  up to `SKEW` are forgiven; once behind, nothing is forgiven until what comes is new
  again or the port is opened anew.

Common practice, no source, where none is named. Neither finds a frozen force in a
cycle of true samples that a board plays over and over in its own time, nor samples
that were late by the same time from the first one on.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from biofeedback.training.levels import ONSET_LEAST_N
from biofeedback.wire.frames import SEQUENCE_MODULUS
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from biofeedback.conditioning.block import Block
    from biofeedback.wire.frames import Samples

NS = 1_000_000_000
STANDS_S = 0.5
"""As long as a signal may be gone before it is plainly gone (`rig/health.py`)."""
STANDS_SAMPLES = 30
ROUNDED_SAMPLES = 20
ROUNDED_S = 0.25
"""Such a run that has ended by itself is told of rounding: with a σ of 1 count it
comes once in a day of 80 samples a second, with one of 2 counts never."""
ROUNDING_LOADED_S = 5.0
ROUNDING_S = 30.0
BEHIND_S = 0.5
SKEW = 0.1
"""Of a clock: a ceramic resonator is off by 0.5 %, an RC oscillator of a
microcontroller by up to 10 % (common in data sheets of 8-bit controllers)."""
_HALF_US, _TURN_US = 2**31, 2**32


class StandingCounts:
    """How long each channel has given one and the same count.

    Args:
        rounds: whether the board is known to round.

    Attributes:
        standing: channels that have done so for too long, up to the newest block.
    """

    def __init__(self, *, rounds: bool = False) -> None:
        self._known_to_round = rounds
        self._moved: list[bool] = []
        self._last: list[int] = []
        self._stood_s: list[float] = []
        self._samples: list[int] = []
        self._rounds: list[bool] = []
        self._now_s: float | None = None
        self.standing: tuple[int, ...] = ()

    def begin_stream(self) -> None:
        """Time starts again at 0 with the next block; what stands goes on standing."""
        self._now_s = None

    def push(self, block: Block) -> None:
        """Consecutive samples."""
        newest: list[int] = block.counts[-1].tolist()
        before, self._last = self._last, newest
        after_s, self._now_s = self._now_s, float(block.time_s[-1])
        if len(before) != len(newest):
            self._stood_s = [0.0] * len(newest)
            self._samples = [1] * len(newest)
            self._rounds = [self._known_to_round] * len(newest)
            self._moved = [False] * len(newest)
            self.standing = ()
            return
        if after_s is None or block.gap:
            after_s = float(block.time_s[0])
        standing = []
        for channel, count in enumerate(newest):
            moved = count != before[channel] or (
                len(block) > 1 and bool((block.counts[:, channel] != count).any())
            )
            if moved or block.saturated[-1, channel]:  # a stop is told as one
                self._move(channel)
                continue
            self._stood_s[channel] += self._now_s - after_s
            self._samples[channel] += len(block)
            if self._stood_s[channel] >= STANDS_S and self._stands(channel, block):
                standing.append(channel)
        if any(self._moved):
            standing = [channel for channel in standing if self._moved[channel]]
        self.standing = tuple(standing)

    def _move(self, channel: int) -> None:
        self._moved[channel] = True
        if (
            self._samples[channel] >= ROUNDED_SAMPLES
            and self._stood_s[channel] >= ROUNDED_S
        ):
            self._rounds[channel] = True
        self._stood_s[channel], self._samples[channel] = 0.0, 1

    def _stands(self, channel: int, block: Block) -> bool:
        if not self._rounds[channel]:
            return self._samples[channel] >= STANDS_SAMPLES
        loaded = bool(abs(block.shown_n[-1, channel]) >= ONSET_LEAST_N)  # not for NaN
        limit_s = ROUNDING_LOADED_S if loaded else ROUNDING_S
        return self._stood_s[channel] >= limit_s


@dataclass(slots=True)
class _Clock:
    """One stream's newest stamp and how far it lies behind."""

    last_us: int
    last_ns: int
    next_sequence: int
    period_us: float = 0.0  # 0 until it is known
    behind_s: float = 0.0


@dataclass(slots=True)
class Delay:
    """How much later than the soonest the newest samples were read."""

    _clocks: dict[int, _Clock] = field(default_factory=dict)

    def begin(self) -> None:
        """The port is open, or the board has begun anew."""
        self._clocks.clear()

    def hear(self, samples: Samples | Run, *, now_ns: int) -> None:
        """A frame was read, or frames of one layout at once."""
        if not isinstance(samples, Run):
            head = samples.sequence, samples.time_us, samples.step_us
            self._hear(samples.stream, *head, len(samples.counts), now_ns=now_ns)
            return
        heads = zip(
            samples.sequence.tolist(),
            samples.time_us.tolist(),
            samples.step_us.tolist(),
            strict=True,
        )
        for head in heads:
            self._hear(samples.stream, *head, samples.each, now_ns=now_ns)

    def _hear(
        self,
        stream: int,
        sequence: int,
        time_us: int,
        step_us: int,
        count: int,
        *,
        now_ns: int,
    ) -> None:
        newest_us, following = time_us + step_us * (count - 1), sequence + count
        clock = self._clocks.get(stream)
        if clock is None:
            self._clocks[stream] = _Clock(newest_us, now_ns, following)
            return
        passed_us = _passed_us(clock, sequence, count, newest_us)
        passed_s = (now_ns - clock.last_ns) / NS
        forgiven_s = 0.0 if clock.behind_s > BEHIND_S else SKEW * passed_s
        behind_s = clock.behind_s + passed_s - passed_us / 1e6 - forgiven_s
        clock.behind_s = max(0.0, behind_s)
        clock.last_us, clock.last_ns = newest_us, now_ns
        clock.next_sequence = following

    @property
    def old(self) -> bool:
        """Whether what comes is too old to be shown as the force of now."""
        return any(clock.behind_s > BEHIND_S for clock in self._clocks.values())


def _passed_us(clock: _Clock, sequence: int, count: int, newest_us: int) -> int:
    """Board time since the last frame.

    A counter alone tells no more than half a turn (35.8 min). Where samples are
    missing, as after a long sleep of this computer, their number tells the rest.
    """
    passed_us = (newest_us - clock.last_us + _HALF_US) % _TURN_US - _HALF_US
    ahead = (sequence - clock.next_sequence) % SEQUENCE_MODULUS
    if not ahead and passed_us > 0:
        clock.period_us = passed_us / count
    elif 0 < ahead < SEQUENCE_MODULUS // 2:
        taken_us = (ahead + count) * clock.period_us
        passed_us += max(0, round((taken_us - passed_us) / _TURN_US)) * _TURN_US
    return passed_us
