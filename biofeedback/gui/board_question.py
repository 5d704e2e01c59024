"""The question that stands while another board is on the port: use this one?

It is asked in the desk's foot, so that it stays in sight, and only as long as that
board is there. The answer is the practitioner's alone; nothing answers it by itself.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from biofeedback.gui.language import filled

if TYPE_CHECKING:
    from biofeedback.session import OtherBoard


class BoardQuestion(QWidget):
    """Which board is here, and a button to use it.

    Signals:
        use_wanted: the other board is to be used, with its `OtherBoard`.
    """

    use_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._other: OtherBoard | None = None
        self._in_set = False
        self.words = QLabel()
        self.words.setObjectName("look")
        self.words.setWordWrap(True)
        self.words.setAccessibleName(self.tr("Another board"))
        self.use = QPushButton(self.tr("Use this board"))
        self.use.clicked.connect(self._use)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(self.words, 1)
        row.addWidget(self.use)
        self._show()

    def ask(self, other: OtherBoard | None, *, in_set: bool = False) -> None:
        """The board that is there now; None where it is the one in use.

        Args:
            in_set: whether a set is under way: it has to be stopped first.
        """
        if (other, in_set) == (self._other, self._in_set):
            return
        self._other, self._in_set = other, in_set
        if other is not None:
            words = (
                self.tr("Here: {here}. Put {known} back, or stop the set first.")
                if in_set
                else self.tr("Here: {here}. Put {known} back, or use this one.")
            )
            self.words.setText(filled(words, here=other.here, known=other.known))
        self._show()

    def _show(self) -> None:
        asked = self._other is not None
        self.use.setEnabled(asked)  # its key works while it is hidden
        self.setVisible(asked)

    def _use(self) -> None:
        if self._other is not None:
            self.use_wanted.emit(self._other)
