"""What the athlete is told: which cue, and which holds are still to come.

Pure and on sample time, like all rules. The words themselves belong to whoever
shows them; here a cue is a meaning. The screen and any other display choose with
these functions, so that they can never tell an athlete two different things.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.training.events import Outcome, Phase, Position, SetState
from biofeedback.training.maximal import Step, StepKind

if TYPE_CHECKING:
    from biofeedback.training.band import Band

CUE_DWELL_S = 0.2
"""A cue about the force must have been right for this long before it is given.

A little above the 150 ms that Slifkin, Vaillancourt and Newell (J. Neurophysiol.
84 (2000) 1708–1718) found as the shortest usable interval of visual feedback: a
phrase that changes faster cannot be followed and only unsettles.
"""

WARNED_LEAST_S = 0.5
"""A ceiling that was crossed is told at least this long, on the screen and by sound.

A force that was over it for some milliseconds would otherwise leave a flicker, or
nothing at all where it was back before the next frame (our own choice)."""

FAR_ABOVE_PCT = 25.0
"""Of the upper edge: whoever is further above it, or further than the band is wide, is
not asked to ease off slightly (our own choice)."""

ENTRY_ROOM_S = 0.8
"""How far ahead of *now* the next hold is shown while the athlete may begin."""

PAIN_CUT = 5
"""Pain from 0 to 10 that is still taken as acceptable under load.

The pain-monitoring model (Thomeé, Phys. Ther. 77 (1997) 1690; Silbernagel et al.,
Am. J. Sports Med. 35 (2007) 897) takes up to 5 as acceptable. Cuts differ between
sources; it advises, the practitioner decides.
"""


class Cue(Enum):
    """The one thing the athlete is told now."""

    # There is one of each; Python's own, by the name, takes longer in each frame.
    __hash__ = object.__hash__

    NO_SIGNAL = "no signal"
    NO_SET = "no set"  # none has begun yet
    READY = "ready"  # the athlete may begin
    MORE = "more"
    LESS = "less"
    MUCH_LESS = "much less"  # far above the band
    STAY = "stay"
    EVEN = "even"  # in the band, but the sides must be brought level to count
    BY_FEEL = "by feel"  # an unseen rep: nothing about the force is told
    TOO_MUCH = "too much"  # above the ceiling
    AT_LIMIT = "at limit"  # a cell is at its stop: how high the force is nobody knows
    LET_GO = "let go"
    EASE_OUT = "ease out"  # pain above the agreed cut: let go when ready
    REST = "rest"
    WAIT = "wait"  # no rep may start yet
    DONE = "done"
    ENDED = "ended"  # stopped, or over before its last rep
    # In a maximal test there is no band to keep to.
    ABOUT_HALF = "about half"
    THREE_QUARTERS = "three quarters"
    NEARLY_ALL = "nearly all"
    ALL_OUT = "all out"  # build up, then all there is
    ENOUGH = "enough"  # trials; one more would still count
    TEST_DONE = "test done"


_NOTHING_KNOWN = frozenset({Cue.NO_SIGNAL, Cue.NO_SET})
_ABOUT_FORCE = frozenset({Cue.MORE, Cue.LESS, Cue.MUCH_LESS, Cue.STAY, Cue.EVEN})
_BY_POSITION = {
    Position.BELOW: Cue.MORE,
    Position.INSIDE: Cue.STAY,
    Position.ABOVE: Cue.LESS,
}
_BY_PHASE = {
    Phase.WAITING: Cue.READY,
    Phase.RELEASE: Cue.LET_GO,
    Phase.REST: Cue.REST,
    Phase.HELD_BACK: Cue.WAIT,
    Phase.DONE: Cue.DONE,
}


def cue(
    state: SetState | None,
    *,
    live: bool,
    seen: bool = True,
    maximal: Step | None = None,
    at_limit: bool = False,
    far: bool = False,
    eased: bool = False,
) -> Cue:
    """Chooses the cue for one moment, without memory.

    Args:
        state: of the set under way or of the last one; None before the first.
        live: whether the signal is fresh. Without it nothing else may be said.
        seen: False in an unseen rep.
        maximal: in a maximal test what comes next; nothing is then said of the band.
        at_limit: whether a cell is at its stop, so that its force is not known.
        far: whether a force is far above the band; see `far_above`.
        eased: whether pain above the agreed cut was told of this rep. Then nothing
            is asked of the force any more; only what warns of it goes before.
    """
    if not live or state is None:
        return Cue.NO_SET if live else Cue.NO_SIGNAL
    unknown = state.phase is Phase.REP and state.position is None
    if state.over_ceiling or (at_limit and unknown):
        return Cue.TOO_MUCH if state.over_ceiling else Cue.AT_LIMIT
    if maximal is not None:
        return _of_test(state, maximal, eased=eased)
    if state.phase is Phase.REP:
        return _of_rep(state, seen=seen, far=far, eased=eased)
    if state.phase is Phase.DONE and ended_early(state):
        return Cue.ENDED
    return _BY_PHASE[state.phase]


def _of_rep(state: SetState, *, seen: bool, far: bool, eased: bool) -> Cue:
    """The cue in a rep below its ceiling."""
    if eased and state.position is not None:
        return Cue.EASE_OUT
    told = seen or state.position is None
    return _about_force(state, far=far) if told else Cue.BY_FEEL


def _of_test(state: SetState, step: Step, *, eased: bool) -> Cue:
    """The cue in a maximal test."""
    if state.phase is Phase.REP and state.position is None:
        return Cue.NO_SIGNAL
    if state.phase is Phase.REP and eased:
        return Cue.EASE_OUT
    if step.kind is StepKind.ENOUGH and state.phase is not Phase.RELEASE:
        return Cue.TEST_DONE if state.phase is Phase.DONE else Cue.ENOUGH
    if state.phase in {Phase.REP, Phase.WAITING}:
        return effort_cue(step)
    if state.phase is Phase.DONE:
        return Cue.ENDED
    return _BY_PHASE[state.phase]


def effort_cue(step: Step) -> Cue:
    """How hard the next effort of a maximal test is to be."""
    if step.share_pct is None:
        return Cue.ALL_OUT
    if step.share_pct <= 60:
        return Cue.ABOUT_HALF
    return Cue.THREE_QUARTERS if step.share_pct <= 80 else Cue.NEARLY_ALL


def ended_early(state: SetState) -> bool:
    """Whether reps are missing from a set that is over, or its last was stopped."""
    outcomes = state.outcomes
    return len(outcomes) < state.reps or outcomes[-1] is Outcome.STOPPED


def _about_force(state: SetState, *, far: bool) -> Cue:
    if state.position is None:
        return Cue.NO_SIGNAL
    inside = state.position is Position.INSIDE
    if inside and not state.balanced and not state.running:
        # Inside with a clock that stands: here balance is required.
        return Cue.EVEN
    if far and state.position is Position.ABOVE:
        return Cue.MUCH_LESS
    return _BY_POSITION[state.position]


class SteadyCue:
    """The cue with a short memory, so that it never flickers at an edge.

    Only a change from one cue about the force to another waits for
    `CUE_DWELL_S`; everything else is told at once. A ceiling that was crossed is told
    for `WARNED_LEAST_S`, wherever the force is by now.
    """

    def __init__(self) -> None:
        self._given: Cue | None = None
        self._wanted: Cue | None = None
        self._wanted_since_s = 0.0
        self._now_s = self._warned_until_s = -math.inf

    @property
    def wanted(self) -> Cue:
        """The cue of the newest state, without the memory."""
        return self._wanted or Cue.NO_SIGNAL

    def push(
        self,
        state: SetState | None,
        *,
        live: bool,
        seen: bool = True,
        maximal: Step | None = None,
        at_limit: bool = False,
        far: bool = False,
        eased: bool = False,
        crossed: bool = False,
    ) -> Cue:
        """Takes in the newest state and returns the cue to give; see `cue`.

        Args:
            crossed: whether the ceiling was crossed since the last time.
        """
        wanted = cue(
            state,
            live=live,
            seen=seen,
            maximal=maximal,
            at_limit=at_limit,
            far=far,
            eased=eased,
        )
        if self._warns(state, crossed=crossed) and wanted not in _NOTHING_KNOWN:
            wanted = Cue.TOO_MUCH
        given = self._given
        if given is None or state is None or not {given, wanted} <= _ABOUT_FORCE:
            self._given = self._wanted = wanted
            return wanted
        if wanted is not self._wanted or state.time_s < self._wanted_since_s:
            self._wanted = wanted
            self._wanted_since_s = state.time_s
        if wanted is not given and state.time_s - self._wanted_since_s >= CUE_DWELL_S:
            self._given = given = wanted
        return given

    def _warns(self, state: SetState | None, *, crossed: bool) -> bool:
        """Whether a crossing of the ceiling has not been told for long enough."""
        if state is None:
            return False
        if state.time_s < self._now_s:  # another set has a time of its own
            self._warned_until_s = -math.inf
        self._now_s = state.time_s
        if crossed:
            self._warned_until_s = state.time_s + WARNED_LEAST_S
        return state.time_s < self._warned_until_s


def far_above(force_n: float, band: Band) -> bool:
    """Whether a force is further above a band than "slightly" would say."""
    room_n = min(band.upper_n - band.lower_n, band.upper_n * FAR_ABOVE_PCT / 100.0)
    return force_n - band.upper_n > room_n


def position_of(force_n: float, band: Band) -> Position | None:
    """Where a force is against a band, edges inclusive; None for NaN."""
    if math.isnan(force_n):
        return None
    if force_n < band.lower_n:
        return Position.BELOW
    if force_n > band.upper_n:
        return Position.ABOVE
    return Position.INSIDE


@dataclass(frozen=True, slots=True)
class Stretch:
    """A hold that is to come, in seconds from now.

    Attributes:
        start_s: when the force should be in the band; 0 for a hold under way.
        end_s: when the hold would be complete if all goes well from now on.
        entry: whether the way into the band still lies ahead.
    """

    start_s: float
    end_s: float
    entry: bool


def ahead(
    state: SetState | None, *, rest_s: float, span_s: float
) -> tuple[Stretch, ...]:
    """The holds that are to come within the next `span_s`, soonest first.

    A hold under way ends when its clock would reach the hold from here on. Later
    holds follow after the rest, as if each were begun as soon as it may be.
    """
    if state is None or state.phase in {Phase.DONE, Phase.HELD_BACK}:
        return ()
    stretches: list[Stretch] = []
    to_come = state.reps - len(state.outcomes)
    if state.phase is Phase.REP:
        to_come -= 1
        begin_s = max(0.0, state.hold_s - state.clock_s)
        stretches.append(Stretch(0.0, begin_s, entry=False))
        begin_s += rest_s
    elif state.phase is Phase.RELEASE:
        to_come -= 1  # its outcome is told when the force has been let go
        begin_s = rest_s
    else:
        begin_s = state.rest_left_s
    for _ in range(to_come):
        start_s = begin_s + ENTRY_ROOM_S
        if start_s >= span_s:
            break
        stretches.append(Stretch(start_s, start_s + state.hold_s, entry=True))
        begin_s = start_s + state.hold_s + rest_s
    return tuple(stretches)
