"""What stands above the foot of the desk: the column that scrolls, and what covers it.

Stop rules and cautions are read over the column. What is covered is not hidden, for
the keys of a hidden box are dead; but Tab does not lead there.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QLayout,
    QScrollArea,
    QStackedLayout,
    QWidget,
)

from biofeedback.gui.cautions_page import CautionsBeside


class DeskColumn(QWidget):
    """A column of controls, or the cautions over it.

    Signals:
        uncovered: nothing is read any more; the keyboard has lost its place.
    """

    uncovered = Signal()

    def __init__(self, column: QLayout, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        inner = QWidget()
        inner.setLayout(column)
        self.area = QScrollArea()
        self.area.setWidget(inner)
        self.area.setWidgetResizable(True)
        self.area.setAccessibleName(self.tr("What is asked for, and the signal"))
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.care = CautionsBeside()
        self._policies: list[tuple[QWidget, Qt.FocusPolicy]] = []
        stack = self._stack = QStackedLayout(self)
        stack.setStackingMode(QStackedLayout.StackingMode.StackAll)
        stack.addWidget(self.area)
        stack.addWidget(self.care)
        self.care.hide()
        self.care.live_wanted.connect(self.uncover)

    @property
    def covered(self) -> bool:
        """Whether stop rules and cautions are read."""
        return not self.care.isHidden()

    def cover(self) -> None:
        """Stop rules and cautions, which the arrow keys move."""
        below = (self.area, *self.area.findChildren(QWidget))
        # A proxy's own policy goes with that of the widget it stands for.
        own = [one for one in below if one.focusProxy() is None]
        self._policies = [(one, one.focusPolicy()) for one in own]
        for one in own:
            one.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.care.show()
        self._stack.setCurrentWidget(self.care)
        self.care.enter()

    def uncover(self) -> None:
        """The column again."""
        if not self.covered:
            return
        for one, policy in self._policies:
            one.setFocusPolicy(policy)
        self._stack.setCurrentWidget(self.area)
        self.care.hide()
        self.uncovered.emit()

    def see(self, part: QWidget) -> None:
        """A part of the column, wherever it stands."""
        self.uncover()
        self.area.ensureWidgetVisible(part)
