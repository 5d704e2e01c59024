"""The office: all doors from the window's pages to what is kept, in one thing.

A door that is None is shut: there is no logbook, and its page says so or is not there.
Doors of pages that are built when they are wanted are functions that give them then.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.phrase import phrase
from biofeedback.session import late_doors
from biofeedback.session.day_facts import midnight
from biofeedback.session.local_time import here
from biofeedback.session.lowering import PairMissing, default_floor
from biofeedback.session.maximal_tests import MaximalTests
from biofeedback.session.opening import PLAIN, last_prescription
from biofeedback.session.own_reference import own_reference
from biofeedback.session.pain_told import PainTold, told_since
from biofeedback.session.plan_at_desk import (
    Offer,
    beyond_plan,
    offer_of,
    pain_unasked,
    planned_task,
)
from biofeedback.session.roster import Roster
from biofeedback.session.today import Today
from biofeedback.training.prescription import FeedbackMode
from biofeedback.training.reference_words import before_start

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime
    from pathlib import Path

    from biofeedback.logbook.calibrations import Calibrations
    from biofeedback.logbook.database import Logbook
    from biofeedback.session.group_pairs import GroupPairs
    from biofeedback.session.keeping import Keeping
    from biofeedback.session.live import Session
    from biofeedback.session.lowering import Floor
    from biofeedback.session.planning import Planning
    from biofeedback.session.reliability import Reliability
    from biofeedback.session.reports import Reports
    from biofeedback.session.review import DayChecks, Library
    from biofeedback.session.rig_filter import RigFilters
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.session.visit_summary import VisitSummaries
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Office:
    """The doors.

    Attributes:
        logbook: what they lead to.
        saved_reps: for the review.
        checks: isometric against eccentric, day by day.
        calibrations: of the rigs.
        roster: athletes and tasks.
        today: the day of an athlete.
        planning: plans.
        tests: maximal tests.
        visit_id: enters the visit and gives its key.
        visits: what was done in a visit.
        reports: on athletes, over months.
        group: isometric against eccentric of everybody.
        pain: what was told of pain since the last set began.
        filters: which filter a rig was given.
        recordings: folder of the recordings.
        reliability: of repeated scores; a table needs no logbook.
        keeping: opens the door to backups, who did what, and erasing.
    """

    logbook: Logbook | None = None
    saved_reps: Callable[[], Library] | None = None
    checks: Callable[[], DayChecks] | None = None
    calibrations: Calibrations | None = None
    roster: Roster | None = None
    today: Today | None = None
    planning: Callable[[], Planning] | None = None
    tests: MaximalTests | None = None
    visit_id: Callable[[], str] | None = None
    visits: Callable[[], VisitSummaries] | None = None
    reports: Callable[[], Reports] | None = None
    group: Callable[[], GroupPairs] | None = None
    pain: PainTold = field(default_factory=PainTold)
    filters: Callable[[], RigFilters] | None = None
    recordings: Path | None = None
    reliability: Callable[[], Reliability] = late_doors.reliability
    keeping: Callable[[], Keeping] | None = None

    @classmethod
    def of(cls, logbook: Logbook, recordings: Path, session: Session) -> Office:
        """All doors open.

        Args:
            recordings: folder of the recordings.
            session: runs the sets and says who is here.
        """
        today = Today(logbook, visit_id=session.visit_id)
        return cls(
            logbook=logbook,
            saved_reps=partial(late_doors.saved_reps, logbook, recordings),
            checks=partial(late_doors.checks, logbook),
            calibrations=logbook.calibrations,
            roster=Roster(logbook),
            today=today,
            planning=partial(late_doors.planning, logbook),
            tests=MaximalTests(session, logbook, recordings),
            visit_id=session.visit_id,
            visits=partial(late_doors.visits, logbook, today.pain_rule),
            reports=partial(late_doors.reports, logbook, today.pain_rule),
            group=partial(late_doors.group, logbook),
            pain=PainTold(today.pain_rule),
            filters=partial(late_doors.filters, session.filters)
            if session.filters
            else None,
            recordings=recordings,
            reliability=partial(late_doors.reliability, logbook),
            keeping=partial(late_doors.keeping, logbook, recordings, session),
        )

    def last_prescription(self, athlete_code: str) -> Prescription:
        """What the desk starts with for an athlete.

        Raises:
            FileError: the logbook cannot be read.
        """
        if self.logbook is None:
            return PLAIN
        return last_prescription(self.logbook, athlete_code)

    def listed_tasks(self) -> tuple[Task, ...]:
        """All of the list of tasks, by name; none without a logbook.

        Raises:
            FileError: the logbook cannot be read.
        """
        if self.logbook is None:
            return ()
        self.logbook.tasks.start()
        return tuple(one.task for one in self.logbook.tasks.search(""))

    def task_named(self, athlete_code: str, name: str) -> Task | None:
        """The task of this name in the list, else in the athlete's plan, or None.

        Raises:
            FileError: the logbook cannot be read.
        """
        if self.logbook is None:
            return None
        self.logbook.tasks.start()
        found = self.logbook.tasks.by_name(name)
        return found or planned_task(self.logbook, athlete_code, name)

    def offer(self, athlete_code: str, *, single_cell: bool = False) -> Offer | None:
        """What the desk starts with for somebody who follows a plan; else None.

        Args:
            single_cell: whether the rig has one cell.

        Raises:
            FileError: the logbook cannot be read.
        """
        if self.today is None or self.logbook is None:
            return None
        if self.logbook.athlete_by_code(athlete_code) is None:
            return None
        return offer_of(self.today.for_athlete(athlete_code, single_cell=single_cell))

    def keep_offered(
        self, athlete_code: str, chosen: SetOfDay, *, single_cell: bool = False
    ) -> None:
        """Keeps that the set that the plan offered at the desk is being done.

        As taking it on the page of today does; where pain was not asked, there is no
        proposal that could be kept.

        Raises:
            FileError: the logbook cannot be written.
        """
        if self.today is None:
            return
        view = self.today.for_athlete(athlete_code, single_cell=single_cell)
        if view.report is not None and chosen.proposal is not None:
            self.today.use(view, chosen, against_advice=True)

    def against_plan(
        self,
        athlete_code: str,
        asked: Prescription,
        *,
        single_cell: bool = False,
        decided: Reference | None = None,
    ) -> tuple[str, ...]:
        """What the athlete's plan says against a set at the desk; else empty.

        Args:
            single_cell: whether the rig has one cell.
            decided: the 100 % that was decided on for this set, where one was.

        Raises:
            FileError: the logbook cannot be read.
        """
        today, logbook = self.today, self.logbook
        if today is None or logbook is None:
            return ()
        if logbook.athlete_by_code(athlete_code) is None:
            return ()
        view = today.for_athlete(athlete_code, single_cell=single_cell)
        return (
            *pain_unasked(logbook, athlete_code, view, today.now),
            *beyond_plan(view, asked, decided=decided),
        )

    def own_reference(
        self,
        athlete_code: str,
        task: Task,
        *,
        now: datetime,
        each_side: bool = False,
    ) -> Reference | None:
        """The newest tested 100 % of the very task at the desk; as `own_reference`.

        Raises:
            FileError: the logbook cannot be read.
        """
        if self.logbook is None:
            return None
        return own_reference(
            self.logbook, athlete_code, task, now=now, each_side=each_side
        )

    def floor(
        self, athlete_code: str, task: Task, *, now: datetime
    ) -> Floor | PairMissing:
        """The floor of a lowering from the isometric peak of its paired task.

        Args:
            task: with the sides that work.
            now: with its time zone.

        Raises:
            UserError: nothing is kept here.
            FileError: the logbook cannot be read.
        """
        if self.logbook is None:
            raise UserError(phrase("Without a logbook no test is known."))
        athlete = self.logbook.athlete_by_code(athlete_code)
        if athlete is None:
            return PairMissing.NOT_TESTED
        return default_floor(self.logbook, athlete.id, task, now=now)

    def recall_pain(
        self, athlete_code: str, now: datetime, *, whole_day: bool = False
    ) -> None:
        """What the athlete at the desk told of pain today, as `PainTold.recall`.

        Pain of a maximal test that nobody came to keep is recalled too.

        Raises:
            FileError: the logbook cannot be read.
        """
        if self.logbook is None:
            return
        pain = self.pain
        since = pain.recall(self.logbook, athlete_code, now, whole_day=whole_day)
        for level in self.tests.pain_not_kept(since) if self.tests else ():
            pain.tell(level)

    def with_fading(self, athlete_code: str, asked: Prescription) -> Prescription:
        """The same, knowing in how many sessions its feedback has been fading.

        Raises:
            FileError: the logbook cannot be read.
        """
        if self.logbook is None or asked.feedback is not FeedbackMode.FADING:
            return asked
        here = self.visit_id() if self.visit_id else ""
        faded = self.logbook.fading_sessions(athlete_code, asked.task, but_session=here)
        return replace(asked, faded_sessions=faded)

    def against_test(
        self, athlete_code: str, now: datetime | None = None
    ) -> tuple[str, ...]:
        """What is to be said before a maximal test; empty where nothing is.

        A set leaves behind what was told before it. A test asks for all there is, so
        the pain of the whole day speaks against it.

        Args:
            now: the time here, with its zone; None for the clock's.

        Raises:
            FileError: the logbook cannot be read.
        """
        advice = self.today.advice(athlete_code) if self.today else ""
        told = self._pain_of_day(athlete_code, now or here())
        return (*self.pain.against(told), *((advice,) if advice else ()))

    def _pain_of_day(self, athlete_code: str, now: datetime) -> tuple[int, ...]:
        if self.logbook is None or not athlete_code:
            return ()
        since = midnight(now)
        told = told_since(self.logbook, athlete_code, since, now)
        not_kept = self.tests.pain_not_kept(since) if self.tests else ()
        return (*(level for _, level in told), *not_kept)

    def against_start(self, athlete_code: str, asked: Prescription) -> tuple[str, ...]:
        """What is to be said before a set starts; empty where nothing is.

        Raises:
            FileError: the logbook cannot be read.
        """
        today = self.today
        if today is None:
            return ()
        advice = today.advice(athlete_code)
        return (
            *((advice,) if advice else ()),
            *before_start(
                asked,
                today=today.date,
                stale_after_days=today.stale_after_days(),
            ),
        )
