"""Names of boxes with choices, where a screen reader hears them.

On Linux Qt tells a reader the chosen words in the place of a box's accessible name, and
leaves the name to a label beside it (seen in Qt 6.11). So the name of a box is told as
its description too.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QComboBox

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


def speak_names(page: QWidget) -> None:
    """All boxes of a page that have a name and no description."""
    for box in page.findChildren(QComboBox):
        if not box.accessibleDescription():
            box.setAccessibleDescription(box.accessibleName())
