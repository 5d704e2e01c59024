"""A label that shortens what has no room, and says by which key it is read whole.

* Nothing is cut unseen: what is left out stands as “…” with the key.
* The end of a message may be kept in sight, such as what the start key does now.
* `text` is the whole text, as for whoever reads it by other means than the screen.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

LEFT_OUT = "…"


class ShortLabel(QLabel):
    """Words of several lines in the room that there is.

    Attributes:
        key: by which all of it is read.
        shortened: whether something is left out.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setIndent(0)  # what Qt takes for it in a frame is not what it draws
        self.key = ""
        self.shortened = False
        self._whole = self._end = ""

    def text(self) -> str:
        """All of it."""
        return self._whole

    @property
    def drawn(self) -> str:
        """What stands on the screen."""
        return QLabel.text(self)

    def tell(self, text: str, *, end: str = "") -> None:
        """Other words.

        Args:
            end: the last words of them, which stay in sight.
        """
        self._whole, self._end = text, end if text.endswith(end) else ""
        self.setAccessibleDescription(text)
        self.fit()

    def needed_px(self) -> int:
        """How high it would be with all of it."""
        return self._high(self._whole)

    def fit(self) -> None:
        """Shortens the words as far as it must be."""
        self.shortened = self._high(self._whole) > max(1, self.height())
        if not self.shortened:
            self.setText(self._whole)
            return
        words = self._whole.removesuffix(self._end).split()
        fits, most = 0, len(words)
        while fits < most:
            count = (fits + most + 1) // 2
            if self._high(self._short(words[:count])) <= self.height():
                fits = count
            else:
                most = count - 1
        self.setText(self._short(words[:fits]))

    def _short(self, words: list[str]) -> str:
        key = f"({self.key})" if self.key else ""
        return " ".join(filter(None, (*words, LEFT_OUT, key, self._end)))

    def _high(self, text: str) -> int:
        """How high it is with these words, without giving them to the label.

        Whatever is given to a label makes it ask for a new layout, in which it is
        asked for its height again.
        """
        room = self.contentsRect()
        flags = self.alignment().value | Qt.TextFlag.TextWordWrap.value
        words = self.fontMetrics().boundingRect(room, flags, text)
        return words.height() + self.height() - room.height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """More room, more of the words."""
        super().resizeEvent(event)
        self.fit()
