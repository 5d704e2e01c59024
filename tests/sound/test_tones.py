"""The tones, measured: pitch by Fourier, rhythm by envelope, edges by slope."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.sound.tones import RELEASE_S, Once, Steady, Synth

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy.typing as npt

RATE_HZ = 48_000.0


def rendered(
    act: Callable[[Synth], object], *, seconds: float = 2.0
) -> npt.NDArray[np.float32]:
    synth = Synth(RATE_HZ)
    act(synth)
    return synth.render(round(seconds * RATE_HZ))


def kept(steady: Steady) -> npt.NDArray[np.float32]:
    return rendered(lambda synth: synth.keep(steady))


def pitch_hz(wave: npt.NDArray[np.float32]) -> float:
    """Where most of the power is."""
    power = np.abs(np.fft.rfft(wave * np.hanning(len(wave)))) ** 2
    return float(np.fft.rfftfreq(len(wave), 1 / RATE_HZ)[np.argmax(power)])


def starts_s(wave: npt.NDArray[np.float32]) -> npt.NDArray[np.float64]:
    """When sound begins after at least 20 ms of silence."""
    loud = np.flatnonzero(wave != 0)
    first = np.concatenate(([True], np.diff(loud) > 0.02 * RATE_HZ))
    return loud[first] / RATE_HZ


@pytest.mark.parametrize(
    ("steady", "pitch", "a_second"),
    [(Steady.BELOW, 220.0, 2.0), (Steady.ABOVE, 880.0, 6.25)],
)
def test_below_is_slow_and_low_above_is_quick_and_high(
    steady: Steady, pitch: float, a_second: float
) -> None:
    wave = rendered(lambda synth: synth.keep(steady), seconds=4.0)
    assert pitch_hz(wave) == pytest.approx(pitch, abs=3)
    starts = starts_s(wave)
    assert len(starts) == pytest.approx(4 * a_second, abs=1)
    assert np.diff(starts) == pytest.approx(1 / a_second, abs=0.001)


def test_the_first_pulse_begins_at_once() -> None:
    for steady in Steady:
        wave = kept(steady)
        assert starts_s(wave)[0] < 0.0005, steady


def test_a_ceiling_is_like_nothing_else() -> None:
    """Two pitches in turn without a pause, louder than all others, and alone."""

    def struck_too(synth: Synth) -> None:
        synth.keep(Steady.CEILING)
        synth.strike(Once.CHIME)

    wave = rendered(struck_too)
    alone = rendered(lambda synth: synth.keep(Steady.CEILING))
    assert np.array_equal(wave, alone)
    tenth = round(0.1 * RATE_HZ)
    assert pitch_hz(wave[:tenth]) == pytest.approx(1320, abs=15)
    assert pitch_hz(wave[tenth : 2 * tenth]) == pytest.approx(880, abs=15)
    loudest = {one: np.abs(kept(one)).max() for one in Steady}
    assert max(loudest, key=lambda one: loudest[one]) is Steady.CEILING


def test_silence_is_exactly_nothing() -> None:
    assert not rendered(lambda _: None).any()
    wave = rendered(lambda synth: synth.keep(Steady.BELOW), seconds=0.5)
    assert not wave[round(0.17 * RATE_HZ) :].any()  # between two pulses


@pytest.mark.parametrize("once", Once)
def test_what_sounds_once_ends(once: Once) -> None:
    synth = Synth(RATE_HZ)
    synth.strike(once)
    wave = synth.render(round(RATE_HZ))
    assert wave.any()
    synth.render(round(RATE_HZ))
    assert synth.silent
    assert not synth.render(1000).any()


@pytest.mark.parametrize("asked", [*Steady, *Once])
def test_nothing_clicks(asked: Steady | Once) -> None:
    """From one sample to the next no more than the tone itself moves at its peak."""
    synth = Synth(RATE_HZ)
    if isinstance(asked, Steady):
        synth.keep(asked)
        top_hz, level = max(asked.value.pitches_hz), asked.value.level
    else:
        synth.strike(asked)
        top_hz = max(note.pitch_hz for note in asked.value)
        level = sum(note.level for note in asked.value)
    # Broken off in the middle of a pulse, too.
    wave = [synth.render(round(0.03 * RATE_HZ))]
    synth.keep(None)
    wave.append(synth.render(round(2 * RATE_HZ)))
    steps = np.abs(np.diff(np.concatenate(([0], *wave))))
    assert steps.max() <= level * 2 * np.pi * top_hz / RATE_HZ * 1.05


def test_a_tone_that_is_broken_off_dies_away_in_the_release() -> None:
    synth = Synth(RATE_HZ)
    synth.keep(Steady.BELOW)
    synth.render(round(0.05 * RATE_HZ))
    synth.keep(None)
    rest = synth.render(round(RATE_HZ))
    assert rest[: round(0.5 * RELEASE_S * RATE_HZ)].any()
    assert not rest[round(RELEASE_S * RATE_HZ) + 1 :].any()


def test_the_onset_stands_at_the_sample_that_was_asked_for() -> None:
    synth = Synth(RATE_HZ)
    assert not synth.render(12_345).any()
    synth.keep(Steady.ABOVE)
    wave = synth.render(2000)
    # The first sample of a sine is 0; the second is heard.
    assert (wave[0], wave[1] != 0) == (0.0, True)


ACTS = st.sampled_from([None, *Steady, *Once])


@settings(max_examples=50)
@given(
    acts=st.lists(st.tuples(st.integers(0, 9000), ACTS), max_size=8),
    cuts=st.lists(st.integers(1, 1500), min_size=1, max_size=30),
)
def test_buffers_do_not_matter(
    acts: list[tuple[int, Steady | Once | None]], cuts: list[int]
) -> None:
    """The same at the same samples, and never above full scale."""
    acts = sorted(acts, key=lambda act: act[0])

    def run(pieces: list[int]) -> npt.NDArray[np.float32]:
        synth = Synth(RATE_HZ)
        out: list[npt.NDArray[np.float32]] = []
        at = 0
        for due, act in acts:
            out.append(_render(synth, due - at, pieces))
            at = due
            if isinstance(act, Once):
                synth.strike(act)
            else:
                synth.keep(act)
        out.append(_render(synth, 10_000 - at, pieces))
        return np.concatenate(out)

    whole = run([100_000])
    assert np.allclose(run(cuts), whole, atol=1e-6)
    assert len(whole) == 10_000
    assert np.abs(whole).max() <= 1.0


def _render(synth: Synth, samples: int, pieces: list[int]) -> npt.NDArray[np.float32]:
    out = [np.zeros(0, np.float32)]
    turn = 0
    while samples > 0:
        some = min(samples, pieces[turn % len(pieces)])
        out.append(synth.render(some))
        samples -= some
        turn += 1
    return np.concatenate(out)


def test_volume() -> None:
    loud = rendered(lambda synth: synth.keep(Steady.BELOW))

    def quieter(synth: Synth) -> None:
        synth.keep(Steady.BELOW)
        synth.volume = 0.25

    assert rendered(quieter) == pytest.approx(loud / 4, abs=1e-6)
