"""The numbers of a lowering rep: peak, time and impulse above the floor, the break.

* They are taken from the whole rep, from onset to end: where the force breaks matters
  more than where the tempo was over. Onset, entry and end are those of the rules.
* Force is calibrated and zeroed but not filtered, a straight line between samples.
  Nothing is taken across a gap.
* The floor is the lower edge of the band that was in force at each moment. Above a
  ceiling the force still is above the floor, and that time is told apart as well.
* The mean is that of the lowering: from the first entry (from the onset, where there
  was none before the break) to the break, or to the end where there is no break.
* Left and right at the peak and in the mean are of the same moments as the total's,
  so they add up to it. Time and impulse above the floor and the break are each side's
  own; of a floor for both sides together a side's floor is one half. So their impulses
  need not add up.
* Sides working at once are held against each other by 100 (R − L)/(R + L), see
  `symmetry`. A moment has no share: of the breaks the difference is told.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from biofeedback.measures.above_floor import Lines
from biofeedback.measures.bands import in_force
from biofeedback.measures.break_point import break_point
from biofeedback.measures.impulse import impulse_ns
from biofeedback.measures.symmetry import simultaneous_index_pct
from biofeedback.training.prescription import BandOn
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.measures.break_point import Break
    from biofeedback.measures.trace import Trace
    from biofeedback.training.crossings import Judged
    from biofeedback.training.events import RepRecord
    from biofeedback.training.prescription import Prescription

    Floats: TypeAlias = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Lowering:
    """What a lowering rep was like; None where it cannot be told.

    Times that end in `after_s` count from the onset.

    Attributes:
        lowering_peak_n: highest sample of the total, or of the working side.
        above_floor_s: with a floor for each side, the time both were above it.
        above_floor_ns: ∫ (force − floor) dt where it is positive; with a floor for
            each side, of both sides together.
        above_ceiling_s: part of that in which a ceiling was passed; None without one.
        lowering_mean_n: see above; `lowering_s` is how long that was heard.
        break_force_n: mean force over the 0.1 s around the break.
        fall_n_per_s: from the break down to half of that force.
        left_at_peak_n, right_at_peak_n: at the moment of the peak.
        break_apart_s: right less left; + is the left side breaking first.
    """

    lowering_peak_n: float | None
    lowering_peak_after_s: float | None
    above_floor_s: float
    above_floor_ns: float
    above_ceiling_s: float | None
    lowering_s: float
    lowering_mean_n: float | None
    break_after_s: float | None
    break_force_n: float | None
    fall_n_per_s: float | None
    left_at_peak_n: float | None
    right_at_peak_n: float | None
    left_above_floor_s: float | None
    right_above_floor_s: float | None
    left_above_floor_ns: float | None
    right_above_floor_ns: float | None
    left_lowering_mean_n: float | None
    right_lowering_mean_n: float | None
    left_break_after_s: float | None
    right_break_after_s: float | None
    left_fall_n_per_s: float | None
    right_fall_n_per_s: float | None
    peak_symmetry_pct: float | None
    above_time_symmetry_pct: float | None
    above_impulse_symmetry_pct: float | None
    lowering_mean_symmetry_pct: float | None
    fall_symmetry_pct: float | None
    break_apart_s: float | None


@dataclass(frozen=True, slots=True)
class _Side:
    """The same of one side."""

    at_peak_n: float | None = None
    above_s: float | None = None
    above_ns: float | None = None
    mean_n: float | None = None
    broke: Break | None = None


def lowering(
    rep: RepRecord, trace: Trace, judged: Judged, prescription: Prescription
) -> Lowering:
    """The numbers of a lowering rep.

    Args:
        rep: what the rules saw.
        trace: must reach from the last sample before the onset to the first after
            the end.
        judged: which channels make up the effort and the judged forces.
        prescription: gives sides and ceiling.
    """
    return _Measuring(rep, trace, judged, prescription).all()


class _Measuring:
    """One rep, looked at again and again."""

    def __init__(
        self,
        rep: RepRecord,
        trace: Trace,
        judged: Judged,
        prescription: Prescription,
    ) -> None:
        self._rep, self._trace, self._judged = rep, trace, judged
        self._ceiling_n = prescription.ceiling_n
        self._each = prescription.band_on is BandOn.EACH_SIDE
        both = prescription.task.sides is Sides.BOTH
        one = prescription.band_on in {BandOn.LEFT, BandOn.RIGHT}
        self._sides = judged.sides if both and not one else None
        self._effort_n = judged.effort(trace.force_n)
        self._lines = Lines(
            trace.time_s, trace.joined, start_s=rep.start_s, end_s=rep.end_s
        )
        floors_n = np.array([band.lower_n for _, band in rep.bands])
        self._floor_n: Floats = floors_n[in_force(rep, trace.time_s[:-1])]

    def all(self) -> Lowering:
        rep, lines = self._rep, self._lines
        forces_n = self._judged.forces(self._trace.force_n)
        peak = self._trace.peak(self._effort_n, start_s=rep.start_s, end_s=rep.end_s)
        broke = self._break(self._effort_n)
        left, right = self._both(peak, broke)
        return Lowering(
            lowering_peak_n=None if peak is None else float(self._effort_n[peak]),
            lowering_peak_after_s=(
                None if peak is None else float(self._trace.time_s[peak]) - rep.start_s
            ),
            above_floor_s=lines.time_above_s(forces_n, self._floor_n),
            above_floor_ns=sum(
                lines.impulse_above_ns(force_n, self._floor_n) for force_n in forces_n
            ),
            above_ceiling_s=self._above_ceiling_s(forces_n),
            lowering_s=self._heard_s(broke),
            lowering_mean_n=self._mean_n(self._effort_n, broke),
            break_after_s=self._after_s(broke),
            break_force_n=broke.force_n if broke else None,
            fall_n_per_s=broke.fall_n_per_s if broke else None,
            left_at_peak_n=left.at_peak_n,
            right_at_peak_n=right.at_peak_n,
            left_above_floor_s=left.above_s,
            right_above_floor_s=right.above_s,
            left_above_floor_ns=left.above_ns,
            right_above_floor_ns=right.above_ns,
            left_lowering_mean_n=left.mean_n,
            right_lowering_mean_n=right.mean_n,
            left_break_after_s=self._after_s(left.broke),
            right_break_after_s=self._after_s(right.broke),
            left_fall_n_per_s=left.broke.fall_n_per_s if left.broke else None,
            right_fall_n_per_s=right.broke.fall_n_per_s if right.broke else None,
            peak_symmetry_pct=_index_pct(left.at_peak_n, right.at_peak_n),
            above_time_symmetry_pct=_index_pct(left.above_s, right.above_s),
            above_impulse_symmetry_pct=_index_pct(left.above_ns, right.above_ns),
            lowering_mean_symmetry_pct=_index_pct(left.mean_n, right.mean_n),
            fall_symmetry_pct=_index_pct(
                left.broke.fall_n_per_s if left.broke else None,
                right.broke.fall_n_per_s if right.broke else None,
            ),
            break_apart_s=(
                right.broke.break_s - left.broke.break_s
                if left.broke and right.broke
                else None
            ),
        )

    def _both(self, peak: int | None, broke: Break | None) -> tuple[_Side, _Side]:
        if self._sides is None:
            return _Side(), _Side()
        floor_n = self._floor_n if self._each else self._floor_n / 2
        left, right = (
            self._side(self._trace.force_n[:, side], floor_n, peak, broke)
            for side in self._sides
        )
        return left, right

    def _side(
        self, force_n: Floats, floor_n: Floats, peak: int | None, broke: Break | None
    ) -> _Side:
        return _Side(
            at_peak_n=None if peak is None else float(force_n[peak]),
            above_s=self._lines.time_above_s([force_n], floor_n),
            above_ns=self._lines.impulse_above_ns(force_n, floor_n),
            mean_n=self._mean_n(force_n, broke),
            broke=self._break(force_n),
        )

    def _break(self, force_n: Floats) -> Break | None:
        trace, rep = self._trace, self._rep
        return break_point(
            trace.time_s,
            force_n,
            trace.joined,
            start_s=rep.start_s,
            end_s=rep.end_s,
        )

    def _after_s(self, broke: Break | None) -> float | None:
        return broke.break_s - self._rep.start_s if broke else None

    def _above_ceiling_s(self, forces_n: list[Floats]) -> float | None:
        if self._ceiling_n is None:
            return None
        under_s = self._lines.time_above_s(
            [-force_n for force_n in forces_n],
            np.full_like(self._floor_n, -self._ceiling_n),
        )
        return max(0.0, self._lines.heard_s - under_s)

    def _window_s(self, broke: Break | None) -> tuple[float, float]:
        """The lowering."""
        rep = self._rep
        to_s = broke.break_s if broke else rep.end_s
        if rep.entry_s is not None and rep.entry_s < to_s:
            return rep.entry_s, to_s
        return rep.start_s, to_s

    def _heard_s(self, broke: Break | None) -> float:
        return self._over(np.ones_like(self._effort_n), broke)

    def _mean_n(self, force_n: Floats, broke: Break | None) -> float | None:
        heard_s = self._heard_s(broke)
        return self._over(force_n, broke) / heard_s if heard_s > 0 else None

    def _over(self, values: Floats, broke: Break | None) -> float:
        """∫ of what is given over the lowering, as far as it was heard."""
        from_s, to_s = self._window_s(broke)
        trace = self._trace
        return impulse_ns(
            trace.time_s, values, trace.joined, start_s=from_s, end_s=to_s
        )


def _index_pct(left: float | None, right: float | None) -> float | None:
    if left is None or right is None:
        return None
    return simultaneous_index_pct(left, right)
