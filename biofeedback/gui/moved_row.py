"""Keeps a press of the mouse from a row that has just moved.

It may have been meant for what stood there before. Keys are not affected: they know no
place.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, Signal

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from PySide6.QtWidgets import QWidget

SETTLED_S = 1.0
"""A hand that was on its way when the row moved has arrived by then (our own choice;
the 1 s also covers whoever looks up before pressing)."""
_PRESSES = (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick)


class MovedRow(QObject):
    """Watches where a row stands in its window, and the presses on it.

    Args:
        place: moves with the row.
        buttons: whose presses are not taken while it has just moved.

    Signals:
        unsettled: a press was not taken.

    Attributes:
        clock: monotonic time in ns.
    """

    unsettled = Signal()

    def __init__(self, place: QWidget, buttons: Iterable[QWidget]) -> None:
        super().__init__(place)
        self.clock: Callable[[], int] = time.monotonic_ns
        self._place = place
        self._at: QPoint | None = None  # in the window
        self._moved_ns: int | None = None
        for button in buttons:
            button.installEventFilter(self)

    def see_place(self) -> None:
        """Where it stands may be another place now."""
        place = self._place
        if not place.isVisible():
            return
        at = place.mapTo(place.window(), QPoint())
        if self._at is not None and at != self._at:
            self._moved_ns = self.clock()
        self._at = at

    def replace(self) -> None:
        """Another row stands in its place now."""
        self._moved_ns = self.clock()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keeps a press of the mouse from a row that has just moved."""
        if event.type() not in _PRESSES or self._rests:
            return super().eventFilter(watched, event)
        self.unsettled.emit()
        return True

    @property
    def _rests(self) -> bool:
        moved_ns = self._moved_ns
        return moved_ns is None or self.clock() - moved_ns >= SETTLED_S * 1e9
