"""Keys: how they are bound, and how people write them.

A key works in the whole window, on any page and wherever the focus is. It never
repeats by itself: a key that is held down must not start or mark twice.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QPushButton, QWidget

    from biofeedback.gui.desk import Desk


def native(key: str) -> str:
    """A key as this system writes it."""
    return QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)


def bind(window: QWidget, key: str, pressed: Callable[[], None]) -> None:
    """Calls `pressed` for a key, as long as `window` is not hidden."""
    # Not Qt's own shortcut of a button: that one is dead while it is hidden.
    shortcut = QShortcut(QKeySequence(key), window)
    shortcut.setContext(Qt.ShortcutContext.WindowShortcut)
    shortcut.setAutoRepeat(False)
    shortcut.activated.connect(pressed)


def show_key(button: QPushButton, key: str, tip: str) -> None:
    """Puts what a button does, and its key, into its tip."""
    button.setToolTip(f"{tip} ({native(key)})")


def sheet_rows(desk: Desk) -> tuple[tuple[str, str], ...]:
    """All keys and what they do, for the sheet of keys and words."""
    levels = {*desk.pain.buttons, *desk.effort.buttons}
    tr = desk.tr
    return (
        *(
            (native(key), tip)
            for button, key, tip in desk.actions_and_keys()
            if button not in levels
        ),
        ("F4", tr("Write a note; Enter keeps it")),
        (f"{native('Ctrl+0')} … 9", tr("Mark pain 0 to 9 of 10")),
        (native("Ctrl+Shift+0"), tr("Mark pain 10 of 10")),
        (f"{native('Alt+0')} … 9", tr("Effort of the last set, 0 to 9 of 10")),
        (native("Alt+Shift+0"), tr("Effort of the last set, 10 of 10")),
        ("Esc", tr("On another page: back to live")),
        (native("Ctrl+B"), tr("Calibration: begin, or end without keeping")),
        (native("Ctrl+S"), tr("Calibration, test: keep it and use it")),
        ("F9", tr("Calibration: take this point. Check, test: begin, or end")),
        ("F10", tr("Calibration: take back. Check: leave this press out")),
    )
