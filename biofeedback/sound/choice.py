"""What is to sound now: chosen from the same meaning as the cue on the screen.

Pure. Screen and sound take the same `Cue`, so they never tell an athlete two different
things. Where the force is withheld nothing about it sounds either, but for the ceiling.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.sound.tones import Once, Steady
from biofeedback.training.events import (
    Outcome,
    Phase,
    RepCompleted,
    RepEnded,
)
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.training.events import SetState

TICKS = 3
"""Seconds of a rest or a hold that are counted down."""

_STEADY = {
    Cue.MORE: Steady.BELOW,
    Cue.LESS: Steady.ABOVE,
    Cue.EVEN: Steady.UNEVEN,
    Cue.TOO_MUCH: Steady.CEILING,
}


@dataclass(frozen=True, slots=True)
class Heard:
    """What sounds: something steady, and what sounds once from now on."""

    steady: Steady | None
    once: tuple[Once, ...] = ()


class Choice:
    """Chooses from frame to frame; remembers only what was counted down last."""

    def __init__(self) -> None:
        self._left = math.inf
        self._phase: Phase | None = None

    def push(self, cue: Cue, state: SetState | None, events: Iterable[object]) -> Heard:
        """What is to sound from this frame on.

        Args:
            cue: for this moment, without the screen's dwell: an ear follows faster
                than reading.
            state: of the set; None before the first.
            events: since the frame before.
        """
        once = [sound for event in events if (sound := _of_event(event)) is not None]
        for sound in (self._turn(cue, state), self._tick(cue, state)):
            if sound is not None and not once:
                once.append(sound)
        return Heard(_STEADY.get(cue), tuple(once))

    def _turn(self, cue: Cue, state: SetState | None) -> Once | None:
        """A rest that is over, and a set whose last rep was done."""
        before, self._phase = self._phase, state.phase if state else None
        if before is Phase.REST and cue is Cue.READY:
            return Once.GO
        if before not in {None, Phase.DONE} and cue is Cue.DONE:
            return Once.SET_DONE
        return None

    def _tick(self, cue: Cue, state: SetState | None) -> Once | None:
        """The last seconds of a rest, each once, and of a hold under way."""
        left_s = math.inf
        if state is not None and state.phase is Phase.REST and cue is Cue.REST:
            left_s = state.rest_left_s
        elif state is not None and state.phase is Phase.REP and state.running:
            left_s = state.hold_s - state.clock_s
        before = self._left
        self._left = left = math.inf if math.isinf(left_s) else math.ceil(left_s - 1e-9)
        if state is None or left >= before:
            return None
        if math.isinf(before) and left < TICKS:
            return None  # not counted from here: a short rest, or the middle of one
        return Once.TICK if 1 <= left <= TICKS else None


def _of_event(event: object) -> Once | None:
    """What sounds once for an event of the rules."""
    if isinstance(event, RepCompleted):
        return Once.CHIME
    if isinstance(event, RepEnded) and event.rep.outcome is Outcome.STOPPED:
        return Once.STOPPED
    return None
