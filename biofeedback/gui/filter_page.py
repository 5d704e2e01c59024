"""The filter bench: which smoothing lets the athlete see the truth soonest.

At the side what is searched, and what the rig is given; beside it three views of what
was found: all candidates, one recording under the loupe, and the athlete's screen.
Candidate A is at first what the rule recommends, B what the rig has now. The page works
out nothing: search, look and play are the bench's and the session's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.filter_apply import FilterApply
from biofeedback.gui.filter_chart import FilterChart
from biofeedback.gui.filter_look import FilterLook
from biofeedback.gui.filter_play import FilterPlay
from biofeedback.gui.filter_setup import FilterSetup
from biofeedback.gui.filter_table import FilterTable
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import filled, shown, tr
from biofeedback.gui.plain_label import plain_label
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.tuning.candidates import name_of

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.conditioning.profile import FilterChoice, RigProfile
    from biofeedback.gui.theme import Theme
    from biofeedback.session.rig_filter import RigFilters
    from biofeedback.tuning.search import Found

SIDE_PX = 290
VIEW_PX = (600, 440)
"""Width and height at least; in large type the views stand above or below the side."""


class Views(QStackedWidget):
    """Takes the room that there is: what is drawn could fill any, and asks for none.

    Or the page, which scrolls where it is higher than the window, always would be.
    """

    def hasHeightForWidth(self) -> bool:  # noqa: N802  # Qt's name
        """Words that wrap do so in the room that is given."""
        return False

    def sizeHint(self) -> QSize:
        """The least."""
        return self.minimumSizeHint()


class FilterPage(QWidget):
    """Searches, shows, plays and applies.

    Args:
        filters: the door to the filters of rigs; None where nothing is kept.
        recordings: folder that is offered first.

    Signals:
        live_wanted: back to the live page.
        profile_wanted: the rig's profile with another filter.
    """

    live_wanted = Signal()
    profile_wanted = Signal(object)

    def __init__(
        self,
        filters: RigFilters | None,
        recordings: Path | None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Filter"))
        self._found: Found | None = None
        self._present: FilterChoice | None = None
        self._a: FilterChoice | None = None
        self._b: FilterChoice | None = None
        self.live = QPushButton(tr("Back to live"))
        self.heading = QLabel(tr("Filter of the rig"))
        self.heading.setObjectName("who")
        self.message = QLabel()
        self.message.setObjectName("message")
        self.message.setWordWrap(True)
        self.message.hide()
        self.setup = FilterSetup(recordings)
        self.give = FilterApply(filters)
        self.reason = QLabel()
        self.reason.setWordWrap(True)
        self.table = FilterTable()
        self.left_out = plain_label(name=tr("What has no room in the table"))
        self.left_out.hide()
        self.chart = FilterChart()
        self.make_a = QPushButton(tr("Make it A"))
        self.make_b = QPushButton(tr("Make it B"))
        self.pair = QLabel()
        self.pair.setWordWrap(True)
        self.look = FilterLook()
        self.play = FilterPlay()
        self.views = Views()
        self.switches = tuple(
            QPushButton(words)
            for words in (tr("Candidates"), tr("One recording"), tr("By eye"))
        )
        self._lay_out()
        self._connect()
        self.set_size(1.0)
        self._show_choices()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        for switch in self.switches:
            switch.setCheckable(True)
            switch.setObjectName("view")
            head.addWidget(switch)
        self.switches[0].setChecked(True)
        inner = QWidget()
        side = QVBoxLayout(inner)
        side.setContentsMargins(0, 0, 6, 0)
        side.addWidget(self.setup)
        side.addStretch(1)
        side.addWidget(self.give)
        self._side = TallArea(inner)
        self._side.setAccessibleName(tr("Search and rig"))
        for view in (self._candidates(), self.look, self.play):
            self.views.addWidget(view)
        row = self._row = WrappedRow(spacing_px=14, fills=True)
        row.add(self._side, scrolls=True)
        row.add(self.views, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(12, 10, 12, 12)
        whole.addLayout(head)
        whole.addWidget(self.message)
        whole.addLayout(row, 1)

    def _candidates(self) -> QWidget:
        view = QWidget()
        column = QVBoxLayout(view)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.reason)
        column.addWidget(self.table, 5)
        column.addWidget(self.left_out)
        row = QHBoxLayout()
        row.addWidget(self.make_a)
        row.addWidget(self.make_b)
        row.addWidget(self.pair, 1)
        column.addLayout(row)
        column.addWidget(self.chart, 6)
        return view

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        for index, switch in enumerate(self.switches):
            switch.clicked.connect(lambda _=False, at=index: self.show_view(at))
            show_key(switch, "F10", tr("The next view"))
        bind(self, "F9", self.setup.run.click)
        bind(self, "F10", lambda: self.show_view((self.view + 1) % len(self.switches)))
        show_key(self.setup.run, "F9", tr("Search, or stop"))
        for part in (self.setup, self.give, self.look, self.play):
            part.said.connect(self.say)
        self.setup.found.connect(self.show_found)
        self.give.profile_wanted.connect(self.profile_wanted)
        self.look.moved.connect(self._show_place)
        for button, key, pressed in (
            (self.make_a, "A", self._take_a),
            (self.make_b, "B", self._take_b),
        ):
            button.clicked.connect(pressed)
            show_key(button, key, button.text())
        self.table.left_out.connect(self._tell_left_out)
        self.table.a_wanted.connect(self._take_a)
        self.table.b_wanted.connect(self._take_b)

    # The page.

    def enter(self) -> None:
        """The page is shown."""
        self.setup.offer_folder()
        self.setup.run.setFocus()

    def leave(self) -> None:
        """Nobody watches what is played any more."""
        self.play.end()

    def escape(self) -> bool:
        """The stop key ends what is played, or what is asked, before the page."""
        if self.play.playing:
            self.play.end()
            return True
        if self.give.asking:
            self.give.leave()
            return True
        return False

    def take_profile(self, profile: RigProfile) -> None:
        """The rig that is on, and its filter."""
        self.give.show_profile(profile)
        self.setup.show_present(profile.filter)
        self._present = profile.filter

    def let_go(self) -> None:
        """A set has begun and needs the whole machine."""
        self.setup.let_go()
        self.play.end()

    def close_down(self) -> None:
        """Ends all threads of the page, and waits for them."""
        self.setup.close_down()
        self.look.close_down()
        self.play.end()

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        for part in (self.chart, self.look, self.play):
            part.set_theme(theme)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._side.setMinimumWidth(round(SIDE_PX * size))
        self.views.setMinimumWidth(round(VIEW_PX[0] * size))
        self.views.setMinimumHeight(round(VIEW_PX[1] * size))
        self.chart.set_size(size)
        self.look.set_size(size)

    def say(self, words: str) -> None:
        """Words at their one place; empty takes them away."""
        self.message.setText(words)
        self.message.setVisible(bool(words))

    @property
    def view(self) -> int:
        """Which of the three views is shown."""
        return self.views.currentIndex()

    def show_view(self, index: int) -> None:
        """Another view."""
        if index != 2:
            self.play.end()
        # No group of Qt's: Tab would lead to one of its buttons only.
        for number, switch in enumerate(self.switches):
            switch.setChecked(number == index)
        self.views.setCurrentIndex(index)

    # What was found.

    def show_found(self, found: Found) -> None:
        """A search is done: A is what the rule recommends, B what the rig has."""
        self._found = found
        chosen = found.recommendation.chosen
        self._a = (chosen or found.front[0]).choice
        self._b = found.wanted.present
        if found.score_of(self._b) is None or self._a == self._b:
            rest = [one.choice for one in found.front if one.choice != self._a]
            self._b = rest[0] if rest else None
        self._show_choices()
        self.table.choose(self._a)

    def _take_a(self) -> None:
        choice = self.table.chosen
        if choice is not None:
            if choice == self._b:
                self._b = self._a
            self._a = choice
            self._show_choices()

    def _take_b(self) -> None:
        choice = self.table.chosen
        if choice is not None:
            if choice == self._a:
                self._a = self._b
            self._b = choice
            self._show_choices()

    def _tell_left_out(self, words: str) -> None:
        self.left_out.setText(words)
        self.left_out.setVisible(bool(words))

    def _show_choices(self) -> None:
        found, a, b = self._found, self._a, self._b
        # In large type it would stand below the search, where nobody looks for it.
        self._row.put_first(self.views if found else None)
        self.make_a.setEnabled(found is not None)
        self.make_b.setEnabled(found is not None)
        self.reason.setText(
            shown(found.recommendation.reason)
            if found
            else tr(
                "Recordings are replayed through many filters. Age is what the athlete "
                "waits, noise what wavers without cause; the rule takes the least "
                "noise among those that are young enough."
            )
        )
        self.pair.setText(
            filled(
                tr("A: {a}. B: {b}."),
                a=name_of(a) if a else "–",
                b=name_of(b) if b else "–",
            )
        )
        self.table.show_found(found, a=a, b=b)
        self.chart.show_found(found, a=a, b=b)
        self.look.show_found(found, a, b)
        self.play.show_choices(a, b)
        self.give.show_choice(found, a)
        self._show_place()

    def _show_place(self) -> None:
        self.play.show_place(self.look.path, self.look.seen_s[0])
