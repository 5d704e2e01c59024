"""The health page: the start check, step by step, with a verdict for each thing.

The check itself, its limits and its words are the rig's; this page feeds it with
what the window pulls, and shows what it asks for and what it found.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.keys import bind
from biofeedback.gui.language import shown
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.session.rig_check import Check, CheckState, CheckStep

if TYPE_CHECKING:
    from biofeedback.session import Update
    from biofeedback.session.rig_check import HealthReport, Verdict
    from biofeedback.training.prescription import Prescription

RUN_S = 10.0
MASS_PX = 90
_MAY_BE_LEFT_OUT = {
    CheckStep.PRESS,
    CheckStep.RELEASE,
    CheckStep.MASS,
    CheckStep.MASS_OFF,
}
MARKS = {
    CheckState.GOOD: "●",
    CheckState.LOOK: "▲",
    CheckState.NOT_JUDGED: "–",
}
"""A shape for each, so that none is told by its word alone, or by colour."""


class HealthPage(QWidget):
    """Runs a health check.

    Attributes:
        seconds: length of the run at rest.

    Signals:
        live_wanted: back to the live page.
        checked: a check came to its end, with its `HealthReport`.
    """

    live_wanted = Signal()
    checked = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Health of the rig"))
        self.seconds = RUN_S
        self._check: Check | None = None
        self._asked: Prescription | None = None
        self._now_ns = 0
        self._shown: HealthReport | None = None
        tr = self.tr
        self.live = QPushButton(tr("Back to live"))
        self.heading = QLabel(tr("Health of the rig"))
        self.heading.setObjectName("who")
        self.begin = QPushButton()
        self.skip = QPushButton(tr("Leave this out"))
        self.presses = QCheckBox(tr("Ask for a press on each cell"))
        self.presses.setChecked(True)
        self.mass = Field(
            tr("Known mass"),
            unit="kg",
            tip=tr(
                "Hung on each cell in turn, it tells kilograms, pounds or "
                "kilonewtons from newtons.\nEmpty: no mass is asked for."
            ),
        )
        self.prompt = QLabel()
        self.prompt.setObjectName("prompt")  # read from where the cells are
        self.prompt.setWordWrap(True)
        self.prompt.setMinimumHeight(56)
        self.prompt.setAccessibleName(tr("What to do now"))
        self.bar = QProgressBar()
        self.bar.setRange(0, 1000)
        self.bar.setTextVisible(False)
        self.bar.setFixedHeight(12)
        self.bar.setAccessibleName(tr("Progress of the check"))
        self.care = QLabel(
            tr(
                "Nobody is in the rig while it is checked, and nothing rests on it. "
                "Press by hand only, and keep fingers out of joints and straps. A mass "
                "hangs low, where nobody stands under it."
            )
        )
        self.care.setObjectName("summary")
        self.care.setWordWrap(True)
        self._rows = QGridLayout()
        self._lay_out()
        self.set_size(1.0)
        self._connect()
        self._show_state()

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.mass.line.setMaximumWidth(round(MASS_PX * size))

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        keys = WrappedRow()
        for part in (self.begin, self.skip, self.presses, self.mass):
            keys.add(part)
        self._rows.setHorizontalSpacing(14)
        self._rows.setVerticalSpacing(7)
        self._rows.setColumnMinimumWidth(1, 96)
        self._rows.setColumnStretch(2, 3)
        self._rows.setColumnStretch(3, 2)
        inner = QVBoxLayout()
        inner.setContentsMargins(0, 4, 0, 0)
        inner.addLayout(self._rows)
        inner.addStretch(1)
        table = QWidget()
        table.setLayout(inner)
        scroll = QScrollArea()
        scroll.setWidget(table)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setAccessibleName(self.tr("Verdicts"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addLayout(keys)
        layout.addWidget(self.prompt)
        layout.addWidget(self.bar)
        layout.addWidget(self.care)
        layout.addWidget(scroll, 1)

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        self.begin.clicked.connect(self._begin)
        self.skip.clicked.connect(self._skip)
        for button, key, tip in (
            (self.begin, "F9", self.tr("Begin the check, or end it here")),
            (self.skip, "F10", self.tr("Go on without this cell")),
        ):
            button.setToolTip(f"{tip} ({key})")
            # Dead while this page is hidden; the calibration has the same keys.
            bind(self, key, button.click)

    # What comes.

    def enter(self, asked: Prescription) -> None:
        """The page is shown; `asked` is whose band noise is held against."""
        self._asked = asked
        self.begin.setFocus()

    def leave(self) -> None:
        """A check under way ends; what it found stays to be read."""
        if self.checking and self._check is not None:
            self._check.finish()
            self._show_state()

    def take(self, update: Update, *, now_ns: int) -> None:
        """What came since the last frame."""
        self._now_ns = now_ns
        check = self._check
        if check is None or check.done:
            return
        check.push(update, now_ns=now_ns)
        self._show_state()
        if not self.checking:
            self.checked.emit(check.report())

    @property
    def checking(self) -> bool:
        """Whether a check is under way."""
        return self._check is not None and not self._check.done

    @property
    def report(self) -> HealthReport | None:
        """What is shown."""
        return self._shown

    def _begin(self) -> None:
        if self.checking:
            self.leave()
            return
        mass_kg = self.mass.number(empty=math.nan)
        if mass_kg is not None and math.isnan(mass_kg):
            return  # it was no number, which the field says
        try:
            self._check = Check(
                seconds=self.seconds,
                presses=self.presses.isChecked(),
                prescription=self._asked,
                mass_kg=mass_kg,
            )
        except FieldError as error:
            self.mass.complain(error.problem)
            return
        self._show_report(None)
        self._show_state()

    def _skip(self) -> None:
        if self._check is not None:
            self._check.skip(now_ns=self._now_ns)
            self._show_state()

    # What is shown.

    def _show_state(self) -> None:
        check = self._check
        self.begin.setText(
            self.tr("End the check") if self.checking else self.tr("Begin the check")
        )
        for choice in (self.presses, self.mass):
            choice.setEnabled(not self.checking)
        if check is None:
            self.skip.setEnabled(False)
            self.prompt.setText(
                self.tr(
                    "Take everything off the rig, then begin. It takes ten seconds."
                )
            )
            self.bar.setValue(0)
            return
        self.skip.setEnabled(check.step in _MAY_BE_LEFT_OUT)
        self.prompt.setText(shown(check.prompt))
        self.bar.setValue(round(1000 * check.progress))
        if check.step not in {CheckStep.SIGNAL, CheckStep.REST}:
            self._show_report(check.report())

    def _show_report(self, report: HealthReport | None) -> None:
        if report == self._shown:
            return
        self._shown = report
        while (item := self._rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()  # it stays until the next turn of the event loop
                widget.deleteLater()
        for row, one in enumerate(report.verdicts if report else ()):
            self._show_verdict(row, one)

    def _show_verdict(self, row: int, one: Verdict) -> None:
        """What was looked at, how it stands, what was found and what to do."""
        state = f"{MARKS[one.state]} {shown(one.state.value)}"
        texts = (
            shown(one.name).capitalize(),
            state,
            shown(one.found),
            shown(one.advice),
        )
        for column, text in enumerate(texts):
            label = QLabel(text)
            label.setWordWrap(column > 1)
            label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            if one.state is CheckState.LOOK and column != 2:
                label.setObjectName("error" if column == 3 else "look")
            self._rows.addWidget(label, row, column)
