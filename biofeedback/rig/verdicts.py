"""Verdicts on the stream: rate and jitter, losses, waits, range of the converter.

Each says what was found with its numbers and, unless that is good, what to do.
The limits are our choice unless a source stands beside them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.phrase import joined, listed, phrase, sentences
from biofeedback.rig.nominal import NOMINAL, label_words
from biofeedback.rig.verdict import State, Verdict, signed, verdict
from biofeedback.training.counting import counted
from biofeedback.wire.frames import COUNTS_MAX

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.rig.rest_run import RestRun

RATE_OFF_PCT = 5.0
"""An HX711's own oscillator is “typical, not exact” (AVIA data sheet)."""
JITTER_PCT = 10.0
"""Of the time from one sample to the next."""
FRAME_WORST_S = 0.06
"""A board sends at least every 20 ms (`hardware/PROTOCOL.md`); this is thrice it."""
WAIT_WORST_S = 0.1
"""Six frames of a display of 60 Hz: the force is seen to stand still."""
PERIODS = 3
"""A slow board is given this many of its periods more."""
REST_MOST_N = 2.0
"""Of a rig that is empty and was zeroed: half of a band of ±5 % of 40 N."""
NEAR_END_PCT = 90.0
"""Of the converter's range, with nothing pulling."""


def rate(run: RestRun) -> Verdict:
    """Measured rate against the asked one, and jitter."""
    timing, asked_hz = run.timing, run.profile.rate_hz
    if timing is None:
        return Verdict(
            phrase("rate"), State.LOOK, phrase("Too few samples came to measure it."),
            phrase("See that the board goes on sending."), {"rate_hz": None},
        )  # fmt: skip
    off_pct = 100 * (timing.rate_hz / asked_hz - 1)
    jitter_pct = 100 * timing.jitter_s * timing.rate_hz
    even = jitter_pct <= JITTER_PCT
    return verdict(
        phrase("rate"),
        good=even and abs(off_pct) <= RATE_OFF_PCT,
        found=(
            phrase(
                "{rate_hz:.2f} samples a second by the board's clock, asked "
                "{asked_hz:g} ({off_pct:+.2f} %); jitter {jitter_s:.3f} ms "
                "rms, {jitter_most_s:.3f} ms at most.",
                rate_hz=timing.rate_hz,
                asked_hz=asked_hz,
                off_pct=off_pct,
                jitter_s=1000 * timing.jitter_s,
                jitter_most_s=1000 * timing.jitter_most_s,
            )
        ),
        advice=(
            phrase(
                "Choose the rate in the board's settings that it really has: "
                "filter and delay are worked out from it."
            )
            if even
            else phrase("Use a board that stamps its samples with its own clock.")
        ),
        numbers={
            "rate_hz": timing.rate_hz,
            "asked_hz": asked_hz,
            "jitter_rms_ms": 1000 * timing.jitter_s,
            "jitter_most_ms": 1000 * timing.jitter_most_s,
        },
    )


def losses(run: RestRun, *, damaged: int) -> Verdict:
    """Gaps and damaged frames."""
    good = not (run.lost or run.breaks or damaged)
    found = (
        phrase("All {samples} samples came, no frame was damaged.", samples=run.samples)
        if good
        else phrase(
            "{lost} lost in {breaks}, {damaged}, of {lost_2} samples.",
            lost=counted(run.lost, "sample"),
            breaks=counted(run.breaks, "gap"),
            damaged=counted(damaged, "damaged frame"),
            lost_2=run.samples + run.lost,
        )
    )
    return verdict(
        phrase("losses"),
        good=good,
        found=found,
        advice=(
            phrase(
                "Use a short shielded cable, no hub, and the baud rate that "
                "the board is set to; keep the cable away from motors and "
                "chargers."
            )
        ),
        numbers={
            "samples": run.samples,
            "lost": run.lost,
            "gaps": run.breaks,
            "damaged": damaged,
        },
    )


def waits(run: RestRun, *, arrival_s: float) -> Verdict:
    """Worst time between frames: by the board's clock, and as they were read."""
    more_s = PERIODS / run.profile.rate_hz
    device_good = run.worst_frame_s <= FRAME_WORST_S + more_s
    return verdict(
        phrase("waits"),
        good=device_good and arrival_s <= WAIT_WORST_S + more_s,
        found=(
            phrase(
                "Worst time between frames: {worst_frame_s:.1f} ms by the "
                "board's clock, {arrival_s:.1f} ms as they were read.",
                worst_frame_s=1000 * run.worst_frame_s,
                arrival_s=1000 * arrival_s,
            )
        ),
        advice=(
            phrase(
                "Close other programs that keep this computer busy, and plug "
                "the board in without a hub; on Windows set the port's latency "
                "to 1 ms."
            )
            if device_good
            else phrase("Let the board send smaller frames, at least every 20 ms.")
        ),
        numbers={
            "worst_frame_ms": 1000 * run.worst_frame_s,
            "worst_arrival_ms": 1000 * arrival_s,
        },
    )


def reach(run: RestRun) -> Verdict:
    """Saturation, and how near the empty cells are to the end of the range."""
    names = [channel.words for channel in run.profile.channels]
    used_pct = (100 * run.counts_most / COUNTS_MAX).tolist()
    stuck = [n for n, s in zip(names, run.saturated.tolist(), strict=True) if s]
    near = [n for n, u in zip(names, used_pct, strict=True) if u >= NEAR_END_PCT]
    if stuck:
        found = phrase(
            "At the end of the converter's range: {cells}.", cells=listed(stuck)
        )
    else:
        shares = zip(names, used_pct, strict=True)
        used = joined(
            ", ",
            (
                phrase("{name} uses {share_pct:.0f} %", name=name, share_pct=share_pct)
                for name, share_pct in shares
            ),
        )
        found = phrase("At rest {used} of the converter's range.", used=used)
    return verdict(
        phrase("range"),
        good=not (stuck or near),
        found=found,
        advice=(
            phrase(
                "Take all load off. If it stays, look at the cell's wires: one "
                "that is open or two that are swapped drive the converter to "
                "its end."
            )
        ),
        numbers={
            "saturated": dict(zip(names, run.saturated.tolist(), strict=True)),
            "range_used_pct": used_pct,
        },
    )


def calibration(run: RestRun, told: Sequence[str]) -> Verdict:
    """Whether the newtons of all that is said here are those of known loads.

    Args:
        told: what is to be known of the calibrations: too old, or not used.
    """
    channels = run.profile.channels
    guessed = any(channel.calibration.label == NOMINAL for channel in channels)
    used = joined(
        "; ",
        (
            sentences(
                phrase("{name}:", name=each.words),
                label_words(each.calibration.label),
                each.calibration.date,
            )
            for each in channels
        ),
    )
    words = [phrase("In use: {used}.", used=used), *told]
    numbers = {"calibrations": [each.calibration.to_json() for each in channels]}
    if guessed and not told:
        words.append(phrase("By a nominal one newtons may be some percent wrong."))
        advice = phrase("Calibrate with known masses.")
        return Verdict(
            phrase("calibration"), State.NOT_JUDGED, sentences(*words), advice, numbers
        )
    return verdict(
        phrase("calibration"),
        good=not told,
        found=sentences(*words),
        advice=phrase("Calibrate with known masses."),
        numbers=numbers,
    )


def at_rest(run: RestRun) -> Verdict:
    """What the empty rig shows, where its zero was taken empty."""
    zero, title = run.profile.zero, phrase("zero")
    if zero.kind is not ZeroKind.EMPTY_RIG or not run.enough:
        found = (
            phrase("It was taken with the limb resting.")
            if zero.kind is ZeroKind.LIMB_RESTING
            else phrase("Not taken yet.")
        )
        return Verdict(title, State.NOT_JUDGED, found)
    rest_n = run.shown_n.mean(axis=0).tolist()
    shown = joined(
        ", ",
        (
            phrase("{name} {force} N", name=channel.words, force=signed(force_n, 1))
            for channel, force_n in zip(run.profile.channels, rest_n, strict=True)
        ),
    )
    return verdict(
        title,
        good=max(map(abs, rest_n)) <= REST_MOST_N,
        found=phrase("Empty, it shows {shown}.", shown=shown),
        advice=phrase(
            "Take everything off the cells, then take zero of the empty rig."
        ),
        numbers={"rest_n": rest_n},
    )
