"""The sound row: with no device it says so once and stays off."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import numpy as np
import pytest
from gui.staged_session import ASKED, FRAME_S, StagedSession
from training.scripted import ONE_CELL, Script, asked, rig

from biofeedback.gui.live_session import STALE_AFTER_S
from biofeedback.gui.sound_box import SoundBox
from biofeedback.gui.window import Window
from biofeedback.sound.choice import SIGNAL_LOST_AFTER_FRAMES
from biofeedback.sound.player import LOST_AFTER_FRAMES, Player
from biofeedback.sound.speaker import BufferSpeaker
from biofeedback.sound.tones import Steady
from biofeedback.training.conductor import Conductor
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from collections.abc import Iterator

    import numpy.typing as npt
    from pytestqt.qtbot import QtBot

    from biofeedback.training.events import SetState


@pytest.fixture
def speaker() -> BufferSpeaker:
    return BufferSpeaker()


@pytest.fixture
def box(qtbot: QtBot, speaker: BufferSpeaker) -> SoundBox:
    made = SoundBox(player=Player(speaker))
    qtbot.addWidget(made)
    return made


@pytest.fixture
def state() -> SetState:
    """In a rep, some way below the band."""
    conductor = Conductor(asked(20, 40, 30.0), rig(ONE_CELL))
    for block in Script.lines((0, 0), (0.5, 12), (1, 12)).blocks():
        conductor.push(block)
    return conductor.state


def test_without_a_device_it_says_so_once_and_stays_off(
    qtbot: QtBot, state: SetState, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "sounddevice", None)  # as if not installed
    box = SoundBox()
    qtbot.addWidget(box)
    told: list[str] = []
    remembered: list[tuple[bool, int]] = []
    box.said.connect(told.append)
    box.changed.connect(lambda on, volume: remembered.append((on, volume)))
    box.on.setChecked(True)
    assert not box.on.isChecked()
    assert not box.trial.isEnabled()
    assert len(told) == 1
    assert "pip install" in told[0]
    for _ in range(10):
        box.hear(Cue.MORE, state, ())
    assert len(told) == 1
    assert box.problem.text() == told[0]
    assert not box.problem.isHidden()
    # Headphones left at home must not switch it off for the days to come.
    assert remembered == []


def test_as_remembered_it_is_set_up_without_being_remembered_anew(
    box: SoundBox, speaker: BufferSpeaker, state: SetState
) -> None:
    remembered: list[tuple[bool, int]] = []
    box.changed.connect(lambda on, volume: remembered.append((on, volume)))
    box.set_up(on=True, volume_pct=30)
    assert box.on.isChecked()
    assert box.trial.isEnabled()
    assert box.share.text() == "30 %"
    assert remembered == []
    box.hear(Cue.MORE, state, ())
    assert np.abs(speaker.play(9600)).max() == pytest.approx(
        0.3**2 * Steady.BELOW.value.level, rel=0.3
    )
    box.set_up(on=False, volume_pct=30)
    assert not box.on.isChecked()
    assert remembered == []


def test_remembered_with_no_device_it_says_so(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "sounddevice", None)
    box = SoundBox()
    qtbot.addWidget(box)
    told: list[str] = []
    box.said.connect(told.append)
    box.set_up(on=True, volume_pct=30)
    assert not box.on.isChecked()
    assert len(told) == 1


def test_volume_by_key_has_a_unit_and_ends(box: SoundBox) -> None:
    assert box.share.text() == "50 %"
    for _ in range(9):
        box.louder()
    assert box.share.text() == "100 %"
    for _ in range(20):
        box.louder(by_pct=-10)
    assert box.share.text() == "0 %"


def test_each_change_by_the_person_is_remembered(box: SoundBox) -> None:
    told: list[tuple[bool, int]] = []
    box.changed.connect(lambda on, volume: told.append((on, volume)))
    box.louder()
    box.on.setChecked(True)
    box.louder()
    box.mute()
    assert told == [(False, 60), (True, 60), (True, 70), (False, 70)]


def test_what_the_cue_says_is_what_is_played(
    box: SoundBox, speaker: BufferSpeaker, state: SetState
) -> None:
    box.on.setChecked(True)
    box.hear(Cue.STAY, state, ())
    assert not speaker.play(4800).any()
    box.hear(Cue.LESS, state, ())
    assert speaker.play(4800).any()
    box.mute()
    assert not speaker.play(4800).any()
    box.mute()  # goes on with what is the case now
    box.hear(Cue.LESS, state, ())
    assert speaker.play(4800).any()


def test_a_trial_is_heard_beside_what_sounds(
    box: SoundBox, speaker: BufferSpeaker, state: SetState
) -> None:
    box.on.setChecked(True)
    box.hear(Cue.MORE, state, ())
    box.trial.click()
    for _ in range(60):
        box.hear(Cue.MORE, state, ())
        speaker.play(800)
    # After a second the chime is over and the pulses go on.
    assert speaker.play(24_000).any()


def test_a_device_that_stops_is_said_once_and_sound_is_off(
    box: SoundBox, speaker: BufferSpeaker, state: SetState
) -> None:
    told: list[str] = []
    remembered: list[tuple[bool, int]] = []
    box.on.setChecked(True)
    box.said.connect(told.append)
    box.changed.connect(lambda on, volume: remembered.append((on, volume)))
    speaker.play(800)
    for _ in range(3 * LOST_AFTER_FRAMES):
        box.hear(Cue.MORE, state, ())
    assert len(told) == 1
    assert not box.on.isChecked()
    assert box.problem.text() == told[0]
    assert remembered == []
    box.on.setChecked(True)  # plugged in again
    assert box.on.isChecked()
    assert box.problem.isHidden()


def test_the_end_lets_go_of_the_device(box: SoundBox) -> None:
    box.on.setChecked(True)
    box.close_device()
    assert not box._player.playing


def test_every_control_has_a_name_and_its_key(box: SoundBox) -> None:
    for control in (box.on, box.volume, box.trial, box.problem):
        assert control.accessibleName()
    assert box.key.text() == "Ctrl+M"
    assert "Ctrl+M" in box.on.toolTip()
    assert "Ctrl+Up" in box.volume.toolTip()
    assert "Ctrl+Down" in box.volume.toolTip()


# In the real window, from a force to the samples for the device.


class InTheWindow:
    """A staged session in the window, its sound rendered frame by frame."""

    def __init__(self, qtbot: QtBot, speaker: BufferSpeaker) -> None:
        self.force_n = 120.0
        self.speaker = speaker
        self.session = StagedSession(lambda _: self.force_n)
        self.window = Window(
            self.session, prescription=ASKED, clock=lambda: self.session.now_ns
        )
        qtbot.addWidget(self.window)
        self.window.comfort.sound._player = Player(speaker)
        self.window.comfort.sound.on.setChecked(True)
        self.session.begin_set(ASKED)

    def sounds(self, seconds: float) -> npt.NDArray[np.float32]:
        """What a device would have been given meanwhile."""
        heard = []
        for _ in range(round(seconds / FRAME_S)):
            self.session.advance(FRAME_S)
            self.window.frame()
            heard.append(self.speaker.play(round(FRAME_S * self.speaker.rate_hz)))
        return np.concatenate(heard)

    def power(self, wave: npt.NDArray[np.float32], pitch_hz: float) -> float:
        """Share of the power within 10 Hz of a pitch."""
        power = np.abs(np.fft.rfft(wave)) ** 2
        near = np.abs(np.fft.rfftfreq(len(wave), 1 / self.speaker.rate_hz) - pitch_hz)
        return float(power[near < 10].sum() / power.sum())


@pytest.fixture
def in_window(qtbot: QtBot, speaker: BufferSpeaker) -> Iterator[InTheWindow]:
    made = InTheWindow(qtbot, speaker)
    yield made
    made.window.close()


def test_a_ceiling_passed_is_heard(in_window: InTheWindow) -> None:
    in_window.sounds(2.0)
    assert not in_window.sounds(0.5).any()  # inside the band
    in_window.force_n = 200.0  # the ceiling is at 190 N
    first = in_window.sounds(0.2)
    onset_s = np.flatnonzero(first)[0] / in_window.speaker.rate_hz
    wave = in_window.sounds(1.0)
    assert onset_s < 0.1, "one frame, and the delay of the filter"
    assert in_window.power(wave, 1320) > 0.3
    assert in_window.power(wave, 880) > 0.2
    assert np.abs(wave).max() > 0.1
    in_window.force_n = 120.0
    in_window.sounds(1.0)
    assert not in_window.sounds(0.5).any()


def test_a_signal_that_is_lost_in_the_band_is_heard(in_window: InTheWindow) -> None:
    in_window.sounds(2.0)
    assert not in_window.sounds(0.5).any()  # inside the band
    in_window.session.silent = True
    wave = in_window.sounds(1.5)
    onset_s = np.flatnonzero(wave)[0] / in_window.speaker.rate_hz
    lost_s = STALE_AFTER_S + (SIGNAL_LOST_AFTER_FRAMES + 1) * FRAME_S
    assert onset_s == pytest.approx(lost_s, abs=3 * FRAME_S)
    assert in_window.power(wave, 587.3) > 0.5
    in_window.session.silent = False
    in_window.sounds(0.2)
    assert not in_window.sounds(2.0).any()
