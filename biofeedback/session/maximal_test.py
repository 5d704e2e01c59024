"""One maximal test, from its first practice ramp to the force that is kept.

It drives a session through one set and follows what the session says, frame by frame.
The rules are in `biofeedback.training.maximal`; the numbers of an effort are those of
the recording. So a test that was cut off can be put together again from what is saved
(see `maximal_tests`).

* The set ends by itself when there are enough trials: as soon as the pain of the last
  one is told, or `ASK_S` later. Until then the last trial can be taken out, and the
  test goes on.
* A trial that is taken out stays in recording and logbook, with the reason.
* Nothing is kept as a reference but by `keep`: the practitioner decides.
"""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import TYPE_CHECKING, Protocol

from biofeedback.errors import FieldError, UserError
from biofeedback.phrase import phrase
from biofeedback.rig.commands import WORDS, BeginSet
from biofeedback.rig.handoff import Measured, Refused, SetBegun, SetEnded, ZeroTaken
from biofeedback.session.kept_result import KeptResult
from biofeedback.session.pain_told import WENT_ON
from biofeedback.session.test_record import (
    PRACTICE_NOTE,
    TEST,
    VOID_NOTE,
    pain_note,
    trial_of,
    with_pain,
    without_more_practice,
)
from biofeedback.training.changes import Terms
from biofeedback.training.maximal import (
    Guide,
    MaximalPlan,
    MaximalResult,
    Step,
    StepKind,
    efforts_to_come,
    expected_n,
    next_step,
    result,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.rows import SetRow
    from biofeedback.rig.handoff import SessionEvent, Update
    from biofeedback.session.test_meaning import Meaning
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference import Definition, Reference
    from biofeedback.training.task import Task
    from biofeedback.training.trial import Trial

ASK_S = 20.0
"""Enough to ask for the pain of the last trial, and to take that trial out."""
ENOUGH = "enough trials"
TRIALS_BEGIN = "the trials begin"


class Driven(Protocol):
    """The part of `biofeedback.session.live.Session` that a test uses."""

    def begin_set(
        self, prescription: Prescription, context: Mapping[str, object] | None = None
    ) -> None:
        """Begins a set and its recording with the next sample."""

    def end_set(self, reason: str = "stop") -> None:
        """Ends the set."""

    def change_terms(self, terms: Terms, reason: str = "") -> None:
        """Another hold, rest or number of reps."""

    def mark_pain(self, level: int) -> None:
        """Writes a pain mark down."""

    def note(self, text: str) -> None:
        """Writes a note down."""


class Stage(Enum):
    """How far a test has come."""

    ASKED = "asked"  # the session has not begun the set yet
    UNDER_WAY = "under way"
    OVER = "over"
    REFUSED = "refused"


class MaximalTest:
    """Drives one test and keeps what comes of it.

    Args:
        session: runs the set; None for a test that is over, from what is saved.
        logbook: where reps are found and the result is kept.
        athlete_id: who is tested.
        plan: how it is to go.
        task: with the sides that work.
        earlier_n: the best of earlier tests, for the scale; None without one.
        rated_n: rated load of the working cells together, or None.
        single_cell: whether the rig has one cell, which then serves any side.

    Attributes:
        stage: how far it has come.
        refused: why the set did not begin; empty where it did.
        reason: why the set is over; empty while it is not.
    """

    def __init__(
        self,
        session: Driven | None,
        logbook: Logbook,
        *,
        athlete_id: str,
        plan: MaximalPlan,
        task: Task,
        earlier_n: float | None = None,
        rated_n: float | None = None,
        single_cell: bool = False,
    ) -> None:
        self.stage = Stage.ASKED
        self.refused = self.reason = ""
        self._session = session
        self._rows = KeptResult(logbook, athlete_id=athlete_id, task=task)
        self._plan = plan
        self._task = task
        self._earlier_n, self._rated_n = earlier_n, rated_n
        self._trials: list[Trial] = []
        self._zero_kind = ""
        self._rest_changed = plan.practice == 0
        self._enough_since_s: float | None = None
        self._ending = False
        self.prescription = plan.prescription(task, single_cell=single_cell)

    # What is known of it.

    @property
    def set_id(self) -> str:
        """Key of its set."""
        return self._rows.set_id

    @set_id.setter
    def set_id(self, key: str) -> None:
        self._rows.set_id = key

    @property
    def plan(self) -> MaximalPlan:
        """How it goes."""
        return self._plan

    @property
    def task(self) -> Task:
        """What is tested, with the sides that work."""
        return self._task

    @property
    def trials(self) -> tuple[Trial, ...]:
        """All efforts so far, touches and void ones among them."""
        return tuple(self._trials)

    @property
    def step(self) -> Step:
        """The effort that is under way or comes next."""
        return next_step(self._plan, self._trials)

    @property
    def guide(self) -> Guide:
        """What the athlete's screen needs."""
        step = self.step
        return Guide(
            step=step,
            to_come=efforts_to_come(step),
            expected_n=expected_n(
                self._trials, earlier_n=self._earlier_n, rated_n=self._rated_n
            ),
            void=frozenset(trial.number for trial in self._trials if trial.void),
            practice=frozenset(one.number for one in self._trials if one.practice),
        )

    @property
    def result(self) -> MaximalResult | None:
        """The result so far, by the chosen definition."""
        return result(self._plan, self._trials)

    @property
    def may_count(self) -> Trial | None:
        """A trial in which the set was stopped, that could be let count; or None."""
        for trial in reversed(self._trials):
            let = replace(trial, let_count=True)
            if trial.stopped and let.counts(self._plan.definition):
                return trial
        return None

    @property
    def kept(self) -> Reference | None:
        """The reference it was kept as, or None."""
        return self._rows.reference

    # What is done.

    def begin(self, went_on: Sequence[str] = ()) -> None:
        """Asks the session for the set.

        Args:
            went_on: what was said before, and passed over.

        Raises:
            UserError: it was begun before.
        """
        if self._session is None or self.stage is not Stage.ASKED:
            raise UserError(
                phrase("This test was begun already."), phrase("Begin another.")
            )
        context: dict[str, object] = {
            "set_id": self.set_id,
            TEST: {"plan": self._plan.to_json(), "earlier_n": self._earlier_n},
        }
        if went_on:
            context[WENT_ON] = list(went_on)
        self._session.begin_set(self.prescription, context)

    def follow(self, update: Update) -> bool:
        """Takes in what is new in a frame.

        Returns:
            Whether anything about the test is new.
        """
        news = [self._hear(event) for event in update.events]
        if update.state is not None and self.stage is Stage.UNDER_WAY:
            self._end_when_enough(update.state.time_s)
        return any(news)

    def _hear(self, event: SessionEvent) -> bool:
        """Takes in one event; whether it is about the test."""
        if isinstance(event, ZeroTaken):
            self._zero_kind = event.zero.kind.value
        if self.stage is Stage.ASKED:
            return self._hear_answer(event)
        if self.stage is not Stage.UNDER_WAY:
            return False
        if isinstance(event, Measured):
            self._take(trial_of(event.rep, self.step.share_pct))
        elif isinstance(event, SetEnded):
            self.stage, self.reason = Stage.OVER, event.reason
            self.enter_voids()
        return isinstance(event, Measured | SetEnded)

    def _hear_answer(self, event: SessionEvent) -> bool:
        """Whether the session began the set, or refused it."""
        if isinstance(event, SetBegun) and event.prescription == self.prescription:
            self.stage = Stage.UNDER_WAY
            self._zero_kind = event.profile.zero.kind.value
        elif isinstance(event, Refused) and event.command == WORDS[BeginSet]:
            self.stage, self.refused = Stage.REFUSED, event.message
        return self.stage is not Stage.ASKED

    def mark_pain(self, level: int) -> int | None:
        """Pain during the last effort, from 0 to 10.

        Returns:
            What was told of this effort before; None where nothing was.

        Raises:
            FieldError: it is not from 0 to 10.
            UserError: there was no effort yet.
        """
        at = self._last_effort()
        before = self._trials[at].pain
        self._trials[at] = replace(self._trials[at], pain=level)
        if self._session is not None and self.stage is Stage.UNDER_WAY:
            self._session.mark_pain(level)
            if self.step.kind is StepKind.ENOUGH:
                self.end()
        return before

    def correct_pain(self, number: int, level: int | None) -> int | None:
        """Another pain in an earlier effort; what was told stays in the recording.

        Args:
            number: of its rep.
            level: None takes it back.

        Returns:
            What was told of it before.

        Raises:
            FieldError: there is no such effort, or it is not from 0 to 10.
            UserError: the result is kept already, or the set is not saved yet.
            FileError: the logbook cannot be written.
        """
        self._rows.must_be_open(phrase("Take it back first."))
        old = next(
            (one for one in self._trials if one.number == number and not one.touch),
            None,
        )
        if old is None:
            raise FieldError(
                "pain.number", phrase("there is no effort {number}.", number=number)
            )
        corrected = with_pain(self._trials, number, level)
        if self._session is not None and self.stage is Stage.UNDER_WAY:
            self._session.note(pain_note(number, level))
        else:
            self._rows.note_pain(number, old.pain, level)
        self._trials = corrected
        return old.pain

    def void(self, number: int, reason: str) -> None:
        """Takes an effort out, with the reason; it stays in the recording.

        Args:
            number: of its rep.

        Raises:
            FieldError: there is no such effort, or no reason is given.
            UserError: the result is kept already.
        """
        reason = reason.strip()
        if not reason:
            raise FieldError(
                "void.reason", phrase("must say why the trial does not count.")
            )
        self._rows.must_be_open(phrase("Void the test instead."))
        for at, trial in enumerate(self._trials):
            if trial.number == number and not trial.void:
                self._trials[at] = replace(trial, void_reason=reason)
                break
        else:
            raise FieldError(
                "void.number",
                phrase("there is no trial {number} to take out.", number=number),
            )
        if self._session is not None and self.stage is Stage.UNDER_WAY:
            self._session.note(f"{VOID_NOTE}{number}: {reason}")
        self._rows.void_rep(number, reason)
        self._begin_trials()

    def let_count(self, *, counts: bool) -> None:
        """Lets the trial count in which the set was stopped, or leaves it out again.

        Raises:
            UserError: there is none, or the result is kept already.
        """
        stopped = self.may_count
        if stopped is None:
            raise UserError(phrase("No trial was stopped."))
        self._rows.must_be_open(phrase("Void the test instead."))
        at = self._trials.index(stopped)
        self._trials[at] = replace(stopped, let_count=counts)

    def end_practice(self) -> None:
        """No more practice ramps: the next effort is a trial."""
        if self.step.kind is not StepKind.PRACTICE:
            return
        self._plan = without_more_practice(self._plan, self._trials)
        if self._session is not None and self.stage is Stage.UNDER_WAY:
            self._session.note(PRACTICE_NOTE)
        self._begin_trials()

    def choose(self, definition: Definition) -> None:
        """Another number is the 100 %.

        Raises:
            FieldError: a trial is not measured by it.
        """
        self._plan = replace(self._plan, definition=definition)

    def end(self, reason: str = ENOUGH) -> None:
        """Ends the set; an effort under way becomes stopped, never lost."""
        under_way = self.stage is Stage.UNDER_WAY
        if self._session is not None and under_way and not self._ending:
            self._ending = True
            self._session.end_set(reason)

    def meaning(self) -> Meaning | None:
        """What the result means; None where there is none.

        Raises:
            FileError: the logbook cannot be read.
        """
        found = self.result
        return self._rows.meaning(found) if found is not None else None

    def is_practice_score(self) -> bool:
        """Whether it is of the athlete's first session with this task and side.

        Raises:
            FileError: the logbook cannot be read.
        """
        return self._rows.is_practice_score()

    def keep(self) -> Reference:
        """Enters the test into the logbook; kept once, however often it is asked.

        Returns:
            The force that is 100 % from now on.

        Raises:
            UserError: the test is not over, no trial counts, or its set is not in
                the logbook yet.
            FileError: the logbook cannot be written.
        """
        if self.kept is not None:
            return self.kept
        found = self.result
        if self.stage is not Stage.OVER:
            raise UserError(phrase("The test is not over."), phrase("End it first."))
        if found is None:
            raise UserError(phrase("No trial counts."), phrase("Do the test again."))
        return self._rows.keep(
            found, self._plan, self._trials, zero_kind=self._zero_kind
        )

    def take_back(self) -> None:
        """The kept result is no 100 % any more: a row says so, and none is deleted.

        It can be kept again, which adds another row.

        Raises:
            UserError: it is not kept.
            FileError: the logbook cannot be written.
        """
        self._rows.take_back()

    def leave(self, reason: str) -> None:
        """Keeps the test as one that does not count, so that nobody is asked again.

        Raises:
            UserError, FileError: as `keep`.
            FieldError: no reason is given.
        """
        if not reason.strip():
            raise FieldError(
                "void.reason", phrase("must say why the test does not count.")
            )
        if self.kept is None:
            self.keep()
            self._rows.void(reason)

    def enter_voids(self) -> None:
        """Voids in the logbook what was taken out, as far as its rows are there."""
        self._rows.enter_voids()

    def put_together(
        self, trials: Sequence[Trial], plan: MaximalPlan, *, row: SetRow, zero_kind: str
    ) -> None:
        """Makes this the test that a saved set was."""
        self.set_id, self.stage, self.reason = row.id, Stage.OVER, "recovered"
        self._trials, self._plan, self._zero_kind = list(trials), plan, zero_kind

    # How it is done.

    def _take(self, trial: Trial) -> None:
        self._trials.append(trial)
        self._enough_since_s = None
        self._begin_trials()

    def _begin_trials(self) -> None:
        """From the first trial on rests are longer."""
        if self._rest_changed or self.step.kind is StepKind.PRACTICE:
            return
        self._rest_changed = True
        if self._session is not None and self.stage is Stage.UNDER_WAY:
            terms = Terms(rest_s=self._plan.rest_s)
            self._session.change_terms(terms, TRIALS_BEGIN)

    def _end_when_enough(self, now_s: float) -> None:
        if self.step.kind is not StepKind.ENOUGH:
            self._enough_since_s = None
        elif self._enough_since_s is None:
            self._enough_since_s = now_s
        elif now_s - self._enough_since_s >= ASK_S:
            self.end()

    def _last_effort(self) -> int:
        for at in reversed(range(len(self._trials))):
            if not self._trials[at].touch:
                return at
        raise UserError(
            phrase("There was no effort yet."), phrase("Pain is asked for after one.")
        )
