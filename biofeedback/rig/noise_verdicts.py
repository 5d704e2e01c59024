"""Verdicts on the force at rest: noise, what it means for a band, hum, drift.

The limits are our choice, made for a band of ±5 % of 40 N, which is ±2 N.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.measures.excursions import Excursions, excursions, often, places_n
from biofeedback.measures.noise import (
    SLOW_HZ,
    alias_hz,
    noise_free_bits,
    peak_to_peak_n,
)
from biofeedback.phrase import joined, listed, phrase, sentences
from biofeedback.rig.rest_run import MAINS_HZ
from biofeedback.rig.verdict import State, Verdict, signed, verdict
from biofeedback.training.band import Band
from biofeedback.training.conductor import judged_by

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    from biofeedback.measures.noise import Hum
    from biofeedback.rig.rest_run import RestRun
    from biofeedback.training.prescription import Prescription

    Floats = npt.NDArray[np.float64]

TYPICAL = Band(38.0, 42.0)
"""±5 % of 40 N: a light hold in a narrow band."""
LEAVES_PER_MIN = 1.0
"""Noise that takes a force out of the band more often than this, half way to the
edge, is seen as the athlete's."""
NOISE_MOST_N = 0.5
"""A quarter of ±2 N; more comes from a limb on the cell, not from a converter."""
HUM_MOST_N = 0.1
DRIFT_MOST_N_PER_MIN = 0.5


def noise(run: RestRun) -> Verdict:
    """Noise and noise-free resolution of each channel, before the live filter."""
    names = [channel.words for channel in run.profile.channels]
    if any(run.still):
        stuck = [n for n, s in zip(names, run.still, strict=True) if s]
        return Verdict(
            phrase("noise"),
            State.LOOK,
            phrase(
                "No noise at all from {stuck}: one and the same number comes.",
                stuck=listed(stuck),
            ),
            phrase(
                "Look at the wiring of the converter: one of 24 bits is never "
                "still. A board that prints lines may need more digits."
            ),
            {"noise_rms_n": [line.rms for line in run.lines]},
        )
    parts, widths_n, bits = [], [], []
    rms_n = [line.rms for line in run.lines]
    for channel, sigma_n in zip(run.profile.channels, rms_n, strict=True):
        widths_n.append(peak_to_peak_n(sigma_n))
        bits.append(noise_free_bits(sigma_n, span_n=channel.rated_n))
        parts.append(
            phrase(
                "{name} {sigma_n:.4f} N rms, {widths_n:.3f} N peak to peak "
                "({bits:.1f} noise-free bits of {rated_n:g} N)",
                name=channel.words,
                sigma_n=sigma_n,
                widths_n=widths_n[-1],
                bits=bits[-1],
                rated_n=channel.rated_n,
            )
        )
    return verdict(
        phrase("noise"),
        good=max(rms_n) <= NOISE_MOST_N,
        found=joined("; ", parts) + ".",
        advice=(
            phrase(
                "Something moved on a cell, or the cell is noisy. Leave the "
                "rig alone and check again. If it stays, look at the shield, "
                "at the cell's four wires and at the excitation."
            )
        ),
        numbers={
            "noise_rms_n": rms_n,
            "noise_peak_to_peak_n": widths_n,
            "noise_free_bits": bits,
        },
    )


def band(run: RestRun, asked: Prescription | None) -> Verdict:
    """What the noise means for a band: how often it alone would leave it."""
    total = _leaves(run, TYPICAL, run.shown_n.sum(axis=1))
    found = [
        phrase("In ±5 % of 40 N, {leaving_words}", leaving_words=_leaving_words(total))
    ]
    numbers: dict[str, object] = _leaving_numbers("", total)
    worst = total[1].per_min
    if asked is not None:
        try:
            judged = judged_by(asked, run.profile).forces(run.shown_n)
        except FieldError:
            judged = [run.shown_n.sum(axis=1)]
        own = max(
            (_leaves(run, asked.band, force_n) for force_n in judged),
            key=lambda leaves: leaves[1].per_min,
        )
        found.append(
            phrase(
                "In the prescription's band, {leaving_words}",
                leaving_words=_leaving_words(own),
            )
        )
        numbers |= _leaving_numbers("asked_", own)
        worst = max(worst, own[1].per_min)
    return verdict(
        phrase("band"),
        good=worst < LEAVES_PER_MIN,
        found=sentences(*found),
        advice=(
            phrase(
                "Choose a wider band or a lower filter cut-off, or make the "
                "noise smaller."
            )
        ),
        numbers=numbers,
    )


def _leaves(run: RestRun, band: Band, shown_n: Floats) -> tuple[Excursions, Excursions]:
    """Held at the centre, and half of the way to the edge."""
    fit, rate_hz = run.shown_line(shown_n), run.profile.rate_hz
    if run.timing is not None:
        rate_hz = run.timing.rate_hz
    centre, half = (
        excursions(
            band, held_n=held_n, rms_n=fit.rms, lag_one=fit.lag_one, rate_hz=rate_hz
        )
        for held_n in places_n(band)
    )
    return centre, half


def _leaving_words(leaves: tuple[Excursions, Excursions]) -> str:
    centre, half = leaves
    return phrase(
        "noise alone would leave the band {often} for a force held at "
        "{held_n:.4g} N, and {often_2} at {held_n_2:.4g} N, half way to "
        "the edge.",
        often=often(centre.per_min),
        held_n=centre.held_n,
        often_2=often(half.per_min),
        held_n_2=half.held_n,
    )


def _leaving_numbers(
    prefix: str, leaves: tuple[Excursions, Excursions]
) -> dict[str, object]:
    centre, half = leaves
    return {
        f"{prefix}leaves_per_min_at_centre": centre.per_min,
        f"{prefix}leaves_per_min_half_way": half.per_min,
    }


def hum(run: RestRun) -> Verdict:
    """Mains hum, where the rate allows to see it."""
    found: list[str] = []
    sizes_n: list[float] = []
    seen: list[Hum] = []
    for channel, cell in enumerate(run.profile.channels):
        for one in run.hums(channel):
            if one is None:
                continue
            seen.append(one)
            sizes_n.append(one.amplitude_n)
            if one.there:
                at = (
                    phrase(", seen at {seen_hz:.1f} Hz", seen_hz=one.seen_hz)
                    if one.aliased
                    else ""
                )
                found.append(
                    phrase(
                        "{name} ±{amplitude_n:.3f} N at {mains_hz:g} Hz{at}",
                        name=cell.words,
                        amplitude_n=one.amplitude_n,
                        mains_hz=one.mains_hz,
                        at=at,
                    )
                )
    if not seen:
        return Verdict(
            phrase("mains hum"),
            State.NOT_JUDGED,
            _unseen_words(run),
            numbers={"hum_n": None},
        )
    alias = [
        phrase(
            "{mains_hz:g} Hz at {seen_hz:.0f} Hz",
            mains_hz=one.mains_hz,
            seen_hz=one.seen_hz,
        )
        for one in seen[: len(seen) // len(run.profile.channels)]
        if one.aliased
    ]
    told = (
        joined("; ", found)
        if found
        else phrase("None over {value:.4f} N", value=max(one.chance_n for one in seen))
    )
    if alias:
        told += phrase(
            ". At this rate it shows as an alias ({alias}), where a tremor may be",
            alias=listed(alias),
        )
    if max(one.chance_n for one in seen) > HUM_MOST_N:
        return Verdict(
            phrase("mains hum"),
            State.NOT_JUDGED,
            phrase("There is too much other noise to tell it."),
            numbers={"hum_n": None},
        )
    strong = any(one.there and one.amplitude_n > HUM_MOST_N for one in seen)
    return verdict(
        phrase("mains hum"),
        good=not strong,
        found=told + ".",
        advice=(
            phrase(
                "Ground the frame and the shield at one end, keep power "
                "supplies away, and run the laptop on its battery to compare."
            )
        ),
        numbers={"hum_n": max(sizes_n), "hum_seen_hz": [one.seen_hz for one in seen]},
    )


def _unseen_words(run: RestRun) -> str:
    """Why nothing can be said of hum."""
    rate_hz = run.profile.rate_hz
    if all(alias_hz(mains_hz, rate_hz) < SLOW_HZ for mains_hz in MAINS_HZ):
        return phrase(
            "At {rate_hz:g} samples a second 50 and 60 Hz cannot be told "
            "from a slow change.",
            rate_hz=rate_hz,
        )
    return phrase("The run was too short for it, or samples were missing. Check again.")


def drift(run: RestRun) -> Verdict:
    """How the force at rest has moved over the run."""
    per_min = [60 * line.slope_per_s for line in run.lines]
    sd = [60 * line.slope_sd for line in run.lines]
    parts = [
        phrase(
            "{name} {signed} ± {doubt:.3f} N/min",
            name=channel.words,
            signed=signed(slope, 3),
            doubt=2 * doubt,
        )
        for channel, slope, doubt in zip(run.profile.channels, per_min, sd, strict=True)
    ]
    walks = any(
        abs(slope) > max(DRIFT_MOST_N_PER_MIN, 3 * doubt)
        for slope, doubt in zip(per_min, sd, strict=True)
    )
    return verdict(
        phrase("drift"),
        good=not walks,
        found=joined("; ", parts)
        + phrase(", over {seconds:.0f} s.", seconds=run.seconds),
        advice=(
            phrase(
                "Give the rig a quarter of an hour to warm up, leave nothing "
                "on it, and check again."
            )
        ),
        numbers={"drift_n_per_min": per_min, "drift_sd_n_per_min": sd},
    )
