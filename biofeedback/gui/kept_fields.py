"""What stood in fields, to be put back: what the program put there counts for nothing.

A lowering that is only passed over in a list sets fields of its own. Chosen away again,
each field is as it was before, but for those that the person changed meanwhile.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QComboBox, QLineEdit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget


class KeptFields:
    """Fields as they were before the program filled them.

    Args:
        widgets: lines and boxes; one that decides what another offers stands first.
    """

    def __init__(self, widgets: Sequence[QWidget]) -> None:
        self._widgets = tuple(widgets)
        self._before: tuple[object, ...] = ()
        self._filled: tuple[object, ...] = ()

    def keep(self) -> None:
        """As they are now; the program fills them next."""
        self._before, self._filled = self._now(), ()

    def filled(self) -> None:
        """The program has filled them; what differs later is of a person."""
        self._filled = self._now()

    def forget(self) -> None:
        """Other content: there is nothing to go back to."""
        self._before = self._filled = ()

    def put_back(self) -> None:
        """All that was not changed since it was filled; once."""
        now, before, filled = self._now(), self._before, self._filled
        self.forget()
        if not filled:
            return
        for widget, is_now, was, by_us in zip(
            self._widgets, now, before, filled, strict=True
        ):
            _put(widget, was if is_now == by_us else is_now)

    def _now(self) -> tuple[object, ...]:
        return tuple(map(_content, self._widgets))


def _content(widget: QWidget) -> object:
    if isinstance(widget, QComboBox):
        return widget.currentText() if widget.isEditable() else widget.currentData()
    return widget.text() if isinstance(widget, QLineEdit) else None


def _put(widget: QWidget, content: object) -> None:
    if isinstance(widget, QLineEdit):
        widget.setText(str(content))
    elif isinstance(widget, QComboBox):
        if widget.isEditable():
            widget.setCurrentText(str(content))
        else:
            widget.setCurrentIndex(max(0, widget.findData(content)))
