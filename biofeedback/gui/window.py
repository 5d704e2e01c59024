"""The window: the athlete's screen with the desk beside it, and all other pages.

Each frame it pulls once from the session and hands on what came. Closing it ends
the set and closes the session.
"""

from __future__ import annotations

import time
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QCloseEvent, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QPushButton, QWidget

from biofeedback.gui.athlete_screen import AthleteScreen
from biofeedback.gui.calm_wheel import CalmWheel
from biofeedback.gui.closing import Closing
from biofeedback.gui.comfort import Comfort
from biofeedback.gui.day_order import DayOrder
from biofeedback.gui.desk import Desk
from biofeedback.gui.frame_timer import FRAME_NS, FrameTimer
from biofeedback.gui.keys import sheet_rows
from biofeedback.gui.language import filled, localised, said
from biofeedback.gui.link_words import LinkWords, no_force_words
from biofeedback.gui.live_session import is_live, sample_age_s
from biofeedback.gui.mounted import Mounted, live_page
from biofeedback.gui.other_folder import OtherFolder
from biofeedback.gui.pages import Pages
from biofeedback.gui.spoken_names import speak_names
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT, Theme
from biofeedback.gui.visit import Visit
from biofeedback.gui.words import over_words
from biofeedback.phrase import marked
from biofeedback.session import (
    BandChanged,
    Health,
    Link,
    Measured,
    Refused,
    SessionEvent,
    SetBegun,
    SetEnded,
    Update,
    Warned,
    ZeroTaken,
)
from biofeedback.session.lowering import line_after
from biofeedback.session.office import Office
from biofeedback.session.preferences import Preferences
from biofeedback.training.events import CeilingCrossed
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.gui.calibration import CalibrationPage
    from biofeedback.gui.health import HealthPage
    from biofeedback.gui.live_session import LiveSession
    from biofeedback.gui.maximal_page import MaximalPage
    from biofeedback.gui.review import ReviewPage
    from biofeedback.gui.sheet import Sheet
    from biofeedback.gui.today import TodayPage
    from biofeedback.session.rig_check import HealthReport
    from biofeedback.training.prescription import Prescription

DESIGNED_FOR_PX = 720
"""Height of the smallest window in which all of the desk is seen at once."""
LEAST_PX = (980, 540)
"""Of the window; what then finds no room scrolls."""
ATHLETE_PX, ATHLETE_LEAST_PX = 600, 481
"""What the desk leaves to the athlete's screen, and in a small window at least."""
ATHLETE_SHARE = 0.47
"""Of a small window: large type would else be cut at the desk."""
FAULT_WORDS = marked(
    "The picture has met a fault of its own and stands still. The recording goes on: "
    "stop the set, then open the window again. The log tells more."
)
FRAMES_FOLLOWED = 16
"""Over so many frames the time of a paint is told."""
NOTHING_COMES = (Link.OPENING, Link.LOST, Link.ENDED)
"""Frames are few then: an empty picture needs no processor."""
HEALTH_EVERY_FRAMES = 15
"""The desk's figures change four times a second; faster cannot be read."""


def _weight(event: SessionEvent) -> int:
    """Of those that came with one frame, the weightiest is the message that stays."""
    return 2 if isinstance(event, CeilingCrossed) else int(isinstance(event, Warned))


class Window(QWidget):
    """The one window of the program.

    Args:
        session: the visit; the window closes it.
        office: all doors to what is kept; None where nothing is.
        prescription: what the desk's fields start with.
        notice: what is to be known before the first set, such as what was
            recovered; it stays in sight until something is done.
        preferences: of this computer; None for those the program ships.
        keep: puts changed preferences away.
        clock: monotonic time in ns; the same clock as the arrival of samples.

    Attributes:
        drawn_age_s: age of the newest sample when it is seen; None while no fresh
            sample is drawn.
    """

    def __init__(
        self,
        session: LiveSession,
        office: Office | None = None,
        *,
        prescription: Prescription,
        notice: str = "",
        theme: Theme = DAY,
        preferences: Preferences | None = None,
        keep: Callable[[Preferences], None] | None = None,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        super().__init__()
        self._session = session
        self._clock = clock
        self._theme = theme
        self._profile: RigProfile | None = None
        self._frames = 0
        self._taken_ns: int | None = None
        self._painting_s = 0.0
        self._dropped = 0
        self._closing = Closing(self, session)
        self._link = LinkWords()
        self._health: Health | None = None
        self._size = 1.0
        office = office or Office()
        self.screen_part = AthleteScreen(prescription)
        self.desk = Desk(prescription)
        self.desk.foot.follow_clock(clock)
        self.order = DayOrder(
            session,
            office,
            self.desk,
            self.screen_part,
            auto=lambda: self.comfort.preferences.auto_next,
        )
        self.order.box.changed_row.clock = clock
        self.comfort = Comfort(
            preferences or Preferences(),
            self.desk,
            self.screen_part,
            keep or (lambda _: None),
            self.order.box,
        )
        self.visit = Visit(
            session, office, self.desk, prescription, self.order, clock=clock
        )
        mounted = Mounted(
            office,
            self.desk,
            self.visit,
            keys=lambda: sheet_rows(self.desk, self.comfort.keymap.key),
            comfort=self.comfort,
            clock=clock,
        )
        self.mounted = mounted
        self.other_folder = OtherFolder(
            session,
            self.desk,
            self,
            key=lambda usual: self.comfort.keymap.key(usual),  # noqa: PLW0108  of then
        )
        self.frames = FrameTimer(self.frame, self, pieces=session)
        self.drawn_age_s: float | None = None
        self.setWindowTitle("biofeedback")
        self.setMinimumSize(*LEAST_PX)  # else the largest type would widen it
        self.resize(1280, 720)
        self.pages = Pages(
            self,
            live_page(self.comfort.home, self.desk),
            under_way=lambda: self.desk.in_set,
        )
        mounted.add_to(self.pages)
        self._connect()
        self._wheel = CalmWheel(self)
        self._tend(self)
        for late in mounted.late:
            late.built.connect(self._tend)
        self.desk.show_athlete(session.athlete_code, session.athlete_name)
        self._follow_size()
        left_over = self.order.find_left_over()
        if notice:  # in one: advice takes the place of what was advised before
            self.desk.advise(f"{notice} {left_over}".rstrip())

    def _connect(self) -> None:
        desk, visit, session = self.desk, self.visit, self._session
        self.pages.refused.connect(desk.say)
        self.pages.turned.connect(
            lambda: self.comfort.at_live(shown=self.pages.live_shown)
        )
        self.pages.turned.connect(desk.above.uncover)
        self.pages.turned.connect(
            lambda: visit.renew_offer() if self.pages.live_shown else None
        )
        desk.above.uncovered.connect(self.screen_part.setFocus)
        visit.no_force = lambda: no_force_words(self._health)
        visit.planned.connect(lambda asked: self.screen_part.plan(self._profile, asked))
        visit.begun.connect(self._see_athlete)
        visit.pain_above.connect(self.screen_part.ease)
        visit.pain_above.connect(self.comfort.unfold)
        visit.noted.connect(self.pages.tell)
        visit.pain_back.connect(partial(self.screen_part.ease, eased=False))
        visit.athlete_changed.connect(self.order.find_left_over)
        self.order.begun.connect(self._see_athlete)
        self.mounted.late_today.built.connect(self._connect_today)
        desk.foot.board.use_wanted.connect(
            lambda other: visit.ask(lambda: session.use_board(other))
        )
        desk.theme.clicked.connect(self.switch_theme)
        desk.screen_full.clicked.connect(self.switch_full_screen)
        for late in (self.mounted.late_calibration, self.mounted.late_filter):
            late.built.connect(
                lambda page: page.profile_wanted.connect(
                    lambda profile: visit.ask(lambda: session.change_profile(profile))
                )
            )
        self.mounted.late_test.built.connect(self._connect_test)
        self.mounted.late_health.built.connect(
            lambda page: page.checked.connect(self._keep_check)
        )
        self.comfort.begin(self, self._press)
        self.comfort.type_changed.connect(self._follow_size)
        note = desk.note.line
        note.setToolTip(self.tr("Write a note (F4), Enter keeps it"))
        QShortcut(QKeySequence("F4"), self).activated.connect(desk.take_note)

    def _connect_today(self, today: TodayPage) -> None:
        today.day_wanted.connect(
            lambda view, sets, against: self.order.take_day(
                view, sets, warm_up=today.warm_up.isChecked(), against=against
            )
        )
        self.order.said.connect(today.say)

    def _connect_test(self, test: MaximalPage) -> None:
        test.guided.connect(self.screen_part.guide)
        self._tend(test.box)  # it stands at the desk

    def _keep_check(self, report: HealthReport) -> None:
        """The sets that follow on this board carry what its check has found."""
        self.desk.checked_board = report.found if report.good else ""
        self._session.keep_check(report)

    def _tend(self, page: QWidget) -> None:
        """What all controls of a page need."""
        self._wheel.calm(page)
        speak_names(page)

    # Pages; each is built where it was not yet.

    @property
    def review(self) -> ReviewPage:
        """Of saved reps."""
        return self.mounted.review

    @property
    def calibration(self) -> CalibrationPage:
        """Of known masses."""
        return self.mounted.calibration

    @property
    def health(self) -> HealthPage:
        """How good the rig is."""
        return self.mounted.health

    @property
    def sheet(self) -> Sheet:
        """Of keys."""
        return self.mounted.sheet

    def _press(self, button: QPushButton) -> None:
        """A key of a button; Esc leaves what is read first where no set is on."""
        desk, pages = self.desk, self.pages
        if self.mounted.erasing:
            return  # the page says so; nothing else may ask the logbook meanwhile
        if button is desk.stop and not pages.live_shown and not desk.in_set:
            pages.escape()
        elif button is desk.stop and desk.above.covered and not desk.in_set:
            desk.above.uncover()
        elif button in pages.buttons:
            pages.press(button)
        else:
            if button is desk.start and self.order.let_rep_start():
                return  # the start key goes on, also within a set
            test = self.mounted.late_test.there
            if button is desk.start and test is not None and pages.shown is test:
                test.begin.click()  # the start that is seen there
                return
            late = self.mounted.late_roster
            roster = late.there if late is not None else None
            if button is desk.start and roster is not None and pages.shown is roster:
                roster.say_who_is_here()  # another athlete may be seen there
                return
            if button is desk.start:
                pages.show_live()  # also where a field keeps it from starting
            button.click()

    # One frame.

    def frame(self) -> None:
        """Pulls once from the session and shows what came.

        After a fault of the program no frame follows. What then stands on the
        screen must not pass for live.
        """
        try:
            update = self._session.take()
            self._show(update, now_ns=self._clock())
        except Exception:
            self.drawn_age_s = None
            self.screen_part.show_fault()
            self.desk.say(said(FAULT_WORDS))
            raise
        nothing = update.health.link in NOTHING_COMES and not update.blocks
        self.frames.resting = nothing and not update.events and not self.desk.in_set

    def _show(self, update: Update, *, now_ns: int) -> None:
        live = is_live(update.health, now_ns=now_ns)
        age_s = sample_age_s(update.health, now_ns=now_ns)
        # A sample is seen when the frame has been painted, and half a frame later on
        # average: it is put on the display at the next refresh.
        self._taken_ns = now_ns
        until_seen_s = self._painting_s + FRAME_NS / 2e9
        self.drawn_age_s = age_s + until_seen_s if live and age_s is not None else None
        if update.profile != self._profile:
            self._profile = update.profile
            self.visit.meet_rig(single_cell=len(update.profile.channels) == 1)
            if not self.desk.in_set:
                none = self.desk.form.band.unprescribed  # what was seen last stays
                asked = self.screen_part.asked if none else self.visit.asked
                self.screen_part.plan(self._profile, asked)
        self.mounted.take(update, now_ns=now_ns)
        self.screen_part.take(update, live=live)
        self.comfort.frame(update.state, update.events)
        for event in sorted(update.events, key=_weight):
            self._follow(event, update)
        self.order.follow(update, now_s=now_ns / 1e9, live=live)
        self._dropped += update.dropped_blocks
        self._show_health(update, now_ns=now_ns)

    def event(self, event: QEvent) -> bool:
        """Follows how long a frame takes until it has been painted."""
        done = super().event(event)
        if event.type() is QEvent.Type.UpdateRequest and self._taken_ns is not None:
            took_s = (self._clock() - self._taken_ns) / 1e9
            self._painting_s += (took_s - self._painting_s) / FRAMES_FOLLOWED
            self._taken_ns = None
        return done

    def _follow(self, event: SessionEvent, update: Update) -> None:
        desk, tr = self.desk, self.tr
        match event:
            case SetBegun(asked):
                self._show_set(under_way=True)
                self._see_athlete()  # a set is never under way unseen
                desk.messages.act()  # what was advised before has been passed over
                test = asked.task.kind is TaskKind.MAXIMAL
                self.other_folder.begin(
                    tr("The test has begun.") if test else tr("The set has begun.")
                )
            case SetEnded(reason):
                self._show_set(under_way=False)
                test = self.screen_part.asked.task.kind is TaskKind.MAXIMAL
                words = over_words(reason, update.state, test=test)
                desk.messages.turn_over(words)
            case Measured(rep):
                desk.lowering.show_line(line_after(rep, self.visit.asked))
            case BandChanged(_, _, new, _):
                desk.form.show_band(new)
                self.visit.hear(event)
            case ZeroTaken(zero):
                kind = zero.kind.value
                desk.say(filled(tr("Zero taken: {kind}."), kind=kind))
            case Refused(_, message):
                self.comfort.unfold()
                desk.say(message)
                if update.state is not None and desk.in_set:
                    desk.form.show_band(update.state.band)
            case Warned(message):
                self.comfort.unfold()
                desk.messages.warn(message)
            case CeilingCrossed(_, ceiling_n):
                self.pages.show_live()
                self.comfort.unfold()
                desk.say(
                    tr("Above the ceiling of {n} N.").format(
                        n=localised(f"{ceiling_n:g}")
                    )
                )
            case _:
                self.visit.hear_rep(event)

    def _show_health(self, update: Update, *, now_ns: int) -> None:
        self._health = update.health
        words = self._link.news(update.health, now_ns=now_ns)
        self.desk.foot.board.ask(update.health.other, in_set=self.desk.in_set)
        if words:
            if update.health.other is not None:
                self.comfort.unfold()  # there is a question to answer
            messages = self.desk.messages
            (messages.ease if self._link.good else messages.say)(words)
        if self._frames % HEALTH_EVERY_FRAMES == 0:
            self.other_folder.follow()
            self.desk.show_health(
                update.health,
                update.profile,
                drawn_age_s=self.drawn_age_s,
                dropped_blocks=self._dropped,
            )
        self._frames += 1

    # Pages and looks.

    @property
    def theme(self) -> Theme:
        """Day or night."""
        return self._theme

    def set_theme(self, theme: Theme) -> None:
        """Day or night, for everything in the window."""
        self._theme = theme
        self.setPalette(theme.qt_palette())
        divider = f"QWidget#divider {{ background: {theme.edge}; }}"
        text = self.comfort.preferences.text_pct / 100
        sheet = style_sheet(theme, size=self._size * text) + divider
        self.setStyleSheet(sheet)
        self.comfort.second.set_look(sheet)
        self.screen_part.set_theme(theme)
        self.pages.set_theme(theme)
        self.order.box.set_theme(theme)
        self.desk.align()
        self.desk.theme.setText(self.tr("Day") if theme is NIGHT else self.tr("Night"))

    def switch_theme(self) -> None:
        """From day to night and back."""
        self.set_theme(DAY if self._theme is NIGHT else NIGHT)

    def _show_set(self, *, under_way: bool) -> None:
        self.visit.show_set(under_way=under_way, test=self.mounted.test_under_way)
        self.pages.lock(locked=under_way)
        self.mounted.hold(under_way=under_way)

    def _see_athlete(self) -> None:
        """The live page; from here on Space or a digit changes nothing."""
        self.pages.show_live()
        self.screen_part.setFocus()

    def switch_full_screen(self) -> None:
        """Full screen, and back."""
        self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """On a large screen the desk grows too, in a few steps."""
        share_px = round(ATHLETE_SHARE * self.width())
        self.desk.fit(self.width() - min(ATHLETE_PX, max(ATHLETE_LEAST_PX, share_px)))
        steps = round(4 * self.height() / DESIGNED_FOR_PX)
        size = min(1.5, max(1.0, steps / 4))
        if size != self._size:
            self._size = size
            self._follow_size()

    def _follow_size(self) -> None:
        """The type is another one: of a larger window, or as it is preferred."""
        size = self._size * self.comfort.preferences.text_pct / 100
        self.desk.set_size(size)
        self.pages.set_size(size)
        self.order.box.set_size(size)
        self.set_theme(self._theme)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ends the set, closes the session and waits until all is on disk."""
        if self._closing.keeps_open():
            event.ignore()
            return
        self._closing.close()
        event.accept()

    def close_at_once(self) -> None:
        """Closes whatever is typed: nobody is there to close again, or to answer."""
        self._closing.asks = False
        self.close()
