"""The page of the maximal test: set it up, and see and keep what came of it.

While the test is under way the live page must be seen: there the athlete is told what
to do, and the trial box stands at the desk. The page owns both, and the
test between them; the window only gives it the frames and shows what it says.
"""

from __future__ import annotations

import time
from datetime import datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.errors import BiofeedbackError
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import error_words, shown, tr
from biofeedback.gui.maximal_control import KEEP_KEY, MaximalControl
from biofeedback.gui.maximal_result import ResultPanel
from biofeedback.gui.maximal_setup import MaximalSetup
from biofeedback.gui.maximal_words import newtons
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.trial_box import TrialBox
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.session.local_time import day_and_time, day_of, here
from biofeedback.session.maximal_test import Stage

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.session import Update
    from biofeedback.session.maximal_test import MaximalTest
    from biofeedback.session.maximal_tests import MaximalTests, NotKept, Outlook
    from biofeedback.session.pain_told import PainTold
    from biofeedback.training.maximal import StepKind
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task

SETUP_PX = 430
RESULT_PX = 600
"""At least, for the trials; in large type what was found has a line of its own."""


class MaximalPage(QWidget):
    """Sets up maximal tests and shows their results.

    Args:
        tests: the door to tests; None where there is no logbook, and so no tests.
        pain: what was told of pain, with the agreed rule.
        against: what is to be said before a test begins, or nothing.
        clock: monotonic time in ns.

    Attributes:
        box: the trial box, to be put into the desk; it hides itself.
        live: the button that goes back to the live page.

    Signals:
        live_wanted: back to the live page.
        test_wanted: a test is about to begin; the live page must be seen.
        guided: another `Guide` for the athlete's screen.
        said: a message for the desk.
        advised: one that stays there, and its last words; empty once it was acted on.
        pain_advised: the same at pain above the agreed cut, which a stop leaves there.
        pain_above: pain above the agreed cut was told, and another effort would come.
        reference_kept: a `Reference`: the new 100 %, of `kept_task`.
        reference_taken_back: it is none any more, with its `Task`.
    """

    live_wanted = Signal()
    test_wanted = Signal()
    guided = Signal(object)
    said = Signal(str)
    advised = Signal(str, str)
    pain_advised = Signal(str, str)
    pain_above = Signal()
    reference_kept = Signal(object)
    reference_taken_back = Signal(object)

    def __init__(
        self,
        tests: MaximalTests | None,
        parent: QWidget | None = None,
        *,
        pain: PainTold | None = None,
        against: Callable[[], tuple[str, ...]] = tuple,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Maximal test"))
        self._tests = tests
        self._profile: RigProfile | None = None
        self._athlete = ""
        self._begun_with: tuple[str, Task | None] = "", None
        self._not_kept: tuple[NotKept, ...] = ()
        self.control = MaximalControl(
            tests, self, pain=pain, against=against, clock=clock
        )
        self.box = TrialBox()
        self.setup = MaximalSetup()
        self.result = ResultPanel()
        self.live = QPushButton(self.tr("Back to live"))
        self.heading = QLabel(self.tr("Maximal test"))
        self.heading.setObjectName("who")
        self.begin = QPushButton(self.tr("Begin the test"))
        self.begin.setObjectName("start")
        self.zero = QLabel()
        self.known = QLabel()
        self.problem = QLabel()
        self.problem.setObjectName("message")
        self.problem.hide()
        self.advice = QLabel(
            self.tr(
                "Build up over 1 to 2 s, then hold all you have. Breathe freely; do "
                "not hold the breath. Stop at pain, dizziness or doubt. What the "
                "treating clinician allows goes first; the program only advises. Take "
                "zero in the same way each time: with the limb resting, or of the "
                "empty rig."
            )
        )
        self.advice.setObjectName("summary")
        self.left_over = QLabel()
        self.take_up = QPushButton(self.tr("Take it up"))
        for label in (self.zero, self.known, self.problem, self.advice, self.left_over):
            label.setWordWrap(True)
        self.empty = QLabel(
            self.tr("The trials, their spread and what they mean are shown here.")
        )
        self.empty.setObjectName("summary")
        self._lay_out()
        self._connect()
        self._show_test()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        column = QVBoxLayout()
        column.setSpacing(7)
        column.addWidget(self.setup)
        column.addWidget(self.zero)
        column.addWidget(self.known)
        column.addWidget(self.begin)
        column.addWidget(self.problem)
        column.addWidget(self.advice)
        column.addWidget(self.left_over)
        column.addWidget(self.take_up)
        column.addStretch(1)
        inner = QWidget()
        inner.setLayout(column)
        self._scroll = TallArea(inner)
        self._scroll.setAccessibleName(self.tr("Set-up of the test"))
        self._scroll.setMinimumWidth(SETUP_PX)
        self._right = QStackedWidget()
        self._right.addWidget(self.empty)
        self._right.addWidget(self.result)
        row = self._row = WrappedRow(spacing_px=18, fills=True)
        row.add(self._scroll)
        row.add(self._right, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addLayout(row, 1)

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        self.begin.clicked.connect(self._begin)
        self.take_up.clicked.connect(self._take_up)
        self.setup.task_changed.connect(self._show_known)
        control, box, result = self.control, self.box, self.result
        control.changed.connect(self._show_test)
        control.refused.connect(self._say_problem)
        control.guided.connect(self.guided)
        control.said.connect(self.said)
        control.advised.connect(self.advised)
        control.pain_advised.connect(self.pain_advised)
        control.pain_above.connect(self.pain_above)
        control.kept.connect(self._kept)
        control.taken_back.connect(self._taken_back)
        box.pain_told.connect(control.mark_pain)
        box.pain_corrected.connect(control.correct_pain)
        box.void_wanted.connect(self._void)
        box.practice_over.connect(control.end_practice)
        box.enough_wanted.connect(control.end)
        result.definition_chosen.connect(control.choose)
        result.let_count.connect(control.let_count)
        result.keep_wanted.connect(control.keep)
        result.undo_wanted.connect(control.take_back)
        result.pain_corrected.connect(control.correct_pain)
        result.leave_wanted.connect(self._leave)
        for key, button, tip in (
            ("F9", self.begin, self.tr("Begin the test")),
            (KEEP_KEY, result.keep, self.tr("Keep it and use it")),
        ):
            # Dead while this page is hidden; other pages have the same keys.
            show_key(button, key, tip)
            bind(self, key, button.click)

    # What the window does.

    @property
    def under_way(self) -> bool:
        """Whether a test has been asked for and is not over."""
        return self.control.under_way

    @property
    def effort(self) -> StepKind | None:
        """Which effort is next; None where no test is under way."""
        test = self.test
        return test.step.kind if test is not None and self.under_way else None

    @property
    def test(self) -> MaximalTest | None:
        """The test under way, or the last one of this athlete."""
        return self.control.test

    @property
    def kept_task(self) -> Task | None:
        """The task, with its side, of the reference that was kept last."""
        return self.test.task if self.test and self.test.kept else None

    def takes_pain(self, level: int) -> bool:
        """A pain mark at the desk is of the last effort while a test is on."""
        if self.under_way:
            self.control.mark_pain(level)
        return self.under_way

    def enter(self, athlete_code: str, *, at_desk: Task | None = None) -> None:
        """The page is shown; `athlete_code` says who is here.

        What was chosen here stays for as long as the desk does.

        Args:
            at_desk: the task there, with the sides that work.
        """
        self._say_problem("")
        self.control.ask_anew()
        self.result.may_undo = False  # it was left since
        if athlete_code != self._athlete:
            self._athlete = athlete_code
            self.heading.setText(
                self.tr("Maximal test of {who}").format(who=athlete_code)
            )
            self.control.forget()
        if not self.under_way:
            self._look_up()
            if self._begun_with != (athlete_code, at_desk):
                self._begun_with = athlete_code, at_desk
                self._begin_with(at_desk)
        self._show_test()
        self.begin.setFocus()
        self._show_head()

    def _show_head(self) -> None:
        """A result stands there; in large type the page may have been moved down."""
        around = self.parentWidget()
        while around is not None and not isinstance(around, QScrollArea):
            around = around.parentWidget()
        if around is not None and self._right.currentWidget() is self.result:
            around.verticalScrollBar().setValue(0)

    def meet(self, profile: RigProfile) -> None:
        """What is known of the rig."""
        if profile is not self._profile:
            self._profile = profile
            self._show_zero()
            if self.isVisible():
                self._show_known()

    def take(self, update: Update) -> None:
        """What is new in this frame."""
        self.meet(update.profile)
        self.control.take(update)
        if self.under_way:
            self.box.show_state(update.state)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._scroll.setMinimumWidth(round(SETUP_PX * size))
        self._right.setMinimumWidth(round(RESULT_PX * size))
        self.setup.set_size(size)
        self.box.set_size(size)
        self.begin.setMinimumHeight(round(36 * size))

    # What is known before a test.

    def _look_up(self) -> None:
        """Tasks to choose from, and what was left over."""
        if self._tests is None:
            return
        try:
            self.setup.offer(self._tests.tasks())
            self._not_kept = self._tests.not_kept()
        except BiofeedbackError as error:
            self._say_problem(str(error))

    def _begin_with(self, at_desk: Task | None) -> None:
        """The task of the desk, else the one that was tested last."""
        last: Task | None = None
        try:
            last = self._tests.last_tested() if self._tests else None
        except BiofeedbackError as error:
            self._say_problem(error_words(error))
        self.setup.begin_with(at_desk, last)

    @property
    def _offered(self) -> NotKept | None:
        """A test that may be taken up: the newest that is not the one shown."""
        here = self.test.set_id if self.test is not None else ""
        others = (one for one in self._not_kept if one.set_id != here)
        return None if self.under_way else next(others, None)

    def _show_left_over(self) -> None:
        first = self._offered
        self.left_over.setVisible(first is not None)
        self.take_up.setVisible(first is not None)
        if first is not None:
            begun = day_and_time(first.started_utc)
            self.left_over.setText(
                self.tr(
                    "A test of {time} was done and not kept: {task}, {side}."
                ).format(
                    time=begun, task=shown(first.task), side=shown(first.sides.value)
                )
            )

    def _show_zero(self) -> None:
        zero = self._profile.zero if self._profile else None
        if zero is None or zero.kind is ZeroKind.NONE:
            text = self.tr(
                "Zero: none taken. What the limb weighs is then part of every force."
            )
        else:
            text = self.tr("Zero: {kind}{time}.").format(
                kind=shown(zero.kind.value), time=_at(zero.taken_utc)
            )
        self.zero.setText(text)

    def _show_known(self) -> None:
        """What is known of the task and side that are chosen."""
        task = self.setup.chosen_task()
        outlook: Outlook | None = None
        if self._tests is None:
            text = self.tr("No logbook is open: a test could not be kept.")
        elif task is None:
            text = self.tr("Choose a task, or type the name of a new one.")
        else:
            try:
                outlook = self._tests.outlook(task, self._profile)
                text = shown(outlook.problem) or _outlook_words(outlook)
            except BiofeedbackError as error:
                text = error_words(error)
        self.known.setText(text)
        self.setup.show_outlook(outlook)
        can = outlook is not None and not outlook.problem
        self.begin.setEnabled(can and not self.under_way)

    # The test.

    def _begin(self) -> None:
        asked = self.setup.read()
        if asked is None or self._profile is None:
            return
        task, plan = asked
        self.control.begin(task, plan, self._profile)
        if self.under_way:
            self.test_wanted.emit()

    def _show_test(self) -> None:
        """Everything about the test, at all its places."""
        test = self.test
        stage = None if test is None else test.stage
        if test is not None and self.under_way:
            self.box.show_test(test)
        self.box.setVisible(stage is Stage.UNDER_WAY)
        self.setup.lock(locked=self.under_way)
        self.begin.setText(
            self.tr("Begin the test") if test is None else self.tr("Begin another test")
        )
        self._right.setCurrentWidget(self.result if stage is Stage.OVER else self.empty)
        # In large type it would stand below the set-up, where nobody looks for it.
        self._row.put_first(self._right if stage is Stage.OVER else None)
        if test is not None and stage is Stage.OVER:
            meaning, practice = self.control.meaning()
            self.result.show_test(
                test, meaning, practice_score=practice, mass=self.control.mass()
            )
        if self.under_way:  # nothing of it is seen, and frames are not for reading
            self.begin.setEnabled(False)
        else:
            self._show_known()
        self._show_left_over()

    def _take_up(self) -> None:
        offered = self._offered
        if offered is not None:
            self.control.take_up(offered.set_id)
            self._look_up()  # the one that was shown may be left over now
            if self.test is not None:
                self.setup.choose(self.test.task)
            self._show_left_over()

    def _leave(self, reason: str) -> None:
        self.control.leave(reason)
        if self.test is None:
            self._look_up()  # it is not offered any more
            self._show_left_over()

    def _void(self, number: int, reason: str) -> None:
        if self.control.void(number, reason):
            self.box.clear_reason()

    def _kept(self, reference: Reference) -> None:
        test = self.test
        self.result.may_undo = True
        self.live.setFocus()  # else it would go on to what takes the result back
        self._not_kept = tuple(
            one for one in self._not_kept if test is None or one.set_id != test.set_id
        )
        self.reference_kept.emit(reference)

    def _taken_back(self) -> None:
        if self.test is not None:
            self.reference_taken_back.emit(self.test.task)

    def _say_problem(self, words: str) -> None:
        self.problem.setText(shown(words))
        self.problem.setVisible(bool(words))


def _at(taken_utc: str) -> str:
    """When it was, by this computer's clock; empty where it is not known."""
    try:
        time = datetime.fromisoformat(taken_utc)
    except ValueError:
        return ""
    return tr(", taken at {time}").format(time=time.astimezone().strftime("%H:%M %Z"))


def _outlook_words(outlook: Outlook) -> str:
    earlier = outlook.earlier
    if earlier is None:
        return tr(
            "First test of this task on this side: more trials are allowed, and the "
            "result is marked as a practice score."
        )
    words = tr("Last test: {force}, {definition}, {date}.").format(
        force=newtons(earlier.force_n),
        definition=shown(earlier.definition.value),
        date=day_of(earlier.tested_utc, here()).isoformat(),
    )
    return f"{words} {tr('It was a practice score.')}" if earlier.practice else words
