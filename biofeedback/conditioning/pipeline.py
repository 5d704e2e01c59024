"""The pipeline: frames of counts in, blocks of newtons out.

counts → despike → calibration → filter → zero. Zero is taken away last: every
filter passes a constant on unchanged, so the shown force is the same as with zero
before the filter, and a new zero takes effect at the next sample, whole, with no
ringing and no smoothing lost. Two converters with clocks of their own are put on
one time base first, see `alignment`, and despiked before that.

Rules:

* The blocks do not depend on how the stream is cut into frames, to the last bit.
* A gap ends a block; despike and filter are primed afresh by the sample after it.
* A saturated or settling sample has no force: NaN, and never a number. If one
  channel is at its stop the whole sample is not good, since a total or a share
  could not be told. Despike and filter are primed afresh by the sample after it.
* With despiking on, force is the force of one sample earlier than its time says;
  the delay that the facts tell includes it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.alignment import Aligner, Stretch, joined
from biofeedback.conditioning.block import Block, all_set, any_set
from biofeedback.conditioning.despike import Despike
from biofeedback.conditioning.filter_facts import FilterFacts, facts
from biofeedback.conditioning.filters import design
from biofeedback.errors import RigError
from biofeedback.phrase import numbered, phrase
from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN
from biofeedback.wire.run import Run
from biofeedback.wire.timeline import Timeline

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    import numpy.typing as npt

    from biofeedback.conditioning.profile import RigProfile, Zero
    from biofeedback.wire.frames import Samples
    from biofeedback.wire.timeline import Placed

_TOP, _BOTTOM = (np.int32(end).tobytes() for end in (COUNTS_MAX, COUNTS_MIN))


class Pipeline:
    """Conditions what one rig sends, from its start on.

    Args:
        profile: channels, calibrations, zero and filter of the rig.
        rate_hz: sample rate in force, where it is not the profile's.

    Raises:
        FieldError: the filter does not fit the sample rate.
    """

    def __init__(self, profile: RigProfile, *, rate_hz: float | None = None) -> None:
        self._rate_hz = profile.rate_hz if rate_hz is None else rate_hz
        self._profile = profile
        self._facts = facts(profile.filter, self._rate_hz)
        self._filter = design(
            profile.filter, rate_hz=self._rate_hz, channels=len(profile.channels)
        )
        alone = profile.streams == 1
        self._aligner = (
            None
            if alone
            else Aligner(rate_hz=self._rate_hz, despike=profile.filter.despike)
        )
        self._despike = Despike() if alone and profile.filter.despike else None
        self._coefficients = _coefficients(profile)
        self._zero_n = np.array(profile.zero.offsets_n)
        self._timeline = Timeline()

    @property
    def profile(self) -> RigProfile:
        """The profile with the zero that is in force."""
        return self._profile

    @property
    def rate_hz(self) -> float:
        """The sample rate that the filter was designed for."""
        return self._rate_hz

    @property
    def facts(self) -> FilterFacts:
        """What the live filter costs and buys."""
        return self._facts

    def set_zero(self, zero: Zero) -> None:
        """Takes another zero away from the next sample on.

        Raises:
            FieldError: it does not have one value a channel.
        """
        self._profile = self._profile.with_zero(zero)
        self._zero_n = np.array(zero.offsets_n)

    def push(self, samples: Samples | Run) -> list[Block]:
        """Conditions the next frame of samples, or frames that were decoded together.

        Returns:
            One block, or none where the frame held nothing new. With two streams
            none while a sample waits for the other stream, and more than one where
            a gap is in between.

        Raises:
            RigError: the frame does not fit the profile; nothing was taken from it.
        """
        self.check(samples)
        if isinstance(samples, Run):
            return self.push_all([samples])
        return [self._block(each) for each in self._stretches(samples)]

    def push_all(self, frames: Iterable[Samples | Run]) -> list[Block]:
        """Conditions frames that came one after the other, in as few blocks as can be.

        The same samples as by `push` of each of them, to the last bit, and quicker.

        Args:
            frames: each of which `check` lets pass.
        """
        found: list[Stretch] = []
        for samples in frames:
            found += self._stretches(samples)
        return self._blocks(found)

    def _blocks(self, stretches: list[Stretch]) -> list[Block]:
        """Those that follow each other without a gap in one block."""
        if len(stretches) == 1:
            return [self._block(stretches[0])]
        together: list[list[Stretch]] = []
        for each in stretches:
            if together and not each.gap:  # there is one wherever some are lost
                together[-1].append(each)
            else:
                together.append([each])
        return [self._block(joined(each)) for each in together]

    def _stretches(self, samples: Samples | Run) -> list[Stretch]:
        """What is new in frames, each piece without a gap in it."""
        found: list[Stretch] = []
        if self._aligner is not None:
            frames = samples.frames() if isinstance(samples, Run) else (samples,)
            for each in frames:
                placed = self._timeline.place(each)
                if len(placed.time_s):
                    found += self._aligner.push(each, placed)
            return found
        for placed, piece in self._timeline.place_all(samples):
            if len(placed.time_s):
                found.append(_stretch(placed, piece))
        return found

    def _block(self, stretch: Stretch) -> Block:
        if stretch.gap:
            self._prime_afresh()
        good = ~stretch.settling
        if any_set(stretch.saturated):
            good &= ~stretch.saturated.any(axis=1)
        force_n, shown_n = self._condition(stretch.clean, good)
        block = Block(
            first_index=stretch.first_index,
            lost=stretch.lost,
            time_s=stretch.time_s,
            counts=stretch.counts,
            force_n=force_n,
            shown_n=shown_n,
            good=good,
            saturated=stretch.saturated,
            gap=stretch.gap,
            restarted=stretch.restarted,
        )
        for values in (
            *(block.time_s, block.counts, block.force_n),
            *(block.shown_n, block.good, block.saturated),
        ):
            values.setflags(write=False)
        return block

    def check(self, samples: Samples | Run) -> None:
        """Refuses a frame that does not fit, or all of a run.

        Raises:
            RigError: it is of another stream or number of channels.
        """
        if samples.stream >= self._profile.streams:
            raise RigError(
                phrase(
                    "The board sends stream number {stream}. Streams that are "
                    "understood: {streams}.",
                    stream=samples.stream,
                    streams=self._profile.streams,
                ),
                phrase(
                    "Join the cells to one converter board, or use one board a display."
                ),
            )
        sent = samples.counts.shape[1] * self._profile.streams
        described = len(self._profile.channels)
        if sent != described:
            raise RigError(
                numbered(
                    sent,
                    "The board sends 1 channel and the rig profile “{name}” describes "
                    "{described}.",
                    "The board sends {count} channels and the rig profile “{name}” "
                    "describes {described}.",
                    name=self._profile.name,
                    described=described,
                ),
                phrase("Choose the profile of this rig."),
            )

    def _prime_afresh(self) -> None:
        self._filter.reset()
        if self._despike is not None:
            self._despike.reset()

    def _condition(
        self, counts: npt.NDArray[np.int32], good: npt.NDArray[np.bool_]
    ) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
        """Force and shown force; NaN where a sample is not good."""
        if all_set(good):
            return self._condition_good(counts)
        force_n = np.full(counts.shape, np.nan)
        shown_n = np.full(counts.shape, np.nan)
        for run in _runs(good):
            if good[run.start]:
                force_n[run], shown_n[run] = self._condition_good(counts[run])
            else:
                self._prime_afresh()
        return force_n, shown_n

    def _condition_good(
        self, counts: npt.NDArray[np.int32]
    ) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
        if self._despike is not None:
            counts = self._despike.push(counts)
        calibrated_n = self._calibrate(counts)
        shown_n = self._filter.push(calibrated_n)
        return calibrated_n - self._zero_n, shown_n - self._zero_n

    def _calibrate(self, counts: npt.NDArray[np.int32]) -> npt.NDArray[np.float64]:
        """The channels' polynomials, by Horner's rule."""
        force_n: npt.NDArray[np.float64] = counts * self._coefficients[-1]
        for coefficient in self._coefficients[-2:0:-1]:
            force_n = (force_n + coefficient) * counts
        force_n += self._coefficients[0]
        return force_n


def _stretch(placed: Placed, samples: Samples | Run) -> Stretch:
    """What follows each other, without the samples that were there before."""
    # Views, which can be made read-only.
    counts = samples.counts[placed.skip :]
    saturated = samples.saturated[placed.skip :]
    content = counts.tobytes()
    # Four bytes may also look so across two counts: then they are looked at in vain.
    if _TOP in content or _BOTTOM in content:
        saturated = saturated | (counts >= COUNTS_MAX) | (counts <= COUNTS_MIN)
    return Stretch(
        first_index=placed.first_index,
        lost=placed.lost,
        gap=placed.gap,
        restarted=placed.restarted,
        time_s=placed.time_s,
        counts=counts,
        clean=counts,
        saturated=saturated,
        settling=samples.settling[placed.skip :],
    )


def _coefficients(profile: RigProfile) -> npt.NDArray[np.float64]:
    """Calibration of all channels, shape (degree + 1, channels), constant first."""
    each = [channel.calibration.coefficients for channel in profile.channels]
    coefficients = np.zeros((max(2, *map(len, each), 0), len(each)))
    for channel, values in enumerate(each):
        coefficients[: len(values), channel] = values
    return coefficients


def _runs(good: npt.NDArray[np.bool_]) -> Iterator[slice]:
    """Stretches in which all samples are good, or all are not."""
    edges = [0, *(np.flatnonzero(good[1:] != good[:-1]) + 1).tolist(), len(good)]
    return map(slice, edges[:-1], edges[1:])
