"""A label for words of any length, of which none is taken for markup; its height."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import QLabel


def plain_label(text: str = "", *, look: str = "", name: str = "") -> QLabel:
    """A label that wraps.

    Args:
        look: name of its style; empty for that of the text around it.
        name: for whoever hears it; empty where the words say it.
    """
    label = QLabel(text)
    label.setObjectName(look)
    label.setAccessibleName(name)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label


def lines_px(label: QLabel, lines: int) -> int:
    """How high so many lines of it are, in the type that is in use.

    Qt rounds each line up, which the spacing of its lines does not tell.
    """
    label.ensurePolished()
    return label.fontMetrics().boundingRect(QRect(), 0, "\n".join("X" * lines)).height()
