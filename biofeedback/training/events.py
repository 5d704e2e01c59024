"""What the rules report: positions, outcomes, events and the record of a rep.

All times are sample times in seconds, interpolated between samples.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias

from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.training.band import Band


REST_CUT_S = 1.0
"""From so much on a rest is told to be cut short; the countdown shows whole seconds."""


class Position(Enum):
    """Where the judged force is against the band."""

    # There is one of each; Python's own, by the name, takes longer in each frame.
    __hash__ = object.__hash__

    BELOW = "below"
    INSIDE = "inside"
    ABOVE = "above"


class Outcome(Enum):
    """How a rep ended."""

    COMPLETE = phrase("complete")
    SHORT = phrase("short")
    STOPPED = phrase("stopped")
    VOID = phrase("void")


@dataclass(frozen=True, slots=True)
class Lapse:
    """Left the band for longer than the grace time.

    Attributes:
        start_s: when the force left the band.
        end_s: when it came back, or when the hold part of the rep ended.
    """

    start_s: float
    end_s: float


@dataclass(frozen=True, slots=True)
class RepRecord:
    """One rep as the rules saw it.

    Attributes:
        number: counted from 1 in the set.
        start_s: onset, dated back to the crossing.
        entry_s: first entry into the band, or None.
        hold_end_s: completion, or the end of a rep that was not completed;
            what comes after is release and no part of the hold measures.
        end_s: when the force fell under half the onset level, or the stop.
        below_s, inside_s, above_s: time from onset to `hold_end_s` in each
            position; `paused_s` is the time lost to gaps and saturation.
        bands: the band at the start and each change of it, with its time.
        gaps: number of breaks in the signal between onset and `hold_end_s`.
        unbalanced_s: time in the band but out of balance, where balance is
            required. The five times add up to `hold_end_s` − `start_s`.
        hold_s: the hold that was asked for, as it stood at the end.
    """

    number: int
    outcome: Outcome
    start_s: float
    entry_s: float | None
    hold_end_s: float
    end_s: float
    below_s: float
    inside_s: float
    above_s: float
    paused_s: float
    lapses: tuple[Lapse, ...]
    bands: tuple[tuple[float, Band], ...]
    gaps: int
    unbalanced_s: float = 0.0
    hold_s: float = 0.0


@dataclass(frozen=True, slots=True)
class RestCut:
    """A rest that was not taken to its end: what was taken, of what was asked for."""

    taken_s: float
    asked_s: float


def rest_cut(asked_s: float, left_s: float) -> RestCut | None:
    """What is to be told of a rest that ends now; None where it was long enough.

    Args:
        left_s: of the rest that was asked for; not above 0 when rested.
    """
    return RestCut(asked_s - left_s, asked_s) if left_s >= REST_CUT_S else None


@dataclass(frozen=True, slots=True)
class RepStarted:
    """The force passed the onset level at `time_s`.

    Attributes:
        cut: the rest before it, where that was shorter by `REST_CUT_S` or more.
    """

    time_s: float
    number: int
    cut: RestCut | None = None


@dataclass(frozen=True, slots=True)
class Lapsed:
    """The grace time ran out at `time_s`; the band was left at `left_s`."""

    time_s: float
    left_s: float
    to: Position


@dataclass(frozen=True, slots=True)
class RepCompleted:
    """The clock reached the hold at `time_s`."""

    time_s: float
    number: int


@dataclass(frozen=True, slots=True)
class RepEnded:
    """The rep is over; told at `time_s`."""

    time_s: float
    rep: RepRecord


@dataclass(frozen=True, slots=True)
class CeilingCrossed:
    """The force passed the ceiling upwards at `time_s`."""

    time_s: float
    ceiling_n: float


TrainingEvent: TypeAlias = (
    RepStarted | Lapsed | RepCompleted | RepEnded | CeilingCrossed
)


class Phase(Enum):
    """Where in a set the athlete is."""

    # There is one of each; Python's own, by the name, takes longer in each frame.
    __hash__ = object.__hash__

    WAITING = "waiting"  # for the first rep, or rested and ready for the next
    HELD_BACK = "held back"  # the practitioner lets no rep start yet
    REP = "rep"
    RELEASE = "release"  # hold complete, force not let go yet
    REST = "rest"
    DONE = "done"


@dataclass(frozen=True, slots=True)
class SetState:
    """What the displays need to know of the set at one moment of sample time.

    Attributes:
        position: None while there is no usable signal.
        clock_s: what the hold clock shows.
        running: whether the clock is running now.
        rep_start_s: onset of the rep under way, or None.
        lapse_clock_s: for each lapse of this rep, where the clock stood.
        rep_number: the rep under way or next, counted from 1.
        outcomes: of the reps done so far in this set.
        rest_left_s: rest still to go; 0 when rested.
        over_ceiling: whether the force is above the ceiling now.
        balanced: False while the sides differ by more than the tolerance.
    """

    time_s: float
    phase: Phase
    position: Position | None
    clock_s: float
    running: bool
    hold_s: float
    rep_start_s: float | None
    lapse_clock_s: tuple[float, ...]
    rep_number: int
    reps: int
    outcomes: tuple[Outcome, ...]
    rest_left_s: float
    over_ceiling: bool
    band: Band
    balanced: bool = True
