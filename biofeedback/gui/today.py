"""The page of today: what the athlete reports, and which sets come of it.

Top the questions and the pain rule, below them today's sets. What is proposed and why
is decided below this page; here it is accepted or changed.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.answer_row import AnswerRow
from biofeedback.gui.field import Field
from biofeedback.gui.free_range import FreeRange
from biofeedback.gui.pain_rule_form import PainRuleForm
from biofeedback.gui.set_card import SetCard
from biofeedback.training.day import DayReport
from biofeedback.training.free_set import free_set

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.stated_form import Typed
    from biofeedback.gui.theme import Theme
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.session.today import DayView, Today
    from biofeedback.training.day import PainRule
    from biofeedback.training.planned import PlannedPrescription
    from biofeedback.training.prescription import Prescription


class TodayPage(QWidget):
    """Asks about pain, proposes, and fills the desk.

    Signals:
        live_wanted: back to the live page.
        prescribed: a `Prescription`, and what the head of its recording says of the
            plan (a dict, empty without one).
    """

    live_wanted = Signal()
    prescribed = Signal(object, object)

    def __init__(self, today: Today | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self._code = ""
        self._view: DayView | None = None
        self._free: tuple[PlannedPrescription, ...] = ()
        self._single_cell = False
        self._cards: dict[tuple[str, str, str, str], SetCard] = {}
        self._size = 1.0
        self.setAccessibleName(self.tr("Today"))
        self._make_parts()
        self._lay_out()
        self._connect()

    def _make_parts(self) -> None:
        tr = self.tr
        self.live = QPushButton(tr("Back to live"))
        self.heading = QLabel(tr("Today"))
        self.heading.setObjectName("who")
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
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        questions = QVBoxLayout()
        questions.setSpacing(2)
        for row in self._rows:
            questions.addWidget(row)
        top = QGridLayout()
        top.setHorizontalSpacing(22)
        top.addLayout(questions, 0, 0)
        beside = QVBoxLayout()
        beside.setSpacing(3)
        beside.addWidget(self.rule)
        beside.addWidget(self.sleep)
        beside.addStretch(1)
        top.addLayout(beside, 0, 1)
        top.setColumnStretch(0, 6)
        top.setColumnStretch(1, 5)
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
        layout.addWidget(self.advice)
        layout.addWidget(self.free)
        layout.addWidget(self.body, 1)
        layout.addWidget(self.message)
        layout.addWidget(self.care)
        self.set_size(1.0)

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        for row in self._rows:
            row.answered.connect(self._report)
        self.sleep.committed.connect(self._report)
        self.rule.rule_changed.connect(self._change_rule)
        self.rule.days_changed.connect(self._change_days)
        self.free.changed.connect(self._change_free)
        key = QShortcut(QKeySequence("Ctrl+Return"), self)
        key.setContext(Qt.ShortcutContext.WindowShortcut)
        key.setAutoRepeat(False)  # a key held down is no second, deliberate press
        key.activated.connect(self._use_at_focus)

    @property
    def _rows(self) -> tuple[AnswerRow, ...]:
        return self.now, self.night, self.morning, self.soreness

    @property
    def cards(self) -> tuple[SetCard, ...]:
        """The sets that are shown, in order."""
        return tuple(self._cards.values())

    # What the window wants.

    def enter(
        self,
        athlete_code: str,
        *,
        asked: Prescription | None = None,
        single_cell: bool = False,
    ) -> None:
        """The page is shown.

        Args:
            asked: what the desk asks for; the set of today where there is no plan.
            single_cell: whether the rig has one cell.
        """
        if athlete_code != self._code:
            self._answer(None)
        self._code, self._single_cell = athlete_code, single_cell
        self._free = ()
        self._view = None
        self.say("")
        try:
            self._free = (free_set(asked),) if asked else ()
        except FieldError as error:
            self.say(str(error))
        for planned in self._free:
            self.free.show_planned(planned)
        self._reload(self._read())
        self._answer_again()
        self.now.setFocus()

    def set_theme(self, theme: Theme) -> None:
        """Day or night: the style sheet of the window tells all of it."""

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._size = size
        for row in self._rows:
            row.set_size(size)
        for card in self.cards:
            card.set_size(size)
        self.message.setMinimumHeight(round(24 * size))

    def say(self, message: str) -> None:
        """A message at its one place."""
        self.message.setText(message)

    # The report.

    def _answer_again(self) -> None:
        """What was answered earlier today stands in the rows."""
        if self._view is not None:
            self._answer(self._view.report)

    def _answer(self, report: DayReport | None) -> None:
        """Shows answers that stand already, or none."""
        self.now.set_value(report.pain_now if report else None)
        self.night.set_value(report.pain_night if report else None)
        self.morning.set_value(report.pain_morning if report else None)
        self.soreness.set_value(report.soreness if report else None)
        self.sleep.set_number(report.sleep_h if report else None)

    def _read(self) -> DayReport | None:
        """What is answered; None while pain now is not."""
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

    def _report(self) -> None:
        self.say("")
        self._reload(self._read())

    def _change_rule(self, rule: PainRule) -> None:
        today = self._today
        if today is not None and self._asked(lambda: today.set_pain_rule(rule)):
            self._reload(self._read())

    def _change_days(self, days: int) -> None:
        today = self._today
        if today is None:
            return
        try:
            today.set_stale_after_days(days)
        except FieldError as error:
            self.rule.complain_of_days(error.problem)
        except BiofeedbackError as error:
            self.say(str(error))
        else:
            self._reload(self._read())

    def _change_free(self, planned: PlannedPrescription) -> None:
        self._free = (planned,)
        self._reload(self._read())

    # The sets.

    def _reload(self, report: DayReport | None) -> None:
        """Works the day out anew."""
        today = self._today
        if today is None:
            self.say(self.tr("There is no logbook: nothing is known of the athlete."))
            return
        self._asked(lambda: self._load(today, report))

    def _load(self, today: Today, report: DayReport | None) -> None:
        view = today.for_athlete(
            self._code, report=report, single_cell=self._single_cell
        )
        if view.plan is None and self._free:
            view = today.for_athlete(
                self._code,
                report=report,
                free=self._free,
                single_cell=self._single_cell,
            )
        self._view = view
        self._show(view)

    def _show(self, view: DayView) -> None:
        tr = self.tr
        plan = view.plan.name if view.plan else tr("no plan: the set of the desk")
        self.heading.setText(
            tr("Today, {date}: {code}, {plan}").format(
                date=view.today.isoformat(), code=view.athlete_code, plan=plan
            )
        )
        self.morning.set_question(
            tr("Pain the morning after the last session")
            + (f" ({view.last_visit.isoformat()})" if view.last_visit else "")
        )
        self.rule.show_rule(view.rule, view.stale_after_days)
        self.free.setVisible(view.plan is None and bool(self._free))
        self.advice.setText(view.advice)
        self.advice.setVisible(bool(view.advice))
        self._show_cards(view)
        if view.problems:
            self.say("\n".join(view.problems))
        elif not view.sets:
            self.say(tr("Nothing is planned for today."))

    def _show_cards(self, view: DayView) -> None:
        """Cards that are there already stay, and with them focus and references."""
        wanted = {one.key: one for one in view.sets}
        for key in [key for key in self._cards if key not in wanted]:
            gone = self._cards.pop(key)
            self._list.removeWidget(gone)
            gone.deleteLater()
        before, self._cards = self._cards, {}
        for place, (key, one) in enumerate(wanted.items()):
            card = before.get(key)
            if card is None:
                card = SetCard(one, view.rule)
                card.wanted.connect(self._use)
                card.typed.connect(self._keep_typed)
                card.set_size(self._size)
            else:
                chosen = card.shown.reference
                kept = chosen is not None and chosen in one.choice.all
                card.show_set(
                    one.with_reference(chosen) if kept and chosen else one, view.rule
                )
            self._cards[key] = card
            self._list.insertWidget(place, card)

    def _use_at_focus(self) -> None:
        """The card where the focus is, else the first."""
        if not self.isVisible() or not self._cards:
            return
        focus = QApplication.focusWidget()
        for card in self.cards:
            if focus is not None and card.isAncestorOf(focus):
                card.use.click()
                return
        self.cards[0].use.click()

    def _use(self, chosen: SetOfDay, against_advice: bool) -> None:
        today, view = self._today, self._view
        if today is None or view is None:
            return
        try:
            asked, context = today.use(view, chosen, against_advice=against_advice)
        except BiofeedbackError as error:
            self.say(str(error))
            return
        words = self.tr("{title}: {band} is at the desk.").format(
            title=chosen.title, band=chosen.band_words
        )
        self.say(words)
        self._cards[chosen.key].say(self.tr("✓ at the desk"))
        self.prescribed.emit(asked, context)

    def _keep_typed(self, typed: Typed, of: SetOfDay) -> None:
        today, card = self._today, self._cards[of.key]
        if today is None:
            return
        try:
            key = today.state_force(
                self._code,
                of.planned.task.on_side(of.sides),
                typed.force_n,
                origin=typed.origin,
                on_date=typed.date,
                definition=typed.definition,
            )
        except FieldError as error:
            problem = f"{error.problem} {error.next_step}".strip()
            card.stated.complain(error.field, problem)
            return
        except BiofeedbackError as error:
            self.say(str(error))
            return
        card.stated.hide()
        self._reload(self._read())
        for candidate in card.shown.choice.all:
            if candidate.reference.source == key:
                card.show_set(card.shown.with_reference(candidate), self.rule_in_use)

    @property
    def rule_in_use(self) -> PainRule:
        """The cuts that the proposals were made with."""
        assert self._view is not None  # noqa: S101  only cards of a view ask for it
        return self._view.rule

    def _asked(self, what: Callable[[], None]) -> bool:
        """Asks the day; what it cannot do is said."""
        try:
            what()
        except BiofeedbackError as error:
            self.say(str(error))
            return False
        return True
