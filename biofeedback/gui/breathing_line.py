"""The line at the foot: a calm reminder to breathe, and between sets what is left.

In a maximal test and where one side works it names the side, which nothing else there
tells; the reminder stands in its place for some seconds of a hold, when the side works.

It keeps its place while it is empty, so that nothing moves when it appears, and it
never takes the place of the cue.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt

from biofeedback.gui.cue import clock
from biofeedback.gui.order_words import sides_words
from biofeedback.gui.panel import Panel
from biofeedback.training.breathing import breathing_cue
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent
    from PySide6.QtWidgets import QWidget

    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

TYPE_SHARE = 0.76
"""At the foot of a screen 30 cm high capitals are then 14 mm high: 16 minutes of arc
from three metres, the least that ISO 9241-303 gives for text (from memory)."""


class BreathingLine(Panel):
    """Shows “Keep breathing” for some seconds of a long or hard hold.

    Between the sets of a running order it shows the rest, and what begins the next.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Breathing", parent)
        self.setAccessibleName(self.tr("Breathing"))

    def show_state(
        self, state: SetState | None, asked: Prescription, *, live: bool
    ) -> None:
        """What is new in this frame.

        Args:
            live: whether the newest sample is fresh.
        """
        if live and breathing_cue(state, asked):
            self.describe(self.tr("Keep breathing"))
        else:
            sides = asked.task.sides
            self.describe("" if sides is Sides.BOTH else sides_words(sides))

    def show_sides(self, sides: Sides) -> None:
        """Which sides a test is of."""
        self.describe(sides_words(sides))

    def show_rest(
        self, left_s: float, *, ready: bool, key: str = "", sides: Sides = Sides.BOTH
    ) -> None:
        """The rest before the next set.

        Args:
            ready: whether the next set is near.
            key: that begins it; empty where it begins by itself.
            sides: of the next set; one alone is named.
        """
        side = "" if sides is Sides.BOTH else sides_words(sides)
        if side and key:  # the cue above tells the time
            words = self.tr("{side} next, {key} starts")
        elif side and ready:
            words = self.tr("{side}: get ready {time}")
        elif side:
            words = self.tr("{side} next in {time}")
        elif key:
            words = self.tr("Rest {time}, then {key} starts")
        elif ready:
            words = self.tr("Get ready {time}")
        else:
            words = self.tr("Next set in {time}")
        self.describe(words.format(time=clock(left_s), key=key, side=side))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Writes the line as large as the panel allows."""
        painter = self.begin()
        words = self.accessibleDescription()
        if words:
            self.write(
                painter,
                QRectF(self.rect()),
                words,
                size_px=TYPE_SHARE * self.height(),
                align=Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter,
            )
        painter.end()
