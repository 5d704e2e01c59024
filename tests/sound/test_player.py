"""The player on the real library: with no device, and with one that swallows all."""

from __future__ import annotations

import os
import subprocess
import sys
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback.sound.choice import Heard
from biofeedback.sound.player import RATE_HZ, Player
from biofeedback.sound.tones import Once, Steady

if TYPE_CHECKING:
    from pathlib import Path

PLAY = """
from biofeedback.errors import UserError
from biofeedback.sound.choice import Heard
from biofeedback.sound.player import Player
from biofeedback.sound.tones import Steady

player = Player()
try:
    player.open()
except UserError as error:
    print("said:", error)
else:
    player.hear(Heard(Steady.BELOW))
    print("playing:", player.playing)
    player.close()
    player.close()
    print("playing:", player.playing)
"""


def play(home: Path, asound: str = "", **more: str) -> str:
    """Runs the player in a program of its own, with sound set up as in `asound`."""
    (home / ".asoundrc").write_text(asound)
    done = subprocess.run(  # noqa: S603  our own words, no one else's
        [sys.executable, "-c", PLAY],
        env={**os.environ, "HOME": str(home), **more},
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def needs_library() -> None:
    try:
        import sounddevice  # noqa: F401, PLC0415  an extra
    except (ImportError, OSError) as error:
        pytest.skip(f"sounddevice or PortAudio is not there: {error}")


@pytest.mark.skipif(sys.platform != "linux", reason="sets up ALSA by a file")
def test_a_device_that_swallows_all_is_played_on(tmp_path: Path) -> None:
    needs_library()
    told = play(tmp_path, "pcm.!default { type null }\nctl.!default { type null }\n")
    if told.startswith("said:"):
        pytest.skip(f"PortAudio has no such device here: {told}")
    assert told.splitlines() == ["playing: True", "playing: False"]


@pytest.mark.skipif(sys.platform != "linux", reason="sets up ALSA by a file")
def test_no_device_is_said_once_and_what_to_do(tmp_path: Path) -> None:
    needs_library()
    told = play(tmp_path, "pcm.!default { type hw card 77 }\n")
    assert told.count("said:") == 1
    assert "Plug in loudspeaker or headphones" in told


def test_a_missing_library_is_said(tmp_path: Path) -> None:
    (tmp_path / "sounddevice.py").write_text("raise ImportError('not there')")
    told = play(tmp_path, PYTHONPATH=str(tmp_path))
    assert "pip install 'biofeedback[sound]'" in told
    (tmp_path / "sounddevice.py").write_text("raise OSError('PortAudio not found')")
    assert "libportaudio2" in play(tmp_path, PYTHONPATH=str(tmp_path))


def test_while_it_is_shut_nothing_piles_up() -> None:
    player = Player()
    for _ in range(1000):
        player.hear(Heard(Steady.BELOW, (Once.TICK,)))
    assert not player._asked


class Open:
    """Stands for a device that is open: here the test takes the samples."""

    def start(self) -> None:
        pass

    stop = close = start


def test_what_is_heard_is_in_the_next_buffer() -> None:
    player = Player()
    player._stream = Open()
    assert not player.render(512).any()
    player.hear(Heard(Steady.ABOVE))
    player.hear(Heard(Steady.ABOVE))  # each frame says it again
    buffer = np.zeros((512, 1), np.float32)
    player._fill(buffer, 512, None, None)
    assert buffer.any()
    player.set_volume(0.0)
    assert not player.render(512).any()
    player.close()
    assert not player.playing
    player.set_volume(1.0)
    player.render(round(RATE_HZ))
    assert not player.render(512).any()
