"""A row of eleven buttons, 0 to 10, for what the athlete says while at the rig."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

LEVEL_MOST = 10


class LevelRow(QWidget):
    """One question; each press is an answer of its own.

    Args:
        name: of what is asked.
        modifier: of the keys: with it 0 to 9, and with Shift on top 0 for 10.

    Signals:
        marked: a level from 0 to 10.
    """

    marked = Signal(int)

    def __init__(
        self, name: str, *, modifier: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.label = QLabel(name)
        self._modifier = modifier
        self.buttons = [QPushButton(str(level)) for level in range(LEVEL_MOST + 1)]
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        row.addWidget(self.label)
        for level, button in enumerate(self.buttons):
            button.setObjectName("pain")
            button.setAccessibleName(f"{name} {level}")
            button.clicked.connect(lambda _=False, at=level: self.marked.emit(at))
            row.addWidget(button, 1)

    def keys(self) -> tuple[tuple[QPushButton, str], ...]:
        """Each button and its key."""
        return tuple(
            (button, f"{self._modifier}+{level}")
            if level < LEVEL_MOST
            else (button, f"{self._modifier}+Shift+0")
            for level, button in enumerate(self.buttons)
        )
