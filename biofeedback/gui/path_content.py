"""What the path shows: samples, bands and where the force stands. No widget here.

It follows blocks and events and says which part of the past they changed; the
widget draws that part anew.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import Side
from biofeedback.errors import FieldError
from biofeedback.gui.band_history import BandHistory, Step
from biofeedback.gui.scale import ROOM_FOR_BEST, Scale
from biofeedback.gui.trace_store import TraceStore
from biofeedback.session import (
    BandChanged,
    SessionEvent,
    SetBegun,
    SetEnded,
    TermsChanged,
)
from biofeedback.training.crossings import Judged
from biofeedback.training.events import (
    Outcome,
    Phase,
    Position,
    RepCompleted,
    RepEnded,
    RepStarted,
)
from biofeedback.training.feedback import position_of
from biofeedback.training.maximal import EXPECTED_OF_RATED
from biofeedback.training.prescription import FeedbackMode
from biofeedback.training.showing import Showing, force_shown, showing
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.training.band import Band
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

PAST_S = 10.0
UNKNOWN_N = 100.0
"""Scale of a maximal trial before a board was found; nothing is drawn at that time."""
RATE_UNKNOWN_HZ = 100.0
"""Assumed before a board was found; nothing is drawn at that time."""

_SHAPES = {Position.BELOW: "up", Position.INSIDE: "disc", Position.ABOVE: "down"}


class PathContent:
    """Follows what the session says.

    Args:
        profile: of the rig; None before a board was found.
        asked: what is asked for; its band fixes the scale.

    Attributes:
        store: the samples of the drawn forces.
        history: the bands.
        expected_n: what the next maximal trial may reach; None where there is no guess.
        withheld_from_s: from this time on the force is not shown, in an unseen
            rep; None where all is shown.
        newest_n: the newest drawn forces; NaN where there is none.
        changed_from_s: the past has changed from here on; the widget clears it.
        all_changed: the whole past has changed; the widget clears it.
    """

    def __init__(self, profile: RigProfile | None, asked: Prescription) -> None:
        self.profile = profile
        self.asked = asked
        self.rate_hz = profile.rate_hz if profile else RATE_UNKNOWN_HZ
        self._judged = _judged(profile, asked)
        lines = 1
        if profile is not None and self._judged is not None:
            none = np.zeros((0, len(profile.channels)))
            lines = len(self._judged.forces(none))
        capacity = int(self.rate_hz * PAST_S * 1.5) + 64
        self.store = TraceStore(lines=lines, capacity=capacity)
        self.history = BandHistory()
        self.expected_n: float | None = None
        self._scaled_for_n: float | None = None
        self._highest_n = 0.0  # of the samples that came with this frame
        self.scale = self._scale_for(asked.band)
        self.state: SetState | None = None
        self.newest_n: tuple[float, ...] = ()
        self.withheld_from_s: float | None = None
        self.changed_from_s: float | None = None
        self.all_changed = False

    @property
    def band(self) -> Band:
        """The band in force, or the one that is planned."""
        return self.state.band if self.state is not None else self.asked.band

    @property
    def unseen(self) -> bool:
        """Whether the rep under way is withheld as a whole."""
        state = self.state
        if state is None or state.phase not in {Phase.REP, Phase.RELEASE}:
            return self.asked.feedback is FeedbackMode.UNSEEN
        return showing(self.asked, state.rep_number) is Showing.UNSEEN

    @property
    def maximal(self) -> bool:
        """Whether efforts are as hard as can be: there is no band to keep to."""
        return self.asked.task.kind is TaskKind.MAXIMAL

    def take_block(self, block: Block) -> None:
        """Consecutive samples."""
        if self._judged is None or not len(block):
            return
        newest_s = self.store.newest_s
        if newest_s is not None and block.time_s[0] <= newest_s:
            # A set or a new board starts its time at 0: a new page.
            self.store.clear()
            self.history.clear()
            self.all_changed = True
        forces = self._judged.forces(block.shown_n)
        lines = forces[0][:, None] if len(forces) == 1 else np.column_stack(forces)
        self.store.push(block.time_s, lines, after_gap=block.gap)
        self.newest_n = tuple([float(force[-1]) for force in forces])
        if self.maximal:
            for force in forces:
                highest_n = float(np.max(force, initial=0.0, where=~np.isnan(force)))
                self._highest_n = max(self._highest_n, highest_n)

    def take_event(self, event: SessionEvent) -> None:
        """Something happened that changes the band or what is withheld."""
        match event:
            case RepStarted(time_s, number):
                self._step(Step(time_s, self.band, judged=True))
                if showing(self.asked, number) is Showing.UNSEEN:
                    self._withhold_from(time_s)
            case BandChanged(time_s, _, new, _):
                if self.history.newest.band is not None:
                    self._step(Step(time_s, new, judged=self.history.newest.judged))
            case TermsChanged(_, _, new_terms, _):
                self.asked = new_terms.applied_to(self.asked)
            case RepCompleted(time_s, _):
                self._step(Step(time_s, None, judged=False))
            case RepEnded(_, rep):
                if rep.outcome is not Outcome.COMPLETE:
                    self._step(Step(rep.hold_end_s, None, judged=False))
                self._show_withheld()
            case SetBegun() | SetEnded():
                self._show_withheld()
            case _:
                pass

    def follow_band(self) -> bool:
        """Takes the scale along where the band was nudged out of its room.

        Returns:
            Whether the scale is another one now.
        """
        if self.maximal:
            return self._follow_effort()
        if self.scale.holds(self.band):
            return False
        self.scale = self._scale_for(self.band)
        return True

    def _follow_effort(self) -> bool:
        """Fits the scale to a new expectation, between trials only.

        Within a trial it changes only where the force would leave the picture.
        """
        highest_n, self._highest_n = self._highest_n, 0.0
        before, ceiling_n = self.scale, self.asked.ceiling_n
        in_trial = self.state is not None and self.state.phase in {
            Phase.REP,
            Phase.RELEASE,
        }
        if not in_trial and self.expected_n not in {None, self._scaled_for_n}:
            self._scaled_for_n = self.expected_n
            # What is still in sight must not be cut off.
            _, shown_n = self.store.since(-math.inf)
            seen_n = float(np.max(shown_n, initial=0.0, where=~np.isnan(shown_n)))
            expected_n = max(self.expected_n or 0.0, seen_n / ROOM_FOR_BEST)
            self.scale = Scale.for_maximal(expected_n, ceiling_n=ceiling_n)
        if not self.scale.has_room_for(highest_n):
            self.scale = Scale.for_maximal(highest_n, ceiling_n=ceiling_n)
        return self.scale != before

    def markers(self) -> list[tuple[str, float]]:
        """Shape and force of each marker, left before right.

        A disc inside the band, ``up`` or ``down`` for a triangle that points to
        it, also from above a ceiling; a ring while nothing is asked for.
        """
        if self.withheld_from_s is not None:
            return []
        asking = self.state is not None and self.state.phase in {
            Phase.WAITING,
            Phase.REP,
        }
        ceiling_n = self.asked.ceiling_n or math.inf
        markers = []
        for force_n in self.newest_n:
            position = position_of(force_n, self.band)
            if self.maximal and position is not None:
                position = Position.INSIDE  # there is no band to point to
            if force_n > ceiling_n:  # an open band reaches past its ceiling
                position = Position.ABOVE
            if position is not None:
                markers.append((_SHAPES[position] if asking else "ring", force_n))
        return markers

    def _scale_for(self, band: Band) -> Scale:
        if self.maximal:
            expected_n = self.expected_n or self._guess_n()
            return Scale.for_maximal(expected_n, ceiling_n=self.asked.ceiling_n)
        reference = self.asked.reference
        return Scale.for_band(
            band,
            ceiling_n=self.asked.ceiling_n,
            reference_n=reference.force_n if reference else None,
        )

    def follow_showing(self) -> None:
        """Where force is shown only outside the band: hides it inside, and back."""
        newest_s = self.store.newest_s
        if self.asked.feedback is not FeedbackMode.OUTSIDE or newest_s is None:
            return
        if force_shown(self.asked, self.state):
            self._show_withheld()
        elif self.withheld_from_s is None:
            self._withhold_from(newest_s)

    def _withhold_from(self, time_s: float) -> None:
        self.withheld_from_s = time_s
        self._change_from(time_s)

    def _guess_n(self) -> float:
        """What may be reached by somebody of whom nothing is known."""
        if self.profile is None or self._judged is None:
            return UNKNOWN_N
        return EXPECTED_OF_RATED * sum(
            self.profile.channels[column].rated_n
            for columns in self._judged.columns
            for column in columns
        )

    def _show_withheld(self) -> None:
        if self.withheld_from_s is not None:
            self._change_from(self.withheld_from_s)
            self.withheld_from_s = None

    def _step(self, step: Step) -> None:
        if self.maximal:
            return
        if self.history.change(step):
            self._change_from(step.time_s)

    def _change_from(self, time_s: float) -> None:
        if self.changed_from_s is None or time_s < self.changed_from_s:
            self.changed_from_s = time_s


def _judged(profile: RigProfile | None, asked: Prescription) -> Judged | None:
    """What is drawn, or None where this rig has no such side."""
    if profile is None:
        return None
    try:
        return Judged(
            asked.band_on,
            left=profile.index_of(Side.LEFT),
            right=profile.index_of(Side.RIGHT),
            channels=len(profile.channels),
        )
    except FieldError:
        return None
