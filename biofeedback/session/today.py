"""Today: which sets there are, with which force, and what was decided on them.

It gathers plan, tests, stated forces, body mass and the day's report, and lets the
pure rules work on them. It decides nothing: where stopping is advised a set is handed
out all the same once that is said to be wanted, and both are kept.

What is answered is kept with the first decision on it; where stopping is advised by
it, at once. What was kept today and is answered otherwise, or taken back, is so in the
logbook too: by another row, and nothing is changed there.

Pain that was told after pain now was answered, in a set or after it, is proposed with
where it is higher; what was answered stays as it was answered.
"""

from __future__ import annotations

import logging
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.days import NewChoice
from biofeedback.logbook.session_notes import ANSWERS_BACK
from biofeedback.phrase import joined, phrase, sentences
from biofeedback.session.day_facts import (
    background_of,
    facts_of,
    last_visit,
    midnight,
)
from biofeedback.session.local_time import day_of, here
from biofeedback.session.pain_told import told_since
from biofeedback.session.set_of_day import PlanPlace, SetOfDay
from biofeedback.training.day import DayReport, LastTime, PainRule, propose
from biofeedback.training.day_words import in_words
from biofeedback.training.reference import STALE_AFTER_DAYS, Definition, Origin
from biofeedback.training.reference_choice import choose
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.days import ReportRow
    from biofeedback.logbook.rows import Athlete
    from biofeedback.session.day_facts import Background
    from biofeedback.training.planned import PlannedPrescription
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference_facts import Facts
    from biofeedback.training.task import Sides, Task

PAIN_RULE = "pain rule"
STALE_DAYS = "stale days"
STALE_DAYS_MOST = 3650

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class DayView:
    """All that is shown of one athlete's day.

    Attributes:
        report: what was reported; None before pain was asked.
        told: the newest pain that was told since pain now was answered, or today where
            it was not; None where there is none.
        last_visit: date of the last visit before today, or None.
        problems: why something planned makes no set.
    """

    athlete_id: str
    athlete_code: str
    today: date
    rule: PainRule
    stale_after_days: int
    report: DayReport | None = None
    last_visit: date | None = None
    plan: PlanPlace | None = None
    sets: tuple[SetOfDay, ...] = ()
    problems: tuple[str, ...] = ()
    told: int | None = None

    @property
    def judged(self) -> DayReport | None:
        """The report, with what was told since where that is more."""
        report = self.report
        if report is None or self.told is None or self.told <= report.pain_now:
            return report
        return replace(report, pain_now=self.told)

    @property
    def advice(self) -> str:
        """Why stopping is advised today; empty where it is not."""
        if self.judged is None:
            return ""
        proposal = propose(self.judged, self.rule)
        return in_words(proposal, self.rule) if proposal.advise_stop else ""


@dataclass(frozen=True, slots=True)
class _Answered:
    """What was answered.

    Attributes:
        report: None where it was taken back.
        pain_at: when pain now was answered as it stands, or was taken back.
    """

    report: DayReport | None
    pain_at: datetime

    @classmethod
    def after(
        cls, before: _Answered | None, report: DayReport | None, now: datetime
    ) -> _Answered:
        """Another answer; one about sleep says nothing of pain now."""
        same = (
            before is not None
            and before.report is not None
            and report is not None
            and before.report.pain_now == report.pain_now
        )
        return cls(report, before.pain_at if before and same else now)


class Today:
    """The day of an athlete.

    Raises (every method): `FileError` where the logbook cannot be used.

    Args:
        background: what is known of an athlete besides tests and reports; without
            one it is asked of the logbook.
        visit_id: gives the key of the visit that a report belongs to, or nothing.
        clock: the time here, with its zone.
    """

    def __init__(
        self,
        logbook: Logbook,
        *,
        background: Callable[[Athlete], Background] | None = None,
        visit_id: Callable[[], str] = lambda: "",
        clock: Callable[[], datetime] = here,
    ) -> None:
        self._logbook = logbook
        self._background = background or (
            lambda athlete: background_of(logbook, athlete, clock())
        )
        self._visit_id = visit_id
        self._clock = clock
        self._answered: dict[str, _Answered] = {}

    @property
    def now(self) -> datetime:
        """The time where the athlete is, with its zone."""
        return self._clock()

    @property
    def date(self) -> date:
        """Today, where the athlete is."""
        return self._clock().date()

    # What there is.

    def for_athlete(
        self,
        code: str,
        *,
        report: DayReport | None = None,
        kept: bool = True,
        free: Sequence[PlannedPrescription] = (),
        single_cell: bool = False,
    ) -> DayView:
        """The day of an athlete.

        Args:
            report: what is reported now.
            kept: whether, without one, what was answered or kept today counts.
            free: prescriptions beside the plan, or without one.
            single_cell: whether the rig has one cell.

        Raises:
            FieldError: there is no such athlete.
        """
        athlete = self._athlete(code)
        known = self._background(athlete)
        now = self._clock()
        answered = self._answers(athlete.id, now)
        if report is not None or not kept:
            answered = _Answered.after(answered, report, now)
        view = DayView(
            athlete.id,
            athlete.code,
            now.date(),
            self.pain_rule(),
            self.stale_after_days(),
            answered.report if answered else None,
            last_visit(self._logbook, athlete.id, now),
            known.plan,
            told=self._told(athlete.code, answered, now),
        )
        sets, problems = [], [*known.problems]
        for plan, planned in [
            *((known.plan, one) for one in known.planned),
            *((None, one) for one in free),
        ]:
            try:
                order = planned.side_order.sides(known.injured)
            except FieldError as error:
                told = joined(
                    ": ", (planned.task.name, sentences(error.problem, error.next_step))
                )
                problems.append(told)
                continue
            facts = facts_of(self._logbook, athlete.id, planned, known.body_mass, now)
            sets += [
                self._set(view, planned, sides, facts, plan, single_cell=single_cell)
                for sides in order
            ]
        return replace(view, sets=tuple(sets), problems=tuple(problems))

    def advice(self, code: str) -> str:
        """Why stopping is advised by today's answers; empty where it is not."""
        athlete = self._logbook.athlete_by_code(code)
        answered = self._answers(athlete.id, self._clock()) if athlete else None
        if answered is None or answered.report is None:
            return ""
        rule = self.pain_rule()
        proposal = propose(answered.report, rule)
        return in_words(proposal, rule) if proposal.advise_stop else ""

    def _athlete(self, code: str) -> Athlete:
        athlete = self._logbook.athlete_by_code(code)
        if athlete is None:
            raise FieldError(
                "athlete.code", phrase("there is no athlete {code}.", code=code)
            )
        return athlete

    def _set(
        self,
        view: DayView,
        planned: PlannedPrescription,
        sides: Sides,
        facts: Facts,
        plan: PlanPlace | None,
        *,
        single_cell: bool,
    ) -> SetOfDay:
        choice = choose(
            planned.reference,
            planned.task.on_side(sides),
            facts,
            today=view.today,
            each_side=planned.each_side and not single_cell,
            stale_after_days=view.stale_after_days,
        )
        proposal = None
        if view.judged is not None:
            last = self._last_time(view, planned, sides, plan)
            proposal = propose(view.judged, view.rule, last=last)
        return SetOfDay(
            planned,
            sides,
            choice,
            choice.picked,
            view.today,
            proposal,
            (proposal.place if proposal else None) or 0.0,
            plan,
            single_cell,
            view.stale_after_days,
        )

    def _last_time(
        self,
        view: DayView,
        planned: PlannedPrescription,
        sides: Sides,
        plan: PlanPlace | None,
    ) -> LastTime | None:
        """The last visit with this set, as far as its place says something today."""
        found = self._logbook.days.last_time(
            view.athlete_id,
            sides,
            before=midnight(self._clock()),
            plan_id=plan.id if plan else "",
            planned_key=planned.key if plan else "",
            task_id=planned.task.key,
        )
        if found is None:
            return None
        if found.accepted.get("intensity") != planned.intensity.to_json():
            return None  # a place in another range says nothing here
        place = found.accepted.get("place")
        if isinstance(place, bool) or not isinstance(place, int | float):
            return None
        return LastTime(float(place), found.report.report.pain_now)

    def answer(self, code: str, report: DayReport | None) -> None:
        """What the athlete answers now; None where an answer is taken back.

        It counts from now on, whether or not the logbook can be written.

        Raises:
            FieldError: there is no such athlete.
        """
        athlete_id, now = self._athlete(code).id, self._clock()
        before = self._answers(athlete_id, now)
        self._answered[athlete_id] = _Answered.after(before, report, now)
        kept = self._report_of_today(athlete_id, now)
        if report is None:
            if kept is not None:
                self._take_back(now)
        elif kept is not None or propose(report, self.pain_rule()).advise_stop:
            self._keep_report(athlete_id, report, now)

    def _answers(self, athlete_id: str, now: datetime) -> _Answered | None:
        """What was answered today, or was kept of today before."""
        answered = self._answered.get(athlete_id)
        if answered is not None and day_of(answered.pain_at, now) == now.date():
            return answered
        kept = self._report_of_today(athlete_id, now)
        return _Answered(kept.report, kept.reported_utc) if kept else None

    def _told(self, code: str, answered: _Answered | None, now: datetime) -> int | None:
        """The newest pain that was told since pain now was answered, or today."""
        asked = answered is not None and answered.report is not None
        since = answered.pain_at if answered and asked else midnight(now)
        told = told_since(self._logbook, code, since, now)
        return told[-1][1] if told else None

    def _take_back(self, now: datetime) -> None:
        session_id = self._visit_id()
        if session_id:
            self._logbook.session_notes.add(
                session_id, ANSWERS_BACK, {}, at_utc=now.astimezone(UTC)
            )

    def _keep_report(
        self, athlete_id: str, report: DayReport, now: datetime, session_id: str = ""
    ) -> str:
        """Keeps a report, where it is not the newest one already; its key."""
        kept = self._report_of_today(athlete_id, now)
        if kept is not None and kept.report == report:
            return kept.id
        return self._logbook.days.report(
            athlete_id,
            report,
            session_id=session_id or self._visit_id(),
            at_utc=now.astimezone(UTC),
        )

    def _report_of_today(self, athlete_id: str, now: datetime) -> ReportRow | None:
        for row in self._logbook.days.reports(athlete_id, limit=1):
            if row.reported_utc >= midnight(now):
                return row
        return None

    # What is set.

    def pain_rule(self) -> PainRule:
        """The cuts in use; those of the sources where none were set."""
        kept = self._logbook.settings.get(PAIN_RULE)
        if isinstance(kept, dict):
            try:
                return PainRule.from_json(Fields(kept, "pain_rule"))
            except FieldError as error:
                _log.warning("the pain rule that was set is not used: %s", error)
        return PainRule()

    def set_pain_rule(self, rule: PainRule) -> None:
        """Sets the cuts for this logbook."""
        self._logbook.settings.put(PAIN_RULE, rule.to_json())

    def stale_after_days(self) -> int:
        """From how many days on a reference is called old."""
        kept = self._logbook.settings.get(STALE_DAYS)
        if isinstance(kept, bool) or not isinstance(kept, int):
            return STALE_AFTER_DAYS
        return kept if 1 <= kept <= STALE_DAYS_MOST else STALE_AFTER_DAYS

    def set_stale_after_days(self, days: int) -> None:
        """Sets from how many days on a reference is called old.

        Raises:
            FieldError: it is no number of days.
        """
        if not 1 <= days <= STALE_DAYS_MOST:
            raise FieldError(
                "stale_days",
                phrase(
                    "must be 1 to {stale_days_most} days.",
                    stale_days_most=STALE_DAYS_MOST,
                ),
            )
        self._logbook.settings.put(STALE_DAYS, days)

    # What is decided.

    def state_force(
        self,
        code: str,
        task: Task,
        force_n: float,
        *,
        origin: Origin,
        on_date: str,
        definition: Definition = Definition.STATED,
        note: str = "",
    ) -> str:
        """Keeps a force that was not measured here, such as that before the injury.

        Args:
            task: with the sides that it is of.
            on_date: ISO date that it is of.

        Raises:
            FieldError: a value does not fit, or the date is still to come.
        """
        try:
            ahead = date.fromisoformat(on_date) > self._clock().date()
        except ValueError:
            ahead = False  # told by the logbook
        if ahead:
            raise FieldError(
                "stated.date", phrase("is still to come."), phrase("Give its own date.")
            )
        return self._logbook.maxima.add_stated(
            self._athlete(code).id,
            task,
            force_n,
            origin=origin,
            on_date=on_date,
            definition=definition,
            note=note,
        )

    def use(
        self,
        view: DayView,
        chosen: SetOfDay,
        *,
        against_advice: bool = False,
        session_id: str = "",
    ) -> tuple[Prescription, dict[str, object]]:
        """Keeps report and decision, and hands out the set.

        Args:
            chosen: with the place and the reference that are wanted.
            against_advice: that the set is wanted although stopping is advised.

        Returns:
            What the set asks for, and what the head of its recording says of the plan.

        Raises:
            UserError: pain was not asked, stopping is advised, or there is no force.
        """
        if view.report is None or chosen.proposal is None:
            raise UserError(
                phrase("Pain now was not asked yet."), phrase("Choose 0 to 10 first.")
            )
        if chosen.problem:
            raise UserError(chosen.problem)
        if chosen.advise_stop and not against_advice:
            raise UserError(chosen.reason_words(view.rule))
        asked, now = chosen.asked(), self._clock()
        report_id = self._keep_report(view.athlete_id, view.report, now, session_id)
        reference = asked.reference.to_json() if asked.reference else None
        accepted = {
            "place": chosen.place,
            "intensity": chosen.planned.intensity.to_json(),
            "reference": reference,
            "band": asked.band.to_json(),
            "against_advice": chosen.advise_stop,
        }
        by_rule = chosen.choice.picked
        proposed = {
            **chosen.proposal.to_json(),
            "rule": view.rule.to_json(),
            "reference": by_rule.reference.to_json() if by_rule else None,
        }
        self._logbook.days.choose(
            NewChoice(
                report_id,
                chosen.sides,
                proposed,
                accepted,
                plan_id=chosen.plan.id if chosen.plan else "",
                planned_key=chosen.planned.key if chosen.plan else "",
                task_id=chosen.planned.task.key,
            ),
            at_utc=now.astimezone(UTC),
        )
        return asked, chosen.context
