"""Reports: what was planned, done, tested, felt and changed in a period.

* A period is days where the athlete is; both ends are in it.
* What was done of a task is the sum over visits of what the page of each visit tells.
* What is not in the logbook is not known: no day without a visit counts as zero.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import RigProfile
from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.audit import Action
from biofeedback.logbook.rows import number_or_none
from biofeedback.logbook.session_notes import CHANGE, ORDER, PAIN, PAIN_BACK, pain_marks
from biofeedback.phrase import phrase
from biofeedback.session.done_work import DoneWork
from biofeedback.session.local_time import LocalTime, here
from biofeedback.session.report_facts import Cell, ReportFacts, Rig, Whole
from biofeedback.session.report_pain import pain_days
from biofeedback.session.report_plan import plan_place
from biofeedback.session.report_shares import share_trends
from biofeedback.session.report_tests import side_trends, symmetry_trends
from biofeedback.session.set_changes import REST_TAKEN
from biofeedback.session.task_keys import TaskKeys
from biofeedback.session.training_trends import training_trends
from biofeedback.session.visit_sets import VisitSets, asked_of
from biofeedback.session.visit_summary import changes_of
from biofeedback.training.day import PainRule
from biofeedback.training.task import TaskKind
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from datetime import date, datetime
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.history import Period
    from biofeedback.logbook.maxima_rows import MaximalTestRow
    from biofeedback.logbook.rows import Athlete, SetRow
    from biofeedback.logbook.session_notes import PainMark, SessionNote
    from biofeedback.session.visit_facts import ChangeLine
    from biofeedback.training.reference import Reference
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
        clock: Callable[[], datetime] = here,
    ) -> None:
        self._logbook = logbook
        self._rule = rule
        self._local = LocalTime(clock)

    @property
    def today(self) -> date:
        """Today, where the athlete is."""
        return self._local.today

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
                phrase("There is no athlete {code} in the logbook.", code=code),
                phrase("Check the code."),
            )
        made = self.today
        last = until or made
        first = since or min(self._first(athlete) or last, last)
        if first > last:
            raise UserError(
                phrase(
                    "The period ends on {last}, before {first}.", last=last, first=first
                )
            )
        return self._gather(athlete, (first, last), made, task, name=name)

    def written(self, code: str, path: Path) -> None:
        """A report was written there: the audit has it, and erasing finds it.

        Raises:
            FileError: the logbook cannot be written; the report is there.
        """
        self._logbook.audit.add(Action.REPORTED, code=code, place=path.absolute())

    def _first(self, athlete: Athlete) -> date | None:
        found = self._logbook.history.first_utc(athlete.id)
        return None if found is None else self.day(found)

    def day(self, at: datetime) -> date:
        """The day of a moment, where the athlete is."""
        return self._local.day(at)

    def period(self, first: date, last: date) -> Period:
        """From the begin of one day to the end of another."""
        return self._local.period(first, last)

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
        sets = history.sets(athlete.id, period)
        tests = history.tests(athlete.id, period)
        in_tests = [(self.day(row.tested_utc), row.pain) for row in tests]
        keys = _keys(sets, tests)
        if task:
            there = {keys.key(r.task_id, r.task) for r in sets}
            there |= {keys.key(r.task_id, r.task) for r in tests}
            wanted = self._task_keys(task, keys, there)
            sets = [r for r in sets if keys.key(r.task_id, r.task) in wanted]
            tests = tuple(r for r in tests if keys.key(r.task_id, r.task) in wanted)
        notes = history.notes(athlete.id, period, ORDER, CHANGE, PAIN, PAIN_BACK)
        marks = _pain_marks(notes)
        reps = history.reps(athlete.id, period)
        done = DoneWork(sets, notes, reps, keys)
        visited = {self.day(row.started_utc) for row in sets}
        pain = pain_days(history.pain(athlete.id, period), marks, in_tests, self.day)
        trends = side_trends(
            tests, history.stated(athlete.id), self._logbook.maxima, keys, self.day
        )
        plan, moves = plan_place(self._logbook.plans, athlete.id, days, self._local)
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
            by_order=done.by_order,
            wholes=_wholes(sets, keys),
            weeks=done.weeks(self.day),
            trends=trends,
            symmetry=symmetry_trends(trends),
            shares=share_trends(trends, injured=self._injured(athlete)),
            training=training_trends(
                sets,
                reps,
                nudged=_nudged(note for _, note in notes),
                warm_ups=done.warm_ups,
                painful=_painful(marks, self._rule()),
                tasks=keys,
                sources=history.sources(athlete.id, _sources(sets)),
                day_of=self.day,
            ),
            pain=pain,
            pain_back=tuple(
                (self.day(one.note.at_utc), one.level)
                for one in marks
                if one.taken_back
            ),
            pain_asked=len(visited & {one.day for one in pain}),
            changes=_changes(notes, sets),
            rig=_rig(map(history.profile, (row.id for row in reversed(sets)))),
            sets=len(sets),
            simulated=history.simulated_sets(athlete.id, period),
            not_closed=sum(row.closed_utc is None for row in sets),
        )

    def _injured(self, athlete: Athlete) -> Sides | None:
        person = self._logbook.people.by_code(athlete.code)
        return None if person is None else person.details.injured

    def _task_keys(self, task: str, keys: TaskKeys, there: set[str]) -> frozenset[str]:
        """Keys of the tasks that bear or bore a name."""
        known = self._logbook.tasks.by_name(task)
        found = keys.named(task) | ({known.key} if known else frozenset())
        if known is None and not found & there:
            names = sorted({keys.name(key) for key in there})
            listed = ", ".join(f"“{one}”" for one in names) or phrase("none")
            raise UserError(
                phrase("There is no task “{task}”.", task=task),
                phrase("Tasks of this period: {there}.", there=listed),
            )
        return found


def _keys(sets: Iterable[SetRow], tests: Iterable[MaximalTestRow]) -> TaskKeys:
    """Keys and names of all that was done, oldest first."""
    entries = [
        *((row.started_utc, row.task_id, row.task) for row in sets),
        *((row.tested_utc, row.task_id, row.task) for row in tests),
    ]
    entries.sort(key=lambda entry: entry[0])
    return TaskKeys((key, name) for _, key, name in entries)


def _sources(sets: Iterable[SetRow]) -> frozenset[str]:
    """Keys of what the 100 % of the sets was taken from."""
    asked = (asked_of(row) for row in sets)
    references = (one.reference for one in asked if one is not None)
    return frozenset(one.source for one in references if one is not None) - {""}


def _wholes(sets: Iterable[SetRow], keys: TaskKeys) -> tuple[Whole, ...]:
    """What was 100 % in each task and its sides; nothing of a maximal test."""
    found: dict[tuple[str, Sides], dict[tuple[object, ...], Reference]] = {}
    for row in sets:
        asked = asked_of(row)
        if asked is None or asked.task.kind is TaskKind.MAXIMAL:
            continue
        of = asked.reference
        if of is None:
            continue
        at = (keys.key(row.task_id, row.task), asked.task.sides)
        same = (of.force_n, of.origin, of.definition, of.date)
        own = found.setdefault(at, {})
        own.pop(same, None)  # the one of the newest set stands last
        own[same] = of
    return tuple(
        Whole(keys.name(key), sides, tuple(own.values()), keys.known(key))
        for (key, sides), own in found.items()
    )


def _changes(
    notes: Iterable[tuple[str, SessionNote]], sets: Iterable[SetRow]
) -> tuple[ChangeLine, ...]:
    """What was changed within the sets that are told of, and between sets."""
    told = [
        note
        for _, note in notes
        # Of rests there may be many, and nothing was changed.
        if note.kind == CHANGE and note.content.get("what") != REST_TAKEN
    ]
    named = {str(note.content.get("set_id") or note.set_id or "") for note in told}
    changed = [row for row in sets if row.id in named]
    return changes_of(told, VisitSets(changed, ()))


def _nudged(notes: Iterable[SessionNote]) -> dict[str, list[float | None]]:
    """When the band of each set was changed, by the key of the set.

    The time is that since the begin of the set; None where it is not known.
    """
    found: dict[str, list[float | None]] = {}
    for note in notes:
        if note.kind == CHANGE and note.content.get("what") == "band":
            key = str(note.content.get("set_id") or note.set_id)
            found.setdefault(key, []).append(number_or_none(note.content.get("time_s")))
    return found


def _pain_marks(notes: Iterable[tuple[str, SessionNote]]) -> tuple[PainMark, ...]:
    """The marks of all visits; what is taken back is so within its visit."""
    by_visit: dict[str, list[SessionNote]] = {}
    for session_id, note in notes:
        by_visit.setdefault(session_id, []).append(note)
    return tuple(mark for own in by_visit.values() for mark in pain_marks(own))


def _painful(marks: Iterable[PainMark], rule: PainRule) -> frozenset[str]:
    """Keys of the sets in or after which pain above the agreed cut was told."""
    return frozenset(
        mark.set_id
        for mark in marks
        if not mark.taken_back
        and mark.level > rule.high
        and mark.note.content.get("when") != "before"
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
                    channel.words,
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
