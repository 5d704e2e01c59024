"""The live filters: what smooths the force that is shown and judged.

Rules that hold for every one of them:

* Causal, with the state carried, so that the answer is the same to the last bit
  however the stream is cut.
* `reset` makes the next sample prime the filter, as if its value had stood for
  ever: no step at the start and no ringing across a gap.
* Shifting the input by a constant shifts the output by the same constant. So
  zero may be taken away after the filter, and a new zero cannot ring.
* NaN must not be pushed; it would stay in the state.

What each costs in delay and buys in noise is told by `filter_facts.facts`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, Protocol

import numpy as np

from biofeedback.conditioning.one_euro import OneEuro
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.conditioning.sections import (
    SAMPLES_MAX,
    butterworth,
    check_whole,
    critically_damped,
    exponential,
    notch,
)

if TYPE_CHECKING:
    import numpy.typing as npt


class Filter(Protocol):
    """Force in, as many samples of smoothed force out."""

    def push(self, force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Filters the next samples, shape (n, channels), all finite."""

    def reset(self) -> None:
        """Forgets everything; the next sample primes."""


class Unfiltered:
    """Passes force on as it is."""

    def push(self, force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Returns a copy of the samples."""
        return force_n.copy()

    def reset(self) -> None:
        """Has nothing to forget."""


class SectionFilter:
    """Second-order sections in a row, each in transposed direct form II.

    Steps through the samples in Python. A block of eight takes as long as a compiled
    filter's fixed cost; and no compiler decides how the sums are rounded, so the
    answer is the same on every machine.
    """

    def __init__(self, sections: npt.NDArray[np.float64]) -> None:
        self._sections = [_Section(*row) for row in sections.tolist()]
        self._states: list[list[tuple[float, float]]] = []

    def reset(self) -> None:
        """Forgets everything; the next sample primes."""
        self._states = []

    def push(self, force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Filters the next samples, shape (n, channels)."""
        if not len(force_n):
            return force_n.copy()
        if not self._states:
            self._states = [
                [section.steady(first_n) for section in self._sections]
                for first_n in force_n[0].tolist()
            ]
        columns = force_n.T.tolist()
        for channel, states in enumerate(self._states):
            for index, section in enumerate(self._sections):
                columns[channel], states[index] = section.run(
                    columns[channel], states[index]
                )
        return np.array(columns).T.copy()


class _Section(NamedTuple):
    """One section: y = b0·x + z0, z0 ← b1·x − a1·y + z1, z1 ← b2·x − a2·y."""

    b0: float
    b1: float
    b2: float
    a0: float
    a1: float
    a2: float

    def steady(self, value: float) -> tuple[float, float]:
        """The state in which `value` has stood for ever; the gain at DC is 1."""
        return (1.0 - self.b0) * value, (self.b2 - self.a2) * value

    def run(
        self, values: list[float], state: tuple[float, float]
    ) -> tuple[list[float], tuple[float, float]]:
        b0, b1, b2, _, a1, a2 = self
        z0, z1 = state
        out = []
        for x in values:
            y = b0 * x + z0
            z0 = b1 * x - a1 * y + z1
            z1 = b2 * x - a2 * y
            out.append(y)
        return out, (z0, z1)


class MovingAverage:
    """Mean of the newest samples, as a running sum.

    The sum is of differences from the sample that primed it, so a steady force
    comes out unchanged. Rounding can grow with the number of samples only: after
    10 million samples it is below 0.00001 N in the worst case.
    """

    def __init__(self, samples: int, *, channels: int) -> None:
        self._samples = samples
        self._channels = channels
        self._base_n: npt.NDArray[np.float64] | None = None
        self._window_n = np.zeros((samples, channels))
        self._sum_n = np.zeros((1, channels))

    def reset(self) -> None:
        """Forgets everything; the next sample primes."""
        self._base_n = None

    def push(self, force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Filters the next samples, shape (n, channels)."""
        if not len(force_n):
            return force_n.copy()
        if self._base_n is None:
            self._base_n = force_n[0].copy()
            self._window_n = np.zeros((self._samples, self._channels))
            self._sum_n = np.zeros((1, self._channels))
        above_n = force_n - self._base_n
        joined = np.concatenate((self._window_n, above_n))
        changes_n = above_n - joined[: len(above_n)]
        # accumulate adds in order, sample by sample, whatever the cut.
        sums_n = np.add.accumulate(np.concatenate((self._sum_n, changes_n)), axis=0)
        self._window_n = joined[-self._samples :].copy()
        self._sum_n = sums_n[-1:].copy()
        return sums_n[1:] / self._samples + self._base_n


class Row:
    """Filters one after another."""

    def __init__(self, *filters: Filter) -> None:
        self._filters = filters

    def push(self, force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Filters the next samples, shape (n, channels)."""
        for each in self._filters:
            force_n = each.push(force_n)
        return force_n

    def reset(self) -> None:
        """Forgets everything; the next sample primes."""
        for each in self._filters:
            each.reset()


def linear_sections(choice: FilterChoice, *, rate_hz: float) -> npt.NDArray[np.float64]:
    """Sections of the notch and the low pass, shape (sections, 6), possibly none.

    A moving average and one-euro are no sections; theirs are left out.

    Raises:
        FieldError: the sample rate does not allow a setting.
    """
    rows = [np.empty((0, 6))]
    if choice.notch_hz is not None:
        rows.append(notch(choice.notch_hz, rate_hz=rate_hz))
    match choice.kind:
        case FilterKind.BUTTERWORTH:
            rows.append(butterworth(choice, rate_hz=rate_hz))
        case FilterKind.CRITICALLY_DAMPED:
            rows.append(critically_damped(choice, rate_hz=rate_hz))
        case FilterKind.EXPONENTIAL:
            rows.append(exponential(choice, rate_hz=rate_hz))
        case FilterKind.NONE | FilterKind.MOVING_AVERAGE | FilterKind.ONE_EURO:
            pass
    return np.concatenate(rows)


def design(choice: FilterChoice, *, rate_hz: float, channels: int) -> Filter:
    """The live filter of a choice, for one sample rate.

    Despiking is no part of it: it works on counts, see `despike`.

    Raises:
        FieldError: names the setting that the sample rate does not allow, and says
            what it allows.
    """
    filters: list[Filter] = []
    sections = linear_sections(choice, rate_hz=rate_hz)
    if len(sections):
        filters.append(SectionFilter(sections))
    if choice.kind is FilterKind.MOVING_AVERAGE:
        check_whole(choice.samples, most=SAMPLES_MAX, name="samples")
        filters.append(MovingAverage(choice.samples, channels=channels))
    if choice.kind is FilterKind.ONE_EURO:
        filters.append(OneEuro(choice, rate_hz=rate_hz, channels=channels))
    if not filters:
        return Unfiltered()
    return filters[0] if len(filters) == 1 else Row(*filters)
