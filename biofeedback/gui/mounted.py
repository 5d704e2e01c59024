"""The pages that one window has, and what each needs to be told."""

from __future__ import annotations

import time
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from biofeedback.gui.late_pages import LatePages
from biofeedback.gui.pages import page_of
from biofeedback.gui.unsaved import Unsaved
from biofeedback.session import SetBegun

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.gui.calibration import CalibrationPage
    from biofeedback.gui.comfort import Comfort
    from biofeedback.gui.data_page import DataPage
    from biofeedback.gui.desk import Desk
    from biofeedback.gui.filter_page import FilterPage
    from biofeedback.gui.late_page import LatePage
    from biofeedback.gui.maximal_page import MaximalPage
    from biofeedback.gui.pages import Pages
    from biofeedback.gui.progress_page import ProgressPage
    from biofeedback.gui.roster import RosterPage
    from biofeedback.gui.visit import Visit
    from biofeedback.session import Update
    from biofeedback.session.office import Office
    from biofeedback.training.task import Task


class Mounted(LatePages):
    """All pages beside the live one.

    Args:
        keys: what the sheet of keys lists.
        comfort: has the page of preferences, and what is preferred.
        clock: monotonic time in ns.
    """

    def __init__(
        self,
        office: Office,
        desk: Desk,
        visit: Visit,
        *,
        keys: Callable[[], Sequence[tuple[str, str]]],
        comfort: Comfort,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        super().__init__(
            office,
            code=lambda: visit.code,
            keys=keys,
            backup_folder=lambda: comfort.preferences.backup_folder,
            ordered=lambda: visit.ordered,
            clock=clock,
        )
        self._desk = desk
        self._visit = visit
        self._profile: RigProfile | None = None
        self._test_began = self._in_set = False
        self._comfort = comfort
        self.late_preferences = comfort.late_page
        self.late_progress.built.connect(self._furnish_progress)
        self.late_filter.built.connect(self._furnish_filter)
        self.late_calibration.built.connect(self._furnish_calibration)
        bar = desk.pages
        for button in (bar.group, bar.reliability):
            button.setParent(self.late_progress)  # until it is built
        bar.data.setParent(self.late_roster or comfort.late_page)  # likewise
        bar.data.setVisible(office.keeping is not None)
        if self.late_data is not None:
            self.late_data.built.connect(self._furnish_data)
        bar.athletes.setVisible(office.roster is not None)
        bar.tasks.setVisible(office.roster is not None)
        bar.plan.setVisible(office.planning is not None)
        bar.visit.setVisible(office.visits is not None)
        bar.progress.setVisible(office.reports is not None)
        self.unsaved = self._typed_places()
        visit.keeps_athlete(self._keeps_plan)
        visit.hands_pain(self._hand_pain)
        visit.athlete_changed.connect(self._change_athlete)

    def add_to(self, pages: Pages) -> None:
        """Mounts them, in the order of a visit and then those of the rig."""
        self._add_visit_pages(pages)
        self._add_rig_pages(pages)
        self.late_test.built.connect(lambda page: self._furnish_test(page, pages))
        self._visit.reference.test_wanted.connect(lambda task: self._test(task, pages))

    def _add_visit_pages(self, pages: Pages) -> None:
        visit, bar = self._visit, self._desk.pages
        if self.late_roster is not None:
            self._mount(pages, self.late_roster, bar.athletes, "Alt+A")
            self.late_roster.built.connect(
                lambda page: self._furnish_roster(page, pages)
            )
        self._mount(pages, self.late_today, bar.today, "Alt+D", self._enter_today)
        self._mount(pages, self.late_test, bar.test, "Alt+M", self._enter_test)
        if self.late_plan is not None:
            self._mount_coded(pages, self.late_plan, bar.plan, "Alt+P")
        if self.late_tasks is not None:
            self._mount(pages, self.late_tasks, bar.tasks, "Alt+T")
        self._mount_coded(pages, self.late_visit, bar.visit, "Alt+V")
        self._mount(
            pages,
            self.late_review,
            bar.review,
            "F2",
            lambda: self.review.reload(),  # noqa: PLW0108  not built yet
        )
        if self.late_data is not None:
            self._mount(pages, self.late_data, bar.data, "Ctrl+Shift+B")
        self._mount(pages, self.late_group, bar.group, "Ctrl+G")
        self._mount_coded(pages, self.late_progress, bar.progress, "Ctrl+F2")
        self._mount(pages, self.late_reliability, bar.reliability, "Ctrl+L")
        self.late_today.built.connect(
            lambda page: page.prescribed.connect(visit.prescribe)
        )

    def _add_rig_pages(self, pages: Pages) -> None:
        desk, visit = self._desk, self._visit
        self._mount(pages, self.late_calibration, desk.calibrate, "F6")
        self._mount(
            pages,
            self.late_health,
            desk.health.check,
            "F12",
            lambda: self.health.enter(visit.asked),
            # A set is not to be judged as a rig at rest.
            leave=lambda page: page.leave(),
        )
        self._mount(
            pages,
            self.late_filter,
            desk.health.filter,
            "Alt+F",
            leave=lambda page: page.leave(),
        )
        self._mount(
            pages,
            self.late_cautions,
            desk.cautions,
            "Alt+W",
            beside=desk.read_cautions,
        )
        self._mount(pages, self.late_sheet, desk.sheet, "F1")
        self._mount(pages, self.late_preferences, desk.preferences, "Ctrl+P")

    def _mount(
        self,
        pages: Pages,
        late: LatePage[Any],
        button: QPushButton,
        key: str,
        enter: Callable[[], None] | None = None,
        *,
        leave: Callable[[Any], None] | None = None,
        beside: Callable[[], bool] | None = None,
    ) -> None:
        """A page; what it is told when it is left finds none that was not built."""

        def left() -> None:
            if leave is not None and late.there is not None:
                leave(late.there)

        entered = enter or (lambda: late.page.enter())  # noqa: PLW0108  not built yet
        pages.add(
            page_of(
                late,
                button,
                key,
                lambda: late.open(entered),
                leave=left,
                beside=beside,
            )
        )

    def _mount_coded(
        self, pages: Pages, late: LatePage[Any], button: QPushButton, key: str
    ) -> None:
        """A page that shows the athlete who is here."""
        self._mount(pages, late, button, key, lambda: late.page.enter(self._visit.code))

    # What a page is given once it is there.

    def _furnish_roster(self, page: RosterPage, pages: Pages) -> None:
        page.chosen.connect(self._visit.change_athlete)
        page.chosen.connect(pages.show_live)
        page.recoded.connect(self._visit.follow_code)
        page.lend(self._desk.pages.data)

    def _furnish_test(self, test: MaximalPage, pages: Pages) -> None:
        desk, visit = self._desk, self._visit
        if self._profile is not None:
            test.meet(self._profile)
        desk.lend(test.box)
        test.test_wanted.connect(pages.show_live)
        test.said.connect(desk.say)
        test.pain_above.connect(visit.hold_efforts)
        visit.effort = lambda: test.effort
        for advised, lasting in ((test.advised, False), (test.pain_advised, True)):
            advised.connect(partial(self._advise, lasting))
        test.reference_kept.connect(
            lambda new: visit.reference.take(new, test.kept_task)
        )
        test.reference_taken_back.connect(visit.reference.give_back)

    def _advise(self, lasting: bool, words: str, end: str) -> None:
        """What a test advises; no words once that was acted on."""
        if words:
            self._desk.advise(words, end=end, lasting=lasting)
        else:
            self._desk.messages.act()

    def _test(self, task: Task, pages: Pages) -> None:
        """The page of the test, for this task and side."""
        pages.press(self._desk.pages.test)
        if pages.shown is self.late_test.there:
            self.test.setup.choose(task)

    def _hand_pain(self, level: int) -> bool:
        """Whether a pain mark is of a maximal test, which then has it."""
        test = self.late_test.there
        return test is not None and test.takes_pain(level)

    def _furnish_progress(self, page: ProgressPage) -> None:
        # The desk has no room for one more: its last line would go out of sight.
        page.head.add(self._desk.pages.reliability)
        page.lend(self._desk.pages.group)

    def _furnish_data(self, page: DataPage) -> None:
        page.folder_picked.connect(self._comfort.keep_backup_folder)
        page.erase.erased.connect(self._forget)

    def _forget(self, code: str) -> None:
        """What other pages still show of somebody who was erased."""
        roster = self.late_roster.there if self.late_roster else None
        if roster is not None:
            roster.forget(code)

    def _furnish_filter(self, page: FilterPage) -> None:
        if self._profile is not None:
            page.take_profile(self._profile)

    def _furnish_calibration(self, page: CalibrationPage) -> None:
        if self._profile is not None:
            page.meet(self._profile)
        page.hold(under_way=self._in_set)

    def close_down(self) -> None:
        """The window closes: nothing works on behind it."""
        for late in self.late:
            late.close_down()
        if self.late_filter.there is not None:
            self.filter.close_down()
        if self.late_data is not None and self.late_data.there is not None:
            self.late_data.there.close_down()

    @property
    def erasing(self) -> bool:
        """Whether an athlete is being erased, and the window has to wait for it."""
        page = self.late_data.there if self.late_data else None
        return page is not None and page.erasing

    def hold(self, *, under_way: bool) -> None:
        """A set is under way, or over."""
        self._in_set = under_way
        if self.late_calibration.there is not None:
            self.calibration.hold(under_way=under_way)

    def take(self, update: Update, *, now_ns: int) -> None:
        """What is new in this frame, for the pages that follow the signal."""
        if update.profile != self._profile:
            self._profile = update.profile
            if self.late_filter.there is not None:
                self.filter.take_profile(update.profile)
        if self.late_calibration.there is not None:
            self.calibration.take(update)
        if self.late_health.there is not None:
            self.health.take(update, now_ns=now_ns)
        test = self.late_test.there
        if test is not None:
            test.take(update)
        if any(isinstance(event, SetBegun) for event in update.events):
            self._test_began = test is not None and test.under_way
            if self.late_filter.there is not None:
                self.filter.let_go()

    @property
    def test_under_way(self) -> bool:
        """Whether the set under way, or the one just over, is a maximal test."""
        return self._test_began

    def _typed_places(self) -> Unsaved:
        """Where one types and then saves."""
        unsaved, bar, note = Unsaved(), self._desk.pages, self._desk.note
        for button, late in (
            (bar.athletes, self.late_roster),
            (bar.plan, self.late_plan),
            (bar.tasks, self.late_tasks),
            (bar.visit, self.late_visit),
        ):
            if late is not None:
                unsaved.add(button, late, partial(_dirty, late))
        unsaved.add(note.label, note, lambda: bool(note.text))
        return unsaved

    def _keeps_plan(self) -> str:
        """Why the athlete has to stay; empty where nothing typed would be lost."""
        plan = self.late_plan.there if self.late_plan else None
        if plan is None or not plan.dirty:
            return ""
        words = plan.tr("The plan of {who} is not saved. Save it, or take it back.")
        return words.format(who=self._visit.code)

    def _enter_today(self) -> None:
        profile = self._profile
        single = profile is not None and len(profile.channels) == 1
        none = self._desk.form.band.unprescribed
        asked = None if none else self._visit.asked
        self.today.enter(self._visit.code, asked=asked, single_cell=single)
        if none and not self.today.cards:
            self.today.say(
                self.today.tr(
                    "The band at the desk is not prescribed yet: type its centre there."
                )
            )

    def _enter_test(self) -> None:
        task, _ = self._desk.form.task_and_reference()
        self.test.enter(self._visit.code, at_desk=task)

    def _change_athlete(self) -> None:
        if self.late_review.there is not None:
            self.review.show_athlete(self._visit.code)


def _dirty(late: LatePage[Any]) -> bool:
    """Whether something typed on a page is not saved; on none that was never opened."""
    return late.there is not None and bool(late.there.dirty)


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
