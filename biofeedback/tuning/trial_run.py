"""One candidate on one recording: its figures, as sums that can be added up."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.despike import Despike
from biofeedback.conditioning.filter_facts import facts
from biofeedback.errors import FileError
from biofeedback.phrase import phrase
from biofeedback.training.events import Outcome
from biofeedback.tuning import yardsticks
from biofeedback.tuning.shown import (
    Show,
    centred_median,
    reference_force,
    spikes_in,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.training.events import RepRecord
    from biofeedback.tuning.material import Material

    Floats = npt.NDArray[np.float64]

HOLD_LEAST_S = 1.0
"""Shorter ones are no holds to judge noise in."""
SETTLE_S = 0.5
"""After the entry, before noise and lag of a hold are measured: by then the force is
held, and every candidate has settled."""
ENTRY_S = 1.0
"""After the entry, in which overshoot is looked for."""
SPIKE_LEAST = 0.05
"""Of the band's width; a smaller spike is of no matter to the athlete."""
SPIKE_SEEN_S = 0.2
OPEN_WIDTH = 0.2
"""Of the floor: what stands for the width of a band without an upper edge, where
spikes are looked for."""


@dataclass(frozen=True, slots=True)
class Figures:
    """What one candidate did on one recording.

    Attributes:
        delay_s: at DC, from the coefficients.
        lag_ramp_s: measured while force rose to the band or was let go; None where
            that does not tell. `lag_hold_s` in holds likewise.
        noise_n2: sum of squares of the noise left in `noise_samples` of holds: what
            is shown beyond what would be shown of the reference alone.
        error_n2: sum of squares of what is shown beside the reference moved by the
            delay at DC. It holds the noise, and what of the reference is smoothed
            away, so it depends on the reference's cut-off.
        noise_share2: the same in shares of the band's width; None for open bands.
        overshoots_n: at each entry.
        inside_s: time in the band by the rules of the live run, less that of the
            reference.
        completed: reps complete, less those of the reference.
        hold_s: time of the holds in which exits were counted.
    """

    delay_s: float
    lag_ramp_s: float | None
    lag_hold_s: float | None
    noise_n2: float
    error_n2: float
    noise_share2: float | None
    noise_samples: int
    overshoots_n: tuple[float, ...]
    spikes_passed: int
    spikes: int
    false_exits: int
    missed_exits: int
    inside_s: float
    completed: int
    hold_s: float


class TrialRun:
    """A recording with its reference, on which candidates are measured.

    Args:
        material: the recording.
        reference_hz: cut-off of each pass of the reference.
        expected: candidates that will be measured; some are quicker together.

    Raises:
        FileError: the force was never held in the band; says so.
    """

    def __init__(
        self,
        material: Material,
        *,
        reference_hz: float,
        expected: Sequence[FilterChoice] = (),
    ) -> None:
        self._material = material
        width_n = float(np.median(material.upper_n - material.lower_n))
        if math.isinf(width_n):
            width_n = OPEN_WIDTH * float(np.median(material.lower_n))
        spikes = spikes_in(material, least_n=SPIKE_LEAST * width_n)
        force_n = reference_force(material, spikes=spikes, cutoff_hz=reference_hz)
        self._quiet = _of(material, force_n)
        self._effort_n = material.effort_n(force_n)
        clean_n = np.where(
            spikes, centred_median(material.calibrated_n), material.calibrated_n
        )
        off_n = material.calibrated_n - clean_n
        self._spikeless = _of(material, clean_n - material.zero_n)
        self._spike_n = material.effort_n(np.where(spikes, off_n, 0.0))
        self._columns = material.columns()
        self._forces_n = self._judged(force_n)
        self._reps = material.reps(force_n)
        self._holds = self._spans_of_holds()
        if not self._holds:
            raise FileError(
                material.path,
                phrase(
                    "the force was never held in the band for {hold_least_s:g} s.",
                    hold_least_s=HOLD_LEAST_S + SETTLE_S,
                ),
                next_step=phrase("Give another band with --band."),
            )
        self._ramps = self._spans_of_ramps()
        self._true_exits = self._exits(self._forces_n)
        beside = [self._quiet, self._spikeless] if spikes.any() else [self._quiet]
        self._show = Show(material, beside, expected)
        most = round(yardsticks.LAG_MOST_S * material.rate_hz)
        self._ramp_lag, self._hold_lag = (
            yardsticks.Lag(self._effort_n, spans, most=most)
            for spans in (self._ramps, self._holds)
        )

    @property
    def rate_hz(self) -> float:
        """Of the recording."""
        return self._material.rate_hz

    @property
    def reference_n(self) -> Floats:
        """The judged effort of the reference, shape (n,)."""
        return self._effort_n

    @property
    def holds(self) -> tuple[slice, ...]:
        """Stretches in which noise is measured."""
        return tuple(self._holds)

    def seen(self, choice: FilterChoice) -> tuple[Floats, Floats]:
        """What is shown, and what of it is beyond what is shown of the reference.

        Returns:
            The judged effort and its noise, both of shape (n,).

        Raises:
            FieldError: the sample rate does not allow a setting.
        """
        shown = self._show.through(choice)
        effort_n = self._material.effort_n(shown.force_n)
        return effort_n, effort_n - shown.efforts_n[0]

    def measure(self, choice: FilterChoice) -> Figures:
        """All figures of a candidate.

        Raises:
            FieldError: the sample rate does not allow a setting.
        """
        rate_hz = self.rate_hz
        delay_s = _delay_s(choice, rate_hz)
        delay = delay_s * rate_hz
        shown = self._show.through(choice)
        force_n, (quiet_n, *spikeless_n) = shown.force_n, shown.efforts_n
        shown_n = self._material.effort_n(force_n)
        ramp, hold = self._ramp_lag.of(shown_n), self._hold_lag.of(shown_n)
        noise, samples, share = self._noise(shown_n, quiet_n)
        passed, spikes = self._spikes(shown_n, spikeless_n, delay)
        false, missed = self._wrong_exits(force_n, delay)
        reps = self._material.reps(force_n)
        return Figures(
            delay_s=delay_s,
            lag_ramp_s=None if ramp is None else ramp / rate_hz,
            lag_hold_s=None if hold is None else hold / rate_hz,
            noise_n2=noise,
            error_n2=yardsticks.squares_off(
                shown_n, yardsticks.delayed(self._effort_n, delay), self._holds
            )[0],
            noise_share2=share,
            noise_samples=samples,
            overshoots_n=tuple(
                yardsticks.overshoot_n(
                    shown_n,
                    self._effort_n,
                    [
                        self._at(rep.entry_s)
                        for rep in self._reps
                        if rep.entry_s is not None
                    ],
                    within=round(ENTRY_S * rate_hz),
                )
            ),
            spikes_passed=passed,
            spikes=spikes,
            false_exits=false,
            missed_exits=missed,
            inside_s=_inside_s(reps) - _inside_s(self._reps),
            completed=_completed(reps) - _completed(self._reps),
            hold_s=sum(span.stop - span.start for span in self._holds) / rate_hz,
        )

    def _at(self, time_s: float) -> int:
        return int(np.searchsorted(self._material.time_s, time_s))

    def _held_until(self, rep: RepRecord) -> int:
        """One past the last sample of the rep's hold at which the force is inside."""
        material = self._material
        span = slice(self._at(rep.start_s), self._at(rep.hold_end_s))
        inside = np.all(
            [
                (force_n[span] >= material.lower_n[span])
                & (force_n[span] <= material.upper_n[span])
                for force_n in self._forces_n
            ],
            axis=0,
        )
        last = np.flatnonzero(inside)
        return span.start + int(last[-1]) + 1 if len(last) else span.start

    def _spans_of_holds(self) -> list[slice]:
        """From half a second after each entry to the end of the hold."""
        spans = [
            slice(self._at(rep.entry_s + SETTLE_S), self._held_until(rep))
            for rep in self._reps
            if rep.entry_s is not None
        ]
        least = HOLD_LEAST_S * self.rate_hz
        return [span for span in spans if span.stop - span.start >= least]

    def _spans_of_ramps(self) -> list[slice]:
        """From onset to entry, and from the end of the hold to that of the rep."""
        spans = []
        for rep in self._reps:
            if rep.entry_s is not None:
                spans.append(slice(self._at(rep.start_s), self._at(rep.entry_s)))
                spans.append(slice(self._held_until(rep), self._at(rep.end_s)))
        return [span for span in spans if span.stop - span.start >= 3]

    def _noise(
        self, shown_n: Floats, of_reference_n: Floats
    ) -> tuple[float, int, float | None]:
        """What is shown beyond what would be shown of the reference alone."""
        total, number, shares = 0.0, 0, 0.0
        for span in self._holds:
            squares, samples = yardsticks.squares_off(shown_n, of_reference_n, [span])
            total, number = total + squares, number + samples
            width_n = float(
                np.median(self._material.upper_n[span] - self._material.lower_n[span])
            )
            shares += squares / width_n**2
        finite = bool(np.isfinite(self._material.upper_n).all())
        return total, number, shares if finite else None

    def _spikes(
        self, shown_n: Floats, spikeless_n: list[Floats], delay: float
    ) -> tuple[int, int]:
        if not spikeless_n:
            return 0, 0
        return yardsticks.spikes_passed(
            shown_n,
            spikeless_n[0],
            self._spike_n,
            within=math.ceil(delay) + round(SPIKE_SEEN_S * self.rate_hz),
        )

    def _judged(self, force_n: Floats) -> list[Floats]:
        """Each force that the band applies to, shape (n,)."""
        return [force_n[:, columns].sum(axis=1) for columns in self._columns]

    def _exits(self, forces_n: list[Floats]) -> list[npt.NDArray[np.intp]]:
        material = self._material
        return [
            yardsticks.exits(each_n, material.lower_n, material.upper_n, self._holds)
            for each_n in forces_n
        ]

    def _wrong_exits(self, force_n: Floats, delay: float) -> tuple[int, int]:
        each = [
            yardsticks.unmatched(
                shown,
                true,
                delay=delay,
                within=yardsticks.SAME_EXIT_S * self.rate_hz,
            )
            for shown, true in zip(
                self._exits(self._judged(force_n)), self._true_exits, strict=True
            )
        ]
        return sum(false for false, _ in each), sum(missed for _, missed in each)


@lru_cache(maxsize=1024)
def _delay_s(choice: FilterChoice, rate_hz: float) -> float:
    """Delay at DC; the same for each recording of a rate."""
    return facts(choice, rate_hz).delay_s


def _of(material: Material, force_n: Floats) -> Material:
    """The recording as it would be had the cells given this force."""
    calibrated_n = force_n + material.zero_n
    despiked_n = calibrated_n.copy()
    for run in material.runs:
        despiked_n[run] = Despike().push(calibrated_n[run])
    return replace(material, calibrated_n=calibrated_n, despiked_n=despiked_n)


def _inside_s(reps: list[RepRecord]) -> float:
    return sum(rep.inside_s for rep in reps)


def _completed(reps: list[RepRecord]) -> int:
    return sum(rep.outcome is Outcome.COMPLETE for rep in reps)
