"""Progress: months of one athlete, for the page that shows them.

Tests, symmetry, pain and the weeks are those of the report; training comes beside them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.logbook.session_notes import CHANGE, ORDER
from biofeedback.session.training_trends import TrainingTrend, training_trends
from biofeedback.session.visit_sets import orders_of

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.session_notes import SessionNote
    from biofeedback.session.report_facts import ReportFacts
    from biofeedback.session.reports import Reports


@dataclass(frozen=True, slots=True)
class ProgressFacts:
    """All that the page shows."""

    report: ReportFacts
    training: tuple[TrainingTrend, ...]


class Progress:
    """Months of an athlete; the door of the page.

    Args:
        reports: gathers what stands in a report too.

    Raises (every method): `FileError` where the logbook cannot be used.
    """

    def __init__(self, logbook: Logbook, reports: Reports) -> None:
        self._logbook = logbook
        self._reports = reports

    @property
    def today(self) -> date:
        """Today, where the athlete is."""
        return self._reports.today

    def of(self, code: str, *, since: date | None = None) -> ProgressFacts:
        """The progress of an athlete.

        Args:
            since: first day; that of the first entry, where none is given.

        Raises:
            UserError: there is no such athlete.
        """
        facts = self._reports.of(code, since=since)
        athlete = self._logbook.athlete_by_code(code)
        if athlete is None:
            return ProgressFacts(facts, ())
        period = self._reports.period(facts.first, facts.last)
        history = self._logbook.history
        notes = history.notes(athlete.id, period, CHANGE, ORDER)
        training = training_trends(
            history.sets(athlete.id, period),
            history.reps(athlete.id, period),
            nudged=_nudged(note for _, note in notes),
            warm_ups=_warm_ups(notes),
            day_of=self._reports.day,
        )
        return ProgressFacts(facts, training)


def _nudged(notes: Iterable[SessionNote]) -> Counter[str]:
    """How often the band of each set was changed, by the key of the set."""
    return Counter(
        str(note.content.get("set_id") or note.set_id)
        for note in notes
        if note.kind == CHANGE and note.content.get("what") == "band"
    )


def _warm_ups(notes: Iterable[tuple[str, SessionNote]]) -> frozenset[str]:
    """Keys of the sets that were a warm-up of their running order."""
    by_visit: dict[str, list[SessionNote]] = {}
    for session_id, note in notes:
        if note.kind == ORDER:
            by_visit.setdefault(session_id, []).append(note)
    return frozenset(
        set_id
        for session_id, told in by_visit.items()
        for order in orders_of(told, session_id)
        for set_id in order.warm_ups
    )
