"""Reports: what was planned, done, tested, felt and changed in a period.

* A period is days where the athlete is; both ends are in it.
* What was done of a task is the sum over visits of what the page of each visit tells.
* What is not in the logbook is not known: no day without a visit counts as zero.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import RigProfile
from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.history import Period
from biofeedback.logbook.plans import StoredPlan
from biofeedback.logbook.session_notes import CHANGE, ORDER, PAIN
from biofeedback.session.report_facts import (
    Cell,
    PainDay,
    PlanPlace,
    ReportFacts,
    Rig,
    StageMove,
)
from biofeedback.session.report_tests import side_trends, symmetry_trends
from biofeedback.session.training_trends import training_trends
from biofeedback.session.visit_sets import VisitSets, orders_of
from biofeedback.session.visit_summary import changes_of
from biofeedback.training.day import PainRule
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.done_reps import DoneRep
    from biofeedback.logbook.history import PainTold
    from biofeedback.logbook.rows import Athlete, SetRow
    from biofeedback.logbook.session_notes import SessionNote
    from biofeedback.session.visit_facts import ChangeLine, TaskLine
    from biofeedback.training.task import Sides


class Reports:
    """Gathers reports; the door of page and command.

    Args:
        rule: gives the agreed cuts of pain.
        clock: the time here, with its zone.

    Raises (every method): `FileError` where the logbook cannot be used.
    """

    def __init__(
        self,
        logbook: Logbook,
        *,
        rule: Callable[[], PainRule] = PainRule,
        clock: Callable[[], datetime] = lambda: datetime.now(tz=UTC).astimezone(),
    ) -> None:
        self._logbook = logbook
        self._rule = rule
        self._clock = clock

    @property
    def today(self) -> date:
        """Today, where the athlete is."""
        return self._clock().date()

    def of(
        self,
        code: str,
        *,
        since: date | None = None,
        until: date | None = None,
        task: str = "",
        name: bool = False,
    ) -> ReportFacts:
        """The report of an athlete.

        Args:
            since: first day; that of the first entry, where none is given.
            until: last day; today, where none is given.
            task: name of the only task; all where it is empty.
            name: whether the athlete's name is in it.

        Raises:
            UserError: there is no such athlete or task, or the days are the wrong way
                round.
        """
        athlete = self._logbook.athlete_by_code(code)
        if athlete is None:
            raise UserError(
                f"There is no athlete {code} in the logbook.", "Check the code."
            )
        made = self.today
        last = until or made
        first = since or min(self._first(athlete) or last, last)
        if first > last:
            raise UserError(f"The period ends on {last}, before {first}.")
        return self._gather(athlete, (first, last), made, task, name=name)

    def _first(self, athlete: Athlete) -> date | None:
        found = self._logbook.history.first_utc(athlete.id)
        return None if found is None else self.day(found)

    def day(self, at: datetime) -> date:
        """The day of a moment, where the athlete is."""
        return at.astimezone(self._clock().tzinfo).date()

    def period(self, first: date, last: date) -> Period:
        """From the begin of one day to the end of another."""
        zone = self._clock().tzinfo
        midnight = time(tzinfo=zone)
        return Period(
            datetime.combine(first, midnight).astimezone(UTC),
            datetime.combine(last + timedelta(days=1), midnight).astimezone(UTC),
        )

    def _gather(
        self,
        athlete: Athlete,
        days: tuple[date, date],
        made: date,
        task: str,
        *,
        name: bool,
    ) -> ReportFacts:
        history, period = self._logbook.history, self.period(*days)
        zone = self._clock().tzinfo
        sets = history.sets(athlete.id, period)
        tests = history.tests(athlete.id, period)
        in_tests = [(self.day(row.tested_utc), row.pain) for row in tests]
        if task:
            self._check_task(task, sets, [row.task for row in tests])
            sets = [row for row in sets if row.task == task]
            tests = tuple(row for row in tests if row.task == task)
        notes = history.notes(athlete.id, period, ORDER, CHANGE, PAIN)
        reps = history.reps(athlete.id, period)
        done = _Done(sets, notes, reps)
        visited = {self.day(row.started_utc) for row in sets}
        pain = self._pain(history.pain(athlete.id, period), notes, in_tests)
        trends = side_trends(
            tests, history.stated(athlete.id), self._logbook.maxima, zone
        )
        plan, moves = self._plan(athlete.id, days)
        return ReportFacts(
            code=athlete.code,
            name=athlete.name if name else "",
            task=task,
            first=days[0],
            last=days[1],
            made=made,
            rule=self._rule(),
            plan=plan,
            moves=moves,
            visits=len(visited),
            lines=done.lines,
            weeks=done.weeks(self.day),
            trends=trends,
            symmetry=symmetry_trends(trends),
            training=training_trends(
                sets,
                reps,
                nudged=_nudged(note for _, note in notes),
                warm_ups=done.warm_ups,
                day_of=self.day,
            ),
            pain=pain,
            pain_asked=len(visited & {one.day for one in pain}),
            changes=_changes(notes, sets),
            rig=_rig(map(history.profile, (row.id for row in reversed(sets)))),
            not_closed=sum(row.closed_utc is None for row in sets),
        )

    def _check_task(
        self, task: str, sets: Iterable[SetRow], tested: Iterable[str]
    ) -> None:
        known = {row.task for row in sets} | set(tested)
        if task not in known and self._logbook.tasks.by_name(task) is None:
            there = ", ".join(f"“{one}”" for one in sorted(known)) or "none"
            raise UserError(
                f"There is no task “{task}”.", f"Tasks of this period: {there}."
            )

    # Pain and plan.

    def _pain(
        self,
        told: Iterable[PainTold],
        notes: Iterable[tuple[str, SessionNote]],
        in_tests: Iterable[tuple[date, int | None]],
    ) -> tuple[PainDay, ...]:
        """The latest report of each day, and the highest level in its sets.

        Args:
            in_tests: the highest of each maximal test, which is no note.
        """
        before = {self.day(one.reported_utc): one for one in told}
        most: dict[date, int] = {}
        first: dict[date, int] = {}
        for _, note in notes:
            level = note.content.get("level")
            if note.kind != PAIN or not isinstance(level, int):
                continue
            day = self.day(note.at_utc)
            if note.content.get("when") == "before":
                first.setdefault(day, level)
            else:
                most[day] = max(level, most.get(day, 0))
        for day, felt in in_tests:
            if felt is not None:
                most[day] = max(felt, most.get(day, 0))
        found = []
        for day in sorted(before.keys() | most.keys() | first.keys()):
            report = before.get(day)
            found.append(
                PainDay(
                    day,
                    report.now if report else first.get(day),
                    report.night if report else None,
                    report.morning if report else None,
                    most.get(day),
                )
            )
        return tuple(found)

    def _plan(
        self, athlete_id: str, days: tuple[date, date]
    ) -> tuple[PlanPlace | None, tuple[StageMove, ...]]:
        plans = self._logbook.plans
        followed = plans.followed(athlete_id)
        if followed is None:
            return None, ()
        if not isinstance(followed, StoredPlan):
            return PlanPlace(followed.name, problem=followed.words), ()
        stages = followed.plan.stages
        names = {stage.key: stage.name for stage in stages}
        moves, before = [], ""
        for move in plans.moves(followed.id):
            here = names.get(move.stage_key, f"stage {move.to_stage + 1}")
            day = self.day(move.at_utc)
            if days[0] <= day <= days[1]:
                moves.append(StageMove(day, before, here, move.reason))
            before = here
        return PlanPlace(
            name=followed.plan.name,
            stage=followed.stage + 1,
            stages=len(stages),
            stage_name=stages[followed.stage].name,
            since=self.day(followed.stage_since_utc),
            example=followed.plan.example,
        ), tuple(moves)


def _changes(
    notes: Iterable[tuple[str, SessionNote]], sets: Iterable[SetRow]
) -> tuple[ChangeLine, ...]:
    """What was changed within the sets that are told of, and between sets."""
    told = [note for _, note in notes if note.kind == CHANGE]
    named = {str(note.content.get("set_id") or note.set_id or "") for note in told}
    changed = [row for row in sets if row.id in named]
    return changes_of(told, VisitSets(changed, ()))


def _nudged(notes: Iterable[SessionNote]) -> Counter[str]:
    """How often the band of each set was changed, by the key of the set."""
    return Counter(
        str(note.content.get("set_id") or note.set_id)
        for note in notes
        if note.kind == CHANGE and note.content.get("what") == "band"
    )


class _Done:
    """What was planned and done, visit by visit and in sum.

    Attributes:
        warm_ups: keys of the sets that were a warm-up of their running order.
    """

    def __init__(
        self,
        sets: Sequence[SetRow],
        notes: Sequence[tuple[str, SessionNote]],
        reps: Iterable[DoneRep],
    ) -> None:
        self._sets: dict[str, list[SetRow]] = {}
        for row in sets:
            self._sets.setdefault(row.session_id, []).append(row)
        self._notes: dict[str, list[SessionNote]] = {}
        for session_id, note in notes:
            self._notes.setdefault(session_id, []).append(note)
        session_of = {row.id: row.session_id for row in sets}
        by_visit: dict[str, list[DoneRep]] = {}
        for rep in reps:
            if rep.set_id in session_of:
                by_visit.setdefault(session_of[rep.set_id], []).append(rep)
        tasks = {row.task for row in sets}
        orders = {
            session_id: orders_of(self._notes.get(session_id, ()), session_id)
            for session_id in self._sets
        }
        self.warm_ups = frozenset(
            set_id
            for own in orders.values()
            for order in own
            for set_id in order.warm_ups
        )
        self._lines = {
            session_id: tuple(
                line
                for line in VisitSets(rows, orders[session_id]).lines(
                    by_visit.get(session_id, ())
                )
                if line.task in tasks
            )
            for session_id, rows in self._sets.items()
        }

    @property
    def lines(self) -> tuple[TaskLine, ...]:
        """Of each task and its sides, over all visits."""
        found: dict[tuple[str, Sides, bool], TaskLine] = {}
        for lines in self._lines.values():
            for line in lines:
                key = (line.task, line.sides, line.warm_up)
                earlier = found.get(key)
                found[key] = line if earlier is None else _sum(earlier, line)
        return tuple(found.values())

    def weeks(
        self, day_of: Callable[[datetime], date]
    ) -> tuple[tuple[date, float, float], ...]:
        """Seconds in the band that were planned and done, without the warm-up."""
        found: dict[date, tuple[float, float]] = {}
        for session_id, lines in self._lines.items():
            day = day_of(self._sets[session_id][0].started_utc)
            monday = day - timedelta(days=day.weekday())
            planned, done = found.get(monday, (0.0, 0.0))
            for line in lines:
                if not line.warm_up:
                    planned += line.planned.inside_s
                    done += line.done.inside_s
            found[monday] = (planned, done)
        return tuple((monday, *sums) for monday, sums in sorted(found.items()))


def _sum(one: TaskLine, other: TaskLine) -> TaskLine:
    return replace(
        one,
        planned=one.planned + other.planned,
        done=one.done + other.done,
        not_complete=one.not_complete + other.not_complete,
        void=one.void + other.void,
        sense=None,  # errors of unseen reps do not add up over visits
    )


def _rig(profiles: Iterable[Mapping[str, object]]) -> Rig | None:
    """The rig of the newest set that says which it was.

    Args:
        profiles: of the sets, newest first.
    """
    for content in profiles:
        try:
            profile = RigProfile.from_json(Fields(content, "profile"))
        except FieldError:
            continue  # of another version
        cells = []
        for channel in profile.channels:
            at_n = channel.rated_n / 2
            u_n = channel.calibration.u_n(at_n)
            cells.append(
                Cell(
                    channel.name,
                    channel.calibration.label,
                    channel.calibration.date,
                    at_n,
                    None if u_n is None else 2 * u_n,
                )
            )
        return Rig(
            profile.name,
            profile.serial_number,
            profile.rate_hz,
            profile.zero.kind.value,
            tuple(cells),
        )
    return None
