"""The parts of the page of today, and the answers in them; decides nothing.

Top the questions and the pain rule, below them today's sets.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.answer_row import AnswerRow
from biofeedback.gui.field import Field
from biofeedback.gui.free_range import FreeRange
from biofeedback.gui.language import shown
from biofeedback.gui.pain_rule_form import PainRuleForm
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.training.day import DayReport

if TYPE_CHECKING:
    from biofeedback.gui.set_card import SetCard

MESSAGE_PX = 24
CARDS_PX = 150
"""At least: about one set; in large type the page scrolls for it."""


class TodayView(QWidget):
    """All parts of the page, laid out."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._cards: dict[tuple[str, str, str, str], SetCard] = {}
        self._size = 1.0
        self.setAccessibleName(self.tr("Today"))
        self._make_parts()
        self._lay_out()

    def _make_parts(self) -> None:
        tr = self.tr
        self.live = QPushButton(tr("Back to live"))
        self.heading = QLabel(tr("Today"))
        self.heading.setObjectName("who")
        self.heading.setWordWrap(True)
        self.now = AnswerRow(tr("Pain now"))
        self.night = AnswerRow(tr("Pain last night"))
        self.morning = AnswerRow(tr("Pain the morning after the last session"))
        self.soreness = AnswerRow(tr("Muscle soreness, if you like"))
        self.sleep = Field(
            tr("Sleep last night, if you like"),
            unit="h",
            tip=tr("Kept, and not judged: no rule for it has a source"),
        )
        self.rule = PainRuleForm()
        self.free = FreeRange()
        self.free.hide()
        self.whole = QPushButton(tr("Take the whole day"))
        self.warm_up = QCheckBox(tr("warm-up first"))
        self.warm_up.setToolTip(tr("One easy rep for each side before each task"))
        self.told = QLabel()
        self.told.setObjectName("look")
        self.told.setWordWrap(True)
        self.told.setAccessibleName(tr("Pain told since"))
        self.told.hide()
        self.advice = QLabel()
        self.advice.setObjectName("prompt")
        self.advice.setWordWrap(True)
        self.advice.setAccessibleName(tr("Advice"))
        self.advice.hide()
        self.message = QLabel()
        self.message.setObjectName("message")
        self.message.setWordWrap(True)
        self.message.setAccessibleName(tr("Messages"))
        self.care = QLabel(
            tr(
                "The program advises; the treating clinician and local rules decide. "
                "Sharp or sudden pain, dizziness or pain in the chest: stop."
            )
        )
        self.care.setObjectName("summary")
        self.care.setWordWrap(True)

    def _lay_out(self) -> None:
        head = WrappedRow()
        head.add(self.live)
        head.add(self.heading, 1)
        head.add(self.warm_up)
        head.add(self.whole)
        questions = QVBoxLayout()
        questions.setSpacing(2)
        for row in self.rows:
            questions.addWidget(row)
        top = WrappedRow(spacing_px=22)
        top.add(questions, 6)
        beside = QVBoxLayout()
        beside.setSpacing(3)
        beside.addWidget(self.rule)
        beside.addWidget(self.sleep)
        beside.addStretch(1)
        top.add(beside, 5)
        self._list = QVBoxLayout()
        self._list.setContentsMargins(0, 0, 6, 0)
        self._list.setSpacing(8)
        self._list.addStretch(1)
        inner = QWidget()
        inner.setLayout(self._list)
        self.body = QScrollArea()
        self.body.setWidget(inner)
        self.body.setWidgetResizable(True)
        self.body.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.body.setAccessibleName(self.tr("The sets of today"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 10)
        layout.setSpacing(6)
        layout.addLayout(head)
        layout.addLayout(top)
        layout.addWidget(self.told)
        layout.addWidget(self.advice)
        layout.addWidget(self.free)
        layout.addWidget(self.body, 1)
        layout.addWidget(self.message)
        layout.addWidget(self.care)
        self.set_size(1.0)

    @property
    def rows(self) -> tuple[AnswerRow, ...]:
        """The questions with a number from 0 to 10, in order."""
        return self.now, self.night, self.morning, self.soreness

    @property
    def cards(self) -> tuple[SetCard, ...]:
        """The sets that are shown, in order."""
        return tuple(self._cards.values())

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._size = size
        for row in self.rows:
            row.set_size(size)
        for card in self.cards:
            card.set_size(size)
        self.message.setMinimumHeight(round(MESSAGE_PX * size))
        self.body.setMinimumHeight(round(CARDS_PX * size))

    def say(self, message: str) -> None:
        """A message at its one place."""
        self.message.setText(shown(message))

    # The answers.

    def show_answers(self, report: DayReport | None) -> None:
        """Shows answers that stand already, or none."""
        self.now.set_value(report.pain_now if report else None)
        self.night.set_value(report.pain_night if report else None)
        self.morning.set_value(report.pain_morning if report else None)
        self.soreness.set_value(report.soreness if report else None)
        self.sleep.set_number(report.sleep_h if report else None)

    def answers(self) -> DayReport | None:
        """What was answered; None while pain now is not."""
        sleep_h = self.sleep.number(empty=math.nan)
        if self.now.value is None:
            return None
        try:
            return DayReport(
                self.now.value,
                self.night.value,
                self.morning.value,
                None if sleep_h is None or math.isnan(sleep_h) else sleep_h,
                self.soreness.value,
            )
        except FieldError as error:
            self.sleep.complain(error.problem)
            return None
