"""The even grid: EDF+ and BIDS know one sample rate and no time for each sample.

The rate is that of the board's own clock over all stretches without a gap, which may
differ from the nominal one. Each stretch starts at the slot nearest to its time; what
lies between stretches are empty slots. How far a sample is from its slot at most is
told, so that nobody has to trust it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy.typing as npt

    from biofeedback.logbook.exports.sample_batch import SampleBatch

EMPTY_MAX_S = 3600.0
"""Empty slots in all: an hour. A longer outage is two recordings, not a gap."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Samples that follow each other directly."""

    first_index: int
    first_s: float
    last_s: float
    samples: int


@dataclass(frozen=True, slots=True)
class Overview:
    """What a first run over the samples found.

    Attributes:
        stretches: in order; what is missing lies between them.
        unusable: (start, end) of samples at a stop of the ADC or settling.
        largest_n: for each channel, the largest force by amount.
    """

    stretches: tuple[Stretch, ...]
    unusable: tuple[tuple[float, float], ...]
    largest_n: tuple[float, ...]

    @property
    def samples(self) -> int:
        """How many there are."""
        return sum(one.samples for one in self.stretches)

    @property
    def lost(self) -> int:
        """How many are missing in between, as far as known."""
        return sum(
            after.first_index - before.first_index - before.samples
            for before, after in pairwise(self.stretches)
        )

    @property
    def gaps(self) -> tuple[tuple[float, float], ...]:
        """(last sample before, first after) of each gap, seconds."""
        return tuple(
            (before.last_s, after.first_s)
            for before, after in zip(
                self.stretches[:-1], self.stretches[1:], strict=True
            )
        )

    def rate_hz(self, nominal_hz: float) -> float:
        """Of the board's clock; the nominal one where no two samples follow."""
        steps = sum(one.samples - 1 for one in self.stretches)
        took_s = sum(one.last_s - one.first_s for one in self.stretches)
        # A millionth of a hertz is less than any clock holds.
        return round(steps / took_s, 6) if steps and took_s > 0 else nominal_hz


def overview(batches: Iterable[SampleBatch], *, channels: int) -> Overview:
    """Goes over all samples once."""
    stretches: list[Stretch] = []
    unusable: list[tuple[float, float]] = []
    largest_n = np.zeros(channels)
    goes_on = False
    for batch in batches:
        _add_stretches(stretches, batch)
        force_n = np.abs(batch.force_n[batch.usable])
        if len(force_n):
            largest_n = np.maximum(largest_n, force_n.max(axis=0))
        for bad in _runs(batch.gap, ~batch.usable):
            span = (float(batch.time_s[bad.start]), float(batch.time_s[bad.stop - 1]))
            if goes_on and bad.start == 0 and not batch.gap[0]:
                span = (unusable.pop()[0], span[1])
            unusable.append(span)
        goes_on = not batch.usable[-1]
    return Overview(tuple(stretches), tuple(unusable), tuple(largest_n.tolist()))


def _add_stretches(stretches: list[Stretch], batch: SampleBatch) -> None:
    for run in _runs(batch.gap, np.ones(len(batch), np.bool_)):
        found = Stretch(
            int(batch.index[run.start]),
            float(batch.time_s[run.start]),
            float(batch.time_s[run.stop - 1]),
            run.stop - run.start,
        )
        last = stretches[-1] if stretches else None
        if last and not batch.gap[run.start]:
            samples = last.samples + found.samples
            found = Stretch(last.first_index, last.first_s, found.last_s, samples)
            stretches.pop()
        stretches.append(found)


def _runs(gap: npt.NDArray[np.bool_], wanted: npt.NDArray[np.bool_]) -> list[slice]:
    """Runs of wanted samples without a gap in them."""
    breaks = gap[1:] | (wanted[1:] != wanted[:-1])
    edges = [0, *(np.flatnonzero(breaks) + 1).tolist(), len(gap)]
    return [slice(start, stop) for start, stop in pairwise(edges) if wanted[start]]


@dataclass(frozen=True, slots=True, eq=False)
class EvenGrid:
    """Slots at one rate, from the first sample on.

    Attributes:
        rate_hz: of the slots.
        start_s: time of the first slot.
        slots: how many there are, empty ones included.
        first_index, first_slot: shape (stretches,).
        farthest_s: how far a stretch begins or ends from its slot, at most.
    """

    rate_hz: float
    start_s: float
    slots: int
    first_index: npt.NDArray[np.int64]
    first_slot: npt.NDArray[np.int64]
    farthest_s: float

    @classmethod
    def of(cls, found: Overview, *, nominal_hz: float) -> EvenGrid:
        """Lays the stretches onto a grid.

        Raises:
            FieldError: there is no sample, or far more is missing than there is.
        """
        if not found.stretches:
            raise FieldError("samples", phrase("there is none."))
        rate_hz = found.rate_hz(nominal_hz)
        start_s = found.stretches[0].first_s
        first_slots: list[int] = []
        slots, farthest_s = 0, 0.0
        for one in found.stretches:
            slot = max(slots, round((one.first_s - start_s) * rate_hz))
            first_slots.append(slot)
            slots = slot + one.samples
            for at, time_s in ((slot, one.first_s), (slots - 1, one.last_s)):
                farthest_s = max(farthest_s, abs(at / rate_hz - (time_s - start_s)))
        if slots - found.samples > EMPTY_MAX_S * rate_hz:
            raise FieldError(
                "samples",
                phrase(
                    "more than an hour is missing in between, which "
                    "cannot be written as evenly spaced samples."
                ),
                phrase("Use CSV or Parquet."),
            )
        return cls(
            rate_hz,
            start_s,
            slots,
            np.array([one.first_index for one in found.stretches]),
            np.array(first_slots),
            farthest_s,
        )

    def slot(self, index: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
        """The slot of each sample."""
        at = np.searchsorted(self.first_index, index, side="right") - 1
        return self.first_slot[at] + (index - self.first_index[at])
