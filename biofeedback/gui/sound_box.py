"""The sound row: on and off, how loud, a trial, and what is wrong.

Each frame it hears the same cue as the athlete's screen. Without a device it says so
once, stays off, and goes on showing why. A device that stops by itself is the same.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import UserError
from biofeedback.gui.keys import native
from biofeedback.gui.language import shown
from biofeedback.sound.choice import Choice
from biofeedback.sound.player import STOPPED, Player
from biofeedback.sound.tones import Once

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.training.events import SetState
    from biofeedback.training.feedback import Cue

VOLUME_PCT = 50
STEP_PCT = 10
MUTE_KEY = "Ctrl+M"
LOUDER_KEY = "Ctrl+Up"
SOFTER_KEY = "Ctrl+Down"


class SoundBox(QWidget):
    """Switches and drives the sound.

    Args:
        player: plays on the system's device unless told otherwise.

    Signals:
        said: a message for the desk; also shown here as long as it holds.
        changed: on or off, and the volume in %, by the person: to be remembered.
    """

    said = Signal(str)
    changed = Signal(bool, int)

    def __init__(
        self, parent: QWidget | None = None, *, player: Player | None = None
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self._player = player or Player()
        self._choice = Choice()
        self.on = QCheckBox(tr("Sound"))
        self.on.setAccessibleName(tr("Sound on or off"))
        self.key = QLabel(native(MUTE_KEY))
        self.key.setObjectName("summary")
        self.volume = QSlider(Qt.Orientation.Horizontal)
        self.volume.setRange(0, 100)
        self.volume.setSingleStep(STEP_PCT)
        self.volume.setPageStep(STEP_PCT)
        self.volume.setValue(VOLUME_PCT)
        self.volume.setAccessibleName(tr("Volume in %"))
        self.share = QLabel()
        self.share.setAlignment(
            Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        )
        self.trial = QPushButton(tr("Try"))
        self.trial.setAccessibleName(tr("Try the sound"))
        self.problem = QLabel()
        self.problem.setObjectName("error")
        self.problem.setAccessibleName(tr("Why there is no sound"))
        self.problem.setWordWrap(True)
        self.problem.hide()
        self._lay_out()
        self._explain()
        self.on.toggled.connect(self._switch)
        self.volume.valueChanged.connect(self._turn)
        self.trial.clicked.connect(lambda: self._player.strike(Once.CHIME))
        self._show_volume()
        self._show()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.on)
        row.addWidget(self.key)
        row.addWidget(self.volume, 1)
        row.addWidget(self.share)
        row.addWidget(self.trial)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(2)
        whole.addLayout(row)
        whole.addWidget(self.problem)

    def _explain(self) -> None:
        tr = self.tr
        on_off = tr("Error tones on and off ({key})").format(key=native(MUTE_KEY))
        self.on.setToolTip(on_off)
        self.key.setToolTip(on_off)
        louder = tr("Louder {louder}, softer {softer}")
        self.volume.setToolTip(
            louder.format(louder=native(LOUDER_KEY), softer=native(SOFTER_KEY))
        )
        self.trial.setToolTip(
            tr(
                "The chime at the end of a hold. The ceiling warning is louder still:\n"
                "try it before the athlete puts headphones on."
            )
        )

    def set_up(self, *, on: bool, volume_pct: int) -> None:
        """As it was remembered; nothing is to be remembered anew."""
        with QSignalBlocker(self):
            self.volume.setValue(volume_pct)
        if on and not self.on.isChecked():
            self._set_on(on=self._open())
        elif not on:
            self._close()

    def hear(self, cue: Cue, state: SetState | None, events: Iterable[object]) -> None:
        """Once a frame.

        Args:
            cue: without the screen's dwell.
            state: of the set; None before the first.
            events: since the frame before.
        """
        heard = self._choice.push(cue, state, events)
        if not self._player.playing:
            return
        self._player.hear(heard)
        if self._player.lost:
            self._close()
            self._say(" ".join(STOPPED))

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
        if on and not self._open():
            self._set_on(on=False)
            return
        if not on:
            self._player.close()
        self._show()
        self.changed.emit(on, self.volume.value())

    def _open(self) -> bool:
        """Whether there is sound now; says why not."""
        self.problem.hide()
        self._player.set_volume(self.volume.value() / 100)
        try:
            self._player.open()
        except UserError as error:
            self._say(str(error))
            return False
        return True

    def _close(self) -> None:
        self._player.close()
        self._set_on(on=False)

    def _set_on(self, *, on: bool) -> None:
        """What is the case, not what the person wanted."""
        with QSignalBlocker(self.on):
            self.on.setChecked(on)
        self._show()

    def _turn(self, value: int) -> None:
        self._show_volume()
        self._player.set_volume(value / 100)
        self.changed.emit(self.on.isChecked(), value)

    def _say(self, words: str) -> None:
        words = shown(words)
        self.problem.setText(words)
        self.problem.show()
        self.said.emit(words)

    def _show_volume(self) -> None:
        words = self.tr("{value} %")
        most = words.format(value=100)
        self.share.setMinimumWidth(self.share.fontMetrics().horizontalAdvance(most))
        self.share.setText(words.format(value=self.volume.value()))

    def _show(self) -> None:
        self.trial.setEnabled(self.on.isChecked())
