"""The cue: one short calm phrase, large."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF

from biofeedback.gui.language import said
from biofeedback.gui.panel import Panel
from biofeedback.phrase import marked
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent
    from PySide6.QtWidgets import QWidget

_PHRASES: dict[Cue, str] = {
    Cue.NO_SIGNAL: marked("No signal"),
    Cue.NO_SET: marked("No set yet"),
    Cue.READY: marked("Ready"),
    Cue.MORE: marked("A little more"),
    Cue.LESS: marked("Ease off slightly"),
    Cue.MUCH_LESS: marked("Ease off"),
    Cue.STAY: marked("Stay there"),
    Cue.EVEN: marked("Even out the sides"),
    Cue.BY_FEEL: marked("Hold by feel"),
    Cue.TOO_MUCH: marked("Too much: ease off"),
    Cue.AT_LIMIT: marked("Off scale: ease off"),
    Cue.LET_GO: marked("Let go"),
    Cue.EASE_OUT: marked("Let go when ready"),
    Cue.REST: marked("Rest {time}"),
    Cue.WAIT: marked("Wait a moment"),
    Cue.DONE: marked("Set done"),
    Cue.ENDED: marked("Set ended"),
    Cue.ABOUT_HALF: marked("About half"),
    Cue.THREE_QUARTERS: marked("About three quarters"),
    Cue.NEARLY_ALL: marked("Nearly all you have"),
    Cue.ALL_OUT: marked("Build up to all you have"),
    Cue.ENOUGH: marked("Enough trials"),
    Cue.TEST_DONE: marked("Test done"),
}


def clock(left_s: float) -> str:
    """A time that is left, such as 1:05."""
    whole_s = max(0, math.ceil(left_s - 1e-9))
    return f"{whole_s // 60}:{whole_s % 60:02d}"


def cue_words(cue: Cue, *, rest_left_s: float = 0.0) -> str:
    """The words of a cue, in the language of the interface."""
    time = clock(rest_left_s)
    return said(_PHRASES[cue], time=time)


class CueLine(Panel):
    """Shows one cue; it fills the panel's height."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Cue", parent)
        self.setAccessibleName(self.tr("Cue"))
        self._shown: tuple[Cue, int] | None = None

    def show_cue(self, cue: Cue, *, rest_left_s: float = 0.0) -> None:
        """Another cue, or the same with another time."""
        now = cue, math.ceil(rest_left_s - 1e-9)
        if now == self._shown:
            return  # as in most frames; putting words together takes its time
        self._shown = now
        self.describe(cue_words(cue, rest_left_s=rest_left_s))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Writes the phrase as large as the panel allows."""
        painter = self.begin()
        self.write(
            painter,
            QRectF(self.rect()),
            self.accessibleDescription(),
            size_px=self.height() * 0.74,
            bold=True,
        )
        painter.end()
