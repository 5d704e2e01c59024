"""A made-up language in which each translated text carries marks.

What is shown in letters without marks around it came past the translation, whatever it
says: plain strings are found that no list of English words could tell. Only the literal
parts of a text are marked, so a plain string that is filled into a template shows too.
"""

from __future__ import annotations

import re
import string
from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractTableModel, QModelIndex, Qt, QTranslator
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QGraphicsTextItem,
    QGraphicsView,
    QGroupBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QTextEdit,
    QWidget,
)

from biofeedback.gui import language
from biofeedback.gui.translations import catalogue
from biofeedback.gui.translations.collected import Text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    import pytest
    from PySide6.QtCore import QAbstractItemModel

BEGIN, END = "⟦", "⟧"
KNOWN = catalogue.read(language.CATALOGUES / "biofeedback_es.ts")
ROLES = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
    Qt.ItemDataRole.AccessibleDescriptionRole,
)
ROWS_MOST = 60
"""Of a table; the rows below say nothing else."""


def marked_text(template: str) -> str:
    """The template with marks around each literal part that has letters."""
    made = []
    for literal, name, form, conversion in string.Formatter().parse(template):
        braces = literal.replace("{", "{{").replace("}", "}}")
        words = any(letter.isalpha() for letter in literal)
        made.append(f"{BEGIN}{braces}{END}" if words else braces)
        if name is not None:
            how = (f"!{conversion}" if conversion else "") + (
                f":{form}" if form else ""
            )
            made.append(f"{{{name}{how}}}")
    return "".join(made)


def _marks(source: str) -> str:
    try:
        return marked_text(source)
    except ValueError:  # a brace that is no placeholder
        return f"{BEGIN}{source}{END}"


class MarkedWords(QTranslator):
    """The made-up language: what is in the catalogue gets its marks."""

    def translate(
        self,
        _context: str,
        source: str,
        disambiguation: str | None = None,
        _number: int = -1,
    ) -> str | None:
        """The text with its marks; None where the catalogue does not have it."""
        known = Text(source, disambiguation or "") in KNOWN
        return _marks(source) if known else None

    def isEmpty(self) -> bool:  # noqa: N802  Qt's name
        """Qt asks no translator that says it has nothing."""
        return False


def outside(text: str) -> str:
    """What of a text stands outside of marks; a text that was cut may lack one."""
    first_end, first_begin = text.find(END), text.find(BEGIN)
    if first_end >= 0 and not 0 <= first_begin < first_end:
        text = text[first_end + 1 :]
    return re.sub(f"{BEGIN}[^{BEGIN}{END}]*(?:{END}|$)", "\n", text)


def texts_of(widget: QWidget) -> Iterator[str]:
    """All that a widget tells, on the screen, as a tip and to a screen reader."""
    if isinstance(widget, QLabel | QAbstractButton):
        yield widget.text()
    if isinstance(widget, QGroupBox):
        yield widget.title()
    if isinstance(widget, QComboBox):
        yield from (widget.itemText(index) for index in range(widget.count()))
    if isinstance(widget, QLineEdit):
        yield widget.placeholderText()
    yield from _texts_within(widget)
    yield from (widget.toolTip(), widget.accessibleName())
    yield from (widget.accessibleDescription(), widget.windowTitle())


def _texts_within(widget: QWidget) -> Iterator[str]:
    """What stands in a menu, a document, a list, a table or a scene."""
    if isinstance(widget, QPushButton) and widget.menu() is not None:
        yield from (action.text() for action in widget.menu().actions())
    if isinstance(widget, QPlainTextEdit | QTextEdit):
        yield widget.toPlainText()
    if isinstance(widget, QAbstractItemView) and widget.model() is not None:
        yield from _texts_of_model(widget.model())
    if isinstance(widget, QGraphicsView) and widget.scene() is not None:
        for item in widget.scene().items():
            if isinstance(item, QGraphicsTextItem) and item.isVisible():
                yield item.toPlainText()


def _texts_of_model(model: QAbstractItemModel) -> Iterator[str]:
    tabular = isinstance(model, QAbstractTableModel)
    columns = range(model.columnCount(QModelIndex()) if tabular else 1)
    told: list[object] = []
    for column in columns:
        told += [
            model.headerData(column, Qt.Orientation.Horizontal, role) for role in ROLES
        ]
    for row in range(min(model.rowCount(QModelIndex()), ROWS_MOST)):
        for column in columns:
            index: QModelIndex = model.index(row, column)
            told += [model.data(index, role) for role in ROLES]
    yield from (one for one in told if isinstance(one, str))


def in_sight(windows: Iterable[QWidget]) -> Iterator[QWidget]:
    """All widgets that are shown, of each window."""
    for window in windows:
        if window.isVisible():
            yield window
            yield from (one for one in window.findChildren(QWidget) if one.isVisible())


def painted(patch: pytest.MonkeyPatch) -> list[str]:
    """What is painted as text from now on, as the painter was handed it."""
    seen: list[str] = []
    draw = QPainter.drawText

    def told(self: QPainter, *args: object) -> object:
        seen.extend(one for one in args if isinstance(one, str))
        return draw(self, *args)  # type: ignore[call-overload]  # handed on as it came

    patch.setattr(QPainter, "drawText", told)
    return seen
