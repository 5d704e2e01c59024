"""Doors to what is asked for on a page of its own: each is loaded with its page.

What they lead to takes longer to load than all that a set needs of this package.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.filter_log import FilterLog
    from biofeedback.session.group_pairs import GroupPairs
    from biofeedback.session.keeping import Keeping
    from biofeedback.session.live import Session
    from biofeedback.session.planning import Planning
    from biofeedback.session.reliability import Reliability
    from biofeedback.session.reports import Reports
    from biofeedback.session.review import DayChecks, Library
    from biofeedback.session.rig_filter import RigFilters
    from biofeedback.session.visit_summary import VisitSummaries
    from biofeedback.training.day import PainRule


def saved_reps(logbook: Logbook, recordings: Path) -> Library:
    """Saved reps."""
    from biofeedback.session.review import Library

    return Library(logbook, recordings)


def checks(logbook: Logbook) -> DayChecks:
    """Isometric against eccentric, day by day."""
    from biofeedback.session.review import DayChecks

    return DayChecks(logbook)


def planning(logbook: Logbook) -> Planning:
    """Plans."""
    from biofeedback.session.planning import Planning

    return Planning(logbook)


def visits(logbook: Logbook, rule: Callable[[], PainRule]) -> VisitSummaries:
    """What was done in a visit."""
    from biofeedback.session.visit_summary import VisitSummaries

    return VisitSummaries(logbook, rule=rule)


def reports(logbook: Logbook, rule: Callable[[], PainRule]) -> Reports:
    """On athletes, over months."""
    from biofeedback.session.reports import Reports

    return Reports(logbook, rule=rule)


def group(logbook: Logbook) -> GroupPairs:
    """Isometric against eccentric of everybody."""
    from biofeedback.session.group_pairs import GroupPairs

    return GroupPairs(logbook)


def filters(log: FilterLog) -> RigFilters:
    """Which filter a rig was given."""
    from biofeedback.session.rig_filter import RigFilters

    return RigFilters(log)


def keeping(logbook: Logbook, recordings: Path, session: Session) -> Keeping:
    """Backups, who did what, and erasing."""
    from biofeedback.session.keeping import Keeping

    return Keeping(logbook, recordings, session)


def reliability(logbook: Logbook | None = None) -> Reliability:
    """Of repeated scores; a table needs no logbook."""
    from biofeedback.session.reliability import Reliability

    return Reliability(logbook)
