"""The player: the one module that knows the audio library, and only when it plays.

The library calls `_fill` from a thread of its own. That must never wait, so what is
asked for crosses in a deque, whose ends are atomic, and the synth belongs to that
thread alone. sounddevice is an extra: the program runs without it.
"""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING, Protocol

from biofeedback.errors import UserError
from biofeedback.sound.tones import Once, Steady, Synth

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    from biofeedback.sound.choice import Heard

RATE_HZ = 48_000.0
"""What nearly every sound device runs at by itself."""
NOT_INSTALLED = (
    "The part of the program for sound is not installed.",
    "Install it with: pip install 'biofeedback[sound]'",
)
NO_LIBRARY = (
    "The system's sound library PortAudio is missing.",
    "On Debian and Ubuntu install the package libportaudio2.",
)
NO_DEVICE = "There is no sound device, or it is busy."
NO_DEVICE_STEP = "Plug in loudspeaker or headphones, then switch sound on again."


class Stream(Protocol):
    """An open output."""

    def start(self) -> None:
        """Begins to play."""

    def stop(self) -> None:
        """Plays what there is and stops."""

    def close(self) -> None:
        """Lets go of the device."""


class Player:
    """Plays what is heard.

    Raises:
        UserError: (`open`) there is no library or no device; says what to do.
    """

    def __init__(self) -> None:
        self._synth = Synth(RATE_HZ)
        self._asked: deque[Steady | Once | float | None] = deque()
        self._stream: Stream | None = None
        self._steady: Steady | None = None

    @property
    def playing(self) -> bool:
        """Whether the device is open."""
        return self._stream is not None

    def open(self) -> None:
        """Opens the device that the system plays on."""
        if self._stream is not None:
            return
        try:
            import sounddevice  # noqa: PLC0415  an extra, loaded when it is wanted
        except ImportError as error:
            raise UserError(*NOT_INSTALLED) from error
        except OSError as error:  # its own library is missing
            raise UserError(*NO_LIBRARY) from error
        try:
            stream: Stream = sounddevice.OutputStream(
                samplerate=RATE_HZ,
                channels=1,
                dtype="float32",
                latency="low",
                callback=self._fill,
            )
            stream.start()
        except (sounddevice.PortAudioError, ValueError) as error:
            raise UserError(f"{NO_DEVICE} ({error})", NO_DEVICE_STEP) from error
        self._stream = stream

    def hear(self, heard: Heard) -> None:
        """What is to sound from now on; does nothing while the device is shut."""
        if self._stream is None:
            return
        if heard.steady is not self._steady:
            self._steady = heard.steady
            self._asked.append(heard.steady)
        self._asked.extend(heard.once)

    def set_volume(self, share: float) -> None:
        """From 0 to 1."""
        self._asked.append(min(1.0, max(0.0, float(share))))

    def close(self) -> None:
        """Lets go of the device; safe to call twice."""
        stream, self._stream = self._stream, None
        self._steady = None
        if stream is not None:
            stream.stop()
            stream.close()
        self._asked.clear()
        self._synth.keep(None)

    def render(self, samples: int) -> npt.NDArray[np.float32]:
        """The next samples, after what was asked for up to now."""
        while self._asked:
            asked = self._asked.popleft()
            if isinstance(asked, Once):
                self._synth.strike(asked)
            elif isinstance(asked, float):
                self._synth.volume = asked
            else:
                self._synth.keep(asked)
        return self._synth.render(samples)

    def _fill(
        self,
        out: npt.NDArray[np.float32],
        frames: int,
        _time: object,
        _status: object,
    ) -> None:
        """Called by the library's thread: must not wait, log or raise."""
        out[:, 0] = self.render(frames)
