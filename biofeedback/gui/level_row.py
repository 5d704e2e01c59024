"""A row of eleven buttons, 0 to 10, for what the athlete says while at the rig."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from biofeedback.gui.moved_row import MovedRow

LEVEL_MOST = 10


class LevelRow(QWidget):
    """One question; each press is an answer of its own.

    The answer that was taken last stands out: a filled button, a bold figure.

    Args:
        name: of what is asked.
        modifier: of the keys: with it 0 to 9, and with Shift on top 0 for 10.

    Signals:
        marked: a level from 0 to 10.
        back_wanted: the last answer was a slip.

    Attributes:
        moved: keeps presses from it while it has just moved.
        back: takes the last answer back; hidden, and its place kept, where nothing
            can be taken back.
    """

    marked = Signal(int)
    back_wanted = Signal()

    def __init__(
        self, name: str, *, modifier: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.label = QLabel(name)
        self._modifier = modifier
        self._level: int | None = None
        self.buttons = [QPushButton(str(level)) for level in range(LEVEL_MOST + 1)]
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        row.addWidget(self.label)
        for level, button in enumerate(self.buttons):
            button.setObjectName("pain")
            button.setAccessibleName(f"{name} {level}")
            button.setCheckable(True)
            button.clicked.connect(lambda _=False, at=level: self._press(at))
            row.addWidget(button, 1)
        self.back = QPushButton("←")
        self.back.setObjectName("pain")
        self.back.setEnabled(False)
        self.back.clicked.connect(self.back_wanted)
        keeps = self.back.sizePolicy()
        keeps.setRetainSizeWhenHidden(True)
        self.back.setSizePolicy(keeps)
        self.back.hide()
        row.addWidget(self.back, 1)
        self.moved = MovedRow(self, (*self.buttons, self.back))

    @property
    def level(self) -> int | None:
        """The answer that is marked, or None."""
        return self._level

    def show_level(self, level: int | None) -> None:
        """Marks the answer that was taken, or none."""
        self._level = level
        for at, button in enumerate(self.buttons):
            button.setChecked(at == level)

    def _press(self, level: int) -> None:
        """What was pressed is marked by whoever takes it."""
        self.show_level(self._level)
        self.marked.emit(level)

    def keys(self) -> tuple[tuple[QPushButton, str], ...]:
        """Each button and its key."""
        return tuple(
            (button, f"{self._modifier}+{level}")
            if level < LEVEL_MOST
            else (button, f"{self._modifier}+Shift+0")
            for level, button in enumerate(self.buttons)
        )
