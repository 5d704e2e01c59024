"""Finds text that has less room in the window than it needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollArea,
    QStyle,
    QStyleOptionFrame,
    QWidget,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

KINDS = (QAbstractButton, QComboBox, QLabel, QLineEdit)
"""What has words of its own."""
BESIDE_PX = 4
"""What Qt leaves free in a line, on both sides of its text."""


def in_sight(window: QWidget) -> Iterator[QWidget]:
    return (one for one in window.findChildren(QWidget) if one.isVisible())


def squeezed(area: QScrollArea) -> bool:
    """Whether what is in it is wider than it, and cannot be moved sideways."""
    off = Qt.ScrollBarPolicy.ScrollBarAlwaysOff
    inner = area.widget()
    return (
        area.horizontalScrollBarPolicy() == off
        and inner is not None
        and inner.width() > area.viewport().width() + 1
    )


def moves_sideways(area: QAbstractScrollArea) -> bool:
    """Whether something in it is off its edge until somebody moves it."""
    return area.horizontalScrollBar().maximum() > 0


def told_below(box: QComboBox, page: QWidget) -> bool:
    """Whether all that a narrow box holds stands in a line of its own as well."""
    return any(
        box.currentText() in label.text()
        for label in page.findChildren(QLabel)
        if label.isVisible()
    )


def off_edge(widget: QWidget) -> bool:
    """Whether it reaches beyond what it stands in, to the left or the right."""
    around = widget.parentWidget()
    if around is None or isinstance(around.parentWidget(), QAbstractScrollArea):
        return False  # what is in an area may be moved
    return widget.x() < -1 or widget.geometry().right() > around.width() + 1


def cut_number(line: QLineEdit) -> bool:
    """Whether a number in it is not seen whole; of words one sees the beginning."""
    if not line.text().replace(",", "").replace(".", "").isdecimal():
        return False
    option = QStyleOptionFrame()
    line.initStyleOption(option)
    inside = QStyle.SubElement.SE_LineEditContents
    room = line.style().subElementRect(inside, option, line).width() - BESIDE_PX
    return line.fontMetrics().horizontalAdvance(line.text()) > room


def cut(widget: QWidget) -> bool:
    """Whether a label or a button has less room than its text needs."""
    needed, given = widget.sizeHint(), widget.size()
    if isinstance(widget, QLabel):
        words = QLabel.text(widget)  # what stands there, also of one that shortens it
        if not words:
            return False
        if widget.wordWrap():
            room = widget.contentsRect()
            room.setHeight(10_000)
            flags = Qt.TextFlag.TextWordWrap | widget.alignment()
            lines = widget.fontMetrics().boundingRect(room, flags, words)
            return lines.height() > given.height() + 1
        low = needed.height() > given.height() + 1
        return low or needed.width() > given.width() + 1
    if isinstance(widget, QAbstractButton):
        return bool(widget.text()) and needed.width() > given.width() + 1
    if isinstance(widget, QComboBox):
        wide = widget.fontMetrics().horizontalAdvance(widget.currentText())
        return wide > given.width() - 24  # the arrow and the frame
    return False


def cut_texts(page: QWidget) -> Iterator[tuple[str, int, int]]:
    """What is cut, how wide it is and how wide it would have to be."""
    for one in in_sight(page):
        if isinstance(one, QScrollArea) and squeezed(one):
            yield one.accessibleName(), one.viewport().width(), 0
        if isinstance(one, KINDS) and off_edge(one):
            yield f"{_words(one)} is off the edge", one.x(), one.width()
        if isinstance(one, QComboBox) and told_below(one, page):
            continue
        if isinstance(one, QLineEdit) and cut_number(one):
            yield one.text(), one.width(), 0
        if cut(one):
            yield _words(one), one.width(), one.sizeHint().width()


def _words(one: QWidget) -> str:
    return one.currentText() if isinstance(one, QComboBox) else str(one.text())  # type: ignore[attr-defined]  # of `KINDS`
