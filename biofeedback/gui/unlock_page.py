"""The page before a sealed logbook: one field, and words about what was typed.

It stands alone, before there is a session. Enter opens, Esc leaves; what is typed is
shown only while the box is ticked, and is let go of as soon as it was tried.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.language import filled, shown
from biofeedback.gui.style import style_sheet

if TYPE_CHECKING:
    from PySide6.QtGui import QCloseEvent, QKeyEvent

    from biofeedback.gui.theme import Theme
    from biofeedback.session.unlocking import Unlocking

WIDTH_PX = 520
TYPED_MOST = 1000
TICK_MS = 200
"""Python hears of Ctrl-C only between two steps of its own."""


class UnlockPage(QWidget):
    """Asks for the passphrase.

    Attributes:
        ended: the page is done; `opened` says how.
        opened: whether the logbook can be opened now.
    """

    ended = Signal()

    def __init__(
        self,
        unlocking: Unlocking,
        theme: Theme,
        *,
        size: float = 1.0,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.opened = False
        self._unlocking = unlocking
        self.setWindowTitle(self.tr("Sealed logbook"))
        self.setPalette(theme.qt_palette())
        self.setStyleSheet(style_sheet(theme, size=size))
        self.setFixedWidth(round(WIDTH_PX * size))
        self._ticks = QTimer(self)
        self._ticks.timeout.connect(lambda: None)
        self._ticks.start(TICK_MS)
        self._lay_out()

    def _lay_out(self) -> None:
        self.title = QLabel(self.tr("This logbook is sealed"))
        self.title.setObjectName("who")
        self.place = _words(
            filled(self.tr("File: {logbook}"), logbook=str(self._unlocking.logbook))
        )
        self.place.setObjectName("summary")
        self.field = QLineEdit()
        self.field.setAccessibleName(self.tr("Passphrase"))
        self.field.setPlaceholderText(self.tr("Passphrase"))
        self.field.setMaxLength(TYPED_MOST)
        self.field.setEchoMode(QLineEdit.EchoMode.Password)
        self.field.returnPressed.connect(self._enter)
        self.seen = QCheckBox(self.tr("Show what is typed"))
        self.seen.toggled.connect(self._show_typed)
        self.message = _words(self.tr("Type the passphrase to open it."))
        self.message.setObjectName("message")
        self.message.setAccessibleName(self.tr("Messages"))
        self.lost = _words(
            self.tr(
                "Passphrase lost? With the recovery code, on the command line: "
                "biofeedback seal --recover"
            )
        )
        self.lost.setObjectName("summary")
        self.enter = QPushButton(self.tr("Open (Enter)"))
        self.enter.clicked.connect(self._enter)
        self.leave = QPushButton(self.tr("Close (Esc)"))
        self.leave.clicked.connect(self.close)
        buttons = QHBoxLayout()
        buttons.addWidget(self.enter, 1)
        buttons.addWidget(self.leave, 1)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(24, 20, 24, 20)
        rows.setSpacing(10)
        for widget in (self.title, self.place, self.field, self.seen, self.message):
            rows.addWidget(widget)
        rows.addLayout(buttons)
        rows.addWidget(self.lost)
        if self._unlocking.problem:  # no passphrase would help
            for needless in (self.field, self.seen, self.enter, self.lost):
                needless.hide()
            self.message.setText(shown(self._unlocking.problem))
            self.leave.setFocus()
        else:
            self.field.setFocus()

    def _show_typed(self, seen: bool) -> None:
        modes = QLineEdit.EchoMode
        self.field.setEchoMode(modes.Normal if seen else modes.Password)

    def _enter(self) -> None:
        if not self.field.text() or not self.field.isEnabled():
            return
        self.field.setEnabled(False)
        self.message.setText(self.tr("One moment …"))
        self.message.repaint()  # trying takes half a second
        QTimer.singleShot(0, self._try)

    def _try(self) -> None:
        words = self._unlocking.tried(self.field.text())
        self.field.clear()
        self.field.setEnabled(True)
        self.field.setFocus()
        if words:
            self.message.setText(
                filled(
                    self.tr("{problem} Nothing was opened; type it again."),
                    problem=words,
                )
            )
            return
        self.opened = True
        self.close()

    def close_at_once(self) -> None:
        """As its owner would."""
        self.close()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc leaves."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
            return
        super().keyPressEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        """However it is closed, it is done."""
        self._ticks.stop()
        self.field.clear()
        super().closeEvent(event)
        self.ended.emit()


def _words(text: str) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    return label
