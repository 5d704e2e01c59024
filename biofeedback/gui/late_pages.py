"""The pages that are built when they are first wanted, and what each is built of.

Their modules are loaded then too: nobody who holds a force has to wait for them, nor
for the libraries that some of them load. Whoever asks for a page here has it built;
`late_…` is the shell that stands in its place, and tells whether it is there.
"""

from __future__ import annotations

import time
from functools import partial
from typing import TYPE_CHECKING, Any, TypeVar

from biofeedback.gui.late_page import LatePage

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QWidget

    from biofeedback.gui.calibration import CalibrationPage
    from biofeedback.gui.cautions_page import CautionsPage
    from biofeedback.gui.data_page import DataPage
    from biofeedback.gui.filter_page import FilterPage
    from biofeedback.gui.group_page import GroupPage
    from biofeedback.gui.health import HealthPage
    from biofeedback.gui.maximal_page import MaximalPage
    from biofeedback.gui.plan_page import PlanPage
    from biofeedback.gui.progress_page import ProgressPage
    from biofeedback.gui.reliability_page import ReliabilityPage
    from biofeedback.gui.review import ReviewPage
    from biofeedback.gui.roster import RosterPage
    from biofeedback.gui.sheet import Sheet
    from biofeedback.gui.task_page import TaskPage
    from biofeedback.gui.today import TodayPage
    from biofeedback.gui.visit_page import VisitPage
    from biofeedback.session.keeping import Keeping
    from biofeedback.session.office import Office
    from biofeedback.session.planning import Planning
    from biofeedback.session.roster import Roster

D = TypeVar("D")


class LatePages:
    """The shells, and the pages behind them.

    Args:
        code: of the athlete who is here.
        keys: what the sheet of keys lists.
        backup_folder: gives the one that was picked last; empty for none.
        ordered: whether a running order is at the desk.
        clock: monotonic time in ns.
    """

    def __init__(
        self,
        office: Office,
        *,
        code: Callable[[], str],
        keys: Callable[[], Sequence[tuple[str, str]]],
        backup_folder: Callable[[], str],
        ordered: Callable[[], bool],
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self._office = office
        self._code = code
        self._keys = keys
        self._clock = clock
        self.late_review = LatePage(self._make_review, "biofeedback.gui.review")
        self.late_filter = LatePage(self._make_filter, "biofeedback.gui.filter_page")
        self.late_group = LatePage(self._make_group)
        self.late_reliability = LatePage(self._make_reliability)
        self.late_calibration = LatePage(self._make_calibration)
        self.late_health = LatePage(self._make_health)
        self.late_sheet = LatePage(self._make_sheet)
        self.late_today = LatePage(self._make_today)
        self.late_test = LatePage(self._make_test)
        self.late_visit = LatePage(self._make_visit)
        self.late_progress = LatePage(self._make_progress)
        self.late_cautions = LatePage(self._make_cautions)
        # What needs a logbook is not there without one.
        planning, roster, keeping = office.planning, office.roster, office.keeping
        self.late_plan = LatePage(partial(_plan, planning)) if planning else None
        self.late_roster = LatePage(partial(_roster, roster, code)) if roster else None
        self.late_tasks = LatePage(partial(_tasks, roster)) if roster else None
        self.late_data = (
            LatePage(partial(_data, keeping, backup_folder, ordered))
            if keeping
            else None
        )

    @property
    def late(self) -> tuple[LatePage[QWidget], ...]:
        """All shells."""
        shells: tuple[Any, ...] = tuple(
            one for one in vars(self).values() if isinstance(one, LatePage)
        )
        return shells

    @property
    def review(self) -> ReviewPage:
        """Of saved reps."""
        return self.late_review.page

    @property
    def filter(self) -> FilterPage:
        """Of the rig's filter."""
        return self.late_filter.page

    @property
    def group(self) -> GroupPage:
        """Of isometric against eccentric force of many athletes."""
        return self.late_group.page

    @property
    def reliability(self) -> ReliabilityPage:
        """Of scores that were repeated."""
        return self.late_reliability.page

    @property
    def calibration(self) -> CalibrationPage:
        """Of known masses."""
        return self.late_calibration.page

    @property
    def health(self) -> HealthPage:
        """How good the rig is."""
        return self.late_health.page

    @property
    def sheet(self) -> Sheet:
        """Of keys."""
        return self.late_sheet.page

    @property
    def today(self) -> TodayPage:
        """The athlete's day."""
        return self.late_today.page

    @property
    def test(self) -> MaximalPage:
        """Of maximal tests."""
        return self.late_test.page

    @property
    def end(self) -> VisitPage:
        """What was done in the visit."""
        return self.late_visit.page

    @property
    def progress(self) -> ProgressPage:
        """Over months."""
        return self.late_progress.page

    @property
    def cautions(self) -> CautionsPage:
        """What to heed."""
        return self.late_cautions.page

    @property
    def plan(self) -> PlanPage | None:
        """The athlete's plan."""
        return self.late_plan.page if self.late_plan else None

    @property
    def roster(self) -> RosterPage | None:
        """The athletes."""
        return self.late_roster.page if self.late_roster else None

    @property
    def tasks(self) -> TaskPage | None:
        """The set-ups."""
        return self.late_tasks.page if self.late_tasks else None

    @property
    def data(self) -> DataPage | None:
        """Backups, erasing, and who did what."""
        return self.late_data.page if self.late_data else None

    def _make_review(self) -> ReviewPage:
        from biofeedback.gui.review import ReviewPage

        office = self._office
        return ReviewPage(
            _opened(office.saved_reps),
            athlete_code=self._code(),
            checks=_opened(office.checks),
        )

    def _make_filter(self) -> FilterPage:
        from biofeedback.gui.filter_page import FilterPage

        return FilterPage(_opened(self._office.filters), self._office.recordings)

    def _make_group(self) -> GroupPage:
        from biofeedback.gui.group_page import GroupPage

        return GroupPage(_opened(self._office.group))

    def _make_reliability(self) -> ReliabilityPage:
        from biofeedback.gui.reliability_page import ReliabilityPage

        return ReliabilityPage(self._office.reliability())

    def _make_calibration(self) -> CalibrationPage:
        from biofeedback.gui.calibration import CalibrationPage

        return CalibrationPage(self._office.calibrations)

    def _make_health(self) -> HealthPage:
        from biofeedback.gui.health import HealthPage

        return HealthPage()

    def _make_sheet(self) -> Sheet:
        from biofeedback.gui.sheet import Sheet

        return Sheet(self._keys)

    def _make_today(self) -> TodayPage:
        from biofeedback.gui.today import TodayPage

        return TodayPage(self._office.today)

    def _make_test(self) -> MaximalPage:
        from biofeedback.gui.maximal_page import MaximalPage

        office = self._office
        return MaximalPage(
            office.tests,
            pain=office.pain,
            against=lambda: office.against_test(self._code()),
            clock=self._clock,
        )

    def _make_visit(self) -> VisitPage:
        from biofeedback.gui.visit_page import VisitPage

        office = self._office
        return VisitPage(_opened(office.visits), reports=_opened(office.reports))

    def _make_progress(self) -> ProgressPage:
        from biofeedback.gui.progress_page import ProgressPage

        return ProgressPage(_opened(self._office.reports))

    def _make_cautions(self) -> CautionsPage:
        from biofeedback.gui.cautions_page import CautionsPage

        return CautionsPage()


def _opened(door: Callable[[], D] | None) -> D | None:
    """What a door of the office leads to; None where it is shut."""
    return None if door is None else door()


def _plan(planning: Callable[[], Planning]) -> PlanPage:
    from biofeedback.gui.plan_page import PlanPage

    return PlanPage(planning())


def _roster(roster: Roster, here: Callable[[], str]) -> RosterPage:
    from biofeedback.gui.roster import RosterPage

    return RosterPage(roster, here=here)


def _tasks(roster: Roster) -> TaskPage:
    from biofeedback.gui.task_page import TaskPage

    return TaskPage(roster)


def _data(
    keeping: Callable[[], Keeping],
    folder: Callable[[], str],
    ordered: Callable[[], bool],
) -> DataPage:
    from biofeedback.gui.data_page import DataPage

    return DataPage(keeping(), folder=folder(), ordered=ordered)
