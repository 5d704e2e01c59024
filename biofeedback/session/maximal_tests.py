"""Maximal tests of whoever is here: what is known, a new one, and one to take up again.

It knows session, logbook and recordings, and hands out `MaximalTest`. The athlete is
always the one of the session at that moment.
"""

from __future__ import annotations

import logging
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Protocol

from biofeedback.conditioning.profile import RigProfile, Side
from biofeedback.errors import NOTHING, FieldError, FileError, UserError
from biofeedback.logbook.session_notes import PAIN_CORRECTED
from biofeedback.phrase import Phrase, phrase
from biofeedback.session.maximal_test import Driven, MaximalTest
from biofeedback.session.test_record import put_together, read_plan, with_pain
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Sides, Task, TaskKind
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.maxima import MaximalTestRow
    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.maximal import MaximalPlan

OFFERED_DAYS = 7
"""A test that nobody kept for longer than this is not offered any more."""
TASKS_FROM_REPS = 1000

_log = logging.getLogger(__name__)


class Visited(Driven, Protocol):
    """A session that says who is here."""

    @property
    def athlete_code(self) -> str:
        """Who is here."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is known before a test.

    Attributes:
        first_ever: whether the athlete was never tested in this task and on this side;
            what comes of it is then a practice score.
        earlier: the newest test, or None.
        problem: why no test can be done here; empty where one can.
    """

    first_ever: bool
    earlier: MaximalTestRow | None
    problem: Phrase = NOTHING


@dataclass(frozen=True, slots=True)
class NotKept:
    """A test that was done and never kept.

    Attributes:
        set_id: key of its set.
        sides: which worked.
    """

    set_id: str
    task: str
    sides: Sides
    started_utc: datetime


class MaximalTests:
    """The door to maximal tests.

    Args:
        session: runs the sets.
        logbook: where tests are kept.
        recordings: folder of the recordings.

    Raises (every method): `FileError` where the logbook cannot be read.
    """

    def __init__(self, session: Visited, logbook: Logbook, recordings: Path) -> None:
        self._session = session
        self._logbook = logbook
        self._recordings = recordings

    def tasks(self) -> tuple[Task, ...]:
        """Tasks of the athlete's sets so far, the latest first, then all of the list.

        Each is told once, and by the name that it has now. Lowering has no
        maximal trials and is left out.
        """
        self._logbook.tasks.start()
        listed = {one.task.key: one.task for one in self._logbook.tasks.search("")}
        by_name = {task.name: task for task in listed.values()}
        found: dict[str, Task] = {}
        known: set[str] = set()  # names that stand for a task that is found
        seen: set[str] = set()
        code = self._session.athlete_code
        for rep in self._logbook.reps(athlete_code=code, limit=TASKS_FROM_REPS):
            if rep.set_id in seen or rep.task in known:
                continue
            seen.add(rep.set_id)
            task = self._task_of(rep.set_id)
            if task is not None:
                known.add(rep.task)
                # As it stands in the list: its set-up may have been written down since.
                task = listed.get(task.key) or by_name.get(task.name) or task
                found.setdefault(task.name, task)
        latest = {task.key for task in found.values() if task.key}
        return tuple(
            task
            for task in (
                *found.values(),
                *(task for key, task in listed.items() if key not in latest),
            )
            if task.kind is not TaskKind.LOWERING
        )

    def last_tested(self) -> Task | None:
        """Task and side of the newest test that was kept; None without one."""
        row = self._logbook.maxima.newest(self._athlete_id())
        if row is None:
            return None
        return Task(row.task, sides=row.sides, key=row.task_id or "")

    def outlook(self, task: Task, profile: RigProfile | None) -> Outlook:
        """What is known before a test of this task.

        Args:
            task: with the sides that are to work.
            profile: of the rig; None before a board was found.
        """
        rows = self._logbook.maxima.tests(self._athlete_id(), task, task.sides)
        return Outlook(
            first_ever=not rows,
            earlier=rows[0] if rows else None,
            problem=_problem(task, profile),
        )

    def begin(
        self,
        task: Task,
        plan: MaximalPlan,
        profile: RigProfile,
        *,
        went_on: Sequence[str] = (),
    ) -> MaximalTest:
        """Begins a test: its set starts with the next sample.

        Args:
            task: with the sides that are to work.
            profile: of the rig.
            went_on: what was said before, and passed over.

        Raises:
            UserError: this rig cannot do it.
            FieldError: the ceiling lies too low.
        """
        outlook = self.outlook(task, profile)
        if outlook.problem:
            raise UserError(outlook.problem)
        earlier = outlook.earlier
        test = MaximalTest(
            self._session,
            self._logbook,
            athlete_id=self._athlete_id(),
            plan=plan,
            task=task,
            earlier_n=None if earlier is None else earlier.peak_n or earlier.force_n,
            rated_n=rated_n(profile, task.sides),
            single_cell=len(profile.channels) == 1,
        )
        test.begin(went_on)
        return test

    def not_kept(self) -> tuple[NotKept, ...]:
        """Tests of the last days that were done and never kept, newest first."""
        since = datetime.now(tz=UTC) - timedelta(days=OFFERED_DAYS)
        found = []
        for key in self._logbook.maxima.sets_not_kept(self._athlete_id(), since=since):
            row = self._logbook.set_by_id(key)
            try:
                test = self.take_up(key)
            except UserError:
                continue  # its recording is gone, so nobody can take it up
            if row is not None and test.result is not None:
                task = test.task
                found.append(NotKept(key, task.name, task.sides, row.started_utc))
        return tuple(found)

    def pain_not_kept(self, since: datetime) -> tuple[int, ...]:
        """The highest pain of each test that was done since then and never kept.

        It stands in the recordings alone, and in what was corrected after.
        """
        found = []
        for key in self._logbook.maxima.sets_not_kept(self._athlete_id(), since=since):
            try:
                test = self.take_up(key)
            except (UserError, FileError) as error:
                _log.warning("the pain of the test %s cannot be read: %s", key, error)
                continue
            told = [trial.pain for trial in test.trials if trial.pain is not None]
            found += [max(told)] if told else []
        return tuple(found)

    def take_up(self, set_id: str) -> MaximalTest:
        """A test that was done, put together from what is saved.

        Raises:
            UserError: there is no such set.
            FileError: its recording cannot be read.
        """
        row, task = self._logbook.set_by_id(set_id), self._task_of(set_id)
        if row is None or task is None:
            raise UserError(
                phrase("There is no set {set_id} to take up.", set_id=set_id)
            )
        path = self._recordings / row.recording
        plan, marks = read_plan(path)
        reps = sorted(
            self._logbook.reps(set_id=set_id, limit=1000), key=lambda rep: rep.number
        )
        try:
            zero = Fields(row.profile, "profile").inner("zero")
            kind = zero.text("kind")
            plan, trials = put_together(plan, reps, marks)
        except FieldError as error:
            raise FileError(path, error.words) from error
        test = MaximalTest(
            None, self._logbook, athlete_id=self._athlete_id(), plan=plan, task=task
        )
        for note in self._logbook.session_notes.list(
            row.session_id, kind=PAIN_CORRECTED
        ):
            number, new = note.content.get("rep"), note.content.get("new")
            if note.content.get("set_id") == set_id and isinstance(number, int):
                level = new if isinstance(new, int) else None
                trials = with_pain(trials, number, level)
        test.put_together(trials, plan, row=row, zero_kind=kind)
        return test

    def mass(self) -> BodyMass | None:
        """The newest body mass of whoever is here.

        Raises:
            UserError: the athlete is not in the logbook.
            FileError: the logbook cannot be read.
        """
        return self._logbook.people.mass(self._athlete_id())

    def _athlete_id(self) -> str:
        athlete = self._logbook.athlete_by_code(self._session.athlete_code)
        if athlete is None:
            raise UserError(
                phrase(
                    "There is no athlete {athlete_code} in the logbook.",
                    athlete_code=self._session.athlete_code,
                )
            )
        return athlete.id

    def _task_of(self, set_id: str) -> Task | None:
        """The task of a set; None where it cannot be read."""
        row = self._logbook.set_by_id(set_id)
        if row is None:
            return None
        try:
            return Prescription.from_json(Fields(row.prescription)).task
        except FieldError:
            return None  # of another version


def rated_n(profile: RigProfile, sides: Sides) -> float | None:
    """Rated load of the cells that work, together; None where none does."""
    wanted = {Sides.LEFT: Side.LEFT, Sides.RIGHT: Side.RIGHT}.get(sides)
    loads_n = [
        channel.rated_n
        for channel in profile.channels
        if wanted is None or channel.side in {wanted, Side.SINGLE}
    ]
    return sum(loads_n) or None


def _problem(task: Task, profile: RigProfile | None) -> Phrase:
    if profile is None:
        return phrase("No board was found yet. See that the rig is connected.")
    if task.kind is TaskKind.LOWERING:
        return phrase(
            "A lowering task has no maximal trials. Choose its isometric partner."
        )
    side = {Sides.LEFT: Side.LEFT, Sides.RIGHT: Side.RIGHT}.get(task.sides)
    lacks = side is not None and profile.index_of(side) is None
    if lacks and len(profile.channels) > 1:
        return phrase("The rig has no {sides} cell.", sides=task.sides.value)
    return NOTHING
