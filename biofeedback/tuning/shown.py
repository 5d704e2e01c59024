"""The force that a candidate would have shown, and the reference beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.filters import design, linear_sections
from biofeedback.conditioning.one_euro import check_one_euro
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.errors import FieldError
from biofeedback.tuning.many_one_euros import one_euros

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    from biofeedback.tuning.material import Material

REFERENCE_HZ = 8.0
"""Cut-off of each of the two passes of the reference. Above it lies tremor, which no
athlete can follow; ours, no source."""
KEPT_SAMPLES = 4_000_000
"""Of all one-euro candidates that are stepped together: 130 MB with two channels."""


def shown_force(material: Material, choice: FilterChoice) -> npt.NDArray[np.float64]:
    """What the live run would have shown, shape (n, channels); NaN where not good.

    Raises:
        FieldError: the sample rate does not allow a setting.
    """
    source_n = material.source_n(despiked=choice.despike)
    shown_n = np.full(source_n.shape, np.nan, order="F")
    for run in material.runs:
        shown_n[run] = filtered(source_n[run], choice, rate_hz=material.rate_hz)
    shown_n -= material.zero_n
    return shown_n


@dataclass(frozen=True, slots=True, eq=False)
class Shown:
    """What one candidate shows of a recording.

    Attributes:
        force_n: shape (n, channels), as `shown_force`.
        efforts_n: the judged effort, shape (n,), of what it shows of each other force
            that the cells could have given.
    """

    force_n: npt.NDArray[np.float64]
    efforts_n: tuple[npt.NDArray[np.float64], ...]


class Show:
    """Shows a recording, and other forces beside it, through one candidate at a time.

    Args:
        material: the recording.
        beside: the same with other forces.
        expected: candidates that will be asked for, so that those which have to be
            stepped are stepped together.
    """

    def __init__(
        self,
        material: Material,
        beside: Sequence[Material],
        expected: Sequence[FilterChoice],
    ) -> None:
        self._material = material
        self._beside = tuple(beside)
        self._expected = [
            choice for choice in expected if choice.kind is FilterKind.ONE_EURO
        ]
        self._stepped: dict[FilterChoice, Shown] = {}

    def through(self, choice: FilterChoice) -> Shown:
        """What a candidate shows.

        Raises:
            FieldError: the sample rate does not allow a setting.
        """
        if choice.kind is not FilterKind.ONE_EURO:
            return Shown(
                shown_force(self._material, choice),
                tuple(_shown_effort(each, choice) for each in self._beside),
            )
        if choice not in self._stepped:
            self._step(choice)
        return self._stepped.pop(choice)

    def _step(self, choice: FilterChoice) -> None:
        """One-euro candidates with the same source as this one, some at once."""
        rate_hz = self._material.rate_hz
        most = max(1, KEPT_SAMPLES // len(self._material.time_s))
        alike = [choice]
        for each in self._expected:
            same = (each.despike, each.notch_hz) == (choice.despike, choice.notch_hz)
            if same and each not in alike and len(alike) < most:
                try:
                    check_one_euro(each, rate_hz=rate_hz)
                except FieldError:
                    continue  # told when it is asked for
                alike.append(each)
        self._expected = [each for each in self._expected if each not in alike]
        all_of = (self._material, *self._beside)
        source_n = np.concatenate(
            [each.source_n(despiked=choice.despike) for each in all_of], axis=1
        )
        shown_n = np.full((len(alike), *source_n.T.shape), np.nan)
        for run in self._material.runs:
            some_n = _through_sections(source_n[run], choice, rate_hz=rate_hz)
            shown_n[:, :, run] = one_euros(some_n, alike, rate_hz=rate_hz)
        shown_n -= np.concatenate([each.zero_n for each in all_of], axis=1).T
        for each, columns_n in zip(alike, shown_n, strict=True):
            own_n, *others_n = (part.T for part in np.split(columns_n, len(all_of)))
            self._stepped[each] = Shown(
                own_n,
                tuple(self._material.effort_n(other_n) for other_n in others_n),
            )


def _shown_effort(material: Material, choice: FilterChoice) -> npt.NDArray[np.float64]:
    """The judged effort of `shown_force`, of a linear family.

    What is added up before the filter is the same after it, and filtered once.
    """
    source_n = material.effort_n(material.source_n(despiked=choice.despike))
    shown_n = np.full(len(source_n), np.nan)
    for run in material.runs:
        one_n = source_n[run, np.newaxis]
        shown_n[run] = filtered(one_n, choice, rate_hz=material.rate_hz)[:, 0]
    shown_n -= material.effort_n(material.zero_n)
    return shown_n


def filtered(
    force_n: npt.NDArray[np.float64], choice: FilterChoice, *, rate_hz: float
) -> npt.NDArray[np.float64]:
    """One stretch through a fresh live filter, run in another way, for speed.

    Args:
        force_n: shape (n, channels), all finite, n at least 1.
        choice: despiking is left out.
    """
    force_n = _through_sections(force_n, choice, rate_hz=rate_hz)
    if choice.kind is FilterKind.ONE_EURO:
        (stepped_n,) = one_euros(force_n, [choice], rate_hz=rate_hz)
        return np.asarray(stepped_n.T, dtype=np.float64)
    if choice.kind is FilterKind.MOVING_AVERAGE:
        alone = replace(choice, notch_hz=None)
        return design(alone, rate_hz=rate_hz, channels=force_n.shape[1]).push(force_n)
    return force_n


def _through_sections(
    force_n: npt.NDArray[np.float64], choice: FilterChoice, *, rate_hz: float
) -> npt.NDArray[np.float64]:
    """Notch and low pass, as far as they are sections, run by scipy."""
    from scipy import signal  # noqa: PLC0415  a second, and no page waits for it

    sections = linear_sections(choice, rate_hz=rate_hz)
    if not len(sections):
        return force_n
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
    from scipy import signal  # noqa: PLC0415  a second, and no page waits for it

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
