"""Lowering reps: what one rep was like, told in one line.

A lowering set is an ordinary set: a band that is open above, whose lower edge is the
floor; the tempo as its hold; and the running clock, for the way down goes on whatever
the force does. Above a ceiling the force is still above the floor: the clock runs on,
the ceiling warns, and that time is told apart.

A rep that fell under gravity alone is known by three signs together: its peak was
early, the force then fell steeply, and little time was spent above the floor. Each
alone means nothing: strong reps may peak early, and every rep is let go steeply in the
end. The limits of the signs are opinion, no published source, and can be set.

It is a meaning and numbers; the words belong to whoever shows them. None of it judges
a person: a rep that does not count as meant may be weak, hurried or misunderstood.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task

TEMPO_S = 4.0
"""A slow lowering takes 3 to 6 s (common practice, no source)."""


class Sign(Enum):
    """What points to a fall under gravity alone."""

    EARLY = phrase("peak early")
    STEEP = phrase("steep fall")
    BRIEF = phrase("little time above the floor")


@dataclass(frozen=True, slots=True)
class SignLimits:
    """Where the signs begin; all are opinion, no published source.

    Attributes:
        early_pct: a peak within this part of the tempo is early. In a braked way down
            the pull grows while the body sinks, so its peak comes late; in a drop only
            the first catch is felt.
        steep_pct_per_s: a fall as fast as this is steep, in % of the force at the
            break. At 200 % half of it is gone within 0.25 s.
        brief_pct: less time above the floor than this part of the tempo is little.
        kept_pct: as much time above the floor as this part of the tempo counts as all
            of it, for nobody ends to the tenth of a second.

    Raises:
        FieldError: a limit that is none.
    """

    early_pct: float = 25.0
    steep_pct_per_s: float = 200.0
    brief_pct: float = 25.0
    kept_pct: float = 95.0

    def __post_init__(self) -> None:
        for name in ("early_pct", "brief_pct", "kept_pct"):
            if not 0 < getattr(self, name) <= 100:
                raise FieldError(
                    name, phrase("must be more than 0 % and at most 100 %.")
                )
        if not 0 < self.steep_pct_per_s <= 10_000:
            raise FieldError(
                "steep_pct_per_s", phrase("must be more than 0 % a second.")
            )
        if self.brief_pct > self.kept_pct:
            raise FieldError(
                "brief_pct", phrase("must not be more than what counts as kept.")
            )


@dataclass(frozen=True, slots=True)
class LoweringRep:
    """What is known of a lowering rep.

    Times that end in `after_s` count from the onset. None where it could not be told.

    Attributes:
        floor_n: as it stood at the end; on each side where `floor_each`.
        above_ns: impulse above the floor.
        stopped: by the practitioner, or with the set.
        gaps: breaks in the signal.
        left_share_pct: of the peak; None where one side works alone.
    """

    floor_n: float
    tempo_s: float
    peak_n: float | None
    peak_after_s: float | None
    above_s: float
    above_ns: float
    entry_after_s: float | None
    break_after_s: float | None
    break_force_n: float | None
    fall_n_per_s: float | None
    stopped: bool = False
    gaps: int = 0
    left_share_pct: float | None = None
    floor_each: bool = False


class Told(Enum):
    """The one thing that is said of a rep."""

    KEPT = "above the floor all the way"
    BROKE = "the force broke before the tempo was over"
    PARTLY = "above the floor for a part of the way"
    UNDER = "never above the floor"
    DROPPED = "fell under gravity alone"
    STOPPED = "stopped"
    MISSING = "part of the signal is missing"


@dataclass(frozen=True, slots=True)
class RepLine:
    """What is said of a rep, and its numbers."""

    told: Told
    rep: LoweringRep


def signs(rep: LoweringRep, limits: SignLimits | None = None) -> tuple[Sign, ...]:
    """What points to a fall under gravity alone, in a fixed order."""
    limits = limits or SignLimits()
    found: list[Sign] = []
    early_s = limits.early_pct / 100 * rep.tempo_s
    if rep.peak_after_s is not None and rep.peak_after_s <= early_s:
        found.append(Sign.EARLY)
    if rep.fall_n_per_s is not None and rep.break_force_n:
        steep_n_per_s = limits.steep_pct_per_s / 100 * rep.break_force_n
        if rep.fall_n_per_s >= steep_n_per_s:
            found.append(Sign.STEEP)
    if rep.above_s < limits.brief_pct / 100 * rep.tempo_s:
        found.append(Sign.BRIEF)
    return tuple(found)


def rep_line(rep: LoweringRep, limits: SignLimits | None = None) -> RepLine:
    """The one line that is said after a rep."""
    limits = limits or SignLimits()
    return RepLine(_told(rep, limits), rep)


def _told(rep: LoweringRep, limits: SignLimits) -> Told:
    kept_s = limits.kept_pct / 100 * rep.tempo_s
    broke_s, entry_s = rep.break_after_s, rep.entry_after_s or 0.0
    # In this order: what is sure goes first, and what is missing before what is not.
    answers = (
        (rep.above_s >= kept_s, Told.KEPT),
        (rep.gaps > 0 or rep.peak_n is None, Told.MISSING),
        (rep.stopped, Told.STOPPED),
        (len(signs(rep, limits)) == len(Sign), Told.DROPPED),
        (rep.above_s == 0, Told.UNDER),
        (broke_s is not None and broke_s < entry_s + kept_s, Told.BROKE),
    )
    return next((told for holds, told in answers if holds), Told.PARTLY)


def lowering_prescription(
    task: Task,
    *,
    floor_n: float,
    tempo_s: float = TEMPO_S,
    reps: int = 3,
    rest_s: float = 60.0,
    band_on: BandOn = BandOn.TOTAL,
    reference: Reference | None = None,
    ceiling_n: float | None = None,
) -> Prescription:
    """A set of slow lowerings above a floor.

    Args:
        reference: what the floor was worked out from, or None.

    Raises:
        FieldError: the task is no lowering, or a value does not fit.
    """
    if task.kind is not TaskKind.LOWERING:
        raise FieldError("task.kind", phrase("must be a lowering."))
    return Prescription(
        task=task,
        band=Band.at_least(floor_n),
        hold_s=tempo_s,
        clock=ClockRule.RUNNING,
        reps=reps,
        rest_s=rest_s,
        band_on=band_on,
        reference=reference,
        ceiling_n=ceiling_n,
    )
