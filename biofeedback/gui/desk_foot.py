"""The foot of the desk: what stays in sight whatever is shown above it.

How the signal is, the way to stop rules and cautions, the messages, start and stop.
"""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.health_line import HealthLine
from biofeedback.gui.messages import Messages

KEY_PX = 48


class DeskFoot(QWidget):
    """Never scrolled away, and never covered."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.health = HealthLine()
        self.cautions = QPushButton(tr("Care"))
        self.cautions.setObjectName("page")
        self.messages = Messages()
        self.start = QPushButton(tr("Start"))
        self.stop = QPushButton(tr("Stop"))
        signal = QHBoxLayout()
        signal.setSpacing(4)
        signal.addWidget(self.health, 1)
        signal.addWidget(self.cautions)
        keys = QHBoxLayout()
        keys.setSpacing(6)
        for button, name in ((self.start, "start"), (self.stop, "stop")):
            button.setObjectName(name)
            keys.addWidget(button, 2 if name == "start" else 3)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(8, 2, 8, 6)
        rows.setSpacing(4)
        rows.addLayout(signal)
        rows.addWidget(self.messages)
        rows.addLayout(keys)
        self.set_size(1.0)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.messages.set_size(size)
        for button in (self.start, self.stop):
            button.setMinimumHeight(round(KEY_PX * size))
