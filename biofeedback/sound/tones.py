"""The tones: which there are and what they sound like, as samples.

Pure. Rules that hold here:

* Silence is exactly zero. No tone begins or ends with a step: each has an attack and a
  release, so that nothing clicks.
* What is rendered depends on what was asked for at which sample, not on how the
  stream is cut into buffers.
* Nothing is louder than full scale, whatever sounds at once; a ceiling warning sounds
  alone.

Frequencies and pulse rates are ours (common practice, no source). They lie where
hearing is good and small loudspeakers are not yet poor, far enough apart to be told
from one another by rhythm alone, which serves who hears one pitch badly.
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
RELEASE_S = 0.02
"""From full to nothing; also how a tone that is broken off dies away."""


@dataclass(frozen=True, slots=True)
class Pulses:
    """A train of pulses that goes on until something else is asked for.

    Attributes:
        pitches_hz: of the pulses in turn.
        period_s: from the start of one pulse to the next.
        length_s: of a pulse, attack and release included.
        level: 1 is full scale.
    """

    pitches_hz: tuple[float, ...]
    period_s: float
    length_s: float
    level: float


class Steady(Enum):
    """What sounds as long as something lasts."""

    BELOW = Pulses((220.0,), period_s=0.5, length_s=0.16, level=0.4)
    ABOVE = Pulses((880.0,), period_s=0.16, length_s=0.08, level=0.3)
    UNEVEN = Pulses((440.0, 440.0, 0.0), period_s=0.2, length_s=0.1, level=0.25)
    CEILING = Pulses((1320.0, 880.0), period_s=0.1, length_s=0.1, level=0.6)


@dataclass(frozen=True, slots=True)
class Note:
    """One note of a signal that sounds once: pitch, start, length, level."""

    pitch_hz: float
    start_s: float
    length_s: float
    level: float


class Once(Enum):
    """What sounds a single time."""

    TICK = (Note(1000.0, 0.0, 0.04, 0.3),)
    GO = (Note(1320.0, 0.0, 0.12, 0.3),)
    CHIME = (Note(659.3, 0.0, 0.25, 0.35), Note(987.8, 0.18, 0.6, 0.35))
    SET_DONE = (
        Note(523.3, 0.0, 0.2, 0.3),
        Note(659.3, 0.15, 0.2, 0.3),
        Note(784.0, 0.3, 0.7, 0.3),
    )
    STOPPED = (Note(392.0, 0.0, 0.25, 0.35), Note(261.6, 0.2, 0.5, 0.35))


class Synth:
    """Renders what is asked for, sample by sample.

    Args:
        rate_hz: samples a second.
    """

    def __init__(self, rate_hz: float) -> None:
        self._rate_hz = rate_hz
        self._at = 0  # number of the next sample
        self._steady: Steady | None = None
        self._since = 0  # sample at which the steady sound began
        # What was broken off, since when it sounded, and when it was.
        self._leaving: list[tuple[Steady, int, int]] = []
        self._once: list[tuple[Floats, int]] = []
        self.volume = 1.0

    @property
    def silent(self) -> bool:
        """Whether nothing sounds any more."""
        return self._steady is None and not self._leaving and not self._once

    def keep(self, steady: Steady | None) -> None:
        """Lets a steady sound go on from the next sample; None ends it."""
        if steady is self._steady:
            return
        if self._steady is not None:
            self._leaving.append((self._steady, self._since, self._at))
        self._steady, self._since = steady, self._at

    def strike(self, once: Once) -> None:
        """Sounds once, from the next sample."""
        self._once.append((_notes(once, self._rate_hz), self._at))

    def render(self, samples: int) -> npt.NDArray[np.float32]:
        """The next samples, from −1 to 1."""
        at = np.arange(self._at, self._at + samples)
        if self.silent:
            self._at += samples
            return np.zeros(samples, np.float32)
        out = np.zeros(samples)
        if self._steady is not None:
            out += _pulses(self._steady.value, (at - self._since) / self._rate_hz)
        for steady, since, left in self._leaving:
            fading = np.clip(1 - (at - left) / (RELEASE_S * self._rate_hz), 0, 1)
            out += fading * _pulses(steady.value, (at - since) / self._rate_hz)
        if self._steady is not Steady.CEILING:
            for wave, start in self._once:
                _add(out, wave, start - self._at)
        self._at += samples
        self._forget()
        return np.clip(self.volume * out, -1, 1).astype(np.float32)

    def _forget(self) -> None:
        gone = self._at - RELEASE_S * self._rate_hz
        self._leaving = [one for one in self._leaving if one[2] > gone]
        self._once = [
            (wave, start) for wave, start in self._once if start + len(wave) > self._at
        ]


def _add(out: Floats, wave: Floats, start: int) -> None:
    """Adds a wave that begins at sample `start` of `out`, which may be before it."""
    first, last = max(0, start), min(len(out), start + len(wave))
    if last > first:
        out[first:last] += wave[first - start : last - start]


def _pulses(pulses: Pulses, time_s: Floats) -> Floats:
    """A train of pulses, `time_s` after its beginning."""
    turn = np.floor(time_s / pulses.period_s)
    within_s = time_s - turn * pulses.period_s
    pitches = np.array(pulses.pitches_hz)
    pitch_hz = pitches[turn.astype(np.int64) % len(pitches)]
    wave = np.sin(2 * math.pi * pitch_hz * within_s)
    shaped: Floats = pulses.level * _envelope(within_s, pulses.length_s) * wave
    return shaped


def _envelope(time_s: Floats, length_s: float) -> Floats:
    """Up, on, and down again; nothing outside. Cosine edges: no step in the slope."""
    rise = np.clip(time_s / ATTACK_S, 0, 1)
    fall = np.clip((length_s - time_s) / RELEASE_S, 0, 1)
    shaped: Floats = (1 - np.cos(math.pi * rise)) * (1 - np.cos(math.pi * fall)) / 4
    return shaped


def _notes(once: Once, rate_hz: float) -> Floats:
    """All of a signal that sounds once; each note dies away like a bell."""
    ends_s = max(note.start_s + note.length_s for note in once.value)
    out = np.zeros(math.ceil(ends_s * rate_hz))
    for note in once.value:
        time_s = np.arange(math.ceil(note.length_s * rate_hz)) / rate_hz
        dying = np.exp(-3 * time_s / note.length_s)
        wave = np.sin(2 * math.pi * note.pitch_hz * time_s)
        shaped = note.level * dying * _envelope(time_s, note.length_s) * wave
        _add(out, shaped, round(note.start_s * rate_hz))
    return out
