"""The tones: which there are and what they sound like, as samples.

Pure. Rules that hold here:

* Silence is exactly zero. No tone begins, ends, is broken off or changes its loudness
  with a step, so that nothing clicks.
* What is rendered depends on what was asked for at which sample, and not on how the
  stream is cut into buffers: every wave is worked out once, and then only read.
* Nothing is louder than full scale, whatever sounds at once. A ceiling warning sounds
  alone.
* A train of pulses is never quicker than its own rhythm, however the force flutters at
  the edge of the band.

Pitches and rhythms are ours (common practice, no source), chosen so that two octaves
and a rhythm three times as quick lie between too little and too much: each of the two
is enough to tell them apart, which serves who hears one pitch badly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

ATTACK_S = 0.005
"""From nothing to full. Shorter is heard as a click, longer puts the tone off (common
practice, no source)."""
RELEASE_S = 0.02
"""From full to nothing; also how a tone that is broken off dies away, and how long a
change of the volume takes: four times the attack, as a fall is heard less sharply
(common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Pulses:
    """A train of pulses that goes on until something else is asked for.

    Attributes:
        pitches_hz: of the pulses in turn; 0 is a pause.
        period_s: from the start of one pulse to the next.
        length_s: of a pulse, attack and release included.
        level: the most it reaches; 1 is full scale.
        overtones: level of the second, third ... harmonic, where the first has 1.
    """

    pitches_hz: tuple[float, ...]
    period_s: float
    length_s: float
    level: float
    overtones: tuple[float, ...] = ()


class Steady(Enum):
    """What sounds as long as something lasts.

    `BELOW`: two a second, slow enough to be counted. Its overtones are for small
    loudspeakers, which hardly give 220 Hz; the ear hears the pitch from them alone.
    Its level is above that of `ABOVE`, for the ear is less sensitive to low tones (the
    equal-loudness contours of ISO 226; how much so depends on loudness, from memory).

    `UNEVEN`: quiet and in pairs, so that it is neither more nor less: in the band, and
    only the sides differ.

    `CEILING`: two high pitches in turn without a pause, and the loudest of all.

    `LOST`: two short equal pulses of a middle pitch, then silence until two seconds
    are over. No other sound is as rare, so it is not taken for one that tells of the
    force; and silence alone would be taken for a force in the band.
    """

    BELOW = Pulses((220.0,), 0.5, 0.16, level=0.4, overtones=(0.5, 0.25))
    ABOVE = Pulses((880.0,), 0.16, 0.08, level=0.3)
    UNEVEN = Pulses((440.0, 440.0, 0.0), 0.2, 0.1, level=0.2)
    CEILING = Pulses((1320.0, 880.0), 0.1, 0.1, level=0.6)
    LOST = Pulses((587.3, 587.3, *6 * (0.0,)), 0.25, 0.08, level=0.25)


@dataclass(frozen=True, slots=True)
class Note:
    """One note of a signal that sounds once: pitch, start, length, level."""

    pitch_hz: float
    start_s: float
    length_s: float
    level: float


class Once(Enum):
    """What sounds a single time.

    A tick is short and dry, and what follows three of them is longer. Good ends rise
    (`CHIME`: a fifth up; `SET_DONE`: a major triad), an end that was called falls
    (`STOPPED`: a fifth down). Equal temperament, A = 440 Hz (ISO 16).
    """

    TICK = (Note(1000.0, 0.0, 0.04, 0.3),)
    GO = (Note(1318.5, 0.0, 0.12, 0.3),)
    CHIME = (Note(659.3, 0.0, 0.25, 0.35), Note(987.8, 0.18, 0.6, 0.35))
    SET_DONE = (
        Note(523.3, 0.0, 0.2, 0.3),
        Note(659.3, 0.15, 0.2, 0.3),
        Note(784.0, 0.3, 0.7, 0.3),
    )
    STOPPED = (Note(392.0, 0.0, 0.25, 0.35), Note(261.6, 0.2, 0.5, 0.35))


@dataclass(frozen=True, slots=True, eq=False)
class _Wave:
    """Something that sounds.

    Attributes:
        samples: of one turn of a train of pulses, or all of what sounds once.
        start: number of its first sample.
        again: whether it begins anew at its end.
        left: number of the sample from which it dies away, or None.
    """

    samples: Floats
    start: int
    again: bool
    left: int | None = None

    def over(self, at: int, fade: int) -> bool:
        """Whether nothing of it is to come from sample `at` on."""
        if self.again:
            return False
        end = self.start + len(self.samples)
        return at >= (end if self.left is None else min(end, self.left + fade))

    def add_to(self, out: Floats, at: Floats, fade: int) -> None:
        """Adds itself to what sounds at the samples numbered `at`."""
        number = at.astype(np.int64) - self.start
        sounding = number >= 0
        if self.again:
            number %= len(self.samples)
        else:
            sounding &= number < len(self.samples)
        heard = np.where(
            sounding, self.samples[np.clip(number, 0, len(self.samples) - 1)], 0.0
        )
        if self.left is not None:
            heard *= np.clip(1 - (at - self.left) / fade, 0, 1)
        out += heard


class Synth:
    """Renders what is asked for, sample by sample.

    Args:
        rate_hz: samples a second.
        volume: from 0 to 1, to begin with.
    """

    def __init__(self, rate_hz: float, *, volume: float = 1.0) -> None:
        self._fade = max(1, round(RELEASE_S * rate_hz))
        self._turns = {one: _turn(one.value, rate_hz) for one in Steady}
        self._notes = {one: _notes(one, rate_hz) for one in Once}
        self._period = {one: round(one.value.period_s * rate_hz) for one in Steady}
        self._at = 0  # number of the next sample
        self._kept: Steady | None = None
        self._steady: _Wave | None = None
        self._pulsed: dict[Steady, int] = {}  # sample at which its last pulse began
        self._leaving: list[_Wave] = []
        self._once: list[_Wave] = []
        self._volume = (volume, volume, 0)  # from, to, since which sample

    @property
    def silent(self) -> bool:
        """Whether nothing sounds any more."""
        return self._kept is None and not self._leaving and not self._once

    def keep(self, steady: Steady | None) -> None:
        """Lets a steady sound go on from the next sample; None ends it.

        A train of pulses that was broken off begins anew when its next pulse would
        have come at the soonest; a ceiling warning begins at once.
        """
        if steady is self._kept:
            return
        if self._kept is not None and self._steady is not None:
            self._break_off(self._kept, self._steady)
        self._kept, self._steady = steady, None
        if steady is None:
            return
        start = self._at
        if steady in self._pulsed and steady is not Steady.CEILING:
            start = max(start, self._pulsed[steady] + self._period[steady])
        self._steady = _Wave(self._turns[steady], start, again=True)
        if steady is Steady.CEILING:
            for wave in self._once:
                self._leave(wave)
            self._once = []

    def _break_off(self, steady: Steady, wave: _Wave) -> None:
        """Lets the pulse under way die away; the next of its train does not begin."""
        gone = self._at - wave.start
        if gone <= 0:
            return  # its first pulse had not begun
        period = self._period[steady]
        begun = (gone - 1) // period * period
        turn = begun % len(wave.samples)
        self._pulsed[steady] = start = wave.start + begun
        self._leave(_Wave(wave.samples[turn : turn + period], start, again=False))

    def _leave(self, wave: _Wave) -> None:
        self._leaving.append(_Wave(wave.samples, wave.start, wave.again, self._at))

    def strike(self, once: Once) -> None:
        """Sounds once, from the next sample; not while a ceiling warning sounds."""
        if self._kept is not Steady.CEILING:
            self._once.append(_Wave(self._notes[once], self._at, again=False))

    def set_volume(self, share: float) -> None:
        """From 0 to 1; reached after `RELEASE_S`."""
        now = float(self._gain(np.array([float(self._at)]))[0])
        self._volume = (now, share, self._at)

    def _gain(self, at: Floats) -> Floats:
        before, after, since = self._volume
        gain: Floats = before + (after - before) * np.clip(
            (at - since) / self._fade, 0, 1
        )
        return gain

    def render(self, samples: int) -> npt.NDArray[np.float32]:
        """The next samples, from −1 to 1."""
        if self.silent:
            self._at += samples
            return np.zeros(samples, np.float32)
        at = np.arange(self._at, self._at + samples, dtype=np.float64)
        out = np.zeros(samples)
        for wave in (*self._leaving, *self._once):
            wave.add_to(out, at, self._fade)
        if self._steady is not None:
            self._steady.add_to(out, at, self._fade)
        self._at += samples
        for waves in (self._leaving, self._once):
            waves[:] = [one for one in waves if not one.over(self._at, self._fade)]
        return np.clip(self._gain(at) * out, -1, 1).astype(np.float32)


def _turn(pulses: Pulses, rate_hz: float) -> Floats:
    """One turn of a train: each of its pitches once."""
    period = round(pulses.period_s * rate_hz)
    time_s = np.arange(period) / rate_hz
    shape = pulses.level * _envelope(time_s, pulses.length_s)
    return np.concatenate(
        [shape * _tone(hz, time_s, pulses.overtones) for hz in pulses.pitches_hz]
    )


def _tone(pitch_hz: float, time_s: Floats, overtones: tuple[float, ...]) -> Floats:
    """A pitch with its overtones, at most 1."""
    shares = (1.0, *overtones)
    wave = np.zeros(len(time_s))
    for number, share in enumerate(shares, start=1):
        wave += share * np.sin(2 * math.pi * number * pitch_hz * time_s)
    return wave / sum(shares)


def _envelope(time_s: Floats, length_s: float) -> Floats:
    """Up, on, and down again; nothing outside. Cosine edges: no step in the slope."""
    rise = np.clip(time_s / ATTACK_S, 0, 1)
    fall = np.clip((length_s - time_s) / RELEASE_S, 0, 1)
    shaped: Floats = (1 - np.cos(math.pi * rise)) * (1 - np.cos(math.pi * fall)) / 4
    return shaped


def _notes(once: Once, rate_hz: float) -> Floats:
    """All of a signal that sounds once; each note dies away like a bell."""
    starts = [round(note.start_s * rate_hz) for note in once.value]
    lengths = [math.ceil(note.length_s * rate_hz) for note in once.value]
    out = np.zeros(max(map(sum, zip(starts, lengths, strict=True))))
    for note, start, length in zip(once.value, starts, lengths, strict=True):
        time_s = np.arange(length) / rate_hz
        dying = np.exp(-3 * time_s / note.length_s)  # to 5 % at its end
        shape = note.level * dying * _envelope(time_s, note.length_s)
        out[start : start + length] += shape * _tone(note.pitch_hz, time_s, ())
    return out
