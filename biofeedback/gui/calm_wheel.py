"""The mouse wheel scrolls; it changes a value only where the focus is.

A wheel that passes over a list of choices would otherwise choose another one unseen.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QAbstractSpinBox, QComboBox, QSlider, QWidget


class CalmWheel(QObject):
    """Lets the page behind a control have the wheel while the control has no focus."""

    def calm(self, page: QWidget) -> None:
        """Watches over all controls of a page that a wheel could change."""
        for kind in (QComboBox, QSlider, QAbstractSpinBox):
            for control in page.findChildren(kind):
                control.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Ignored here, the event goes on to whatever scrolls behind."""
        if (
            event.type() is QEvent.Type.Wheel
            and isinstance(watched, QWidget)
            and not watched.hasFocus()
        ):
            event.ignore()
            return True
        return super().eventFilter(watched, event)
