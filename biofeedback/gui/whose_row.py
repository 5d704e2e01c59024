"""The row that says whose 100 % stands at the desk where it is of another task.

It stands under the number, with the way to another: the newest of the task itself, or
a test of it. It decides nothing and keeps nobody from starting.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from biofeedback.gui.language import plain_number, shown
from biofeedback.gui.plain_label import lines_px
from biofeedback.gui.short_label import ShortLabel

if TYPE_CHECKING:
    from biofeedback.training.reference import Reference

MARK = "▲"
LINES = 2
"""Of a longer name the rest is in the tip: all of the desk is to be seen at once."""


class WhoseRow(QWidget):
    """Words, and a button that leads to another 100 %.

    Signals:
        own_wanted: the newest 100 % of the task itself is to be taken.
        test_wanted: the task is to be tested.
    """

    own_wanted = Signal()
    test_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._own = False
        self.told = ShortLabel()
        self.told.setObjectName("doubt")
        self.told.setAccessibleName(self.tr("Whose 100 % it is"))
        self.button = QPushButton()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.told, 1)
        layout.addWidget(self.button, 0, Qt.AlignmentFlag.AlignTop)
        self.button.clicked.connect(self._clicked)
        self.hide()

    def say(self, words: str, own: Reference | None = None, *, test: bool) -> None:
        """What is to be said; nothing where it is the task's own.

        Args:
            own: the newest 100 % of the task itself, where there is one.
            test: whether the task can be tested here.
        """
        self._own = own is not None
        if own is not None:
            force = plain_number(own.force_n)
            self.button.setText(self.tr("Take {force} N").format(force=force))
            tip = self.tr(
                "The newest of this task: {force} N, {definition}, {date}."
            ).format(
                force=force,
                definition=shown(own.definition.value),
                date=own.date[:10],
            )
        else:
            self.button.setText(self.tr("Test it"))
            tip = self.tr("Of this task and side no test is kept: to its test.")
        self.button.setToolTip(tip)
        self.button.setVisible(self._own or test)
        self.told.tell(f"{MARK} {words}" if words else "")
        self.told.setToolTip(words)
        self.setVisible(bool(words))

    def fit(self) -> None:
        """As high as its lines are in the type that is in use."""
        self.told.setFixedHeight(lines_px(self.told, LINES))

    def _clicked(self) -> None:
        (self.own_wanted if self._own else self.test_wanted).emit()
