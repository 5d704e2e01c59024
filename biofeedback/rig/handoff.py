"""The handoff: what crosses from the acquisition thread to the main thread.

Everything that crosses is immutable. The main thread pulls on its frame timer.
Blocks may be dropped, oldest first, and are then counted; events never are.

The reader may say when it will look next, and ask to be told of the blocks that come
for that look, where the writer keeps to it, or else just before it looks of those that
are about to come: once for each time that it asks, so nothing queues.
"""

from __future__ import annotations

import threading
import time
from collections import deque
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias

from biofeedback.phrase import Phrase, phrase
from biofeedback.training.events import TrainingEvent

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Mapping

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile, Zero
    from biofeedback.training.band import Band
    from biofeedback.training.changes import Terms
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

BLOCKS_MAX = 4000
"""12 s of a board that fills its frames for 3 ms, about as much as is drawn."""

LOOK_MAX_NS = 17_000_000
"""A frame of 60 Hz. Who says to come later than that may come at any time."""
EARLY_NS = 1_000_000
"""Blocks that come so shortly before a look are those for it."""
FRESH_NS = 1_500_000
"""Blocks that came so shortly before the look, or since, are drawn at once."""
OVERDUE_NS = 20_000_000
"""Blocks that are late by more than this may not come at all."""


class Link(Enum):
    """How the connection to the rig stands."""

    OPENING = phrase("opening")
    LIVE = phrase("live")
    STALE = phrase("stale")  # samples come, and they are not the force of now
    SILENT = phrase("silent")  # the port is open, the board answers, no samples come
    OTHER = phrase("another board")  # not the board in use: nothing of it is read
    LOST = phrase("lost")  # the port is gone or nothing at all comes
    ENDED = phrase("ended")  # a replay has come to its end, or the source was closed


@dataclass(frozen=True, slots=True)
class SetBegun:
    """A set has started; its time 0 is the first sample after this."""

    prescription: Prescription
    profile: RigProfile


@dataclass(frozen=True, slots=True)
class SetEnded:
    """A set is over and its recording closed."""

    reason: str


@dataclass(frozen=True, slots=True)
class BandChanged:
    """The band in force changed at `time_s`."""

    time_s: float
    old: Band
    new: Band
    reason: str


@dataclass(frozen=True, slots=True)
class TermsChanged:
    """Hold, rest or number of reps changed at `time_s`; only what changed is told."""

    time_s: float
    old: Terms
    new: Terms
    reason: str


@dataclass(frozen=True, slots=True)
class GateMoved:
    """From `time_s` on, reps may start (`open`) or are held back."""

    time_s: float
    open: bool
    reason: str


@dataclass(frozen=True, slots=True)
class ZeroTaken:
    """A new zero is in force."""

    zero: Zero


@dataclass(frozen=True, slots=True)
class Refused:
    """A command was not carried out; `message` says why and what to do."""

    command: str
    message: str


@dataclass(frozen=True, slots=True)
class Measured:
    """The numbers of a rep, as stored: the JSON object of its ``rep end`` event."""

    rep: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Warned:
    """Something about rig or recording that the practitioner should know."""

    message: str


SessionEvent: TypeAlias = (
    TrainingEvent
    | SetBegun
    | SetEnded
    | BandChanged
    | TermsChanged
    | GateMoved
    | ZeroTaken
    | Refused
    | Measured
    | Warned
)


@dataclass(frozen=True, slots=True)
class OtherBoard:
    """Another board than the one in use is on the port, and is not read.

    Attributes:
        known: the board in use, in words.
        here: the one that is there now.
    """

    known: str
    here: str

    def words(self, *, in_set: bool) -> Phrase:
        """Which is here, which was, and what to do."""
        if in_set:
            return phrase(
                "Another board is on the port: {here}. The set waits for {known}: put "
                "it back. To use the other one, stop the set first.",
                here=self.here,
                known=self.known,
            )
        return phrase(
            "Another board is on the port: {here}. In use was {known}. No force is "
            "read: put that one back, or say that this one is to be used.",
            here=self.here,
            known=self.known,
        )


@dataclass(frozen=True, slots=True)
class Health:
    """How good the signal is, at this moment.

    Attributes:
        source: name of the source, for people.
        found: what the source said of itself (board, layout of a plain board).
        rate_hz: measured over the last seconds; 0 before it is known.
        lost: samples lost since the source was opened.
        damaged: damaged frames since the source was opened.
        arrived_ns: monotonic time at which the newest sample was read, or None.
        filter_delay_s: delay of the live filter at DC.
        saturated: whether a channel is at its stop now.
        recording: whether a recording is being written.
        message: plain words when `link` is not live or a channel is at its stop;
            else empty.
        other: the other board where `link` is that, else None.
        unknown_gaps: gaps of unknown length since the source was opened, such as a
            restart of the board; `lost` counts 1 for each.
    """

    link: Link
    source: str
    found: str
    rate_hz: float
    lost: int
    damaged: int
    arrived_ns: int | None
    filter_delay_s: float
    saturated: bool
    recording: bool
    message: str
    other: OtherBoard | None = None
    unknown_gaps: int = 0


@dataclass(frozen=True, slots=True)
class Update:
    """All that is new since the last time, and how things stand now.

    Attributes:
        state: of the set under way, or of the last one; None before the first.
        dropped_blocks: dropped since the last time because nobody pulled.
        longest_wait_s: longest time between two reads that brought samples, of
            those since the last time; 0 where there was none.
    """

    blocks: tuple[Block, ...]
    events: tuple[SessionEvent, ...]
    state: SetState | None
    health: Health
    profile: RigProfile
    dropped_blocks: int
    longest_wait_s: float = 0.0


class Handoff:
    """One writer, one reader; the lock is held for a few list operations only.

    Args:
        clock: monotonic nanoseconds, the writer's.
    """

    def __init__(
        self,
        health: Health,
        profile: RigProfile,
        *,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self._clock = clock
        self._look_ns = 0
        self._put_ns = 0  # when the newest blocks came
        self._due_ns: int | None = None  # when the next blocks should come
        self._told: Callable[[], None] | None = None
        self._told_from_ns = 0  # by blocks that come sooner it is not
        self._for_looks = False
        self._lock = threading.Lock()
        self._blocks: deque[Block] = deque()
        self._events: list[SessionEvent] = []
        self._dropped = 0
        self._longest_wait_ns = 0
        self._state: SetState | None = None
        self._health = health
        self._profile = profile

    def put(
        self,
        *,
        blocks: Collection[Block],
        events: Iterable[SessionEvent],
        state: SetState | None,
        health: Health,
        profile: RigProfile,
        due_ns: int | None = None,
        for_looks: bool = False,
    ) -> None:
        """Called by the acquisition thread after each step.

        Args:
            due_ns: when the next blocks should come; None where nobody knows.
            for_looks: whether blocks come for each look of the reader, and only then.
        """
        told = None
        with self._lock:
            if blocks:
                self._put_ns = self._clock()
                if self._put_ns >= self._told_from_ns:
                    told, self._told = self._told, None
            self._for_looks = for_looks
            self._blocks.extend(blocks)
            self._due_ns = due_ns
            while len(self._blocks) > BLOCKS_MAX:
                self._blocks.popleft()
                self._dropped += 1
            self._events.extend(events)
            before_ns, now_ns = self._health.arrived_ns, health.arrived_ns
            if before_ns is not None and now_ns is not None:
                wait_ns = now_ns - before_ns
                self._longest_wait_ns = max(self._longest_wait_ns, wait_ns)
            self._state = state
            self._health = health
            self._profile = profile
        if told is not None:
            told()

    def take(self) -> Update:
        """Called by the main thread on its frame timer."""
        with self._lock:
            update = Update(
                tuple(self._blocks),
                tuple(self._events),
                self._state,
                self._health,
                self._profile,
                self._dropped,
                self._longest_wait_ns / 1e9,
            )
            self._blocks.clear()
            self._events.clear()
            self._dropped = 0
            self._longest_wait_ns = 0
            return update

    def look_at(self, look_ns: int, told: Callable[[], None] | None = None) -> bool:
        """The reader will come at this moment, after that for which it waits now.

        Args:
            told: to be called, once, by the blocks that come for this look.

        Returns:
            Whether it will be; else the reader has to come by itself.
        """
        with self._lock:
            self._look_ns = min(look_ns, self._clock() + LOOK_MAX_NS)
            if told is None or not self._for_looks:
                return False
            if self._blocks and self._put_ns >= self._look_ns - EARLY_NS:
                return False  # they are there
            self._told, self._told_from_ns = told, self._look_ns - EARLY_NS
            return True

    @property
    def looked_at_ns(self) -> int:
        """When the reader is next to be expected; past, where it waits or is late."""
        with self._lock:
            waits = self._told is not None and not self._told_from_ns
            return 0 if waits else self._look_ns

    def await_blocks(self, told: Callable[[], None], *, within_ns: int) -> bool:
        """Asks to be told, once, when blocks come that are about to.

        Args:
            told: called by the acquisition thread.
            within_ns: sooner than this.

        Returns:
            Whether they are; else nothing will be told. Not where some have only just
            come.
        """
        with self._lock:
            due_ns, self._told, now_ns = self._due_ns, None, self._clock()
            if due_ns is None or not -OVERDUE_NS <= due_ns - now_ns <= within_ns:
                return False
            look_ns = min(self._look_ns or now_ns, now_ns)  # past where it comes late
            if self._blocks and self._put_ns > look_ns - FRESH_NS:
                return False
            self._told, self._told_from_ns = told, 0
            return True
