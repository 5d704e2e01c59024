"""The sound row: with no device it says so once and stays off."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import pytest

from biofeedback.gui.sound_box import SoundBox
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


@pytest.fixture
def box(qtbot: QtBot) -> SoundBox:
    made = SoundBox()
    qtbot.addWidget(made)
    return made


class Speaker:
    """Stands for an open device; keeps what it was asked for."""

    def __init__(self) -> None:
        self.done: list[str] = []

    def start(self) -> None:
        self.done.append("start")

    def stop(self) -> None:
        self.done.append("stop")

    def close(self) -> None:
        self.done.append("close")


def test_without_a_device_it_says_so_once_and_stays_off(
    box: SoundBox, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "sounddevice", None)  # as if not installed
    told: list[str] = []
    box.said.connect(told.append)
    box.on.setChecked(True)
    assert not box.on.isChecked()
    assert len(told) == 1
    assert "pip install" in told[0]
    for _ in range(10):
        box.hear(Cue.MORE, None, ())
    assert len(told) == 1


def test_volume_by_key_has_a_unit_and_ends(box: SoundBox) -> None:
    assert box.share.text() == "50 %"
    for _ in range(9):
        box.louder()
    assert box.share.text() == "100 %"
    for _ in range(20):
        box.louder(by_pct=-10)
    assert box.share.text() == "0 %"


def test_what_is_remembered_is_told_on_change_only_while_on(box: SoundBox) -> None:
    told: list[tuple[bool, int]] = []
    box.changed.connect(lambda on, volume: told.append((on, volume)))
    box.louder()
    assert told == []
    box._player._stream = Speaker()
    box.on.setChecked(True)
    box.louder()
    box.mute()
    assert told == [(True, 60), (True, 70), (False, 70)]


def test_what_the_cue_says_is_what_is_played(box: SoundBox) -> None:
    box._player._stream = Speaker()
    box.hear(Cue.STAY, None, ())
    assert not box._player.render(4800).any()
    box.hear(Cue.LESS, None, ())
    assert box._player.render(4800).any()
    box.close_device()
    assert not box._player.playing


def test_every_control_has_a_name(box: SoundBox) -> None:
    for control in (box.on, box.volume, box.trial):
        assert control.accessibleName()
