"""A list of entries in which only a decision chooses: no passing by, no single click.

Rules that hold here:

* Arriving by Tab chooses nothing, so that nobody types into an entry unawares.
* Enter and a double click take an entry, on every system alike.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent


class EntryList(QListWidget):
    """Entries with a key each.

    Signals:
        picked: the key of an entry that was moved or clicked to.
        taken: the entry that is chosen is taken.
    """

    picked = Signal(str)
    taken = Signal()

    def __init__(self) -> None:
        super().__init__()
        # A long line is cut with dots, in the middle: what a name begins with and
        # what stands behind it are seen. Its tip tells all of it.
        self.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setUniformItemSizes(True)  # else each of a thousand is measured
        self._quiet = False
        self.currentItemChanged.connect(self._moved)

    def show_entries(self, entries: Iterable[tuple[str, str]], chosen: str) -> None:
        """Other entries, key and text of each."""
        self._quiet = True
        self.clear()
        for key, text in entries:
            item = QListWidgetItem(text)
            item.setData(Qt.ItemDataRole.UserRole, key)
            item.setToolTip(plain_tip(text))
            self.addItem(item)
        self._quiet = False
        self.mark(chosen)

    def shown_keys(self) -> list[str]:
        """Those of the entries, from the top."""
        return [_key(self.item(row)) for row in range(self.count())]

    def mark(self, key: str) -> None:
        """Marks an entry as chosen, or none; nothing is told of it."""
        keys = self.shown_keys()
        self._quiet = True
        self.setCurrentRow(keys.index(key) if key and key in keys else -1)
        self._quiet = False

    def _moved(self, item: QListWidgetItem | None) -> None:
        if not self._quiet and item is not None:
            self.picked.emit(_key(item))

    def focusInEvent(  # noqa: N802  Qt's name
        self, event: QFocusEvent
    ) -> None:
        """Qt would move to the first entry where none is chosen."""
        row, self._quiet = self.currentRow(), True
        super().focusInEvent(event)
        self.setCurrentRow(row)
        self._quiet = False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes the entry."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
        else:
            super().keyPressEvent(event)

    def mouseDoubleClickEvent(  # noqa: N802  Qt's name
        self, event: QMouseEvent
    ) -> None:
        """A double click takes the entry."""
        super().mouseDoubleClickEvent(event)
        item = self.itemAt(event.position().toPoint())
        if item is not None and item is self.currentItem():
            self.taken.emit()


def plain_tip(text: str) -> str:
    """A tip that shows a text as it was typed, even where it looks like a document."""
    return f"<p>{escape(text)}</p>" if "<" in text else text


def _key(item: QListWidgetItem) -> str:
    return str(item.data(Qt.ItemDataRole.UserRole))
