"""A box for some lines of text, with its label; the same manners as a `Field`."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QLabel,
    QPlainTextEdit,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.field import as_sentence
from biofeedback.gui.plain_label import plain_label


class _Lines(QPlainTextEdit):
    """As high as some lines of whatever type it is in."""

    def __init__(self, lines: int) -> None:
        super().__init__()
        self._lines = lines
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Room for the lines, between margins and frame."""
        around = 2 * (round(self.document().documentMargin()) + self.frameWidth() + 1)
        height = self._lines * self.fontMetrics().lineSpacing() + around
        return QSize(super().sizeHint().width(), height)

    def minimumSizeHint(self) -> QSize:
        """No higher than that either."""
        return QSize(super().minimumSizeHint().width(), self.sizeHint().height())


class TextBox(QWidget):
    """Some lines of text.

    Args:
        lines: how many are seen at once.
    """

    def __init__(
        self,
        label: str,
        *,
        tip: str = "",
        lines: int = 3,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.label = QLabel(label)
        self.box = _Lines(lines)
        self.box.setAccessibleName(label)
        self.box.setTabChangesFocus(True)
        self.box.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)
        self.box.setToolTip(tip)
        self.label.setToolTip(tip)
        self.label.setBuddy(self.box)
        self.error = plain_label(look="error")  # it tells what was typed
        self.error.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        for widget in (self.label, self.box, self.error):
            layout.addWidget(widget)
        self.box.textChanged.connect(lambda: self.complain(""))

    @property
    def text(self) -> str:
        """What stands in it, without blanks around it."""
        return self.box.toPlainText().strip()

    def set_text(self, text: str) -> None:
        """Puts a text in; it is taken as right."""
        self.box.setPlainText(text)
        self.complain("")

    def complain(self, problem: str) -> None:
        """Says what is wrong, or with nothing that all is well."""
        self.error.setText(as_sentence(problem))
        self.error.setVisible(bool(problem))
