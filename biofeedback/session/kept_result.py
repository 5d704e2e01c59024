"""What is kept of one maximal test in the logbook, beside its recording.

* It is kept once, however often it is asked. Nothing is deleted: what is taken back
  gets a row that says so, and can be kept again.
* What was taken out of the test is voided as soon as its rows are in the logbook.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.session_notes import PAIN_CORRECTED
from biofeedback.phrase import Phrase, phrase
from biofeedback.session.test_meaning import Meaning, meaning_of
from biofeedback.session.test_record import new_test
from biofeedback.training.reference import Origin, Reference

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.rows import SetRow
    from biofeedback.training.maximal import MaximalPlan, MaximalResult
    from biofeedback.training.task import Task
    from biofeedback.training.trial import Trial

TAKEN_BACK = "taken back by the practitioner"


class KeptResult:
    """The rows of one test.

    Args:
        athlete_id: who is tested.
        task: with the sides that work.

    Attributes:
        set_id: key of the set of the test.
        reference: what the result was kept as, or None.
    """

    def __init__(self, logbook: Logbook, *, athlete_id: str, task: Task) -> None:
        self.set_id = new_key()
        self.reference: Reference | None = None
        self._logbook = logbook
        self._athlete_id = athlete_id
        self._task = task
        self._not_entered: dict[int, str] = {}  # reps to be voided in the logbook

    def must_be_open(self, next_step: Phrase) -> None:
        """What is kept does not change any more.

        Raises:
            UserError: it is kept already; says the next step.
        """
        if self.reference is not None:
            raise UserError(phrase("The result is kept already."), next_step)

    def meaning(self, found: MaximalResult) -> Meaning:
        """What a result means.

        Raises:
            FileError: the logbook cannot be read.
        """
        return meaning_of(
            self._logbook.maxima,
            found,
            athlete_id=self._athlete_id,
            task=self._task,
            session_id=self._session_id(),
        )

    def is_practice_score(self) -> bool:
        """Whether it is of the athlete's first session with this task and side.

        Raises:
            FileError: the logbook cannot be read.
        """
        return self._logbook.maxima.first_ever(
            self._athlete_id,
            self._task,
            self._task.sides,
            session_id=self._session_id(),
        )

    def keep(
        self,
        found: MaximalResult,
        plan: MaximalPlan,
        trials: Sequence[Trial],
        *,
        zero_kind: str,
    ) -> Reference:
        """Enters the test into the logbook.

        Returns:
            The force that is 100 % from now on.

        Raises:
            UserError: its set is not in the logbook yet.
            FileError: the logbook cannot be written.
        """
        if self.reference is not None:
            return self.reference
        row = self._row()
        self.enter_voids()
        new = new_test(
            found,
            plan,
            trials,
            row=row,
            athlete_id=self._athlete_id,
            task=self._task,
            practice=self.is_practice_score(),
            zero_kind=zero_kind,
        )
        key = self._logbook.maxima.add(new)
        self.reference = Reference(
            new.force_n,
            Origin.OWN_SIDE,
            new.definition,
            new.tested_utc.astimezone().date().isoformat(),
            practice=new.practice,
            pain=new.pain,
            setup=self._task.setup,
            source=key,
            task=self._task,
        )
        return self.reference

    def take_back(self) -> None:
        """It is no 100 % any more.

        Raises:
            UserError: it is not kept.
            FileError: the logbook cannot be written.
        """
        if self.reference is None:
            raise UserError(phrase("The result is not kept."))
        self.void(TAKEN_BACK)
        self.reference = None

    def void(self, reason: str) -> None:
        """What is kept does not count.

        Raises:
            FileError: the logbook cannot be written.
        """
        if self.reference is not None:
            self._logbook.maxima.void(self.reference.source, reason)

    def note_pain(self, number: int, old: int | None, new: int | None) -> None:
        """Notes another pain in an effort of a test that is over.

        Raises:
            UserError: the set is not saved yet.
            FileError: the logbook cannot be written.
        """
        row = self._row()
        content = {"set_id": row.id, "rep": number, "old": old, "new": new}
        self._logbook.session_notes.add(
            row.session_id, PAIN_CORRECTED, content, set_id=row.id
        )

    def void_rep(self, number: int, reason: str) -> None:
        """Voids a rep now, or as soon as it is in the logbook.

        Raises:
            FileError: the logbook cannot be written; `enter_voids` tries again.
        """
        self._not_entered[number] = reason
        self.enter_voids()

    def enter_voids(self) -> None:
        """Voids in the logbook what was taken out, as far as its rows are there."""
        if not self._not_entered:
            return
        for rep in self._logbook.reps(set_id=self.set_id, limit=1000):
            reason = self._not_entered.pop(rep.number, "")
            if reason and rep.void_reason is None:
                self._logbook.void_rep(rep.id, reason)

    def _row(self) -> SetRow:
        row = self._logbook.set_by_id(self.set_id)
        if row is None:
            raise UserError(
                phrase("The set is not in the logbook yet."), phrase("Try again.")
            )
        return row

    def _session_id(self) -> str:
        row = self._logbook.set_by_id(self.set_id)
        return row.session_id if row else ""
