"""How good the signal is: bookkeeping over what came and when.

Pure: the time comes in as monotonic nanoseconds. Four states that must not look
alike are kept apart by what still comes:

* live: samples come.
* silent: no samples for 0.5 s, but the board goes on answering; `status` says
  which chip gives no data. Where each cell has a converter of its own, one that
  gives nothing is enough: a total could not be told.
* lost: no samples for 0.5 s and nothing else since, or the port is gone.
* stale: samples come and are not the force of this moment (`rig/freshness.py`): a
  cell's count stands still, the board's clock does, or what is read is old. One cell
  is enough here too.
"""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.block import any_set
from biofeedback.phrase import phrase
from biofeedback.rig.freshness import Delay, StandingCounts
from biofeedback.rig.handoff import Health, Link
from biofeedback.rig.health_words import (
    LOWER,
    OPENING_WORDS,
    UPPER,
    silence_words,
    stale_words,
    stop_words,
)
from biofeedback.rig.nominal import is_plain
from biofeedback.wire.frames import Identity, Status

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.wire.frames import Damage, Frame, Samples
    from biofeedback.wire.run import Run

NS = 1_000_000_000
PATIENCE_S = 0.5
"""A signal that is gone this long is plainly gone, on every screen."""
PERIODS = 4
"""A slow board is given this many of its periods, where that is longer."""
ANSWERS_S = 1.5
"""`status` comes once a second; a board that missed one does not answer."""
RATE_OVER_S = 3.0
"""Device time over which the rate is measured."""
FEW_BITS = 16
"""A converter with no more of them shows hardly any noise of a load cell."""


class Watch:
    """Keeps account of one source.

    Args:
        source: its name, for people.
        now_ns: when it was told to open.
        paced: whether its time is that of the world; what is stepped or played is
            never late.
    """

    def __init__(self, source: str, *, now_ns: int, paced: bool) -> None:
        self._source = source
        self._paced = paced
        self._lost = self._damaged = self._unknown_gaps = 0
        self._failure = ""
        self._ended = ""
        self._streams = 1
        self._streams_ns: dict[int, int] = {}  # when the newest sample of each was read
        self._other_ns: int | None = None  # when anything else was
        self._opened_ns = now_ns
        self._status: Status | None = None
        self._stops: tuple[int, ...] = ()  # 0 for a cell that is at none
        self._stamps: deque[tuple[float, int]] = deque()  # time in s, next index
        self._rate_hz = 0.0
        self._rounds = False  # whether the board is known to
        self._counts, self._delay = StandingCounts(), Delay()

    @property
    def failure(self) -> str:
        """Why the port is gone; empty while it is not."""
        return self._failure

    @property
    def lost(self) -> int:
        """Samples lost since the source was opened first."""
        return self._lost

    @property
    def damaged(self) -> int:
        """Damaged frames since the source was opened first."""
        return self._damaged

    def opened(self, *, now_ns: int) -> None:
        """The port is open; nothing has come yet."""
        self._failure = ""
        self._opened_ns = now_ns
        self._streams, self._streams_ns = 1, {}
        self._other_ns = None
        self._status = None
        self._counts = StandingCounts(rounds=self._rounds)
        self._delay.begin()
        self.begin_stream()

    def failed(self, message: str) -> None:
        """The port is gone, or could not be opened."""
        self._failure = message

    def ended(self, message: str) -> None:
        """There will be no more; the first reason told is kept."""
        self._ended = self._ended or message

    def begin_stream(self) -> None:
        """Indices start again at 0 with the next block."""
        self._stamps.clear()
        self._counts.begin_stream()

    def damage(self, damage: Damage, *, now_ns: int) -> None:
        """Bytes came that held no good frame."""
        del damage
        self._damaged += 1
        self._other_ns = now_ns

    def frame(self, frame: Frame, *, now_ns: int) -> None:
        """A good frame came that holds no samples."""
        self._other_ns = now_ns
        if isinstance(frame, Status):
            self._status = frame
        elif isinstance(frame, Identity):
            self._streams = len(frame.stream_channels)
            rounds = is_plain(frame) or frame.adc_bits <= FEW_BITS
            if rounds is not self._rounds:
                self._rounds = rounds
                self._counts = StandingCounts(rounds=rounds)
            self._delay.begin()  # it may have been started anew

    def samples(self, frames: Iterable[Samples | Run], *, now_ns: int) -> None:
        """Good frames of samples came at once."""
        for frame in frames:
            self._streams_ns[frame.stream] = now_ns
            self._delay.hear(frame, now_ns=now_ns)

    def block(self, block: Block) -> None:
        """Samples have been conditioned."""
        self._lost += block.lost
        self._unknown_gaps += block.restarted
        self._counts.push(block)
        self._stops = (0,) * block.counts.shape[1]
        if any_set(block.saturated[-1]):
            side = np.where(block.counts[-1] < 0, LOWER, UPPER)
            self._stops = tuple(np.where(block.saturated[-1], side, 0).tolist())
        now_s = float(block.time_s[-1])
        if self._stamps and block.time_s[0] - self._stamps[-1][0] > PATIENCE_S:
            self._stamps.clear()  # the length of a long gap may not be known
        self._stamps.append((now_s, block.first_index + len(block)))
        while now_s - self._stamps[0][0] > RATE_OVER_S:
            self._stamps.popleft()
        (first_s, first), (last_s, last) = self._stamps[0], self._stamps[-1]
        if last_s - first_s >= PATIENCE_S:
            self._rate_hz = (last - first) / (last_s - first_s)

    def report(
        self,
        *,
        now_ns: int,
        found: str,
        profile: RigProfile,
        filter_delay_s: float,
        recording: bool,
    ) -> Health:
        """How things stand now."""
        link = self._link(now_ns, profile.rate_hz)
        live = link is Link.LIVE
        return Health(
            link=link,
            source=self._source,
            found=found,
            rate_hz=self._rate_hz if live else 0.0,
            lost=self._lost,
            damaged=self._damaged,
            arrived_ns=self._samples_ns(),
            filter_delay_s=filter_delay_s,
            saturated=live and any(self._stops),
            recording=recording,
            message=self._words(link, profile),
            unknown_gaps=self._unknown_gaps,
        )

    def _link(self, now_ns: int, rate_hz: float) -> Link:
        if self._ended:
            return Link.ENDED
        if self._failure:
            return Link.LOST
        patience_ns = max(PATIENCE_S, PERIODS / rate_hz) * NS
        samples_ns = self._samples_ns()
        if samples_ns is not None and now_ns - samples_ns <= patience_ns:
            stale = self._late or self._counts.standing
            return Link.STALE if stale else Link.LIVE
        if self._answers(now_ns):
            return Link.SILENT
        if not self._streams_ns and self._other_ns is None:
            return Link.OPENING
        return Link.LOST

    @property
    def comes_fresh(self) -> bool:
        """Whether samples come in time, even though their counts stand still.

        An empty rig stands as still as that on a board that rounds; zero is taken
        just then.
        """
        return bool(self._counts.standing) and not self._late

    @property
    def _late(self) -> bool:
        """Whether what comes is old."""
        return self._paced and self._delay.old

    def _samples_ns(self) -> int | None:
        """When a sample of each stream had come; None before."""
        if len(self._streams_ns) < self._streams:
            return None
        return min(self._streams_ns.values())

    def _answers(self, now_ns: int) -> bool:
        """Whether anything but samples has come after the last of them."""
        other_ns, samples_ns = self._other_ns, self._samples_ns()
        if other_ns is None or now_ns - other_ns > ANSWERS_S * NS:
            return False
        return samples_ns is None or other_ns > samples_ns

    def _words(self, link: Link, profile: RigProfile) -> str:
        match link:
            case Link.LIVE:
                return stop_words(self._stops, profile)
            case Link.STALE:
                return stale_words(self._counts.standing, profile)
            case Link.SILENT:
                return silence_words(self._status)
            case Link.LOST:
                return self._failure or (
                    phrase(
                        "Nothing comes from {source} any more. Look at the "
                        "cable and at the board's power.",
                        source=self._source,
                    )
                )
            case Link.OPENING:
                return OPENING_WORDS
            case Link.ENDED | Link.OTHER:  # the acquisition has words for the latter
                return self._ended
