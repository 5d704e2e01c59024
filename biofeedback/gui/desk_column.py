"""What stands above the foot of the desk: the column that scrolls, and what covers it.

Stop rules and cautions, and messages as a whole, are read over the column. What is
covered is not hidden, for the keys of a hidden box are dead; but Tab leads not there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QLayout,
    QScrollArea,
    QStackedLayout,
    QWidget,
)

from biofeedback.gui.cautions_page import CautionsBeside
from biofeedback.gui.messages_beside import MessagesBeside

if TYPE_CHECKING:
    from biofeedback.gui.reading_page import ReadingPage


class DeskColumn(QWidget):
    """A column of controls, or what is read over it.

    Signals:
        asked: the column wants another height.
        uncovered: nothing is read any more; the keyboard has lost its place.
    """

    asked = Signal()
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
        self._care: CautionsBeside | None = None
        self.said = MessagesBeside()
        self._over: ReadingPage | None = None
        self._policies: list[tuple[QWidget, Qt.FocusPolicy]] = []
        stack = self._stack = QStackedLayout(self)
        stack.setStackingMode(QStackedLayout.StackingMode.StackAll)
        stack.addWidget(self.area)
        self._lay_over(self.said)
        inner.installEventFilter(self)

    def _lay_over(self, page: ReadingPage) -> None:
        self._stack.addWidget(page)
        page.hide()
        page.live_wanted.connect(self.uncover)

    @property
    def care(self) -> CautionsBeside:
        """Stop rules and cautions; built where nobody has wanted them yet."""
        if self._care is None:
            self._care = CautionsBeside()
            self._lay_over(self._care)
        return self._care

    @property
    def covered(self) -> bool:
        """Whether something is read over the column."""
        return self._over is not None

    @property
    def read(self) -> ReadingPage | None:
        """What is read over the column."""
        return self._over

    def needed_px(self) -> int:
        """How high all of the column is."""
        inner = self.area.widget()
        layout = inner.layout() if inner is not None else None
        if layout is None:
            return 0
        # Beside its bar: what fits only without it would scroll for good once it did.
        bar_px = self.area.verticalScrollBar().sizeHint().width()
        return layout.totalHeightForWidth(max(1, self.width() - bar_px))

    def bottom_px(self, part: QWidget) -> int:
        """How far a part of the column reaches down from its top."""
        inner = self.area.widget()
        return part.mapTo(inner, part.rect().bottomLeft()).y() if inner else 0

    def cover(self, page: ReadingPage) -> None:
        """`care` or `said`, which the arrow keys move."""
        if self._over is None:
            below = (self.area, *self.area.findChildren(QWidget))
            # A proxy's own policy goes with that of the widget it stands for.
            own = [one for one in below if one.focusProxy() is None]
            self._policies = [(one, one.focusPolicy()) for one in own]
            for one in own:
                one.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        elif self._over is not page:
            self._over.hide()
        self._over = page
        page.show()
        self._stack.setCurrentWidget(page)
        page.enter()

    def uncover(self) -> None:
        """The column again."""
        over, self._over = self._over, None
        if over is None:
            return
        for one, policy in self._policies:
            one.setFocusPolicy(policy)
        self._stack.setCurrentWidget(self.area)
        over.hide()
        self.uncovered.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Something in the column is higher or lower now."""
        if event.type() is QEvent.Type.LayoutRequest:
            self.asked.emit()
        return super().eventFilter(watched, event)

    def see(self, part: QWidget) -> None:
        """A part of the column, wherever it stands."""
        self.uncover()
        inner = self.area.widget()
        layout = inner.layout() if inner is not None else None
        if inner is not None and layout is not None:  # where it stands by now
            inner.resize(inner.width(), layout.totalHeightForWidth(inner.width()))
            layout.activate()
        self.area.ensureWidgetVisible(part)
