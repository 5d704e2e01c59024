"""A virtual sound device: a null sink of a PulseAudio server of our own, and its ear.

The server, its socket and the routing of ALSA to it live in a folder that goes with it;
nothing of the system's own sound is touched. The device is virtual: it takes samples at
the pace of a clock, as a device does, but has no converter and no loudspeaker, whose
delay comes on top. Needs `pulseaudio`, `pulseaudio-utils` and, for ALSA's plugin,
`libasound2-plugins` (Debian's names).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
import threading
import time
from pathlib import Path
from typing import IO

import numpy as np
import numpy.typing as npt

RATE_HZ = 48_000
PROGRAMS = ("pulseaudio", "pactl", "parec")
START_WITHIN_S = 10.0
CHUNK_BYTES = 4 * 480
"""Ten milliseconds of samples at the most in one look."""

_SERVER = """\
load-module module-native-protocol-unix socket={socket} auth-anonymous=1
load-module module-null-sink sink_name=virtual rate={rate} channels=1
set-default-sink virtual
"""
_ALSA = """\
</usr/share/alsa/alsa.conf>
pcm.!default {{ type pulse server "unix:{socket}" }}
ctl.!default {{ type pulse server "unix:{socket}" }}
"""


class VirtualDevice:
    """Runs the server, as a context; inside it the system's default device is this.

    Raises:
        RuntimeError: a program is missing, or the server does not start.
    """

    def __enter__(self) -> VirtualDevice:
        missing = [one for one in PROGRAMS if shutil.which(one) is None]
        if missing:
            message = (
                f"Not installed: {', '.join(missing)}. On Debian: apt-get install "
                "pulseaudio pulseaudio-utils libasound2-plugins"
            )
            raise RuntimeError(message)
        self._folder = tempfile.TemporaryDirectory()
        folder = Path(self._folder.name)
        self._socket = folder / "native"
        script, routing = folder / "server.pa", folder / "asound.conf"
        script.write_text(_SERVER.format(socket=self._socket, rate=RATE_HZ))
        routing.write_text(_ALSA.format(socket=self._socket))
        self._before = {name: os.environ.get(name) for name in _VARIABLES}
        os.environ["PULSE_SERVER"] = f"unix:{self._socket}"
        os.environ["PULSE_RUNTIME_PATH"] = str(folder)
        os.environ["XDG_RUNTIME_DIR"] = str(folder)
        os.environ["ALSA_CONFIG_PATH"] = str(routing)
        self._server = subprocess.Popen(
            [shutil.which("pulseaudio") or "", "-n", "-F", str(script),
             "--exit-idle-time=-1", "--daemonize=no", "--use-pid-file=no"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        until = time.monotonic() + START_WITHIN_S
        while not self._answers():
            if time.monotonic() > until or self._server.poll() is not None:
                self.__exit__()
                message = "the sound server did not start"
                raise RuntimeError(message)
            time.sleep(0.1)
        return self

    def _answers(self) -> bool:
        done = subprocess.run(
            [shutil.which("pactl") or "", "info"], capture_output=True, check=False
        )
        return done.returncode == 0

    def __exit__(self, *_: object) -> None:
        self._server.terminate()
        self._server.wait(timeout=5)
        for name, value in self._before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
        self._folder.cleanup()


_VARIABLES = (
    "PULSE_SERVER",
    "PULSE_RUNTIME_PATH",
    "XDG_RUNTIME_DIR",
    "ALSA_CONFIG_PATH",
)


class Ear:
    """Records what the device gives out, and when it was there.

    A null sink gives out its samples a block at a time. A sample counts as given out
    when its lump has arrived here: later than it was, and never sooner.
    """

    def __init__(self) -> None:
        self._lumps: list[bytes] = []
        self._arrived: list[tuple[float, int]] = []  # when, and samples by then
        self._recorder = subprocess.Popen(
            [shutil.which("parec") or "", "--device=virtual.monitor", "--raw",
             "--format=float32le", f"--rate={RATE_HZ}", "--channels=1",
             "--latency-msec=2"],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        self._thread = threading.Thread(target=self._listen, name="ear")
        self._thread.start()

    def _listen(self) -> None:
        pipe: IO[bytes] | None = self._recorder.stdout
        assert pipe is not None
        samples = 0
        while lump := os.read(pipe.fileno(), CHUNK_BYTES):
            now_s = time.perf_counter()
            self._lumps.append(lump)
            samples += len(lump) // 4
            self._arrived.append((now_s, samples))

    def heard(self) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float32]]:
        """Ends the recording; when each sample had arrived, and the samples."""
        self._recorder.terminate()
        self._recorder.wait(timeout=5)
        self._thread.join(timeout=5)
        wave = np.frombuffer(b"".join(self._lumps), np.float32)
        ends = np.array([samples for _, samples in self._arrived])
        lump = np.searchsorted(ends, np.arange(len(wave)), side="right")
        return np.array([at for at, _ in self._arrived])[lump], wave
