"""A box to choose one value of an enum, and its label."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel

from biofeedback.gui.language import shown

if TYPE_CHECKING:
    from enum import Enum


def enum_box(kind: type[Enum], name: str) -> QComboBox:
    """Offers all values of an enum in their own words."""
    box = QComboBox()
    box.setAccessibleName(name)
    narrow(box)
    for value in kind:
        box.addItem(shown(value.value), userData=value)
    return box


def narrow(box: QComboBox) -> None:
    """Lets a box be narrower than its longest choice."""
    policy = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
    box.setSizeAdjustPolicy(policy)
    box.setMinimumContentsLength(8)


def choose(box: QComboBox, value: Enum) -> None:
    """Chooses a value that is offered."""
    # Not findData: values of enums do not survive the way through Qt on all systems.
    for index in range(box.count()):
        if box.itemData(index) is value:
            box.setCurrentIndex(index)


def labelled(label: str, box: QComboBox) -> QGridLayout:
    """The box with its label on the left."""
    row = QGridLayout()
    row.setHorizontalSpacing(5)
    words = QLabel(label)
    words.setBuddy(box)
    row.addWidget(words, 0, 0)
    row.addWidget(box, 0, 1)
    row.setColumnStretch(1, 1)
    return row
