"""The cue: one short calm phrase, large."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication, QRectF

from biofeedback.gui.panel import Panel
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent
    from PySide6.QtWidgets import QWidget

_PHRASES: dict[Cue, object] = {  # PySide6 types the marked text as object
    Cue.NO_SIGNAL: QT_TRANSLATE_NOOP("Cue", "No signal"),
    Cue.NO_SET: QT_TRANSLATE_NOOP("Cue", "No set yet"),
    Cue.READY: QT_TRANSLATE_NOOP("Cue", "Ready"),
    Cue.MORE: QT_TRANSLATE_NOOP("Cue", "A little more"),
    Cue.LESS: QT_TRANSLATE_NOOP("Cue", "Ease off slightly"),
    Cue.STAY: QT_TRANSLATE_NOOP("Cue", "Stay there"),
    Cue.EVEN: QT_TRANSLATE_NOOP("Cue", "Even out the sides"),
    Cue.BY_FEEL: QT_TRANSLATE_NOOP("Cue", "Hold by feel"),
    Cue.TOO_MUCH: QT_TRANSLATE_NOOP("Cue", "Too much: ease off"),
    Cue.AT_LIMIT: QT_TRANSLATE_NOOP("Cue", "Off scale: ease off"),
    Cue.LET_GO: QT_TRANSLATE_NOOP("Cue", "Let go"),
    Cue.REST: QT_TRANSLATE_NOOP("Cue", "Rest {time}"),
    Cue.WAIT: QT_TRANSLATE_NOOP("Cue", "Wait a moment"),
    Cue.DONE: QT_TRANSLATE_NOOP("Cue", "Set done"),
    Cue.ENDED: QT_TRANSLATE_NOOP("Cue", "Set ended"),
    Cue.ABOUT_HALF: QT_TRANSLATE_NOOP("Cue", "About half"),
    Cue.THREE_QUARTERS: QT_TRANSLATE_NOOP("Cue", "About three quarters"),
    Cue.NEARLY_ALL: QT_TRANSLATE_NOOP("Cue", "Nearly all you have"),
    Cue.ALL_OUT: QT_TRANSLATE_NOOP("Cue", "Build up to all you have"),
    Cue.TEST_DONE: QT_TRANSLATE_NOOP("Cue", "Test done"),
}


def clock(left_s: float) -> str:
    """A time that is left, such as 1:05."""
    whole_s = max(0, math.ceil(left_s - 1e-9))
    return f"{whole_s // 60}:{whole_s % 60:02d}"


def phrase(cue: Cue, *, rest_left_s: float = 0.0) -> str:
    """The words of a cue, in the language of the interface."""
    time = clock(rest_left_s)
    return QCoreApplication.translate("Cue", str(_PHRASES[cue])).format(time=time)


class CueLine(Panel):
    """Shows one cue; it fills the panel's height."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Cue", parent)
        self.setAccessibleName(self.tr("Cue"))

    def show_cue(self, cue: Cue, *, rest_left_s: float = 0.0) -> None:
        """Another cue, or the same with another time."""
        self.describe(phrase(cue, rest_left_s=rest_left_s))

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
