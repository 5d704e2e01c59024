"""The sound row at the desk: on and off, how loud, a trial, and what is wrong.

Each frame it hears the same cue as the athlete's screen. Without a device it says so
once and stays off.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSlider,
    QWidget,
)

from biofeedback.errors import UserError
from biofeedback.sound.choice import Choice, Heard
from biofeedback.sound.player import Player
from biofeedback.sound.tones import Once

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.training.events import SetState
    from biofeedback.training.feedback import Cue

VOLUME_PCT = 50
STEP_PCT = 10


class SoundBox(QWidget):
    """Switches and drives the sound.

    Signals:
        said: a message for the desk.
        changed: on or off, and the volume in %: to be remembered.
    """

    said = Signal(str)
    changed = Signal(bool, int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._player = Player()
        self._choice = Choice()
        self.on = QCheckBox(tr("Sound"))
        self.on.setAccessibleName(tr("Sound on or off"))
        self.volume = QSlider(Qt.Orientation.Horizontal)
        self.volume.setRange(0, 100)
        self.volume.setSingleStep(STEP_PCT)
        self.volume.setValue(VOLUME_PCT)
        self.volume.setAccessibleName(tr("Volume in %"))
        self.share = QLabel()
        self.trial = QPushButton(tr("Try"))
        self.trial.setAccessibleName(tr("Try the sound"))
        self.trial.setToolTip(tr("The chime at the end of a hold."))
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(self.on)
        row.addWidget(self.volume, 1)
        row.addWidget(self.share)
        row.addWidget(self.trial)
        self.on.toggled.connect(self._switch)
        self.volume.valueChanged.connect(self._turn)
        self.trial.clicked.connect(
            lambda: self._player.hear(Heard(None, (Once.CHIME,)))
        )
        self._turn()
        self._show()

    def set_up(self, *, on: bool, volume_pct: int) -> None:
        """As it was remembered."""
        self.volume.setValue(volume_pct)
        self.on.setChecked(on)

    def hear(self, cue: Cue, state: SetState | None, events: Iterable[object]) -> None:
        """Once a frame.

        Args:
            cue: without the screen's dwell.
        """
        heard = self._choice.push(cue, state, events)
        if self._player.playing:
            self._player.hear(heard)

    def mute(self) -> None:
        """On and off by one key."""
        self.on.toggle()

    def louder(self, *, by_pct: int = STEP_PCT) -> None:
        """Louder, or softer by a negative step."""
        self.volume.setValue(self.volume.value() + by_pct)

    def close_device(self) -> None:
        """The program ends."""
        self._player.close()

    def _switch(self, on: bool) -> None:
        if on:
            try:
                self._player.open()
            except UserError as error:
                self.on.setChecked(False)
                self.said.emit(str(error))
                return
            self._player.set_volume(self.volume.value() / 100)
        else:
            self._player.close()
        self._show()
        self.changed.emit(on, self.volume.value())

    def _turn(self) -> None:
        value = self.volume.value()
        self.share.setText(self.tr("{value} %").format(value=value))
        self._player.set_volume(value / 100)
        if self.on.isChecked():
            self.changed.emit(True, value)

    def _show(self) -> None:
        self.trial.setEnabled(self.on.isChecked())
