"""A recording played as it was live, with another filter, at its own pace.

The frames go through the chain that a replay uses, so zero, nudges and rules take
effect where they did; only the smoothing of what is shown is another. Nobody is
recorded. It has no thread: who plays pulls with `take`, as from a live session.
"""

from __future__ import annotations

import time
from collections import deque
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.rig.handoff import Health, Link, SetBegun, Update
from biofeedback.session.replay import OtherRules, ReplayRun

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import FilterChoice, RigProfile
    from biofeedback.rig.handoff import SessionEvent
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

BEFORE_S = 15.0
"""Force before the moment from which is played, so that the path is not empty."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """What came of one frame of samples, and of what stands before it."""

    due_s: float
    blocks: tuple[Block, ...]
    events: tuple[SessionEvent, ...]
    state: SetState | None


class Play:
    """Plays a stretch of a recording once.

    Args:
        path: the recording.
        filter_: what its force is smoothed with.
        from_s: sample time at which it begins to move.
        to_s: sample time at which it ends; None for the end of the recording.
        clock: monotonic nanoseconds.

    Raises:
        FileError: the recording cannot be played; says why.
    """

    def __init__(
        self,
        path: Path,
        filter_: FilterChoice,
        *,
        from_s: float = 0.0,
        to_s: float | None = None,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self._path = path
        self._events: list[SessionEvent] = []
        self._run = ReplayRun(
            path,
            OtherRules(filter=filter_),
            keep_blocks=True,
            heard=self._events.extend,
            together=1,
        )
        self._frames = self._run.frames()
        self._from_s, self._to_s = from_s, to_s
        self._clock = clock
        self._started_ns: int | None = None
        self._waiting: deque[_Piece] = deque()
        self._state: SetState | None = None
        self._begun = False
        self._ended = False
        self._to_start()

    @property
    def profile(self) -> RigProfile:
        """With the filter that is played."""
        return self._run.chain.profile

    @property
    def prescription(self) -> Prescription:
        """What was asked for at the start of the recording."""
        return self._run.found.prescription

    @property
    def done(self) -> bool:
        """Whether all of the stretch was given."""
        return self._ended and not self._waiting

    def take(self) -> Update:
        """All that is due since the last time.

        Raises:
            FileError: the recording cannot be read any more.
        """
        now_ns = self._clock()
        if self._started_ns is None:
            self._started_ns = now_ns
        until_s = self._from_s + (now_ns - self._started_ns) / 1e9
        blocks: list[Block] = []
        events: list[SessionEvent] = []
        if not self._begun:
            self._begun = True
            events.append(SetBegun(self.prescription, self.profile))
        while True:
            if not self._waiting and not self._ended:
                self._read_on()
            if not self._waiting or self._waiting[0].due_s > until_s:
                break
            piece = self._waiting.popleft()
            blocks += piece.blocks
            events += piece.events
            self._state = piece.state
        return Update(
            blocks=tuple(blocks),
            events=tuple(events),
            state=self._state,
            health=self._health(now_ns, blocks),
            profile=self.profile,
            dropped_blocks=0,
        )

    def _health(self, now_ns: int, blocks: list[Block]) -> Health:
        newest = blocks[-1] if blocks else None
        return Health(
            link=Link.LIVE,
            source=self._path.name,
            found="",
            rate_hz=self.profile.rate_hz,
            lost=self._run.found.lost,
            damaged=self._run.found.damaged,
            arrived_ns=now_ns,
            filter_delay_s=self._run.chain.filter_delay_s,
            saturated=newest is not None and bool(newest.saturated[-1].any()),
            recording=False,
            message="",
        )

    def _to_start(self) -> None:
        """Reads on to where playing begins; of older force only the rules know."""
        kept: deque[_Piece] = deque()
        told: list[SessionEvent] = []
        while not self._ended:
            self._read_on()
            if not self._waiting:
                break
            piece = self._waiting.popleft()
            kept.append(piece)
            while kept and kept[0].due_s < self._from_s - BEFORE_S:
                told += kept.popleft().events
            if piece.due_s > self._from_s:
                break
        if kept and told:
            first = kept.popleft()
            events = (*told, *first.events)
            kept.appendleft(_Piece(first.due_s, first.blocks, events, first.state))
        self._waiting = kept

    def _read_on(self) -> None:
        """Until the next samples, or the end."""
        found = self._run.found
        try:
            while not found.blocks:
                frame = next(self._frames, None)
                if frame is None:
                    self._run.finish()
                    self._ended = True
                    break
                self._run.take(frame)
        except FieldError as error:
            raise FileError(self._path, error.words) from error
        chain = self._run.chain
        if self._to_s is not None and chain.now_s > self._to_s:
            self._ended = True
        elif found.blocks or self._events:
            self._waiting.append(
                _Piece(
                    chain.now_s, tuple(found.blocks), tuple(self._events), chain.state
                )
            )
        found.blocks.clear()
        self._events.clear()
