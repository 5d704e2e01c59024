"""The force that a candidate would have shown, and the reference beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from scipy import signal

from biofeedback.conditioning.filters import design, linear_sections
from biofeedback.conditioning.profile import FilterChoice, FilterKind

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.tuning.material import Material

REFERENCE_HZ = 8.0
"""Cut-off of each of the two passes of the reference. Above it lies tremor, which no
athlete can follow; ours, no source."""
SECTIONS_ONLY = (
    FilterKind.BUTTERWORTH,
    FilterKind.CRITICALLY_DAMPED,
    FilterKind.EXPONENTIAL,
)


def shown_force(material: Material, choice: FilterChoice) -> npt.NDArray[np.float64]:
    """What the live run would have shown, shape (n, channels); NaN where not good.

    Raises:
        FieldError: the sample rate does not allow a setting.
    """
    source_n = material.despiked_n if choice.despike else material.calibrated_n
    shown_n = np.full(source_n.shape, np.nan)
    for run in material.runs:
        shown_n[run] = filtered(source_n[run], choice, rate_hz=material.rate_hz)
    return shown_n - material.zero_n


def filtered(
    force_n: npt.NDArray[np.float64], choice: FilterChoice, *, rate_hz: float
) -> npt.NDArray[np.float64]:
    """One stretch through a fresh live filter; sections are run by scipy, for speed.

    Args:
        force_n: shape (n, channels), all finite, n at least 1.
        choice: despiking is left out.
    """
    if choice.kind not in SECTIONS_ONLY:
        return design(choice, rate_hz=rate_hz, channels=force_n.shape[1]).push(force_n)
    sections = linear_sections(choice, rate_hz=rate_hz)
    b0, b2, a2 = sections[:, 0], sections[:, 2], sections[:, 5]
    # All sections have gain 1 at DC: the first sample has stood for ever.
    at_rest = np.stack((1.0 - b0, b2 - a2), axis=1)
    state = at_rest[:, :, np.newaxis] * force_n[0]
    shown_n, _ = signal.sosfilt(sections, force_n, axis=0, zi=state)
    return np.asarray(shown_n, dtype=np.float64)


def reference_force(
    material: Material, *, spikes: npt.NDArray[np.bool_], cutoff_hz: float
) -> npt.NDArray[np.float64]:
    """Zero-phase force: Butterworth of order 2 run forwards and backwards.

    Args:
        material: the recording.
        spikes: shape (n, channels); these samples are replaced by the median of
            three before.
        cutoff_hz: of each pass.
    """
    sections = signal.butter(2, cutoff_hz, fs=material.rate_hz, output="sos")
    pad = round(3 * material.rate_hz / cutoff_hz)
    reference_n = np.full(material.calibrated_n.shape, np.nan)
    for run in material.runs:
        force_n = material.calibrated_n[run]
        clean_n = np.where(spikes[run], centred_median(force_n), force_n)
        reference_n[run] = signal.sosfiltfilt(
            sections, clean_n, axis=0, padlen=min(pad, len(clean_n) - 1)
        )
    return reference_n - material.zero_n


def centred_median(force_n: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Median of each sample and its two neighbours; the ends stay."""
    median_n = force_n.copy()
    if len(force_n) > 2:
        median_n[1:-1] = np.median(
            np.stack((force_n[:-2], force_n[1:-1], force_n[2:])), axis=0
        )
    return median_n


def spikes_in(material: Material, *, least_n: float) -> npt.NDArray[np.bool_]:
    """Single samples that stand out from both neighbours, shape (n, channels).

    By ten times the noise from sample to sample, robustly estimated (median absolute
    difference; 1.4826 makes it a standard deviation for Gaussian noise), and by
    `least_n`. Common practice, no source.
    """
    spikes = np.zeros(material.calibrated_n.shape, dtype=np.bool_)
    for run in material.runs:
        force_n = material.calibrated_n[run]
        if len(force_n) < 3:
            continue
        steps_n = np.abs(np.diff(force_n, axis=0))
        noise_n = 1.4826 * np.median(steps_n, axis=0) / np.sqrt(2.0)
        off_n = np.abs(force_n - centred_median(force_n))
        spikes[run] = off_n > np.maximum(10.0 * noise_n, least_n)
    return spikes
