"""A row of eleven buttons, 0 to 10, for what the athlete says while at the rig.

A press of the mouse right after the row was moved by the desk is not taken: it may
have been meant for what stood there before. Keys are not affected.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

if TYPE_CHECKING:
    from collections.abc import Callable

LEVEL_MOST = 10
SETTLED_S = 1.0
"""A hand that was on its way when the row moved has arrived by then (our own choice;
the 1 s also covers whoever looks up before pressing)."""

_PRESSES = (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick)


class LevelRow(QWidget):
    """One question; each press is an answer of its own.

    The answer that was taken last stands out: a filled button, a bold figure.

    Args:
        name: of what is asked.
        modifier: of the keys: with it 0 to 9, and with Shift on top 0 for 10.

    Signals:
        marked: a level from 0 to 10.
        back_wanted: the last answer was a slip.
        unsettled: a press was not taken, as the row had just moved.

    Attributes:
        clock: monotonic time in ns.
        back: takes the last answer back; hidden, and its place kept, where nothing
            can be taken back.
    """

    marked = Signal(int)
    back_wanted = Signal()
    unsettled = Signal()

    def __init__(
        self, name: str, *, modifier: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.label = QLabel(name)
        self._modifier = modifier
        self._level: int | None = None
        self.clock: Callable[[], int] = time.monotonic_ns
        self._at: QPoint | None = None  # in the window
        self._moved_ns: int | None = None
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
            button.installEventFilter(self)
            row.addWidget(button, 1)
        self.back = QPushButton("←")
        self.back.setObjectName("pain")
        self.back.setEnabled(False)
        self.back.clicked.connect(self.back_wanted)
        self.back.installEventFilter(self)
        keeps = self.back.sizePolicy()
        keeps.setRetainSizeWhenHidden(True)
        self.back.setSizePolicy(keeps)
        self.back.hide()
        row.addWidget(self.back, 1)

    @property
    def level(self) -> int | None:
        """The answer that is marked, or None."""
        return self._level

    def show_level(self, level: int | None) -> None:
        """Marks the answer that was taken, or none."""
        self._level = level
        for at, button in enumerate(self.buttons):
            button.setChecked(at == level)

    def see_place(self) -> None:
        """Where it stands may be another place now."""
        if not self.isVisible():
            return
        at = self.mapTo(self.window(), QPoint())
        if self._at is not None and at != self._at:
            self._moved_ns = self.clock()
        self._at = at

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keeps a press of the mouse from a row that has just moved."""
        if event.type() not in _PRESSES or self._settled:
            return super().eventFilter(watched, event)
        self.unsettled.emit()
        return True

    @property
    def _settled(self) -> bool:
        moved_ns = self._moved_ns
        return moved_ns is None or self.clock() - moved_ns >= SETTLED_S * 1e9

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
