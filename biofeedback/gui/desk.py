"""The desk: the practitioner's controls, a narrow column in reading order.

Pages, who and what, band and nudge, zero and signal health, and note; at the foot,
always in sight, how the signal is, pain, effort, the caution, messages, start and stop.
It tells what is wanted by Qt signals and never acts itself. Every action has a key,
shown in its tip; the stop key always works.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.gui.choice_row import same_width
from biofeedback.gui.desk_column import DeskColumn
from biofeedback.gui.desk_foot import DeskFoot
from biofeedback.gui.field import Field
from biofeedback.gui.health_box import HealthBox
from biofeedback.gui.health_line import signal_state
from biofeedback.gui.keys import actions_of, native
from biofeedback.gui.language import shown
from biofeedback.gui.lowering_line import LoweringLine
from biofeedback.gui.page_bar import PageBar
from biofeedback.gui.prescription_form import PrescriptionForm

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.gui.order_box import OrderBox
    from biofeedback.session import Health
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription

WIDTH_PX = 368
SPARE_PX = 4
"""Left between column and foot, so that no bar comes and goes between two layouts."""


class Desk(QWidget):
    """All controls beside the athlete's screen.

    Attributes:
        start_key: starts a set, as this system writes it.
        checked_board: what the board that went through the start check says of
            itself; empty where none did.

    Signals:
        start_wanted: a set is to begin, with a `Prescription`.
        stop_wanted: the set is to end now.
        planned: another good `Prescription` stands in the fields, no set is on.
        band_wanted: another `Band` in the set under way.
        zero_wanted: zero is to be taken, with its `ZeroKind`.
        pain_marked: a level from 0 to 10.
        pain_back_wanted: the last mark of pain was a slip.
        effort_marked: a level from 0 to 10, of the set that is over.
        note_written: a text; `note_kept` clears its line.
    """

    start_wanted = Signal(object)
    stop_wanted = Signal()
    planned = Signal(object)
    band_wanted = Signal(object)
    zero_wanted = Signal(object)
    pain_marked = Signal(int)
    pain_back_wanted = Signal()
    effort_marked = Signal(int)
    note_written = Signal(str)

    def __init__(
        self, start: Prescription, *, athlete: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._size, self._room_px = 1.0, self.maximumWidth()
        self.fit()
        self.setAccessibleName(self.tr("Desk"))
        self._in_set = self._ordered = False
        self._objection = ""  # what was last said against a start
        self.start_key = native("F5")
        self.checked_board = ""
        self._order_box: OrderBox | None = None
        self._boxes: frozenset[QObject] = frozenset()  # that take room from the rest
        self._whole_signal = False  # wanted all the same
        self.pages = PageBar()
        self.who = QLabel()
        self.who.setObjectName("who")
        self.name = QLabel()
        self.name.setObjectName("summary")
        for label in (self.who, self.name):
            label.setWordWrap(True)  # a long name must not widen the column
        self.form = PrescriptionForm(start)
        self.lowering = LoweringLine()
        self.health = HealthBox()
        self.note = Field(self.tr("Note"))
        self.foot = foot = DeskFoot()
        self.messages, self.start, self.stop = foot.messages, foot.start, foot.stop
        self.cautions = foot.cautions
        self.pain, self.effort, self.caution = foot.pain, foot.effort, foot.caution
        self.calibrate = self.health.calibrate
        self.sheet = QPushButton(self.tr("Keys"))
        self.preferences = QPushButton(self.tr("Set up"))
        self.theme = QPushButton(self.tr("Night"))
        self.screen_full = QPushButton(self.tr("Full"))
        self._lay_out()
        self._connect()
        self.show_athlete(athlete)
        self.show_set(under_way=False)

    def _lay_out(self) -> None:
        column = QVBoxLayout()
        column.setContentsMargins(8, 2, 4, 0)
        column.setSpacing(2)
        column.addWidget(self.pages)
        column.addLayout(self._head())
        column.addWidget(self.form)
        column.addWidget(self.lowering)
        column.addWidget(_rule())
        column.addWidget(self.health)
        column.addWidget(_rule())
        column.addWidget(self.note)
        column.addStretch(1)
        self._column = column
        self.above = DeskColumn(column)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addWidget(self.above, 1)
        whole.addWidget(self.foot)

    def _head(self) -> QHBoxLayout:
        """Who is here, and beside it what concerns the window."""
        who = QVBoxLayout()
        who.setSpacing(0)
        who.addWidget(self.who)
        who.addWidget(self.name)
        head = QHBoxLayout()
        head.setSpacing(2)
        head.addLayout(who, 1)
        tasks = self.pages.tasks
        for button in (
            tasks,
            self.sheet,
            self.preferences,
            self.theme,
            self.screen_full,
        ):
            button.setObjectName("page")
            head.addWidget(button)
        return head

    def _connect(self) -> None:
        self.start.clicked.connect(self._start)
        self.stop.clicked.connect(lambda: self.messages.act(stopped=True))
        self.stop.clicked.connect(self.stop_wanted)
        self.form.changed.connect(self._plan)
        self.form.band_changed.connect(self._band_changed)
        self.health.zero_empty.clicked.connect(
            lambda: self.zero_wanted.emit(ZeroKind.EMPTY_RIG)
        )
        self.health.zero_limb.clicked.connect(
            lambda: self.zero_wanted.emit(ZeroKind.LIMB_RESTING)
        )
        self.pain.marked.connect(self.pain_marked)
        self.pain.back_wanted.connect(self.pain_back_wanted)
        self.effort.marked.connect(self.effort_marked)
        self.note.line.returnPressed.connect(self._write_note)
        self.foot.health.clicked.connect(self.see_signal)
        self.foot.more.clicked.connect(self.read_messages)
        self.messages.told.connect(self._tell_messages)
        self.above.asked.connect(self._share_height)

    def actions_and_keys(self) -> tuple[tuple[QPushButton, str, str], ...]:
        """Each action's button, its key and what it does."""
        return actions_of(self)

    def align(self) -> None:
        """The same width for labels that stand above one another, in any type."""
        self.form.align()
        same_width((self.pain.label, self.effort.label, self.note.label))

    @property
    def in_set(self) -> bool:
        """Whether a set is under way."""
        return self._in_set

    def show_athlete(self, code: str, name: str = "") -> None:
        """Who is here; the name stands at the desk only."""
        self.who.setText(code)
        self.name.setText(name)
        self.name.setVisible(bool(name))

    def lend(self, box: QWidget) -> None:
        """A box that stands in the form's place for as long as it is shown."""
        self._column.insertWidget(self._column.indexOf(self.form), box)
        box.installEventFilter(self)

    def hold_order(self, box: OrderBox) -> None:
        """The order of the day, above the set that is next."""
        self._column.insertWidget(self._column.indexOf(self.form), box)
        self._order_box = box
        box.installEventFilter(self)

    def show_order(self, *, on: bool) -> None:
        """What an order makes of the desk.

        Args:
            on: whether the fields show a set of it; only its band changes there.
        """
        if on is not self._ordered:
            self._ordered = on
            self.form.lock(locked=on or self._in_set)
            # The order box tells task, hold, reps and rest; there is no room for both.
            self.form.show_details(shown=not on)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follows a lent box, and the order's, as they show and hide themselves."""
        if event.type() in {QEvent.Type.ShowToParent, QEvent.Type.HideToParent}:
            here = event.type() is QEvent.Type.ShowToParent
            if watched is not self._order_box:
                self._show_lent(lent=here)
            self._boxes = (self._boxes - {watched}) | ({watched} if here else set())
            self._whole_signal = False
            self._fold_signal()
        return super().eventFilter(watched, event)

    def _show_lent(self, *, lent: bool) -> None:
        """Pain is asked for in a lent box, and effort not at all; their keys stay."""
        for own in (self.form, self.pain):
            own.setHidden(lent)
        self.foot.keep_effort(kept=not lent)

    def see_signal(self) -> None:
        """All that is known of the signal; where height is scarce, again folds it."""
        scarce = bool(self._boxes) or self._lacking_px > 0
        self._whole_signal = scarce and not self._whole_signal
        self._fold_signal()
        self.above.see(self.health)

    @property
    def _lacking_px(self) -> int:
        """By how much all of the signal would take what is kept for messages."""
        whole_px = self.above.needed_px() + self.health.folded_px
        others_px = self.foot.others_px() + self.messages.kept_px
        return whole_px + others_px + SPARE_PX - self.height()

    def _fold_signal(self) -> None:
        """Where height is scarce, unless all of the signal is wanted."""
        box = self._order_box
        here = box is not None and box.isVisible()
        told = box is not None and here and box.words.isVisibleTo(box)
        told = told or self.lowering.isVisibleTo(self)
        if self._whole_signal:
            self.health.fold(folded=False)
        elif self._boxes:
            # In a test, or with all fields beside what is left of an order.
            self.health.fold(folded=True, more=told or not self._ordered)
        else:
            self.health.fold(folded=False, lacking_px=self._lacking_px)
        self.form.origin.setHidden(self._ordered and told)

    def show_set(self, *, under_way: bool) -> None:
        """Locks what must not change in a set, or frees it again."""
        self._in_set = under_way
        if under_way and self.above.read is self.above.said:
            self.above.uncover()  # a set is seen with all its controls
        self.form.lock(locked=under_way or self._ordered)
        self.start.setEnabled(not under_way)
        for button in (self.health.zero_empty, self.health.zero_limb):
            button.setEnabled(not under_way)

    def hold_reps(self, *, held: bool) -> None:
        """In a set whose next rep waits for a key, that key is the start key."""
        self.start.setEnabled(held or not self._in_set)
        self.start.setText(self.tr("Go on") if held else self.tr("Start"))

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._size = size
        self.fit()
        self.foot.set_size(size)

    # Cautions and the signal.

    def read_cautions(self) -> bool:
        """In a set they are read here and not on their page; again closes them.

        Returns:
            Whether that was done; between sets they are on their page.
        """
        if self.above.read is self.above.care:
            self.above.uncover()
        elif self._in_set:
            self.show()  # it may be folded
            self.above.cover(self.above.care)
        else:
            self.above.uncover()
            return False
        return True

    def read_messages(self) -> None:
        """All messages, whole, in the place of the column; again closes them."""
        if self.above.read is self.above.said:
            self.above.uncover()
            return
        self.show()  # it may be folded
        self.above.cover(self.above.said)

    def _tell_messages(self) -> None:
        self._share_height()
        self.above.said.show_all(self.messages.all)

    def _share_height(self) -> None:
        """Messages grow by what the rest of the desk leaves, and no further.

        What speaks against a start grows as far as the fields of the band stay in
        sight, which it may ask to correct; the rest of the column then scrolls.
        """
        self._fold_signal()
        self._share_with_sets()
        others_px = self.above.needed_px() + self.foot.others_px()
        room_px = self.height() - others_px - SPARE_PX
        if self.objected and self.form.isVisible():
            fields_px = self.above.bottom_px(self.form.band)
            most_px = self.height() - self.foot.others_px() - fields_px - SPARE_PX
            needed_px = self.messages.newest_px
            if needed_px <= most_px:  # else all of it is read over the column
                room_px = max(room_px, needed_px)
        self.messages.take_room(room_px, newest=self.objected)

    def _share_with_sets(self) -> None:
        """The list of an order's sets has what all else and short messages leave."""
        box = self._order_box
        if box is None or not box.isVisible():
            return
        others_px = self.above.needed_px() - box.list_px + self.foot.others_px()
        messages = self.messages
        least_px = messages.newest_px if self.objected else messages.least_px
        if box.over:  # nothing of it is to come
            least_px = messages.kept_px
        box.take_room(self.height() - others_px - least_px - SPARE_PX)

    @property
    def objected(self) -> bool:
        """Whether the newest message is what speaks against a start."""
        said = self.messages.all
        return bool(said) and said[0] == self._objection

    def resizeEvent(self, event: QResizeEvent) -> None:
        """In a higher window messages have more room."""
        super().resizeEvent(event)
        self._share_height()

    def event(self, event: QEvent) -> bool:
        """Something at the foot is higher or lower now."""
        done = super().event(event)
        if event.type() is QEvent.Type.LayoutRequest:
            self._share_height()
        return done

    def show_health(
        self,
        health: Health,
        profile: RigProfile | None,
        *,
        drawn_age_s: float | None,
        dropped_blocks: int,
    ) -> None:
        """What is known of the signal now; as `HealthBox.show_health`."""
        self.health.show_health(
            health, profile, drawn_age_s=drawn_age_s, dropped_blocks=dropped_blocks
        )
        state = signal_state(
            health,
            profile,
            drawn_age_s=drawn_age_s,
            in_set=self._in_set,
            checked=bool(health.found) and self.checked_board == health.found,
        )
        self.foot.health.show_state(state)

    def fit(self, room_px: int | None = None) -> None:
        """As wide as the type wants it, and no wider than there is room.

        Args:
            room_px: what the athlete's screen can spare; None for as before.
        """
        if room_px is not None:
            self._room_px = room_px
        self.setFixedWidth(min(round(WIDTH_PX * self._size), self._room_px))

    def say(self, message: str) -> None:
        """A message at its one place."""
        self.messages.say(message)

    def advise(self, message: str, *, end: str = "", lasting: bool = False) -> None:
        """A message that stays in sight until the practitioner acts.

        Args:
            end: its last words, which stay in sight where it must be shortened.
            lasting: a stop does not take it away.
        """
        self.messages.advise(message, end=end, lasting=lasting)

    def object(self, message: str, *, end: str) -> None:
        """What speaks against a start; all of it is to be seen before it is passed.

        Args:
            end: its last words: how the start goes on all the same.
        """
        self._objection = shown(message)
        self.messages.advise(message, end=end)
        if not self.messages.shortened:
            self.above.see(self.form.band)
        elif self.above.read is not self.above.said:
            self.read_messages()

    def prescription(self) -> Prescription | None:
        """What stands in the fields; None after a complaint in a field."""
        return self.form.read()

    def note_kept(self) -> None:
        """What stood in the note's line is kept."""
        self.say(self.tr("Noted: {text}").format(text=self.note.text))
        self.note.set_text("")

    def take_note(self) -> None:
        """The keyboard writes a note."""
        self.above.uncover()
        self.note.line.setFocus()

    def _start(self) -> None:
        self.messages.act()
        asked = self.form.read()
        if self.form.band.unprescribed:
            self.say(self.tr("Not started: the band is not prescribed yet."))
            self.above.see(self.form.band)
            self.form.band.centre.line.setFocus()
        elif asked is None:
            self.say(self.tr("Not started: a field needs another value."))
        else:
            self.start_wanted.emit(asked)

    def _plan(self) -> None:
        if self._in_set:
            return
        asked = self.form.read()
        if asked is not None:
            self.planned.emit(asked)

    def _band_changed(self) -> None:
        band: Band = self.form.band.band
        if self._in_set or self._ordered:
            self.band_wanted.emit(band)
        else:
            self._plan()

    def _write_note(self) -> None:
        if self.note.text:
            self.note_written.emit(self.note.text)


def _rule() -> QFrame:
    line = QFrame()
    line.setObjectName("rule")
    line.setFixedHeight(1)
    return line
