"""A label with a box of choices beside it, and labels that stand in one line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QWidget

if TYPE_CHECKING:
    from collections.abc import Iterable

LEAST_CHARACTERS = 8
"""A box is as wide as its column and no wider, however long a choice is."""


class ChoiceRow(QWidget):
    """One label, one box.

    Attributes:
        box: its choices are filled in by whoever holds it.
    """

    def __init__(
        self, label: str, *, tip: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.label = QLabel(label)
        self.box = QComboBox()
        self.box.setAccessibleName(label)
        self.box.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.box.setMinimumContentsLength(LEAST_CHARACTERS)
        self.label.setBuddy(self.box)
        for widget in (self.label, self.box):
            widget.setToolTip(tip)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(5)
        row.addWidget(self.label)
        row.addWidget(self.box, 1)


def own_width(label: QLabel) -> None:
    """As wide as its own text, whatever width it was given before."""
    label.ensurePolished()
    label.setMinimumWidth(0)
    label.setIndent(label.indent())  # or Qt keeps the width that it once worked out


def same_width(labels: Iterable[QLabel]) -> None:
    """The same width for labels that stand above one another, in any type."""
    labels = tuple(labels)
    for label in labels:
        own_width(label)
    widest = max(label.sizeHint().width() for label in labels)
    for label in labels:
        label.setMinimumWidth(widest)
