"""What was typed and not saved: named once before the window closes.

Who closes again without typing more has decided. A set under way is never kept from
ending by this; its recording needs no saving.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QComboBox, QLineEdit, QPlainTextEdit, QWidget

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QLabel, QPushButton


class Unsaved:
    """The places of the window where one types and then saves."""

    def __init__(self) -> None:
        self._places: list[
            tuple[QLabel | QPushButton, QWidget, Callable[[], bool]]
        ] = []
        self._told: tuple[object, ...] = ()

    def add(
        self, name: QLabel | QPushButton, place: QWidget, dirty: Callable[[], bool]
    ) -> None:
        """Another place.

        Args:
            name: shows what it is called.
            dirty: whether something typed there is not saved.
        """
        self._places.append((name, place, dirty))

    def untold(self) -> str:
        """Names of the places that are not saved; empty where nothing is to be said.

        That is so where all is saved, and where these places were named before and
        nothing was typed since.
        """
        found = [(name.text(), place) for name, place, dirty in self._places if dirty()]
        state = tuple((name, *_typed(place)) for name, place in found)
        told, self._told = self._told, state
        return ", ".join(name for name, _ in found) if state != told else ""


def _typed(place: QWidget) -> tuple[str, ...]:
    """What stands in all fields of a place."""
    return (
        *(line.text() for line in place.findChildren(QLineEdit)),
        *(box.toPlainText() for box in place.findChildren(QPlainTextEdit)),
        *(box.currentText() for box in place.findChildren(QComboBox)),
    )
