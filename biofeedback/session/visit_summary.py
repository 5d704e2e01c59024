"""The end of a visit: what was planned and what was done, from what is kept.

* *Planned* is what the running order asked for before anything was changed in it, and
  of a set outside the order what it asked for at its begin: once where it was broken
  off and begun anew. A repeated set of the order is done and was not planned.
* *Done* are the reps in the logbook. A void rep counts nowhere; a rep that was let go
  early or stopped gives its seconds and its dose, and is no complete one.
* The planned dose is reps × hold × centre of the band in % of the reference. The dose
  that was done has the way into the band in it as well, so it may be a little higher.
* Warm-up and maximal tests are told apart from the rest.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.logbook.done_reps import done_rep
from biofeedback.logbook.history import Period
from biofeedback.logbook.rows import number_or_none
from biofeedback.logbook.session_notes import CHANGE, EFFORT, NOTE, SUMMARY, pain_marks
from biofeedback.phrase import phrase
from biofeedback.session.local_time import LocalTime, here
from biofeedback.session.next_time import NextTime, next_time
from biofeedback.session.test_record import pain_in_test
from biofeedback.session.visit_facts import (
    ChangeLine,
    Level,
    SignalHealth,
    VisitSummary,
)
from biofeedback.session.visit_sets import VisitSets, orders_of
from biofeedback.training.changes import Reason
from biofeedback.training.day import LastTime, PainRule
from biofeedback.training.intensity import Intensity
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from datetime import date, datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.rows import RepRow, SessionRow, SetRow
    from biofeedback.logbook.session_notes import SessionNote

NOTE_MAX = 2000
VISIT_MOST = timedelta(days=2)
"""So long after its begin a test may still be of a visit."""


class VisitSummaries:
    """Summaries of visits; the door of the page at the end.

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

    def latest(self, athlete_code: str) -> VisitSummary | None:
        """The newest visit of an athlete; None where there was none."""
        rows = self._logbook.sessions(athlete_code=athlete_code, limit=1)
        return self._gather(rows[0]) if rows else None

    def of(self, session_id: str) -> VisitSummary:
        """One visit.

        Raises:
            FieldError: there is no such visit.
        """
        rows = self._logbook.sessions(session_id=session_id)
        if not rows:
            raise FieldError(
                "visit",
                phrase("there is no visit {session_id}.", session_id=session_id),
            )
        return self._gather(rows[0])

    def keep(
        self, summary: VisitSummary, *, next_date: date | None, note: str = ""
    ) -> None:
        """Keeps the page, with the next date and what is proposed for it.

        Raises:
            FieldError: the date is not to come, or the note is too long.
        """
        if next_date is not None and next_date <= self.today:
            raise FieldError("next_date", phrase("must be a day to come."))
        if len(note) > NOTE_MAX:
            raise FieldError(
                "note",
                phrase("is longer than {note_max} characters.", note_max=NOTE_MAX),
            )
        signal = summary.signal
        content = {
            "next_date": next_date.isoformat() if next_date else None,
            "note": note.strip(),
            "lines": [line.to_json() for line in summary.lines],
            "next_time": [one.to_json() for one in summary.next_time],
            "rule": summary.rule.to_json(),
            "highest_pain": summary.highest_pain,
            "signal": {
                "reps": signal.reps,
                "gaps": signal.gaps,
                "lost": signal.lost,
                "saturated": signal.saturated,
                "zero_drift_n": signal.zero_drift_n,
                "recovered": signal.recovered,
            },
        }
        self._logbook.session_notes.add(summary.session_id, SUMMARY, content)

    # How it is gathered.

    def _gather(self, row: SessionRow) -> VisitSummary:
        notes = self._logbook.session_notes.list(row.id)
        reps = self._logbook.all_reps(session_id=row.id)
        orders = orders_of(notes, row.id)
        sets = VisitSets(self._logbook.sets(row.id), orders, map(done_rep, reps))
        kept = [note for note in notes if note.kind == SUMMARY]
        told = (
            *self._reported(row),
            *_pain(notes, sets),
            *self._in_tests(row),
        )
        pain = tuple(sorted(told, key=lambda one: one.at_utc))
        rule = self._rule()
        above = any(one.level > rule.high for one in pain if not one.taken_back)
        return VisitSummary(
            session_id=row.id,
            athlete_code=row.athlete_code,
            started_utc=row.started_utc,
            rule=rule,
            lines=sets.lines,
            by_order=bool(orders),
            tests=sets.tests,
            changes=changes_of(notes, sets),
            pain=pain,
            effort=_effort(notes, sets),
            signal=_signal(reps, sets.rows),
            notes=tuple(
                str(note.content.get("text", "")) for note in notes if note.kind == NOTE
            ),
            # After pain above the cut a list of places would read as leave to go on.
            next_time=() if above else self._next_time(row, sets),
            kept=kept[-1].content if kept else None,
        )

    def _reported(self, row: SessionRow) -> tuple[Level, ...]:
        """Pain as it was reported before this visit."""
        days = self._logbook.days
        return tuple(
            Level(one.reported_utc, one.report.pain_now, "before")
            for one in days.reports(row.athlete_id, session_id=row.id, limit=1)
        )

    def _in_tests(self, row: SessionRow) -> tuple[Level, ...]:
        """Pain in the efforts of maximal tests; it stands in the results, no note."""
        period = Period(row.started_utc, row.started_utc + VISIT_MOST)
        tests = [
            test
            for test in self._logbook.history.tests(row.athlete_id, period)
            if test.session_id == row.id
        ]
        return tuple(
            Level(test.tested_utc, level, "during", name)
            for test in tests
            for level, name in pain_in_test(test, of_several=len(tests) > 1)
        )

    def _next_time(self, row: SessionRow, sets: VisitSets) -> tuple[NextTime, ...]:
        """What the rule would propose for each set that was decided on."""
        rule, found = self._rule(), {}
        days = self._logbook.days
        for choice in reversed(days.choices(row.athlete_id, session_id=row.id)):
            task = sets.task_of(choice.planned_key, choice.task_id, choice.sides)
            place = choice.accepted.get("place")
            if task is None or isinstance(place, bool):
                continue
            if not isinstance(place, int | float):
                continue
            try:
                intensity = Intensity.from_json(
                    Fields(choice.accepted, "choice").inner("intensity")
                )
            except FieldError:
                continue  # of another version
            last = LastTime(float(place), choice.report.report.pain_now)
            of = choice.planned_key or choice.task_id or task
            found[of, choice.sides] = next_time(
                task, choice.sides, intensity, last, rule
            )
        return tuple(found.values())


def changes_of(notes: Iterable[SessionNote], sets: VisitSets) -> tuple[ChangeLine, ...]:
    """What was changed, with reasons that were given after."""
    told = [note for note in notes if note.kind == CHANGE]
    reasons: dict[str, str] = {}
    for note in told:
        if note.content.get("what") == "reason":
            of = note.content.get("of")
            for key in of if isinstance(of, list) else []:
                reasons[str(key)] = str(note.content.get("reason", ""))
    lines = []
    for note in told:
        content = note.content
        if content.get("what") == "reason":
            continue
        set_id = content.get("set_id", note.set_id)
        given = str(content.get("reason") or Reason.NONE.value)
        lines.append(
            ChangeLine(
                at_utc=note.at_utc,
                set_name=sets.name(set_id),
                set_title=sets.title(set_id),
                what=str(content.get("what", "")),
                old=content.get("old"),
                new=content.get("new"),
                reason=given or reasons.get(str(content.get("id")), ""),
                time_s=number_or_none(content.get("time_s")),
                reference_n=sets.reference_n(set_id),
            )
        )
    return tuple(lines)


def _pain(notes: Iterable[SessionNote], sets: VisitSets) -> tuple[Level, ...]:
    return tuple(
        Level(
            mark.note.at_utc,
            mark.level,
            str(mark.note.content.get("when", "")),
            sets.name(mark.set_id),
            mark.taken_back,
        )
        for mark in pain_marks(notes)
    )


def _effort(notes: Iterable[SessionNote], sets: VisitSets) -> tuple[Level, ...]:
    found = []
    for note in notes:
        level = note.content.get("level")
        if note.kind == EFFORT and isinstance(level, int):
            set_id = note.content.get("set_id") or note.set_id
            found.append(Level(note.at_utc, level, set_name=sets.name(set_id)))
    return tuple(found)


def _signal(reps: Sequence[RepRow], sets: Sequence[SetRow]) -> SignalHealth:
    drifts = [
        drift
        for rep in reps
        if (drift := number_or_none(rep.measures.get("zero_drift_n"))) is not None
    ]
    counts = {
        name: sum(round(number_or_none(rep.measures.get(name)) or 0.0) for rep in reps)
        for name in ("gaps", "lost", "saturated")
    }
    return SignalHealth(
        reps=len(reps),
        gaps=counts["gaps"],
        lost=counts["lost"],
        saturated=counts["saturated"],
        zero_drift_n=max(drifts, key=abs) if drifts else None,
        recovered=sum(row.recovered for row in sets),
        not_closed=sum(row.closed_utc is None for row in sets),
    )
