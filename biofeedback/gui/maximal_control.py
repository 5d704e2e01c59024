"""What page and trial box of a maximal test have in common: the test itself.

It passes on what is wanted to the test, and tells what came of it. Faults that people
can put right are told in words; nothing typed or done is lost by them.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.keys import native
from biofeedback.gui.language import error_words, shown
from biofeedback.gui.maximal_words import newtons, result_title
from biofeedback.session.maximal_test import Stage
from biofeedback.session.pain_told import PainTold
from biofeedback.session.second_start import SecondStart
from biofeedback.training.maximal import StepKind

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.session import Update
    from biofeedback.session.maximal_test import MaximalTest
    from biofeedback.session.maximal_tests import MaximalTests
    from biofeedback.session.test_meaning import Meaning
    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.maximal import Guide, MaximalPlan
    from biofeedback.training.reference import Definition
    from biofeedback.training.task import Task

KEEP_KEY = "Ctrl+S"
"""On the page of the test."""
PAGE_KEY = "Alt+M"
"""To that page."""


class MaximalControl(QObject):
    """Holds the test under way, or the last one.

    Args:
        tests: the door to tests, or None.
        pain: what was told of pain, with the agreed rule.
        against: what is to be said before a test begins, or nothing.
        clock: monotonic time in ns.

    Signals:
        changed: something about the test is new, or there is another or none.
        guided: another `Guide` for the athlete's screen.
        said: a message for the desk.
        advised: a message that stays at the desk until something is done, and its last
            words, which stay in sight; empty once what it advised was done.
        pain_advised: the same at pain above the agreed cut, which a stop leaves there;
            empty once no such pain stands any more.
        refused: what could not be done, in words; empty once something else is tried.
        kept: a `Reference`.
        taken_back: the `Reference` that was kept is none any more.
        pain_above: pain above the agreed cut was told, and another effort would come.
    """

    changed = Signal()
    guided = Signal(object)
    said = Signal(str)
    advised = Signal(str, str)
    pain_advised = Signal(str, str)
    refused = Signal(str)
    kept = Signal(object)
    taken_back = Signal(object)
    pain_above = Signal()

    def __init__(
        self,
        tests: MaximalTests | None,
        parent: QObject | None = None,
        *,
        pain: PainTold | None = None,
        against: Callable[[], tuple[str, ...]] = tuple,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        super().__init__(parent)
        self.tests = tests
        self.pain = pain or PainTold()
        self._against = against
        self._clock = clock
        self._second = SecondStart()
        self.test: MaximalTest | None = None
        self._guide: Guide | None = None
        self._told_over: MaximalTest | None = None
        self._pain_above: int | None = None  # told last, and advised about

    @property
    def under_way(self) -> bool:
        """Whether a test has been asked for and is not over."""
        return self.test is not None and self.test.stage in {
            Stage.ASKED,
            Stage.UNDER_WAY,
        }

    def begin(self, task: Task, plan: MaximalPlan, profile: RigProfile) -> None:
        """Begins a test, or says first what speaks against it; then the next begins.

        A result that is not kept is left behind by nobody who was not told of it.
        """
        tests = self.tests
        if tests is None or self.under_way:
            return
        pressed_s = self._clock() / 1e9
        try:
            against = self._against()
        except BiofeedbackError as error:
            against = (str(error),)
        not_kept = self._not_kept_words()
        of, said = (self.pain.count, task, self.test), (*against, *not_kept)
        if not self._second.goes_on(of, said, pressed_s=pressed_s):
            self._second.say(of, said, now_s=self._clock() / 1e9)
            again = (
                self.tr("Once more begins another test.")
                if not_kept
                else self.tr("Once more begins the test.")
            )
            self.refused.emit(" ".join((*map(shown, said), again)))
            return
        self._second.forget()
        self._get(lambda: tests.begin(task, plan, profile, went_on=against))

    def _not_kept_words(self) -> tuple[str, ...]:
        """Of a result that would go out of sight; nothing where there is none."""
        test = self.test
        found = test.result if test is not None and test.kept is None else None
        if found is None:
            return ()
        words = self.tr("Not kept yet: {result}. {key} keeps it.")
        return (words.format(result=result_title(found), key=native(KEEP_KEY)),)

    def ask_anew(self) -> None:
        """What was said before a start is not in sight any more."""
        self._second.forget()

    def take_up(self, set_id: str) -> None:
        """Shows a test that was done and never kept."""
        tests = self.tests
        if tests is not None and not self.under_way:
            self._get(lambda: tests.take_up(set_id))

    def forget(self) -> None:
        """The last test is not shown any more; one under way stays."""
        if not self.under_way and self.test is not None:
            self.test, self._pain_above = None, None
            self.changed.emit()

    def take(self, update: Update) -> None:
        """What is new in this frame."""
        test = self.test
        if test is None or not self.under_way:
            return
        try:
            news = test.follow(update)
        except BiofeedbackError as error:
            self.said.emit(error_words(error))
            news = True
        if test.stage is Stage.REFUSED:
            self.test = None
            self.refused.emit(test.refused)
            self.said.emit(test.refused)
            self.changed.emit()
        elif news:
            self._show(test)

    def meaning(self) -> tuple[Meaning | None, bool]:
        """What the result means, and whether it is a practice score."""
        test = self.test
        if test is None:
            return None, False
        try:
            kept = test.kept
            practice = kept.practice if kept else test.is_practice_score()
            return test.meaning(), practice
        except BiofeedbackError as error:
            self.refused.emit(error_words(error))
            return None, False

    def mass(self) -> BodyMass | None:
        """The newest body mass of whoever is here, where it is known."""
        try:
            return self.tests.mass() if self.tests else None
        except BiofeedbackError as error:
            self.refused.emit(error_words(error))
            return None

    # What is wanted.

    def mark_pain(self, level: int) -> None:
        """Pain during the last effort, from 0 to 10; once more corrects it."""
        noted = self.tr("Pain {level} of 10 is noted.").format(level=level)
        self._tell_pain(lambda test: test.mark_pain(level), level, noted)

    def correct_pain(self, number: int, level: int | None) -> None:
        """Another pain in an effort, by the number of its rep; None takes it back."""
        words = self.tr("Corrected: pain {level} of 10 in that effort.")
        if level is None:
            words = self.tr("Corrected: pain in that effort was not asked.")
        told = words.format(level=level)
        self._tell_pain(lambda test: test.correct_pain(number, level), level, told)

    def _tell_pain(
        self,
        tell: Callable[[MaximalTest], int | None],
        level: int | None,
        noted: str,
    ) -> None:
        before: list[int | None] = []
        if not self._do(lambda test: before.append(tell(test))):
            return
        for old in before:
            if old is not None:
                self.pain.take_back(old)
        tr = self.tr
        if level is not None:
            self.pain.tell(level)
        if self._pain_above is not None and not self.pain.against():
            self._pain_above = None
            self.pain_advised.emit("", "")
        cut = self.pain.rule.high
        if level is None or level <= cut:
            self.said.emit(noted)
            return
        self._pain_above = level
        above = tr("That is above {cut} of 10.").format(cut=cut)
        advice = tr("Stopping is advised; you decide.")
        self.pain_advised.emit(f"{noted} {above} {advice}", advice)
        test = self.test if self.under_way else None
        if test is not None and test.step.kind is not StepKind.ENOUGH:
            self.pain_above.emit()

    def _advise(self) -> None:
        """What there was to say was acted on; pain above the cut still stands."""
        words = self._pain_words
        if words:
            self.pain_advised.emit(words, words)
        else:
            self.advised.emit("", "")

    @property
    def _pain_words(self) -> str:
        """The advice at the last pain above the cut, in short; empty without one."""
        if self._pain_above is None:
            return ""
        words = self.tr("Pain {level} of 10: stopping is advised; you decide.")
        return words.format(level=self._pain_above)

    def void(self, number: int, reason: str) -> bool:
        """Takes an effort out; whether that was done."""
        return self._do(lambda test: test.void(number, reason))

    def let_count(self, counts: bool) -> None:
        """Lets a stopped trial count, or leaves it out again."""
        self._do(lambda test: test.let_count(counts=counts))

    def end_practice(self) -> None:
        """The next effort is a trial."""
        self._do(lambda test: test.end_practice())

    def end(self) -> None:
        """Ends the test."""
        self._do(lambda test: test.end())

    def choose(self, definition: Definition) -> None:
        """Another number is the 100 %."""
        self._do(lambda test: test.choose(definition))

    def keep(self) -> None:
        """The result is the 100 % from now on."""

        def keep(test: MaximalTest) -> None:
            reference = test.keep()
            self._advise()
            self.kept.emit(reference)

        self._do(keep)

    def take_back(self) -> None:
        """The kept result is no 100 % any more."""

        def take_back(test: MaximalTest) -> None:
            reference = test.kept
            test.take_back()
            self.said.emit(self.tr("Taken back: the 100 % is what it was before."))
            self.taken_back.emit(reference)

        self._do(take_back)

    def leave(self, reason: str) -> None:
        """The test does not count, for this reason."""
        if self._do(lambda test: test.leave(reason)):
            self._advise()
            self.said.emit(self.tr("The test was left aside."))
            self.forget()

    # How it is done.

    def _get(self, get: Callable[[], MaximalTest]) -> None:
        """Another test; what keeps it from being had is told."""
        self.refused.emit("")
        try:
            self.test = get()
        except BiofeedbackError as error:
            self.refused.emit(error_words(error))
            self.said.emit(error_words(error))
            return
        self._guide, self._pain_above = None, None
        self._show(self.test)

    def _do(self, what: Callable[[MaximalTest], None]) -> bool:
        """Does something to the test and shows it; whether it could be done."""
        test = self.test
        if test is None:
            return False
        self.refused.emit("")
        try:
            what(test)
        except BiofeedbackError as error:
            self.refused.emit(error_words(error))
            if self.under_way:
                self.said.emit(error_words(error))
            return False
        self._show(test)
        return True

    def _show(self, test: MaximalTest) -> None:
        guide = test.guide
        if guide != self._guide:
            self._guide = guide
            self.guided.emit(guide)
        self.changed.emit()
        found = test.result
        over = test.stage is Stage.OVER and test.kept is None
        if over and found is not None and self._told_over is not test:
            self._told_over = test
            words = self.tr("{force}. {key}: keep it as 100 %, or not.").format(
                force=newtons(found.force.total_n), key=native(PAGE_KEY)
            )
            # Else the end of its set, told in the same frame, would cover it.
            if pain := self._pain_words:
                self.pain_advised.emit(f"{pain} {words}", words)
            else:
                self.advised.emit(words, words)
