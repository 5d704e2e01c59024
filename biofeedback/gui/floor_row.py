"""The row that takes a lowering's floor from its paired task, and says what it took.

Date, origin and side of the peak stand there with what speaks against it. It decides
nothing: whoever presses it sees what came of it, and any floor can still be typed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.plain_label import plain_label

if TYPE_CHECKING:
    from collections.abc import Sequence


class FloorRow(QWidget):
    """A button, and under it what it did.

    Signals:
        wanted: the floor is to be taken from the paired task.
    """

    wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.button = QPushButton(self.tr("Floor from the paired task"))
        self.button.setToolTip(
            self.tr(
                "The isometric peak of the task that this lowering is paired with:\n"
                "the best of today, else the latest."
            )
        )
        self.told = plain_label(
            look="summary", name=self.tr("Where the floor comes from")
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self.button)
        layout.addWidget(self.told)
        self.button.clicked.connect(self.wanted)
        self.say(())

    def say(self, lines: Sequence[str]) -> None:
        """What came of it, a line for each side; empty for nothing."""
        self.told.setText("\n".join(lines))
        self.told.setVisible(bool(lines))
