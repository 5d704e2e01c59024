"""The foot of the desk: what stays in sight whatever is shown above it.

How the signal is, the way to stop rules and cautions, pain and effort, the caution, the
messages, start and stop; while another board is on the port, whether to use it.

Nothing that records is pressed by a move of the layout: the effort row keeps its place
while it is hidden, and a row that was moved all the same (a longer message) takes no
press of the mouse for a second. So do the keys that open something in the column.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.board_question import BoardQuestion
from biofeedback.gui.health_line import HealthLine
from biofeedback.gui.level_row import LevelRow
from biofeedback.gui.messages import Messages
from biofeedback.gui.moved_row import MovedRow

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import QObject

KEY_PX = 38


class DeskFoot(QWidget):
    """Never scrolled away, and never covered."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.health = HealthLine()
        self.more = QPushButton(tr("Messages"))
        self.cautions = QPushButton(tr("Care"))
        self.pain = LevelRow(tr("Pain"), modifier="Ctrl")
        self.pain.back.setAccessibleName(tr("Take back the last mark of pain"))
        self.pain.back.show()
        self.effort = LevelRow(tr("Effort"), modifier="Alt")
        self.keep_effort(kept=True)
        self.effort.hide()
        self.caution = QLabel(
            tr(
                "The program advises; the treating clinician decides. "
                "At pain or doubt: stop."
            )
        )
        self.caution.setObjectName("summary")
        self.caution.setWordWrap(True)
        self.messages = Messages()
        self.board = BoardQuestion()
        self.elsewhere = QPushButton(tr("Record to another folder…"))
        self.elsewhere.hide()
        self.start = QPushButton(tr("Start"))
        self.stop = QPushButton(tr("Stop"))
        signal = QHBoxLayout()
        signal.setSpacing(4)
        signal.addWidget(self.health, 1)
        for button in (self.more, self.cautions):
            button.setObjectName("page")
            signal.addWidget(button)
        keys = QHBoxLayout()
        keys.setSpacing(6)
        for button, name in ((self.start, "start"), (self.stop, "stop")):
            button.setObjectName(name)
            keys.addWidget(button, 2 if name == "start" else 3)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(8, 1, 8, 4)
        rows.setSpacing(2)
        rows.addLayout(signal)
        for row in (self.pain, self.effort, self.caution, self.messages):
            rows.addWidget(row)
        rows.addWidget(self.board)
        rows.addWidget(self.elsewhere)
        rows.addLayout(keys)
        for moved in (self, self.more, self.pain, self.effort):
            moved.installEventFilter(self)
        for level_row in (self.pain, self.effort):
            level_row.moved.unsettled.connect(self._say_unsettled)
        pages = MovedRow(self.more, (self.health, self.more, self.cautions))
        pages.unsettled.connect(self._say_not_opened)
        self._moved_rows = (pages, self.pain.moved, self.effort.moved)
        self.set_size(1.0)

    def keep_effort(self, *, kept: bool) -> None:
        """Whether the effort row keeps its place while it is hidden."""
        keeps = self.effort.sizePolicy()
        keeps.setRetainSizeWhenHidden(kept)
        self.effort.setSizePolicy(keeps)

    def follow_clock(self, clock: Callable[[], int]) -> None:
        """Another clock, in ns, by which a moved row comes to rest."""
        for row in self._moved_rows:
            row.clock = clock

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The foot, or a row within it, has another place or is seen again."""
        if event.type() in {QEvent.Type.Move, QEvent.Type.Show}:
            self._see_places()
        return super().eventFilter(watched, event)

    def _see_places(self) -> None:
        for row in self._moved_rows:
            row.see_place()

    def _say_unsettled(self) -> None:
        self.messages.say(
            self.tr("Not noted: the row had just moved. Please press again.")
        )

    def _say_not_opened(self) -> None:
        self.messages.say(
            self.tr("Not opened: the row had just moved. Please press again.")
        )

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.messages.set_size(size)
        for button in (self.start, self.stop):
            button.setMinimumHeight(round(KEY_PX * size))

    def others_px(self) -> int:
        """How high all is but the messages."""
        layout = self.layout()
        if layout is None:
            return 0
        return layout.totalHeightForWidth(self.width()) - self.messages.height_px
