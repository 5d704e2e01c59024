"""The window: the athlete's screen with the desk beside it, and two more pages.

Each frame it pulls once from the session and hands on what came. Closing it ends
the set and closes the session; nothing is asked.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QMessageBox,
    QPushButton,
    QStackedLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.athlete_screen import AthleteScreen
from biofeedback.gui.calibration import CalibrationPage
from biofeedback.gui.desk import Desk
from biofeedback.gui.frame_timer import FRAME_NS, FrameTimer
from biofeedback.gui.health import HealthPage
from biofeedback.gui.live_session import is_live, sample_age_s
from biofeedback.gui.review import ReviewPage
from biofeedback.gui.sheet import Sheet
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT, Theme
from biofeedback.session import (
    BandChanged,
    Link,
    Refused,
    SessionEvent,
    SetBegun,
    SetEnded,
    Update,
    Warned,
    ZeroTaken,
)
from biofeedback.training.events import CeilingCrossed

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.conditioning.profile import RigProfile, ZeroKind
    from biofeedback.gui.calibration import CalibrationStore
    from biofeedback.gui.live_session import LiveSession
    from biofeedback.gui.review import SavedReps
    from biofeedback.session import Health
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription

DESIGNED_FOR_PX = 720
"""Height of the smallest window in which all of the desk is seen at once."""
FAULT_WORDS = (
    "The picture has met a fault of its own and stands still. The recording goes on: "
    "stop the set, then open the window again. The log tells more."
)
IN_A_SET = "A set is under way. Stop it first."
UNREAD = "not understood"
"""Stands in what a board of plain lines says of itself while it cannot be read."""
UNREAD_AFTER_S = 2.0
"""The first lines of a good board are not understood either."""
UNREAD_WORDS = (
    "The board sends something that cannot be read. Let it print one or two numbers "
    "a line, and look at its baud rate."
)
HEALTH_EVERY_FRAMES = 15
"""The desk's figures change four times a second; faster cannot be read."""


class Window(QWidget):
    """The one window of the program.

    Args:
        session: the visit; the window closes it.
        library: saved reps for the review page, or None.
        prescription: what the desk's fields start with.
        athlete: who is here, as shown at the head of the desk.
        calibrations: where calibrations are kept, or None.
        notice: what is to be known before the first set, such as what was
            recovered; it stays in sight until something is done.
        clock: monotonic time in ns; the same clock as the arrival of samples.
    """

    def __init__(
        self,
        session: LiveSession,
        library: SavedReps | None,
        *,
        prescription: Prescription,
        athlete: str,
        calibrations: CalibrationStore | None = None,
        notice: str = "",
        theme: Theme = DAY,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        super().__init__()
        self._session = session
        self._clock = clock
        self._theme = theme
        self._profile: RigProfile | None = None
        self._planned = prescription
        self._frames = 0
        self._dropped = 0
        self._closed = False
        self._told_link = ""
        self._unread_ns: int | None = None
        self._size = 1.0
        self.screen_part = AthleteScreen(prescription)
        self.desk = Desk(prescription, athlete=athlete)
        self.review = ReviewPage(library, athlete_code=session.athlete_code)
        self.calibration = CalibrationPage(calibrations)
        self.health = HealthPage()
        self.sheet = Sheet(self._keys())
        self.frames = FrameTimer(self.frame, self)
        self.drawn_age_s: float | None = None
        self._lay_out()
        self._connect()
        self.set_theme(theme)
        if notice:
            self.desk.advise(notice)

    def _lay_out(self) -> None:
        self.setWindowTitle("biofeedback")
        self.resize(1280, 720)
        live = QWidget()
        row = QHBoxLayout(live)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self.screen_part, 1)
        line = QWidget()
        line.setObjectName("divider")
        line.setFixedWidth(1)
        row.addWidget(line)
        row.addWidget(self.desk)
        self._pages = QStackedLayout(self)
        self._pages.addWidget(live)
        self._pages.addWidget(self.review)
        self._pages.addWidget(self.calibration)
        self._pages.addWidget(self.health)
        self._pages.addWidget(self.sheet)

    def _connect(self) -> None:
        desk, session = self.desk, self._session
        desk.start_wanted.connect(self._begin_set)
        desk.stop_wanted.connect(lambda: self._ask(session.end_set))
        desk.planned.connect(self._plan)
        desk.band_wanted.connect(self._change_band)
        desk.zero_wanted.connect(self._take_zero)
        desk.pain_marked.connect(lambda at: self._ask(lambda: session.mark_pain(at)))
        desk.note_written.connect(lambda text: self._ask(lambda: session.note(text)))
        desk.review.clicked.connect(self.switch_page)
        desk.calibrate.clicked.connect(self.switch_calibration)
        desk.health.check.clicked.connect(self.switch_health)
        desk.sheet.clicked.connect(self.switch_sheet)
        self.sheet.live_wanted.connect(self.switch_sheet)
        desk.theme.clicked.connect(self.switch_theme)
        desk.screen_full.clicked.connect(self.switch_full_screen)
        self.review.live_wanted.connect(self.switch_page)
        self.calibration.live_wanted.connect(self.switch_calibration)
        self.health.live_wanted.connect(self.switch_health)
        self.calibration.profile_wanted.connect(
            lambda profile: self._ask(lambda: session.change_profile(profile))
        )
        for button, key, tip in desk.actions_and_keys():
            self._bind(button, key, tip)
        self.review.live.setToolTip(f"{self.tr('Back to live')} (F2)")
        self.calibration.live.setToolTip(f"{self.tr('Back to live')} (F6)")
        self.sheet.live.setToolTip(f"{self.tr('Back to live')} (F1)")
        self.health.live.setToolTip(f"{self.tr('Back to live')} (F12)")
        self._bind_note()

    def _keys(self) -> tuple[tuple[str, str], ...]:
        """All keys and what they do."""
        tr = self.tr
        pain = set(self.desk.pain)
        desk = tuple(
            (_native(key), tip)
            for button, key, tip in self.desk.actions_and_keys()
            if button not in pain
        )
        return (
            *desk,
            ("F4", tr("Write a note; Enter keeps it")),
            (f"{_native('Ctrl+0')} … 9", tr("Mark pain 0 to 9 of 10")),
            (_native("Ctrl+Shift+0"), tr("Mark pain 10 of 10")),
            ("Esc", tr("On another page: back to live")),
            (_native("Ctrl+B"), tr("Calibration: begin, or end without keeping")),
            (_native("Ctrl+S"), tr("Calibration: keep it and use it")),
            ("F9", tr("Calibration: take this point. Check: begin, or end")),
            ("F10", tr("Calibration: take back. Check: leave this press out")),
        )

    def _bind(self, button: QPushButton, key: str, tip: str) -> None:
        """A key that works in the whole window, on either page."""
        button.setToolTip(f"{tip} ({_native(key)})")
        # Not Qt's own shortcut of a button: that one is dead while it is hidden.
        shortcut = QShortcut(QKeySequence(key), self)
        shortcut.setContext(Qt.ShortcutContext.WindowShortcut)
        shortcut.setAutoRepeat(False)
        shortcut.activated.connect(lambda: self._press(button))

    def _press(self, button: QPushButton) -> None:
        """A key of a button; Esc leaves a page first where no set is under way."""
        if button is self.desk.stop and not self.live_shown and not self.desk.in_set:
            self._show_live()
        elif button in self.desk.page_buttons and self.desk.in_set:
            self.desk.say(self.tr(IN_A_SET))  # the button itself is dead
        else:
            if button is self.desk.start:
                self._show_live()  # also where a field keeps it from starting
            button.click()

    def _bind_note(self) -> None:
        note = self.desk.note.line
        note.setToolTip(self.tr("Write a note (F4), Enter keeps it"))
        QShortcut(QKeySequence("F4"), self).activated.connect(note.setFocus)

    # One frame.

    def frame(self) -> None:
        """Pulls once from the session and shows what came.

        After a fault of the program no frame follows. What then stands on the
        screen must not pass for live.
        """
        try:
            self._show(self._session.take(), now_ns=self._clock())
        except Exception:
            self.drawn_age_s = None
            self.screen_part.show_fault()
            self.desk.say(self.tr(FAULT_WORDS))
            raise

    def _show(self, update: Update, *, now_ns: int) -> None:
        live = is_live(update.health, now_ns=now_ns)
        age_s = sample_age_s(update.health, now_ns=now_ns)
        # A sample is seen half a frame later on average: this frame is put on
        # the display at the next refresh.
        self.drawn_age_s = (
            age_s + FRAME_NS / 2e9 if live and age_s is not None else None
        )
        if update.profile != self._profile:
            self._profile = update.profile
            if not self.desk.in_set:
                self.screen_part.plan(self._profile, self._planned)
        self.screen_part.take(update, live=live)
        self.calibration.take(update)
        self.health.take(update, now_ns=now_ns)
        # A warning that came with others is the message that stays.
        for event in sorted(update.events, key=lambda one: isinstance(one, Warned)):
            self._follow(event, update)
        self._dropped += update.dropped_blocks
        self._show_health(update)

    def _follow(self, event: SessionEvent, update: Update) -> None:
        desk, tr = self.desk, self.tr
        match event:
            case SetBegun():
                self._show_live()  # a set is never under way unseen
                self._show_set(under_way=True)
                self._focus_athlete()
                desk.say(tr("The set has begun."))
            case SetEnded(reason):
                self._show_set(under_way=False)
                desk.say(tr("The set is over: {reason}.").format(reason=reason))
            case BandChanged(_, _, new, _):
                desk.form.show_band(new)
            case ZeroTaken(zero):
                kind = zero.kind.value
                desk.say(tr("Zero taken: {kind}.").format(kind=kind))
            case Refused(_, message):
                desk.say(message)
                if update.state is not None and desk.in_set:
                    desk.form.show_band(update.state.band)
            case Warned(message):
                desk.say(message)
            case CeilingCrossed(_, ceiling_n):
                self._show_live()
                desk.say(tr("Above the ceiling of {n} N.").format(n=f"{ceiling_n:g}"))
            case _:
                pass

    def _show_health(self, update: Update) -> None:
        health = update.health
        words = self._link_words(health)
        if words != self._told_link:
            self._told_link = words
            self.desk.say(words or self.tr("The signal is there."))
        if self._frames % HEALTH_EVERY_FRAMES == 0:
            self.desk.health.show_health(
                health,
                update.profile,
                drawn_age_s=self.drawn_age_s,
                dropped_blocks=self._dropped,
            )
        self._frames += 1

    def _link_words(self, health: Health) -> str:
        """What is wrong with the signal; empty where nothing is."""
        if health.link is not Link.OPENING or UNREAD not in health.found:
            self._unread_ns = None
            return health.message
        now_ns = self._clock()
        self._unread_ns = since_ns = self._unread_ns or now_ns
        if now_ns - since_ns < UNREAD_AFTER_S * 1e9:
            return health.message
        # Not what was found in so many words: the count of lines in it goes on.
        return self.tr(UNREAD_WORDS)

    # What the desk wants.

    def _ask(self, what: Callable[[], None]) -> None:
        """Asks the session; what it cannot do is said at the desk."""
        try:
            what()
        except BiofeedbackError as error:
            self.desk.say(str(error))

    def _begin_set(self, asked: Prescription) -> None:
        self._show_live()
        self._focus_athlete()
        self._planned = asked
        self._ask(lambda: self._session.begin_set(asked))

    def _plan(self, asked: Prescription) -> None:
        self._planned = asked
        self.screen_part.plan(self._profile, asked)

    def _change_band(self, band: Band) -> None:
        try:
            self._planned = self._planned.with_band(band)
        except FieldError as error:
            in_force = self._planned.band
            self.desk.form.band.reject(error.problem, in_force=in_force)
            return
        self._ask(lambda: self._session.change_band(band, "nudge at the desk"))

    def _take_zero(self, kind: ZeroKind) -> None:
        self.desk.say(self.tr("Taking zero for one second: nothing should pull."))
        self._ask(lambda: self._session.take_zero(kind))

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
        self.setStyleSheet(style_sheet(theme, size=self._size) + divider)
        self.screen_part.set_theme(theme)
        self.review.set_theme(theme)
        self.calibration.set_theme(theme)
        self.desk.form.align()
        self.desk.theme.setText(self.tr("Day") if theme is NIGHT else self.tr("Night"))

    def switch_theme(self) -> None:
        """From day to night and back."""
        self.set_theme(DAY if self._theme is NIGHT else NIGHT)

    def _show_set(self, *, under_way: bool) -> None:
        self.desk.show_set(under_way=under_way)
        self.calibration.hold(under_way=under_way)

    def _focus_athlete(self) -> None:
        """From here on Space or a digit changes nothing."""
        self.screen_part.setFocus()

    @property
    def live_shown(self) -> bool:
        """Whether the athlete's screen and the desk are shown."""
        return self._pages.currentIndex() == 0

    @property
    def reviewing(self) -> bool:
        """Whether the review page is shown."""
        return self._pages.currentWidget() is self.review

    @property
    def calibrating(self) -> bool:
        """Whether the calibration page is shown."""
        return self._pages.currentWidget() is self.calibration

    @property
    def checking_health(self) -> bool:
        """Whether the health page is shown."""
        return self._pages.currentWidget() is self.health

    def switch_page(self) -> None:
        """From live to review and back."""
        if self._shown_or_back(self.review):
            self.review.reload()

    def switch_calibration(self) -> None:
        """From live to calibration and back; points taken so far stay."""
        if self._shown_or_back(self.calibration):
            self.calibration.enter()

    def switch_sheet(self) -> None:
        """From live to the keys and words and back."""
        if self._shown_or_back(self.sheet):
            self.sheet.enter()

    def switch_health(self) -> None:
        """From live to the health page and back; a check under way then ends."""
        if self._shown_or_back(self.health):
            self.health.enter(self._planned)

    def _shown_or_back(self, page: QWidget) -> bool:
        """Shows a page, or goes back to live where it is shown already.

        The athlete's screen is not taken away while a set is under way.
        """
        if self._pages.currentWidget() is page:
            self._show_live()
            return False
        if self.desk.in_set:
            self.desk.say(self.tr(IN_A_SET))
            return False
        self.health.leave()
        self._pages.setCurrentWidget(page)
        return True

    def _show_live(self) -> None:
        """What must be seen now is on the live page.

        A health check under way ends: a set is not to be judged as a rig at rest.
        """
        self.health.leave()
        self._pages.setCurrentIndex(0)

    def switch_full_screen(self) -> None:
        """Full screen, and back."""
        self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """On a large screen the desk grows too, in a few steps."""
        steps = round(4 * self.height() / DESIGNED_FOR_PX)
        size = min(1.5, max(1.0, steps / 4))
        if size != self._size:
            self._size = size
            self.desk.set_size(size)
            self.calibration.set_size(size)
            self.set_theme(self._theme)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ends the set, closes the session and waits until all is on disk."""
        self.frames.stop()
        if not self._closed:
            self._closed = True
            self._ask(lambda: self._session.end_set("window closed"))
            self._ask(self._session.close)
            if self._session.not_kept:
                # From an icon there is no terminal that would tell it.
                QMessageBox.warning(
                    self, self.tr("Not all is on disk"), self._session.not_kept
                )
        event.accept()


def _native(key: str) -> str:
    """A key as this system writes it."""
    return QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)
