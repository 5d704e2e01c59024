"""The athlete's screen: cue, path, hold timer, balance bar and rep row.

It must be read from three metres by a tired person, and without colour. It is
given what the session said in a frame and hands each part its share.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget

from biofeedback.conditioning.profile import SIMULATED, RigProfile, Side
from biofeedback.gui.balance_bar import BalanceBar
from biofeedback.gui.breathing_line import BreathingLine
from biofeedback.gui.cue import CueLine
from biofeedback.gui.hold_timer import HoldTimer
from biofeedback.gui.language import said
from biofeedback.gui.live_session import newtons_are_nominal, newtons_are_simulated
from biofeedback.gui.path import Path
from biofeedback.gui.rep_row import RepRow
from biofeedback.gui.task_titles import task_title
from biofeedback.gui.theme import DAY, Theme
from biofeedback.session import GateMoved, SetBegun, TermsChanged, Update
from biofeedback.training.events import CeilingCrossed
from biofeedback.training.feedback import Cue, SteadyCue, far_above
from biofeedback.training.maximal import ANY_TRIAL, Guide
from biofeedback.training.prescription import FeedbackMode, Prescription
from biofeedback.training.showing import force_shown
from biofeedback.training.task import Sides, TaskKind

if TYPE_CHECKING:
    from biofeedback.conditioning.block import Block
    from biofeedback.gui.panel import Panel
    from biofeedback.session import SessionEvent

# Shares of the height, top to bottom; the path takes what is left.
CUE_SHARE = 0.14
TIMER_SHARE = 0.1
BALANCE_SHARE = 0.115
REPS_SHARE = 0.085
BREATH_WIDTH = 0.4
"""Of the foot of the screen, right of the reps: so the path keeps all its height."""
FIGURE_SHARE = 0.036
"""Of the height of the screen, whatever is left to the path: on a screen 30 cm high
figures of 8 mm. They are looked up before a set, and not read in a hold."""
SIDES_WIDTH = 0.2
"""The same for one word, so that of the efforts of a test each word has its room."""
GAP_SHARE = 0.024
DOUBT_SHARE = 0.72
"""Of the gap, for the letters of what the newtons are not."""
MARGIN_SHARE = 0.025


class AthleteScreen(QWidget):
    """What the athlete looks at.

    Args:
        asked: what is planned; see `plan`.

    Attributes:
        between_sets_s: rest that is left between two sets of a running order; None
            where none of it was begun, or there is none.
    """

    def __init__(self, asked: Prescription, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Athlete's screen"))
        self.setMinimumSize(480, 360)
        # Whoever clicks here leaves the field that was typed in.
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.cue = CueLine(self)
        self.breath = BreathingLine(self)
        self.breath.hide()
        self.path = Path(asked, self)
        self.timer = HoldTimer(self)
        self.balance = BalanceBar(self)
        self.reps = RepRow(self)
        self.uncalibrated = QLabel(self)
        self.uncalibrated.setObjectName("summary")
        self.uncalibrated.hide()
        self._parts: tuple[Panel, ...] = (
            self.cue,
            self.breath,
            self.path,
            self.timer,
            self.balance,
            self.reps,
        )
        self._theme = DAY
        self._asked = asked
        self._sides: tuple[int, int] | None = None
        self._steady = SteadyCue()
        self._shown_cue = self.meaning = Cue.NO_SIGNAL
        self._set_begun = False
        self.between_sets_s: float | None = None
        self._guide = ANY_TRIAL
        self._told: tuple[object, ...] = ()
        self._doubt_key: tuple[object, ...] = ()
        self._eased = False
        self._line_width = BREATH_WIDTH
        self.plan(None, asked)

    @property
    def shown_cue(self) -> Cue:
        """The cue that is given now."""
        return self._shown_cue

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours for all parts."""
        self._theme = theme
        for part in self._parts:
            part.set_theme(theme)
        self.update()

    def set_still(self, *, still: bool) -> None:
        """Reduced motion: what flows or grows stands, and goes on in steps."""
        self.path.set_paged(paged=still)
        self.timer.set_stepped(stepped=still)
        self.balance.set_stepped(stepped=still)

    def plan(self, profile: RigProfile | None, asked: Prescription) -> None:
        """What the desk has in mind while no set is under way.

        From here on the last set is no longer shown.
        """
        self._set_begun = False
        self._told = ()
        self._set_up(profile, asked)
        self.path.set_up(profile, asked)
        self._lay_out()

    def _set_up(self, profile: RigProfile | None, asked: Prescription) -> None:
        self._asked = asked
        left = profile.index_of(Side.LEFT) if profile else None
        right = profile.index_of(Side.RIGHT) if profile else None
        both = left is not None and right is not None
        self._sides = (left, right) if left is not None and right is not None else None
        shown = both and asked.task.sides is Sides.BOTH
        if shown is self.balance.isHidden():
            self.balance.setVisible(shown)
            self._lay_out()
        self.balance.set_tolerance(asked.balance_tolerance_points)

    @property
    def asked(self) -> Prescription:
        """What the set under way asks for, or the next one would."""
        return self._asked

    def want_line(self, *, wanted: bool, narrow: bool = False) -> None:
        """Room at the foot for breathing, rest or side, or none.

        Between sets only, or as one begins: in a set nothing moves.

        Args:
            narrow: for a side alone, without rest or breathing.
        """
        width = SIDES_WIDTH if narrow else BREATH_WIDTH
        if wanted is self.breath.isHidden() or width != self._line_width:
            self._line_width = width
            self.breath.setVisible(wanted)
            self._lay_out()

    def ease(self, *, eased: bool = True) -> None:
        """Pain above the agreed cut was told: nothing here asks for force any more.

        It holds until the practitioner lets reps go on, or another set begins.

        Args:
            eased: False where what was told is taken back.
        """
        self._eased, self._told = eased, ()

    def _show_doubt(self, update: Update) -> None:
        """What the newtons are not; in a test what is tested, too."""
        of = update.health, update.profile
        heard = update.health.arrived_ns is not None
        label, task = self.uncalibrated, self._asked.task
        key = (update.profile, heard, task, label.width())
        if key == self._doubt_key:
            return  # as in nearly each frame
        self._doubt_key = key
        words = said(SIMULATED) if newtons_are_simulated(*of) else ""
        if not words and newtons_are_nominal(*of):
            words = self.tr("not calibrated")
        if task.kind is TaskKind.MAXIMAL:
            words = label.fontMetrics().elidedText(
                " · ".join(filter(None, (words, task_title(task.name)))),
                Qt.TextElideMode.ElideRight,
                label.width(),
            )
        if words != label.text():
            label.setText(words)
        label.setVisible(bool(words))

    def guide(self, guide: Guide) -> None:
        """What comes next in the maximal test that is under way."""
        self._guide = guide

    def take(self, update: Update, *, live: bool) -> None:
        """What is new in this frame.

        Args:
            live: whether the newest sample is fresh.
        """
        if self._told_already(update, live=live):
            return
        begun, crossed = self._hear(update.events)
        self._show_doubt(update)
        asked = self._asked
        state = update.state if self._set_begun else None
        # Inside the band there is nothing to tell that a hidden line would have told.
        shown = force_shown(asked, state)
        seen = shown or asked.feedback is FeedbackMode.OUTSIDE
        maximal = asked.task.kind is TaskKind.MAXIMAL
        step = self._guide.step if maximal else None
        self._shown_cue = self._steady.push(
            state,
            live=live,
            seen=seen,
            maximal=step,
            at_limit=update.health.saturated,
            far=self._far_above(),
            eased=self._eased,
            crossed=crossed,
        )
        # An ear follows faster than an eye reads: without the dwell of a phrase.
        self.meaning = self._steady.wanted
        rest_left_s = state.rest_left_s if state else self.between_sets_s or 0.0
        if self._shown_cue is Cue.NO_SET and self.between_sets_s is not None:
            self._shown_cue = Cue.REST if rest_left_s > 0 else Cue.WAIT
        self.cue.show_cue(self._shown_cue, rest_left_s=rest_left_s)
        self.path.take(
            update.blocks,
            update.events,
            state,
            live=live,
            cue=self._shown_cue,
            expected_n=self._guide.expected_n if maximal else None,
        )
        if begun:
            self._lay_out()
        self.timer.show_state(state, hold_s=asked.hold_s, live=live, seen=seen)
        if maximal:
            self.reps.show_test(state, self._guide)
        else:
            self.reps.show_state(state, reps=asked.reps)
        self._show_balance(update.blocks, live=live and shown)

    def _hear(self, events: tuple[SessionEvent, ...]) -> tuple[bool, bool]:
        """Follows events.

        Returns:
            Whether a set has begun, and whether the ceiling was crossed.
        """
        begun = crossed = False
        for event in events:
            go_on = isinstance(event, GateMoved) and event.open
            if go_on or isinstance(event, SetBegun):
                self._eased = False
            if isinstance(event, SetBegun):
                self._set_begun = begun = True
                self._set_up(event.profile, event.prescription)
            elif isinstance(event, TermsChanged):
                self._asked = event.new.applied_to(self._asked)
            elif isinstance(event, CeilingCrossed):
                crossed = True
        return begun, crossed

    def _far_above(self) -> bool:
        content = self.path.content
        band = content.band
        return any(far_above(force_n, band) for force_n in content.newest_n)

    def _told_already(self, update: Update, *, live: bool) -> bool:
        """Whether all of it is on the screen: without a rig it costs nothing then.

        A cue that waits for its dwell is not on the screen yet.
        """
        now = (
            live,
            update.state,
            update.profile,
            update.health,
            self._guide,
            self.between_sets_s,
            self._asked,
            self._set_begun,
        )
        new = bool(update.blocks or update.events) or now != self._told
        self._told = now
        return not new and self._shown_cue is self._steady.wanted

    def show_fault(self) -> None:
        """No frame follows: nothing here may look live."""
        self._shown_cue = Cue.NO_SIGNAL
        self.cue.show_cue(Cue.NO_SIGNAL)
        self.path.show_fault()
        self.timer.show_state(None, hold_s=self._asked.hold_s, live=False)
        self.balance.show_nothing()

    def _show_balance(self, blocks: tuple[Block, ...], *, live: bool) -> None:
        if self._sides is None:
            return
        if not live:
            self.balance.show_nothing()
        elif blocks and len(blocks[-1]):
            newest_n = blocks[-1].shown_n[-1]
            left_n, right_n = (float(newest_n[side]) for side in self._sides)
            self.balance.show_forces(float(blocks[-1].time_s[-1]), left_n, right_n)

    def _lay_out(self) -> None:
        height, width = self.height(), self.width()
        margin = round(height * MARGIN_SHARE)
        gap = round(height * GAP_SHARE)
        parts: list[tuple[Panel, float]] = [
            (self.cue, CUE_SHARE),
            (self.path, 0.0),
            (self.timer, TIMER_SHARE),
        ]
        if not self.balance.isHidden():
            parts.append((self.balance, BALANCE_SHARE))
        parts.append((self.reps, REPS_SHARE))
        fixed = sum(round(height * share) for _, share in parts)
        y = margin // 3
        room = height - y - margin - gap * (len(parts) - 1) - fixed
        for part, share in parts:
            tall = round(height * share) if share else room
            part.setGeometry(margin, y, width - 2 * margin, tall)
            y += tall + gap
        if not self.breath.isHidden():
            foot = self.reps.geometry()
            wide = round(foot.width() * self._line_width)
            self.breath.setGeometry(
                foot.right() + 1 - wide, foot.y(), wide, foot.height()
            )
            self.reps.resize(foot.width() - wide, foot.height())
        # The timer is as wide as the path's plot.
        self.path.set_figures(height * FIGURE_SHARE)
        self.path.lay_out()
        box = self.path.plot_box()
        # In the gap above the path's upper left corner, where nothing is drawn; as all
        # that the athlete reads, it grows with the screen and not with the desk's type.
        letters = f"font-size: {max(8, round(gap * DOUBT_SHARE))}px"
        if letters != self.uncalibrated.styleSheet():
            self.uncalibrated.setStyleSheet(letters)
        self.uncalibrated.setGeometry(
            self.path.x() + round(box.x()), self.path.y() - gap, round(box.width()), gap
        )
        self.timer.setGeometry(
            self.path.x() + round(box.x()),
            self.timer.y(),
            round(box.width()),
            self.timer.height(),
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Shares the room out anew."""
        self._lay_out()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paper between the parts."""
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(self._theme.paper))
        painter.end()
