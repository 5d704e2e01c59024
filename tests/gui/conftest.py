"""One look for all window tests, whatever the system would choose."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from biofeedback.gui.theme import font

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication


@pytest.fixture(autouse=True, scope="session")
def same_look(qapp: QApplication) -> None:
    # Once: each new style is applied to all widgets that are left in memory.
    qapp.setStyle("Fusion")
    qapp.setFont(font(13))
