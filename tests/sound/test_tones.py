"""The tones, measured: pitch by Fourier, rhythm by envelope, edges by slope."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.sound.tones import ATTACK_S, RELEASE_S, Once, Steady, Synth

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy.typing as npt

RATE_HZ = 48_000.0
FADE = round(RELEASE_S * RATE_HZ)


def rendered(
    act: Callable[[Synth], object], *, seconds: float = 2.0
) -> npt.NDArray[np.float32]:
    synth = Synth(RATE_HZ)
    act(synth)
    return synth.render(round(seconds * RATE_HZ))


def kept(steady: Steady, *, seconds: float = 2.0) -> npt.NDArray[np.float32]:
    return rendered(lambda synth: synth.keep(steady), seconds=seconds)


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
    assert len(starts) == 4 * a_second
    assert np.diff(starts) == pytest.approx(1 / a_second, abs=0.001)


def test_the_first_pulse_begins_at_once() -> None:
    for steady in Steady:
        wave = kept(steady)
        assert starts_s(wave)[0] < 0.0005, steady


def test_in_the_band_and_out_of_balance_is_quiet_and_in_pairs() -> None:
    wave = rendered(lambda synth: synth.keep(Steady.UNEVEN), seconds=6.0)
    assert pitch_hz(wave) == pytest.approx(440, abs=3)
    gaps_s = np.diff(starts_s(wave))
    assert gaps_s[:4] == pytest.approx([0.2, 0.4, 0.2, 0.4], abs=0.001)
    assert np.abs(wave).max() < min(
        np.abs(kept(one)).max() for one in Steady if one is not Steady.UNEVEN
    )


def test_a_lost_signal_is_two_equal_pulses_each_two_seconds() -> None:
    wave = kept(Steady.LOST, seconds=6.0)
    starts = starts_s(wave)
    assert starts == pytest.approx([0, 0.25, 2, 2.25, 4, 4.25], abs=0.001)
    pulse = round(0.08 * RATE_HZ)
    first, second = (
        wave[round(at * RATE_HZ) : round(at * RATE_HZ) + pulse] for at in starts[:2]
    )
    assert np.array_equal(first, second)
    assert pitch_hz(wave) == pytest.approx(587.3, abs=3)
    silent = (wave == 0).mean()
    assert silent > 0.9


def test_a_lost_signal_is_not_taken_for_another_sound() -> None:
    """Against each other: half an octave of pitch, or a rhythm four times as quick."""
    lost = kept(Steady.LOST, seconds=6.0)
    for other in Steady:
        if other is Steady.LOST:
            continue
        wave = kept(other, seconds=6.0)
        apart = abs(np.log2(pitch_hz(wave) / pitch_hz(lost)))
        rate = (wave != 0).mean() / (lost != 0).mean()
        assert apart > 0.4, other
        assert rate > 4, other


def test_a_ceiling_is_like_nothing_else() -> None:
    """Two pitches in turn, never silent for long, louder than all others."""
    wave = kept(Steady.CEILING)
    tenth = round(0.1 * RATE_HZ)
    assert pitch_hz(wave[:tenth]) == pytest.approx(1320, abs=15)
    assert pitch_hz(wave[tenth : 2 * tenth]) == pytest.approx(880, abs=15)
    assert len(starts_s(wave)) == 1
    loudest: dict[Steady | Once, float] = {
        one: np.abs(kept(one)).max() for one in Steady
    }
    for once in Once:
        loudest[once] = np.abs(rendered(lambda synth: synth.strike(once))).max()  # noqa: B023  called at once
    assert max(loudest, key=lambda one: loudest[one]) is Steady.CEILING
    second = sorted(loudest.values())[-2]
    assert loudest[Steady.CEILING] > 1.4 * second  # 3 dB


def test_a_ceiling_sounds_alone() -> None:
    def struck_too(synth: Synth) -> None:
        synth.keep(Steady.CEILING)
        synth.strike(Once.CHIME)

    assert np.array_equal(rendered(struck_too), kept(Steady.CEILING))

    def struck_before(synth: Synth) -> None:
        synth.strike(Once.CHIME)
        synth.render(FADE)
        synth.keep(Steady.CEILING)

    after = rendered(struck_before)[FADE:]
    assert np.array_equal(after, kept(Steady.CEILING)[FADE:])


def test_however_the_force_flutters_the_rhythm_is_never_quicker() -> None:
    """In and out of the band ten times a second, at odd moments."""
    for steady in (Steady.BELOW, Steady.ABOVE, Steady.UNEVEN):
        synth = Synth(RATE_HZ)
        out = []
        for turn in range(80):
            synth.keep(steady if turn % 2 else None)
            out.append(synth.render(1201 + 311 * (turn % 7)))
        starts = starts_s(np.concatenate(out))
        assert len(starts) > 5, steady
        # A pulse that is broken off and goes on within it is one pulse.
        assert np.diff(starts).min() >= steady.value.period_s - 0.001, steady


def test_once_over_for_a_period_the_next_pulse_comes_at_once() -> None:
    synth = Synth(RATE_HZ)
    synth.keep(Steady.BELOW)
    synth.render(2000)
    synth.keep(None)
    synth.render(round(0.5 * RATE_HZ))
    synth.keep(Steady.BELOW)
    assert synth.render(10)[1] != 0


def test_another_kind_does_not_wait_for_the_first() -> None:
    for before, after in (
        (Steady.BELOW, Steady.ABOVE),
        (Steady.ABOVE, Steady.BELOW),
        (Steady.CEILING, Steady.CEILING),
    ):
        synth = Synth(RATE_HZ)
        synth.keep(before)
        synth.render(500)
        synth.keep(None)
        synth.render(FADE)
        synth.keep(after)
        assert synth.render(10)[1] != 0, after


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


def steepest(asked: Steady | Once) -> float:
    """The most a tone moves from one sample to the next by its own pitch."""
    if isinstance(asked, Steady):
        shares = np.array([1.0, *asked.value.overtones])
        pitch = max(asked.value.pitches_hz)
        slope = asked.value.level * float(
            (shares * np.arange(1, len(shares) + 1)).sum() / shares.sum()
        )
    else:
        pitch = max(note.pitch_hz for note in asked.value)
        slope = sum(note.level for note in asked.value)
    return 2 * np.pi * pitch / RATE_HZ * slope


@pytest.mark.parametrize("asked", [*Steady, *Once])
def test_nothing_clicks(asked: Steady | Once) -> None:
    """Broken off in the middle of a pulse, too."""
    synth = Synth(RATE_HZ)
    if isinstance(asked, Steady):
        synth.keep(asked)
    else:
        synth.strike(asked)
    wave = [synth.render(round(0.03 * RATE_HZ))]
    synth.keep(None)
    wave.append(synth.render(round(2 * RATE_HZ)))
    steps = np.abs(np.diff(np.concatenate(([0], *wave))))
    assert steps.max() <= steepest(asked) * 1.05


@pytest.mark.parametrize("asked", [*Steady, *Once])
def test_tones_swell_and_die_away(asked: Steady | Once) -> None:
    """A sine that begins at 0 with its full slope clicks, too."""
    if isinstance(asked, Steady):
        wave, level, first_s = kept(asked), asked.value.level, asked.value.length_s
    else:
        wave = rendered(lambda synth: synth.strike(asked))
        level = asked.value[0].level
        first_s = asked.value[0].length_s
    quarter = round(ATTACK_S / 4 * RATE_HZ)
    assert 0 < np.abs(wave[:quarter]).max() < 0.15 * level
    if isinstance(asked, Steady) or len(asked.value) == 1:
        end = round(first_s * RATE_HZ)
        last = wave[end - round(RELEASE_S / 4 * RATE_HZ) : end]
        assert 0 < np.abs(last).max() < 0.15 * level


@pytest.mark.parametrize("cut", [2400, 2437, 5000, 9001])
def test_a_ceiling_that_breaks_into_a_chime_does_not_click(cut: int) -> None:
    """What is heard beside the warning is the chime, and that dies away."""
    synth = Synth(RATE_HZ)
    synth.strike(Once.CHIME)
    before = synth.render(cut)
    synth.keep(Steady.CEILING)
    beside = synth.render(2 * FADE) - kept(Steady.CEILING)[: 2 * FADE]
    chime = rendered(lambda synth: synth.strike(Once.CHIME))
    steps = np.abs(np.diff(np.concatenate((before[-100:], beside))))
    assert beside[: FADE // 2].any()
    assert steps.max() <= 1.1 * np.abs(np.diff(chime[cut - 100 : cut + FADE])).max()


def test_a_pulse_that_was_about_to_begin_does_not() -> None:
    for steady in (Steady.BELOW, Steady.ABOVE):
        synth = Synth(RATE_HZ)
        synth.keep(steady)
        synth.render(round(steady.value.period_s * RATE_HZ) - FADE // 2)
        synth.keep(None)
        assert not synth.render(2 * FADE).any(), steady


def test_a_change_of_the_volume_does_not_click() -> None:
    for at in range(2400, 2600, 37):
        synth = Synth(RATE_HZ)
        synth.keep(Steady.BELOW)
        wave = [synth.render(at)]
        for volume in (0.1, 0.9, 0.0):  # as a slider does, before the last is reached
            synth.set_volume(volume)
            wave.append(synth.render(300))
        steps = np.abs(np.diff(np.concatenate(wave)))
        assert steps.max() <= 1.1 * steepest(Steady.BELOW), at


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


ACTS = st.sampled_from([None, *Steady, *Once, 0.0, 0.3, 1.0])


@settings(max_examples=50)
@given(
    acts=st.lists(st.tuples(st.integers(0, 28_000), ACTS), max_size=12),
    cuts=st.lists(st.integers(1, 1500), min_size=4, max_size=30),
    rate_hz=st.sampled_from([RATE_HZ, 44_100.0]),
)
def test_buffers_do_not_matter(
    acts: list[tuple[int, Steady | Once | float | None]],
    cuts: list[int],
    rate_hz: float,
) -> None:
    """The same at the same samples, and never above full scale."""
    acts = sorted(acts, key=lambda act: act[0])

    def run(pieces: list[int]) -> npt.NDArray[np.float32]:
        synth = Synth(rate_hz)
        out: list[npt.NDArray[np.float32]] = []
        at = 0
        for due, act in acts:
            out.append(_render(synth, due - at, pieces))
            at = due
            if isinstance(act, Once):
                synth.strike(act)
            elif isinstance(act, float):
                synth.set_volume(act)
            else:
                synth.keep(act)
        out.append(_render(synth, 30_000 - at, pieces))
        return np.concatenate(out)

    whole = run([100_000])
    assert np.array_equal(run(cuts), whole)
    assert len(whole) == 30_000
    assert np.abs(whole).max() <= 1.0


def test_never_above_full_scale_when_all_sounds_at_once() -> None:
    synth = Synth(RATE_HZ)
    for _ in range(20):
        for once in Once:
            synth.strike(once)
    synth.keep(Steady.ABOVE)
    wave = synth.render(round(RATE_HZ))
    assert np.abs(wave).max() == 1.0


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
    quieter = Synth(RATE_HZ, volume=0.25)
    quieter.keep(Steady.BELOW)
    loud = kept(Steady.BELOW)
    assert quieter.render(len(loud)) == pytest.approx(loud / 4, abs=1e-6)
    quieter.set_volume(0.0)
    quieter.render(FADE)
    assert not quieter.render(len(loud)).any()
