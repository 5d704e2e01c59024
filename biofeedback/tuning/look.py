"""One recording to look at: raw, shown and reference force, residuals, noise.

What is drawn is what was measured: forces and holds come from the run that gives the
figures. The residual is shown less reference, so it holds the lag too; the noise is
what is shown of the raw force less what is shown of the reference.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.tuning import material
from biofeedback.tuning.shown import REFERENCE_HZ
from biofeedback.tuning.trial_run import TrialRun

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.training.band import Band

    Floats = npt.NDArray[np.float64]

RAW = FilterChoice(FilterKind.NONE)
SEGMENT_S = 2.0
"""Of the spectrum: lines half a hertz apart."""
MAINS_HARMONICS = 3
"""Mains and twice and three times it: common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Spectrum:
    """Noise by frequency.

    Attributes:
        at_hz: shape (k,).
        density_n: shape (k,), root of the power spectral density, N/√Hz.
    """

    at_hz: Floats
    density_n: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """One candidate on the recording.

    Attributes:
        shown_n: shape (n,), the judged effort as the athlete would have seen it.
        residual_n: shape (n,), less the reference.
        noise: of its noise in holds; None where no hold is long enough.
    """

    shown_n: Floats
    residual_n: Floats
    noise: Spectrum | None


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """A recording with some candidates.

    Attributes:
        time_s: shape (n,).
        raw_n, reference_n: shape (n,), judged effort; NaN where it is not known.
        lower_n, upper_n: shape (n,), edges of the band in force.
        holds: stretches in which noise is measured.
        raw_noise: as `Seen.noise`, without a filter.
    """

    path: Path
    rate_hz: float
    time_s: Floats
    raw_n: Floats
    reference_n: Floats
    lower_n: Floats
    upper_n: Floats
    holds: tuple[slice, ...]
    raw_noise: Spectrum | None
    seen: Mapping[FilterChoice, Seen]


def look_at(
    path: Path,
    choices: Sequence[FilterChoice],
    *,
    band: Band | None = None,
    reference_hz: float = REFERENCE_HZ,
) -> Look:
    """Reads a recording and filters it.

    Raises:
        FileError: it cannot be used; says why.
        FieldError: the sample rate does not allow a setting.
    """
    found = material.read(path, band)
    run = TrialRun(found, reference_hz=reference_hz)
    reference_n = run.reference_n

    def seen_of(choice: FilterChoice) -> Seen:
        shown_n, noise_n = run.seen(choice)
        noise = spectrum_of(noise_n, run.holds, rate_hz=found.rate_hz)
        return Seen(shown_n, shown_n - reference_n, noise)

    raw = seen_of(RAW)
    return Look(
        path=path,
        rate_hz=found.rate_hz,
        time_s=found.time_s,
        raw_n=raw.shown_n,
        reference_n=reference_n,
        lower_n=found.lower_n,
        upper_n=found.upper_n,
        holds=run.holds,
        raw_noise=raw.noise,
        seen={choice: seen_of(choice) for choice in choices},
    )


def spectrum_of(
    noise_n: Floats, spans: Sequence[slice], *, rate_hz: float
) -> Spectrum | None:
    """The spectrum of some stretches, each weighed by its length.

    Averaged periodograms of segments that overlap by half, under a Hann window
    (Welch 1967, IEEE Transactions on Audio and Electroacoustics 15: 70-73).

    Args:
        noise_n: shape (n,); a stretch with NaN is left out.
        spans: stretches of it.
        rate_hz: sample rate.

    Returns:
        None where no stretch is as long as a segment.
    """
    from scipy import signal  # noqa: PLC0415  a second, and no page waits for it

    segment = round(SEGMENT_S * rate_hz)
    total, weight = np.zeros(segment // 2 + 1), 0
    for span in spans:
        part_n = noise_n[span]
        if len(part_n) < segment or not np.isfinite(part_n).all():
            continue
        _, power = signal.welch(part_n, fs=rate_hz, nperseg=segment)
        total += len(part_n) * power
        weight += len(part_n)
    if not weight:
        return None
    at_hz = np.arange(segment // 2 + 1) * (rate_hz / segment)
    density_n: Floats = np.sqrt(total / weight)
    return Spectrum(np.asarray(at_hz, dtype=np.float64), density_n)


def mains_lines(mains_hz: float, *, rate_hz: float) -> tuple[tuple[float, float], ...]:
    """Where mains and its harmonics are seen: pairs of (true, seen) frequency.

    Above half the sample rate a frequency is seen folded back, at its distance from
    the nearest multiple of the rate: 50 Hz at 80 samples a second is seen at 30 Hz.
    """
    lines = []
    for number in range(1, MAINS_HARMONICS + 1):
        true_hz = number * mains_hz
        lines.append((true_hz, abs(true_hz - rate_hz * round(true_hz / rate_hz))))
    return tuple(lines)
