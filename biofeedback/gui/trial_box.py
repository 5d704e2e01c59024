"""The trial box: the maximal test that is under way, for the desk.

What comes next and why, the efforts so far, pain in the last of them, taking one out
with a reason, and enough. It shows what it is given and tells what is wanted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.cue import clock
from biofeedback.gui.field import Field
from biofeedback.gui.keys import bind
from biofeedback.gui.maximal_words import step_title, step_words, trial_rows
from biofeedback.gui.order_words import sides_words
from biofeedback.gui.plain_label import lines_px
from biofeedback.gui.plain_table import plain_table
from biofeedback.gui.review_rows import Table
from biofeedback.gui.task_titles import task_title
from biofeedback.training.events import Phase
from biofeedback.training.maximal import StepKind
from biofeedback.training.reference import PAIN_MOST

if TYPE_CHECKING:
    from biofeedback.session.maximal_test import MaximalTest
    from biofeedback.training.events import SetState

MOST_PX = 340
NEXT_LINES = 2
ROWS_SEEN = 6
"""Of more efforts the newest are seen."""


class TrialBox(QWidget):
    """One test under way, in a narrow column.

    Signals:
        pain_told: pain in the last effort, from 0 to 10.
        pain_corrected: number of the rep of the effort that is chosen, and its pain;
            None where it was not asked.
        void_wanted: number of the rep that is taken out, and the reason.
        practice_over: the next effort is to be a trial.
        enough_wanted: the test is to end now.
    """

    pain_told = Signal(int)
    pain_corrected = Signal(int, object)
    void_wanted = Signal(int, str)
    practice_over = Signal()
    enough_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setMaximumWidth(MOST_PX)
        self.setAccessibleName(self.tr("Maximal test under way"))
        self._numbers: tuple[int, ...] = ()
        self._last: int | None = None  # number of the last effort
        self._enough = False
        tr = self.tr
        self.heading = QLabel()
        self.heading.setObjectName("who")
        self.of = QLabel()
        self.of.setWordWrap(True)
        self.of.setAccessibleName(tr("Side and task"))
        self.next = QLabel()
        self.next.setWordWrap(True)
        self.next.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.next.setAccessibleName(tr("What comes next"))
        self.rest = QLabel()
        self.rest.setObjectName("look")
        self.rows = Table((tr("effort"), tr("peak, N"), tr("1 s, N"), tr("remark")))
        self.table = plain_table(self.rows, tr("Efforts so far"), stretch=3)
        self.table.setWordWrap(False)  # the page of the test shows it whole
        self.pain_words = QLabel(tr("Pain in the last one"))
        self.pain = [QPushButton(str(level)) for level in range(PAIN_MOST + 1)]
        self.not_asked = QPushButton(tr("not asked"))
        self.not_asked.setToolTip(tr("Takes the pain of the chosen effort back"))
        self.not_asked.setAccessibleName(tr("Pain in the chosen effort was not asked"))
        self.reason = Field(
            tr("Void, reason"),
            tip=tr("Why the chosen effort does not count, such as: strap slipped."),
            error_below=False,
        )
        self.void = QPushButton(tr("Void"))
        self.void.setToolTip(
            tr("Takes out the chosen effort; it stays on record. F10: to the reason.")
        )
        self.practice_end = QPushButton(tr("End practice"))
        self.practice_end.setToolTip(tr("The next effort is a trial."))
        self.enough = QPushButton(tr("Enough"))
        self.enough.setToolTip(tr("Ends the test now; all trials so far are kept (F9)"))
        self._lay_out()
        self._connect()
        self.set_size(1.0)
        self.hide()

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        head = QHBoxLayout()
        head.addWidget(self.heading, 1)
        head.addWidget(self.rest)
        layout.addWidget(self.of)
        layout.addLayout(head)
        layout.addWidget(self.next)
        layout.addWidget(self.table)
        whose = QHBoxLayout()
        whose.addWidget(self.pain_words, 1)
        whose.addWidget(self.not_asked)
        layout.addLayout(whose)
        row = QGridLayout()
        row.setSpacing(2)
        for level, button in enumerate(self.pain):
            button.setObjectName("pain")
            button.setAccessibleName(
                self.tr("Pain {level} in the last effort").format(level=level)
            )
            row.addWidget(button, 0, level)
        layout.addLayout(row)
        take_out = QHBoxLayout()
        take_out.addWidget(self.reason, 1)
        take_out.addWidget(self.void)
        layout.addLayout(take_out)
        foot = QHBoxLayout()
        foot.addWidget(self.practice_end, 1)
        foot.addWidget(self.enough, 1)
        layout.addLayout(foot)

    def _connect(self) -> None:
        for level, button in enumerate(self.pain):
            button.clicked.connect(lambda _=False, at=level: self._tell(at))
        self.not_asked.clicked.connect(lambda: self._tell(None))
        self.table.selectionModel().currentRowChanged.connect(self._show_whose)
        self.void.clicked.connect(self._void)
        self.reason.line.returnPressed.connect(self._void)
        self.practice_end.clicked.connect(self.practice_over)
        self.enough.clicked.connect(self.enough_wanted)
        for part in (self.next, self.table):
            part.installEventFilter(self)
        for key, action in (("F9", self.enough.click), ("F10", self._to_reason)):
            # Dead while the box is hidden; other pages have the same keys.
            bind(self, key, action)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.setMaximumWidth(round(MOST_PX * size))
        self.rows_seen()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The type of a part is another one now: the style comes after the size."""
        if event.type() in {QEvent.Type.FontChange, QEvent.Type.StyleChange}:
            self.rows_seen()
        return super().eventFilter(watched, event)

    def rows_seen(self) -> None:
        """The table as high as its rows, so that none is cut in two."""
        # What stands below must not move under the mouse.
        self.next.setFixedHeight(lines_px(self.next, NEXT_LINES))
        self.table.ensurePolished()
        row_px = self.table.verticalHeader().minimumSectionSize()
        if self.rows.rows:
            row_px = self.table.rowHeight(0)
        self.table.setFixedHeight(
            self.table.horizontalHeader().sizeHint().height()
            + ROWS_SEEN * row_px
            + 2 * self.table.frameWidth()
        )

    def show_test(self, test: MaximalTest) -> None:
        """Something about the test is new."""
        step, efforts, task = test.step, test.trials, test.task
        self.of.setText(f"{sides_words(task.sides)} · {task_title(task.name)}")
        self.heading.setText(step_title(step))
        self.next.setText(step_words(step, test.plan))
        rows = trial_rows(test)
        real = [trial.number for trial in efforts if not trial.touch]
        self._last = real[-1] if real else None
        if rows != self.rows.rows:
            more = len(rows) != len(self._numbers)
            chosen = len(rows) - 1 if more else self.table.currentIndex().row()
            self._numbers = tuple(trial.number for trial in efforts)
            self.rows.set_rows(rows)
            if rows:
                self.rows_seen()
                self.table.selectRow(chosen)
            if more:
                self.table.scrollToBottom()
        self.reason.complain("")
        some = any(not trial.touch for trial in efforts)
        for widget in (*self.pain, self.not_asked, self.void, self.reason.line):
            widget.setEnabled(some)
        self.practice_end.setEnabled(step.kind is StepKind.PRACTICE)
        self._enough = step.kind is StepKind.ENOUGH
        self._show_whose()

    def show_state(self, state: SetState | None) -> None:
        """The rest that is left, while more is to come."""
        words = ""
        if self._enough:
            pass
        elif state is not None and state.phase is Phase.REST:
            words = self.tr("Rest {time}").format(time=clock(state.rest_left_s))
        elif state is not None and state.phase is Phase.WAITING:
            words = self.tr("Rested")
        if words != self.rest.text():
            self.rest.setText(words)

    def clear_reason(self) -> None:
        """The reason has been taken."""
        self.reason.set_text("")

    @property
    def _chosen(self) -> int | None:
        """Number of an earlier effort that is chosen; None where it is the last."""
        row = self.table.currentIndex().row()
        if not 0 <= row < len(self._numbers) - 1:
            return None
        number = self._numbers[row]
        return None if number == self._last else number

    def _show_whose(self) -> None:
        """Whose pain the buttons tell."""
        row = self.table.currentIndex().row()
        if self._chosen is not None:
            words = self.tr("Correct the pain in {effort}")
            text = words.format(effort=self.rows.rows[row][0])
        elif self._enough:
            text = self.tr("Pain in the last trial? The answer ends the test.")
        else:
            text = self.tr("Pain in the last one")
        self.pain_words.setText(text)

    def _tell(self, level: int | None) -> None:
        chosen = self._chosen
        if chosen is not None:
            self.pain_corrected.emit(chosen, level)
        elif level is not None:
            self.pain_told.emit(level)
        elif self._last is not None:
            self.pain_corrected.emit(self._last, None)

    def _to_reason(self) -> None:
        self.reason.line.setFocus()

    def _void(self) -> None:
        chosen = self.table.currentIndex()
        if not chosen.isValid() or chosen.row() >= len(self._numbers):
            self.reason.complain(self.tr("Choose an effort in the list."))
        elif not self.reason.text:
            self.reason.complain(self.tr("Say why it does not count."))
        else:
            self.void_wanted.emit(self._numbers[chosen.row()], self.reason.text)
