"""The page of today: what the athlete reports, and which sets come of it.

What is proposed and why is decided elsewhere, and what was answered stands there too;
here it is accepted or changed.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QApplication, QWidget

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import filled, shown
from biofeedback.gui.set_card import SetCard
from biofeedback.gui.today_view import TodayView
from biofeedback.phrase import sentences
from biofeedback.training.free_set import free_set

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.stated_form import Typed
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.session.today import DayView, Today
    from biofeedback.training.day import DayReport, PainRule
    from biofeedback.training.planned import PlannedPrescription
    from biofeedback.training.prescription import Prescription


class TodayPage(TodayView):
    """Asks about pain, proposes, and fills the desk.

    Signals:
        live_wanted: back to the live page.
        day_wanted: a `DayView`, its sets as they are chosen (a tuple of `SetOfDay`),
            whether against advice.
        prescribed: a `Prescription`, what the head of its recording says of the plan
            (a dict, empty without one), and the `SetOfDay` that it is.
    """

    live_wanted = Signal()
    day_wanted = Signal(object, object, bool)
    prescribed = Signal(object, object, object)

    def __init__(self, today: Today | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self._code = ""
        self._view: DayView | None = None
        self._free: tuple[PlannedPrescription, ...] = ()
        self._single_cell = False
        self._against: DayView | None = None
        self._connect()

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        for row in self.rows:
            row.answered.connect(self._report)
        self.sleep.committed.connect(self._report)
        self.rule.rule_changed.connect(self._change_rule)
        self.rule.days_changed.connect(self._change_days)
        self.whole.clicked.connect(self._take_day)
        show_key(
            self.whole, "Ctrl+T", self.tr("All sets at the desk, one after the other")
        )
        bind(self, "Ctrl+T", self.whole.click)
        self.free.changed.connect(self._change_free)
        for keys, against in (("Ctrl+Return", False), ("Ctrl+Shift+Return", True)):
            bind(self, keys, partial(self._press_use, against))

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
            self._clear()
        self._code, self._single_cell = athlete_code, single_cell
        self._free = ()
        self.say("")
        try:
            self._free = (free_set(asked),) if asked else ()
        except FieldError as error:
            self.say(str(error))
        for planned in self._free:
            self.free.show_planned(planned)
        self._reload(None, kept=True)
        if self._view is not None:
            self.show_answers(self._view.report)  # yesterday's answers are not of today
        self.now.setFocus()

    def _clear(self) -> None:
        """Nothing of one athlete stands there for another."""
        self._view = None
        self.show_answers(None)
        self.advice.hide()
        self.told.hide()
        for card in self.cards:
            self._list.removeWidget(card)
            card.deleteLater()
        self._cards = {}

    # The report.

    def _report(self) -> None:
        """Another answer, or none; what cannot be read is no taking back."""
        today, answered = self._today, self.answers()
        self.say("")
        self._reload(answered)
        if today is not None and (answered or self.now.value is None):
            self._asked(lambda: today.answer(self._code, answered))

    def _change_rule(self, rule: PainRule) -> None:
        today = self._today
        if today is not None and self._asked(lambda: today.set_pain_rule(rule)):
            self._report()

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
            self._reload(self.answers())

    def _change_free(self, planned: PlannedPrescription) -> None:
        self._free = (planned,)
        self._reload(self.answers())

    # The sets.

    def _reload(self, report: DayReport | None, *, kept: bool = False) -> None:
        """Works the day out anew; an answer that was taken back is no answer."""
        today = self._today
        if today is None:
            self.say(self.tr("There is no logbook: nothing is known of the athlete."))
            return
        self._asked(lambda: self._load(today, report, kept=kept))

    def _load(self, today: Today, report: DayReport | None, *, kept: bool) -> None:
        def of(free: tuple[PlannedPrescription, ...]) -> DayView:
            return today.for_athlete(
                self._code,
                report=report,
                kept=kept,
                free=free,
                single_cell=self._single_cell,
            )

        view = of(())
        if view.plan is None and self._free:
            view = of(self._free)
        self._view = view
        self._show(view)

    def _show(self, view: DayView) -> None:
        tr = self.tr
        plan = (
            shown(view.plan.name) if view.plan else tr("no plan: the set of the desk")
        )
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
        self.told.setText(self._told_in_words(view))
        self.told.setVisible(view.told is not None)
        self.advice.setText(shown(view.advice))
        self.advice.setVisible(bool(view.advice))
        self._show_cards(view)
        if view.problems:
            self.say("\n".join(map(shown, view.problems)))
        elif not view.sets:
            self.say(tr("Nothing is planned for today."))

    def _told_in_words(self, view: DayView) -> str:
        """Pain that was told and is not among the answers, by the agreed cut."""
        tr, level, cut = self.tr, view.told, view.rule.high
        if level is None:
            return ""
        if view.report is None:
            words = tr(
                "Pain told today: {level} of 10, not above the agreed cut of {cut}."
            )
            if level > cut:
                words = tr(
                    "Pain told today: {level} of 10, above the agreed cut of {cut}."
                )
            return words.format(level=level, cut=cut)
        words = tr("Pain told since: {level} of 10, not above the agreed cut of {cut}.")
        if level > cut:
            words = tr("Pain told since: {level} of 10, above the agreed cut of {cut}.")
        anew = tr("The higher counts until “pain now” is answered anew.")
        return f"{words.format(level=level, cut=cut)} {anew}"

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

    def _press_use(self, against_advice: bool) -> None:
        """In the card where the focus is, else in the first."""
        focus = QApplication.focusWidget()
        at_focus = [
            card
            for card in self.cards
            if focus is not None and card.isAncestorOf(focus)
        ]
        for card in (at_focus or list(self.cards))[:1]:
            button = card.go_on if against_advice else card.use
            if button.isVisible():
                button.click()

    def _take_day(self) -> None:
        """A second press goes on where stopping is advised."""
        view = self._view
        if view is None:
            return
        sets = tuple(card.shown for card in self.cards)
        advised = next((one for one in sets if one.advise_stop), None)
        if advised is not None and self._against != view:
            self._against = view
            again = self.tr("Once more takes the day against this advice.")
            self.say(sentences(advised.reason_words(view.rule), again))
            return
        self.day_wanted.emit(view, sets, advised is not None)

    def _use(self, chosen: SetOfDay, against_advice: bool) -> None:
        today, view = self._today, self._view
        if today is None or view is None:
            return
        try:
            asked, context = today.use(view, chosen, against_advice=against_advice)
        except BiofeedbackError as error:
            self.say(str(error))
            return
        words = filled(
            self.tr("{title}: {band} is at the desk."),
            title=chosen.title,
            band=chosen.band_words,
        )
        self.say(words)
        self._cards[chosen.key].say(self.tr("✓ at the desk"))
        self.prescribed.emit(asked, context, chosen)

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
            problem = sentences(error.problem, error.next_step)
            card.stated.complain(error.field, problem)
            return
        except BiofeedbackError as error:
            self.say(str(error))
            return
        card.stated.hide()
        self._reload(self.answers())
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
