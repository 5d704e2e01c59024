"""The player, and the one module that knows the audio library; loaded when it plays.

The library asks for samples from a thread of its own, which must never wait, log or
raise. So what is asked for crosses in a deque, whose ends are atomic; the synth belongs
to that thread alone; and what comes back is one number that only it writes. Stopping is
asked for, waited for and checked. sounddevice is an extra: the program runs without it.
"""

from __future__ import annotations

import sys
import threading
from collections import deque
from typing import TYPE_CHECKING, Any

from biofeedback.errors import UserError
from biofeedback.missing_package import install_with
from biofeedback.phrase import Phrase, marked, phrase
from biofeedback.sound.tones import RELEASE_S, Once, Steady, Synth

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy as np
    import numpy.typing as npt

    from biofeedback.sound.choice import Heard
    from biofeedback.sound.speaker import Fill, Samples, Speaker

NOT_INSTALLED = (
    phrase("The part of the program for sound is not installed."),
    install_with("'biofeedback[sound]'"),
)
NO_LIBRARY = (
    phrase("The system's sound library PortAudio is missing."),
    phrase("On Debian and Ubuntu install the package libportaudio2."),
)
NO_DEVICE = (
    phrase("There is no sound device."),
    phrase("Plug in loudspeaker or headphones, then switch sound on again."),
)
BUSY = marked("The sound device cannot be opened: {error}.")
BUSY_STEP = phrase(
    "Another program may hold it; close that, then switch sound on again."
)
STOPPED = (
    phrase("The sound device has stopped."),
    phrase("Look at its plug, then switch sound on again."),
)

STALE_AFTER_S = 0.5
"""With no frame for this long a steady sound ends, as the screen then shows no force: a
window that hangs or has failed must not go on telling of a force long gone. Counted in
samples that were played, for the device's thread has no other clock."""
LOST_AFTER_FRAMES = 120
"""With no buffer asked for in so many frames of the window (2 s at 60 Hz) the device is
taken for lost. A device may take most of a second to begin (from memory)."""
LATENCY_S = 0.03
"""Asked of the device where it would do with less: two frames of the window. Samples
are made in Python beside the window's own work, and a pulse that comes 20 ms later is
heard as the same, while one with a hole in it is not."""
CLOSE_WAIT_S = 0.5
"""For the last buffers: several times the longest latency that is asked for."""


class Player:
    """Plays what is heard.

    Args:
        speaker: what takes the samples; the system's device unless told otherwise.
        stale_s: after how long without a frame a steady sound ends.
    """

    def __init__(
        self, speaker: Speaker | None = None, *, stale_s: float = STALE_AFTER_S
    ) -> None:
        self._speaker = speaker or DeviceSpeaker()
        self._stale_s = stale_s
        self._asked: deque[Steady | Once | float | None] = deque()
        self._open = False
        self._volume = 1.0
        self._unfilled = 0  # frames since a buffer was last asked for
        self._filled_before = 0
        # Written by the speaker's thread alone.
        self._filled = 0
        # Read by the speaker's thread.
        self._ending = False
        self._frames = 0

    @property
    def playing(self) -> bool:
        """Whether the device is open."""
        return self._open

    @property
    def lost(self) -> bool:
        """Whether the device stopped by itself; `close` it then."""
        waited = self._unfilled >= LOST_AFTER_FRAMES
        return self._open and (self._speaker.lost or waited)

    def open(self) -> None:
        """Opens the device that the system plays on.

        Raises:
            UserError: there is no library or no device; says what to do.
        """
        if self._open:
            return
        self._asked.clear()
        self._ending = False
        self._unfilled = self._filled = self._filled_before = 0
        self._speaker.open(self._voice)
        self._open = True

    def hear(self, heard: Heard) -> None:
        """What is to sound from now on, once a frame; nothing while it is shut."""
        if not self._open:
            return
        self._frames += 1
        filled = self._filled
        self._unfilled = 0 if filled != self._filled_before else self._unfilled + 1
        self._filled_before = filled
        self._asked.append(heard.steady)
        self._asked.extend(heard.once)

    def strike(self, once: Once) -> None:
        """Sounds once beside what is heard, to try how loud it is."""
        if self._open:
            self._asked.append(once)

    def set_volume(self, share: float) -> None:
        """From 0 to 1; loudness follows its square (common practice, no source)."""
        self._volume = min(1.0, max(0.0, float(share))) ** 2
        if self._open:
            self._asked.append(self._volume)

    def close(self) -> None:
        """Lets what sounds die away, then lets go; safe to call twice."""
        if not self._open:
            return
        self._open = False
        self._asked.append(0.0)
        self._ending = True
        self._speaker.close()

    def _voice(self, rate_hz: float) -> Fill:
        """Whom the speaker asks, from its own thread; a new synth for each opening."""
        synth = Synth(rate_hz, volume=self._volume)
        fading = round(RELEASE_S * rate_hz)
        wanted: Steady | None = None
        frames, age = self._frames, 0

        def fill(samples: int) -> Samples | None:
            nonlocal fading, wanted, frames, age
            if self._ending:
                if fading <= 0:
                    return None
                fading -= samples
            self._filled += 1
            asked = self._asked
            while asked:
                wish = asked.popleft()
                if isinstance(wish, Once):
                    synth.strike(wish)
                elif isinstance(wish, float):
                    synth.set_volume(wish)
                else:
                    wanted = wish
                    synth.keep(wish)
            seen = self._frames
            frames, age = seen, 0 if seen != frames else age + samples
            synth.keep(wanted if age <= self._stale_s * rate_hz else None)
            return synth.render(samples)

        return fill


class DeviceSpeaker:
    """The system's sound device.

    Attributes:
        underflows: how often a buffer came too late; written by the device's thread.
    """

    def __init__(self) -> None:
        self.underflows = 0
        self._stream: Any = None  # the library has no types
        self._finished = threading.Event()

    @property
    def lost(self) -> bool:
        """See `Speaker`."""
        return self._stream is not None and self._finished.is_set()

    def open(self, fill: Callable[[float], Fill]) -> None:
        """See `Speaker`."""
        library = _library()
        self._finished.clear()
        self.underflows = 0
        try:
            device = library.query_devices(kind="output")
        except (library.PortAudioError, ValueError) as error:
            raise UserError(*NO_DEVICE) from error
        stream = None
        try:
            rate_hz = float(device["default_samplerate"])
            stream = library.OutputStream(
                samplerate=rate_hz,
                channels=1,
                dtype="float32",
                latency=max(LATENCY_S, device["default_low_output_latency"]),
                callback=self._asking(fill(rate_hz), library.CallbackStop),
                finished_callback=self._finished.set,
            )
            stream.start()
        except (library.PortAudioError, ValueError) as error:
            if stream is not None:
                stream.close()
            raise UserError(Phrase(BUSY, {"error": error}), BUSY_STEP) from error
        self._stream = stream

    def _asking(
        self, fill: Fill, stop: type[Exception]
    ) -> Callable[[npt.NDArray[np.float32], int, object, Any], None]:
        """What the library calls for each buffer."""

        def ask(
            out: npt.NDArray[np.float32], frames: int, _time: object, status: Any
        ) -> None:
            if status.output_underflow:
                self.underflows += 1
            samples = fill(frames)
            if samples is None:
                out[:] = 0
                raise stop  # the library's own way to play out and end
            out[:, 0] = samples

        return ask

    def close(self) -> None:
        """See `Speaker`. A device that does not end is broken off."""
        stream, self._stream = self._stream, None
        if stream is None:
            return
        if self._finished.wait(CLOSE_WAIT_S):
            stream.stop()
        else:
            stream.abort()
        stream.close()


def _library() -> Any:
    """The audio library, knowing the devices there are now.

    Raises:
        UserError: it, or what it needs of the system, is not there.
    """
    known = "sounddevice" in sys.modules
    try:
        import sounddevice  # noqa: PLC0415  an extra, loaded when it is wanted
    except ImportError as error:
        raise UserError(*NOT_INSTALLED) from error
    except OSError as error:  # its own library is missing
        raise UserError(*NO_LIBRARY) from error
    if known:
        # It looks for devices once, when it is loaded; later ones need a new look.
        try:
            if sounddevice._initialized:  # noqa: SLF001  there is no other way
                sounddevice._terminate()  # noqa: SLF001
            sounddevice._initialize()  # noqa: SLF001
        except sounddevice.PortAudioError as error:
            raise UserError(*NO_DEVICE) from error
    return sounddevice
