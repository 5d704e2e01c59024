"""What an invented athlete is told to do, and what sort of athlete it is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback.training.prescription import BandOn, ClockRule, FeedbackMode
from biofeedback.training.task import Sides, TaskKind

if TYPE_CHECKING:
    from biofeedback.training.prescription import Prescription


@dataclass(frozen=True, slots=True)
class Effort:
    """What the athlete has been told to do.

    Attributes:
        centre_n: force to aim at, both sides together.
        half_width_n: half the width of the band, both sides together.
        hold_s: how long to stay there.
        rest_s: rest between reps.
        reps: how many.
        left_share: part of the force asked of the left side, 0 to 1.
        seen: whether the athlete sees the force; unseen, nothing is corrected.
        restarts: whether the hold starts again after a lapse.
        maximal: whether to pull with all there is; the centre is then of no meaning.
        lowering: whether to brake a way down that takes `hold_s`, above the band's
            lower edge.
    """

    centre_n: float
    half_width_n: float
    hold_s: float = 10.0
    rest_s: float = 15.0
    reps: int = 3
    left_share: float = 0.5
    seen: bool = True
    restarts: bool = True
    maximal: bool = False
    lowering: bool = False

    @property
    def floor_n(self) -> float:
        """The lower edge, both sides together."""
        return self.centre_n - self.half_width_n

    @classmethod
    def from_prescription(cls, prescription: Prescription) -> Effort:
        """What a prescription asks of the athlete."""
        band = prescription.band
        centre_n, half_width_n = band.centre_n, band.width_n / 2
        if band.open_above:  # a minimum to beat is aimed at from a little above
            centre_n, half_width_n = 1.1 * band.lower_n, 0.1 * band.lower_n
        if prescription.band_on is BandOn.EACH_SIDE:
            centre_n, half_width_n = 2 * centre_n, 2 * half_width_n
        sides, band_on = prescription.task.sides, prescription.band_on
        left_share = 0.5
        if sides is Sides.LEFT or band_on is BandOn.LEFT:
            left_share = 1.0
        elif sides is Sides.RIGHT or band_on is BandOn.RIGHT:
            left_share = 0.0
        return cls(
            centre_n=centre_n,
            half_width_n=half_width_n,
            hold_s=prescription.hold_s,
            rest_s=prescription.rest_s,
            reps=prescription.reps,
            left_share=left_share,
            seen=prescription.feedback is not FeedbackMode.UNSEEN,
            restarts=prescription.clock is ClockRule.UNBROKEN,
            maximal=prescription.task.kind is TaskKind.MAXIMAL,
            lowering=prescription.task.kind is TaskKind.LOWERING,
        )


@dataclass(frozen=True, slots=True)
class Traits:
    """What sort of athlete it is.

    Attributes:
        maximum_n: both sides together.
        reaction_s, reaction_spread_s: mean and standard deviation.
        correction_s, correction_spread_s: time between two corrections.
        wander_pct: slow fluctuation, standard deviation in % of the force.
        tremor_pct: 8-12 Hz tremor of each side, in % of its force.
        tremor_hz: its centre.
        sag_pct_per_s: how fast an unattended force sinks when fresh.
        imbalance_points: lasting preference for the left, in points of the total.
        drift_points: standard deviation of its slow drift.
        lapses_per_min: slips of attention in a minute of holding.
        fatigue_s: how long the maximum could be held; sets the pace of fatigue.
        drops_every: each so manyth lowering is not braked but falls under gravity
            alone; 0 for none.
    """

    maximum_n: float = 240.0
    reaction_s: float = 0.18
    reaction_spread_s: float = 0.015
    correction_s: float = 1.0
    correction_spread_s: float = 0.15
    wander_pct: float = 1.4
    tremor_pct: float = 0.6
    tremor_hz: float = 10.0
    sag_pct_per_s: float = 0.6
    imbalance_points: float = 2.0
    drift_points: float = 1.5
    lapses_per_min: float = 1.5
    fatigue_s: float = 60.0
    drops_every: int = 0

    def calm(self) -> Traits:
        """The same athlete with a force free of chance: reactions are left."""
        return replace(
            self,
            wander_pct=0.0,
            tremor_pct=0.0,
            sag_pct_per_s=0.0,
            drift_points=0.0,
            lapses_per_min=0.0,
        )
