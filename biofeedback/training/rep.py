"""A rep under way: its books, and the record they become.

The hold rules write in it; it decides nothing itself.
"""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.training.events import Lapse, Outcome, Position, RepRecord

if TYPE_CHECKING:
    from biofeedback.training.band import Band
    from biofeedback.training.events import TrainingEvent


@dataclass(frozen=True, slots=True)
class Books:
    """Heard seconds of the hold part of a rep, by where the force was."""

    below: float = 0.0
    inside: float = 0.0
    above: float = 0.0
    unbalanced: float = 0.0
    paused: float = 0.0
    gaps: int = 0


class Rep:
    """A rep under way. Heard time, but for fields that end in ``at_s``.

    Under half the onset level the rep may be over. What is due there is written
    down but held back: it becomes true when the force comes back in time, and
    never was when it does not.

    Attributes:
        start: when it began.
        since: when the books were last settled.
        clock: what the hold clock showed then.
        left: when the force left the band, or None while it is inside.
        left_clock: what the hold clock showed then.
        lapse_clocks: the same for each lapse.
        fell: when it fell under half the onset level, or None.
        before_fall: the rep as it stood then, or None.
        held_back: events since then.
        completed_hold_s: the hold that was reached, or None.
    """

    def __init__(self, number: int, at_s: float, heard_s: float, band: Band) -> None:
        self.number = number
        self.start_at_s = at_s
        self.start = self.since = heard_s
        self.clock = 0.0
        self.books = Books()
        self.entry_at_s: float | None = None
        self.completed_at_s: float | None = None
        self.completed_hold_s: float | None = None
        self.left: float | None = None
        self.left_at_s = 0.0
        self.left_to = Position.BELOW
        self.left_clock = 0.0
        self.lapsed = False
        self.lapses: tuple[Lapse, ...] = ()
        self.lapse_clocks: tuple[float, ...] = ()
        self.bands: tuple[tuple[float, Band], ...] = ((at_s, band),)
        self.fell: float | None = None
        self.fell_at_s = 0.0
        self.before_fall: Rep | None = None
        self.held_back: list[TrainingEvent] = []

    def fall(self, at_s: float, heard_s: float) -> None:
        """The force falls under half the onset level."""
        self.before_fall = copy.copy(self)
        self.fell, self.fell_at_s = heard_s, at_s

    def rise(self) -> list[TrainingEvent]:
        """The force is back in time; gives what was held back."""
        events, self.held_back = self.held_back, []
        self.fell = self.before_fall = None
        return events

    @property
    def holding(self) -> bool:
        """Whether the hold is still asked for."""
        return self.completed_at_s is None

    def record(self, *, outcome: Outcome, end_s: float, hold_s: float) -> RepRecord:
        """The rep as it is kept, ended at `end_s`; `hold_s` is asked for now."""
        hold_end_s = end_s if self.completed_at_s is None else self.completed_at_s
        books = self.books
        return RepRecord(
            number=self.number,
            outcome=outcome,
            start_s=self.start_at_s,
            entry_s=self.entry_at_s,
            hold_end_s=hold_end_s,
            end_s=end_s,
            below_s=books.below,
            inside_s=books.inside,
            above_s=books.above,
            paused_s=books.paused,
            lapses=tuple(
                Lapse(lapse.start_s, min(lapse.end_s, hold_end_s))
                for lapse in self.lapses
            ),
            bands=(
                self.bands[0],
                *(band for band in self.bands[1:] if band[0] < hold_end_s),
            ),
            gaps=books.gaps,
            unbalanced_s=books.unbalanced,
            hold_s=hold_s if self.completed_hold_s is None else self.completed_hold_s,
        )
