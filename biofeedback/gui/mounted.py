"""The pages that one window has, and what each needs to be told."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QHBoxLayout, QWidget

from biofeedback.gui.calibration import CalibrationPage
from biofeedback.gui.cautions_page import CautionsPage
from biofeedback.gui.health import HealthPage
from biofeedback.gui.late_page import LatePage
from biofeedback.gui.maximal_page import MaximalPage
from biofeedback.gui.pages import page_of
from biofeedback.gui.plan_page import PlanPage
from biofeedback.gui.progress_page import ProgressPage
from biofeedback.gui.roster import RosterPage
from biofeedback.gui.sheet import Sheet
from biofeedback.gui.task_page import TaskPage
from biofeedback.gui.today import TodayPage
from biofeedback.gui.unsaved import Unsaved
from biofeedback.gui.visit_page import VisitPage
from biofeedback.session import SetBegun

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.gui.desk import Desk
    from biofeedback.gui.filter_page import FilterPage
    from biofeedback.gui.group_page import GroupPage
    from biofeedback.gui.pages import Pages
    from biofeedback.gui.preferences_page import PreferencesPage
    from biofeedback.gui.reliability_page import ReliabilityPage
    from biofeedback.gui.review import ReviewPage
    from biofeedback.gui.visit import Visit
    from biofeedback.session import Update
    from biofeedback.session.office import Office


class Mounted:
    """All pages beside the live one.

    Args:
        keys: what the sheet of keys lists.
        preferences: their page.
    """

    def __init__(
        self,
        office: Office,
        desk: Desk,
        visit: Visit,
        *,
        keys: Callable[[], Sequence[tuple[str, str]]],
        preferences: PreferencesPage,
    ) -> None:
        self._desk = desk
        self._visit = visit
        self._profile: RigProfile | None = None
        self._test_began = False
        self._office = office
        self.late_review = LatePage(self._make_review)
        self.late_filter = LatePage(self._make_filter)
        self.late_group = LatePage(self._make_group)
        self.late_reliability = LatePage(self._make_reliability)
        self.calibration = CalibrationPage(office.calibrations)
        self.health = HealthPage()
        self.sheet = Sheet(keys)
        self.preferences = preferences
        self.today = TodayPage(office.today)
        self.test = MaximalPage(
            office.tests,
            pain=office.pain,
            against=lambda: office.against_test(visit.code),
        )
        self.end = VisitPage(office.visits, reports=office.reports)
        self.progress = ProgressPage(office.reports)
        # The desk has no room for one more: its last line would go out of sight.
        self.progress.head.addWidget(desk.pages.reliability)
        self.cautions = CautionsPage()
        planning = office.planning
        self.plan = PlanPage(planning) if planning else None
        roster = office.roster
        self.roster = RosterPage(roster) if roster else None
        self.tasks = TaskPage(roster) if roster else None
        bar = desk.pages
        bar.athletes.setVisible(roster is not None)
        bar.tasks.setVisible(roster is not None)
        bar.plan.setVisible(planning is not None)
        bar.visit.setVisible(office.visits is not None)
        bar.progress.setVisible(office.reports is not None)
        self.unsaved = self._typed_places()
        visit.keeps_athlete(self._keeps_plan)
        visit.hands_pain(self.test.takes_pain)
        desk.lend(self.test.box)
        visit.athlete_changed.connect(self._change_athlete)

    def add_to(self, pages: Pages) -> None:
        """Mounts them, in the order of a visit and then those of the rig."""
        desk, visit, bar = self._desk, self._visit, self._desk.pages
        roster, tasks, test, health = self.roster, self.tasks, self.test, self.health
        plan = self.plan
        if roster is not None:
            pages.add(page_of(roster, bar.athletes, "Alt+A", roster.enter))
            roster.chosen.connect(visit.change_athlete)
            roster.chosen.connect(pages.show_live)
            roster.recoded.connect(visit.follow_code)
        pages.add(page_of(self.today, bar.today, "Alt+D", self._enter_today))
        pages.add(page_of(test, bar.test, "Alt+M", lambda: test.enter(visit.code)))
        if plan is not None:
            pages.add(page_of(plan, bar.plan, "Alt+P", lambda: plan.enter(visit.code)))
        if tasks is not None:
            pages.add(page_of(tasks, bar.tasks, "Alt+T", tasks.enter))
        pages.add(
            page_of(self.end, bar.visit, "Alt+V", lambda: self.end.enter(visit.code))
        )
        pages.add(
            page_of(self.late_review, bar.review, "F2", lambda: self.review.reload())  # noqa: PLW0108  not built yet
        )
        pages.add(
            page_of(self.late_group, bar.group, "Ctrl+G", lambda: self.group.enter())  # noqa: PLW0108  not built yet
        )
        progress = self.progress
        progress.lend(bar.group)
        pages.add(
            page_of(
                progress, bar.progress, "Ctrl+F2", lambda: progress.enter(visit.code)
            )
        )
        pages.add(
            page_of(
                self.late_reliability,
                bar.reliability,
                "Ctrl+L",
                lambda: self.reliability.enter(),  # noqa: PLW0108  not built yet
            )
        )
        for page in (
            page_of(self.calibration, desk.calibrate, "F6", self.calibration.enter),
            page_of(
                health,
                desk.health.check,
                "F12",
                lambda: health.enter(visit.asked),
                # A set is not to be judged as a rig at rest.
                leave=health.leave,
            ),
            page_of(
                self.late_filter,
                desk.health.filter,
                "Alt+F",
                lambda: self.filter.enter(),  # noqa: PLW0108  not built yet
                leave=self._leave_filter,
            ),
            page_of(
                self.cautions,
                desk.cautions,
                "Alt+W",
                self.cautions.enter,
                beside=desk.read_cautions,
            ),
            page_of(self.sheet, desk.sheet, "F1", self.sheet.enter),
            page_of(
                self.preferences, desk.preferences, "Ctrl+P", self.preferences.enter
            ),
        ):
            pages.add(page)
        self.today.prescribed.connect(visit.prescribe)
        self.test.test_wanted.connect(pages.show_live)
        self.test.said.connect(desk.say)
        self.test.reference_kept.connect(
            lambda new: visit.take_reference(new, self.test.kept_task)
        )
        self.test.reference_taken_back.connect(visit.give_back_reference)

    # Pages that are built when they are wanted, and so are the libraries they load.

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
    def late(self) -> tuple[LatePage[QWidget], ...]:
        """All of them."""
        pages: tuple[LatePage[Any], ...] = (
            self.late_review,
            self.late_filter,
            self.late_group,
            self.late_reliability,
        )
        return pages

    def _make_reliability(self) -> ReliabilityPage:
        from biofeedback.gui.reliability_page import ReliabilityPage  # noqa: PLC0415

        return ReliabilityPage(self._office.reliability)

    def _make_group(self) -> GroupPage:
        from biofeedback.gui.group_page import GroupPage  # noqa: PLC0415

        return GroupPage(self._office.group)

    def _make_review(self) -> ReviewPage:
        from biofeedback.gui.review import ReviewPage  # noqa: PLC0415

        office = self._office
        return ReviewPage(
            office.library, athlete_code=self._visit.code, checks=office.checks
        )

    def _make_filter(self) -> FilterPage:
        from biofeedback.gui.filter_page import FilterPage  # noqa: PLC0415

        page = FilterPage(self._office.filters, self._office.recordings)
        if self._profile is not None:
            page.take_profile(self._profile)
        return page

    def _leave_filter(self) -> None:
        if self.late_filter.there is not None:
            self.filter.leave()

    def close_down(self) -> None:
        """The window closes: nothing works on behind it."""
        if self.late_filter.there is not None:
            self.filter.close_down()

    def take(self, update: Update, *, now_ns: int) -> None:
        """What is new in this frame, for the pages that follow the signal."""
        if update.profile != self._profile:
            self._profile = update.profile
            if self.late_filter.there is not None:
                self.filter.take_profile(update.profile)
        self.calibration.take(update)
        self.health.take(update, now_ns=now_ns)
        self.test.take(update)
        if any(isinstance(event, SetBegun) for event in update.events):
            self._test_began = self.test.under_way
            if self.late_filter.there is not None:
                self.filter.let_go()

    @property
    def test_under_way(self) -> bool:
        """Whether the set under way, or the one just over, is a maximal test."""
        return self._test_began

    def _typed_places(self) -> Unsaved:
        """Where one types and then saves."""
        unsaved, bar, note = Unsaved(), self._desk.pages, self._desk.note
        roster, tasks, plan, end = self.roster, self.tasks, self.plan, self.end
        if roster is not None:
            unsaved.add(bar.athletes, roster, lambda: roster.dirty)
        if plan is not None:
            unsaved.add(bar.plan, plan, lambda: plan.dirty)
        if tasks is not None:
            unsaved.add(bar.tasks, tasks, lambda: tasks.dirty)
        unsaved.add(bar.visit, end, lambda: end.dirty)
        unsaved.add(note.label, note, lambda: bool(note.text))
        return unsaved

    def _keeps_plan(self) -> str:
        """Why the athlete has to stay; empty where nothing typed would be lost."""
        if self.plan is None or not self.plan.dirty:
            return ""
        words = self.plan.tr(
            "The plan of {who} is not saved. Save it, or take it back."
        )
        return words.format(who=self._visit.code)

    def _enter_today(self) -> None:
        profile = self._profile
        single = profile is not None and len(profile.channels) == 1
        self.today.enter(self._visit.code, asked=self._visit.asked, single_cell=single)

    def _change_athlete(self) -> None:
        if self.late_review.there is not None:
            self.review.show_athlete(self._visit.code)


def live_page(screen: QWidget, desk: Desk) -> QWidget:
    """The athlete's screen with the desk beside it."""
    live = QWidget()
    row = QHBoxLayout(live)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(0)
    row.addWidget(screen, 1)
    line = QWidget()
    line.setObjectName("divider")
    line.setFixedWidth(1)
    row.addWidget(line)
    row.addWidget(desk)
    return live
