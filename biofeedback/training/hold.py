"""The hold rules: when a rep starts, what counts as held, and how it ends.

The rules know moments, not samples: `biofeedback.training.crossings` makes the
moments. Everything is settled at the moments themselves, never at the end of a
block, so the events do not depend on how the stream was cut.

* A rep starts at the onset crossing. It ends where the force fell under half the
  onset level, once it has stayed there for `END_AFTER_S`; both are dated back to
  the crossing.
* Time in a pause counts for nothing: not as inside, not as outside, not for the
  grace time and not for the end of the rep. All rules run on *heard time*, which
  is sample time less all pauses.
* Leaving the band for longer than the grace time is a lapse. Just as long as the
  grace time is not.
* Under half the onset level the rep may be over, so a lapse or a completion that
  falls due there is held back until the force returns. A rep that ends was over
  when the force fell, whatever the clock would have reached since.
* A force that is never let go stops the set `LONGER_BY_S` after the hold was due.
* The clock reaches the hold at an instant of its own, between samples; what
  follows is release and no part of the hold. A hold that is made shorter than what
  the clock shows is reached at the change.
* While the gate is shut no rep starts; one under way goes on. A force that is above
  the onset level when it opens starts a rep there.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.training.crossings import Change, Gate, NewTerms, Pause
from biofeedback.training.events import (
    CeilingCrossed,
    Lapse,
    Lapsed,
    Outcome,
    Position,
    RepCompleted,
    RepEnded,
    RepStarted,
    TrainingEvent,
)
from biofeedback.training.prescription import ClockRule, StartBy
from biofeedback.training.rep import Rep

if TYPE_CHECKING:
    from biofeedback.training.crossings import Moment
    from biofeedback.training.levels import Levels
    from biofeedback.training.prescription import Prescription

END_AFTER_S = 0.25
"""How long the force must stay under half the onset level to end a rep."""
LONGER_BY_S = 1800.0
"""A rep that is this much longer than its hold is nobody's effort, but a strap that
was left under tension: the set is stopped, so that it does not go on for ever."""
ROUNDING_S = 1e-9
"""Two times closer than this are the same: far under a device tick of 1 µs, far
over the rounding of a sum of seconds."""


class HoldRules:
    """Moments in, events out.

    Args:
        prescription: what is asked for.
    """

    def __init__(self, prescription: Prescription) -> None:
        self._asked = prescription
        self._ceiling_n = prescription.ceiling_n or math.inf
        self._stopped = False
        self._by_key = prescription.start is StartBy.KEY
        self.gate_open = not self._by_key
        self._number = 0
        self._paused_s = 0.0
        self._now_s = 0.0
        self.levels: Levels | None = None
        self.hearing = False
        self.rep: Rep | None = None

    def push(self, moments: list[Moment], until_s: float) -> list[TrainingEvent]:
        """Takes moments in order of time, then lets time pass to `until_s`."""
        events: list[TrainingEvent] = []
        for moment in moments:
            if isinstance(moment, Change):
                self._pass_time(moment.time_s, events)
                self._change(moment.time_s, moment.levels, events)
            elif isinstance(moment, Pause):
                self._pass_time(moment.from_s, events)
                self._pause(moment)
            elif isinstance(moment, NewTerms):
                self._pass_time(moment.time_s, events)
                self._change_terms(moment.time_s, moment.asked)
            elif isinstance(moment, Gate):
                self._pass_time(moment.time_s, events)
                self.gate_open = moment.open
                if self.levels is not None and self.hearing:
                    self._follow(moment.time_s, self.levels, events)
        self._pass_time(until_s, events)
        return events

    def _change_terms(self, at_s: float, asked: Prescription) -> None:
        """Another band, hold or number of reps, from here on."""
        rep = self.rep
        if rep is not None:
            self._settle(rep, self._heard(at_s))
            if rep.holding and asked.band != self._asked.band:
                rep.bands += ((at_s, asked.band),)
        self._asked = asked

    def stop(self) -> list[TrainingEvent]:
        """The practitioner stops, or the recording ends: a rep under way is kept."""
        events: list[TrainingEvent] = []
        if self.rep is not None:
            events += self.rep.rise()
            self._settle(self.rep, self._heard(self._now_s))
            outcome = Outcome.STOPPED if self.rep.holding else Outcome.COMPLETE
            self._end(self.rep, outcome, self._now_s, self._now_s, events)
        self._stopped = True
        return events

    @property
    def done(self) -> bool:
        """Whether all reps that are asked for are over, or the set was stopped."""
        return self.rep is None and not self._wants_more

    @property
    def _wants_more(self) -> bool:
        return not self._stopped and self._number < self._asked.reps

    @property
    def clock_s(self) -> float:
        """What the hold clock shows now."""
        if self.rep is None:
            return 0.0
        if self._runs(self.rep):
            return self.rep.clock + self._heard(self._now_s) - self.rep.since
        return self.rep.clock

    @property
    def running(self) -> bool:
        """Whether the hold clock is running now."""
        return self.rep is not None and self.hearing and self._runs(self.rep)

    def _heard(self, time_s: float) -> float:
        return time_s - self._paused_s

    @property
    def _counts(self) -> bool:
        """Whether the force is where it should be."""
        levels = self.levels
        return (
            levels is not None
            and levels.position is Position.INSIDE
            and (levels.balanced or not self._asked.balance_required)
        )

    def _runs(self, rep: Rep) -> bool:
        if not rep.holding:
            return False
        if self._asked.clock is ClockRule.RUNNING:
            return rep.entry_at_s is not None
        return self._counts

    def _settle(self, rep: Rep, heard_s: float) -> None:
        """Books the time since the last moment to where the force was."""
        passed = heard_s - rep.since
        rep.since = heard_s
        if not rep.holding or self.levels is None:
            return
        books, position = rep.books, self.levels.position
        if position is Position.BELOW:
            rep.books = replace(books, below=books.below + passed)
        elif position is Position.ABOVE:
            rep.books = replace(books, above=books.above + passed)
        elif self._counts:
            rep.books = replace(books, inside=books.inside + passed)
        else:
            rep.books = replace(books, unbalanced=books.unbalanced + passed)
        if self._runs(rep):
            rep.clock += passed

    def _pass_time(self, to_s: float, events: list[TrainingEvent]) -> None:
        """Fires what falls due up to `to_s`, in order of time."""
        while self.rep is not None:
            rep, heard_s = self.rep, self._heard(to_s)
            completes, lapses, ends = self._due(rep)
            # A lapse needs more than the grace time; the others fall due in time.
            if lapses >= min(heard_s, completes) - ROUNDING_S:
                lapses = math.inf
            soonest = min(completes, lapses, ends)
            if soonest > heard_s + ROUNDING_S:
                break
            # What rounding lets fall due at once never comes later than that moment.
            at_s = min(_on_tick(soonest + self._paused_s), to_s)
            told = events if rep.before_fall is None else rep.held_back
            if soonest == completes:
                self._complete(rep, soonest, at_s, told)
            elif soonest == lapses:
                self._lapse(rep, at_s, told)
            elif rep.before_fall is not None:
                kept = rep.before_fall
                outcome = Outcome.SHORT if kept.holding else Outcome.COMPLETE
                self._end(kept, outcome, rep.fell_at_s, at_s, events)
            else:
                self._now_s = at_s
                events += self.stop()
        self._now_s = to_s

    def _complete(
        self, rep: Rep, heard_s: float, at_s: float, events: list[TrainingEvent]
    ) -> None:
        self._settle(rep, heard_s)
        rep.clock = self._asked.hold_s
        rep.completed_at_s = at_s
        rep.completed_hold_s = self._asked.hold_s
        events.append(RepCompleted(at_s, rep.number))

    def _due(self, rep: Rep) -> tuple[float, float, float]:
        """When the rep completes, lapses and ends if nothing changes."""
        completes = lapses = math.inf
        left = self._asked.hold_s - rep.clock
        if self._runs(rep):
            completes = rep.since + max(0.0, left)
        elif rep.holding and left <= 0:  # the hold was made shorter
            completes = rep.since
        ends = rep.start + self._asked.hold_s + LONGER_BY_S
        if rep.fell is not None:
            ends = rep.fell + END_AFTER_S
        if rep.left is not None and not rep.lapsed and rep.holding:
            lapses = rep.left + self._asked.grace_s
        return completes, lapses, ends

    def _lapse(self, rep: Rep, at_s: float, events: list[TrainingEvent]) -> None:
        rep.lapsed = True
        rep.lapse_clocks += (rep.left_clock,)
        rep.lapses += (Lapse(rep.left_at_s, math.inf),)
        if self._asked.clock is ClockRule.UNBROKEN:
            rep.clock = 0.0
        events.append(Lapsed(at_s, rep.left_at_s, rep.left_to))

    def _change(self, at_s: float, levels: Levels, events: list[TrainingEvent]) -> None:
        was_over = self.levels is not None and self.levels.over_ceiling
        if self.rep is not None:
            self._settle(self.rep, self._heard(at_s))
        self.levels, self.hearing = levels, True
        if levels.over_ceiling and not was_over:
            events.append(CeilingCrossed(at_s, self._ceiling_n))
        self._follow(at_s, levels, events)

    def _follow(self, at_s: float, levels: Levels, events: list[TrainingEvent]) -> None:
        """A rep begins, or goes on: the way down, entries and exits."""
        heard_s = self._heard(at_s)
        if self.rep is None:
            if not (levels.started and self.gate_open and self._wants_more):
                return
            self._number += 1
            self.rep = Rep(self._number, at_s, heard_s, self._asked.band)
            events.append(RepStarted(at_s, self._number))
        rep = self.rep
        if levels.fallen and rep.before_fall is None:
            rep.fall(at_s, heard_s)
        elif not levels.fallen and rep.before_fall is not None:
            events += rep.rise()
        if not rep.holding:
            return
        if self._counts:
            if rep.entry_at_s is None:
                rep.entry_at_s = at_s
            if rep.left is not None and rep.lapsed:
                rep.lapses = (*rep.lapses[:-1], Lapse(rep.left_at_s, at_s))
            rep.left = None
        elif rep.entry_at_s is not None and rep.left is None:
            rep.left, rep.left_at_s, rep.left_to = heard_s, at_s, levels.position
            rep.left_clock, rep.lapsed = rep.clock, False

    def _pause(self, pause: Pause) -> None:
        length_s = pause.to_s - pause.from_s
        self.hearing = False
        if self.rep is not None:
            self._settle(self.rep, self._heard(pause.from_s))
            if self.rep.holding:
                books = self.rep.books
                self.rep.books = replace(
                    books, paused=books.paused + length_s, gaps=books.gaps + 1
                )
        self._paused_s += length_s
        self._now_s = pause.to_s

    def _end(
        self,
        rep: Rep,
        outcome: Outcome,
        end_s: float,
        told_s: float,
        events: list[TrainingEvent],
    ) -> None:
        self.rep = None
        if self._by_key:
            self.gate_open = False
        record = rep.record(outcome=outcome, end_s=end_s, hold_s=self._asked.hold_s)
        events.append(RepEnded(told_s, record))


def _on_tick(time_s: float) -> float:
    """A time that is that of a sample but for rounding is that of the sample.

    Else it would depend on whether the rules were asked at that sample or later.
    """
    tick_s = round(time_s, 6)  # samples stand on whole microseconds
    return tick_s if abs(time_s - tick_s) <= ROUNDING_S else time_s
