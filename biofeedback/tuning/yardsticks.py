"""What a shown force is measured by, against the zero-phase reference.

All are functions of plain arrays, so that a test can hand them signals of which the
truth is known.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

LAG_MOST_S = 0.5
"""Longest lag that is looked for; nobody could hold a band with more."""
TELLING_SHARE = 0.05
"""By so much of the largest distance the least one must stand out, or the stretch
is too even to tell a lag."""
SAME_EXIT_S = 0.15
"""Two exits this near to each other are the same one; ours, no source."""
SPIKE_LEFT = 0.25
"""A spike is passed if this share of its height is seen; ours, no source."""


class Lag:
    """By how many samples a shown force follows the reference in some stretches.

    The cross-correlation, with the energy of the shifted stretch counted: the lag is
    where Σ (shown(t) − reference(t − lag))² is least, refined by a parabola through
    three points. On a ramp the plain cross-correlation is largest at the largest
    force and tells nothing; this sum is a parabola there, and exact.

    Args:
        reference_n: shape (n,), reaching at least `most` samples before the spans.
        spans: stretches of the shown force; NaN in the reference leaves one out.
        most: longest lag in samples.
    """

    def __init__(
        self, reference_n: Floats, spans: Sequence[slice], *, most: int
    ) -> None:
        self._most = most
        self._stretches = [
            _Stretch(span, reference_n[span.start - most : span.stop + 2])
            for span in spans
            if most <= span.start < span.stop <= len(reference_n) - 2
            and np.isfinite(reference_n[span.start - most : span.stop + 2]).all()
        ]

    def of(self, shown_n: Floats) -> float | None:
        """The lag of a shown force, shape (n,); NaN in it leaves a stretch out.

        Returns:
            None where the stretches do not tell.
        """
        lags = np.arange(-2, self._most + 1)
        distances = np.zeros(len(lags))
        used = 0
        for stretch in self._stretches:
            if np.isfinite(shown_n[stretch.span]).all():
                # Window w begins `most` before the span: it is moved by most − w.
                distances += stretch.distances(shown_n)[self._most - lags]
                used += 1
        if not used:
            return None
        least = int(np.argmin(distances))
        if least in (0, len(lags) - 1):
            return None
        before, at, after = distances[least - 1 : least + 2]
        if distances.max() - at <= TELLING_SHARE * distances.max():
            return None
        bend = before - 2 * at + after
        return float(lags[least] + (0.5 * (before - after) / bend if bend > 0 else 0.0))


class _Stretch:
    """Sums of squared differences of shown forces to windows of one reference.

    Σ (s − r)² = Σ s² + Σ r² − 2 Σ s·r, the last by Fourier transform, the reference's
    once for all candidates. Both forces are taken from the reference's mean, so that
    little is lost in the difference.
    """

    def __init__(self, span: slice, around_n: Floats) -> None:
        self.span = span
        self._level_n = float(around_n.mean())
        around_n = around_n - self._level_n
        energy = np.concatenate((np.zeros(1), np.cumsum(around_n**2)))
        length = span.stop - span.start
        self._windows = energy[length:] - energy[:-length]
        from scipy import fft  # noqa: PLC0415  a second, and no page waits for it

        self._size = fft.next_fast_len(len(around_n), real=True)
        self._around = fft.rfft(around_n, self._size)

    def distances(self, shown_n: Floats) -> Floats:
        """To each window, the first one first."""
        from scipy import fft  # noqa: PLC0415  a second, and no page waits for it

        off_n = shown_n[self.span] - self._level_n
        # Windows lie whole within the reference, so that nothing comes round the end.
        both = self._around * fft.rfft(off_n, self._size).conj()
        products = fft.irfft(both, self._size)[: len(self._windows)]
        return np.asarray(off_n @ off_n + self._windows - 2 * products)


def lag_samples(
    shown_n: Floats, reference_n: Floats, spans: Sequence[slice], *, most: int
) -> float | None:
    """`Lag` for one shown force."""
    return Lag(reference_n, spans, most=most).of(shown_n)


def delayed(reference_n: Floats, by_samples: float) -> Floats:
    """The reference as a shift alone would show it; straight lines between samples."""
    at = np.arange(len(reference_n)) - by_samples
    moved_n: Floats = np.interp(at, np.arange(len(reference_n)), reference_n)
    return moved_n


def squares_off(
    shown_n: Floats, other_n: Floats, spans: Sequence[slice]
) -> tuple[float, int]:
    """Sum of squares of the difference of two forces in some stretches, and number.

    Samples at which one of them is NaN are left out.
    """
    off_n = shown_n - other_n
    total, number = 0.0, 0
    for span in spans:
        values_n = off_n[span]
        values_n = values_n[np.isfinite(values_n)]
        total += float(values_n @ values_n)
        number += len(values_n)
    return total, number


def overshoot_n(
    shown_n: Floats, reference_n: Floats, entries: Sequence[int], *, within: int
) -> list[float]:
    """How far the shown peak after each entry lies above the reference's, at least 0.

    Args:
        entries: sample of each first entry into the band.
        within: so many samples after it.
    """
    found = []
    for entry in entries:
        span = slice(entry, entry + within)
        peak_n = np.max(shown_n[span], initial=-np.inf)
        true_n = np.max(reference_n[span], initial=-np.inf)
        if np.isfinite(peak_n) and np.isfinite(true_n):
            found.append(max(0.0, float(peak_n - true_n)))
    return found


def spikes_passed(
    shown_n: Floats, without_n: Floats, heights_n: Floats, *, within: int
) -> tuple[int, int]:
    """How many spikes are seen in the shown force, and how many there are.

    Args:
        shown_n: shape (n,).
        without_n: what the same candidate would have shown without the spikes.
        heights_n: shape (n,), height of a spike at its sample, else 0.
        within: so many samples after a spike are looked at.
    """
    off_n = np.nan_to_num(np.abs(shown_n - without_n))
    at = np.flatnonzero(heights_n)
    seen = sum(
        bool(off_n[spike : spike + within].max() > SPIKE_LEFT * abs(heights_n[spike]))
        for spike in at.tolist()
    )
    return seen, len(at)


def exits(
    force_n: Floats, lower_n: Floats, upper_n: Floats, spans: Sequence[slice]
) -> npt.NDArray[np.intp]:
    """Samples at which the force has just left the band, within the stretches.

    The edges are inside. Beyond a break in the signal nothing is an exit.
    """
    inside = (force_n >= lower_n) & (force_n <= upper_n)
    known = np.isfinite(force_n)
    left = np.flatnonzero(inside[:-1] & ~inside[1:] & known[1:]) + 1
    wanted = np.zeros(len(force_n), dtype=np.bool_)
    for span in spans:
        wanted[span] = True
    return left[wanted[left]]


def unmatched(
    shown_at: npt.NDArray[np.intp],
    true_at: npt.NDArray[np.intp],
    *,
    delay: float,
    within: float,
) -> tuple[int, int]:
    """False and missed exits: those without a partner; each is paired once.

    Both lists rise, so pairing the earliest that fit gives the most pairs.

    Args:
        delay: samples by which the shown force is late.
        within: samples by which partners may differ after that.
    """
    shown, true = shown_at.tolist(), true_at.tolist()
    i = j = pairs = 0
    while i < len(shown) and j < len(true):
        off = shown[i] - delay - true[j]
        if abs(off) <= within:
            i, j, pairs = i + 1, j + 1, pairs + 1
        elif off < 0:
            i += 1
        else:
            j += 1
    return len(shown) - pairs, len(true) - pairs
