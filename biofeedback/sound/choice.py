"""What is to sound now: chosen from the same meaning as the cue on the screen.

Pure. Screen and sound take the same `Cue`, so they never tell an athlete two different
things; the sound alone does without the dwell, for an ear follows faster than reading.
Where the force is withheld nothing about it sounds either, but for the ceiling. Without
a live signal nothing is told of the force; in a set it is told that the signal is lost,
and a rep that ends is told all the same, for the rules have told it.

Pain above the agreed cut ends what is asked of a rep: that is told once, as an end is,
and once more after a warning of the ceiling. Silence alone would mean that all is well.

One thing at a time: a ceiling warning sounds alone, and of what sounds once only the
weightiest of a frame is heard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.sound.tones import Once, Steady
from biofeedback.training.events import (
    CeilingCrossed,
    Outcome,
    Phase,
    RepCompleted,
    RepEnded,
)
from biofeedback.training.feedback import WARNED_LEAST_S, Cue, ended_early

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.training.events import SetState

TICKS = 3
"""Seconds of a rest or a hold that are counted down."""

_STEADY = {
    Cue.MORE: Steady.BELOW,
    Cue.LESS: Steady.ABOVE,
    Cue.MUCH_LESS: Steady.ABOVE,
    Cue.EVEN: Steady.UNEVEN,
    Cue.TOO_MUCH: Steady.CEILING,
    Cue.AT_LIMIT: Steady.CEILING,  # no less urgent, and to be answered in the same way
}
_HOLD_COUNTED = frozenset(
    {Cue.MORE, Cue.LESS, Cue.MUCH_LESS, Cue.STAY, Cue.EVEN, Cue.BY_FEEL}
)
"""Not in a maximal trial, where nothing is to be kept up to a time."""
_MAY_BEGIN = frozenset(
    {Cue.READY, Cue.ABOUT_HALF, Cue.THREE_QUARTERS, Cue.NEARLY_ALL, Cue.ALL_OUT}
)
_TEST_OVER = frozenset({Cue.ENOUGH, Cue.TEST_DONE})
SIGNAL_LOST_AFTER_FRAMES = 12
"""A signal that is gone for a fifth of a second at 60 Hz is told as lost: what is gone
for less has come back before it is understood. Counted in frames, as the time of the
samples stands still meanwhile."""
_NOTHING_KNOWN = frozenset({Cue.NO_SIGNAL, Cue.NO_SET})
_WEIGHT = (Once.STOPPED, Once.SET_DONE, Once.CHIME, Once.GO, Once.TICK)
_ENDS = frozenset({Once.STOPPED, Once.SET_DONE, Once.CHIME})
"""Told after a ceiling warning when they fall into it; a late tick would be wrong."""


@dataclass(frozen=True, slots=True)
class Heard:
    """What sounds: something steady, and what sounds once from now on."""

    steady: Steady | None
    once: tuple[Once, ...] = ()


@dataclass(slots=True)
class _Memory:
    """What a choice remembers of a set.

    Attributes:
        cue, phase, rep: in the frame before; the cue where there was a signal.
        lost_frames: frames in a row without a signal.
        left: seconds last counted down, rounded up.
        told: whether the beginning or the end that this phase stands for was told.
        warned_until_s: sample time up to which a warning has to last.
        waiting: an end that has to wait for a warning to pass.
    """

    cue: Cue | None = None
    phase: Phase | None = None
    rep: int = 0
    lost_frames: int = 0
    now_s: float = -math.inf
    left: float = math.inf
    told: bool = False
    warned_until_s: float = -math.inf
    waiting: Once | None = None


class Choice:
    """Chooses from frame to frame."""

    def __init__(self) -> None:
        self._memory = _Memory()

    def push(
        self, cue: Cue, state: SetState | None, events: Iterable[object] = ()
    ) -> Heard:
        """What is to sound from this frame on.

        Args:
            cue: for this moment, without the screen's dwell.
            state: of the set; None before the first.
            events: since the frame before.
        """
        if state is None or state.time_s < self._memory.now_s:
            self._memory = _Memory()  # another set has a time of its own
        if state is None:
            return Heard(None)
        found = self._of_events(state, events)
        if cue in _NOTHING_KNOWN:
            self._follow(state)
            steady = self._lost(cue, state)
        else:
            self._memory.lost_frames = 0
            steady = self._steady(cue, state)
            found += [*self._turn(cue, state), *self._tick(cue, state)]
        self._memory.now_s = state.time_s
        return self._one_at_a_time(steady, found)

    def _of_events(self, state: SetState, events: Iterable[object]) -> list[Once]:
        found = []
        for event in events:
            if isinstance(event, CeilingCrossed):
                self._memory.warned_until_s = state.time_s + WARNED_LEAST_S
            elif isinstance(event, RepCompleted):
                found.append(Once.CHIME)
            elif isinstance(event, RepEnded) and event.rep.outcome is Outcome.STOPPED:
                found.append(Once.STOPPED)
        return found

    def _lost(self, cue: Cue, state: SetState) -> Steady | None:
        """Silence would pass for a force in the band; outside of a set for nothing."""
        if cue is not Cue.NO_SIGNAL or state.phase is Phase.DONE:
            return None
        self._memory.lost_frames += 1
        lost = self._memory.lost_frames > SIGNAL_LOST_AFTER_FRAMES
        return Steady.LOST if lost else None

    def _steady(self, cue: Cue, state: SetState) -> Steady | None:
        if state.time_s < self._memory.warned_until_s:
            return Steady.CEILING
        return _STEADY.get(cue)

    def _follow(self, state: SetState) -> Phase | None:
        """Takes in the phase; returns the one before, where it has just changed."""
        memory = self._memory
        before = memory.phase
        if (state.phase, state.rep_number) == (before, memory.rep):
            return None
        memory.left = math.inf
        if state.phase is before:
            memory.rep = state.rep_number
            return None
        memory.phase, memory.rep, memory.told = state.phase, state.rep_number, False
        return before

    def _turn(self, cue: Cue, state: SetState) -> list[Once]:
        """The athlete may begin, or the set is over; each told once."""
        before = self._follow(state)
        memory = self._memory
        given, memory.cue = memory.cue, cue
        sound = None
        if state.phase is Phase.WAITING and cue in _MAY_BEGIN:
            sound = Once.GO
        elif cue is Cue.EASE_OUT:
            return [Once.STOPPED] if given is not Cue.EASE_OUT else []
        elif cue in _TEST_OVER:
            # The set it was done in ends later, by itself, and is no news.
            return [Once.SET_DONE] if given not in _TEST_OVER else []
        elif state.phase is Phase.DONE and before is not None:
            # At once or never: an end is no news when the signal comes back.
            sound = Once.STOPPED if ended_early(state) else Once.SET_DONE
        if sound is None or memory.told:
            return []
        memory.told = True
        return [sound]

    def _tick(self, cue: Cue, state: SetState) -> list[Once]:
        """The last whole seconds of a rest and of a hold under way, each once.

        While a clock stands nothing is counted and nothing forgotten. What begins
        within the last seconds is counted from the next whole one on.
        """
        if state.phase is Phase.REST:
            left_s = state.rest_left_s
        elif state.phase is Phase.REP and state.running and cue in _HOLD_COUNTED:
            left_s = state.hold_s - state.clock_s
        else:
            return []
        before = self._memory.left
        self._memory.left = left = math.ceil(left_s - 1e-9)
        counted = left < before < math.inf and 1 <= left <= TICKS
        return [Once.TICK] if counted else []

    def _one_at_a_time(self, steady: Steady | None, found: list[Once]) -> Heard:
        memory = self._memory
        if memory.waiting is not None:
            found.append(memory.waiting)
        memory.waiting = None
        once = min(found, key=_WEIGHT.index, default=None)
        if once is None:
            return Heard(steady)
        if steady is Steady.CEILING:
            memory.waiting = once if once in _ENDS else None
            return Heard(steady)
        return Heard(steady, (once,))
