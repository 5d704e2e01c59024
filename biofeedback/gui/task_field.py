"""The name of a task at the desk: chosen from the list of tasks, or typed.

A name of the list is completed as it is typed; any other is allowed. Nothing but a
choice or what is typed changes it: not the wheel, and not an arrow key, which opens
the list.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QLineEdit,
    QSizePolicy,
    QWidget,
)

from biofeedback.gui.enum_box import narrow
from biofeedback.gui.field import Field

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtGui import QFocusEvent, QKeyEvent, QWheelEvent

SPACE_PX = 12
"""Beside a name in the open list, which shows all of them whole."""
_MOVES = {Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown}


class TaskField(Field):
    """A field with a list to choose from.

    Attributes:
        titles: gives the names in the list, as they are shown.
        box: holds the line and opens the list.
    """

    def __init__(self, label: str, parent: QWidget | None = None) -> None:
        super().__init__(label, error_below=False, parent=parent)
        self.titles: Callable[[], Sequence[str]] = tuple
        tip = self.tr("Choose one, or type the name of a new one.")
        self.box = _Box(self.line, lambda: self.titles())  # noqa: PLW0108  of then
        self.box.setAccessibleName(label)
        self.label.setBuddy(self.box)
        for part in (self.line, self.label, self.box):
            part.setToolTip(tip)
        layout = self.layout()
        if isinstance(layout, QGridLayout):
            layout.addWidget(self.box, 0, 1)  # where the line was, which it holds now
        self.box.activated.connect(self._choose)

    def _choose(self) -> None:
        self._finish()
        self.line.setCursorPosition(0)  # of a long name the beginning is seen


class _Box(QComboBox):
    """Asks for its list when it is about to be used."""

    def __init__(self, line: QLineEdit, titles: Callable[[], Sequence[str]]) -> None:
        super().__init__()
        self._titles = titles
        self._offered: tuple[str, ...] = ()
        self.setEditable(True)
        self.setLineEdit(line)
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        # A menu would catch the stop key while it is open.
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)
        narrow(self)  # a long name must not widen the column
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def _offer(self) -> None:
        """The list as it is now; what stands in the line stays."""
        titles = tuple(self._titles())
        if titles == self._offered:
            return
        self._offered = titles
        before = self.currentText()
        blocked = self.blockSignals(True)
        self.clear()
        self.addItems(titles)
        self.setCurrentIndex(-1)
        self.setEditText(before)
        self.blockSignals(blocked)
        self.view().setMinimumWidth(self.view().sizeHintForColumn(0) + SPACE_PX)

    def showPopup(self) -> None:  # noqa: N802  Qt's name
        """Opens the list."""
        self._offer()
        super().showPopup()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802  Qt's name
        """Something may be typed, which the list completes."""
        self._offer()
        super().focusInEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """An arrow opens the list; it is no other task yet."""
        if event.key() in _MOVES:
            self.showPopup()
        else:
            super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802  Qt's name
        """What scrolls behind it has the wheel."""
        event.ignore()
