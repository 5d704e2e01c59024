"""A page to read: a heading, columns, and the arrow keys that move them."""

from __future__ import annotations

from typing import ClassVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.language import said


class ReadingPage(QWidget):
    """What keys and cautions have in common.

    Attributes:
        TITLE: heading, and name for screen readers; each page has its own.

    Signals:
        live_wanted: back to the live page.
    """

    TITLE: ClassVar[str] = ""
    live_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        title = said(self.TITLE)
        self.setAccessibleName(title)
        self.live = QPushButton(self.tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        self.heading = QLabel(title)
        self.heading.setObjectName("who")
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        self.columns = QHBoxLayout()
        inner = QWidget()
        inner.setLayout(self.columns)
        self.body = QScrollArea()
        self.body.setWidget(inner)
        self.body.setWidgetResizable(True)
        self.body.setAccessibleName(title)
        self.whole = QVBoxLayout(self)
        self.whole.setContentsMargins(12, 10, 12, 12)
        self.whole.addLayout(head)
        self.whole.addWidget(self.body, 1)

    def stand_beside(self) -> None:
        """Stands in the place of the desk's column, beside the live picture."""
        # It covers what is below it, whose keys go on.
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.live.setText(self.tr("Close"))
        self.heading.setWordWrap(True)
        self.whole.setContentsMargins(10, 6, 10, 0)

    def enter(self) -> None:
        """The page is shown: the arrow keys move it."""
        self.body.setFocus()
