"""Hands at a page: keys and typing as a person does them, and what is in the file."""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractSlider,
    QApplication,
    QLabel,
    QPushButton,
    QScrollArea,
    QWidget,
)

from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.field import Field
    from biofeedback.gui.list_page import ListPage

FIRST = "Save the change, or take it back, first."
TABS_MOST = 60
NO_KEY = Qt.KeyboardModifier.NoModifier


def bring_up(qtbot: QtBot, widget: QWidget) -> None:
    """Shows it; keys reach it from then on."""
    qtbot.addWidget(widget)
    with qtbot.waitActive(widget):
        widget.show()
        widget.activateWindow()
    QCoreApplication.processEvents()  # keys reach a window a moment later


def turn(widget: QWidget) -> None:
    """The wheel, one notch down, over the middle of a control."""
    middle = QPointF(widget.rect().center())
    event = QWheelEvent(
        middle,
        QPointF(widget.mapToGlobal(middle.toPoint())),
        QPoint(),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(widget, event)


class Hands:
    """Uses a page in a window of its own."""

    def __init__(self, qtbot: QtBot, page: ListPage) -> None:
        self.page = page
        page.setStyleSheet(style_sheet(DAY))
        page.resize(1280, 720)
        bring_up(qtbot, page)
        page.set_theme(DAY)
        page.enter()
        QCoreApplication.processEvents()

    @property
    def focus(self) -> QWidget:
        focused = QApplication.focusWidget()
        assert focused is not None
        return focused

    def press(self, *keys: str) -> None:
        """Key after key, wherever the focus is."""
        for key in keys:
            QTest.keySequence(self.focus, QKeySequence(key))

    def write(self, text: str) -> None:
        """Types in the place of what stands where the focus is."""
        self.press("Ctrl+A")
        if text:
            self.add(text)
        else:
            self.press("Del")

    def add(self, text: str) -> None:
        """Types where the focus is."""
        for letter in text:
            if letter.isascii():
                QTest.keyClicks(self.focus, letter)
            else:  # QTest knows no others
                pressed = QKeyEvent(QEvent.Type.KeyPress, 0, NO_KEY, letter)
                QCoreApplication.sendEvent(self.focus, pressed)

    def tab_to(self, widget: QWidget) -> None:
        """Goes there by Tab alone."""
        for _ in range(TABS_MOST):
            if self.focus is widget:
                return
            QTest.keyClick(self.focus, Qt.Key.Key_Tab)
        message = f"Tab does not lead to {widget}"
        raise AssertionError(message)

    def ring(self) -> list[QWidget]:
        """All that Tab leads to, once round."""
        seen = [self.focus]
        for _ in range(TABS_MOST):
            QTest.keyClick(self.focus, Qt.Key.Key_Tab)
            if self.focus in seen:
                return seen
            seen.append(self.focus)
        message = "Tab does not come round"
        raise AssertionError(message)

    def entries(self) -> list[str]:
        """The lines of the list."""
        shown = self.page.list
        return [shown.item(row).text() for row in range(shown.count())]

    @property
    def told(self) -> str:
        """What is said at the foot of the page; empty where nothing is shown."""
        message = self.page.message
        return message.text() if message.isVisible() else ""


class Entries(Hands):
    """Uses a page of entries that stand in a logbook.

    Args:
        place: the logbook's file.
    """

    def __init__(self, qtbot: QtBot, page: ListPage, place: Path) -> None:
        self.place = place
        super().__init__(qtbot, page)

    def fill(self, **texts: str) -> None:
        """Types into fields of the page, by their names."""
        for name, text in texts.items():
            getattr(self.page, name).line.setFocus()
            self.write(text)

    def refused(self, field: Field, words: str) -> None:
        """Saves, which must be refused with words, and must leave all as it was."""
        typed, file = self.page.typed(), kept(self.place)
        self.press("Ctrl+S")
        assert words in field.error.text()
        assert field.error.isVisible()
        assert field.line.hasFocus()
        assert self.page.typed() == typed
        assert kept(self.place) == file
        assert self.told == "Not saved: a field needs another value."

    def lead_nowhere(self, *moves: Callable[[], object]) -> None:
        """None of them leads away from what was typed."""
        for move in moves:
            before = self._shown()
            move()
            assert self.told == FIRST
            assert self._shown() == before
            self.page.say("")

    def _shown(self) -> tuple[object, ...]:
        page = self.page
        return (
            *(page.typed(), page.key),
            *(page.list.currentRow(), page.archived.isChecked()),
        )


def kept(place: Path) -> tuple[str, ...]:
    """All that stands in a logbook's file."""
    reader = sqlite3.connect(place)
    try:
        return tuple(reader.iterdump())
    finally:
        reader.close()


def nameless(page: QWidget) -> list[QWidget]:
    """Controls that a screen reader could not name."""
    controls = [
        widget
        for widget in page.findChildren(QWidget)
        if widget.focusPolicy() is not Qt.FocusPolicy.NoFocus
        and not isinstance(widget, QAbstractSlider)
        and widget.window() is page.window()  # no list of a box that is shut
        # The line inside an editable box is named by the box.
        and widget.focusProxy() is None
        and not widget.objectName().startswith("qt_")
    ]
    assert controls
    return [
        widget
        for widget in controls
        if not widget.accessibleName() and not str(widget.property("text") or "")
    ]


def cut_off(page: QWidget) -> list[str]:
    """Labels and buttons that have less room than their words ask for."""
    cut = []
    for label in page.findChildren(QLabel):
        if not label.isVisible() or not label.text():
            continue
        wraps = label.wordWrap()
        high = label.heightForWidth(label.width()) if wraps else 0
        wide = 0 if wraps else label.sizeHint().width()
        if label.height() < high or label.width() < wide:
            cut.append(label.text())
    for button in page.findChildren(QPushButton):
        words = button.fontMetrics().horizontalAdvance(button.text())
        if button.isVisible() and button.width() < words:
            cut.append(button.text())
    return cut + [
        area.accessibleName()
        for area in page.findChildren(QScrollArea)
        if (inner := area.widget()) and inner.width() > area.viewport().width()
    ]
