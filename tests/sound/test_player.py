"""The player: into buffers, and on the real library with and without a device.

What opens the library runs in a program of its own, for the library looks for devices
by the home folder that it finds.
"""

from __future__ import annotations

import os
import subprocess
import sys
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback.sound.choice import Heard
from biofeedback.sound.player import LOST_AFTER_FRAMES, Player
from biofeedback.sound.speaker import BufferSpeaker
from biofeedback.sound.tones import RELEASE_S, Once, Steady, Synth

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    import numpy.typing as npt

RATE = 44_100
"""What that device runs at."""
NULL = "pcm.!default { type null }\nctl.!default { type null }\n"
"""ALSA's own device that takes everything and plays nothing."""
NOWHERE = "pcm.!default { type hw card 77 }\n"
BEGIN = """
import os, pathlib, sys, threading
from biofeedback.errors import UserError
from biofeedback.sound.choice import Heard
from biofeedback.sound.player import DeviceSpeaker, Player
from biofeedback.sound.tones import Once, Steady

setup = pathlib.Path(os.environ["HOME"], ".asoundrc")
assert "sounddevice" not in sys.modules  # loaded when it is wanted

def tried(player):
    try:
        player.open()
    except UserError as error:
        print("said:", error)
    else:
        print("playing:", player.playing)
"""

linux_only = pytest.mark.skipif(
    sys.platform != "linux", reason="sets up ALSA by a file"
)


def run(program: str, home: Path, asound: str = "", **more: str) -> list[str]:
    """What a program of its own prints, with sound set up as in `asound`."""
    (home / ".asoundrc").write_text(asound)
    done = subprocess.run(  # noqa: S603  our own words, no one else's
        [sys.executable, "-c", BEGIN + program],
        env={**os.environ, "HOME": str(home), **more},
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=60,
    )
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout.splitlines()


def needs_library() -> None:
    """Skips where the extra, or the system's part of it, is not there."""
    try:
        import sounddevice  # noqa: F401, PLC0415  an extra
    except (ImportError, OSError) as error:
        pytest.skip(f"sounddevice or PortAudio is not there: {error}")


@linux_only
def test_it_plays_on_a_device_and_lets_go(tmp_path: Path) -> None:
    needs_library()
    program = """
speaker = DeviceSpeaker()
player = Player(speaker)
for _ in range(2):  # and once more
    tried(player)
    player.hear(Heard(Steady.BELOW, (Once.CHIME,)))
    while not player._filled:
        pass
    print("lost:", player.lost)
    player.close()
    player.close()
    print("playing:", player.playing, "asked for:", len(player._asked))
print("threads:", threading.active_count())
"""
    once = ["playing: True", "lost: False", "playing: False asked for: 0"]
    assert run(program, tmp_path, NULL) == [*once, *once, "threads: 1"]


TOLD = """
player = Player(stale_s=1e9)  # the test takes its time with the samples
player.open()
kept = {"below": Steady.BELOW, "above": Steady.ABOVE, "nothing": None}
for line in sys.stdin:
    if line.strip() not in kept:
        break
    player.hear(Heard(kept[line.strip()]))
player.close()
print("threads:", threading.active_count())
"""


@linux_only
def test_what_is_heard_reaches_the_device_sample_by_sample(tmp_path: Path) -> None:
    """A device that hands on what it gets; it waits until the test has taken it."""
    needs_library()
    pipe = tmp_path / "samples"
    os.mkfifo(pipe)
    file = f'pcm.!default {{ type file slave {{ pcm null }} file "{pipe}" format raw }}'
    (tmp_path / ".asoundrc").write_text(f"{file}\nctl.!default {{ type null }}\n")
    program = subprocess.Popen(  # noqa: S603  our own words, no one else's
        [sys.executable, "-c", BEGIN + TOLD],
        env={**os.environ, "HOME": str(tmp_path)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        encoding="utf-8",
    )
    words, answers = program.stdin, program.stdout
    assert words is not None
    assert answers is not None
    with program, pipe.open("rb") as device:

        def taken(samples: int) -> npt.NDArray[np.float32]:
            return np.frombuffer(device.read(4 * samples), np.float32)

        def tell(what: str) -> None:
            words.write(f"{what}\n")
            words.flush()

        assert not taken(RATE).any()
        for name, steady in (("below", Steady.BELOW), ("above", Steady.ABOVE)):
            tell(name)
            synth = Synth(RATE, volume=1.0)
            synth.keep(steady)
            begun = until_sound(taken)
            # Its first sample is 0 and looks like the silence before it.
            expected = synth.render(len(begun) + 1 + 2 * RATE)[1:]
            assert np.array_equal(begun, expected[: len(begun)])
            assert np.array_equal(taken(2 * RATE), expected[len(begun) :])
            tell("nothing")
            until_silence(taken)
        tell("the end")
        rest = np.frombuffer(device.read(), np.float32)
        assert not rest.any()
        assert answers.read() == "threads: 1\n"
        assert program.wait(20) == 0


def until_sound(
    taken: Callable[[int], npt.NDArray[np.float32]],
) -> npt.NDArray[np.float32]:
    """From the first sample that is not 0 to the end of what was taken."""
    for _ in range(1000):
        some = taken(441)
        if some.any():
            return some[np.flatnonzero(some)[0] :]
    pytest.fail("no sound came in 10 s of samples")


def until_silence(taken: Callable[[int], npt.NDArray[np.float32]]) -> None:
    """Takes until there was nothing for longer than any pause between pulses."""
    for _ in range(30):
        if not taken(RATE).any():
            return
    pytest.fail("no silence came in 30 s of samples")


@linux_only
def test_no_device_is_one_message_and_what_to_do(tmp_path: Path) -> None:
    """As this machine is, and with a device that is named and not there."""
    needs_library()
    for setup in (NOWHERE, ""):
        told = run("tried(Player())", tmp_path, setup)
        if told == ["playing: True"] and not setup:
            pytest.skip("this machine has a sound device")
        assert told == [
            "said: There is no sound device. Plug in loudspeaker or headphones, then "
            "switch sound on again."
        ]


@linux_only
def test_what_was_plugged_in_since_is_found(tmp_path: Path) -> None:
    needs_library()
    program = f"""
player = Player()
tried(player)
setup.write_text({NULL!r})
tried(player)
player.close()
setup.write_text({NOWHERE!r})
tried(player)
tried(player)
setup.write_text({NULL!r})
tried(player)
player.close()
"""
    told = [line.split(".")[0] for line in run(program, tmp_path, NOWHERE)]
    no, yes = "said: There is no sound device", "playing: True"
    assert told == [no, yes, no, no, yes]


@linux_only
def test_a_device_that_ends_by_itself_is_noticed(tmp_path: Path) -> None:
    needs_library()
    program = """
player = Player()
tried(player)
player._speaker._stream.abort()  # as the library does when a device goes
player._speaker._finished.wait(5)
print("lost:", player.lost)
player.close()
print("lost:", player.lost)
"""
    assert run(program, tmp_path, NULL) == [
        "playing: True",
        "lost: True",
        "lost: False",
    ]


def test_a_missing_library_is_said(tmp_path: Path) -> None:
    (tmp_path / "sounddevice.py").write_text("raise ImportError('not there')")
    (told,) = run("tried(Player())", tmp_path, PYTHONPATH=str(tmp_path))
    assert "-m pip install 'biofeedback[sound]'" in told
    (tmp_path / "sounddevice.py").write_text("raise OSError('PortAudio not found')")
    (told,) = run("tried(Player())", tmp_path, PYTHONPATH=str(tmp_path))
    assert "libportaudio2" in told


@pytest.fixture
def speaker() -> BufferSpeaker:
    return BufferSpeaker()


@pytest.fixture
def player(speaker: BufferSpeaker) -> Player:
    made = Player(speaker)
    made.open()
    return made


def test_what_is_heard_begins_with_the_next_buffer_and_only_once(
    player: Player, speaker: BufferSpeaker
) -> None:
    assert not speaker.play(512).any()
    for _ in range(3):  # each frame says it again
        player.hear(Heard(Steady.ABOVE))
    synth = Synth(speaker.rate_hz)
    synth.keep(Steady.ABOVE)
    assert np.array_equal(speaker.play(9000), synth.render(9000))
    player.hear(Heard(Steady.ABOVE))
    assert np.array_equal(speaker.play(9000), synth.render(9000))


def test_loudness_follows_the_square_of_the_share(speaker: BufferSpeaker) -> None:
    player = Player(speaker)
    player.set_volume(0.5)  # before it is open, too
    player.open()
    player.hear(Heard(Steady.ABOVE))
    synth = Synth(speaker.rate_hz, volume=0.25)
    synth.keep(Steady.ABOVE)
    assert np.array_equal(speaker.play(9000), synth.render(9000))


def test_shut_it_keeps_nothing_for_later(speaker: BufferSpeaker) -> None:
    player = Player(speaker)
    for _ in range(1000):
        player.hear(Heard(Steady.BELOW, (Once.TICK,)))
        player.strike(Once.CHIME)
        player.set_volume(1.0)
    player.open()
    assert not player._asked
    assert not speaker.play(48_000).any()


def test_closing_dies_away_and_nothing_is_left_for_the_next_time(
    player: Player, speaker: BufferSpeaker
) -> None:
    player.hear(Heard(Steady.CEILING))
    before = speaker.play(2437)
    player.close()
    assert not player.playing
    steps = np.abs(np.diff(np.concatenate((before, speaker.tail))))
    assert steps.max() < 1.1 * 0.6 * 2 * np.pi * 1320 / speaker.rate_hz
    dead = speaker.tail[round(RELEASE_S * speaker.rate_hz) :]
    assert len(dead)
    assert not dead.any()
    player.open()
    assert not speaker.play(48_000).any()


def test_a_device_that_asks_for_nothing_is_lost(
    player: Player, speaker: BufferSpeaker
) -> None:
    for _ in range(3 * LOST_AFTER_FRAMES):
        player.hear(Heard(None))
        speaker.play(800)
    assert not player.lost
    for _ in range(LOST_AFTER_FRAMES):
        assert not player.lost
        player.hear(Heard(None))
    player.hear(Heard(None))
    assert player.lost


def test_a_window_that_hangs_is_silent_and_then_goes_on(
    player: Player, speaker: BufferSpeaker
) -> None:
    """A tone must not tell of a force that is long gone."""
    player.hear(Heard(Steady.CEILING))
    sounding = [speaker.play(480).any() for _ in range(100)]
    assert sounding[:50] == [True] * 50
    assert sounding[54:] == [False] * 46
    player.hear(Heard(Steady.CEILING))
    assert speaker.play(480).any()
    player.strike(Once.CHIME)  # by the person at the desk
    for _ in range(60):
        speaker.play(800)
        player.hear(Heard(None))
    assert not speaker.play(480).any()


def test_what_waited_for_a_warning_sounds_in_the_frame_that_ends_it(
    player: Player, speaker: BufferSpeaker
) -> None:
    player.hear(Heard(Steady.CEILING))
    speaker.play(4800)
    player.hear(Heard(None, (Once.STOPPED,)))
    speaker.play(round(RELEASE_S * speaker.rate_hz))
    assert speaker.play(4800).any()
